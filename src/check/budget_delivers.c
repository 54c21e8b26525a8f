/* What a unit delivers whose blower has less than is asked of it. */
#include "check/budget_delivers.h"

#include <string.h>

#include "air/operation.h"

/* Outlets that are named: chosen here, no source. */
enum { OUTLETS_NAMED = 8 };

static const struct operating_point *point_of(const struct network *network) {
    const struct operation *operation = network->operation;
    const struct operating_point *point = operation ? operation_left(operation) : NULL;
    bool known = point && point->sections && point->outcome != OPERATES_NO_CURVE && point->outcome != OPERATES_BEYOND;
    return known ? point : NULL;
}

static const char *how_words(const struct network *network, const struct operating_point *point) {
    return point == &network->operation->balanced ? "as sized and balanced" : "as sized, dampers open,";
}

const char *delivers_words(const struct look *look, const struct network *network) {
    const struct operating_point *point = point_of(network);
    if (!point)
        return "";
    return arena_format(look->job->arena, "; %s %s will move %s%s of %s", how_words(network, point),
                        network->unit->name, point->outcome == OPERATES_SHORT_OF ? "less than " : "",
                        check_text(look->job, SHOW_FLOW, point->flow),
                        check_text(look->job, SHOW_FLOW, network->supply_flow));
}

static void say_unknown(const struct look *look, const struct network *network, struct diagnostic *said) {
    const struct operation *operation = network->operation;
    if (operation && operation->dampers_open.outcome == OPERATES_NO_CURVE)
        diagnostic_relate(look->job->diagnostics, said, network->unit->blower_at,
                          "what it will deliver is not known: one point of a blower does not say what it moves against "
                          "more; give another, with less air");
}

void delivers_tell(const struct look *look, const struct network *network, struct diagnostic *said) {
    const struct operating_point *point = point_of(network);
    struct arena *arena = look->job->arena;
    const char *all = "";
    size_t named = 0, others = 0;
    if (!point) {
        say_unknown(look, network, said);
        return;
    }
    for (size_t i = 0; i < network->supply_paths.count; i++) {
        const struct path *path = &network->supply_paths.at[i];
        double takes = operating_flow(point, path);
        if (!path->end->terminal || takes >= path->end->flow)
            continue;
        if (named >= OUTLETS_NAMED) {
            others++;
            continue;
        }
        const char *gets = check_text(look->job, SHOW_FLOW, takes);
        const char *of = check_text(look->job, SHOW_FLOW, path->end->flow);
        if (strcmp(gets, of) == 0) /* so near that it is not printed */
            continue;
        all = arena_format(arena, "%s%s%s %s of %s", all, named++ ? ", " : "", path->end->terminal->name, gets, of);
    }
    if (!named)
        return;
    if (others)
        all = arena_format(arena, "%s, and %zu more are short", all, others);
    diagnostic_relate(
        look->job->diagnostics, said, network->unit->at, "what it will deliver, %s%s: %s", how_words(network, point),
        point->outcome == OPERATES_SHORT_OF ? " (less than these: the blower's points begin there)" : "", all);
}
