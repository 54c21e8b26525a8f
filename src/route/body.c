/* What units take up between their collars, and what of the building stands in it. */
#include <math.h>

#include "base/constant.h"
#include "model/lined.h"
#include "route/box_tree.h"
#include "route/hull.h"
#include "route/route.h"

/* A cabinet stands out so much round the greater of its collars, and is no smaller than the least.  Chosen here, no
 * source: what a job does not say. */
static const double beside = 3 * INCH, least = 1 * FOOT;

/* Less than this is touched, not stood in. */
static const double slack = 0.125 * INCH;

/* In the axes of the supply collar: right, along, up. */
struct cabinet {
    double low[3], high[3]; /* m */
};

static double on_axis(struct space a, int axis) {
    return axis == 0 ? a.x : axis == 1 ? a.y : a.z;
}

static struct space in_axes(const struct frame *axes, struct space a) {
    return (struct space){space_dot(a, axes->right), space_dot(a, axes->along), space_dot(a, axes->up)};
}

/* A return collar in a side of the cabinet: that side is where the collar is, unless that would be far off or within
 * the supply collar, and the others go round it. */
static void reach_collar(struct cabinet *cabinet, const struct air_unit *unit, const struct frame *supply,
                         const struct placed_run *back) {
    struct space at = in_axes(supply, space_sub(back->begin.origin, supply->origin));
    struct space out = in_axes(supply, back->begin.along);
    struct space right = in_axes(supply, back->begin.right), up = in_axes(supply, back->begin.up);
    struct duct_size collar = size_known(unit->return_) ? unit->return_ : duct_metal(back->run->first_duct);
    int side = fabs(out.x) > 0.9 ? 0 : 2;
    double sign = on_axis(out, side) > 0 ? 1 : -1, face = sign * on_axis(at, side);
    double within = (side ? unit->supply.height : unit->supply.width) / 2;
    if (face < within || face > route_cabinet())
        return;
    *(sign > 0 ? &cabinet->high[side] : &cabinet->low[side]) = sign * face;
    for (int axis = 0; axis < 3; axis++) {
        double half = fabs(on_axis(right, axis)) * collar.width / 2 + fabs(on_axis(up, axis)) * collar.height / 2;
        if (axis == side)
            continue;
        cabinet->low[axis] = fmin(cabinet->low[axis], on_axis(at, axis) - half - beside);
        if (axis != 1) /* nothing of it stands out past the supply collar */
            cabinet->high[axis] = fmax(cabinet->high[axis], on_axis(at, axis) + half + beside);
    }
}

bool route_cabinet_box(const struct job *job, const struct air_unit *unit, struct stretch *box) {
    const struct placed_run *supply = unit->supply_run ? route_of(job, unit->supply_run) : NULL;
    const struct placed_run *back = unit->return_run ? route_of(job, unit->return_run) : NULL;
    if (!supply)
        return false;
    double length = back ? space_dot(space_sub(supply->begin.origin, back->begin.origin), supply->begin.along) : 0;
    double half_width = fmax(fmax(unit->supply.width, unit->return_.width) + 2 * beside, least) / 2;
    double half_height = fmax(fmax(unit->supply.height, unit->return_.height) + 2 * beside, least) / 2;
    struct cabinet cabinet = {{-half_width, -fmax(length, least), -half_height}, {half_width, 0, half_height}};
    if (back && fabs(space_dot(back->begin.along, supply->begin.along)) < 0.1)
        reach_collar(&cabinet, unit, &supply->begin, back);
    double right = (cabinet.low[0] + cabinet.high[0]) / 2, up = (cabinet.low[2] + cabinet.high[2]) / 2;
    struct duct_size size = {SHAPE_RECTANGULAR, cabinet.high[0] - cabinet.low[0], cabinet.high[2] - cabinet.low[2]};
    *box = (struct stretch){.near = frame_moved(&supply->begin, right, 0, up),
                            .far = frame_moved(&supply->begin, right, cabinet.low[1], up),
                            .from = size,
                            .to = size};
    return true;
}

/* Only of a unit that is passed straight through is it known, nearly, what lies between its collars. */
static bool is_straight_through(const struct job *job, const struct air_unit *unit, const struct stretch *box) {
    const struct placed_run *back = unit->return_run ? route_of(job, unit->return_run) : NULL;
    return back && space_dot(back->begin.along, box->near.along) < -0.999 &&
           space_distance(back->begin.origin, box->far.origin) < 1 * INCH;
}

static void add_body(struct arena *arena, const struct job *job, struct route *route, size_t index) {
    const struct air_unit *unit = job->units.at[index];
    struct stretch box;
    if (unit->faulty || !route_cabinet_box(job, unit, &box) || !is_straight_through(job, unit, &box))
        return;
    struct hull hull = hull_of_stretch(&box);
    struct body *body = list_add(arena, &route->bodies);
    *body = (struct body){.unit = unit, .positioned = unit->position_given};
    body->apart = route_apart(&(struct placed_run){.positioned = body->positioned, .unit = index});
    body->box.title = arena_format(job->arena, "body of %s (as drawn)", unit->name);
    body->box.at = unit->at;
    hull_bounds(&hull, body->box.low, body->box.high);
}

struct standing {
    struct arena *arena;
    const struct job *job;
    struct route *route;
    const struct body *body;
};

static int see(void *context, const struct box *box) {
    struct standing *standing = context;
    const struct obstacle *obstacle = standing->job->obstacles.at[box->what];
    struct hull one = hull_of_box(standing->body->box.low, standing->body->box.high);
    struct hull other = hull_of_box(obstacle->low, obstacle->high);
    double overlap = hull_overlap(&one, &other);
    if (overlap > slack)
        *list_add(standing->arena, &standing->route->inside) =
            (struct inside){standing->body->unit, obstacle, hull_meeting(&one, &other), overlap};
    return 1;
}

static struct box box_of(const struct obstacle *obstacle, size_t what) {
    struct box box = {.what = what};
    for (int i = 0; i < 3; i++) {
        box.low[i] = obstacle->low[i];
        box.high[i] = obstacle->high[i];
    }
    return box;
}

void route_bodies(struct arena *arena, const struct job *job, struct route *route) {
    for (size_t i = 0; i < job->units.count; i++)
        add_body(arena, job, route, i);
    if (!job->obstacles.count || !route->bodies.count)
        return;
    struct box *boxes = ARENA_ARRAY(arena, struct box, job->obstacles.count);
    for (size_t i = 0; i < job->obstacles.count; i++)
        boxes[i] = box_of(job->obstacles.at[i], i);
    const struct box_tree *tree = box_tree_new(arena, boxes, job->obstacles.count);
    struct standing standing = {.arena = arena, .job = job, .route = route};
    for (size_t i = 0; i < route->bodies.count; i++) {
        standing.body = &route->bodies.at[i];
        struct box box = box_of(&standing.body->box, i);
        if (standing.body->positioned)
            box_tree_each(tree, &box, see, &standing);
    }
}
