/* Sizes, ways and ports of shapes. */
#include "metal/shape.h"

struct shape_duct shape_duct_of(struct duct_size size) {
    return (struct shape_duct){(double)size.shape, size.width, size.height};
}

struct duct_size shape_duct_size(struct shape_duct duct) {
    return (struct duct_size){(enum shape)(int)duct.shape, duct.width, duct.height};
}

/* What is typed in is read with an error of its own: less than the shapes let pass. */
double enough_whole(enum measure_system system, double length) {
    double step = system == MEASURE_METRIC ? 10 * MILLIMETRE : INCH;
    return ceil((length - SAME_POINT / 4) / step) * step;
}

const char *enough_length(struct arena *arena, enum measure_system system, double length) {
    return measure_text(arena, system, SHOW_SIZE, enough_whole(system, length));
}

/* Either way of the air, with its source in the check `transition`; and some metal between the joints: common practice,
 * no source. */
static const double gentle = 20 * DEGREE, least_change = 6 * INCH;

const char *transition_hint(struct arena *arena, enum measure_system system, struct duct_size near,
                            struct duct_size far) {
    double most = fmax(fabs(near.width - far.width), fabs(near.height - far.height)) / 2;
    return arena_format(arena, "transition to %s over %s", size_text(arena, system, far),
                        enough_length(arena, system, fmax(most / tan(gentle), least_change)));
}

static double roll_of(double way) {
    static const double rolls[] = {[WAY_LEFT] = 0, [WAY_RIGHT] = PI, [WAY_UP] = PI / 2, [WAY_DOWN] = -PI / 2};
    return rolls[(int)way];
}

struct frame frame_for_way(double way) {
    return frame_rolled(&frame_near, roll_of(way));
}

struct frame frame_unrolled(const struct frame *frame, double way) {
    return frame_rolled(frame, -roll_of(way));
}

int shape_near_port(struct solid *solid, struct shape_duct duct) {
    struct frame out = frame_turned(&frame_near, PI);
    return solid_port(solid, PORT_USE_DUCT, "toward the unit", &out, shape_duct_size(duct));
}

int shape_far_port(struct solid *solid, const struct frame *frame, double way, struct shape_duct duct) {
    struct frame out = frame_unrolled(frame, way);
    return solid_port(solid, PORT_USE_DUCT, "away from the unit", &out, shape_duct_size(duct));
}
