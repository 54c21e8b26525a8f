/* Taps that are wider than the side they are cut into. */
#include "check/checks.h"

static bool is_flat(enum side side) {
    return side == SIDE_TOP || side == SIDE_BOTTOM;
}

/* The side of `duct` that a tap on `side` is cut into: what the tap may be as wide as.  A round duct has no sides: a
 * tap as wide as the duct itself can still be saddled on. */
static double side_of(struct duct_size duct, enum side side) {
    if (duct.shape == SHAPE_ROUND)
        return duct.width;
    return is_flat(side) ? duct.width : duct.height;
}

static double other_side_of(struct duct_size duct, enum side side) {
    return is_flat(side) ? duct.height : duct.width;
}

/* The dimension of the tapped run that lies across its parent. */
static double width_across(struct duct_size tap, enum side side) {
    return is_flat(side) ? tap.width : tap.height;
}

/* What the tap of `run` is cut into: the body of a box, else the duct ahead of the section behind the tap. */
static struct duct_size cut_into(const struct run *run, const struct duct *parent) {
    const struct piece *into = run->from.into;
    struct duct_size body = into && into->kind->body ? into->kind->body(into) : (struct duct_size){0};
    return size_known(body) ? body : parent->size;
}

static void hint_fit(const struct look *look, struct diagnostic *said, const struct run *tapped, struct duct_size into,
                     double across) {
    if (across <= other_side_of(into, tapped->from.side))
        diagnostic_hint(look->job->diagnostics, said, "tap it in at the %s, which is wide enough",
                        is_flat(tapped->from.side) ? "left or right" : "top or bottom");
    else
        diagnostic_hint(look->job->diagnostics, said, "%s has to be at least %s on that side", tapped->from.run->name,
                        check_text_up(look->job, SHOW_SIZE, across));
}

/* Every tap is passed once in its parent. */
static void look_at_item(const struct look *look, const struct section *section, const struct item *item) {
    const struct run *tapped = item->tapped;
    if (item->role != ITEM_PAST || !tapped->first_duct || !size_known(tapped->first_duct->size))
        return;
    const struct duct *parent = section->parent->duct;
    struct duct_size tap = tapped->first_duct->size, into = cut_into(tapped, parent);
    if (!size_known(into))
        return;
    look->result->looked_at++;
    double side = side_of(into, tapped->from.side), across = width_across(tap, tapped->from.side);
    if (!check_over(across, side))
        return;
    struct diagnostic *said = check_warn(
        look, tapped->from.at, tapped->name, "the tap of %s, %s, does not fit the side of %s, which is %s there",
        tapped->name, check_size_text(look->job, tap), parent->run->name, check_size_text(look->job, into));
    hint_fit(look, said, tapped, into, across);
    diagnostic_relate(look->job->diagnostics, said, tapped->from.into ? tapped->from.into->at : parent->at,
                      "what it is cut into begins here");
}

void check_tap_fit(struct job *job, const struct check *check, struct check_result *result) {
    struct look look = {job, check, result};
    check_each_item(&look, look_at_item);
}
