/* The walls that taps ask for, and what gives way where there is none. */
#include "size/room.h"

#include <math.h>

#include "model/lined.h"
#include "model/taps.h"
#include "size/relief.h"

enum shape room_shape(const struct duct *duct) {
    return sizing_dictated(duct) ? duct->size.shape : duct->run->settings.shape;
}

/* A run tapped into a box is cut into the box, and not into the duct. */
static bool leaves_box(const struct run *tapped) {
    return size_known(tapped_size(&tapped->from, (struct duct_size){0}));
}

/* ---- What is asked of a trunk ------------------------------------------------------------------------------------ */

static void take_greater(struct size_need *need, const struct size_need *sides) {
    need->height = fmax(need->height, sides->height);
    need->width = fmax(need->width, sides->width);
    need->flat = fmax(need->flat, sides->flat);
}

/* The sides of a trunk, clear, that give a run's tap a wall of so much metal. */
static struct size_need sides_for(const struct run *tapped, const struct duct *trunk, double wall) {
    double clear = wall - 2 * trunk->lining;
    if (!side_is_flat(tapped->from.side))
        return (struct size_need){.height = clear};
    if (room_shape(trunk) == SHAPE_OVAL)
        return (struct size_need){.flat = wall};
    return (struct size_need){.width = clear};
}

/* Adds those sides to the needs of a trunk if its limits allow; gives whether they do. */
static bool ask(const struct sizing *sizing, const struct duct *trunk, const struct size_need *sides) {
    struct size_bounds bounds = run_bounds(&sizing->job->shop, trunk->run);
    struct size_need need = sizing->needs[trunk->id];
    struct duct_size size;
    take_greater(&need, sides);
    if (!choose_size(sizing->catalogue, room_shape(trunk), &need, &bounds, &size))
        return false;
    sizing->needs[trunk->id] = need;
    return true;
}

static bool ask_wall(const struct sizing *sizing, const struct run *tapped, double wall) {
    const struct duct *trunk = tapped->first_duct->upstream;
    struct size_need sides = sides_for(tapped, trunk, wall);
    return ask(sizing, trunk, &sides);
}

/* A trunk that cannot have the wall a tap needs: asks for the widest wall it can have, if a flatter run fits that. */
static void ask_less(const struct sizing *sizing, const struct run *tapped, struct duct_size chosen) {
    const struct size_grid *grid = &sizing->catalogue->rectangular;
    const struct duct *trunk = tapped->first_duct->upstream;
    bool round = room_shape(trunk) == SHAPE_ROUND;
    const double *sides = round ? sizing->catalogue->round : grid->width;
    for (size_t i = round ? sizing->catalogue->round_count : grid->columns; i-- > 0;) {
        struct size_need before = sizing->needs[trunk->id];
        double wall = sides[i] + 2 * trunk->lining;
        struct duct_size flat;
        if (!ask_wall(sizing, tapped, wall))
            continue;
        sizing->needs[trunk->id] = before;
        if (room_flatter(sizing, tapped->first_duct, chosen, wall, &flat))
            ask_wall(sizing, tapped, tap_needs(tapped, flat));
        return;
    }
}

static void ask_for_tap(const struct sizing *sizing, const struct duct *duct) {
    const struct run *run = duct->run;
    struct duct_size size = duct->size;
    if (!duct->upstream || sizing_dictated(duct->upstream) || leaves_box(run))
        return;
    if (!sizing_dictated(duct)) {
        struct size_bounds bounds = run_bounds(&sizing->job->shop, run);
        sizing_choose(sizing, duct, room_shape(duct), &bounds, &size);
    }
    if (size_known(size) && !ask_wall(sizing, run, tap_needs(run, size)) && !sizing_dictated(duct))
        ask_less(sizing, run, size);
}

void room_ask(const struct sizing *sizing) {
    for (size_t i = sizing->network->ducts.count; i-- > 0;) {
        const struct duct *duct = sizing->network->ducts.at[i];
        const struct duct *before = sizing_dictated(duct) ? NULL : sizing_chosen_upstream(duct);
        if (duct_is_tapped(duct))
            ask_for_tap(sizing, duct);
        if (before && room_shape(before) == room_shape(duct))
            ask(sizing, before, &sizing->needs[i]);
    }
}

/* ---- What gives way ---------------------------------------------------------------------------------------------- */

/* Whether the run is round only by the tool's default, and has no piece that is only made round. */
static bool shape_is_free(const struct sizing *sizing, const struct duct *duct) {
    const struct run *run = duct->run;
    return room_shape(duct) == SHAPE_ROUND && !run->settings.shape_set && !sizing->job->shop.runout_shape_set &&
           run->pieces.at[0]->implied;
}

/* As large as the duct needs, with no more than `wall` of what it is tapped into.  The sides that its own taps ask for
 * give way before the tap that holds it, but what stands behind it in the run keeps its area. */
static bool flatten(const struct sizing *sizing, const struct duct *duct, struct duct_size chosen, enum shape shape,
                    double wall, struct duct_size *size) {
    const struct run *run = duct->run;
    struct size_need need = sizing->needs[duct->id];
    struct size_need less = {.diameter = need.diameter, .area = fmax(need.area, size_area(chosen))};
    struct size_bounds bounds = sizing_bounds(sizing, duct);
    double *limit = side_is_flat(run->from.side) ? &bounds.width : &bounds.height;
    double around = tap_needs(run, chosen) - tap_across(run->from.side, chosen), room = wall - around;
    if (!(room > 0))
        return false;
    *limit = *limit > 0 ? fmin(*limit, room) : room;
    struct duct_size flat;
    if (!choose_size(sizing->catalogue, shape, &need, &bounds, &flat) &&
        !choose_size(sizing->catalogue, shape, &less, &bounds, &flat))
        return false;
    if (tap_needs(run, flat) > wall + SAME_STATION)
        return false;
    *size = flat;
    return true;
}

bool room_flatter(const struct sizing *sizing, const struct duct *duct, struct duct_size chosen, double wall,
                  struct duct_size *size) {
    if (sizing_dictated(duct))
        return false;
    return flatten(sizing, duct, chosen, room_shape(duct), wall, size) ||
           (shape_is_free(sizing, duct) && flatten(sizing, duct, chosen, SHAPE_RECTANGULAR, wall, size));
}

/* ---- Why there is no room ---------------------------------------------------------------------------------------- */

/* Not a limit's doing when even without limits the shop has no such size. */
static const struct relief no_larger = {.limit = "the largest standard size there is", .hint = "add sizes to the shop"};

/* What limits do not keep from its sides: a trunk that had to go flatter itself; or the search over all sizes found
 * none that give every tap its room. */
static const char *gave_way(const struct sizing *sizing, const struct run *trunk) {
    bool tapped = trunk->from.kind == PORT_TAP;
    return tapped && !sizing->network->search.made
               ? arena_format(sizing->job->arena, "the room that %s itself has on %s", trunk->name, trunk->parent->name)
               : "the other taps and the blower's pressure together";
}

static void explain_trunk(const struct sizing *sizing, struct run *run) {
    const struct duct *trunk = run->first_duct->upstream;
    struct size_bounds bounds = run_bounds(&sizing->job->shop, trunk->run);
    struct wish wish = {.sizing = sizing, .duct = trunk, .shape = trunk->size.shape, .need = sizing->needs[trunk->id]};
    struct size_need sides = sides_for(run, trunk, tap_needs(run, run->first_duct->size));
    struct relief relief = no_larger;
    struct duct_size size;
    take_greater(&wish.need, &sides);
    if (choose_size(sizing->catalogue, wish.shape, &wish.need, &bounds, &size))
        relief = (struct relief){.limit = gave_way(sizing, trunk->run)};
    else if (!relief_find(&wish, &bounds, &relief))
        relief = no_larger;
    run->tap_kept = (struct tap_kept){.limit = relief.limit, .hint = relief.hint};
}

static bool would_fit_flat(const struct sizing *sizing, const struct run *run) {
    const struct duct *duct = run->first_duct;
    struct duct_size size;
    if (sizing_dictated(duct) || duct->size.shape != SHAPE_ROUND)
        return false;
    for (size_t i = 0; i < run->pieces.count; i++)
        if (run->pieces.at[i]->kind->traits & PIECE_FLEXIBLE)
            return false;
    return flatten(sizing, duct, duct->size, SHAPE_RECTANGULAR, tap_has(run, duct->upstream->size), &size);
}

static void explain_tap(const struct sizing *sizing, struct run *run) {
    const struct duct *duct = run->first_duct, *trunk = duct->upstream;
    run->tap_kept = (struct tap_kept){0};
    if (!trunk || !size_known(trunk->size) || !size_known(duct->size) || tap_has_width(run, duct->size, trunk->size))
        return;
    if (!sizing_dictated(trunk) && !leaves_box(run))
        explain_trunk(sizing, run);
    if (would_fit_flat(sizing, run))
        run->tap_kept.hint = "shape rectangular";
}

void room_explain(const struct sizing *sizing) {
    for (size_t i = 0; i < sizing->network->ducts.count; i++)
        if (duct_is_tapped(sizing->network->ducts.at[i]))
            explain_tap(sizing, sizing->network->ducts.at[i]->run);
}
