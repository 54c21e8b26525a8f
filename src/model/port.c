/* Where a run hangs, in words, and whether something hangs from it. */
#include "model/model.h"
#include "model/words.h"

/* ", left" */
static const char *side_text(enum side side, struct arena *arena) {
    return side == SIDE_NONE ? "" : arena_format(arena, ", %s", side_name(side));
}

const char *port_text(const struct port *port, enum measure_system system, struct arena *arena) {
    switch (port->kind) {
    case PORT_UNIT:
        return arena_format(arena, "%s of %s", port->supply ? "supply" : "return", port->name);
    case PORT_END:
        return arena_format(arena, "end of %s", port->name);
    case PORT_LEG:
        return arena_format(arena, "%s leg of %s", port->leg_name, port->name);
    case PORT_TAP:
        return arena_format(arena, "%s at %s%s%s", port->name, port->station_about ? "about " : "",
                            measure_text(arena, system, SHOW_RUN, port->station), side_text(port->side, arena));
    default:
        return "";
    }
}

bool run_bears(const struct run *run) {
    bool leg = run->legs[LEG_LEFT] || run->legs[LEG_RIGHT] || run->legs[LEG_STRAIGHT];
    return run->taps.count > 0 || run->end || leg;
}
