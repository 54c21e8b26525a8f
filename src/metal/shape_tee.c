/* Tees: a duct that goes on straight and has a leg to one side. */
#include "metal/shape_split.h"
#include "metal/split_box.h"

static const char *side_leg(double way) {
    return way > 0 ? "right leg" : "left leg";
}

/* ---- Of flat sheet ----------------------------------------------------------------------------------------------- */

static double narrows(const struct tee *tee) {
    return fabs(tee->main.width - tee->straight.width);
}

static const char *tee_fault(const struct tee *tee) {
    if (fmin(tee->before, tee->after) < SPLIT_LEAST)
        return "the tee is too short: its side leg leaves no room for the joints at its ends";
    if (narrows(tee) > SAME_POINT && tee->taper < SPLIT_LEAST)
        return "the tee is too short: there is no room to change to its straight leg's width";
    if (tee->collar < SPLIT_LEAST)
        return "the tee's side leg is too short for a joint";
    return NULL;
}

static double taper_of(const struct tee *tee) {
    return narrows(tee) > SAME_POINT ? tee->taper : 0;
}

double tee_slope(const struct tee *tee) {
    double aside = fabs(tee->main.width - tee->straight.width), up = fabs(tee->main.height - tee->straight.height) / 2;
    return tee->taper > 0 ? fmax(aside, up) / tee->taper : 0;
}

double tee_length(const struct tee *tee) {
    return tee->loft + tee->before + tee->side.width + tee->after + taper_of(tee) + tee->straight_loft;
}

/* To the right: the left one is its mirror image. */
static void lay_out_tee(const struct tee *tee, struct split_plan *plan) {
    double half = tee->main.height / 2, side = tee->main.width / 2, out = side + tee->collar;
    double first = tee->loft + tee->before, last = first + tee->side.width, turn = last + tee->after;
    double end = turn + taper_of(tee);
    plan_open(plan, -side, tee->loft, half, 0);
    plan_wall(plan, side, tee->loft, half, "side before the leg");
    plan_wall(plan, side, first, half, "near side of the leg");
    plan_open(plan, out, first, half, 1);
    plan_wall(plan, out, last, half, "far side of the leg");
    plan_wall(plan, side, last, half, "side behind the leg");
    if (taper_of(tee) > 0)
        plan_wall(plan, side, turn, half, "slanted side");
    plan_open(plan, -side + tee->straight.width, end, half, 2);
    plan_wall(plan, -side, end, half, "back");
    plan->mouths = 3;
    plan->mouth[0] = (struct plan_mouth){"toward the unit", PORT_USE_DUCT, tee->main, tee->loft, true, NO_PORT};
    plan->mouth[1] =
        (struct plan_mouth){side_leg(tee->way), PORT_USE_BRANCH, tee->side, tee->side_loft, false, NO_PORT};
    plan->mouth[2] =
        (struct plan_mouth){"straight leg", PORT_USE_BRANCH, tee->straight, tee->straight_loft, false, NO_PORT};
}

void shape_tee(struct solid *solid, const void *size) {
    const struct tee *tee = size;
    const char *fault = tee_fault(tee);
    if (fault) {
        solid_fault(solid, split_hint(solid->arena, solid->system, "tee", tee->enough), "%s", fault);
        return;
    }
    struct split_plan plan = {0};
    lay_out_tee(tee, &plan);
    if (tee->way < 0)
        plan_mirror(&plan);
    split_box(solid, &plan);
}

/* A mouth as wide as the leg, as high as the box. */
static double mouth_loft(struct profile leg, double height) {
    return split_change((struct profile){leg.width, height, 0}, leg, 0);
}

/* The room beside the side leg goes to its two ends, and to the change that follows: the ends take what they like, a
 * fifth of it each when there is less.  Without a change they share it. */
static void share_room(double room, bool changes, double *end, double *change) {
    *end = changes ? fmin(SPLIT_END, room / 5) : room / 2;
    *change = changes ? room - 2 * *end : 0;
}

struct tee tee_for(struct profile main, struct profile side, struct profile straight, double way, double over) {
    struct tee tee = {.main = main, .side = side, .straight = straight, .way = way, .collar = SPLIT_END};
    tee.loft = split_change(main, split_boxed(main), 0);
    tee.side_loft = mouth_loft(side, main.height);
    tee.straight_loft = mouth_loft(straight, main.height);
    bool tapers = narrows(&tee) > SAME_POINT;
    double fixed = tee.loft + side.width + tee.straight_loft;
    tee.enough = split_whole(fixed + 2 * SPLIT_END + split_reach(narrows(&tee)));
    share_room((over > 0 ? over : tee.enough) - fixed, tapers, &tee.before, &tee.taper);
    tee.after = tee.before;
    return tee;
}

/* ---- A collar on round or oval duct ------------------------------------------------------------------------------ */

/* The main duct's side is one half round, not flat between two quarters. */
static bool side_is_round(struct profile main) {
    return main.height - 2 * main.radius <= SAME_POINT;
}

/* Into round duct a collar of its own diameter still goes; oval duct leaves room for its edge. */
bool collar_tee_fits(struct profile main, struct profile side) {
    if (main.radius <= SAME_POINT || profile_size(side).shape != SHAPE_ROUND)
        return false;
    if (profile_size(main).shape == SHAPE_ROUND)
        return side.height <= main.height + SAME_POINT;
    double room = side_is_round(main) ? main.height : main.height - 2 * main.radius;
    return side.height <= room - SPLIT_LEAST;
}

static const char *collar_tee_fault(const struct collar_tee *tee) {
    if (!collar_tee_fits(tee->main, tee->side))
        return "the tee's side leg does not fit into the side of the duct that it leaves";
    if (fmin(tee->before, tee->after) < SPLIT_LEAST)
        return "the tee is too short: its side leg leaves no room for the joints at its ends";
    if (tee->collar < SPLIT_LEAST)
        return "the tee's side leg is too short for a joint";
    return NULL;
}

/* What cuts the collar off: the wall of the main duct where it stands. */
static struct cut wall_cut(const struct collar_tee *tee) {
    double side = tee->way * tee->main.width / 2;
    if (!side_is_round(tee->main))
        return (struct cut){.kind = CUT_PLANE, .point = {side, 0, 0}, .way = {1, 0, 0}};
    struct space axis = {side - tee->way * tee->main.radius, 0, 0};
    return (struct cut){.kind = CUT_CYLINDER, .point = axis, .way = {0, 1, 0}, .radius = tee->main.radius};
}

/* Where the side leg's port stands: looking out of the main duct. */
static struct frame side_frame(const struct collar_tee *tee) {
    return (struct frame){
        .origin = {tee->way * (tee->main.width / 2 + tee->collar), tee->before + tee->side.width / 2, 0},
        .right = {0, -tee->way, 0},
        .along = {tee->way, 0, 0},
        .up = {0, 0, 1},
    };
}

static struct cut square_cut(struct space point, struct space way) {
    return (struct cut){.kind = CUT_PLANE, .point = point, .way = way};
}

/* By how many quarter turns the seam of the main duct is moved, so that the leg does not come near it: in round duct to
 * the side away from the leg. A wide oval has it in the bottom anyway, a high one in the right side. */
static double seam_place(const struct collar_tee *tee) {
    if (!side_is_round(tee->main))
        return tee->way > 0 ? 2 : 0;
    return profile_size(tee->main).shape == SHAPE_ROUND ? -tee->way : 0;
}

static void add_main(struct solid *solid, const struct collar_tee *tee, const struct frame *side, double length) {
    struct prism prism = {
        .frame = frame_near,
        .section = tee->main,
        .near = square_cut(frame_near.origin, frame_near.along),
        .far = square_cut((struct space){0, length, 0}, frame_near.along),
        .wrap = WRAP_ONE,
        .seam = seam_place(tee),
        .near_end = {JOIN_PORT, 0, false},
        .far_end = {JOIN_PORT, 2, false},
        .name = "body",
    };
    struct tapped tapped = {.tap = *side, .section = tee->side, .name = "for the side leg"};
    solid_tapped_prism(solid, &prism, &tapped, 1);
}

static void add_collar(struct solid *solid, const struct collar_tee *tee, const struct frame *side) {
    struct prism prism = {
        .frame = *side,
        .section = tee->side,
        .near = wall_cut(tee),
        .far = square_cut(side->origin, side->along),
        .wrap = WRAP_ONE,
        .near_end = {JOIN_PORT, 3, false},
        .far_end = {JOIN_PORT, 1, false},
        .name = "collar",
    };
    solid_prism(solid, &prism);
}

void shape_collar_tee(struct solid *solid, const void *size) {
    const struct collar_tee *tee = size;
    const char *fault = collar_tee_fault(tee);
    if (fault) {
        solid_fault(solid, split_hint(solid->arena, solid->system, "tee", tee->enough), "%s", fault);
        return;
    }
    double length = tee->before + tee->side.width + tee->after;
    struct frame back = {.right = {-1, 0, 0}, .along = {0, -1, 0}, .up = {0, 0, 1}};
    struct frame far = frame_moved(&frame_near, 0, length, 0), side = side_frame(tee);
    struct frame base = frame_moved(&side, 0, -tee->collar, 0);
    base.right = space_scale(base.right, -1);
    base.along = space_scale(base.along, -1);
    solid_port(solid, PORT_USE_DUCT, "toward the unit", &back, profile_size(tee->main));
    solid_port(solid, PORT_USE_BRANCH, side_leg(tee->way), &side, profile_size(tee->side));
    solid_port(solid, PORT_USE_BRANCH, "straight leg", &far, profile_size(tee->main));
    solid_port(solid, PORT_USE_BASE, "onto the body", &base, profile_size(tee->side));
    add_main(solid, tee, &side, length);
    add_collar(solid, tee, &side);
}

struct collar_tee collar_tee_for(struct profile main, struct profile side, struct profile straight, double way,
                                 double over, double *reducer) {
    struct collar_tee tee = {.main = main, .side = side, .way = way, .collar = SPLIT_END};
    double change = split_change(main, straight, (main.width - straight.width) / 2);
    tee.enough = split_whole(side.width + 2 * SPLIT_END + change);
    share_room((over > 0 ? over : tee.enough) - side.width, change > 0, &tee.before, reducer);
    tee.after = tee.before;
    return tee;
}
