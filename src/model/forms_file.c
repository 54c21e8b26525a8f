/* What may stand at the top of a file.  In the order of the manual. */
#include "model/build.h"
#include "model/words.h"

static const struct row rows[] = {
    {
        .form =
            {
                .word = "use",
                .places = IN_FILE,
                .slots =
                    {
                        {.kind = SLOT_TEXT, .use = SLOT_REQUIRED, .meaning = "the file to read"},
                    },
                .meaning = "reads another file in its place: a shop, a part of the job",
                .example = "use \"standard.shop\"",
            },
        .take = take_use,
        .repeats = true,
    },

    {
        .form =
            {
                .word = "job",
                .places = IN_FILE,
                .block = BLOCK_OPTIONAL,
                .slots =
                    {
                        {.kind = SLOT_TEXT, .use = SLOT_REQUIRED, .meaning = "the title of the job"},
                    },
                .meaning = "what the job is, for whom, and how it is computed",
                .example = "job \"Millrace pottery studio\" { customer \"Millrace Potters\" }",
            },
        .take = take_job,
        .repeats = true,
    },

    {
        .form =
            {
                .word = "shop",
                .places = IN_FILE,
                .block = BLOCK_REQUIRED,
                .slots =
                    {
                        {.kind = SLOT_TEXT, .use = SLOT_REQUIRED, .meaning = "the shop's name"},
                    },
                .meaning = "what the shop makes and how: standard sizes, joints, prices, hours",
                .example = "shop \"Standard\" { joint-length 5 ft }",
            },
        .take = take_shop,
        .repeats = true,
    },

    {
        .form =
            {
                .word = "unit",
                .places = IN_FILE,
                .block = BLOCK_REQUIRED,
                .slots =
                    {
                        [NAMED_NAME] = {.kind = SLOT_NAME, .use = SLOT_REQUIRED, .meaning = "the unit's name"},
                        [NAMED_TITLE] = {.kind = SLOT_TEXT, .meaning = "what it is"},
                    },
                .meaning = "equipment that moves air: air handler, furnace, heat pump",
                .example = "unit AHU \"Air handler, 3 ton\" { airflow 1200 cfm }",
            },
        .take = take_unit,
        .repeats = true,
    },

    {
        .form =
            {
                .word = "run",
                .places = IN_FILE | IN_ALTERNATE,
                .block = BLOCK_REQUIRED,
                .slots =
                    {
                        [RUN_NAME] = {.kind = SLOT_NAME, .use = SLOT_REQUIRED, .meaning = "its name"},
                        [RUN_TITLE] = {.kind = SLOT_TEXT, .meaning = "what it is"},
                        [RUN_FROM] =
                            {.kind = SLOT_PORT, .key = "from", .use = SLOT_REQUIRED, .meaning = "what it hangs from"},
                        [RUN_AT] = {.kind = SLOT_QUANTITY,
                                    .key = "at",
                                    .measure = MEASURE_LENGTH,
                                    .meaning = "how far along that run"},
                        [RUN_SIDE] = {.kind = SLOT_CHOICE, .choices = side_choices, .meaning = "the side"},
                    },
                .meaning = "a line of pieces that hangs from a unit, a run or a leg, in the order they are hung",
                .example = "run kilnside from plenum.left { straight 16 ft }",
            },
        .take = take_run,
        .repeats = true,
    },

    {
        .form =
            {
                .word = "outlet",
                .places = IN_FILE | IN_ALTERNATE,
                .block = BLOCK_REQUIRED,
                .slots =
                    {
                        [RUN_NAME] = {.kind = SLOT_NAME, .use = SLOT_REQUIRED, .meaning = "its name"},
                        [RUN_TITLE] = {.kind = SLOT_TEXT, .meaning = "what it is"},
                        [RUN_FROM] =
                            {.kind = SLOT_PORT, .key = "from", .use = SLOT_REQUIRED, .meaning = "what it hangs from"},
                        [RUN_AT] = {.kind = SLOT_QUANTITY,
                                    .key = "at",
                                    .measure = MEASURE_LENGTH,
                                    .meaning = "how far along that run"},
                        [RUN_SIDE] = {.kind = SLOT_CHOICE, .choices = side_choices, .meaning = "the side"},
                    },
                .meaning = "a run on the supply side that ends in a register",
                .example = "outlet glaze_room from kilnside at 6 ft left { airflow 140 cfm; register 10 x 6 }",
            },
        .take = take_outlet,
        .repeats = true,
    },

    {
        .form =
            {
                .word = "inlet",
                .places = IN_FILE | IN_ALTERNATE,
                .block = BLOCK_REQUIRED,
                .slots =
                    {
                        [RUN_NAME] = {.kind = SLOT_NAME, .use = SLOT_REQUIRED, .meaning = "its name"},
                        [RUN_TITLE] = {.kind = SLOT_TEXT, .meaning = "what it is"},
                        [RUN_FROM] =
                            {.kind = SLOT_PORT, .key = "from", .use = SLOT_REQUIRED, .meaning = "what it hangs from"},
                        [RUN_AT] = {.kind = SLOT_QUANTITY,
                                    .key = "at",
                                    .measure = MEASURE_LENGTH,
                                    .meaning = "how far along that run"},
                        [RUN_SIDE] = {.kind = SLOT_CHOICE, .choices = side_choices, .meaning = "the side"},
                    },
                .meaning = "a run on the return side that begins, for the air, at a grille or filter",
                .example = "inlet hall from back { filter 20 x 25 x 1 }",
            },
        .take = take_inlet,
        .repeats = true,
    },

    {
        .form =
            {
                .word = "obstacle",
                .places = IN_FILE,
                .slots =
                    {
                        [OBSTACLE_TITLE] = {.kind = SLOT_TEXT,
                                            .use = SLOT_REQUIRED,
                                            .meaning = "what stands in the way"},
                        [OBSTACLE_FROM] =
                            {.kind = SLOT_POINT, .key = "from", .use = SLOT_REQUIRED, .meaning = "one corner of it"},
                        [OBSTACLE_TO] =
                            {.kind = SLOT_POINT, .key = "to", .use = SLOT_REQUIRED, .meaning = "the opposite corner"},
                    },
                .meaning = "a box that ducts must keep clear of",
                .example = "obstacle \"drain line\" from 12 ft, 3 ft, 1 ft to 12 ft 4 in, 20 ft, 1 ft 4 in",
            },
        .take = take_obstacle,
        .repeats = true,
    },

    {
        .form =
            {
                .word = "alternate",
                .places = IN_FILE,
                .block = BLOCK_REQUIRED,
                .slots =
                    {
                        [NAMED_NAME] = {.kind = SLOT_NAME, .use = SLOT_REQUIRED, .meaning = "the alternate's name"},
                        [NAMED_TITLE] = {.kind = SLOT_TEXT, .meaning = "what it changes"},
                    },
                .meaning = "runs that are priced apart, as an add or deduct; the job is compiled once more with each",
                .example = "alternate A \"Add a register in the hall\" { outlet hall_supply from kilnside at 20 ft "
                           "right { airflow 60 cfm } }",
            },
        .take = take_alternate,
        .repeats = true,
    },

    {
        .form =
            {
                .word = "without",
                .places = IN_ALTERNATE,
                .slots =
                    {
                        {.kind = SLOT_NAME, .use = SLOT_REQUIRED_LIST, .meaning = "what it leaves out"},
                    },
                .meaning = "runs, outlets and inlets of the job that the alternate leaves out, or has others for",
                .example = "without hall_supply",
            },
        .take = take_without,
        .repeats = true,
    },

    {
        .form =
            {
                .word = "accept",
                .places = IN_FILE,
                .slots =
                    {
                        [ACCEPT_CHECK] = {.kind = SLOT_NAME,
                                          .use = SLOT_REQUIRED,
                                          .meaning = "the check whose warning is accepted"},
                        [ACCEPT_NAME] = {.kind = SLOT_NAME,
                                         .key = "on",
                                         .use = SLOT_REQUIRED,
                                         .meaning = "the run, outlet, inlet or unit it is about"},
                        [ACCEPT_BECAUSE] = {.kind = SLOT_TEXT,
                                            .key = "because",
                                            .use = SLOT_REQUIRED,
                                            .meaning = "the reason, which the report lists"},
                    },
                .meaning = "accepts a warning, with its reason",
                .example = "accept velocity on kilnside because \"no occupied room beside it\"",
            },
        .take = take_accept,
        .repeats = true,
    },
};

const struct row_list rows_file = {.at = rows, .count = sizeof rows / sizeof rows[0]};
