/* What the files of the checks share. */
#include <stdarg.h>

#include "check/checks.h"
#include "model/lined.h"
#include "model/words.h"
#include "size/size.h"

const char *check_both(struct arena *arena, enum measure_use use, double si) {
    return arena_format(arena, "%s (%s)", measure_text(arena, MEASURE_US, use, si),
                        measure_text(arena, MEASURE_METRIC, use, si));
}

struct diagnostic *check_warn(const struct look *look, struct span at, const char *subject, const char *format, ...) {
    va_list list;
    va_start(list, format);
    const char *message = arena_format_list(look->job->arena, format, list);
    va_end(list);
    struct diagnostic *said =
        diagnose(look->job->diagnostics, DIAGNOSTIC_WARNING, look->check->name, at, "%s", message);
    said->subject = subject;
    look->result->warned++;
    return said;
}

const char *check_name(const struct look *look, const struct run *run) {
    return diagnostic_named(look->job->diagnostics, run->name);
}

const struct section *check_worst(const struct run *run, double (*measure)(const struct section *section)) {
    const struct section *worst = NULL;
    double greatest = 0;
    for (const struct section *at = run->last_section; at && at->run == run; at = at->parent) {
        double value = measure(at);
        if (value <= 0 || value < greatest)
            continue;
        worst = at;
        greatest = value;
    }
    return worst;
}

void check_each_item(const struct look *look,
                     void (*see)(const struct look *look, const struct section *section, const struct item *item)) {
    for (size_t u = 0; u < look->job->units.count; u++) {
        const struct network *network = look->job->units.at[u]->network;
        for (size_t s = 0; network && s < network->sections.count; s++) {
            const struct section *section = network->sections.at[s];
            for (size_t i = 0; i < section->items.count; i++)
                see(look, section, &section->items.at[i]);
        }
    }
}

void check_face(const struct look *look, const struct piece *piece, enum face_use use) {
    const struct run *run = piece->run;
    struct duct_size face = piece->kind->face(piece);
    if (!size_known(face) || !run->last_section)
        return;
    const struct velocity_guide *guide = face_guide(use);
    double flow = run->last_section->flow, velocity = flow / size_area(face);
    look->result->looked_at++;
    if (!check_over(velocity, guide->limit))
        return;
    struct diagnostic *said = check_warn(
        look, piece->at, run->name, "%s at the face of %s: %s through %s is over %s, the limit for %s",
        check_text(look->job, SHOW_VELOCITY, velocity), check_name(look, run), check_text(look->job, SHOW_FLOW, flow),
        check_size_text(look->job, face), check_text(look->job, SHOW_VELOCITY, guide->limit), guide->name);
    diagnostic_hint(look->job->diagnostics, said, "a face of %s would do",
                    check_text_up(look->job, SHOW_AREA, flow / guide->limit));
}

static struct size_bounds bounds_of(const struct look *look, const struct duct *duct) {
    struct size_bounds bounds = run_bounds(&look->job->shop, duct->run);
    bounds.keep_height = duct->size.height;
    return bounds;
}

bool check_larger(const struct look *look, const struct duct *duct, const struct size_need *need,
                  struct duct_size *size) {
    struct size_bounds bounds = bounds_of(look, duct);
    return choose_size(look->job->catalogue, duct->size.shape, need, &bounds, size);
}

bool check_next(const struct look *look, const struct duct *duct, struct duct_size *size) {
    struct size_bounds bounds = bounds_of(look, duct);
    return choose_next(look->job->catalogue, &(struct size_need){0}, &bounds, size);
}

const char *check_other_side(const struct look *look, const struct run *tapped, struct duct_size size) {
    const struct duct *own = tapped->first_duct, *parent = tapped->first_section->parent->duct;
    struct duct_size into = tapped_metal(&tapped->from, duct_metal(parent)), metal = size_around(size, own->lining);
    enum side other = side_is_flat(tapped->from.side) ? SIDE_LEFT : SIDE_TOP;
    double need = tap_across(other, metal) + tap_opening_of(tapped->pieces.at[0], metal).across + 2 * tap_edge;
    if (into.shape == SHAPE_ROUND || check_over(need, tap_wall(into, other)))
        return NULL;
    return arena_format(look->job->arena, "from %s at %s %s", tapped->from.run->name,
                        check_text(look->job, SHOW_RUN, tapped->from.station), side_choices[other - SIDE_LEFT]);
}

bool check_stands_in(const struct job *job, const struct duct *duct) {
    const struct network *network = duct->run->unit ? duct->run->unit->network : NULL;
    const struct sizing_method *method = sizing_method_used(job);
    bool asks_budget = !(job->friction_rate > 0) && method && method->meets_budget;
    return network && air_budget_short(network) && asks_budget && !duct->fixed;
}

void check_pass_over(const struct look *look, const char *subject) {
    *list_add(look->job->arena, &look->result->passed_over) = subject;
}

const char *check_text(const struct job *job, enum measure_use use, double si) {
    return measure_text(job->arena, job->system, use, si);
}

const char *check_text_up(const struct job *job, enum measure_use use, double si) {
    return measure_text_up(job->arena, job->system, use, si);
}

const char *check_text_down(const struct job *job, enum measure_use use, double si) {
    return measure_text_down(job->arena, job->system, use, si);
}

const char *check_size_text(const struct job *job, struct duct_size size) {
    return size_text(job->arena, job->system, size);
}

bool check_over(double value, double limit) {
    return value > limit * (1 + 1e-9);
}
