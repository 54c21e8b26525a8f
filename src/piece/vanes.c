/* Turning vanes as parts: single plates, and rows of them between two rails. */
#include "piece/vanes.h"

#include "piece/common.h"

void make_vane(struct making *making, const struct order *in, struct vane vane, const char *note) {
    struct arena *arena = making_scratch(making);
    enum measure_system system = making_job(making)->system;
    struct order order = *in;
    order.title = arena_format(
        arena, "Turning vane, %s radius, %s degrees, %s long", measure_text(arena, system, SHOW_CUT, vane.radius),
        piece_figure(arena, vane.sweep / DEGREE), measure_text(arena, system, SHOW_CUT, vane.length));
    order.shape = "turning vane";
    order.build = shape_vane;
    order.size = &vane;
    order.size_bytes = sizeof vane;
    order.note = note;
    make_part(making, &order);
}

void make_railed_vanes(struct making *making, const struct order *in, struct vane_rail rail, double sweep,
                       double length, const char *note) {
    for (size_t i = 0; i < rail.count; i++)
        make_vane(making, in, (struct vane){rail.radius, sweep, length}, note);
    make_strip(making, &(struct made_strip){.name = "vane rail",
                                            .length = rail.length,
                                            .width = 2 * rail.radius * sin(sweep / 2),
                                            .apart = rail.apart,
                                            .gauge = making_gauge(making, in->near),
                                            .count = 2});
}
