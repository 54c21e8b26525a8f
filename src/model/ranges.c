/* What a value must lie within to make sense in a building.  Wide on purpose: they catch slips of the pen and of the
 * unit, not bad practice.  All of them: common practice, no source. */
#include "base/constant.h"
#include "model/build.h"

#define FAHRENHEIT(degrees) (((degrees) + 459.67) * RANKINE)

const struct range range_airflow = {
    .what = "an airflow",
    .low = 0,
    .above = true,
    .high = 1e6 * CFM,
    .show = SHOW_FLOW,
    .hint = "leave out what takes no air, or give it some: airflow 140 cfm",
};

const struct range range_power = {
    .what = "a load or capacity",
    .low = 0,
    .above = true,
    .high = 1e7, /* W */
    .show = SHOW_HEAT,
};

const struct range range_altitude = {
    .what = "an altitude",
    .low = -1500 * FOOT,
    .high = 30000 * FOOT,
    .show = SHOW_ALTITUDE,
};

const struct range range_run = {
    .what = "a length of a run",
    .low = 0,
    .high = 10000 * FOOT,
    .show = SHOW_RUN,
};

const struct range range_side = {
    .what = "a duct's size",
    .low = 0,
    .above = true,
    .high = 20 * FOOT,
    .show = SHOW_SIZE,
};

const struct range range_allowance = {
    .what = "an allowance",
    .low = 0,
    .high = 4 * INCH,
    .show = SHOW_SIZE,
};

const struct range range_bend = {
    .what = "a deduction per bend",
    .low = 0,
    .high = 0.5 * INCH,
    .show = SHOW_SIZE,
};

/* Codes and the weatherization specification that SOURCE_HANGERS names ask for a hanger every 10 ft at least. */
const struct range range_hang_every = {
    .what = "the distance between hangers",
    .low = 1 * FOOT,
    .high = 10 * FOOT,
    .show = SHOW_RUN,
    .hint = "hang every 8 ft",
};

const struct range range_hang_below = {
    .what = "how far duct hangs below",
    .low = 0,
    .high = 30 * FOOT, /* common practice, no source */
    .show = SHOW_RUN,
};

const struct range range_sheet = {
    .what = "a sheet's size",
    .low = 0,
    .above = true,
    .high = 1000 * FOOT, /* a coil */
    .show = SHOW_RUN,
};

const struct range range_pressure = {
    .what = "a pressure",
    .low = 0,
    .high = 100 * INCH_OF_WATER,
    .show = SHOW_PRESSURE,
};

/* Published classes end at 10 in.wg.  From memory: SMACNA HVAC Duct Construction Standards. */
const struct range range_pressure_class = {
    .what = "a pressure class",
    .low = 0,
    .above = true,
    .high = 10 * INCH_OF_WATER,
    .show = SHOW_PRESSURE,
    .hint = "pressure-class 1 in.wg",
};

const struct range range_friction = {
    .what = "a friction rate",
    .low = 0,
    .above = true,
    .high = 10 * INCH_PER_100_FEET,
    .show = SHOW_FRICTION,
};

const struct range range_velocity = {
    .what = "a velocity limit",
    .low = 0,
    .above = true,
    .high = 10000 * FPM,
    .show = SHOW_VELOCITY,
};

const struct range range_supply_air = {
    .what = "the temperature of supply air",
    .low = FAHRENHEIT(30),
    .high = FAHRENHEIT(200),
    .show = SHOW_TEMPERATURE,
};

const struct range range_room_air = {
    .what = "the temperature of a room",
    .low = FAHRENHEIT(30),
    .high = FAHRENHEIT(120),
    .show = SHOW_TEMPERATURE,
};

const struct range range_design_air = {
    .what = "a design temperature",
    .low = FAHRENHEIT(-80),
    .high = FAHRENHEIT(180),
    .show = SHOW_TEMPERATURE,
};

const struct range range_insulation = {
    .what = "an R-value",
    .low = 0,
    .high = 20, /* m2 K/W */
    .show = SHOW_RESISTANCE,
};

const struct range range_lining = {
    .what = "a lining",
    .low = 0,
    .high = 6 * INCH,
    .show = SHOW_SIZE,
};

const struct range range_humidity = {
    .what = "a relative humidity",
    .low = 0,
    .above = true,
    .high = 1,
    .show = MEASURE_USE_COUNT,
    .unit = " %",
    .factor = 0.01,
};

const struct range range_leakage = {
    .what = "a share that leaks",
    .low = 0,
    .above = true,
    .high = 1,
    .show = MEASURE_USE_COUNT,
    .unit = " %",
    .factor = 0.01,
};

const struct range range_joint = {
    .what = "a joint length",
    .low = 6 * INCH,
    .high = 40 * FOOT,
    .show = SHOW_RUN,
};

const struct range range_aspect = {
    .what = "an aspect ratio",
    .low = 1,
    .high = 20,
    .show = MEASURE_USE_COUNT,
    .unit = "",
    .factor = 1,
};

const struct range range_stretch = {
    .what = "the stretch of flexible duct",
    .low = 0.5,
    .high = 1,
    .show = MEASURE_USE_COUNT,
    .unit = " %",
    .factor = 0.01,
};

const struct range range_percent = {
    .what = "a percentage",
    .low = 0,
    .high = 10, /* 1000 % */
    .show = MEASURE_USE_COUNT,
    .unit = " %",
    .factor = 0.01,
};

const struct range range_margin = {
    .what = "a margin",
    .low = 0,
    .high = 0.99, /* the whole price cannot be margin */
    .show = MEASURE_USE_COUNT,
    .unit = " %",
    .factor = 0.01,
};

const struct range range_bond = {
    .what = "a bond",
    .low = 0,
    .high = 0.99, /* likewise */
    .show = MEASURE_USE_COUNT,
    .unit = " %",
    .factor = 0.01,
};

const struct range range_amount = {
    .what = "an amount",
    .low = 0,
    .high = 1e9,
    .show = MEASURE_USE_COUNT,
    .unit = "",
    .factor = 1,
};

const struct range range_hours = {
    .what = "a time",
    .low = 0,
    .high = 10000 * HOUR, /* s */
    .show = MEASURE_USE_COUNT,
    .unit = " h",
    .factor = HOUR,
};

const struct range range_clearance = {
    .what = "a clearance",
    .low = 0,
    .high = 10 * FOOT,
    .show = SHOW_SIZE,
};

const struct range range_headroom = {
    .what = "a headroom",
    .low = 0,
    .high = 100 * FOOT,
    .show = SHOW_RUN,
};

const struct range range_coordinate = {
    .what = "a coordinate",
    .low = -100000 * FOOT,
    .high = 100000 * FOOT,
    .show = SHOW_RUN,
};
