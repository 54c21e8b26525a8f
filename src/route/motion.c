/* The pieces' moves through space. */
#include "route/motion.h"

#include "base/constant.h"
#include "metal/shape_elbow.h"

/* A bend is drawn, and kept clear of, as chords of this turn at most: at a radius of 20 in they lie 1/10 in inside the
 * arc.  Chosen here: no source. */
static const double chord_turn = 11.25 * DEGREE;

struct duct_size motion_size(const struct motion *motion) {
    return motion->size;
}

const struct frame *motion_frame(const struct motion *motion) {
    return &motion->at;
}

static void add(struct motion *motion, const struct frame *near, struct duct_size from, const struct frame *far,
                struct duct_size to, double begins, double ends) {
    if (!size_known(from) || !size_known(to) || !motion->run)
        return;
    const struct run *run = motion->run->run;
    double around = route_around(run, motion->piece, from), other = route_around(run, motion->piece, to);
    *list_add(motion->arena, &motion->route->stretches) = (struct stretch){
        .near = *near,
        .far = *far,
        .from = from,
        .to = to,
        .begins = begins,
        .ends = ends,
        .around = fmax(around, other),
        .piece = motion->route->pieces.count - 1,
    };
}

/* To `far`, filled with the duct on the way. */
static void go(struct motion *motion, const struct frame *far, struct duct_size to) {
    double length = space_distance(motion->at.origin, far->origin);
    add(motion, &motion->at, motion->size, far, to, motion->way, motion->way + length);
    motion->at = *far;
    motion->size = to;
    motion->way += length;
}

void motion_on(struct motion *motion, double length) {
    struct frame far = frame_moved(&motion->at, 0, length, 0);
    if (length > 0)
        go(motion, &far, motion->size);
}

void motion_body(struct motion *motion, double length, struct duct_size section) {
    struct duct_size size = motion->size;
    motion->size = section;
    motion_on(motion, length);
    motion->size = size;
}

void motion_change(struct motion *motion, double right, double along, double up, double turned, struct duct_size to) {
    struct frame far = frame_moved(&motion->at, right, along, up);
    far = frame_rolled(&far, turned);
    go(motion, &far, to);
}

/* ---- Bends ------------------------------------------------------------------------------------------------------- */

/* A direction turned about a unit vector (Rodrigues). */
static struct space turned_about(struct space a, struct space axis, double angle) {
    struct space across = space_cross(axis, a);
    struct space along = space_scale(axis, space_dot(axis, a) * (1 - cos(angle)));
    return space_add(space_add(space_scale(a, cos(angle)), space_scale(across, sin(angle))), along);
}

static struct frame frame_about(const struct frame *frame, struct space axis, double angle) {
    return (struct frame){
        .origin = frame->origin,
        .right = turned_about(frame->right, axis, angle),
        .along = turned_about(frame->along, axis, angle),
        .up = turned_about(frame->up, axis, angle),
    };
}

/* Which way a bend turns: the side that its centre lies on, and the line that it turns about. */
struct turning {
    struct space side, axis;
};

static struct turning turning_of(const struct frame *frame, enum way way) {
    struct space side = frame_way(frame,
                                  way == WAY_RIGHT  ? 1.0
                                  : way == WAY_LEFT ? -1.0
                                                    : 0,
                                  0,
                                  way == WAY_UP     ? 1.0
                                  : way == WAY_DOWN ? -1.0
                                                    : 0);
    return (struct turning){side, space_cross(frame->along, side)};
}

static double between(double from, double to, double share) {
    return from + (to - from) * share;
}

static struct duct_size size_between(struct duct_size from, struct duct_size to, double share) {
    if (share >= 1 || size_equal(from, to))
        return to;
    return (struct duct_size){from.shape, between(from.width, to.width, share), between(from.height, to.height, share)};
}

void motion_bend(struct motion *motion, enum way way, double angle, double near, double far, struct duct_size to) {
    struct turning turning = turning_of(&motion->at, way);
    struct frame start = motion->at;
    struct duct_size from = motion->size;
    struct space centre = space_add(start.origin, space_scale(turning.side, near));
    int chords = (int)fmax(ceil(angle / chord_turn - 1e-9), 1);
    for (int i = 1; i <= chords; i++) {
        double share = (double)i / chords, radius = between(near, far, share);
        struct frame next = frame_about(&start, turning.axis, angle * share);
        struct space out = turned_about(turning.side, turning.axis, angle * share);
        next.origin = space_sub(centre, space_scale(out, radius));
        double length = angle / chords * (near + far) / 2;
        add(motion, &motion->at, motion->size, &next, size_between(from, to, share), motion->way, motion->way + length);
        motion->at = next;
        motion->size = size_between(from, to, share);
        motion->way += length;
    }
}

/* The dimension in the plane of a bend. */
static double *side_of(struct duct_size *size, enum way way) {
    return way_is_level(way) ? &size->width : &size->height;
}

/* The mitre's plane, from the throat's corner to the heel's. */
static struct frame mitre_frame(const struct frame *frame, enum way way, struct space throat, struct space heel) {
    struct frame at = *frame;
    struct space across = space_unit(space_sub(throat, heel));
    if (way_is_level(way))
        at.right = space_scale(across, way == WAY_RIGHT ? 1 : -1);
    else
        at.up = space_scale(across, way == WAY_UP ? 1 : -1);
    at.along = space_cross(at.up, at.right);
    at.origin = space_between(throat, heel, 0.5);
    return at;
}

void motion_corner(struct motion *motion, enum way way, double angle, struct duct_size to) {
    struct frame start = motion->at;
    struct turning turning = turning_of(&start, way);
    struct duct_size from = motion->size, wide = from;
    double near = *side_of(&from, way), far = *side_of(&to, way);
    struct mitre_line line = square_mitre_line(near, far, angle);
    struct space throat = space_add(start.origin, space_scale(turning.side, near / 2));
    struct space heel =
        space_add(space_sub(throat, space_scale(turning.side, near)), space_scale(start.along, line.near_leg));
    struct frame mitre = mitre_frame(&start, way, throat, heel), end = frame_about(&start, turning.axis, angle);
    *side_of(&wide, way) = line.length;
    end.origin = space_sub(throat, space_scale(turned_about(turning.side, turning.axis, angle), far / 2));
    go(motion, &mitre, wide);
    go(motion, &end, to);
}

/* Each mitre halves its turn, and its section is as much wider. */
static void step_in_mitres(struct motion *motion, const struct turning *turning, const struct offset_bend *bend,
                           struct duct_size wide) {
    struct duct_size size = motion->size;
    struct frame start = motion->at, near = frame_moved(&start, 0, bend->end, 0), far = near;
    far.origin = space_add(far.origin, space_scale(start.along, bend->between * cos(bend->angle)));
    far.origin = space_add(far.origin, space_scale(turning->side, bend->between * sin(bend->angle)));
    struct frame first = frame_about(&near, turning->axis, bend->angle / 2);
    struct frame last = frame_about(&far, turning->axis, bend->angle / 2);
    struct frame end = frame_moved(&far, 0, bend->end, 0);
    go(motion, &first, wide);
    go(motion, &last, wide);
    go(motion, &end, size);
}

void motion_step(struct motion *motion, enum way way, const struct offset_bend *bend) {
    static const enum way other[] = {
        [WAY_LEFT] = WAY_RIGHT, [WAY_RIGHT] = WAY_LEFT, [WAY_UP] = WAY_DOWN, [WAY_DOWN] = WAY_UP};
    struct turning turning = turning_of(&motion->at, way);
    struct duct_size wide = motion->size;
    if (!(bend->radius > 0)) {
        if (wide.shape == SHAPE_RECTANGULAR)
            *side_of(&wide, way) /= cos(bend->angle / 2);
        step_in_mitres(motion, &turning, bend, wide);
        return;
    }
    motion_on(motion, bend->end);
    motion_bend(motion, way, bend->angle, bend->radius, bend->radius, motion->size);
    motion_bend(motion, other[way], bend->angle, bend->radius, bend->radius, motion->size);
    motion_on(motion, bend->end);
}

/* ---- What the run does not go through ---------------------------------------------------------------------------- */

/* Out of the axes of another frame. */
static struct frame frame_in(const struct frame *axes, const struct frame *at) {
    return (struct frame){
        .origin = frame_point(axes, at->origin.x, at->origin.y, at->origin.z),
        .right = frame_way(axes, at->right.x, at->right.y, at->right.z),
        .along = frame_way(axes, at->along.x, at->along.y, at->along.z),
        .up = frame_way(axes, at->up.x, at->up.y, at->up.z),
    };
}

void motion_fill(struct motion *motion, const struct frame *near, struct duct_size from, const struct frame *far,
                 struct duct_size to) {
    struct frame begin = frame_in(&motion->at, near), end = frame_in(&motion->at, far);
    add(motion, &begin, from, &end, to, motion->way, motion->way + space_distance(begin.origin, end.origin));
}

void motion_leg(struct motion *motion, enum leg leg, const struct frame *at) {
    motion->run->legs[leg] = frame_in(&motion->start, at);
    motion->run->has_leg[leg] = true;
}

void motion_turn(struct motion *motion, const struct frame *to, struct duct_size size) {
    motion->way += space_length(to->origin);
    motion->at = frame_in(&motion->at, to);
    motion->size = size;
}

void motion_face(struct motion *motion, struct duct_size face) {
    motion->run->face = face;
}

void motion_free(struct motion *motion) {
    motion->free = true;
}
