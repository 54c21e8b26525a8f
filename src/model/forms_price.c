/* What a shop says about money and time, some of which a job may say for itself.  In the order of the manual. */
#include "model/build.h"
#include "model/entries.h"
#include "model/words.h"

const char *const tax_choices[] = {"material", "labour", "price", NULL};

const char *const labour_choices[] = {"shop", "field", NULL};

static const char *const hour_choices[] = {"hour", "h", NULL};

/* In the order of enum location, then what is high. */
static const char *const access_choices[] = {"conditioned", "attic", "crawl", "basement", "outdoors", "high", NULL};

/* A statement that is a word and a percentage. */
#define PERCENTAGE(the_word, kept, in, words, text, within)                                                            \
    {                                                                                                                  \
        .form =                                                                                                        \
            {                                                                                                          \
                .word = (the_word),                                                                                    \
                .places = (in),                                                                                        \
                .slots = {{.kind = SLOT_QUANTITY,                                                                      \
                           .use = SLOT_REQUIRED,                                                                       \
                           .measure = MEASURE_PERCENT,                                                                 \
                           .meaning = "the percentage"}},                                                              \
                .meaning = (words),                                                                                    \
                .example = (text),                                                                                     \
            },                                                                                                         \
        .take = take_entry, .repeats = true, .says = (kept), .range = (within),                                        \
    }

static const struct row rows[] =
    {
        {
            .form =
                {
                    .word = "currency",
                    .places = IN_JOB | IN_SHOP,
                    .slots =
                        {
                            {.kind = SLOT_TEXT, .use = SLOT_REQUIRED, .meaning = "the mark before an amount"},
                        },
                    .meaning = "the mark before amounts; $ when left out, none in a metric job",
                    .example = "currency \"$\"",
                },
            .take = take_currency,
        },

        {
            .form =
                {
                    .word = "price",
                    .places = IN_SHOP,
                    .slots =
                        {
                            [PRICE_ITEM] = {.kind = SLOT_ITEM, .use = SLOT_REQUIRED, .meaning = "what is priced"},
                            [PRICE_AMOUNT] = {.kind = SLOT_QUANTITY, .use = SLOT_REQUIRED, .meaning = "the price"},
                            [PRICE_PER] =
                                {.kind = SLOT_ITEM, .key = "per", .use = SLOT_REQUIRED, .meaning = "what it is for"},
                            [PRICE_OF] = {.kind = SLOT_AMOUNT, .key = "of", .meaning = "how much is in it"},
                        },
                    .meaning = "what a thing costs; whole packages are bought",
                    .example = "price duct_sealant 18.50 per gallon",
                },
            .take = take_entry,
            .says = SAYS_PRICE,
            .repeats = true,
            .range = &range_amount,
        },

        {
            .form =
                {
                    .word = "hours",
                    .places = IN_SHOP,
                    .slots =
                        {
                            [HOURS_ITEM] = {.kind = SLOT_ITEM, .use = SLOT_REQUIRED, .meaning = "what takes the time"},
                            [HOURS_SHOP] = {.kind = SLOT_QUANTITY,
                                            .key = "shop",
                                            .measure = MEASURE_TIME,
                                            .meaning = "the time in the shop"},
                            [HOURS_FIELD] = {.kind = SLOT_QUANTITY,
                                             .key = "field",
                                             .measure = MEASURE_TIME,
                                             .meaning = "the time in the field"},
                            [HOURS_PER] = {.kind = SLOT_ITEM, .key = "per", .meaning = "what takes so long"},
                        },
                    .meaning = "how long a thing takes; per piece when it does not say",
                    .example = "hours elbow, shop 0.6 h, field 0.4 h",
                    .divides = true,
                },
            .take = take_hours,
            .says = SAYS_HOURS,
            .repeats = true,
            .range = &range_hours,
        },

        {
            .form =
                {
                    .word = "access",
                    .places = IN_SHOP,
                    .slots =
                        {
                            [ACCESS_PLACE] = {.kind = SLOT_CHOICE,
                                              .use = SLOT_REQUIRED,
                                              .choices = access_choices,
                                              .meaning = "the place"},
                            [ACCESS_FACTOR] =
                                {.kind = SLOT_QUANTITY,
                                 .use = SLOT_REQUIRED,
                                 .measure = MEASURE_PERCENT,
                                 .meaning = "what field hours become there"},
                            [ACCESS_ABOVE] = {.kind = SLOT_QUANTITY,
                                              .key = "above",
                                              .measure = MEASURE_LENGTH,
                                              .meaning = "from where on work is high"},
                        },
                    .meaning = "what field hours become in such a place, or high above the floor; 100 % when left out",
                    .example = "access attic 130 %",
                },
            .take = take_access,
            .says = SAYS_ACCESS,
            .repeats = true,
            .range = &range_percent,
        },

        {
            .form =
                {
                    .word = "rate",
                    .places = IN_SHOP,
                    .slots =
                        {
                            [RATE_OF] = {.kind = SLOT_CHOICE,
                                         .use = SLOT_REQUIRED,
                                         .choices = labour_choices,
                                         .meaning = "whose time"},
                            [RATE_AMOUNT] = {.kind = SLOT_QUANTITY, .use = SLOT_REQUIRED, .meaning = "what it costs"},
                            [RATE_PER] = {.kind = SLOT_CHOICE,
                                          .key = "per",
                                          .use = SLOT_REQUIRED,
                                          .choices = hour_choices,
                                          .meaning = "how long that buys"},
                        },
                    .meaning = "what an hour of shop or field work costs",
                    .example = "rate shop 38 per hour",
                },
            .take = take_entry,
            .says = SAYS_RATE,
            .repeats = true,
            .range = &range_amount,
        },

        PERCENTAGE("burden", SAYS_BURDEN, IN_SHOP, "payroll taxes and benefits on wages", "burden 32 %",
                   &range_percent),
        PERCENTAGE("waste", SAYS_WASTE, IN_SHOP,
                   "added to measured material whose count holds no loss: neither nested sheet nor pieces", "waste 8 %",
                   &range_percent),

        {
            .form =
                {
                    .word = "tax",
                    .places = IN_SHOP | IN_JOB,
                    .slots =
                        {
                            [TAX_RATE] = {.kind = SLOT_QUANTITY,
                                          .use = SLOT_REQUIRED,
                                          .measure = MEASURE_PERCENT,
                                          .meaning = "the percentage"},
                            [TAX_ON] =
                                {.kind = SLOT_CHOICE, .key = "on", .choices = tax_choices, .meaning = "what it is on"},
                        },
                    .meaning = "sales tax, on material when it does not say",
                    .example = "tax 6.25 %",
                },
            .take = take_entry,
            .says = SAYS_TAX,
            .repeats = true,
            .range = &range_percent,
        },

        {
            .form =
                {
                    .word = "fixed",
                    .places = IN_SHOP | IN_JOB,
                    .slots =
                        {
                            [FIXED_TITLE] = {.kind = SLOT_TEXT, .use = SLOT_REQUIRED, .meaning = "what it is for"},
                            [FIXED_AMOUNT] = {.kind = SLOT_QUANTITY, .use = SLOT_REQUIRED, .meaning = "the amount"},
                            [FIXED_TAXED] = {.kind = SLOT_FLAG,
                                             .key = "taxed",
                                             .meaning = "sales tax on material is due on it"},
                        },
                    .meaning = "a cost of a fixed amount: a permit, disposal, a crane",
                    .example = "fixed \"Permit\" 180",
                },
            .take = take_entry,
            .says = SAYS_FIXED,
            .repeats = true,
            .range = &range_amount,
        },

        {
            .form =
                {
                    .word = "subcontract",
                    .places = IN_SHOP | IN_JOB,
                    .slots =
                        {
                            [SUBCONTRACT_TITLE] = {.kind = SLOT_TEXT,
                                                   .use = SLOT_REQUIRED,
                                                   .meaning = "what others do"},
                            [SUBCONTRACT_AMOUNT] = {.kind = SLOT_QUANTITY,
                                                    .use = SLOT_REQUIRED,
                                                    .meaning = "the amount"},
                            [SUBCONTRACT_MARKUP] = {.kind = SLOT_QUANTITY,
                                                    .key = "markup",
                                                    .measure = MEASURE_PERCENT,
                                                    .meaning = "what is added to it"},
                        },
                    .meaning = "work that others do, at their price; with a markup of its own it bears no overhead, "
                               "contingency or profit",
                    .example = "subcontract \"Pipe insulation\" 900, markup 10 %",
                },
            .take = take_entry,
            .says = SAYS_SUBCONTRACT,
            .repeats = true,
            .range = &range_amount,
        },

        PERCENTAGE("overhead", SAYS_OVERHEAD, IN_SHOP, "overhead on direct cost", "overhead 12 %", &range_percent),
        PERCENTAGE("contingency", SAYS_CONTINGENCY, IN_SHOP | IN_JOB, "set aside for what is not foreseen",
                   "contingency 3 %", &range_percent),
        PERCENTAGE("markup", SAYS_MARKUP, IN_SHOP | IN_JOB, "profit, added to cost; instead of a margin", "markup 15 %",
                   &range_percent),
        PERCENTAGE("margin", SAYS_MARGIN, IN_SHOP | IN_JOB,
                   "profit, as the share of the price that is kept; instead of a markup", "margin 10 %", &range_margin),
        PERCENTAGE("bond", SAYS_BOND, IN_SHOP | IN_JOB, "a bond, as a share of the price", "bond 1.5 %", &range_bond),

        {
            .form =
                {
                    .word = "round",
                    .places = IN_SHOP | IN_JOB,
                    .slots =
                        {
                            [ROUND_TO] =
                                {.kind = SLOT_QUANTITY, .key = "to", .use = SLOT_REQUIRED, .meaning = "to whole what"},
                            [ROUND_UP] = {.kind = SLOT_FLAG, .key = "up", .meaning = "never down"},
                        },
                    .meaning = "the price is rounded to whole such amounts, half up; to the cent when left out",
                    .example = "round to 5",
                },
            .take = take_entry,
            .says = SAYS_ROUND,
            .repeats = true,
            .range = &range_amount,
        },
};

const struct row_list rows_price = {.at = rows, .count = sizeof rows / sizeof rows[0]};
