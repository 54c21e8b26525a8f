/* What units take up between their collars, and what of the building stands in it. */
#include "base/constant.h"
#include "route/box_tree.h"
#include "route/hull.h"
#include "route/route.h"

/* A cabinet is drawn so much larger than the greater of its collars on each side, and `least` at least.  Chosen here,
 * no source: a job does not say how large a unit is. */
static const double beside = 3 * INCH, least = 1 * FOOT;

bool route_cabinet_box(const struct job *job, const struct air_unit *unit, struct stretch *box) {
    const struct placed_run *supply = unit->supply_run ? route_of(job, unit->supply_run) : NULL;
    const struct placed_run *back = unit->return_run ? route_of(job, unit->return_run) : NULL;
    if (!supply)
        return false;
    double length = back ? space_dot(space_sub(supply->begin.origin, back->begin.origin), supply->begin.along) : 0;
    double width = fmax(unit->supply.width, unit->return_.width) + 2 * beside;
    double height = fmax(unit->supply.height, unit->return_.height) + 2 * beside;
    struct duct_size size = {SHAPE_RECTANGULAR, fmax(width, least), fmax(height, least)};
    *box = (struct stretch){.near = supply->begin,
                            .far = frame_moved(&supply->begin, 0, -fmax(length, least), 0),
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
