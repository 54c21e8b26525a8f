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

/* A side may go outward although the duct grows no wider: the whole leans. */
static bool leans(struct duct_size from, struct duct_size to, bool widens) {
    double wider = to.width - from.width, higher = to.height - from.height;
    return widens ? !(fmax(wider, higher) > 1e-6) : !(fmin(wider, higher) < -1e-6);
}

static void say_steep(const struct look *look, const struct piece *piece, struct duct_size from, struct duct_size to,
                      double angle, bool widens) {
    double limit = widens ? widest : steepest;
    const char *how = leans(from, to, widens) ? arena_format(look->job->arena, "leans %s by %.0f degrees on one side",
                                                             widens ? "outward" : "inward", angle / DEGREE)
                                              : arena_format(look->job->arena, "%s by %.0f degrees a side",
                                                             widens ? "widens" : "narrows", angle / DEGREE);
    struct diagnostic *said = check_warn(look, piece->at, piece->run->name,
                                         "the transition of %s from %s to %s %s: %.0f is the most that the air follows",
                                         check_name(look, piece->run), check_size_text(look->job, from),
                                         check_size_text(look->job, to), how, limit / DEGREE);
    if (piece->length > 0)
        diagnostic_hint(look->job->diagnostics, said, "over %s",
                        check_text_up(look->job, SHOW_LINE, piece->length * longer(angle, limit)));
}

/* A side broken more sharply than the first figure is hard to form and to seal, and its diagonal stands in the air;
 * beyond the second it is no side any more.  The section that stays open is that of the smaller end, less at most a
 * tenth, and a quarter.  Chosen here. */
static const double hard_break = 45 * DEGREE, last_break = 60 * DEGREE, hard_open = 0.9, last_open = 0.75;

static struct diagnostic *tell_twist(const struct look *look, const struct piece *piece, bool error, const char *what) {
    if (!error)
        return check_warn(look, piece->at, piece->run->name, "the turned transition of %s %s",
                          check_name(look, piece->run), what);
    struct diagnostic *said = diagnose(look->job->diagnostics, DIAGNOSTIC_ERROR, look->check->name, piece->at,
                                       "the turned transition of %s %s", check_name(look, piece->run), what);
    said->subject = piece->run->name;
    return said;
}

static void look_at_twist(const struct look *look, const struct piece *piece) {
    double broken, open;
    if (!piece->kind->twist || !piece->kind->twist(piece, &broken, &open))
        return;
    struct arena *arena = look->job->arena;
    bool breaks = check_over(broken, hard_break), chokes = check_over(hard_open, open);
    bool error = check_over(broken, last_break) || check_over(last_open, open);
    if (!breaks && !chokes)
        return;
    const char *what = chokes
                           ? arena_format(arena, "leaves %.0f %% of its smaller end open on the way: %.0f is the least",
                                          100 * open, 100 * (error ? last_open : hard_open))
                           : "";
    if (breaks)
        what = arena_format(arena, "has sides broken by %.0f degrees: %.0f is the most%s%s", broken / DEGREE,
                            (error ? last_break : hard_break) / DEGREE, chokes ? "; it " : "", what);
    struct diagnostic *said = tell_twist(look, piece, error, what);
    const char *line = piece->kind->untwisted(piece, look->job->system, arena);
    if (line) {
        diagnostic_hint(look->job->diagnostics, said, "%s", line);
        diagnostic_relate(
            look->job->diagnostics, said, piece->at,
            "turned a quarter back, its end is the same with width and height exchanged, behind it as well");
    } else {
        diagnostic_relate(look->job->diagnostics, said, piece->at, "in two transitions, each turns half as far");
    }
}

static void look_at_item(const struct look *look, const struct section *section, const struct item *item) {
    const struct piece *piece = item->piece;
    if (!piece || !piece->kind->taper || piece->implied || item->role != ITEM_PIECE || !piece->near || !piece->far ||
        !size_known(piece->near->size) || !size_known(piece->far->size))
        return;
    if (!look->trial && (check_stands_in(look->job, piece->near) || check_stands_in(look->job, piece->far))) {
        check_pass_over(look, piece->run->name);
        return;
    }
    bool supply = section->run->supply;
    struct duct_size from = supply ? piece->near->size : piece->far->size;
    struct duct_size to = supply ? piece->far->size : piece->near->size;
    double widens, narrows;
    look->result->looked_at++;
    look_at_twist(look, piece);
    piece->kind->taper(piece, from, to, &widens, &narrows);
    if (size_equal(from, to) && fmax(widens, narrows) < straight) {
        struct diagnostic *said =
            check_warn(look, piece->at, piece->run->name, "this transition of %s changes nothing: %s on both sides",
                       check_name(look, piece->run), check_size_text(look->job, from));
        diagnostic_hint(look->job->diagnostics, said, "straight %s", check_text(look->job, SHOW_RUN, piece->length));
        return;
    }
    if (check_over(widens, widest))
        say_steep(look, piece, from, to, widens, true);
    else if (check_over(narrows, steepest))
        say_steep(look, piece, from, to, narrows, false);
}

void check_transition(const struct look *look) {
    check_each_item(look, look_at_item);
}

const char *transition_limit(struct arena *arena) {
    return arena_format(arena, "a side that widens the duct lies at %.0f degrees at most, one that narrows it at %.0f",
                        widest / DEGREE, steepest / DEGREE);
}
