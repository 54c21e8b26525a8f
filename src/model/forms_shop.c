/* What may stand in a shop block, apart from settings.  In the order of the manual. */
#include "model/build.h"
#include "model/entries.h"
#include "model/words.h"

static const struct row rows[] = {
    {
        .form =
            {
                .word = "sizes",
                .places = IN_SHOP,
                .slots =
                    {
                        [SIZES_SHAPE] = {.kind = SLOT_CHOICE,
                                         .use = SLOT_REQUIRED,
                                         .choices = shape_choices,
                                         .meaning = "the shape they are for"},
                        [SIZES_LIST] = {.kind = SLOT_QUANTITY,
                                        .use = SLOT_REQUIRED_LIST,
                                        .measure = MEASURE_LENGTH,
                                        .meaning = "the sizes"},
                    },
                .meaning = "standard diameters, sides of rectangular duct, or lesser sides of oval duct",
                .example = "sizes round 4, 5, 6, 7, 8, 9, 10, 12",
                .metric_example = "sizes round 100, 125, 160, 200, 250, 315",
            },
        .take = take_sizes,
        .repeats = true,
    },

    {
        .form =
            {
                .word = "joint-length",
                .places = IN_SHOP,
                .slots =
                    {
                        {.kind = SLOT_QUANTITY,
                         .use = SLOT_REQUIRED,
                         .measure = MEASURE_LENGTH,
                         .meaning = "how long the blank of a joint may be"},
                    },
                .meaning = "greatest length of a joint's blank, what its ends take included; 5 ft when left out",
                .example = "joint-length 5 ft",
            },
        .take = take_number,
        .offset = offsetof(struct shop, joint_length),
        .range = &range_joint,
    },

    {
        .form =
            {
                .word = "aspect",
                .places = IN_SHOP,
                .slots =
                    {
                        {.kind = SLOT_QUANTITY, .use = SLOT_REQUIRED, .meaning = "long side over short side"},
                    },
                .meaning = "the greatest aspect ratio that sizing may choose; 4 when left out",
                .example = "aspect 4",
            },
        .take = take_number,
        .offset = offsetof(struct shop, aspect_limit),
        .range = &range_aspect,
    },

    {
        .form =
            {
                .word = "stretch",
                .places = IN_SHOP,
                .slots =
                    {
                        {.kind = SLOT_QUANTITY,
                         .use = SLOT_REQUIRED,
                         .measure = MEASURE_PERCENT,
                         .meaning = "installed length over extended length"},
                    },
                .meaning = "how far flexible duct is pulled out when the job does not say; 96 % when left out",
                .example = "stretch 96 %",
            },
        .take = take_number,
        .offset = offsetof(struct shop, flex_stretch),
        .range = &range_stretch,
    },

    {
        .form =
            {
                .word = "trunk",
                .places = IN_SHOP,
                .slots =
                    {
                        {.kind = SLOT_CHOICE, .use = SLOT_REQUIRED, .choices = shape_choices, .meaning = "the shape"},
                    },
                .meaning = "shape of what hangs from a unit or a split; rectangular when left out",
                .example = "trunk rectangular",
            },
        .take = take_trunk,
    },

    {
        .form =
            {
                .word = "runout",
                .places = IN_SHOP,
                .slots =
                    {
                        {.kind = SLOT_CHOICE, .use = SLOT_REQUIRED, .choices = shape_choices, .meaning = "the shape"},
                    },
                .meaning = "shape of what is tapped into a run; round when left out",
                .example = "runout round",
            },
        .take = take_runout,
    },

    {
        .form =
            {
                .word = "stock",
                .places = IN_SHOP,
                .slots =
                    {
                        {.kind = SLOT_SIZE, .use = SLOT_REQUIRED, .meaning = "the size of a sheet or coil"},
                        {.kind = SLOT_QUANTITY, .key = "gauge", .meaning = "its gauge"},
                        {.kind = SLOT_QUANTITY, .key = "price", .meaning = "what one costs"},
                        {.kind = SLOT_ITEM, .key = "per", .meaning = "what the price is for"},
                        {.kind = SLOT_CHOICE, .choices = material_choices, .meaning = "what it is of"},
                    },
                .meaning = "sheets and coils that the shop has; galvanised when it does not say",
                .example = "stock 48 x 120, gauge 26, price 41.50 per sheet",
                .metric_example = "stock 1250 x 2500, gauge 26, price 41.50 per sheet",
            },
        .take = take_entry,
        .says = SAYS_STOCK,
        .repeats = true,
        .range = &range_amount,
    },

    {
        .form =
            {
                .word = "offcut",
                .places = IN_SHOP,
                .slots =
                    {
                        {.kind = SLOT_SIZE, .use = SLOT_REQUIRED, .meaning = "the least size that is kept"},
                    },
                .meaning = "what is left of a sheet and at least so large is kept for another job; 12 x 24 in or 300 x "
                           "600 mm when left out",
                .example = "offcut 12 x 24",
                .metric_example = "offcut 300 x 600",
            },
        .take = take_offcut,
    },

    {
        .form =
            {
                .word = "grain",
                .places = IN_SHOP,
                .slots =
                    {
                        {.kind = SLOT_CHOICE,
                         .use = SLOT_REQUIRED,
                         .choices = grain_choices,
                         .meaning = "how blanks lie on the sheet"},
                    },
                .meaning = "lengthwise: the longer side of each blank lies along the sheet; any when left out",
                .example = "grain lengthwise",
            },
        .take = take_grain,
    },

    {
        .form =
            {
                .word = "seam",
                .places = IN_SHOP,
                .slots =
                    {
                        [SEAM_KIND] =
                            {.kind = SLOT_CHOICE, .use = SLOT_REQUIRED, .choices = seam_words, .meaning = "which seam"},
                        [SEAM_POCKET] = {.kind = SLOT_QUANTITY,
                                         .key = "pocket",
                                         .measure = MEASURE_LENGTH,
                                         .meaning = "what the pocket takes"},
                        [SEAM_FLANGE] = {.kind = SLOT_QUANTITY,
                                         .key = "flange",
                                         .measure = MEASURE_LENGTH,
                                         .meaning = "what the flange takes"},
                    },
                .meaning = "a lengthwise seam and what it takes of the sheet; with neither, the seam the shop uses",
                .example = "seam pittsburgh, pocket 1 in, flange 1/4 in",
            },
        .take = take_shop_seam,
        .repeats = true,
        .range = &range_allowance,
    },

    {
        .form =
            {
                .word = "connection",
                .places = IN_SHOP,
                .slots =
                    {
                        [CONNECTION_KIND] =
                            {.kind = SLOT_CHOICE,
                             .use = SLOT_REQUIRED,
                             .choices = joint_words,
                             .meaning = "which joint"},
                        [CONNECTION_END] = {.kind = SLOT_QUANTITY,
                                            .key = "end",
                                            .measure = MEASURE_LENGTH,
                                            .meaning = "what each end takes"},
                    },
                .meaning = "a joint between pieces and what it takes of each end",
                .example = "connection slip-and-drive, end 1/2 in",
            },
        .take = take_connection,
        .repeats = true,
        .range = &range_allowance,
    },

    {
        .form =
            {
                .word = "stack",
                .places = IN_SHOP,
                .slots =
                    {
                        {.kind = SLOT_QUANTITY, .use = SLOT_REQUIRED, .meaning = "how many sheets"},
                    },
                .meaning = "sheets of 26 gauge that are marked and notched together; 8 when left out",
                .example = "stack 8",
            },
        .take = take_stack,
    },

    {
        .form =
            {
                .word = "stations",
                .places = IN_SHOP,
                .slots =
                    {
                        {.kind = SLOT_QUANTITY, .use = SLOT_REQUIRED, .meaning = "how many ordinates"},
                    },
                .meaning = "ordinates round a curved edge of a round pattern; 16 when left out",
                .example = "stations 16",
            },
        .take = take_stations,
    },

    {
        .form =
            {
                .word = "notch",
                .places = IN_SHOP,
                .slots =
                    {
                        {.kind = SLOT_QUANTITY,
                         .use = SLOT_REQUIRED,
                         .measure = MEASURE_LENGTH,
                         .meaning = "how deep and wide it is"},
                    },
                .meaning = "the notch at the corners of end allowances; 0: as the seam and the connection ask",
                .example = "notch 1/2 in",
            },
        .take = take_number,
        .offset = offsetof(struct shop, notch),
        .range = &range_allowance,
    },

    {
        .form =
            {
                .word = "bend-deduction",
                .places = IN_SHOP,
                .slots =
                    {
                        {.kind = SLOT_QUANTITY,
                         .use = SLOT_REQUIRED,
                         .measure = MEASURE_LENGTH,
                         .meaning = "what a bend takes off"},
                    },
                .meaning = "what is taken off the sheet per 90-degree bend; none when left out",
                .example = "bend-deduction 1/16 in",
            },
        .take = take_number,
        .offset = offsetof(struct shop, bend_deduction),
        .range = &range_bend,
    },

    {
        .form =
            {
                .word = "hang",
                .places = IN_SHOP,
                .slots =
                    {
                        [HANG_EVERY] = {.kind = SLOT_QUANTITY,
                                        .key = "every",
                                        .measure = MEASURE_LENGTH,
                                        .meaning = "the greatest distance between hangers"},
                        [HANG_BELOW] = {.kind = SLOT_QUANTITY,
                                        .key = "below",
                                        .measure = MEASURE_LENGTH,
                                        .meaning = "how far its top is under what it hangs from"},
                    },
                .meaning = "how duct is hung: every 10 ft at most, 12 in below what bears it, when left out",
                .example = "hang every 8 ft, below 12 in",
            },
        .take = take_hang,
    },

    {
        .form =
            {
                .word = "contact",
                .places = IN_SHOP,
                .slots =
                    {
                        {.kind = SLOT_TEXT, .use = SLOT_REQUIRED_LIST, .meaning = "a line"},
                    },
                .meaning = "how the shop is reached, line by line, for the papers",
                .example = "contact \"3 Tinker Row, Fernhollow\", \"555 0142\"",
            },
        .take = take_contact,
    },

    {
        .form =
            {
                .word = "licence",
                .places = IN_SHOP,
                .slots =
                    {
                        {.kind = SLOT_TEXT, .use = SLOT_REQUIRED, .meaning = "its number"},
                    },
                .meaning = "the licence that the shop works under, for the papers",
                .example = "licence \"Sheet metal contractor 40127\"",
            },
        .take = take_text,
        .offset = offsetof(struct shop, licence),
    },
};

const struct row_list rows_shop = {.at = rows, .count = sizeof rows / sizeof rows[0]};
