/* Equations with the numbers put in. */
#include "report/working.h"

#include <ctype.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/constant.h"

#define POUND_FOOT3 (POUND / (FOOT * FOOT * FOOT))

const struct working_unit working_plain = {"", 1, 0};

static const struct working_units systems[] =
    {
        [MEASURE_US] =
            {
                .flow = {"cfm", CFM, 0},
                .area = {"ft2", FOOT *FOOT, 0},
                .side = {"in", INCH, 0},
                .length = {"ft", FOOT, 0},
                .velocity = {"fpm", FPM, 0},
                .pressure = {"in. w.g.", INCH_OF_WATER, 0},
                .rate = {"in. w.g./100 ft", INCH_PER_100_FEET, 0},
                .density = {"lb/ft3", POUND_FOOT3, 0},
                .viscosity = {"lb/(ft s)", POUND / FOOT, 0},
                .kinematic = {"ft2/s", FOOT *FOOT, 0},
                .temperature = {"F", RANKINE, ZERO_FAHRENHEIT},
                .difference = {"F", RANKINE, 0},
                .resistance = {"h ft2 F/btu", R_VALUE, 0},
                .conductance = {"btu/(h F)", BTU_HOUR / RANKINE, 0},
                .heat = {"btu/h", BTU_HOUR, 0},
                .capacity = {"btu/(lb F)", BTU / (POUND * RANKINE), 0},
                .slope = {"in. w.g./cfm", INCH_OF_WATER / CFM, 0},
                .sides_of_length = 12,
                .per_length = 100,
            },
        [MEASURE_METRIC] =
            {
                .flow = {"L/s", 0.001, 0},
                .area = {"m2", 1, 0},
                .side = {"mm", MILLIMETRE, 0},
                .length = {"m", 1, 0},
                .velocity = {"m/s", 1, 0},
                .pressure = {"Pa", 1, 0},
                .rate = {"Pa/m", 1, 0},
                .density = {"kg/m3", 1, 0},
                .viscosity = {"Pa s", 1, 0},
                .kinematic = {"m2/s", 1, 0},
                .temperature = {"C", 1, 273.15},
                .difference = {"K", 1, 0},
                .resistance = {"m2K/W", 1, 0},
                .conductance = {"W/K", 1, 0},
                .heat = {"W", 1, 0},
                .capacity = {"J/(kg K)", 1, 0},
                .slope = {"Pa/(L/s)", 1000, 0},
                .sides_of_length = 1000,
                .per_length = 1,
            },
};

const struct working_units *working_units_of(enum measure_system system) {
    return &systems[system];
}

double working_figure(struct working_unit unit, double si) {
    return (si - unit.offset) / unit.factor;
}

static const char *digits(struct working *working, double figure) {
    /* What is left of a sum that comes to nothing is nothing. */
    return arena_format(working->arena, "%.6g", fabs(figure) < 1e-12 ? 0 : figure);
}

const char *working_number(struct working *working, double figure) {
    const char *text = digits(working, figure);
    return text[0] == '-' ? arena_format(working->arena, "(%s)", text) : text;
}

const char *working_value(struct working *working, struct working_unit unit, double si) {
    return working_number(working, working_figure(unit, si));
}

const char *working_text(struct working *working, struct working_unit unit, double si) {
    return arena_format(working->arena, "%s%s%s", digits(working, working_figure(unit, si)), *unit.name ? " " : "",
                        unit.name);
}

/* ---- Lines ------------------------------------------------------------------------------------------------------- */

/* " (3)": the number of a source; "" where there is none. */
static const char *mark_of(struct working *working, enum source_id source) {
    if (source == SOURCE_NONE)
        return "";
    size_t at = 0;
    while (at < working->sources.count && working->sources.at[at] != source)
        at++;
    if (at == working->sources.count)
        *list_add(working->arena, &working->sources) = source;
    return arena_format(working->arena, " (%zu)", at + 1);
}

void work(struct working *working, const char *what, enum source_id source, struct working_unit unit, double si,
          const char *format, ...) {
    va_list list;
    va_start(list, format);
    const char *equation = arena_format_list(working->arena, format, list);
    va_end(list);
    document_fact(
        working->document, what,
        arena_format(working->arena, "%s = %s%s", equation, working_text(working, unit, si), mark_of(working, source)));
}

void work_given(struct working *working, const char *what, enum source_id source, const char *format, ...) {
    va_list list;
    va_start(list, format);
    const char *words = arena_format_list(working->arena, format, list);
    va_end(list);
    document_fact(working->document, what, arena_format(working->arena, "%s%s", words, mark_of(working, source)));
}

/* ---- Steps of a relation ----------------------------------------------------------------------------------------- */

static struct working_unit unit_of(const struct working *working, enum trace_quantity of) {
    static const struct working_unit degrees = {"degrees", DEGREE, 0};
    const struct working_units *units = working->units;
    const struct working_unit all[] = {
        [TRACE_NUMBER] = working_plain,       [TRACE_ANGLE] = degrees,
        [TRACE_LENGTH] = units->length,       [TRACE_AREA] = units->area,
        [TRACE_FLOW] = units->flow,           [TRACE_VELOCITY] = units->velocity,
        [TRACE_VISCOSITY] = units->kinematic, [TRACE_PRESSURE] = units->pressure,
        [TRACE_SLOPE] = units->slope,
    };
    return all[of];
}

static const char *figure_of(struct working *working, const struct trace_symbol *symbol) {
    const char *figure = working_value(working, unit_of(working, symbol->of), symbol->value);
    bool a_minutes = symbol->of == TRACE_VELOCITY && working->job->system == MEASURE_US;
    return a_minutes ? arena_format(working->arena, "(%s / 60)", figure) : figure;
}

/* NULL: it is no symbol, but a function or pi. */
static const struct trace_symbol *symbol_in(const struct trace_step *step, const char *word, size_t length) {
    for (size_t i = 0; i < step->symbol_count; i++)
        if (strlen(step->symbols[i].name) == length && memcmp(step->symbols[i].name, word, length) == 0)
            return &step->symbols[i];
    return NULL;
}

/* The relation with the figures put in. */
static const char *in_figures(struct working *working, const struct trace_step *step) {
    const char *figures = "", *at = step->relation;
    while (*at) {
        size_t length = 0;
        while (isalpha((unsigned char)*at) && isalnum((unsigned char)at[length]))
            length++;
        const struct trace_symbol *symbol = symbol_in(step, at, length);
        if (!length)
            length = strcspn(at, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz");
        figures = symbol ? arena_format(working->arena, "%s%s", figures, figure_of(working, symbol))
                         : arena_format(working->arena, "%s%.*s", figures, (int)length, at);
        at += length;
    }
    return figures;
}

void work_step(struct working *working, const struct trace_step *step) {
    struct working_unit unit = unit_of(working, step->of);
    if (step->relation)
        work(working, step->what, step->source, unit, step->result, "%s = %s = %s", step->name, step->relation,
             in_figures(working, step));
    else
        work_given(working, step->what, step->source, "%s = %s%s%s", step->name,
                   working_text(working, unit, step->result), step->words ? ", " : "", step->words ? step->words : "");
}

/* ---- Sums -------------------------------------------------------------------------------------------------------- */

enum { SUM_PART = 12 }; /* terms in a line */

void work_sum(struct working *working, const char *what, const char *name, struct working_unit unit,
              const struct working_sum *sum) {
    double total = 0;
    size_t at = 0;
    do {
        const char *terms = at ? working_value(working, unit, total) : NULL;
        for (size_t end = at + SUM_PART; at < sum->terms.count && at < end; at++) {
            double term = sum->terms.at[at];
            const char *text = digits(working, fabs(working_figure(unit, term)));
            terms = terms ? arena_format(working->arena, "%s %c %s", terms, term < 0 ? '-' : '+', text)
                          : working_value(working, unit, term);
            total += term;
        }
        bool whole = at >= sum->terms.count;
        work(working, whole ? what : arena_format(working->arena, "%s, so far", what), SOURCE_NONE, unit, total,
             "%s = %s", name, terms ? terms : "0");
    } while (at < sum->terms.count);
}

/* ---- Sources ----------------------------------------------------------------------------------------------------- */

void work_sources(struct working *working) {
    for (size_t i = 0; i < working->sources.count; i++) {
        const struct source *source = source_of(working->sources.at[i]);
        document_fact(working->document, arena_format(working->arena, "(%zu)", i + 1),
                      arena_format(working->arena, "%s: %s (%s)", source->method, source->text,
                                   source_known_words(source->known)));
    }
}
