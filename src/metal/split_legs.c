/* Where the legs of a split begin: the same places as the ports of its solid. */
#include "metal/shape_split.h"

static struct frame ahead(double right, double along) {
    return frame_moved(&frame_near, right, along, 0);
}

/* Out to a side: 1 right, -1 left. */
static struct frame aside(double way, double out, double along) {
    return (struct frame){
        .origin = {way * out, along, 0}, .right = {0, -way, 0}, .along = {way, 0, 0}, .up = {0, 0, 1}};
}

struct frame wye_leg_frame(const struct wye *wye, bool right) {
    const struct wye_leg *leg = right ? &wye->right : &wye->left;
    return ahead(leg->centre, leg->along + leg->loft);
}

struct frame round_wye_leg_frame(const struct round_wye *wye, bool right) {
    return ahead(right ? wye->right_centre : wye->left_centre, wye->along);
}

struct frame tee_side_frame(const struct tee *tee) {
    return aside(tee->way, tee->main.width / 2 + tee->collar + tee->side_loft,
                 tee->loft + tee->before + tee->side.width / 2);
}

/* The wall away from the side leg goes straight on. */
struct frame tee_straight_frame(const struct tee *tee) {
    return ahead(-tee->way * (tee->main.width - tee->straight.width) / 2, tee_length(tee));
}

struct frame collar_tee_side_frame(const struct collar_tee *tee) {
    return aside(tee->way, tee->main.width / 2 + tee->collar, tee->before + tee->side.width / 2);
}

struct frame bullhead_leg_frame(const struct bullhead *bullhead, bool right) {
    const struct profile *leg = right ? &bullhead->right : &bullhead->left;
    double loft = right ? bullhead->right_loft : bullhead->left_loft;
    return aside(right ? 1 : -1, bullhead->main.width / 2 + bullhead->collar + loft,
                 bullhead->loft + bullhead->neck + leg->width / 2);
}
