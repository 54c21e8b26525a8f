/* Working on paper: equations with the numbers put in, in the units of the job.
 *
 *     Velocity: V = Q / A = 140 / 0.349066 = 401.07 fpm (2)
 *
 * Every number has six digits, so that whoever evaluates what stands before the last `=` comes to what stands behind it
 * within five.  The number in brackets is that of the source, listed at the end.
 */
#ifndef CLEAT_REPORT_WORKING_H
#define CLEAT_REPORT_WORKING_H

#include "air/trace.h"
#include "model/job.h"
#include "report/document.h"

/* A unit that figures are worked in: SI = figure * factor + offset. */
struct working_unit {
    const char *name;
    double factor, offset;
};

/* The trade's units, or metric ones. */
struct working_units {
    struct working_unit flow, area, side, length, velocity, pressure, rate, density, viscosity, kinematic, temperature,
        difference, resistance, conductance, heat, capacity, slope;
    double sides_of_length; /* side units in a length unit: 12 in a foot */
    double per_length;      /* length that a rate is for: 100 ft, 1 m */
};

struct working {
    const struct job *job;
    struct document *document;
    struct arena *arena;
    const struct working_units *units;
    LIST(enum source_id) sources; /* in the order they were first needed */
};

const struct working_units *working_units_of(enum measure_system system);

/* A figure of six digits, without its unit; one under 0 in brackets, to stand behind an operator. */
const char *working_number(struct working *working, double figure);
/* The same with no brackets and its unit, to stand behind a `=`: "0.0123 in. w.g.". */
const char *working_text(struct working *working, struct working_unit unit, double si);
/* Of an SI value in a unit. */
double working_figure(struct working_unit unit, double si);
const char *working_value(struct working *working, struct working_unit unit, double si);

/* "What: equation = RESULT unit (3)": the result is that SI value; `format` gives all before it. */
void work(struct working *working, const char *what, enum source_id source, struct working_unit unit, double si,
          const char *format, ...) __attribute__((format(printf, 6, 7)));

/* "What: NAME = VALUE unit (3)": what is given, with where it comes from in words (NULL: nothing to say). */
void work_given(struct working *working, const char *what, enum source_id source, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* A step of a working as src/air or src/piece left it: the relation, and the same with the figures put in. */
void work_step(struct working *working, const struct trace_step *step);

/* A sum, in parts where it is long: "h = a + b + c = SUM unit". */
struct working_sum {
    LIST(double) terms; /* SI */
};
void work_sum(struct working *working, const char *what, const char *name, struct working_unit unit,
              const struct working_sum *sum);

/* A pure number as a unit. */
extern const struct working_unit working_plain;

/* The sources in their order, with their numbers. */
void work_sources(struct working *working);

#endif
