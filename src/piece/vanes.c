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

void make_bend_vanes(struct making *making, const struct order *in, struct bend_passage passage) {
    double radii[BEND_VANES];
    struct arena *arena = making_scratch(making);
    size_t count = bend_vanes(passage.throat, passage.width, radii);
    for (size_t i = 0; i < count; i++) {
        const char *from = measure_text(arena, making_job(making)->system, SHOW_CUT, radii[i] - passage.throat);
        make_vane(making, in, (struct vane){radii[i], passage.angle, passage.depth},
                  arena_format(arena, "in the elbow, %s from its throat", from));
    }
}

/* Single vanes of 2 in radius, 1-1/2 in apart along the diagonal of a square elbow of w x h: so many w h of sheet
 * (90 degrees of each is 3.14 in, and the diagonal is 1.41 w).  From memory: SMACNA, HVAC Duct Construction Standards,
 * small single vanes. */
double mitre_vanes_sheet(struct duct_size size) {
    return 1.41 * 3.14 / 1.5 * size_area(size);
}
