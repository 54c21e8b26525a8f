/* What may stand in a job block.  In the order of the manual. */
#include "model/build.h"
#include "model/words.h"

static const struct row rows[] = {
    {
        .form =
            {
                .word = "customer",
                .places = IN_JOB,
                .slots =
                    {
                        {.kind = SLOT_TEXT, .use = SLOT_REQUIRED, .meaning = "who it is for"},
                    },
                .meaning = "who it is for, for the papers",
                .example = "customer \"Millrace Potters\"",
            },
        .take = take_text,
        .offset = offsetof(struct job, customer),
    },

    {
        .form =
            {
                .word = "location",
                .places = IN_JOB,
                .slots =
                    {
                        {.kind = SLOT_TEXT, .use = SLOT_REQUIRED, .meaning = "where it is"},
                    },
                .meaning = "where it is, for the papers",
                .example = "location \"7 Kiln Lane, Fernhollow\"",
            },
        .take = take_text,
        .offset = offsetof(struct job, location),
    },

    {
        .form =
            {
                .word = "revision",
                .places = IN_JOB,
                .slots =
                    {
                        {.kind = SLOT_QUANTITY, .use = SLOT_REQUIRED, .meaning = "its number"},
                    },
                .meaning = "which revision of the job this is",
                .example = "revision 2",
            },
        .take = take_revision,
    },

    {
        .form =
            {
                .word = "date",
                .places = IN_JOB,
                .slots =
                    {
                        {.kind = SLOT_DATE, .use = SLOT_REQUIRED, .meaning = "the date"},
                    },
                .meaning = "the date on the papers",
                .example = "date 2026-04-18",
            },
        .take = take_date,
    },

    {
        .form =
            {
                .word = "altitude",
                .places = IN_JOB,
                .slots =
                    {
                        {.kind = SLOT_QUANTITY,
                         .use = SLOT_REQUIRED,
                         .measure = MEASURE_LENGTH,
                         .meaning = "how high above the sea the building stands"},
                    },
                .meaning = "height above the sea, for the density of the air; 0 when left out",
                .example = "altitude 1250 ft",
            },
        .take = take_altitude,
        .offset = offsetof(struct job, altitude),
        .range = &range_altitude,
    },

    {
        .form =
            {
                .word = "units",
                .places = IN_JOB | IN_SHOP,
                .slots =
                    {
                        {.kind = SLOT_CHOICE,
                         .use = SLOT_REQUIRED,
                         .choices = system_choices,
                         .meaning = "the system of units"},
                    },
                .meaning = "what a bare length means (inches or millimetres) and how reports are written; us when left "
                           "out; in a shop, what its own bare lengths mean",
                .example = "units metric",
            },
        .take = take_units,
    },

    {
        .form =
            {
                .word = "paper",
                .places = IN_JOB,
                .slots =
                    {
                        {.kind = SLOT_CHOICE,
                         .use = SLOT_REQUIRED,
                         .choices = paper_choices,
                         .meaning = "the size of a page"},
                    },
                .meaning = "the paper that pages are laid out for; letter when left out, a4 after units metric",
                .example = "paper a4",
            },
        .take = take_paper,
    },

    {
        .form =
            {
                .word = "sizing",
                .places = IN_JOB,
                .slots =
                    {
                        {.kind = SLOT_NAME, .use = SLOT_REQUIRED, .meaning = "the method"},
                    },
                .meaning = "how ducts are sized: equal-friction, velocity, static-regain or least-cost; the first when "
                           "left out",
                .example = "sizing equal-friction",
            },
        .take = take_text,
        .offset = offsetof(struct job, sizing),
        .at_offset = offsetof(struct job, sizing_at),
    },

    {
        .form =
            {
                .word = "friction",
                .places = IN_JOB,
                .slots =
                    {
                        {.kind = SLOT_QUANTITY,
                         .use = SLOT_REQUIRED,
                         .measure = MEASURE_FRICTION,
                         .meaning = "the friction rate"},
                    },
                .meaning = "the friction rate to size by; found from the budget when left out",
                .example = "friction 0.08 in.wg/100ft",
            },
        .take = take_number,
        .offset = offsetof(struct job, friction_rate),
        .at_offset = offsetof(struct job, friction_rate_at),
        .range = &range_friction,
    },

    {
        .form =
            {
                .word = "valid",
                .places = IN_JOB,
                .slots =
                    {
                        {.kind = SLOT_QUANTITY,
                         .use = SLOT_REQUIRED,
                         .measure = MEASURE_TIME,
                         .meaning = "how long the bid stands"},
                    },
                .meaning = "how long the bid stands, in whole days",
                .example = "valid 30 days",
            },
        .take = take_valid,
    },

    {
        .form =
            {
                .word = "include",
                .places = IN_JOB,
                .slots =
                    {
                        {.kind = SLOT_TEXT, .use = SLOT_REQUIRED_LIST, .meaning = "what the bid includes"},
                    },
                .meaning = "what the bid includes",
                .example = "include \"Start-up and balance\"",
            },
        .take = take_include,
        .repeats = true,
    },

    {
        .form =
            {
                .word = "exclude",
                .places = IN_JOB,
                .slots =
                    {
                        {.kind = SLOT_TEXT, .use = SLOT_REQUIRED_LIST, .meaning = "what the bid leaves out"},
                    },
                .meaning = "what the bid leaves out",
                .example = "exclude \"Line-voltage wiring\", \"Patching and painting\"",
            },
        .take = take_exclude,
        .repeats = true,
    },

    {
        .form =
            {
                .word = "note",
                .places = IN_JOB,
                .slots =
                    {
                        {.kind = SLOT_TEXT, .use = SLOT_REQUIRED_LIST, .meaning = "a remark for the papers"},
                    },
                .meaning = "a remark for the papers",
                .example = "note \"Work on weekdays only\"",
            },
        .take = take_note,
        .repeats = true,
    },

    {
        .form =
            {
                .word = "assume",
                .places = IN_JOB,
                .slots =
                    {
                        {.kind = SLOT_TEXT, .use = SLOT_REQUIRED_LIST, .meaning = "what the bid rests on"},
                    },
                .meaning = "what the bid rests on, such as access and power",
                .example = "assume \"The owner clears the attic\"",
            },
        .take = take_assume,
        .repeats = true,
    },

    {
        .form =
            {
                .word = "terms",
                .places = IN_JOB | IN_SHOP,
                .slots =
                    {
                        {.kind = SLOT_TEXT, .use = SLOT_REQUIRED_LIST, .meaning = "a term"},
                    },
                .meaning = "terms of payment and the like; those of the shop when the job has none",
                .example = "terms \"Half at acceptance, the rest when the record of the balance is handed over\"",
            },
        .take = take_terms,
    },
};

const struct row_list rows_job = {.at = rows, .count = sizeof rows / sizeof rows[0]};
