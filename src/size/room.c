/* The walls that taps ask for, and what gives way where there is none. */
#include "size/room.h"

#include <math.h>

#include "model/lined.h"
#include "model/taps.h"
#include "size/relief.h"

enum shape room_shape(const struct duct *duct) {
    return tree_dictated(duct) ? duct->size.shape : duct->run->settings.shape;
}

/* What is tapped into a box leaves that, and not the duct. */
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

/* Whether its limits let a trunk have those sides besides what it needs; takes them then. */
static bool ask(const struct tree *tree, const struct duct *trunk, const struct size_need *sides) {
    struct size_bounds bounds = run_bounds(&tree->job->shop, trunk->run);
    struct size_need need = tree->needs[trunk->id];
    struct duct_size size;
    take_greater(&need, sides);
    if (!choose_size(tree->catalogue, room_shape(trunk), &need, &bounds, &size))
        return false;
    tree->needs[trunk->id] = need;
    return true;
}

static bool ask_wall(const struct tree *tree, const struct run *tapped, double wall) {
    const struct duct *trunk = tapped->first_duct->upstream;
    struct size_need sides = sides_for(tapped, trunk, wall);
    return ask(tree, trunk, &sides);
}

/* A trunk that cannot have the wall that a run's tap takes: the widest it can have that a flatter run does with. */
static void ask_less(const struct tree *tree, const struct run *tapped, struct duct_size chosen) {
    const struct size_grid *grid = &tree->catalogue->rectangular;
    const struct duct *trunk = tapped->first_duct->upstream;
    bool round = room_shape(trunk) == SHAPE_ROUND;
    const double *sides = round ? tree->catalogue->round : grid->width;
    for (size_t i = round ? tree->catalogue->round_count : grid->columns; i-- > 0;) {
        struct size_need before = tree->needs[trunk->id];
        double wall = sides[i] + 2 * trunk->lining;
        struct duct_size flat;
        if (!ask_wall(tree, tapped, wall))
            continue;
        tree->needs[trunk->id] = before;
        if (room_flatter(tree, tapped->first_duct, chosen, wall, &flat))
            ask_wall(tree, tapped, tap_needs(tapped, flat));
        return;
    }
}

static void ask_for_tap(const struct tree *tree, const struct duct *duct) {
    const struct run *run = duct->run;
    struct duct_size size = duct->size;
    if (!duct->upstream || tree_dictated(duct->upstream) || leaves_box(run))
        return;
    if (!tree_dictated(duct)) {
        struct size_bounds bounds = run_bounds(&tree->job->shop, run);
        tree_choose(tree, duct, room_shape(duct), &bounds, &size);
    }
    if (size_known(size) && !ask_wall(tree, run, tap_needs(run, size)) && !tree_dictated(duct))
        ask_less(tree, run, size);
}

void room_ask(const struct tree *tree) {
    for (size_t i = tree->network->ducts.count; i-- > 0;) {
        const struct duct *duct = tree->network->ducts.at[i];
        const struct duct *before = tree_dictated(duct) ? NULL : tree_chosen_upstream(duct);
        if (duct_is_tapped(duct))
            ask_for_tap(tree, duct);
        if (before && room_shape(before) == room_shape(duct))
            ask(tree, before, &tree->needs[i]);
    }
}

/* ---- What gives way ---------------------------------------------------------------------------------------------- */

/* Round by the tool's own default alone, and nothing in the run that is made round only. */
static bool shape_is_free(const struct tree *tree, const struct duct *duct) {
    const struct run *run = duct->run;
    return room_shape(duct) == SHAPE_ROUND && !run->settings.shape_set && !tree->job->shop.runout_shape_set &&
           run->pieces.at[0]->implied;
}

/* As large as the duct needs, with no more than `wall` of what it is tapped into.  The sides that its own taps ask for
 * give way before the tap that holds it, but what stands behind it in the run keeps its area. */
static bool flatten(const struct tree *tree, const struct duct *duct, struct duct_size chosen, enum shape shape,
                    double wall, struct duct_size *size) {
    const struct run *run = duct->run;
    struct size_need need = tree->needs[duct->id];
    struct size_need less = {.diameter = need.diameter, .area = fmax(need.area, size_area(chosen))};
    struct size_bounds bounds = tree_bounds(tree, duct);
    double *limit = side_is_flat(run->from.side) ? &bounds.width : &bounds.height;
    double around = tap_needs(run, chosen) - tap_across(run->from.side, chosen), room = wall - around;
    if (!(room > 0))
        return false;
    *limit = *limit > 0 ? fmin(*limit, room) : room;
    struct duct_size flat;
    if (!choose_size(tree->catalogue, shape, &need, &bounds, &flat) &&
        !choose_size(tree->catalogue, shape, &less, &bounds, &flat))
        return false;
    if (tap_needs(run, flat) > wall + SAME_STATION)
        return false;
    *size = flat;
    return true;
}

bool room_flatter(const struct tree *tree, const struct duct *duct, struct duct_size chosen, double wall,
                  struct duct_size *size) {
    if (tree_dictated(duct))
        return false;
    return flatten(tree, duct, chosen, room_shape(duct), wall, size) ||
           (shape_is_free(tree, duct) && flatten(tree, duct, chosen, SHAPE_RECTANGULAR, wall, size));
}

/* ---- Why there is no room ---------------------------------------------------------------------------------------- */

/* What the shop does not have, no limit keeps it from. */
static const struct relief no_larger = {.limit = "the largest standard size there is", .hint = "add sizes to the shop"};

/* What limits do not keep from its sides: a trunk that had to go flatter itself; or the search over all sizes found
 * none that give every tap its room. */
static const char *gave_way(const struct tree *tree, const struct run *trunk) {
    bool tapped = trunk->from.kind == PORT_TAP;
    return tapped && !tree->network->search.made
               ? arena_format(tree->job->arena, "the room that %s itself has on %s", trunk->name, trunk->parent->name)
               : "the other taps and the blower's pressure together";
}

static void explain_trunk(const struct tree *tree, struct run *run) {
    const struct duct *trunk = run->first_duct->upstream;
    struct size_bounds bounds = run_bounds(&tree->job->shop, trunk->run);
    struct wish wish = {.tree = tree, .duct = trunk, .shape = trunk->size.shape, .need = tree->needs[trunk->id]};
    struct size_need sides = sides_for(run, trunk, tap_needs(run, run->first_duct->size));
    struct relief relief = no_larger;
    struct duct_size size;
    take_greater(&wish.need, &sides);
    if (choose_size(tree->catalogue, wish.shape, &wish.need, &bounds, &size))
        relief = (struct relief){.limit = gave_way(tree, trunk->run)};
    else if (!relief_find(&wish, &bounds, &relief))
        relief = no_larger;
    run->tap_kept = (struct tap_kept){.limit = relief.limit, .hint = relief.hint};
}

static bool would_fit_flat(const struct tree *tree, const struct run *run) {
    const struct duct *duct = run->first_duct;
    struct duct_size size;
    if (tree_dictated(duct) || duct->size.shape != SHAPE_ROUND)
        return false;
    for (size_t i = 0; i < run->pieces.count; i++)
        if (run->pieces.at[i]->kind->traits & PIECE_FLEXIBLE)
            return false;
    return flatten(tree, duct, duct->size, SHAPE_RECTANGULAR, tap_has(run, duct->upstream->size), &size);
}

static void explain_tap(const struct tree *tree, struct run *run) {
    const struct duct *duct = run->first_duct, *trunk = duct->upstream;
    run->tap_kept = (struct tap_kept){0};
    if (!trunk || !size_known(trunk->size) || !size_known(duct->size) || tap_has_width(run, duct->size, trunk->size))
        return;
    if (!tree_dictated(trunk) && !leaves_box(run))
        explain_trunk(tree, run);
    if (would_fit_flat(tree, run))
        run->tap_kept.hint = "shape rectangular";
}

void room_explain(const struct tree *tree) {
    for (size_t i = 0; i < tree->network->ducts.count; i++)
        if (duct_is_tapped(tree->network->ducts.at[i]))
            explain_tap(tree, tree->network->ducts.at[i]->run);
}
