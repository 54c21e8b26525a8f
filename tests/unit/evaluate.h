/* Works out the relation of a step of a working, with the figures that it was given: angles in degrees, as a reader
 * does. */
#ifndef TESTS_UNIT_EVALUATE_H
#define TESTS_UNIT_EVALUATE_H

#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "air/trace.h"
#include "base/constant.h"

struct evaluating {
    const struct trace_step *step;
    const char *at;
    bool failed; /* a name that no figure was given for, or no relation at all */
};

static inline double evaluate_sum(struct evaluating *e);

static inline void evaluate_skip(struct evaluating *e) {
    while (*e->at == ' ')
        e->at++;
}

static inline bool evaluate_takes(struct evaluating *e, char c) {
    evaluate_skip(e);
    if (*e->at != c)
        return false;
    e->at++;
    return true;
}

static inline double evaluate_call(struct evaluating *e, const char *name) {
    double first = evaluate_sum(e), second = evaluate_takes(e, ',') ? evaluate_sum(e) : NAN;
    double third = evaluate_takes(e, ',') ? evaluate_sum(e) : NAN;
    e->failed |= !evaluate_takes(e, ')');
    if (strcmp(name, "min") == 0)
        return fmin(fmin(first, second), third);
    if (strcmp(name, "max") == 0)
        return fmax(fmax(first, second), third);
    if (strcmp(name, "sqrt") == 0)
        return sqrt(first);
    if (strcmp(name, "exp") == 0)
        return exp(first);
    if (strcmp(name, "abs") == 0)
        return fabs(first);
    if (strcmp(name, "sin") == 0)
        return sin(first * DEGREE);
    if (strcmp(name, "cos") == 0)
        return cos(first * DEGREE);
    if (strcmp(name, "atan") == 0)
        return atan(first) / DEGREE;
    e->failed = true;
    return NAN;
}

static inline double evaluate_name(struct evaluating *e) {
    char name[32] = "";
    size_t length = 0;
    while (isalnum((unsigned char)*e->at) && length + 1 < sizeof name)
        name[length++] = *e->at++;
    for (size_t i = 0; i < e->step->symbol_count; i++) {
        const struct trace_symbol *symbol = &e->step->symbols[i];
        if (strcmp(symbol->name, name) == 0)
            return symbol->of == TRACE_ANGLE ? symbol->value / DEGREE : symbol->value;
    }
    if (strcmp(name, "pi") == 0)
        return PI;
    e->failed |= !evaluate_takes(e, '(');
    return e->failed ? NAN : evaluate_call(e, name);
}

static inline double evaluate_one(struct evaluating *e) {
    evaluate_skip(e);
    if (evaluate_takes(e, '(')) {
        double value = evaluate_sum(e);
        e->failed |= !evaluate_takes(e, ')');
        return value;
    }
    if (isalpha((unsigned char)*e->at))
        return evaluate_name(e);
    char *end;
    double value = strtod(e->at, &end);
    e->failed |= end == e->at;
    e->at = end;
    return value;
}

static inline double evaluate_power(struct evaluating *e) {
    double base = evaluate_one(e);
    return evaluate_takes(e, '^') ? pow(base, evaluate_one(e)) : base;
}

static inline double evaluate_product(struct evaluating *e) {
    double value = evaluate_takes(e, '-') ? -evaluate_power(e) : evaluate_power(e);
    for (;;) {
        evaluate_skip(e);
        if (e->at[0] == 'x' && e->at[1] == ' ')
            e->at++, value *= evaluate_power(e);
        else if (evaluate_takes(e, '/'))
            value /= evaluate_power(e);
        else
            return value;
    }
}

static inline double evaluate_sum(struct evaluating *e) {
    double value = evaluate_product(e);
    for (;;) {
        if (evaluate_takes(e, '+'))
            value += evaluate_product(e);
        else if (evaluate_takes(e, '-'))
            value -= evaluate_product(e);
        else
            return value;
    }
}

/* What the relation comes to, in the unit of the step's result; NAN: it cannot be worked out. */
static inline double evaluate(const struct trace_step *step) {
    struct evaluating e = {.step = step, .at = step->relation};
    double value = evaluate_sum(&e);
    evaluate_skip(&e);
    return e.failed || *e.at ? NAN : step->of == TRACE_ANGLE ? value * DEGREE : value;
}

#endif
