/* A part laid out: its solid, its blanks with their allowances, its weight. */
#include "metal/blanking.h"
#include "metal/making.h"
#include "model/built_for.h"
#include "model/lined.h"

/* Each rebuild divides curves half as fine again, until their chords are near enough. */
enum { REBUILDS = 12 };

static struct solid *build(const struct making *making, const struct order *order) {
    double fineness = 1;
    struct solid *solid = NULL;
    for (int i = 0; i < REBUILDS; i++) {
        solid = solid_new(making->arena, fineness);
        solid->system = making->job->system;
        order->build(solid, order->size);
        if (!solid->fault)
            solid_close(solid);
        if (solid->fault || solid_chord_error(solid) <= CHORD_LIMIT)
            return solid;
        fineness *= 1.5;
    }
    solid_fault(solid, NULL, "drawn %g times finer, its curves are still off by more than 1/64 in", fineness / 1.5);
    return solid;
}

/* Sides that would drum: flat panels, by their lesser side. */
static bool drums(const struct part *part) {
    for (size_t i = 0; i < part->solid->panels.count; i++) {
        const struct solid_panel *panel = &part->solid->panels.at[i];
        if (panel->kind != PANEL_PLANE)
            continue;
        double length = 0;
        for (size_t e = 0; e < panel->edges.count; e++)
            length = fmax(length, edge_length(&panel->edges.at[e]));
        double width = panel_area(panel) / length;
        if (metal_cross_break(width, length, part->gauge))
            return true;
    }
    return false;
}

static void weigh(struct part *part) {
    double openings = 0;
    for (size_t b = 0; b < part->blanks.count; b++)
        part->area += part->blanks.at[b].cut_area * (double)part->blanks.at[b].quantity;
    for (size_t p = 0; p < part->solid->panels.count; p++)
        for (size_t i = 0; i < part->solid->panels.at[p].openings.count; i++)
            openings += opening_area(&part->solid->panels.at[p].openings.at[i]);
    part->weight = (part->area - openings) * metal_weight(part->gauge, part->material);
}

/* Without ends to be turned there are no notches for them, and less that runs into each other; NULL: it has none. */
static const char *without_ends(const struct blank *blank) {
    for (size_t i = 0; i < blank->edges.count; i++)
        if (blank->edges.at[i].join == JOIN_PORT && blank->edges.at[i].allowance > 0 &&
            blank->edges.at[i].kind != ALLOW_FACE)
            return "joint raw";
    return NULL;
}

/* Blanks with their allowances; NULL when one does not fit, and *why says which. */
static bool lay_out(const struct making *making, struct part *part, const struct allowing *allowing, const char **why) {
    solid_blanks(part->solid, making->job->shop.bend_deduction, &part->blanks);
    part_connections(part, allowing);
    if (!part_allow(part, allowing, why))
        return false;
    for (size_t b = 0; b < part->blanks.count; b++) {
        if (!blank_cut(&part->blanks.at[b], making->arena, why)) {
            part->solid->hint = without_ends(&part->blanks.at[b]);
            return false;
        }
        blank_settle(&part->blanks.at[b]);
        blank_mark(&part->blanks.at[b], making->arena);
    }
    blanks_batch(&part->blanks, making->arena);
    return true;
}

static void fill_part(const struct making *making, struct part *part, const struct order *order,
                      const struct metal_choice *sheet) {
    part->title = making_kept(making, order->title);
    part->shape = order->shape;
    part->material = making->run->settings.material;
    part->gauge = sheet->gauge;
    part->gauge_source = sheet->declared ? SOURCE_NONE : sheet->demand.source;
    part->gauge_thin = sheet->thin;
    part->reinforce = sheet->demand.reinforce;
    part->gauge_needed = sheet->demand.gauge;
    part->pressure_class = metal_class_pressure(metal_class(run_built_for(making->run)));
    part->lining = part->solid->ports.count ? piece_lining(making->piece) : 0; /* what lies within a duct is not */
    part->finished_length = order->finished_length;
    part->stack = (size_t)metal_stack(making->job->shop.stack, part->gauge);
}

static double surface_of(const struct part *part) {
    double surface = 0;
    for (size_t p = 0; p < part->solid->panels.count && !part_is_within(part); p++) {
        const struct solid_panel *panel = &part->solid->panels.at[p];
        surface += panel_area(panel);
        for (size_t i = 0; i < panel->openings.count; i++)
            surface -= opening_area(&panel->openings.at[i]);
    }
    return surface;
}

struct made making_lay_out(struct making *making, const struct order *order, const struct metal_choice *sheet,
                           const struct allowing *allowing) {
    struct solid *solid = build(making, order);
    if (solid->fault)
        return (struct made){.fault = solid->fault, .hint = solid->hint, .shapeless = true};
    struct part *part = ARENA_NEW(making->arena, struct part);
    const char *why = NULL;
    part->solid = solid;
    fill_part(making, part, order, sheet);
    if (!lay_out(making, part, allowing, &why))
        return (struct made){.fault = why, .hint = solid->hint};
    part->cross_break = drums(part);
    weigh(part);
    part->surface = surface_of(part);
    *list_add(making->arena, &making->metal->parts) = part;
    part->number = making->metal->parts.count;
    making->metal->chord_error = fmax(making->metal->chord_error, solid_chord_error(solid));
    return (struct made){.part = part};
}
