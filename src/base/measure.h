/* Units of measure: what a mechanic may write behind a number, and how figures are shown.
 * Inside the program every quantity is a double in SI (m, m3/s, Pa, m/s, W, kg, m3, K, m2K/W, radian for angles).
 */
#ifndef CLEAT_BASE_MEASURE_H
#define CLEAT_BASE_MEASURE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"

enum measure_kind {
    MEASURE_NUMBER,      /* no unit: a count or a ratio */
    MEASURE_LENGTH,      /* m */
    MEASURE_FLOW,        /* m3/s */
    MEASURE_PRESSURE,    /* Pa */
    MEASURE_FRICTION,    /* Pa/m */
    MEASURE_VELOCITY,    /* m/s */
    MEASURE_POWER,       /* W */
    MEASURE_MASS,        /* kg */
    MEASURE_AREA,        /* m2 */
    MEASURE_TEMPERATURE, /* K */
    MEASURE_RESISTANCE,  /* m2 K/W, an R-value */
    MEASURE_PERCENT,     /* fraction: 0.96 for 96 % */
    MEASURE_ANGLE,       /* radian */
    MEASURE_TIME,        /* s */
    MEASURE_VOLUME,      /* m3 */
    MEASURE_KIND_COUNT
};

/* The two systems of units a job may be reported in. */
enum measure_system { MEASURE_US, MEASURE_METRIC };

struct measure {
    const char *name; /* as written: "ft" */
    enum measure_kind kind;
    double factor; /* SI value of one */
    double offset; /* added after the factor (temperatures only) */
    const char *source;
};

/* What a kind is called and an example that can be typed in: { "an airflow", "140 cfm", "66 L/s" }. */
struct measure_words {
    const char *name;
    const char *example, *metric_example; /* the second NULL: the first in any job */
};

/* The measure written `word` (exact, then without regard to case), or NULL. */
const struct measure *measure_find(const char *word, size_t length);
const struct measure_words *measure_words(enum measure_kind kind);

/* An example of `kind` in the units that a job of `system` is written in. */
const char *measure_example(enum measure_kind kind, enum measure_system system);

/* The name of the unit nearest in spelling among those of `kind`, or NULL. */
const char *measure_nearest(const char *word, enum measure_kind kind);

double measure_to_si(const struct measure *measure, double number);

/* Whether `measure` is the unit called `name`, in whatever spelling; a NULL measure is none. */
bool measure_is(const struct measure *measure, const char *name);

/* How one kind of figure is shown.  A use, not only a kind: duct sizes are inches where runs are feet. */
enum measure_use {
    SHOW_SIZE,        /* duct dimensions: in, mm */
    SHOW_RUN,         /* run lengths: ft and in, m */
    SHOW_FLOW,        /* cfm, L/s */
    SHOW_PRESSURE,    /* in.wg, Pa */
    SHOW_FRICTION,    /* in.wg/100ft, Pa/m */
    SHOW_VELOCITY,    /* fpm, m/s */
    SHOW_AREA,        /* ft2, m2 */
    SHOW_COOLING,     /* ton, kW */
    SHOW_HEAT,        /* btu/h, kW */
    SHOW_DENSITY,     /* lb/ft3, kg/m3 */
    SHOW_TEMPERATURE, /* F, C */
    SHOW_ALTITUDE,    /* ft, m */
    SHOW_RESISTANCE,  /* R-values: h ft2 F/btu, m2K/W */
    SHOW_CUT,         /* what is scribed and cut on sheet: in to the sixteenth, mm to the half */
    SHOW_LINE,        /* a length in a line to be typed in: in to the eighth, whole mm */
    SHOW_WEIGHT,      /* lb, kg */
    MEASURE_USE_COUNT
};

struct measure_show {
    const char *unit;      /* as printed: "in. w.g." */
    int decimals;          /* at most, when trimmed */
    bool trimmed;          /* zeros at the end are left out: 10 in, 10.5 in (sizes, runs, tons, temperatures) */
    bool by_tape;          /* with its unit it is written as read off a tape (measure_tape) */
    int parts;             /* it is rounded to so many parts of one; 0: to its decimals */
    bool fraction;         /* and the parts are written as a fraction: 9-1/4 */
    double factor, offset; /* SI = shown * factor + offset */
};

const struct measure_show *measure_show(enum measure_system system, enum measure_use use);

/* The figure without its unit: "0.052", in the decimals of its use; never "-0.000". */
char *measure_figure(struct arena *arena, enum measure_system system, enum measure_use use, double si);

/* A length in feet and inches, to the eighth of an inch: "10 ft 6-1/2 in".  Gives how many bytes it has. */
enum { TAPE_ROOM = 40 };
size_t measure_tape(char text[TAPE_ROOM], double si);

/* A figure of a use that has `parts`, without its unit: "9-1/4", "235.5".  Gives how many bytes it has. */
size_t measure_parts(char text[TAPE_ROOM], const struct measure_show *show, double si);

/* A length that the program chooses, given in feet and inches, as a metric job has it: 25 mm for an inch, 300 mm for a
 * foot, so that 10 ft is 3 m and 4 ft 1.2 m.  It is a little less: a greatest distance stays one.  The habit of metric
 * drawings, from memory. */
double measure_chosen(enum measure_system system, double si);

/* The figure with its unit: "140 cfm". */
char *measure_text(struct arena *arena, enum measure_system system, enum measure_use use, double si);

/* Likewise, for a figure that has to be enough (rounded up) or must not be passed (rounded
 * down), never to the nearest. */
char *measure_text_up(struct arena *arena, enum measure_system system, enum measure_use use, double si);
char *measure_text_down(struct arena *arena, enum measure_system system, enum measure_use use, double si);

#endif
