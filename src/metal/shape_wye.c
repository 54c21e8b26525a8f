/* Wyes: of flat sheet, and round ones of two cones. */
#include "metal/shape_split.h"
#include "metal/split_box.h"

/* ---- Of flat sheet ----------------------------------------------------------------------------------------------- */

/* Corners of the box, anticlockwise seen from above. */
enum { MAIN_LEFT, MAIN_RIGHT, RIGHT_OUTER, RIGHT_INNER, CROTCH, LEFT_INNER, LEFT_OUTER };

/* How much a cheek rises, from the main duct to a leg, per length. */
static double rise(const struct wye *wye, const struct wye_leg *leg) {
    return (leg->profile.height - wye->main.height) / 2 / (leg->along - wye->loft);
}

/* Where the outer side of a leg stands at the crotch's height. */
static double outer_side(const struct wye *wye, const struct wye_leg *leg, double way) {
    double from = way * wye->main.width / 2, to = leg->centre + way * leg->profile.width / 2;
    return from + (to - from) * (wye->crotch_along - wye->loft) / (leg->along - wye->loft);
}

/* Where the inner side of a leg stands, or would go on to, at a height. */
static double inner_side(const struct wye *wye, const struct wye_leg *leg, double way, double along) {
    double to = leg->centre - way * leg->profile.width / 2;
    double share = (along - wye->crotch_along) / (leg->along - wye->crotch_along);
    return wye->crotch_across + (to - wye->crotch_across) * share;
}

static const char *wye_fault(const struct wye *wye) {
    double left_end = wye->left.along - wye->loft, right_end = wye->right.along - wye->loft;
    double crotch = wye->crotch_along - wye->loft;
    if (fmin(left_end, right_end) < SPLIT_LEAST)
        return "the wye is too short: the changes of shape at its ends leave no room for it";
    if (crotch <= SAME_POINT || crotch >= fmin(left_end, right_end) - SAME_POINT ||
        wye->crotch_across <= outer_side(wye, &wye->left, -1) + SAME_POINT ||
        wye->crotch_across >= outer_side(wye, &wye->right, 1) - SAME_POINT)
        return "the crotch of the wye lies outside its body";
    double first = fmin(wye->left.along, wye->right.along);
    if (inner_side(wye, &wye->left, -1, first) >= inner_side(wye, &wye->right, 1, first) - SAME_POINT)
        return "the legs of the wye run into each other: there is no room between them";
    return NULL;
}

static void lay_out_wye(const struct wye *wye, struct split_plan *plan) {
    const struct wye_leg *left = &wye->left, *right = &wye->right;
    double near = wye->loft, half = wye->main.height / 2;
    const struct wye_leg *larger =
        left->profile.width * left->profile.height >= right->profile.width * right->profile.height ? left : right;
    double crotch_half = half + rise(wye, larger) * (wye->crotch_along - near);
    double left_half = left->profile.height / 2, right_half = right->profile.height / 2;
    plan_open(plan, -wye->main.width / 2, near, half, 0);
    plan_wall(plan, wye->main.width / 2, near, half, "outer side, right leg");
    plan_open(plan, right->centre + right->profile.width / 2, right->along, right_half, 2);
    plan_wall(plan, right->centre - right->profile.width / 2, right->along, right_half, "inner side, right leg");
    plan_wall(plan, wye->crotch_across, wye->crotch_along, crotch_half, "inner side, left leg");
    plan_open(plan, left->centre + left->profile.width / 2, left->along, left_half, 1);
    plan_wall(plan, left->centre - left->profile.width / 2, left->along, left_half, "outer side, left leg");
    plan->mouths = 3;
    plan->mouth[0] = (struct plan_mouth){"toward the unit", PORT_USE_DUCT, wye->main, near, true, NO_PORT};
    plan->mouth[1] = (struct plan_mouth){"left leg", PORT_USE_BRANCH, left->profile, left->loft, false, NO_PORT};
    plan->mouth[2] = (struct plan_mouth){"right leg", PORT_USE_BRANCH, right->profile, right->loft, false, NO_PORT};
}

/* Twice the area of a triangle of corners; > 0 anticlockwise. */
static double turning(const struct split_plan *plan, int a, int b, int c) {
    const struct plan_corner *p = &plan->corner[a], *q = &plan->corner[b], *r = &plan->corner[c];
    return (q->x - p->x) * (r->y - p->y) - (q->y - p->y) * (r->x - p->x);
}

static double apart(const struct split_plan *plan, int a, int b) {
    const struct plan_corner *p = &plan->corner[a], *q = &plan->corner[b];
    return space_distance((struct space){p->x, p->y, p->half}, (struct space){q->x, q->y, q->half});
}

static void add_face(struct split_plan *plan, int count, const int *corners) {
    struct plan_face *face = &plan->face[plan->faces++];
    face->count = count;
    for (int i = 0; i < count; i++)
        face->corner[i] = corners[i];
}

/* Four corners that are no plane: two triangles, along the shorter diagonal of those that lie within. */
static void break_face(struct split_plan *plan, const int q[4]) {
    bool first = turning(plan, q[0], q[1], q[2]) > 0 && turning(plan, q[0], q[2], q[3]) > 0;
    bool other = turning(plan, q[1], q[2], q[3]) > 0 && turning(plan, q[1], q[3], q[0]) > 0;
    int k = first && (!other || apart(plan, q[0], q[2]) <= apart(plan, q[1], q[3])) ? 0 : 1;
    add_face(plan, 3, (const int[3]){q[k], q[k + 1], q[k + 2]});
    add_face(plan, 3, (const int[3]){q[k], q[k + 2], q[(k + 3) % 4]});
}

/* A cheek is one plane when it rises as fast to both legs.  Else the crotch lies in the plane of the larger leg, and
 * the other leg's part is broken. */
static void break_cheeks(struct solid *solid, const struct wye *wye, struct split_plan *plan) {
    static const int left_plane[] = {MAIN_LEFT, MAIN_RIGHT, CROTCH, LEFT_INNER, LEFT_OUTER};
    static const int right_part[] = {MAIN_RIGHT, RIGHT_OUTER, RIGHT_INNER, CROTCH};
    static const int right_plane[] = {MAIN_LEFT, MAIN_RIGHT, RIGHT_OUTER, RIGHT_INNER, CROTCH};
    static const int left_part[] = {CROTCH, LEFT_INNER, LEFT_OUTER, MAIN_LEFT};
    double left = rise(wye, &wye->left), right = rise(wye, &wye->right);
    if (fabs(left - right) < 1e-12)
        return;
    bool in_left = fabs(plan->corner[CROTCH].half - wye->main.height / 2 - left * (wye->crotch_along - wye->loft)) <
                   fabs(plan->corner[CROTCH].half - wye->main.height / 2 - right * (wye->crotch_along - wye->loft));
    add_face(plan, 5, in_left ? left_plane : right_plane);
    break_face(plan, in_left ? right_part : left_part);
    solid_note(solid,
               "The cheeks rise unlike to the two legs, and so are no plane: each is broken along the dashed lines, in "
               "the %s leg and from the crotch to the main duct, and bent there a little.",
               in_left ? "right" : "left");
}

static struct space on_cheek(const struct split_plan *plan, int corner) {
    return (struct space){plan->corner[corner].x, plan->corner[corner].y, plan->corner[corner].half};
}

/* Of a face at the crotch; 0 when it does not come there. */
static double crotch_angle(const struct split_plan *plan, const struct plan_face *face) {
    for (int i = 0; i < face->count; i++) {
        if (face->corner[i] != CROTCH)
            continue;
        struct space at = on_cheek(plan, CROTCH);
        struct space a = space_sub(on_cheek(plan, face->corner[(i + 1) % face->count]), at);
        struct space b = space_sub(on_cheek(plan, face->corner[(i + face->count - 1) % face->count]), at);
        struct space turn = space_cross(a, b);
        double angle = atan2(copysign(space_length(turn), turn.z), space_dot(a, b));
        return angle < 0 ? angle + 2 * PI : angle;
    }
    return 0;
}

/* A broken cheek laid flat opens or closes the gap between its legs: it must stay open.  Common practice, no source. */
static const double least_gap = 1 * DEGREE;

static bool laps_itself(const struct split_plan *plan) {
    double sum = 0;
    for (int f = 0; f < plan->faces; f++)
        sum += crotch_angle(plan, &plan->face[f]);
    return sum > 2 * PI - least_gap;
}

void shape_wye(struct solid *solid, const void *size) {
    const struct wye *wye = size;
    struct split_plan plan = {0};
    const char *fault = wye_fault(wye);
    if (fault) {
        solid_fault(solid, split_hint(solid->arena, solid->system, "wye", wye->enough), "%s", fault);
        return;
    }
    lay_out_wye(wye, &plan);
    break_cheeks(solid, wye, &plan);
    if (laps_itself(&plan)) {
        solid_fault(
            solid, split_hint(solid->arena, solid->system, "wye", wye->enough),
            "the cheeks of the wye cannot be laid flat: its legs, of unlike heights, stand too near each other");
        return;
    }
    split_box(solid, &plan);
}

/* ---- How it is laid out ------------------------------------------------------------------------------------------ */

/* The crotch stands no nearer to a side than a tenth of the width, and a third of the box behind the main duct.  Common
 * practice, no source. */
static const double least_share = 0.1, crotch_place = 1.0 / 3;

/* No wye is shorter: common practice, no source. */
static const double least_wye = 8 * INCH;

static struct wye_leg leg_of(struct profile profile, double inner, double way) {
    struct wye_leg leg = {.profile = profile, .centre = inner + way * profile.width / 2};
    leg.loft = split_change(split_boxed(profile), profile, 0);
    return leg;
}

/* How far the sides of a leg go aside or up; the inner one has less of the way for it. */
static double most_aside(const struct wye *wye, const struct wye_leg *leg, double way) {
    double outer = fabs(leg->centre + way * leg->profile.width / 2 - way * wye->main.width / 2);
    double inner = SPLIT_GAP / 2 / (1 - crotch_place);
    return fmax(fmax(outer, inner), fabs(leg->profile.height - wye->main.height) / 2);
}

static double leg_slope(const struct wye *wye, const struct wye_leg *leg, double way) {
    double outer = fabs(leg->centre + way * leg->profile.width / 2 - way * wye->main.width / 2);
    double inner = fabs(leg->centre - way * leg->profile.width / 2 - wye->crotch_across);
    double up = fabs(leg->profile.height - wye->main.height) / 2, whole = leg->along - wye->loft;
    return fmax(fmax(outer, up) / whole, inner / (leg->along - wye->crotch_along));
}

double wye_slope(const struct wye *wye) {
    return fmax(leg_slope(wye, &wye->left, -1), leg_slope(wye, &wye->right, 1));
}

struct wye wye_for(struct profile main, struct profile left, struct profile right, double share, double over) {
    double crotch = (fmin(fmax(share, least_share), 1 - least_share) - 0.5) * main.width;
    struct wye wye = {.main = main, .crotch_across = crotch};
    wye.loft = split_change(main, split_boxed(main), 0);
    wye.left = leg_of(left, crotch - SPLIT_GAP / 2, -1);
    wye.right = leg_of(right, crotch + SPLIT_GAP / 2, 1);
    double aside = fmax(most_aside(&wye, &wye.left, -1), most_aside(&wye, &wye.right, 1));
    double lofts = wye.loft + fmax(wye.left.loft, wye.right.loft);
    wye.enough = split_whole(fmax(split_reach(aside), least_wye) + lofts);
    double whole = over > 0 ? over : wye.enough;
    wye.left.along = whole - wye.left.loft;
    wye.right.along = whole - wye.right.loft;
    wye.crotch_along = wye.loft + (whole - lofts) * crotch_place;
    return wye;
}

/* ---- Round ------------------------------------------------------------------------------------------------------- */

/* A leg's cone: circles about (lean y, y) of the radius R + growth y. */
struct cone {
    double centre, radius; /* of its far circle */
    double lean, growth;
};

struct two_cones {
    struct solid *solid;
    double radius, along; /* of the main circle; of the far ones */
    struct cone cone[2];  /* left, right */
    double slope, at;     /* the crotch lies in x = at + slope y */
    double half;          /* the crotch meets the main circle at this angle, above and below */
    size_t divisions;     /* of the crotch */
    double *places[2];    /* where the rulings of each leg that end at the crotch stand on the main circle, ascending */
};

/* (x - a y)^2 + z^2 = (R + b y)^2 of both cones, one from the other, over y: with a the lean and b the growth
 * -2 x (a1 - a2) + y (a1^2 - a2^2 - b1^2 + b2^2) = 2 R (b1 - b2).  Analytic geometry: two quadrics that share a conic
 * share another. */
static void find_crotch(struct two_cones *two) {
    const struct cone *one = &two->cone[0], *other = &two->cone[1];
    double lean = one->lean - other->lean;
    two->slope = (one->lean * one->lean - other->lean * other->lean - one->growth * one->growth +
                  other->growth * other->growth) /
                 (2 * lean);
    two->at = -two->radius * (one->growth - other->growth) / lean;
    two->half = acos(fmin(fmax(two->at / two->radius, -1), 1));
}

static struct cut crotch_cut(const struct two_cones *two) {
    return (struct cut){
        .kind = CUT_PLANE, .point = {two->at, 0, 0}, .way = space_unit((struct space){1, -two->slope, 0})};
}

/* A leg's cone without its joins, over a part of the main circle. */
static struct roll leg_roll(const struct two_cones *two, int leg, double from, double to) {
    const struct cone *cone = &two->cone[leg];
    struct space far = {cone->centre, two->along, 0};
    struct roll roll = {
        .name = leg ? "right leg" : "left leg",
        .arc = {.u = {1, 0, 0}, .v = {0, 0, 1}, .radius = two->radius, .from = from, .to = to},
        .cone = cone->growth != 0,
        .near = {.kind = CUT_ARC},
        .far = {.kind = CUT_PLANE, .point = far, .way = {0, 1, 0}},
        .divisions = solid_divisions(two->solid, fmax(two->radius, cone->radius), to - from),
        .far_join = JOIN_PORT,
        .far_port = leg + 1,
    };
    if (roll.cone)
        roll.apex = space_scale(far, two->radius / (two->radius - cone->radius));
    else
        roll.way = space_unit(far);
    return roll;
}

static void add_outer(const struct two_cones *two, int leg, double from, double to, bool seam_first) {
    struct roll roll = leg_roll(two, leg, from, to);
    roll.near_join = JOIN_PORT;
    roll.near_port = 0;
    roll.from_join = seam_first ? JOIN_SEAM : JOIN_SMOOTH;
    roll.to_join = seam_first ? JOIN_SMOOTH : JOIN_SEAM;
    roll.from_pocket = seam_first;
    solid_roll(two->solid, &roll);
}

static void add_inner(const struct two_cones *two, int leg, double from, double to) {
    struct roll roll = leg_roll(two, leg, from, to);
    roll.near = crotch_cut(two);
    roll.near_join = JOIN_SEAM;
    roll.near_pocket = leg == 0;
    roll.from_join = roll.to_join = JOIN_SMOOTH;
    roll.divisions = two->divisions;
    roll.places = two->places[leg];
    solid_roll(two->solid, &roll);
}

/* Both legs have the same points along the crotch: the left one's stand evenly about the main circle, the right one's
 * where its rulings come through the same points. */
static void part_crotch(struct two_cones *two) {
    const struct roll left = leg_roll(two, 0, -two->half, two->half);
    const struct roll right = leg_roll(two, 1, two->half, 2 * PI - two->half);
    size_t count = left.divisions > right.divisions ? left.divisions : right.divisions;
    count += count % 2;
    two->divisions = count;
    for (int leg = 0; leg < 2; leg++)
        two->places[leg] = ARENA_ARRAY(two->solid->arena, double, count + 1);
    struct cut cut = crotch_cut(two);
    for (size_t i = 0; i <= count; i++) {
        double t = two->half * (2 * (double)i / (double)count - 1);
        struct space from = {two->radius * cos(t), 0, two->radius * sin(t)}, point = from;
        cut_meets(&cut, from, left.cone ? space_unit(space_sub(left.apex, from)) : left.way, &point);
        double u = atan2(point.z, point.x - two->cone[1].lean * point.y);
        two->places[0][i] = t;
        two->places[1][count - i] = u < 0 ? u + 2 * PI : u;
    }
    two->places[1][0] = two->half;
    two->places[1][count / 2] = PI;
    two->places[1][count] = 2 * PI - two->half;
}

static struct cone cone_to(const struct two_cones *two, double centre, double diameter) {
    struct cone cone = {.centre = centre, .radius = diameter / 2};
    /* A leg as large as the main duct, but for rounding, is a cylinder. */
    if (fabs(cone.radius - two->radius) < 1e-7)
        cone.radius = two->radius;
    cone.lean = centre / two->along;
    cone.growth = (cone.radius - two->radius) / two->along;
    return cone;
}

static void add_round_ports(struct solid *solid, const struct round_wye *wye) {
    static const char *const names[] = {"left leg", "right leg"};
    struct frame back = {.right = {-1, 0, 0}, .along = {0, -1, 0}, .up = {0, 0, 1}};
    solid_port(solid, PORT_USE_DUCT, "toward the unit", &back,
               (struct duct_size){SHAPE_ROUND, wye->diameter, wye->diameter});
    for (int leg = 0; leg < 2; leg++) {
        double centre = leg ? wye->right_centre : wye->left_centre, diameter = leg ? wye->right : wye->left;
        struct frame frame = frame_moved(&frame_near, centre, wye->along, 0);
        solid_port(solid, PORT_USE_BRANCH, names[leg], &frame, (struct duct_size){SHAPE_ROUND, diameter, diameter});
    }
}

static const char *round_wye_fault(const struct round_wye *wye) {
    double gap = wye->right_centre - wye->right / 2 - wye->left_centre - wye->left / 2;
    if (wye->along < SPLIT_LEAST)
        return "the wye has no length";
    if (gap < SAME_POINT)
        return "the legs of the wye run into each other: there is no room between them";
    return NULL;
}

/* Each leg is one blank: its seam is opposite the crotch. */
void shape_round_wye(struct solid *solid, const void *size) {
    const struct round_wye *wye = size;
    const char *fault = round_wye_fault(wye);
    if (fault) {
        solid_fault(solid, split_hint(solid->arena, solid->system, "wye", wye->enough), "%s", fault);
        return;
    }
    struct two_cones two = {.solid = solid, .radius = wye->diameter / 2, .along = wye->along};
    two.cone[0] = cone_to(&two, wye->left_centre, wye->left);
    two.cone[1] = cone_to(&two, wye->right_centre, wye->right);
    find_crotch(&two);
    part_crotch(&two);
    add_round_ports(solid, wye);
    add_outer(&two, 0, two.half, PI, false);
    add_outer(&two, 0, PI, 2 * PI - two.half, true);
    add_inner(&two, 0, -two.half, two.half);
    add_outer(&two, 1, -two.half, 0, false);
    add_outer(&two, 1, 0, two.half, true);
    add_inner(&two, 1, two.half, 2 * PI - two.half);
}

/* The crotch's plane goes straight on when a1^2 - a2^2 = b1^2 - b2^2 (see find_crotch). */
double round_wye_slope(const struct round_wye *wye) {
    double half = wye->diameter / 2;
    double left = fabs(half - wye->left / 2 - wye->left_centre),
           right = fabs(wye->right_centre + wye->right / 2 - half);
    return fmax(left, right) / wye->along;
}

struct round_wye round_wye_for(double diameter, double left, double right, double over) {
    double apart = (left + right) / 2 + SPLIT_GAP;
    double left_more = (left - diameter) / 2, right_more = (right - diameter) / 2;
    double sum = (right_more * right_more - left_more * left_more) / apart;
    struct round_wye wye = {
        .diameter = diameter,
        .left = left,
        .right = right,
        .left_centre = (sum - apart) / 2,
        .right_centre = (sum + apart) / 2,
    };
    double aside = fmax(fabs(wye.left_centre) + fabs(left_more), fabs(wye.right_centre) + fabs(right_more));
    wye.enough = split_whole(fmax(split_reach(aside), least_wye));
    wye.along = over > 0 ? over : wye.enough;
    return wye;
}
