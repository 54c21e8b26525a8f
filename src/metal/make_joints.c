/* The runs that meet at a part, and what they ask of its seams and joints. */
#include "metal/making.h"
#include "model/lined.h"

/* A joint of straight duct ends its piece where no other comes behind it. */
static bool ends_run(const struct making *making, const struct order *order) {
    const struct run *run = making->run;
    const struct piece *piece = making->piece;
    if (piece != (run->pieces.count ? run->pieces.at[run->pieces.count - 1] : run->connect))
        return false;
    return !(order->finished_length > 0) ||
           order->station + order->length >= piece->station + piece->length - SAME_POINT;
}

static bool is_capped(const struct making *making, const struct order *order) {
    const struct piece *piece = making->piece;
    bool last_joint =
        !(order->finished_length > 0) || order->station + order->length >= piece->station + piece->length - SAME_POINT;
    return last_joint && making->behind && making->behind->kind->traits & PIECE_IMPLIED_CAP;
}

/* Whether the straight leg begins at this part, and not behind a change of size of the same run. */
static bool leg_begins(const struct run *leg, const struct order *order) {
    return leg->connect || !leg->first_duct || !order->changes_behind ||
           size_equal(duct_metal(leg->first_duct), order->near);
}

struct allowing making_allowing(const struct making *making, const struct order *order) {
    const struct run *run = making->run;
    struct allowing allowing = {
        .shop = &making->job->shop,
        .settings = &run->settings,
        .capped = is_capped(making, order),
        .seam_own = run->own.seam_set,
        .supply = run->supply,
    };
    for (int side = 0; side < JOINT_SIDES; side++)
        allowing.joints[side] = &run->settings;
    if (!ends_run(making, order))
        return allowing;
    const struct run *behind = run->split ? run->legs[LEG_STRAIGHT] : run->end;
    if (behind)
        allowing.joints[JOINT_BEHIND] = &behind->settings;
    for (int leg = 0; leg < LEG_COUNT; leg++)
        if (run->legs[leg] && (leg != LEG_STRAIGHT || leg_begins(run->legs[leg], order)))
            allowing.joints[JOINT_LEGS + leg] = &run->legs[leg]->settings;
    return allowing;
}
