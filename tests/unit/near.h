/* A figure against the one that it should be. Include it behind cmocka.h. */
#ifndef TESTS_UNIT_NEAR_H
#define TESTS_UNIT_NEAR_H

#include <math.h>

/* Fails unless `value` lies within `tolerance` of `want`; what is not a number never does. */
#define assert_near(value, want, tolerance)                                                                            \
    do {                                                                                                               \
        double near_value = (value), near_want = (want);                                                               \
        if (!(fabs(near_value - near_want) <= (tolerance)))                                                            \
            fail_msg("%s is %.12g, want %.12g within %g", #value, near_value, near_want, (double)(tolerance));         \
    } while (0)

#endif
