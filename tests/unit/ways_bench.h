/* Random small jobs whose blower cannot.  Include it behind cmocka.h. */
#ifndef TESTS_UNIT_WAYS_BENCH_H
#define TESTS_UNIT_WAYS_BENCH_H

#include "compiled.h"
#include "random.h"

/* ---- A random job ------------------------------------------------------------------------------------------------ */

static inline const char *elbow(void) {
    static const char *const elbows[] = {"elbow 90 left, square", "elbow 90 right, radius 0.7", "elbow 90 up, square",
                                         "elbow 90 left", "elbow 45 right, radius 0.5"};
    return elbows[random_below(5)];
}

static inline const char *tap(void) {
    static const char *const taps[] = {"", "tap conical; ", "tap shoe; ", "tap shoe; "};
    return taps[random_below(4)];
}

static inline void outlet(FILE *out, int number, double station) {
    fprintf(out, "outlet o%d from trunk at %.0f ft %s { airflow %d cfm; %ssize %d; ", number, station,
            number % 2 ? "left" : "right", 100 + 20 * random_below(5), tap(), 5 + random_below(3));
    if (random_below(2))
        fprintf(out, "straight %d ft; %s; ", 2 + random_below(8), elbow());
    fprintf(out, "%s %d ft; boot; register 12 x 8, 0.03 in.wg }\n", random_below(2) ? "flex" : "straight",
            3 + random_below(9));
}

/* Always the same jobs: what the test proves does not depend on the day. */
static inline void random_begin(uint64_t job_seed) {
    random_state = job_seed * 2654435761u + 88172645463325252u;
    for (int i = 0; i < 8; i++)
        random_between(0, 1);
}

/* The same job for the same seed, with that pressure; through that pass (NULL: all), and priced by that shop. */
static inline struct compiled job_of(uint64_t job_seed, double pressure, const char *pass, const char *shop) {
    random_begin(job_seed);
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    assert_non_null(out);
    int outlets = 1 + random_below(2);
    fprintf(out,
            "job \"Random\" { friction 0.1 in.wg/100ft }\n"
            "unit fan { blower \"low\" 1 cfm at %.6f Pa, 4000 cfm at %.6f Pa\n",
            pressure, pressure * 0.999);
    if (random_below(4) == 0)
        fprintf(out, "blower \"high\" 1 cfm at %.6f Pa, 4000 cfm at %.6f Pa\n", pressure * 1.1, pressure * 1.05);
    fprintf(out, "speed \"low\"\n}\nrun trunk from fan.supply { size %d x 10; straight 10 ft; ",
            10 + 2 * random_below(3));
    if (random_below(2))
        fprintf(out, "%s; straight 10 ft; ", elbow());
    if (random_below(2))
        fprintf(out, "transition to 8 x 8 over 1 ft; ");
    fprintf(out, "straight 20 ft; cap }\n");
    for (int i = 0; i < outlets; i++)
        outlet(out, i, 24 + 4 * i);
    fprintf(out,
            "run back from fan.return { size %d x 10; straight 6 ft; %s }\n"
            "inlet hall from back { boot; filter 24 x 14 x 1, 0.08 in.wg }\n",
            10 + 2 * random_below(4), elbow());
    fputs(shop, out);
    fclose(out);
    struct compiled compiled = pass ? compiled_until(pass, "%s", text) : compiled_text("%s", text);
    free(text);
    return compiled;
}

/* The pressure with which it is short by 2 to 24 % of what it takes. */
static inline double short_pressure(uint64_t job_seed) {
    struct compiled easy = job_of(job_seed, 900, "operate", "");
    double total = 900 - compiled_network(&easy)->surplus;
    compiled_free(&easy);
    random_begin(job_seed * 31 + 7);
    return total * (0.98 - 0.22 * random_between(0, 1));
}

static inline struct compiled short_job(uint64_t job_seed) {
    return job_of(job_seed, short_pressure(job_seed), "operate", "");
}

#endif
