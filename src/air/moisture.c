/* Moist air: when its water gathers on what is cold. */
#include <math.h>

#include "air/heat.h"

/* Magnus' equation over water with Sonntag's constants, as the World Meteorological Organization gives them (from
 * memory: Guide to Instruments and Methods of Observation, WMO-No. 8, annex 4.B): e = 611.2 exp(17.62 t / (243.12 +
 * t)), t in C. */
static const double magnus_pressure = 611.2, magnus_slope = 17.62, magnus_offset = 243.12;
static const double zero_celsius = 273.15;

double air_saturation_pressure(double temperature) {
    double t = temperature - zero_celsius;
    return magnus_pressure * exp(magnus_slope * t / (magnus_offset + t));
}

/* The same solved for t, with e = humidity x saturation. */
double air_dew_point(double temperature, double humidity) {
    double t = temperature - zero_celsius;
    double log_ratio = log(humidity) + magnus_slope * t / (magnus_offset + t);
    return zero_celsius + magnus_offset * log_ratio / (magnus_slope - log_ratio);
}

double heat_dew_point(const struct settings *settings, double temperature) {
    if (settings->location_dew_point > 0)
        return settings->location_dew_point;
    return settings->location_humidity > 0 && temperature > 0 ? air_dew_point(temperature, settings->location_humidity)
                                                              : 0;
}
