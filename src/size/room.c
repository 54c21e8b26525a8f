/* The walls that taps ask for, and what gives way where there is none. */
#include "size/room.h"

#include <math.h>

#include "air/air.h"
#include "model/lined.h"
#include "model/taps.h"
#include "size/limits.h"
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
    need->tapped = fmax(need->tapped, sides->tapped);
}

/* How much of the metal beside both edges of a hole is done without, m. */
static double bare_edges(const struct sizing *sizing) {
    return sizing->walls == WALLS_BARE ? 2 * tap_edge : 0;
}

/* The velocity limit of its kind of run is what no method goes over, whatever it aims at. */
static double least_area(const struct duct *duct) {
    double velocity = velocity_limit(duct->run);
    return velocity > 0 ? duct->flow / velocity : 0;
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

static enum size_reason give(const struct sizing *sizing, const struct duct *duct, struct duct_size chosen, double wall,
                             struct duct_size *size);

/* A trunk that cannot have the wall a tap needs: asks for the widest wall it can have, if another size of the run fits
 * that, and takes that size. */
static void ask_less(const struct sizing *sizing, const struct run *tapped, struct duct_size *chosen) {
    const struct size_grid *grid = &sizing->catalogue->rectangular;
    const struct duct *trunk = tapped->first_duct->upstream;
    bool round = room_shape(trunk) == SHAPE_ROUND;
    const double *sides = round ? sizing->catalogue->round : grid->width;
    for (size_t i = round ? sizing->catalogue->round_count : grid->columns; i-- > 0;) {
        struct size_need before = sizing->needs[trunk->id];
        double wall = sides[i] + 2 * trunk->lining;
        if (!ask_wall(sizing, tapped, wall))
            continue;
        sizing->needs[trunk->id] = before;
        if (give(sizing, tapped->first_duct, *chosen, wall + bare_edges(sizing), chosen) != SIZE_UNSET)
            ask_wall(sizing, tapped, tap_needs(tapped, *chosen) - bare_edges(sizing));
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
    if (!size_known(size))
        return;
    if (!ask_wall(sizing, run, tap_needs(run, size)) && !sizing_dictated(duct))
        ask_less(sizing, run, &size);
    /* No table knows a tap that is larger than what it is cut into. */
    ask(sizing, duct->upstream, &(struct size_need){.tapped = size_area(size)});
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

/* Keeps a run of about the size `chosen` to `wall`; false: not even its edges have room there. */
static bool bound_wall(const struct run *run, struct duct_size chosen, double wall, struct size_bounds *bounds) {
    double *limit = side_is_flat(run->from.side) ? &bounds->width : &bounds->height;
    double around = tap_needs(run, chosen) - tap_across(run->from.side, chosen), room = wall - around;
    if (!(room > 0))
        return false;
    *limit = *limit > 0 ? fmin(*limit, room) : room;
    return true;
}

/* As large as the duct needs, with no more than `wall` of what it is tapped into.  The sides that its own taps ask for
 * give way before the tap that holds it, but what stands behind it in the run keeps its area. */
static bool flatten(const struct sizing *sizing, const struct duct *duct, struct duct_size chosen, enum shape shape,
                    double wall, struct duct_size *size) {
    const struct run *run = duct->run;
    struct size_need need = sizing->needs[duct->id];
    struct size_need less = {.diameter = need.diameter, .area = fmax(need.area, size_area(chosen))};
    struct size_bounds bounds = sizing_bounds(sizing, duct);
    struct duct_size flat;
    if (!bound_wall(run, chosen, wall, &bounds))
        return false;
    if (!choose_size(sizing->catalogue, shape, &need, &bounds, &flat) &&
        !choose_size(sizing->catalogue, shape, &less, &bounds, &flat))
        return false;
    if (tap_needs(run, flat) > wall + SAME_STATION)
        return false;
    *size = flat;
    return true;
}

/* The largest of its shape with no more than `wall`, if air is not too fast in it. */
static bool shrink(const struct sizing *sizing, const struct duct *duct, struct duct_size chosen, double wall,
                   struct duct_size *size) {
    const struct run *run = duct->run;
    struct size_need least = {.area = least_area(duct)}, all = {.diameter = HUGE_VAL};
    struct size_bounds bounds = sizing_bounds(sizing, duct);
    struct duct_size enough, largest;
    bounds.area = size_area(chosen);
    if (!bound_wall(run, chosen, wall, &bounds) ||
        !choose_size(sizing->catalogue, room_shape(duct), &least, &bounds, &enough))
        return false;
    choose_size(sizing->catalogue, room_shape(duct), &all, &bounds, &largest); /* none is so large: gives the most */
    *size = size_area(largest) < size_area(enough) ? enough : largest;
    return true;
}

static bool rubs_little(const struct sizing *sizing, const struct duct *duct, struct duct_size size) {
    double diameter = air_duct_diameter(&sizing->job->air, duct, friction_grid(FRICTION_MOST));
    return air_equivalent_diameter(size) >= diameter * (1 - 1e-9);
}

/* A smaller run is less to make than one of another shape, but not where its friction would be warned of. */
static enum size_reason give(const struct sizing *sizing, const struct duct *duct, struct duct_size chosen, double wall,
                             struct duct_size *size) {
    struct duct_size small;
    if (flatten(sizing, duct, chosen, room_shape(duct), wall, size))
        return SIZE_TAP;
    bool holds = sizing->walls != WALLS_LEFT && shrink(sizing, duct, chosen, wall, &small);
    if (!(holds && rubs_little(sizing, duct, small)) && shape_is_free(sizing, duct) &&
        flatten(sizing, duct, chosen, SHAPE_RECTANGULAR, wall, size))
        return SIZE_TAP;
    if (!holds)
        return SIZE_UNSET;
    *size = small;
    return SIZE_WALL;
}

enum size_reason room_give(const struct sizing *sizing, const struct duct *duct, struct duct_size chosen,
                           struct duct_size trunk, struct duct_size *size) {
    double wall = tap_has(duct->run, trunk) + bare_edges(sizing);
    if (sizing_dictated(duct) || tap_needs(duct->run, chosen) <= wall + SAME_STATION)
        return SIZE_UNSET;
    return give(sizing, duct, chosen, wall, size);
}

bool room_is_short(const struct network *network) {
    for (size_t i = 0; i < network->ducts.count; i++)
        if (network->ducts.at[i]->reason == SIZE_WALL)
            return true;
    return false;
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

/* Who says how large what a run is cut into is; NULL: sizing does. */
static const char *dictator(const struct sizing *sizing, const struct run *run) {
    const struct duct *trunk = run->first_duct->upstream;
    struct arena *arena = sizing->job->arena;
    const char *side = side_is_flat(run->from.side) ? "width" : "height", *name = trunk->run->name;
    bool round = trunk->size.shape == SHAPE_ROUND;
    if (leaves_box(run))
        return arena_format(arena, "the box of %s, as it is written, dictates its %s", name, side);
    if (trunk->reason == SIZE_COLLAR)
        return arena_format(arena, "the unit's collar dictates the %s of %s", round ? "size" : side, name);
    if (trunk->fixed)
        return arena_format(arena, "the size that is written dictates the %s of %s", round ? "diameter" : side, name);
    return trunk->leg_start ? arena_format(arena, "the split dictates the %s of %s", round ? "size" : side, name)
                            : NULL;
}

static void explain_tap(const struct sizing *sizing, struct run *run) {
    const struct duct *duct = run->first_duct, *trunk = duct->upstream;
    run->tap_kept = (struct tap_kept){0};
    if (!trunk || !size_known(trunk->size) || !size_known(duct->size))
        return;
    bool fits = tap_has_width(run, duct->size, trunk->size);
    if (!fits || duct->reason == SIZE_WALL)
        run->tap_kept.dictated = dictator(sizing, run);
    if (fits)
        return;
    if (!run->tap_kept.dictated)
        explain_trunk(sizing, run);
    if (would_fit_flat(sizing, run))
        run->tap_kept.hint = "shape rectangular";
}

void room_explain(const struct sizing *sizing) {
    for (size_t i = 0; i < sizing->network->ducts.count; i++)
        if (duct_is_tapped(sizing->network->ducts.at[i]))
            explain_tap(sizing, sizing->network->ducts.at[i]->run);
}
