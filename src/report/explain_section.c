/* A stretch of duct: size, velocity, and each of its pieces. */
#include <string.h>

#include "air/trace.h"
#include "model/item_words.h"
#include "report/explain.h"

/* ---- The air that a figure is of --------------------------------------------------------------------------------- */

static bool is_of(const struct section *section, struct stream stream) {
    return stream.flow == section->flow && size_equal(stream.size, section->duct->size);
}

/* Area, velocity and velocity pressure of another stream than the section's own, which stands above. */
static void explain_other(struct working *working, const char *words, struct stream stream) {
    double velocity = stream.flow / size_area(stream.size);
    work_given(working, arena_format(working->arena, "Air of %s", words), SOURCE_NONE, "Q = %s, through %s",
               working_text(working, working->units->flow, stream.flow),
               size_text(working->arena, working->job->system, stream.size));
    explain_area(working, stream.size);
    explain_velocity(working, "Its velocity", "V", stream.flow, size_area(stream.size));
    explain_pressure(working, "Its velocity pressure", "pv", velocity);
}

/* ---- Pieces ------------------------------------------------------------------------------------------------------ */

/* What a piece lost, and how it came about. */
struct explained_item {
    const struct section *section;
    struct loss loss;
    struct trace trace;
};

/* ---- Friction ---------------------------------------------------------------------------------------------------- */

/* The friction that was worked out last: of what air, and in which wall. */
struct rubbing {
    bool known;
    struct stream stream;
    struct wall wall;
    double rate;
};

static bool is_known(const struct rubbing *rubbing, const struct trace_rubbing *wanted) {
    return rubbing->known && rubbing->stream.flow == wanted->stream.flow &&
           size_equal(rubbing->stream.size, wanted->stream.size) && rubbing->wall.roughness == wanted->roughness &&
           rubbing->wall.factor == wanted->factor;
}

static void explain_rate(struct working *working, const struct explained_item *item, const struct trace_rubbing *wanted,
                         struct rubbing *rubbing) {
    struct wall wall = {.roughness = wanted->roughness, .factor = wanted->factor};
    struct stream on = item->loss.on;
    bool is_reference =
        item->loss.reference_name && on.flow == wanted->stream.flow && size_equal(on.size, wanted->stream.size);
    if (is_known(rubbing, wanted))
        return;
    if (!is_of(item->section, wanted->stream)) {
        if (!is_reference)
            explain_other(working, "its other end", wanted->stream);
        explain_equivalent(working, wanted->stream.size, air_equivalent_diameter(wanted->stream.size));
    }
    *rubbing = (struct rubbing){true, wanted->stream, wall, explain_friction(working, wanted->stream, wall)};
}

/* Called `name`. */
static void explain_rubbing(struct working *working, const struct explained_item *item,
                            const struct trace_rubbing *wanted, struct rubbing *rubbing, const char *what,
                            const char *name) {
    const struct working_units *units = working->units;
    explain_rate(working, item, wanted, rubbing);
    const char *per = units->per_length > 1 ? arena_format(working->arena, " / %g", units->per_length) : "";
    work(working, what, SOURCE_NONE, units->pressure, wanted->pressure, "%s = r x L%s = %s x %s%s", name, per,
         working_value(working, units->rate, rubbing->rate), working_value(working, units->length, wanted->length),
         per);
}

/* That of a coefficient, where it is not the section's own. */
static void explain_reference(struct working *working, const struct explained_item *item) {
    const struct loss *loss = &item->loss;
    if (!loss->reference_name || is_of(item->section, loss->on))
        return;
    bool common = strcmp(loss->reference_name, "common") == 0;
    const char *words =
        common ? "all that divides or joins" : arena_format(working->arena, "the %s", loss->reference_name);
    explain_other(working, words, loss->on);
}

/* C times its velocity pressure, and the friction of its own lengths. */
static void explain_coefficient(struct working *working, struct explained_item *item, struct rubbing *rubbing) {
    const struct working_units *units = working->units;
    const struct loss *loss = &item->loss;
    const char *symbols = "C x pv",
               *figures = arena_format(working->arena, "%s x %s", working_number(working, loss->coefficient),
                                       working_value(working, units->pressure, loss->reference));
    for (size_t i = 0; i < item->trace.rubbings.count; i++) {
        const struct trace_rubbing *at = &item->trace.rubbings.at[i];
        const char *name = arena_format(working->arena, "hf%zu", i + 1);
        explain_rubbing(working, item, at, rubbing, "Friction along it", name);
        symbols = arena_format(working->arena, "%s + %s", symbols, name);
        figures =
            arena_format(working->arena, "%s + %s", figures, working_value(working, units->pressure, at->pressure));
    }
    work(working, "It takes", loss->source, units->pressure, loss->pressure, "h = %s = %s", symbols, figures);
    if (loss->outside)
        work_given(working, "Outside its table", SOURCE_NONE, "%s: the end of the table stands", loss->outside);
}

static void explain_item(struct working *working, const struct section *section, const struct item *item,
                         struct rubbing *rubbing) {
    if (item_is_nothing(item))
        return;
    struct explained_item explained = {.section = section, .trace = {.arena = working->arena, .name = "C"}};
    explained.loss = air_traced_loss(&working->job->air, section, item, &explained.trace);
    document_heading(working->document, 3, item_words(section, item, working->job->system, working->arena));
    explain_reference(working, &explained);
    for (size_t i = 0; i < explained.trace.steps.count; i++)
        work_step(working, &explained.trace.steps.at[i]);
    if (explained.loss.reference_name)
        explain_coefficient(working, &explained, rubbing);
    else if (explained.trace.rubbings.count == 1)
        explain_rubbing(working, &explained, &explained.trace.rubbings.at[0], rubbing,
                        "It takes, by the friction along it", "h");
    else if (explained.loss.pressure == 0 && !explained.trace.steps.count)
        work_given(working, "It takes", SOURCE_NONE, "nothing");
}

/* ---- The whole --------------------------------------------------------------------------------------------------- */

const char *explain_place(struct working *working, const struct section *section) {
    return section->station > 0
               ? arena_format(working->arena, "%s, from %s on", section->run->name,
                              measure_text(working->arena, working->job->system, SHOW_RUN, section->station))
               : section->run->name;
}

static void explain_sum(struct working *working, const struct section *section) {
    struct working_sum sum = {0};
    for (size_t i = 0; i < section->items.count; i++)
        if (section->items.at[i].loss.pressure != 0)
            *list_add(working->arena, &sum.terms) = section->items.at[i].loss.pressure;
    document_heading(working->document, 3, "The whole of it");
    work_sum(working, "Together", "h", working->units->pressure, &sum);
}

void explain_section(struct working *working, const struct section *section) {
    const struct duct *duct = section->duct;
    enum measure_system system = working->job->system;
    document_heading(working->document, 2,
                     arena_format(working->arena, "%s: %s, %s", explain_place(working, section),
                                  size_text(working->arena, system, duct->size),
                                  measure_text(working->arena, system, SHOW_FLOW, section->flow)));
    if (!(section->flow > 0) || !size_known(duct->size)) {
        document_paragraph(working->document, "No air goes through it.");
        return;
    }
    work_given(working, "Why this size", SOURCE_NONE, "%s", size_reason_words(duct->reason));
    work_given(working, "Airflow", SOURCE_NONE, "Q = %s", working_text(working, working->units->flow, section->flow));
    explain_area(working, duct->size);
    explain_velocity(working, "Velocity", "V", section->flow, duct->area);
    explain_pressure(working, "Velocity pressure", "pv", section->velocity);
    explain_equivalent(working, duct->size, duct->equivalent_diameter);
    struct rubbing rubbing = {0};
    for (size_t i = 0; i < section->items.count; i++)
        explain_item(working, section, &section->items.at[i], &rubbing);
    explain_sum(working, section);
}
