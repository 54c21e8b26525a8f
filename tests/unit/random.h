/* Random parameters, and the seed that gives them again, printed by every program that has them.  Include it behind
 * cmocka.h. */
#ifndef TESTS_UNIT_RANDOM_H
#define TESTS_UNIT_RANDOM_H

#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>
#include <time.h>

/* Set CLEAT_SEED to see a failure again. */
static uint64_t seed, random_state;

static inline double random_between(double low, double high) {
    random_state ^= random_state << 13;
    random_state ^= random_state >> 7;
    random_state ^= random_state << 17;
    return low + (high - low) * ((double)(random_state >> 11) / 9007199254740992.0);
}

/* 0 .. count - 1. */
static inline int random_below(int count) {
    return (int)random_between(0, count - 1e-9);
}

static inline bool random_chance(double share) {
    return random_between(0, 1) < share;
}

static inline int seed_random(void **state) {
    (void)state;
    const char *given = getenv("CLEAT_SEED");
    seed = given ? strtoull(given, NULL, 10) : (uint64_t)time(NULL);
    random_state = seed * 2654435761u + 88172645463325252u;
    print_message("CLEAT_SEED=%llu\n", (unsigned long long)seed);
    return 0;
}

#endif
