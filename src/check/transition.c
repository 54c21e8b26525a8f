/* Transitions that are too steep for the air, or change nothing. */
#include <math.h>

#include "base/constant.h"
#include "check/checks.h"

/* A published city specification for ductwork, read: an increase tapers at 20 degrees at most, an easement (where the
 * duct narrows) at 45.  It does not say of what: taken as each side against the way of the air. */
static const double widest = 20 * DEGREE, steepest = 45 * DEGREE;

/* Sides that are less out of line than this are straight: a hair, chosen here. */
static const double straight = 0.05 * DEGREE;

/* The length, as a share of this one, with which a side would lie at `limit` instead of `angle`. */
static double longer(double angle, double limit) {
    return tan(angle) / tan(limit);
}

static void say_steep(const struct look *look, const struct piece *piece, struct duct_size from, struct duct_size to,
                      double angle, bool widens) {
    double limit = widens ? widest : steepest;
    struct diagnostic *said = check_warn(
        look, piece->at, piece->run->name,
        "the transition of %s from %s to %s %s by %.0f degrees a side: %.0f is the most that the air follows",
        piece->run->name, check_size_text(look->job, from), check_size_text(look->job, to),
        widens ? "widens" : "narrows", angle / DEGREE, limit / DEGREE);
    if (piece->length > 0)
        diagnostic_hint(look->job->diagnostics, said, "over %s",
                        check_text_up(look->job, SHOW_SIZE, piece->length * longer(angle, limit)));
}

static void look_at_item(const struct look *look, const struct section *section, const struct item *item) {
    const struct piece *piece = item->piece;
    if (!piece || !piece->kind->taper || piece->implied || item->role != ITEM_PIECE || !piece->near || !piece->far ||
        !size_known(piece->near->size) || !size_known(piece->far->size))
        return;
    if (!look->check->everything && (check_stands_in(look->job, piece->near) || check_stands_in(look->job, piece->far)))
        return;
    bool supply = section->run->supply;
    struct duct_size from = supply ? piece->near->size : piece->far->size;
    struct duct_size to = supply ? piece->far->size : piece->near->size;
    double widens, narrows;
    look->result->looked_at++;
    piece->kind->taper(piece, from, to, &widens, &narrows);
    if (size_equal(from, to) && fmax(widens, narrows) < straight) {
        struct diagnostic *said =
            check_warn(look, piece->at, piece->run->name, "this transition of %s changes nothing: %s on both sides",
                       piece->run->name, check_size_text(look->job, from));
        diagnostic_hint(look->job->diagnostics, said, "straight %s", check_text(look->job, SHOW_RUN, piece->length));
        return;
    }
    if (check_over(widens, widest))
        say_steep(look, piece, from, to, widens, true);
    else if (check_over(narrows, steepest))
        say_steep(look, piece, from, to, narrows, false);
}

void check_transition(struct job *job, const struct check *check, struct check_result *result) {
    struct look look = {job, check, result};
    check_each_item(&look, look_at_item);
}

const char *transition_limit(struct arena *arena) {
    return arena_format(arena, "a side that widens the duct lies at %.0f degrees at most, one that narrows it at %.0f",
                        widest / DEGREE, steepest / DEGREE);
}
