/* Moist air: when its water gathers on what is cold. */
#include <math.h>

#include "air/heat.h"
#include "base/constant.h"

double heat_saturation_pressure(double temperature) {
    double t = temperature - ZERO_CELSIUS;
    return MAGNUS_PRESSURE * exp(MAGNUS_SLOPE * t / (MAGNUS_OFFSET + t));
}

/* The same solved for t, with e = humidity x saturation. */
double heat_dew_point_of(double temperature, double humidity) {
    double t = temperature - ZERO_CELSIUS;
    double log_ratio = log(humidity) + MAGNUS_SLOPE * t / (MAGNUS_OFFSET + t);
    return ZERO_CELSIUS + MAGNUS_OFFSET * log_ratio / (MAGNUS_SLOPE - log_ratio);
}

double heat_dew_point(const struct settings *settings, double temperature) {
    if (settings->location_dew_point > 0)
        return settings->location_dew_point;
    return settings->location_humidity > 0 && temperature > 0
               ? heat_dew_point_of(temperature, settings->location_humidity)
               : 0;
}
