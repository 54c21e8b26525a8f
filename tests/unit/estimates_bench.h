/* A small job whose figures are estimates.  Include it behind cmocka.h. */
#ifndef TESTS_UNIT_ESTIMATES_BENCH_H
#define TESTS_UNIT_ESTIMATES_BENCH_H

#include "cost/effect.h"
#include "price_bench.h"

/* Sizes that the job gives, or that the budget gives. */
#define FIXED "; size 8 round"
#define FREE ""

/* What is estimated, in the order of the text: the trunk's two straights, the flex of desk, where couch stands, its own
 * flex, the return. */
enum { FIRST, SECOND, DESK, STATION, COUCH, BACK, ESTIMATES };
static const double given[ESTIMATES] = {12, 6, 6, 9, 7, 4};

/* The job with these figures, in feet; `about` each, or none. */
static inline struct compiled with(const char *shop, const char *size, double blower, const double *feet,
                                   const char *more) {
    return compiled_text(
        "job \"Estimated\"\n%s"
        "unit fan { blower 460 cfm at %.4f in.wg, 400 cfm at %.4f in.wg; cooling 1 ton; supply 14 x 14; return 14 x 8 "
        "}\n"
        "run trunk from fan.supply { straight about %.2f ft; elbow 90 left; straight about %.2f ft; cap }\n"
        "outlet desk from trunk at 8 ft left { airflow 200 cfm%s; damper; flex about %.2f ft, stretched 90 %%; boot; "
        "register 12 x 8 }\n"
        "outlet couch from trunk at about %.2f ft right { room \"Den\"; airflow 200 cfm%s; damper; flex about %.2f ft; "
        "boot; register 12 x 6 }\n"
        "run back from fan.return { straight about %.2f ft }\ninlet floor from back { boot; grille 24 x 12 }\n%s",
        shop, blower - 0.1, blower, feet[FIRST], feet[SECOND], size, feet[DESK], feet[STATION], size, feet[COUCH],
        feet[BACK], more);
}

static inline struct compiled with_more(const char *shop, const char *size, double blower, size_t which,
                                        const char *more) {
    double feet[ESTIMATES];
    memcpy(feet, given, sizeof feet);
    if (which < ESTIMATES)
        feet[which] += 1;
    return with(shop, size, blower, feet, more);
}

static inline void ask(const struct compiled *compiled) {
    assert_int_equal(cleat_write(compiled->cleat, "field", "md", "/dev/null"), CLEAT_OK);
}

static inline const struct effect *effect_of(const struct compiled *compiled, size_t which) {
    assert_true(compiled->job->estimates.count > which);
    const struct effect *effect = compiled->job->estimates.at[which]->effect;
    assert_non_null(effect);
    return effect;
}

#endif
