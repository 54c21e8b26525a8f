/* Why each duct has the size it has, and what is said of those that a limit keeps too small. */
#include <math.h>

#include "air/air.h"
#include "size/relief.h"
#include "size/room.h"
#include "size/sizing.h"

/* Friction of the size at hand, Pa/m. */
static double friction_of(const struct sizing *sizing, const struct duct *duct) {
    double diameter = air_equivalent_diameter(duct->size);
    return duct->friction_multiplier * air_friction_rate(&sizing->job->air, duct->flow, diameter, duct->roughness);
}

/* What is asked of the duct, in words: "0.080 in. w.g./100 ft and 900 fpm". */
static const char *asked_words(const struct sizing *sizing, const struct duct *duct) {
    struct arena *arena = sizing->job->arena;
    enum measure_system system = sizing->job->system;
    double velocity = sizing->share * sizing->velocity(duct->run);
    const char *speed = measure_text(arena, system, SHOW_VELOCITY, velocity);
    if (sizing->rate <= 0)
        return speed;
    return arena_format(arena, "%s and %s", measure_text(arena, system, SHOW_FRICTION, sizing->rate), speed);
}

/* Even the smallest standard size is over the limits, although it would carry the air. */
static void diagnose_tight(const struct sizing *sizing, const struct duct *duct) {
    struct job *job = sizing->job;
    const char *size = size_text(job->arena, job->system, duct->size);
    struct diagnostic *said =
        diagnose(sizing->said, DIAGNOSTIC_ERROR, "size", duct->at,
                 "no standard size is within the limits of %s: the smallest, %s, is over them", duct->run->name, size);
    said->subject = duct->run->name;
    diagnostic_hint(sizing->said, said, "leave %s of room, or give the shop smaller sizes", size);
    if (duct->run->settings.limit_at.text)
        diagnostic_relate(sizing->said, said, duct->run->settings.limit_at, "the limit");
}

/* The first limit without which some size will do. */
static bool find_relief(const struct sizing *sizing, const struct duct *duct, struct relief *relief) {
    struct size_bounds bounds = sizing_bounds(sizing, duct);
    struct wish wish = {.sizing = sizing, .duct = duct, .shape = duct->size.shape, .need = sizing->needs[duct->id]};
    return relief_find(&wish, &bounds, relief);
}

/* A limit of height or width below the least standard side leaves nothing to choose from. */
static bool diagnose_no_side(const struct sizing *sizing, const struct duct *duct) {
    struct size_bounds bounds = sizing_bounds(sizing, duct);
    double height = relief_least_side(sizing->catalogue, duct->size.shape, true);
    double width = relief_least_side(sizing->catalogue, duct->size.shape, false);
    bool low = bounds.height > 0 && height > bounds.height * (1 + 1e-9);
    bool slim = bounds.width > 0 && width > bounds.width * (1 + 1e-9);
    if (!low && !slim)
        return false;
    double least = low ? height : width;
    struct diagnostic *said = diagnose(sizing->said, DIAGNOSTIC_ERROR, "size", duct->at,
                                       "no standard %s is %s or less, the limit of %s: the least is %s",
                                       duct->size.shape == SHAPE_ROUND ? "diameter" : "side",
                                       relief_side_text(sizing, duct, low ? bounds.height : bounds.width),
                                       duct->run->name, relief_side_text(sizing, duct, least));
    said->subject = duct->run->name;
    struct relief relief = {.limit = NULL};
    if (find_relief(sizing, duct, &relief))
        diagnostic_hint(sizing->said, said, "%s", relief.hint);
    else
        diagnostic_hint(sizing->said, said, "leave %s of room, or give the shop smaller sizes",
                        relief_side_text(sizing, duct, least));
    if (duct->run->settings.limit_at.text)
        diagnostic_relate(sizing->said, said, duct->run->settings.limit_at, "the limit");
    return true;
}

static void diagnose_limited(const struct sizing *sizing, const struct duct *duct, double excess) {
    struct job *job = sizing->job;
    if (diagnose_no_side(sizing, duct))
        return;
    bool slow = size_area(duct->size) >= sizing->needs[duct->id].area * (1 - 1e-9);
    double friction = friction_of(sizing, duct);
    if (slow && (sizing->rate <= 0 || friction <= sizing->rate * (1 + 1e-9))) {
        diagnose_tight(sizing, duct);
        return;
    }
    struct relief relief = {.limit = NULL};
    bool relieved = find_relief(sizing, duct, &relief), bearable = slow && friction <= excess * (1 + 1e-9);
    const char *why = "it is the largest standard size there is";
    if (relieved)
        why = arena_format(job->arena, "%s %s it from %s", relief.limit, relief.several ? "keep" : "keeps",
                           size_text(job->arena, job->system, relief.size));
    /* Where the budget is not met, sizes only stand in: the budget is the error, and their other shortcomings are
     * not told. */
    if (bearable && air_budget_short(sizing->network) && !(job->friction_rate > 0) && sizing->rate > 0)
        return;
    struct diagnostic *said =
        diagnose(sizing->said, bearable ? DIAGNOSTIC_WARNING : DIAGNOSTIC_ERROR, "size", duct->at,
                 "%s is not enough for %s in %s at %s: %s", size_text(job->arena, job->system, duct->size),
                 measure_text(job->arena, job->system, SHOW_FLOW, duct->flow),
                 diagnostic_named(sizing->said, duct->run->name), asked_words(sizing, duct), why);
    said->subject = duct->run->name;
    diagnostic_hint(sizing->said, said, "%s", relieved ? relief.hint : "split the run, or add sizes to the shop");
    if (duct->run->settings.limit_at.text && relieved)
        diagnostic_relate(sizing->said, said, duct->run->settings.limit_at, "the limit");
}

/* Whether the size would be the same if the height upstream, or the velocity, did not matter.  Taps did not change it.
 */
static enum size_reason reason_of(const struct sizing *sizing, const struct duct *duct) {
    const struct catalogue *catalogue = sizing->catalogue;
    const struct size_grid *grid = duct->size.shape == SHAPE_OVAL ? &catalogue->oval : &catalogue->rectangular;
    bool round = duct->size.shape == SHAPE_ROUND;
    double width = round ? catalogue->round[0] : grid->width[0], height = round ? width : grid->height[0];
    if (size_equal(duct->size, (struct duct_size){duct->size.shape, width, height}))
        return SIZE_SMALLEST;
    struct size_need air = sizing_need_of_air(sizing, duct), friction = {.diameter = air.diameter};
    struct size_bounds bounds = sizing_bounds(sizing, duct), free = bounds;
    struct duct_size size;
    free.keep_height = 0;
    if (bounds.keep_height > 0 && choose_size(catalogue, duct->size.shape, &air, &free, &size) &&
        !size_equal(size, duct->size))
        return SIZE_HEIGHT_KEPT;
    bool same = friction.diameter > 0 && choose_size(catalogue, duct->size.shape, &friction, &bounds, &size) &&
                size_equal(size, duct->size);
    return same ? SIZE_FRICTION : SIZE_VELOCITY;
}

/* Some size would do: the method asked for more than the limits do, and only that was not met. */
static bool is_bearable(const struct sizing *sizing, const struct duct *duct) {
    struct size_bounds bounds = sizing_bounds(sizing, duct);
    struct duct_size size;
    return choose_size(sizing->catalogue, duct->size.shape, &sizing->needs[duct->id], &bounds, &size);
}

static bool follows_limited(const struct duct *duct) {
    const struct duct *upstream = sizing_chosen_upstream(duct);
    return upstream && upstream->reason == SIZE_LIMITED;
}

void sizing_explain(struct sizing *sizing, double excess) {
    struct network *network = sizing->network;
    for (size_t i = 0; i < network->ducts.count; i++) {
        struct duct *duct = network->ducts.at[i];
        if (duct->leg_start && !duct->fixed)
            duct->reason = SIZE_SPLIT;
        else if (sizing_dictated(duct))
            duct->reason = duct->reason == SIZE_UNSET ? SIZE_DECLARED : duct->reason;
        else if (duct->reason == SIZE_CHOSEN)
            duct->reason = reason_of(sizing, duct);
        else if (duct->reason != SIZE_LIMITED)
            continue;
        else if (!follows_limited(duct) && sizing->said && !is_bearable(sizing, duct))
            diagnose_limited(sizing, duct, excess);
    }
    room_explain(sizing);
}
