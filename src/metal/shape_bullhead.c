/* Bullheads: the air runs against a wall and leaves to both sides. */
#include "metal/shape_split.h"
#include "metal/split_box.h"

static const char *bullhead_fault(const struct bullhead *bullhead) {
    if (bullhead->neck < SPLIT_LEAST)
        return "the bullhead is too short: its legs leave no room for the joint at its near end";
    if (bullhead->collar < SPLIT_LEAST)
        return "the bullhead's legs are too short for a joint";
    return NULL;
}

static void lay_out_bullhead(const struct bullhead *bullhead, struct split_plan *plan) {
    double half = bullhead->main.height / 2, side = bullhead->main.width / 2, out = side + bullhead->collar;
    double first = bullhead->loft + bullhead->neck;
    double left_end = first + bullhead->left.width, right_end = first + bullhead->right.width;
    plan_open(plan, -side, bullhead->loft, half, 0);
    plan_wall(plan, side, bullhead->loft, half, "neck, right side");
    plan_wall(plan, side, first, half, "near side, right leg");
    plan_open(plan, out, first, half, 2);
    plan_wall(plan, out, right_end, half, "far wall");
    plan_open(plan, -out, left_end, half, 1);
    plan_wall(plan, -out, first, half, "near side, left leg");
    plan_wall(plan, -side, first, half, "neck, left side");
    plan->mouths = 3;
    plan->mouth[0] =
        (struct plan_mouth){"toward the unit", PORT_USE_DUCT, bullhead->main, bullhead->loft, true, NO_PORT};
    plan->mouth[1] =
        (struct plan_mouth){"left leg", PORT_USE_BRANCH, bullhead->left, bullhead->left_loft, false, NO_PORT};
    plan->mouth[2] =
        (struct plan_mouth){"right leg", PORT_USE_BRANCH, bullhead->right, bullhead->right_loft, false, NO_PORT};
}

/* How far behind the legs' near sides the far wall stands at `across`. */
static double wall_at(const struct bullhead *bullhead, double across) {
    double out = bullhead->main.width / 2 + bullhead->collar, left = bullhead->left.width,
           right = bullhead->right.width;
    return left + (right - left) * (across + out) / (2 * out);
}

struct vane_rail bullhead_rail(const struct bullhead *bullhead, bool right) {
    double corner = (right ? 1 : -1) * bullhead->main.width / 2, across = bullhead->crotch_across;
    return vane_rail(hypot(corner - across, wall_at(bullhead, across)));
}

static void note_vanes(struct solid *solid, const struct bullhead *bullhead) {
    static const char *const names[] = {"left", "right"};
    enum measure_system system = (enum measure_system)(bullhead->vanes - 1);
    struct arena *arena = solid->arena;
    for (int leg = 0; leg < 2; leg++) {
        struct vane_rail rail = bullhead_rail(bullhead, leg == 1);
        solid_note(solid,
                   "Turning vanes to the %s leg: %zu of %s radius, each %s behind the one before it, on a line of %s "
                   "from the neck's %s corner to the far wall, %s to the right of the neck's left side.",
                   names[leg], rail.count, measure_text(arena, system, SHOW_SIZE, rail.radius),
                   measure_text(arena, system, SHOW_SIZE, rail.apart),
                   measure_text(arena, system, SHOW_SIZE, rail.length), names[leg],
                   measure_text(arena, system, SHOW_SIZE, bullhead->crotch_across + bullhead->main.width / 2));
    }
}

void shape_bullhead(struct solid *solid, const void *size) {
    const struct bullhead *bullhead = size;
    const char *fault = bullhead_fault(bullhead);
    if (fault) {
        solid_fault(solid, split_hint(solid->arena, solid->system, "bullhead", bullhead->enough), "%s", fault);
        return;
    }
    struct split_plan plan = {0};
    lay_out_bullhead(bullhead, &plan);
    split_box(solid, &plan);
    if (bullhead->vanes > 0)
        note_vanes(solid, bullhead);
}

/* A leg's mouth is as wide as the leg and as high as the box. */
static double leg_loft(struct profile leg, double height) {
    return split_change((struct profile){leg.width, height, 0}, leg, 0);
}

struct bullhead bullhead_for(struct profile main, struct profile left, struct profile right, double share, double over,
                             double vanes) {
    struct bullhead bullhead = {.main = main, .left = left, .right = right, .collar = SPLIT_END, .vanes = vanes};
    bullhead.loft = split_change(main, split_boxed(main), 0);
    bullhead.left_loft = leg_loft(left, main.height);
    bullhead.right_loft = leg_loft(right, main.height);
    bullhead.crotch_across = (share - 0.5) * main.width;
    double fixed = bullhead.loft + fmax(left.width, right.width);
    bullhead.enough = split_whole(fixed + SPLIT_END);
    bullhead.neck = (over > 0 ? over : bullhead.enough) - fixed;
    return bullhead;
}
