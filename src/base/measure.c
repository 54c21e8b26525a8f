/* The table of units, and how figures are shown.
 *
 * Sources, by the name they have in the table:
 *   exact     by definition: the international inch, foot and pound (1959), the SI and its prefixes
 *   SP 811    NIST Special Publication 811 (2008), Guide for the Use of the SI, appendix B.8.  From memory. */
#include "base/measure.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/constant.h"
#include "base/text.h"

#define EXACT "exact, by definition"
#define SP811 "from memory: NIST SP 811, appendix B.8"

#define DAY (24 * HOUR)
#define SQUARE_INCH (INCH * INCH)
#define SQUARE_FOOT (FOOT * FOOT)
#define TON (12000 * BTU_HOUR) /* W; SP 811: ton of refrigeration, 12 000 btu/h */

/* One spelling of a unit a row, the usual one of each unit first. */
#define UNIT(spelling, of_kind, si, from)                                                                              \
    { .name = (spelling), .kind = (of_kind), .factor = (si), .source = (from) }
#define DEGREES_OF_HEAT(spelling, si, zero)                                                                            \
    { .name = (spelling), .kind = MEASURE_TEMPERATURE, .factor = (si), .offset = (zero), .source = EXACT }

static const struct measure measures[] = {
    UNIT("in", MEASURE_LENGTH, INCH, EXACT),
    UNIT("inch", MEASURE_LENGTH, INCH, EXACT),
    UNIT("inches", MEASURE_LENGTH, INCH, EXACT),
    UNIT("ft", MEASURE_LENGTH, FOOT, EXACT),
    UNIT("foot", MEASURE_LENGTH, FOOT, EXACT),
    UNIT("feet", MEASURE_LENGTH, FOOT, EXACT),
    UNIT("mm", MEASURE_LENGTH, 0.001, EXACT),
    UNIT("cm", MEASURE_LENGTH, 0.01, EXACT),
    UNIT("m", MEASURE_LENGTH, 1, EXACT),

    UNIT("cfm", MEASURE_FLOW, CFM, EXACT),
    UNIT("ft3/min", MEASURE_FLOW, CFM, EXACT),
    UNIT("L/s", MEASURE_FLOW, 0.001, EXACT),
    UNIT("m3/h", MEASURE_FLOW, 1 / HOUR, EXACT),
    UNIT("m³/h", MEASURE_FLOW, 1 / HOUR, EXACT),
    UNIT("m3/s", MEASURE_FLOW, 1, EXACT),
    UNIT("m³/s", MEASURE_FLOW, 1, EXACT),

    UNIT("in.wg", MEASURE_PRESSURE, INCH_OF_WATER, SP811),
    UNIT("inwg", MEASURE_PRESSURE, INCH_OF_WATER, SP811),
    UNIT("in.w.g", MEASURE_PRESSURE, INCH_OF_WATER, SP811),
    UNIT("in.wc", MEASURE_PRESSURE, INCH_OF_WATER, SP811),
    UNIT("inwc", MEASURE_PRESSURE, INCH_OF_WATER, SP811),
    UNIT("in.w.c", MEASURE_PRESSURE, INCH_OF_WATER, SP811),
    UNIT("iwg", MEASURE_PRESSURE, INCH_OF_WATER, SP811),
    UNIT("iwc", MEASURE_PRESSURE, INCH_OF_WATER, SP811),
    UNIT("Pa", MEASURE_PRESSURE, 1, EXACT),
    UNIT("kPa", MEASURE_PRESSURE, 1000, EXACT),

    UNIT("in.wg/100ft", MEASURE_FRICTION, INCH_PER_100_FEET, SP811),
    UNIT("inwg/100ft", MEASURE_FRICTION, INCH_PER_100_FEET, SP811),
    UNIT("in.w.g/100ft", MEASURE_FRICTION, INCH_PER_100_FEET, SP811),
    UNIT("in.wc/100ft", MEASURE_FRICTION, INCH_PER_100_FEET, SP811),
    UNIT("inwc/100ft", MEASURE_FRICTION, INCH_PER_100_FEET, SP811),
    UNIT("in.w.c/100ft", MEASURE_FRICTION, INCH_PER_100_FEET, SP811),
    UNIT("Pa/m", MEASURE_FRICTION, 1, EXACT),

    UNIT("fpm", MEASURE_VELOCITY, FPM, EXACT),
    UNIT("ft/min", MEASURE_VELOCITY, FPM, EXACT),
    UNIT("m/s", MEASURE_VELOCITY, 1, EXACT),

    UNIT("btu/h", MEASURE_POWER, BTU_HOUR, SP811),
    UNIT("btu/hr", MEASURE_POWER, BTU_HOUR, SP811),
    UNIT("btuh", MEASURE_POWER, BTU_HOUR, SP811),
    UNIT("mbh", MEASURE_POWER, 1000 * BTU_HOUR, SP811), /* a thousand btu/h, as the trade writes it */
    UNIT("ton", MEASURE_POWER, TON, SP811),
    UNIT("tons", MEASURE_POWER, TON, SP811),
    UNIT("W", MEASURE_POWER, 1, EXACT),
    UNIT("kW", MEASURE_POWER, 1000, EXACT),

    UNIT("lb", MEASURE_MASS, POUND, EXACT),
    UNIT("lbs", MEASURE_MASS, POUND, EXACT),
    UNIT("oz", MEASURE_MASS, POUND / 16, EXACT),
    UNIT("kg", MEASURE_MASS, 1, EXACT),

    UNIT("ft2", MEASURE_AREA, SQUARE_FOOT, EXACT),
    UNIT("ft²", MEASURE_AREA, SQUARE_FOOT, EXACT),
    UNIT("sqft", MEASURE_AREA, SQUARE_FOOT, EXACT),
    UNIT("in2", MEASURE_AREA, SQUARE_INCH, EXACT),
    UNIT("in²", MEASURE_AREA, SQUARE_INCH, EXACT),
    UNIT("sqin", MEASURE_AREA, SQUARE_INCH, EXACT),
    UNIT("m2", MEASURE_AREA, 1, EXACT),
    UNIT("m²", MEASURE_AREA, 1, EXACT),

    DEGREES_OF_HEAT("F", RANKINE, ZERO_FAHRENHEIT),
    DEGREES_OF_HEAT("degF", RANKINE, ZERO_FAHRENHEIT),
    DEGREES_OF_HEAT("°F", RANKINE, ZERO_FAHRENHEIT),
    DEGREES_OF_HEAT("C", 1, ZERO_CELSIUS),
    DEGREES_OF_HEAT("degC", 1, ZERO_CELSIUS),
    DEGREES_OF_HEAT("°C", 1, ZERO_CELSIUS),
    DEGREES_OF_HEAT("K", 1, 0),

    UNIT("R", MEASURE_RESISTANCE, R_VALUE, SP811), /* written R-8 */
    UNIT("m2K/W", MEASURE_RESISTANCE, 1, EXACT),
    UNIT("m²K/W", MEASURE_RESISTANCE, 1, EXACT),

    UNIT("%", MEASURE_PERCENT, 0.01, EXACT),
    UNIT("percent", MEASURE_PERCENT, 0.01, EXACT),

    UNIT("degrees", MEASURE_ANGLE, DEGREE, EXACT),
    UNIT("degree", MEASURE_ANGLE, DEGREE, EXACT),
    UNIT("deg", MEASURE_ANGLE, DEGREE, EXACT),
    UNIT("°", MEASURE_ANGLE, DEGREE, EXACT),

    UNIT("min", MEASURE_TIME, MINUTE, EXACT),
    UNIT("minutes", MEASURE_TIME, MINUTE, EXACT),
    UNIT("minute", MEASURE_TIME, MINUTE, EXACT),
    UNIT("h", MEASURE_TIME, HOUR, EXACT),
    UNIT("hr", MEASURE_TIME, HOUR, EXACT),
    UNIT("hours", MEASURE_TIME, HOUR, EXACT),
    UNIT("hour", MEASURE_TIME, HOUR, EXACT),
    UNIT("days", MEASURE_TIME, DAY, EXACT),
    UNIT("day", MEASURE_TIME, DAY, EXACT),

    UNIT("gallon", MEASURE_VOLUME, GALLON, EXACT),
    UNIT("gallons", MEASURE_VOLUME, GALLON, EXACT),
    UNIT("gal", MEASURE_VOLUME, GALLON, EXACT),
    UNIT("quart", MEASURE_VOLUME, GALLON / 4, EXACT),
    UNIT("quarts", MEASURE_VOLUME, GALLON / 4, EXACT),
    UNIT("litre", MEASURE_VOLUME, LITRE, EXACT),
    UNIT("litres", MEASURE_VOLUME, LITRE, EXACT),
    UNIT("liter", MEASURE_VOLUME, LITRE, EXACT),
    UNIT("liters", MEASURE_VOLUME, LITRE, EXACT),
    UNIT("L", MEASURE_VOLUME, LITRE, EXACT),
};

enum { MEASURES = sizeof measures / sizeof *measures };

static const struct measure_words kind_words[MEASURE_KIND_COUNT] = {
    [MEASURE_NUMBER] = {.name = "a number", .example = "3"},
    [MEASURE_LENGTH] = {.name = "a length", .example = "14 ft 6 in", .metric_example = "4.2 m"},
    [MEASURE_FLOW] = {.name = "an airflow", .example = "140 cfm", .metric_example = "66 L/s"},
    [MEASURE_PRESSURE] = {.name = "a pressure", .example = "0.12 in.wg", .metric_example = "30 Pa"},
    [MEASURE_FRICTION] = {.name = "a friction rate", .example = "0.08 in.wg/100ft", .metric_example = "0.65 Pa/m"},
    [MEASURE_VELOCITY] = {.name = "a velocity", .example = "700 fpm", .metric_example = "3.5 m/s"},
    [MEASURE_POWER] = {.name = "a load or capacity", .example = "36000 btu/h", .metric_example = "10.5 kW"},
    [MEASURE_MASS] = {.name = "a weight", .example = "12 lb", .metric_example = "5.5 kg"},
    [MEASURE_AREA] = {.name = "an area", .example = "20 ft2", .metric_example = "1.9 m2"},
    [MEASURE_TEMPERATURE] = {.name = "a temperature", .example = "55 F", .metric_example = "13 C"},
    [MEASURE_RESISTANCE] = {.name = "an R-value", .example = "R-8"},
    [MEASURE_PERCENT] = {.name = "a percentage", .example = "96 %"},
    [MEASURE_ANGLE] = {.name = "an angle", .example = "45 degrees"},
    [MEASURE_TIME] = {.name = "a time", .example = "30 min"},
    [MEASURE_VOLUME] = {.name = "a volume", .example = "2 gallon", .metric_example = "5 L"},
};

static const struct measure_show shows[][MEASURE_USE_COUNT] =
    {
        [MEASURE_US] =
            {
                [SHOW_SIZE] = {.unit = "in", .decimals = 2, .trimmed = true, .factor = INCH},
                [SHOW_RUN] = {.unit = "ft", .decimals = 1, .trimmed = true, .by_tape = true, .factor = FOOT},
                [SHOW_FLOW] = {.unit = "cfm", .decimals = 0, .factor = CFM},
                [SHOW_PRESSURE] = {.unit = "in. w.g.", .decimals = 3, .factor = INCH_OF_WATER},
                [SHOW_FRICTION] = {.unit = "in. w.g./100 ft", .decimals = 3, .factor = INCH_PER_100_FEET},
                [SHOW_VELOCITY] = {.unit = "fpm", .decimals = 0, .factor = FPM},
                [SHOW_AREA] = {.unit = "ft2", .decimals = 1, .factor = SQUARE_FOOT},
                [SHOW_COOLING] = {.unit = "ton", .decimals = 2, .trimmed = true, .factor = TON},
                [SHOW_HEAT] = {.unit = "btu/h", .decimals = 0, .factor = BTU_HOUR},
                [SHOW_DENSITY] = {.unit = "lb/ft3", .decimals = 4, .factor = POUND / (FOOT * SQUARE_FOOT)},
                [SHOW_TEMPERATURE] =
                    {.unit = "F", .decimals = 1, .trimmed = true, .factor = RANKINE, .offset = ZERO_FAHRENHEIT},
                [SHOW_ALTITUDE] = {.unit = "ft", .decimals = 0, .factor = FOOT},
                [SHOW_RESISTANCE] = {.unit = "h ft2 F/btu", .decimals = 1, .factor = R_VALUE},
                [SHOW_CUT] =
                    {.unit = "in", .decimals = 4, .trimmed = true, .parts = 16, .fraction = true, .factor = INCH},
                [SHOW_LINE] =
                    {.unit = "in", .decimals = 3, .trimmed = true, .parts = 8, .fraction = true, .factor = INCH},
                [SHOW_WEIGHT] = {.unit = "lb", .decimals = 1, .factor = POUND},
            },
        [MEASURE_METRIC] =
            {
                [SHOW_SIZE] = {.unit = "mm", .decimals = 1, .trimmed = true, .factor = MILLIMETRE},
                [SHOW_RUN] = {.unit = "m", .decimals = 2, .trimmed = true, .factor = 1},
                [SHOW_FLOW] = {.unit = "L/s", .decimals = 1, .factor = 0.001},
                [SHOW_PRESSURE] = {.unit = "Pa", .decimals = 1, .factor = 1},
                [SHOW_FRICTION] = {.unit = "Pa/m", .decimals = 2, .factor = 1},
                [SHOW_VELOCITY] = {.unit = "m/s", .decimals = 2, .factor = 1},
                [SHOW_AREA] = {.unit = "m2", .decimals = 2, .factor = 1},
                [SHOW_COOLING] = {.unit = "kW", .decimals = 2, .factor = 1000},
                [SHOW_HEAT] = {.unit = "kW", .decimals = 2, .factor = 1000},
                [SHOW_DENSITY] = {.unit = "kg/m3", .decimals = 3, .factor = 1},
                [SHOW_TEMPERATURE] = {.unit = "C", .decimals = 1, .trimmed = true, .factor = 1, .offset = ZERO_CELSIUS},
                [SHOW_ALTITUDE] = {.unit = "m", .decimals = 0, .factor = 1},
                [SHOW_RESISTANCE] = {.unit = "m2K/W", .decimals = 2, .factor = 1},
                [SHOW_CUT] = {.unit = "mm", .decimals = 1, .trimmed = true, .parts = 2, .factor = MILLIMETRE},
                [SHOW_LINE] = {.unit = "mm", .decimals = 0, .parts = 1, .factor = MILLIMETRE},
                [SHOW_WEIGHT] = {.unit = "kg", .decimals = 1, .factor = 1},
            },
};

/* ---- Finding ----------------------------------------------------------------------------------------------------- */

static bool same_without_case(const char *name, const char *word, size_t length) {
    for (size_t i = 0; i < length; i++)
        if (text_lower(name[i]) != text_lower(word[i])) /* also where `name` ends */
            return false;
    return name[length] == 0;
}

const struct measure *measure_find(const char *word, size_t length) {
    if (length == 0 || memchr(word, 0, length))
        return NULL;
    const struct measure *nearly = NULL;
    for (size_t i = 0; i < MEASURES; i++) {
        if (!same_without_case(measures[i].name, word, length))
            continue;
        if (memcmp(measures[i].name, word, length) == 0)
            return &measures[i];
        nearly = nearly ? nearly : &measures[i];
    }
    return nearly;
}

const struct measure_words *measure_words(enum measure_kind kind) {
    return &kind_words[kind];
}

const char *measure_example(enum measure_kind kind, enum measure_system system) {
    const struct measure_words *words = &kind_words[kind];
    return system == MEASURE_METRIC && words->metric_example ? words->metric_example : words->example;
}

const char *measure_nearest(const char *word, enum measure_kind kind) {
    const char *names[MEASURES];
    size_t count = 0;
    for (size_t i = 0; i < MEASURES; i++)
        if (measures[i].kind == kind)
            names[count++] = measures[i].name;
    return text_nearest(word, names, count);
}

double measure_to_si(const struct measure *measure, double number) {
    return number * measure->factor + measure->offset;
}

bool measure_is(const struct measure *measure, const char *name) {
    const struct measure *named = measure_find(name, strlen(name));
    return measure && named && measure->kind == named->kind && measure->factor == named->factor &&
           measure->offset == named->offset;
}

/* ---- Showing ----------------------------------------------------------------------------------------------------- */

const struct measure_show *measure_show(enum measure_system system, enum measure_use use) {
    return &shows[system][use];
}

/* Takes the zeros off the end of a decimal fraction, and the point when nothing is left behind it. */
static void trim_zeros(char *figure) {
    if (!strchr(figure, '.'))
        return;
    char *end = figure + strlen(figure);
    while (end[-1] == '0')
        *--end = 0;
    if (end[-1] == '.')
        end[-1] = 0;
}

static double shown_value(const struct measure_show *show, double si) {
    return (si - show->offset) / show->factor;
}

/* "6-1/2", "6", "1/2": `count` parts, of which `parts` make a whole; not negative. */
static size_t print_fraction(char *text, size_t room, int count, int parts) {
    int whole = count / parts, part = count % parts, below = parts;
    for (; part && part % 2 == 0; part /= 2)
        below /= 2;
    if (!part)
        return (size_t)snprintf(text, room, "%d", whole);
    if (!whole)
        return (size_t)snprintf(text, room, "%d/%d", part, below);
    return (size_t)snprintf(text, room, "%d-%d/%d", whole, part, below);
}

size_t measure_parts(char text[TAPE_ROOM], const struct measure_show *show, double si) {
    double count = round(shown_value(show, si) * show->parts);
    if (!(fabs(count) < 1e9))
        return (size_t)snprintf(text, TAPE_ROOM, "%.6g", count / show->parts);
    if (show->fraction) {
        size_t sign = (size_t)snprintf(text, TAPE_ROOM, "%s", count < 0 ? "-" : "");
        return sign + print_fraction(text + sign, TAPE_ROOM - sign, (int)fabs(count), show->parts);
    }
    snprintf(text, TAPE_ROOM, "%.*f", show->decimals, count == 0 ? 0 : count / show->parts);
    trim_zeros(text);
    return strlen(text);
}

static char *show_figure(struct arena *arena, const struct measure_show *show, double shown) {
    char text[TAPE_ROOM];
    if (show->parts)
        return arena_copy(arena, text, measure_parts(text, show, shown * show->factor + show->offset));
    char *figure = arena_format(arena, "%.*f", show->decimals, shown);
    if (show->trimmed)
        trim_zeros(figure);
    bool zero = figure[strspn(figure, "-0.")] == 0;
    return figure[0] == '-' && zero ? figure + 1 : figure;
}

char *measure_figure(struct arena *arena, enum measure_system system, enum measure_use use, double si) {
    const struct measure_show *show = measure_show(system, use);
    return show_figure(arena, show, shown_value(show, si));
}

/* What is nearer to a figure that can be shown than this part of its last digit is that figure. */
#define SAME_FIGURE 1e-6

/* The marks of a tape, as of a carpenter's or tinsmith's: eighths of an inch. */
enum { PARTS = 8, PARTS_OF_FOOT = 12 * PARTS };

/* `parts`, a whole number, as feet and inches. */
static size_t print_tape(char text[TAPE_ROOM], double parts) {
    if (!(fabs(parts) < 1e9))
        return (size_t)snprintf(text, TAPE_ROOM, "%.6g ft", parts / PARTS_OF_FOOT);
    int whole = (int)fabs(parts), feet = whole / PARTS_OF_FOOT, rest = whole % PARTS_OF_FOOT;
    int length = snprintf(text, TAPE_ROOM, "%s", parts < 0 ? "-" : "");
    if (feet || !rest)
        length += snprintf(text + length, TAPE_ROOM - (size_t)length, "%d ft%s", feet, rest ? " " : "");
    if (!rest)
        return (size_t)length;
    size_t whole_length = (size_t)length + print_fraction(text + length, TAPE_ROOM - (size_t)length, rest, PARTS);
    return whole_length + (size_t)snprintf(text + whole_length, TAPE_ROOM - whole_length, " in");
}

size_t measure_tape(char text[TAPE_ROOM], double si) {
    return print_tape(text, round(si / INCH * PARTS));
}

double measure_chosen(enum measure_system system, double si) {
    return system == MEASURE_METRIC ? si * (25 * MILLIMETRE / INCH) : si;
}

/* The figure, already rounded to what can be shown, with its unit. */
static char *with_unit(struct arena *arena, const struct measure_show *show, double shown) {
    char text[TAPE_ROOM];
    if (!show->by_tape)
        return arena_format(arena, "%s %s", show_figure(arena, show, shown), show->unit);
    return arena_copy(arena, text, print_tape(text, round(shown * PARTS_OF_FOOT)));
}

/* How many of the least that can be shown make one of the unit. */
static double fineness(const struct measure_show *show) {
    if (show->parts)
        return show->parts;
    return show->by_tape ? PARTS_OF_FOOT : pow(10, show->decimals);
}

char *measure_text(struct arena *arena, enum measure_system system, enum measure_use use, double si) {
    const struct measure_show *show = measure_show(system, use);
    return with_unit(arena, show, shown_value(show, si));
}

char *measure_text_up(struct arena *arena, enum measure_system system, enum measure_use use, double si) {
    const struct measure_show *show = measure_show(system, use);
    double digits = fineness(show);
    return with_unit(arena, show, ceil(shown_value(show, si) * digits - SAME_FIGURE) / digits);
}

char *measure_text_down(struct arena *arena, enum measure_system system, enum measure_use use, double si) {
    const struct measure_show *show = measure_show(system, use);
    double digits = fineness(show);
    return with_unit(arena, show, floor(shown_value(show, si) * digits + SAME_FIGURE) / digits);
}
