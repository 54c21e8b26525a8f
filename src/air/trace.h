/* The working of a loss, step by step, for whoever asks for it: each relation in symbols, with what was put in for
 * them.
 *
 * A function that computes adds its steps where it computes, so that a relation stands in one place.  A trace of NULL
 * is nobody who asks, and costs a test of a pointer: what is put in is not even looked at.
 */
#ifndef CLEAT_AIR_TRACE_H
#define CLEAT_AIR_TRACE_H

#include "base/list.h"
#include "base/source.h"
#include "model/piece.h"

/* What a figure is of, for whoever shows it; SI. */
enum trace_quantity {
    TRACE_NUMBER,
    TRACE_ANGLE,     /* rad; a relation has it in degrees, as its functions do: sin, cos, tan, atan */
    TRACE_LENGTH,    /* m: feet, where the job is in feet and inches */
    TRACE_AREA,      /* m2 */
    TRACE_FLOW,      /* m3/s */
    TRACE_VELOCITY,  /* m/s; in a relation a second's, never a minute's */
    TRACE_VISCOSITY, /* m2/s, kinematic */
    TRACE_PRESSURE,  /* Pa */
    TRACE_SLOPE,     /* Pa for each m3/s */
};

struct trace_symbol {
    const char *name; /* of letters and digits, a letter first; not "x", which multiplies */
    double value;
    enum trace_quantity of;
};

static inline struct trace_symbol trace_of(enum trace_quantity of, const char *name, double value) {
    return (struct trace_symbol){name, value, of};
}

static inline struct trace_symbol trace_number(const char *name, double value) {
    return trace_of(TRACE_NUMBER, name, value);
}

/* One line of it: `what: name = relation = relation in figures = result`, or, of what is read and not computed,
 * `what: name = result, words`. */
struct trace_step {
    const char *what;     /* "Share of its air" */
    const char *name;     /* "q" */
    const char *relation; /* "Qb / Q": with +, -, x, /, ^, brackets, sqrt, exp, min, max, abs, pi; NULL: it is read */
    const char *words;    /* where, of what is read; NULL: nothing more */
    struct trace_symbol *symbols;
    size_t symbol_count;
    double result;
    enum trace_quantity of;
    enum source_id source; /* SOURCE_NONE: geometry, or arithmetic */
};

/* Friction of a length of wall that is part of the loss. */
struct trace_rubbing {
    struct stream stream;
    double roughness, factor; /* of its wall: m, and on the friction */
    double length, pressure;  /* m, Pa */
};

struct trace {
    struct arena *arena;
    const char *name; /* what the coefficient is called that the next function gives */
    LIST(struct trace_step) steps;
    LIST(struct trace_rubbing) rubbings;
};

/* Keeps a copy of the step with those symbols. */
void trace_add(struct trace *trace, struct trace_step step, const struct trace_symbol *symbols, size_t count);

#define TRACE_SYMBOLS(...)                                                                                             \
    (const struct trace_symbol[]){__VA_ARGS__},                                                                        \
        sizeof((const struct trace_symbol[]){__VA_ARGS__}) / sizeof(struct trace_symbol)

/* A step: TRACE(trace, TRACE_NUMBER, "Share of its air", "q", "Qb / Q", q, SOURCE_NONE, symbols...). */
#define TRACE(trace, quantity, title, symbol, formula, value, id, ...)                                                 \
    do {                                                                                                               \
        if (trace)                                                                                                     \
            trace_add((trace),                                                                                         \
                      (struct trace_step){.what = (title),                                                             \
                                          .name = (symbol),                                                            \
                                          .relation = (formula),                                                       \
                                          .result = (value),                                                           \
                                          .of = (quantity),                                                            \
                                          .source = (id)},                                                             \
                      TRACE_SYMBOLS(__VA_ARGS__));                                                                     \
    } while (0)

/* The same of the coefficient that the function gives, under the name that was asked for. */
#define TRACE_COEFFICIENT(trace, title, formula, value, id, ...)                                                       \
    TRACE(trace, TRACE_NUMBER, title, (trace)->name, formula, value, id, __VA_ARGS__)

/* A figure that is read, or given, with where: words that have no `=` in them. */
void trace_read(struct trace *trace, const char *what, const char *name, double value, enum source_id source,
                const char *words);

/* What the next coefficient is called; gives what it would have been called, to be set again behind it. */
static inline const char *trace_as(struct trace *trace, const char *name) {
    if (!trace)
        return NULL;
    const char *before = trace->name;
    trace->name = name;
    return before;
}

/* What the coefficient asked for is called; NULL: nobody asks. */
static inline const char *trace_name(const struct trace *trace) {
    return trace ? trace->name : NULL;
}

/* That a figure was held to the range of a relation, where it was. */
void trace_held(struct trace *trace, const char *name, double value, double held);

#endif
