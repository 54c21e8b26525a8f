/* A stretch of duct: size, velocity, Reynolds number, friction, and each piece. */
#include <math.h>
#include <string.h>

#include "air/wall.h"
#include "base/constant.h"
#include "model/item_words.h"
#include "model/taps.h"
#include "report/explain.h"

/* ---- Size and velocity ------------------------------------------------------------------------------------------- */

static const char *side(struct working *working, double si) {
    return working_value(working, working->units->side, si);
}

/* A = w h / 144, pi D^2 / 4 / 144; of flat oval the middle and two half circles. */
static void explain_area(struct working *working, struct duct_size size) {
    const struct working_units *units = working->units;
    double in_area = units->sides_of_length * units->sides_of_length;
    const char *per = working_number(working, in_area), *w = side(working, size.width), *h = side(working, size.height);
    switch (size.shape) {
    case SHAPE_ROUND:
        work(working, "Area", SOURCE_NONE, units->area, size_area(size), "A = pi / 4 x D^2 = pi / 4 x %s^2 / %s", w,
             per);
        break;
    case SHAPE_OVAL: {
        const char *lesser = side(working, fmin(size.width, size.height));
        const char *flat = side(working, fabs(size.width - size.height));
        work(working, "Area", SOURCE_NONE, units->area, size_area(size),
             "A = (w - h) x h + pi / 4 x h^2 = (%s x %s + pi / 4 x %s^2) / %s", flat, lesser, lesser, per);
        break;
    }
    default:
        work(working, "Area", SOURCE_NONE, units->area, size_area(size), "A = w x h = %s x %s / %s", w, h, per);
    }
}

/* V = Q / A, in the units at hand. */
static const char *flow_over(struct working *working, double flow, double area) {
    bool metric = working->job->system == MEASURE_METRIC;
    return arena_format(working->arena, metric ? "%s / (1000 x %s)" : "%s / %s",
                        working_value(working, working->units->flow, flow),
                        working_value(working, working->units->area, area));
}

static void explain_velocity(struct working *working, const char *what, const char *name, double flow, double area) {
    work(working, what, SOURCE_NONE, working->units->velocity, flow / area, "%s = Q / A = %s", name,
         flow_over(working, flow, area));
}

/* pv = rho V^2 / 2; in the trade's units rho (V / 1097)^2. */
static void explain_pressure(struct working *working, const char *what, const char *name, double velocity) {
    const struct working_units *units = working->units;
    const struct air *air = &working->job->air;
    const char *rho = working_value(working, units->density, air->density);
    const char *speed = working_value(working, units->velocity, velocity);
    double pressure = air_velocity_pressure(air, velocity);
    if (working->job->system == MEASURE_METRIC) {
        work(working, what, SOURCE_NONE, units->pressure, pressure, "%s = rho x V^2 / 2 = %s x %s^2 / 2", name, rho,
             speed);
        return;
    }
    double constant = sqrt(2 * units->pressure.factor / units->density.factor) / units->velocity.factor;
    const char *of = working_number(working, constant);
    work(working, what, SOURCE_INCH_OF_WATER, units->pressure, pressure, "%s = rho x (V / %s)^2 = %s x (%s / %s)^2",
         name, of, rho, speed, of);
}

static void explain_equivalent(struct working *working, struct duct_size size, double diameter) {
    const char *w = side(working, size.width), *h = side(working, size.height);
    if (size.shape == SHAPE_RECTANGULAR)
        work(working, "Round duct with the same friction", SOURCE_HUEBSCHER, working->units->side, diameter,
             "De = 1.30 x (w x h)^0.625 / (w + h)^0.25 = 1.30 x (%s x %s)^0.625 / (%s + %s)^0.25", w, h, w, h);
    if (size.shape != SHAPE_OVAL)
        return;
    double factor = working->units->side.factor;
    work(working, "Round duct with the same friction", SOURCE_HEYT_DIAZ, working->units->side, diameter,
         "De = 1.55 x A^0.625 / P^0.25 = 1.55 x %s^0.625 / %s^0.25",
         working_number(working, size_area(size) / (factor * factor)), side(working, size_perimeter(size)));
}

/* ---- Friction ---------------------------------------------------------------------------------------------------- */

static void explain_factor(struct working *working, double reynolds, double relative, double factor) {
    const char *re = working_number(working, reynolds), *rough = working_number(working, relative);
    const char *f = working_number(working, factor);
    if (reynolds <= 2300) {
        work(working, "Friction factor", SOURCE_LAMINAR, working_plain, factor, "f = 64 / Re = 64 / %s", re);
    } else if (reynolds < 4000) {
        double turbulent = air_friction_factor(4000, relative);
        work(working, "Friction factor, between Re 2300 and 4000", SOURCE_LAMINAR, working_plain, factor,
             "f = f1 + (f2 - f1) x (Re - 2300) / 1700 = 64 / 2300 + (%s - 64 / 2300) x (%s - 2300) / 1700",
             working_number(working, turbulent), re);
    } else {
        work_given(working, "Friction factor, found by trial", SOURCE_COLEBROOK, "f = %s", f);
        work(working, "It satisfies", SOURCE_NONE, working_plain, 1 / sqrt(factor),
             "1 / sqrt(f) = -2 x log10(e/D / 3.7 + 2.51 / (Re x sqrt(f))) = -2 x log10(%s / 3.7 + 2.51 / (%s x "
             "sqrt(%s)))",
             rough, re, f);
    }
}

/* The factor of flexible duct that is not pulled straight, whose percent short follows from it. */
static void explain_compression(struct working *working, double diameter, double factor) {
    double inches = diameter / INCH, percent = (factor - 1) / (0.58 * exp(-0.126 * inches));
    work(working, "Not pulled straight, K percent short", SOURCE_FLEX_COMPRESSION, working_plain, factor,
         "F = 1 + 0.58 x K x exp(-0.126 x D) = 1 + 0.58 x %s x exp(-0.126 x %s)", working_number(working, percent),
         working_number(working, inches));
}

/* Friction of the section's air in a wall; the rate. */
static double explain_friction(struct working *working, const struct section *section, struct wall wall) {
    const struct working_units *units = working->units;
    const struct air *air = &working->job->air;
    double diameter = section->duct->equivalent_diameter, area = PI / 4 * diameter * diameter;
    double velocity = section->flow / area, nu = air->viscosity / air->density;
    double reynolds = velocity * diameter / nu, relative = wall.roughness / diameter;
    double factor = air_friction_factor(reynolds, relative), pressure = air_velocity_pressure(air, velocity);
    const char *long_diameter = working_value(working, units->length, diameter);
    bool round = section->duct->size.shape == SHAPE_ROUND, metric = working->job->system == MEASURE_METRIC;
    if (!round) {
        explain_velocity(working, "Velocity in that round duct", "Ve", section->flow, area);
        explain_pressure(working, "Its velocity pressure", "pe", velocity);
    }
    work(working, "Reynolds number", SOURCE_SUTHERLAND, working_plain, reynolds,
         metric ? "Re = %s / nu = %s x %s / %s" : "Re = %s / nu = %s / 60 x %s / %s", round ? "V x D" : "Ve x De",
         working_value(working, units->velocity, velocity), long_diameter,
         working_value(working, units->kinematic, nu));
    work(working, "Roughness over diameter", SOURCE_ROUGHNESS, working_plain, relative, "e/D = %s / %s",
         working_value(working, units->length, wall.roughness), long_diameter);
    explain_factor(working, reynolds, relative, factor);
    bool bent = fabs(wall.factor - 1) > 1e-12;
    if (bent)
        explain_compression(working, diameter, wall.factor);
    double rate = factor / diameter * pressure * wall.factor;
    work(working, "Friction", SOURCE_DARCY, units->rate, rate, "r = f x %s / %s%s = %s x %s / %s x %s%s",
         working_number(working, units->per_length), round ? "D x pv" : "De x pe", bent ? " x F" : "",
         working_number(working, factor), working_number(working, units->per_length), long_diameter,
         working_value(working, units->pressure, pressure),
         bent ? arena_format(working->arena, " x %s", working_number(working, wall.factor)) : "");
    return rate;
}

/* ---- Pieces ------------------------------------------------------------------------------------------------------ */

/* A stream whose velocity pressure a coefficient may be on. */
struct candidate {
    const char *words;
    double flow;
    struct duct_size size;
};

static bool fits(const struct working *working, const struct candidate *candidate, double reference) {
    if (!(candidate->flow > 0) || !size_known(candidate->size))
        return false;
    double pressure = air_velocity_pressure(&working->job->air, candidate->flow / size_area(candidate->size));
    return fabs(pressure - reference) <= 1e-9 * reference;
}

/* The stream whose velocity pressure is `reference`, of those that the item may have meant; false: none. */
static bool find_reference(const struct working *working, const struct section *section, const struct item *item,
                           double reference, struct candidate *found) {
    const struct section *before = section->parent;
    const struct air_unit *unit = section->run->unit;
    struct duct_size collar = section->run->supply ? unit->supply : unit->return_;
    const struct section *branch = item->role == ITEM_PAST && item->tapped ? item->tapped->first_section : NULL;
    const struct run *tapped = item->role == ITEM_PAST ? item->tapped : section->run;
    const struct candidate all[] = {
        {"the duct", section->flow, section->duct->size},
        {"the duct before it", before ? before->flow : section->flow, before ? before->duct->size : collar},
        {"its air in the size before it", section->flow, before ? before->duct->size : collar},
        {"the air before it in the size of the duct", before ? before->flow : 0, section->duct->size},
        {"what is tapped in", branch ? branch->flow : 0, branch ? branch->duct->size : collar},
        {"the box", before ? before->flow : 0,
         tapped && before && tapped->from.kind == PORT_TAP ? tapped_size(&tapped->from, before->duct->size) : collar},
    };
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
        if (fits(working, &all[i], reference)) {
            *found = all[i];
            return true;
        }
    return false;
}

static void explain_reference(struct working *working, const struct section *section, const struct item *item) {
    struct candidate candidate;
    const struct loss *loss = &item->loss;
    if (find_reference(working, section, item, loss->reference, &candidate)) {
        if (candidate.flow == section->flow && size_equal(candidate.size, section->duct->size))
            return; /* that of the section, which stands above */
        explain_velocity(working, arena_format(working->arena, "Velocity in %s", candidate.words), "V", candidate.flow,
                         size_area(candidate.size));
        explain_pressure(working, "Its velocity pressure", "pv", candidate.flow / size_area(candidate.size));
        return;
    }
    work_given(working, arena_format(working->arena, "Velocity pressure it is on (%s)", loss->reference_name),
               SOURCE_NONE, "pv = %s", working_text(working, working->units->pressure, loss->reference));
}

/* What the piece was given of that measure behind that word (NULL: behind none); NULL: nothing. */
static const struct argument *given(const struct piece *piece, enum measure_kind measure, const char *key) {
    const struct slot *slots = piece->kind->form.slots;
    for (size_t i = 0; i < SLOT_LIMIT && slots[i].kind != SLOT_NONE; i++)
        if (slots[i].kind == SLOT_QUANTITY && slots[i].measure == measure && piece->reading.statement &&
            piece->reading.argument[i].given && (key ? slots[i].key && strcmp(slots[i].key, key) == 0 : !slots[i].key))
            return &piece->reading.argument[i];
    return NULL;
}

/* A drop at an airflow, with the square of it; in thin air with its density. */
static void explain_drop(struct working *working, const struct section *section, const struct item *item,
                         const char *what) {
    const struct working_units *units = working->units;
    const struct argument *pressure = given(item->piece, MEASURE_PRESSURE, NULL),
                          *at = given(item->piece, MEASURE_FLOW, "at");
    double ratio = working->job->air.density_ratio, flow = at ? at->number : section->flow;
    double share = section->flow / flow;
    double drop = pressure ? pressure->number : item->loss.pressure / ratio / (share * share);
    work(working, what, item->loss.source, units->pressure, item->loss.pressure,
         "h = p x (Q / Q0)^2 x rho / rho0 = %s x (%s / %s)^2 x %s", working_value(working, units->pressure, drop),
         working_value(working, units->flow, section->flow), working_value(working, units->flow, flow),
         working_number(working, ratio));
}

/* C times its velocity pressure, and the friction of its own length. */
static void explain_coefficient(struct working *working, const struct section *section, const struct item *item,
                                const char *what) {
    const struct working_units *units = working->units;
    const struct loss *loss = &item->loss;
    explain_reference(working, section, item);
    const char *c = working_number(working, loss->coefficient);
    const char *reference = working_value(working, units->pressure, loss->reference);
    if (loss->factor_source != SOURCE_NONE)
        work_given(working, "Its coefficient, with a correction", loss->factor_source, "C = %s", c);
    if (loss->friction > 0)
        work(working, what, loss->source, units->pressure, loss->pressure, "h = C x pv + friction = %s x %s + %s", c,
             reference, working_value(working, units->pressure, loss->friction));
    else
        work(working, what, loss->source, units->pressure, loss->pressure, "h = C x pv = %s x %s", c, reference);
    if (loss->outside)
        work_given(working, "Outside its table", SOURCE_NONE, "%s: the end of the table stands", loss->outside);
}

/* The friction that was worked out last, and of which wall. */
struct rubbing {
    bool known;
    struct wall wall;
    double rate;
};

/* The friction of a piece with a centre line, where it is that of the section's duct over that line. */
static void explain_arc(struct working *working, const struct section *section, const struct item *item,
                        struct rubbing *rubbing, const char *what) {
    const struct working_units *units = working->units;
    const struct piece_kind *kind = item->piece->kind;
    double length = kind->centre_line ? kind->centre_line(item->piece, section->duct->size) : item->piece->length;
    struct wall wall = {.roughness = wall_of_run(section->run).roughness, .factor = 1};
    double diameter = section->duct->equivalent_diameter;
    double rate = air_friction_rate(&working->job->air, section->flow, diameter, wall.roughness);
    if (!(item->loss.friction > 0) || fabs(rate * length - item->loss.friction) > 1e-9 * item->loss.friction)
        return;
    if (!rubbing->known || wall.roughness != rubbing->wall.roughness || wall.factor != rubbing->wall.factor)
        *rubbing = (struct rubbing){true, wall, explain_friction(working, section, wall)};
    const char *per = units->per_length > 1 ? arena_format(working->arena, " / %g", units->per_length) : "";
    work(working, arena_format(working->arena, "%s, friction", what), SOURCE_NONE, units->pressure, item->loss.friction,
         "h = r x L%s = %s x %s%s", per, working_value(working, units->rate, rate),
         working_value(working, units->length, length), per);
}

static void explain_length(struct working *working, const struct section *section, const struct item *item,
                           struct rubbing *rubbing, const char *what) {
    const struct working_units *units = working->units;
    struct wall wall = wall_of_piece(item->piece, section->duct->equivalent_diameter, wall_of_run(section->run));
    if (!rubbing->known || wall.roughness != rubbing->wall.roughness || wall.factor != rubbing->wall.factor)
        *rubbing = (struct rubbing){true, wall, explain_friction(working, section, wall)};
    double friction = item->loss.friction;
    const char *per = units->per_length > 1 ? arena_format(working->arena, " / %g", units->per_length) : "";
    bool bends = item->loss.reference_name != NULL;
    work(working, bends ? arena_format(working->arena, "%s, friction", what) : what, SOURCE_NONE, units->pressure,
         friction, "h = r x L%s = %s x %s%s", per, working_value(working, units->rate, rubbing->rate),
         working_value(working, units->length, item->length), per);
    if (bends)
        explain_coefficient(working, section, item, arena_format(working->arena, "%s, with its bends", what));
}

static void explain_item(struct working *working, const struct section *section, const struct item *item,
                         struct rubbing *rubbing) {
    const struct loss *loss = &item->loss;
    const char *what = item_words(section, item, working->job->system, working->arena);
    if (item->piece->kind->traits & PIECE_LENGTH && item->role == ITEM_PIECE) {
        explain_length(working, section, item, rubbing, what);
    } else if (loss->reference_name) {
        explain_arc(working, section, item, rubbing, what);
        explain_coefficient(working, section, item, what);
    } else if (loss->source != SOURCE_NONE && loss->friction <= 0)
        explain_drop(working, section, item, what);
    else if (loss->pressure != 0)
        work_given(working, what, loss->source, "h = %s, the friction along it",
                   working_text(working, working->units->pressure, loss->pressure));
    else if (!item_is_nothing(item))
        work_given(working, what, SOURCE_NONE, "no loss");
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
    if (sum.terms.count > 1)
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
