/* Shops and small jobs to be priced. Include it behind cmocka.h and compiled.h. */
#ifndef TESTS_UNIT_PRICE_BENCH_H
#define TESTS_UNIT_PRICE_BENCH_H

#include "compiled.h"
#include "cost/price.h"

/* A price for everything that is bought, hours for all work. */
#define BENCH_PRICES                                                                                                   \
    "stock 48 x 120, gauge 26, price 41.50 per sheet\n"                                                                \
    "stock 48 x 120, gauge 24, price 52.25 per sheet\n"                                                                \
    "price sheet_metal 1.45 per ft2\n"                                                                                 \
    "price flex 46.25 per box of 25 ft\n"                                                                              \
    "price canvas_connector 2.90 per foot\n"                                                                           \
    "price register 14.20 per each\n"                                                                                  \
    "price grille 27.60 per each\n"                                                                                    \
    "price filter 24.50 per each\n"                                                                                    \
    "price damper 11.75 per each\n"                                                                                    \
    "price backdraft_damper 26 per each\n"                                                                             \
    "price fire_damper 71 per each\n"                                                                                  \
    "price boot 9.40 per each\n"                                                                                       \
    "price ready_made 12 per each\n"                                                                                   \
    "price hanger_strap 21.00 per roll of 100 ft\n"                                                                    \
    "price riser_support 11.00 per each\n"                                                                             \
    "price flex_strap 0.06 per foot\n"                                                                                 \
    "price hanger_fastener 0.16 per each\n"                                                                            \
    "price screws 8.40 per box of 500\n"                                                                               \
    "price flex_sleeve 3.20 per each\n"                                                                                \
    "price flex_tie 0.12 per each\n"                                                                                   \
    "price flange_corner 0.36 per each\n"                                                                              \
    "price flange_bolt 0.21 per each\n"                                                                                \
    "price duct_sealant 18.50 per gallon\n"                                                                            \
    "price duct_tape 0.11 per foot\n"                                                                                  \
    "price gasket 0.15 per foot\n"                                                                                     \
    "price duct_wrap 124 per roll of 200 ft2\n"                                                                        \
    "price duct_liner 0.88 per ft2\n"                                                                                  \
    "price liner_pin 0.05 per each\n"                                                                                  \
    "price liner_adhesive 26 per gallon\n"

#define BENCH_HOURS                                                                                                    \
    "hours straight, shop 0.35 h, field 0.50 h\n"                                                                      \
    "hours elbow, shop 0.60 h, field 0.40 h\n"                                                                         \
    "hours transition, shop 0.75 h, field 0.40 h\n"                                                                    \
    "hours offset, shop 0.80 h, field 0.45 h\n"                                                                        \
    "hours split, shop 1.50 h, field 0.75 h\n"                                                                         \
    "hours box, shop 1 h, field 0.6 h\n"                                                                               \
    "hours tap, shop 0.30 h, field 0.35 h\n"                                                                           \
    "hours cap, shop 0.15 h, field 0.10 h\n"                                                                           \
    "hours boot, shop 0.35 h, field 0.30 h\n"                                                                          \
    "hours connector, shop 0.25 h, field 0.30 h\n"                                                                     \
    "hours damper, shop 0.20 h, field 0.10 h\n"                                                                        \
    "hours drop, field 0.25 h\n"                                                                                       \
    "hours flex, field 0.30 h\n"                                                                                       \
    "hours register, field 0.20 h\n"                                                                                   \
    "hours grille, field 0.25 h\n"                                                                                     \
    "hours filter, field 0.20 h\n"                                                                                     \
    "hours hanger, field 0.20 h\n"                                                                                     \
    "hours splice, field 0.25 h\n"                                                                                     \
    "hours sealing, field 0.012 h per foot\n"                                                                          \
    "hours wrapping, field 0.015 h per ft2\n"                                                                          \
    "hours lining, shop 0.02 h per ft2\n"

#define BENCH_TERMS                                                                                                    \
    "rate shop 38 per hour\nrate field 44 per hour\nburden 32 %\noverhead 12 %\ncontingency 3 %\nmarkup 15 %\n"        \
    "tax 6.25 %\nwaste 8 %\n"

#define BENCH_SHOP "shop \"Bench\" {\n" BENCH_PRICES BENCH_HOURS BENCH_TERMS "}\n"

/* Sizes that nothing else moves: what is changed in one run stays in it. */
#define BENCH_JOB                                                                                                      \
    "unit fan { blower 460 cfm at 0.30 in.wg, 400 cfm at 0.60 in.wg, 180 cfm at 0.80 in.wg; cooling 1 ton; supply 10 " \
    "x 10; return 14 x 8 }\n"                                                                                          \
    "run trunk from fan.supply { straight 12 ft; cap }\n"                                                              \
    "outlet desk from trunk at 8 ft left { airflow 200 cfm; size 8 round; damper; flex 6 ft; boot; register 12 x 8 "   \
    "}\n"                                                                                                              \
    "outlet couch from trunk at 11 ft right { airflow 200 cfm; size 8 round; damper; flex 7 ft; boot; register 12 x "  \
    "6 }\n"                                                                                                            \
    "run back from fan.return { straight 4 ft }\n"                                                                     \
    "inlet floor from back { boot; grille 24 x 12 }\n"

/* The price of a job that must have one; the test ends when it has not. */
static inline const struct price *bench_price(const struct compiled *compiled) {
    if (compiled->job->price && compiled->job->price->complete && !compiled->job->diagnostics->error_count)
        return compiled->job->price;
    cleat_print_diagnostics(compiled->cleat, stderr, false, false);
    fprintf(stderr, "no price for:\n%s\n", compiled->text);
    abort();
}

static inline const struct priced_line *bench_line(const struct price *price, const char *title) {
    for (size_t i = 0; i < price->lines.count; i++)
        if (strstr(price->lines.at[i].line->title, title))
            return &price->lines.at[i];
    fprintf(stderr, "nothing is called %s\n", title);
    abort();
}

static inline const struct step *bench_step(const struct price *price, enum step_kind kind) {
    for (size_t i = 0; i < price->build_up.steps.count; i++)
        if (price->build_up.steps.at[i].kind == kind)
            return &price->build_up.steps.at[i];
    return NULL;
}

#endif
