/* A tap and the wall that it sits on: which way it lies along its parent, its base there, the opening for it. */
#include "metal/shape_tap_wall.h"

struct frame tap_parent_wise(const struct tap_size *tap) {
    return frame_rolled(&frame_near, PI / 2 - tap->toward);
}

/* The tap's width and height lie along the parent the other way round. */
static bool lies_across(const struct tap_size *tap) {
    return fabs(cos(tap->toward)) > 0.5;
}

struct profile tap_run_wise(const struct tap_size *tap) {
    struct profile run = tap->run;
    if (lies_across(tap))
        run = (struct profile){run.height, run.width, run.radius};
    return run;
}

struct profile tap_spread(struct profile section, struct tap_opening base) {
    section.width += base.across;
    section.height += base.upstream + base.downstream;
    if (section.radius > SAME_POINT)
        section.radius = fmin(section.width, section.height) / 2;
    return section;
}

struct profile tap_base_section(const struct tap_size *tap) {
    struct profile base = tap_spread(tap_run_wise(tap), tap->base);
    if (tap->style == TAP_SHOE)
        base.radius = 0;
    if (lies_across(tap))
        base = (struct profile){base.height, base.width, base.radius};
    return base;
}

double tap_base_depth(const struct tap_size *tap) {
    double radius = tap->wall / 2, reach = (tap_run_wise(tap).width + tap->base.across) / 2 + fabs(tap->aside);
    return radius > 0 ? radius - sqrt(fmax(radius * radius - reach * reach, 0)) : 0;
}

struct frame tap_base_frame(const struct tap_size *tap) {
    struct frame wise = tap_parent_wise(tap);
    bool spreads = tap->base.across > 0 || tap->base.upstream > 0 || tap->base.downstream > 0;
    return frame_moved(&wise, 0, spreads ? -tap_base_depth(tap) : 0, (tap->base.upstream - tap->base.downstream) / 2);
}

struct cut tap_wall_cut(const struct tap_size *tap) {
    struct frame wise = tap_parent_wise(tap);
    double c = cos(tap->lean), s = sin(tap->lean);
    if (tap->wall <= 0)
        return (struct cut){.kind = CUT_PLANE, .way = frame_way(&wise, 0, c, s)};
    return (struct cut){
        .kind = CUT_CYLINDER,
        .point = frame_point(&wise, -tap->aside, -tap->wall / 2, 0),
        .way = frame_way(&wise, 0, s, -c),
        .radius = tap->wall / 2,
    };
}

/* ---- On the parent ----------------------------------------------------------------------------------------------- */

/* A side is round when the corners meet there. */
void tap_on(struct tap_size *tap, enum side side, struct profile parent) {
    static const double toward[] = {
        [SIDE_LEFT] = PI, [SIDE_RIGHT] = 0, [SIDE_TOP] = PI / 2, [SIDE_BOTTOM] = 3 * PI / 2};
    double flat = (side == SIDE_TOP || side == SIDE_BOTTOM ? parent.width : parent.height) - 2 * parent.radius;
    tap->toward = toward[side];
    tap->wall = flat <= SAME_POINT ? 2 * parent.radius : 0;
}

/* `along` points out of the duct.  Width lies across it on the top and bottom, along it on the left and right. */
static struct frame wall_frame(enum side side, double station, struct profile parent) {
    double right = parent.width / 2, up = parent.height / 2;
    switch (side) {
    case SIDE_LEFT:
        return (struct frame){{-right, station, 0}, {0, 1, 0}, {-1, 0, 0}, {0, 0, 1}};
    case SIDE_RIGHT:
        return (struct frame){{right, station, 0}, {0, -1, 0}, {1, 0, 0}, {0, 0, 1}};
    case SIDE_BOTTOM:
        return (struct frame){{0, station, -up}, {1, 0, 0}, {0, 0, -1}, {0, 1, 0}};
    default:
        return (struct frame){{0, station, up}, {1, 0, 0}, {0, 0, 1}, {0, -1, 0}};
    }
}

/* The tap's own frame in the parent's space: it leans about the point where its line is nearest the parent's, or meets
 * a flat wall. */
static struct frame tap_frame(const struct tap_size *tap, struct frame wall) {
    double roll = PI / 2 - tap->toward, radius = tap->wall / 2;
    struct frame wise = frame_rolled(&wall, roll), leaning = wise;
    leaning.along = frame_way(&wise, 0, cos(tap->lean), -sin(tap->lean));
    leaning.up = space_cross(leaning.right, leaning.along);
    leaning.origin = frame_point(&wise, tap->aside, -radius, 0);
    leaning = frame_moved(&leaning, 0, radius, 0);
    return frame_rolled(&leaning, -roll);
}

struct tapped tap_opening_in(struct solid *solid, const struct tap_size *tap, enum side side, double station,
                             struct profile parent) {
    struct frame wall = tap_frame(tap, wall_frame(side, station, parent));
    struct tapped tapped = {.tap = wall, .section = tap_base_section(tap)};
    struct solid *own = solid_new(solid->arena, solid->fineness);
    shape_tap(own, tap);
    if (own->fault)
        return tapped;
    struct space *points = tap_base_border(own, solid->arena, &tapped.count);
    for (size_t i = 0; i < tapped.count; i++)
        points[i] = frame_point(&wall, points[i].x, points[i].y, points[i].z);
    tapped.points = points;
    return tapped;
}
