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

static void look_at_tap(const struct look *look, const struct item *item, const struct duct *parent) {
    const struct run *tapped = item->tapped;
    if (!tapped->first_duct || !size_known(tapped->first_duct->size) || !size_known(parent->size))
        return;
    look->result->looked_at++;
    struct duct_size tap = tapped->first_duct->size;
    double side = side_of(parent->size, tapped->from.side), across = width_across(tap, tapped->from.side);
    if (!check_over(across, side))
        return;
    struct diagnostic *said = check_warn(
        look, tapped->from.at, tapped->name, "the tap of %s, %s, does not fit the side of %s, which is %s there",
        tapped->name, check_size_text(look->job, tap), parent->run->name, check_size_text(look->job, parent->size));
    if (across <= other_side_of(parent->size, tapped->from.side))
        diagnostic_hint(look->job->diagnostics, said, "tap it in at the %s, which is wide enough",
                        is_flat(tapped->from.side) ? "left or right" : "top or bottom");
    else
        diagnostic_hint(look->job->diagnostics, said, "%s has to be at least %s on that side", parent->run->name,
                        check_text(look->job, SHOW_SIZE, across));
    diagnostic_relate(look->job->diagnostics, said, parent->at, "the duct it is cut into begins here");
}

/* Every tap is passed once in its parent; the duct it is cut into is the one ahead of it. */
void check_tap_fit(struct job *job, const struct check *check, struct check_result *result) {
    struct look look = {job, check, result, NULL};
    for (size_t u = 0; u < job->units.count; u++) {
        const struct network *network = job->units.at[u]->network;
        for (size_t s = 0; network && s < network->sections.count; s++) {
            const struct section *section = network->sections.at[s];
            for (size_t i = 0; i < section->items.count; i++)
                if (section->items.at[i].role == ITEM_PAST)
                    look_at_tap(&look, &section->items.at[i], section->parent->duct);
        }
    }
}
