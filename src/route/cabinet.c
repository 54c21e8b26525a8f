/* What units take up between their collars, and what of the building stands in it. */
#include <math.h>

#include "base/constant.h"
#include "model/lined.h"
#include "route/box_tree.h"
#include "route/hull.h"
#include "route/route.h"

/* A cabinet is drawn so much larger than the greater of its collars on each side, and `least` at least.  Chosen here,
 * no source: a job does not say how large a unit is. */
static const double beside = 3 * INCH, least = 1 * FOOT;

/* In the axes of the supply collar: right, along, up. */
struct extent {
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
static void reach_collar(struct extent *extent, const struct air_unit *unit, const struct frame *supply,
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
    *(sign > 0 ? &extent->high[side] : &extent->low[side]) = sign * face;
    for (int axis = 0; axis < 3; axis++) {
        double half = fabs(on_axis(right, axis)) * collar.width / 2 + fabs(on_axis(up, axis)) * collar.height / 2;
        if (axis == side)
            continue;
        extent->low[axis] = fmin(extent->low[axis], on_axis(at, axis) - half - beside);
        if (axis != 1) /* nothing of it stands out past the supply collar */
            extent->high[axis] = fmax(extent->high[axis], on_axis(at, axis) + half + beside);
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
    struct extent extent = {{-half_width, -fmax(length, least), -half_height}, {half_width, 0, half_height}};
    if (back && fabs(space_dot(back->begin.along, supply->begin.along)) < 0.1)
        reach_collar(&extent, unit, &supply->begin, back);
    double right = (extent.low[0] + extent.high[0]) / 2, up = (extent.low[2] + extent.high[2]) / 2;
    struct duct_size size = {SHAPE_RECTANGULAR, extent.high[0] - extent.low[0], extent.high[2] - extent.low[2]};
    *box = (struct stretch){.near = frame_moved(&supply->begin, right, 0, up),
                            .far = frame_moved(&supply->begin, right, extent.low[1], up),
                            .from = size,
                            .to = size};
    return true;
}

/* Collars that look opposite ways to within 2.5 degrees (its cosine), and stand in line to within an inch, are those of
 * a unit that is passed straight through.  Chosen here, no source: as a job would measure it. */
static const double opposite = 0.999, in_line = 1 * INCH;

/* Only for a unit that air passes straight through is it nearly known what lies between its collars. */
static bool is_straight_through(const struct job *job, const struct air_unit *unit, const struct stretch *box) {
    const struct placed_run *back = unit->return_run ? route_of(job, unit->return_run) : NULL;
    return back && space_dot(back->begin.along, box->near.along) < -opposite &&
           space_distance(back->begin.origin, box->far.origin) < in_line;
}

static void add_cabinet(struct arena *arena, const struct job *job, struct route *route, size_t index) {
    const struct air_unit *unit = job->units.at[index];
    struct stretch box;
    if (unit->faulty || !route_cabinet_box(job, unit, &box) || !is_straight_through(job, unit, &box))
        return;
    struct hull hull = hull_of_stretch(&box);
    struct cabinet *cabinet = list_add(arena, &route->cabinets);
    *cabinet = (struct cabinet){.unit = unit, .positioned = unit->position_given};
    cabinet->apart = route_apart(&(struct placed_run){.positioned = cabinet->positioned, .unit = index});
    cabinet->box.title = arena_format(job->arena, "body of %s (as drawn)", unit->name);
    cabinet->box.at = unit->at;
    hull_bounds(&hull, cabinet->box.low, cabinet->box.high);
}

struct standing {
    struct arena *arena;
    const struct job *job;
    struct route *route;
    const struct cabinet *cabinet;
};

static int see(void *context, const struct box *box) {
    struct standing *standing = context;
    const struct obstacle *obstacle = standing->job->obstacles.at[box->what];
    struct hull one = hull_of_box(standing->cabinet->box.low, standing->cabinet->box.high);
    struct hull other = hull_of_box(obstacle->low, obstacle->high);
    double overlap = hull_overlap(&one, &other);
    if (overlap > route_slack)
        *list_add(standing->arena, &standing->route->inside) =
            (struct inside){standing->cabinet->unit, obstacle, hull_meeting(&one, &other), overlap};
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

void route_cabinets(struct arena *arena, const struct job *job, struct route *route) {
    for (size_t i = 0; i < job->units.count; i++)
        add_cabinet(arena, job, route, i);
    if (!job->obstacles.count || !route->cabinets.count)
        return;
    struct box *boxes = ARENA_ARRAY(arena, struct box, job->obstacles.count);
    for (size_t i = 0; i < job->obstacles.count; i++)
        boxes[i] = box_of(job->obstacles.at[i], i);
    const struct box_tree *tree = box_tree_new(arena, boxes, job->obstacles.count);
    struct standing standing = {.arena = arena, .job = job, .route = route};
    for (size_t i = 0; i < route->cabinets.count; i++) {
        standing.cabinet = &route->cabinets.at[i];
        struct box box = box_of(&standing.cabinet->box, i);
        if (standing.cabinet->positioned)
            box_tree_each(tree, &box, see, &standing);
    }
}
