/* The diameter of plain duct for a friction rate, by the search that sizing uses. */
#ifndef TESTS_UNIT_DIAMETER_H
#define TESTS_UNIT_DIAMETER_H

#include "air/friction.h"

struct plain_duct {
    const struct air *air;
    double flow, roughness;
};

static inline double plain_rate(const void *plain, double diameter) {
    const struct plain_duct *duct = plain;
    return air_friction_rate(duct->air, duct->flow, diameter, duct->roughness);
}

/* m, in which `flow` m3/s loses `rate` Pa/m. */
static inline double diameter_for_rate(const struct air *air, double flow, double rate, double roughness) {
    struct plain_duct plain = {.air = air, .flow = flow, .roughness = roughness};
    struct rate_curve curve = {.rate = plain_rate, .duct = &plain};
    return air_search_diameter(&curve, air, flow, rate);
}

#endif
