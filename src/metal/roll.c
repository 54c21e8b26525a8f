/* Rolled panels: cylinders and cones, laid flat by their exact laws.
 *
 * A cylinder unrolls to x = the length of its right section, y = the place along the ruling.  For a circle square to
 * the rulings that length is r t; for any other it is the integral of |A' - (A' . w) w|. A cone unrolls about its apex:
 * a point keeps its distance from there, and the angle is the integral of |P x P'| / |P|^2, with P the arc's point from
 * the apex.  Differential geometry of developable surfaces; New Metal Worker Pattern Book (public domain) does the same
 * with triangles.
 */
#include "metal/solid.h"

#include <assert.h>

static struct space arc_point(const struct arc *arc, double t) {
    return space_add(arc->centre,
                     space_add(space_scale(arc->u, arc->radius * cos(t)), space_scale(arc->v, arc->radius * sin(t))));
}

/* From near to far. */
static struct space ruling_way(const struct roll *roll, struct space from) {
    if (!roll->cone)
        return roll->way;
    return space_unit(space_sub(roll->apex, from));
}

static bool meets_plane(struct space from, struct space way, const struct cut *cut, double *at) {
    double slope = space_dot(way, cut->way);
    if (fabs(slope) < 1e-12)
        return false;
    *at = space_dot(space_sub(cut->point, from), cut->way) / slope;
    return true;
}

/* |from + s way - its foot on the axis| = radius: a square equation. */
static bool cylinder_roots(struct space from, struct space way, const struct cut *cut, double *low, double *high) {
    struct space off = space_sub(from, cut->point);
    struct space q = space_sub(off, space_scale(cut->way, space_dot(off, cut->way)));
    struct space w = space_sub(way, space_scale(cut->way, space_dot(way, cut->way)));
    double a = space_dot(w, w), b = space_dot(q, w), c = space_dot(q, q) - cut->radius * cut->radius;
    double root = b * b - a * c;
    /* A line that touches it misses it by rounding. */
    if (root < 0 && root > -1e-12 * a * cut->radius * cut->radius)
        root = 0;
    if (a < 1e-18 || root < 0)
        return false;
    *low = (-b - sqrt(root)) / a;
    *high = (-b + sqrt(root)) / a;
    return true;
}

/* Of its roots that of the least way. */
static bool meets_cylinder(struct space from, struct space way, const struct cut *cut, double *at) {
    double low, high;
    if (!cylinder_roots(from, way, cut, &low, &high))
        return false;
    *at = fabs(low) < fabs(high) ? low : high;
    return true;
}

bool cut_meets(const struct cut *cut, struct space from, struct space way, struct space *point) {
    double at = 0;
    if (cut->kind == CUT_PLANE && !meets_plane(from, way, cut, &at))
        return false;
    if (cut->kind == CUT_CYLINDER && !meets_cylinder(from, way, cut, &at))
        return false;
    *point = space_add(from, space_scale(way, at));
    return true;
}

/* Where a ruling lies round the cylinder: 0 when it would go through the axis. */
static double round_at(const struct cut *cut, struct space point, struct space way) {
    double aside = space_dot(space_sub(point, cut->point), space_unit(space_cross(cut->way, way)));
    return asin(fmax(-1, fmin(1, aside / cut->radius)));
}

double cut_sweep(const struct cut *cut, struct space a, struct space b, struct space way) {
    return round_at(cut, b, way) - round_at(cut, a, way);
}

struct space cut_between(const struct cut *cut, struct space a, struct space b, struct space way, double share) {
    if (share <= 0 || share >= 1)
        return share <= 0 ? a : b;
    double from = round_at(cut, a, way), sweep = cut_sweep(cut, a, b, way), all = sin(from + sweep) - sin(from);
    if (fabs(all) > 1e-9)
        share = (sin(from + sweep * share) - sin(from)) / all;
    return space_between(a, b, share);
}

static bool roll_meets(const struct roll *roll, const struct cut *cut, double t, struct space *point) {
    struct space from = arc_point(&roll->arc, t);
    if (cut->kind == CUT_APEX) {
        *point = roll->apex;
        return true;
    }
    return cut_meets(cut, from, ruling_way(roll, from), point);
}

/* ---- The law ----------------------------------------------------------------------------------------------------- */

/* What x or the angle grows by per t.  `room`: how far t may stray before the law is no longer smooth, rad at most 1:
 * it is not where a ruling touches the arc, or the arc goes through the apex. */
static double law_and_room(const struct roll *roll, double t, double *room) {
    const struct arc *arc = &roll->arc;
    double across = arc->radius * cos(t), up = arc->radius * sin(t);
    struct space speed = space_add(space_scale(arc->u, -up), space_scale(arc->v, across));
    if (!roll->cone) {
        double grows = space_length(space_sub(speed, space_scale(roll->way, space_dot(speed, roll->way))));
        *room = grows / arc->radius;
        return grows;
    }
    struct space point = space_add(arc->centre, space_add(space_scale(arc->u, across), space_scale(arc->v, up)));
    struct space from = space_sub(point, roll->apex);
    double square = space_dot(from, from), grows = space_length(space_cross(from, speed)) / square;
    double distance = sqrt(square) / arc->radius;
    *room = grows * distance * fmin(1, distance);
    return grows;
}

static double law(const struct roll *roll, double t) {
    double room;
    return law_and_room(roll, t, &room);
}

/* Gauss and Legendre's rules of ten and of five points, of the positive halves.  Ten are exact to rounding over parts
 * of an eighth of a turn where the law is smooth; the error grows with the 2n-th power of the part over the room, so
 * that five are over parts of a tenth of that. */
enum { TEN = 5, FIVE = 3 };
static const struct {
    double at, weight;
} ten[TEN] = {{0.14887433898163122, 0.29552422471475287},
              {0.43339539412924721, 0.26926671930999636},
              {0.67940956829902444, 0.21908636251598204},
              {0.86506336668898451, 0.14945134915058059},
              {0.97390652851717174, 0.06667134430868814}},
  five[FIVE] = {
      {0, 0.56888888888888889}, {0.53846931010568309, 0.47862867049936647}, {0.90617984593866399, 0.23692688505618909}};
static const double short_part = 0.1; /* of the room */

static double integral(const struct roll *roll, double from, double to) {
    double middle = (from + to) / 2, half = (to - from) / 2, room, sum = law_and_room(roll, middle, &room);
    if (fabs(to - from) <= short_part * room) {
        sum *= five[0].weight;
        for (int i = 1; i < FIVE; i++)
            sum += five[i].weight * (law(roll, middle - half * five[i].at) + law(roll, middle + half * five[i].at));
        return sum * half;
    }
    sum = 0;
    for (int i = 0; i < TEN; i++)
        sum += ten[i].weight * (law(roll, middle - half * ten[i].at) + law(roll, middle + half * ten[i].at));
    return sum * half;
}

/* The law is the same at every t: the circle stands square to its axis, or its middle is on the line to the apex. */
static bool is_right(const struct roll *roll) {
    struct space way = roll->way;
    if (roll->cone)
        way = space_unit(space_sub(roll->apex, roll->arc.centre));
    return fabs(space_dot(way, roll->arc.u)) < 1e-14 && fabs(space_dot(way, roll->arc.v)) < 1e-14;
}

/* ---- The panel --------------------------------------------------------------------------------------------------- */

struct rolling {
    struct solid *solid;
    const struct roll *roll;
    struct solid_panel *panel;
    size_t count;
    double *x;       /* at each ruling: x of a cylinder, the angle of a cone */
    double constant; /* the law where it is the same at every t; else 0 */
    bool over;       /* turned over, so that the loop goes anticlockwise */
};

/* By how much x grows from one t to another. */
static double growth(const struct rolling *rolling, double from, double to) {
    return fabs(rolling->constant > 0 ? rolling->constant * (to - from) : integral(rolling->roll, from, to));
}

static double t_at(const struct roll *roll, double i, size_t parts) {
    if (roll->places) {
        double whole = floor(i), part = i - whole;
        const double *at = &roll->places[(size_t)whole];
        return part > 0 ? at[0] + (at[1] - at[0]) * part : at[0];
    }
    return roll->arc.from + (roll->arc.to - roll->arc.from) * i / (double)parts;
}

/* Along the rulings from the arc's middle (an arc that stands oblique to them is no line in the flat), or the distance
 * from the apex. */
static struct flat flat_at(const struct roll *roll, double x, struct space point) {
    if (!roll->cone)
        return (struct flat){x, space_dot(space_sub(point, roll->arc.centre), roll->way)};
    double distance = space_distance(point, roll->apex);
    return flat_turn((struct flat){distance, 0}, x);
}

static void lay_rulings(struct rolling *rolling) {
    const struct roll *roll = rolling->roll;
    struct solid_panel *panel = rolling->panel;
    size_t parts = rolling->count - 1;
    double x = 0;
    rolling->constant = is_right(roll) ? law(roll, roll->arc.from) : 0;
    for (size_t i = 0; i <= parts; i++) {
        double t = t_at(roll, (double)i, parts);
        if (rolling->constant > 0)
            x = growth(rolling, roll->arc.from, t);
        else if (i > 0)
            x += growth(rolling, t_at(roll, (double)i - 1, parts), t);
        rolling->x[i] = x;
        struct space base = arc_point(&roll->arc, t);
        if (!roll_meets(roll, &roll->near, t, &panel->near[i]) || !roll_meets(roll, &roll->far, t, &panel->far[i])) {
            solid_fault(rolling->solid, NULL, "the %s misses what it is cut by", roll->name);
            panel->near[i] = panel->far[i] = base;
        }
        panel->near_flat[i] = flat_at(roll, x, panel->near[i]);
        panel->far_flat[i] = flat_at(roll, x, panel->far[i]);
    }
}

/* A cone whose near edge is the nearer to its apex is laid with its loop clockwise, and so turned over. */
static void turn_over(struct rolling *rolling) {
    struct solid_panel *panel = rolling->panel;
    rolling->over = true;
    for (size_t i = 0; i < panel->rulings; i++) {
        panel->near_flat[i].y = -panel->near_flat[i].y;
        panel->far_flat[i].y = -panel->far_flat[i].y;
    }
}

static double signed_area(const struct solid_panel *panel) {
    double twice = 0;
    for (size_t i = 0; i + 1 < panel->rulings; i++) {
        struct flat a = flat_sub(panel->far_flat[i + 1], panel->near_flat[i]);
        struct flat b = flat_sub(panel->far_flat[i], panel->near_flat[i + 1]);
        twice += flat_cross(a, b);
    }
    return twice / 2;
}

static double off_chord_flat(struct flat a, struct flat b, struct flat middle) {
    double chord = flat_distance(a, b);
    return chord > 0 ? fabs(flat_cross(flat_sub(b, a), flat_sub(middle, a))) / chord : 0;
}

/* How far the chord from ruling i to the next is off the true curve at t between them, where x is what it is there; in
 * space or flat. */
static double chord_error(const struct rolling *rolling, size_t i, const struct cut *cut, const struct space *space,
                          const struct flat *flat, double t, double x) {
    const struct roll *roll = rolling->roll;
    struct space point;
    if (cut->kind == CUT_APEX || !roll_meets(roll, cut, t, &point))
        return 0;
    struct flat middle = flat_at(roll, x, point);
    if (rolling->over)
        middle.y = -middle.y;
    return fmax(space_off_line(space[i], space[i + 1], point), off_chord_flat(flat[i], flat[i + 1], middle));
}

static void find_chord_error(const struct rolling *rolling) {
    struct solid_panel *panel = rolling->panel;
    const struct roll *roll = rolling->roll;
    size_t parts = rolling->count - 1;
    for (size_t i = 0; i < parts; i++) {
        double from = t_at(roll, (double)i, parts), t = t_at(roll, (double)i + 0.5, parts);
        double x = rolling->x[i] + growth(rolling, from, t);
        double near = chord_error(rolling, i, &roll->near, panel->near, panel->near_flat, t, x);
        double far = chord_error(rolling, i, &roll->far, panel->far, panel->far_flat, t, x);
        panel->chord_error = fmax(panel->chord_error, fmax(near, far));
    }
}

/* ---- Its loop ---------------------------------------------------------------------------------------------------- */

static struct solid_edge *add_edge(const struct rolling *rolling, size_t count, enum join join, int port, bool pocket) {
    struct solid_edge *edge = list_add(rolling->solid->arena, &rolling->panel->edges);
    *edge = (struct solid_edge){.join = join, .port = port, .pocket = pocket, .count = count};
    edge->space = ARENA_ARRAY(rolling->solid->arena, struct space, count);
    edge->flat = ARENA_ARRAY(rolling->solid->arena, struct flat, count);
    return edge;
}

static bool is_one_point(const struct space *points, size_t count) {
    for (size_t i = 1; i < count; i++)
        if (space_distance(points[0], points[i]) > SAME_POINT)
            return false;
    return true;
}

/* A curve in the flat, unless all its points lie on one line there. */
static enum edge_shape shape_of(const struct flat *points, size_t count) {
    double length = flat_distance(points[0], points[count - 1]);
    for (size_t i = 1; i + 1 < count; i++)
        if (fabs(flat_cross(flat_sub(points[count - 1], points[0]), flat_sub(points[i], points[0]))) > 1e-9 * length)
            return EDGE_CURVE;
    return EDGE_LINE;
}

/* The rim of a right cone is an arc about the apex, which lies at the flat origin. */
static void know_arc(const struct rolling *rolling, struct solid_edge *edge, const struct cut *cut) {
    const struct roll *roll = rolling->roll;
    double first = flat_length(edge->flat[0]);
    if (!roll->cone || !is_right(roll) || cut->kind == CUT_CYLINDER)
        return;
    for (size_t i = 1; i < edge->count; i++)
        if (fabs(flat_length(edge->flat[i]) - first) > 1e-12 + 1e-12 * first)
            return;
    edge->shape = EDGE_ARC;
    edge->radius = first;
    double all = rolling->x[rolling->count - 1];
    struct flat a = edge->flat[0], b = edge->flat[1];
    edge->sweep = flat_cross(a, b) > 0 ? all : -all;
}

static void add_rim(const struct rolling *rolling, const struct cut *cut, const struct space *space,
                    const struct flat *flat, bool back, enum join join, int port, bool pocket) {
    size_t count = rolling->count;
    if (is_one_point(space, count))
        return;
    struct solid_edge *edge = add_edge(rolling, count, join, port, pocket);
    for (size_t i = 0; i < count; i++) {
        edge->space[i] = space[back ? count - 1 - i : i];
        edge->flat[i] = flat[back ? count - 1 - i : i];
    }
    edge->shape = shape_of(edge->flat, count);
    know_arc(rolling, edge, cut);
}

static void add_ruling(const struct rolling *rolling, size_t i, bool back, enum join join, int port, bool pocket) {
    const struct solid_panel *panel = rolling->panel;
    if (space_distance(panel->near[i], panel->far[i]) <= SAME_POINT)
        return;
    struct solid_edge *edge = add_edge(rolling, 2, join, join == JOIN_PORT ? port : NO_PORT, pocket);
    edge->space[back] = panel->near[i];
    edge->space[!back] = panel->far[i];
    edge->flat[back] = panel->near_flat[i];
    edge->flat[!back] = panel->far_flat[i];
}

static void add_loop(const struct rolling *rolling) {
    const struct roll *roll = rolling->roll;
    const struct solid_panel *panel = rolling->panel;
    add_rim(rolling, &roll->near, panel->near, panel->near_flat, false, roll->near_join, roll->near_port,
            roll->near_pocket);
    add_ruling(rolling, rolling->count - 1, false, roll->to_join, roll->to_port, roll->to_pocket);
    add_rim(rolling, &roll->far, panel->far, panel->far_flat, true, roll->far_join, roll->far_port, roll->far_pocket);
    add_ruling(rolling, 0, true, roll->from_join, roll->from_port, roll->from_pocket);
}

int solid_roll(struct solid *solid, const struct roll *roll) {
    struct solid_panel *panel = list_add(solid->arena, &solid->panels);
    size_t count = roll->divisions + 1;
    *panel = (struct solid_panel){.kind = PANEL_ROLLED, .name = roll->name, .rulings = count};
    panel->near = ARENA_ARRAY(solid->arena, struct space, count);
    panel->far = ARENA_ARRAY(solid->arena, struct space, count);
    panel->near_flat = ARENA_ARRAY(solid->arena, struct flat, count);
    panel->far_flat = ARENA_ARRAY(solid->arena, struct flat, count);
    struct rolling rolling = {
        .solid = solid, .roll = roll, .panel = panel, .count = count, .x = ARENA_ARRAY(solid->arena, double, count)};
    lay_rulings(&rolling);
    if (signed_area(panel) < 0)
        turn_over(&rolling);
    find_chord_error(&rolling);
    add_loop(&rolling);
    return (int)solid->panels.count - 1;
}

/* ---- Openings ---------------------------------------------------------------------------------------------------- */

/* Where the line from `point` along `way` leaves the whole cylinder that the panel is part of. */
static bool onto_cylinder(const struct roll *roll, struct space point, struct space way, struct space *meets) {
    struct cut wall = {CUT_CYLINDER, roll->arc.centre, roll->way, roll->arc.radius};
    double low, high;
    if (!cylinder_roots(point, way, &wall, &low, &high))
        return false;
    *meets = space_add(point, space_scale(way, high));
    return true;
}

/* t of a point on the cylinder, from `from` on by less than a turn. */
static double t_of(const struct arc *arc, struct space point) {
    struct space from = space_sub(point, arc->centre);
    double t = atan2(space_dot(from, arc->v), space_dot(from, arc->u)), low = fmin(arc->from, arc->to);
    return t - floor((t - low) / (2 * PI)) * 2 * PI;
}

void roll_opening(struct solid *solid, int panel, const struct roll *roll, const struct space *points, size_t count,
                  struct space way, const char *name) {
    assert(!roll->cone && is_right(roll) && roll->arc.to > roll->arc.from);
    struct opening *opening = list_add(solid->arena, &solid->panels.at[panel].openings);
    *opening = (struct opening){.name = name, .count = count};
    opening->space = ARENA_ARRAY(solid->arena, struct space, count);
    opening->flat = ARENA_ARRAY(solid->arena, struct flat, count);
    double before = 0;
    for (size_t i = 0; i < count; i++) {
        if (!onto_cylinder(roll, points[i], way, &opening->space[i])) {
            solid_fault(solid, NULL, "an opening is wider than the duct that it is cut into");
            return;
        }
        double t = t_of(&roll->arc, opening->space[i]);
        bool torn = i > 0 && fabs(t - before) > PI; /* all round, the seam is passed unseen by t itself */
        before = t;
        if (t > roll->arc.to || torn)
            solid_fault(solid, NULL, "an opening lies across the seam of the duct that it is cut into");
        struct flat at = {roll->arc.radius * (t - roll->arc.from),
                          space_dot(space_sub(opening->space[i], roll->arc.centre), roll->way)};
        opening->flat[i] = at;
        opening->middle = flat_add(opening->middle, flat_scale(at, 1 / (double)count));
    }
    panel_holds(solid, &solid->panels.at[panel], opening);
}
