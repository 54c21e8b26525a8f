/* What air is like: pressure, density, viscosity, and the heat it carries. */
#include "air/air.h"

#include <math.h>

#include "base/constant.h"

/* US Standard Atmosphere 1976 (from memory): the lowest layer and the earth's radius. */
#define SEA_LEVEL_PRESSURE 101325.0  /* Pa */
#define SEA_LEVEL_TEMPERATURE 288.15 /* K */
#define LAPSE_RATE 0.0065            /* K/m */
#define EARTH_RADIUS 6356766.0       /* m */
#define GRAVITY 9.80665              /* m/s2 */
#define MOLAR_MASS 0.0289644         /* kg/mol */
#define GAS_CONSTANT 8.31432         /* J/(mol K), the value of that standard */
#define LOWEST (-500.0)              /* m: the altitudes a job may have */
#define HIGHEST 11000.0

/* US Standard Atmosphere 1976, Sutherland's law (from memory). */
#define SUTHERLAND_BETA 1.458e-6  /* kg/(s m K^1/2) */
#define SUTHERLAND_CONSTANT 110.4 /* K */

/* Standard air: 0.075 lb/ft3 at 70 F and sea level; specific heat 0.24 btu/(lb F), which makes the trade's
 * 1.08 btu/h per cfm and F.  From memory: ASHRAE Fundamentals. */
#define STANDARD_DENSITY (0.075 * POUND / (FOOT * FOOT * FOOT)) /* kg/m3 */
#define STANDARD_TEMPERATURE ((70.0 + 459.67) * RANKINE)        /* K */
#define SPECIFIC_HEAT (0.24 * BTU / (POUND * RANKINE))          /* J/(kg K) */

double air_pressure(double altitude) {
    double z = fmin(fmax(altitude, LOWEST), HIGHEST);
    /* Geopotential altitude H = R z / (R + z). */
    double h = EARTH_RADIUS * z / (EARTH_RADIUS + z);
    /* p = p0 (1 - L H / T0)^(g M / (R L)) */
    return SEA_LEVEL_PRESSURE *
           pow(1 - LAPSE_RATE * h / SEA_LEVEL_TEMPERATURE, GRAVITY * MOLAR_MASS / (GAS_CONSTANT * LAPSE_RATE));
}

double air_viscosity(double temperature) {
    /* mu = beta T^1.5 / (T + S) */
    return SUTHERLAND_BETA * temperature * sqrt(temperature) / (temperature + SUTHERLAND_CONSTANT);
}

struct air air_state(double altitude) {
    double pressure = air_pressure(altitude);
    /* At one temperature an ideal gas is as dense as its pressure: 0.075 lb/ft3 times the pressure ratio.  Dry air by
     * the gas law alone would be 0.0749 lb/ft3 at sea level; the trade's 0.075 is kept so that charts agree. */
    return (struct air){
        .altitude = altitude,
        .temperature = STANDARD_TEMPERATURE,
        .pressure = pressure,
        .density = STANDARD_DENSITY * pressure / SEA_LEVEL_PRESSURE,
        .density_ratio = pressure / SEA_LEVEL_PRESSURE,
        .viscosity = air_viscosity(STANDARD_TEMPERATURE),
        .specific_heat = SPECIFIC_HEAT,
    };
}

double air_velocity_pressure(const struct air *air, double velocity) {
    return air->density * velocity * velocity / 2;
}

void air_set(struct job *job) {
    job->air = air_state(job->altitude);
    for (size_t i = 0; i < job->units.count; i++)
        if (job->units.at[i]->network)
            air_walls(job->units.at[i]->network);
}
