/* The pieces of one run: their order, their stations, the taps made in them. */
#include "model/resolve.h"

#include <math.h>
#include <stdlib.h>

#include "base/constant.h"
#include "model/inherit.h"
#include "model/taps.h"

/* ---- Implied pieces ---------------------------------------------------------------------------------------------- */

struct piece *implied_piece(struct resolve *resolve, struct run *run, unsigned trait) {
    const struct piece_kind *kind = piece_kind_with(resolve->pieces, trait);
    struct piece *piece = ARENA_NEW(resolve->job->arena, struct piece);
    piece->system = resolve->job->system;
    piece->kind = kind;
    piece->reading.form = &kind->form;
    piece->reading.argument = ARENA_ARRAY(resolve->job->arena, struct argument, SLOT_LIMIT); /* none given */
    piece->at = run->at;
    piece->run = run;
    piece->implied = true;
    if (kind->prepare)
        kind->prepare(piece, resolve->job->diagnostics);
    return piece;
}

void insert_piece(struct arena *arena, struct run *run, size_t place, struct piece *piece) {
    *list_add(arena, &run->pieces) = NULL;
    for (size_t i = run->pieces.count - 1; i > place; i--)
        run->pieces.at[i] = run->pieces.at[i - 1];
    run->pieces.at[place] = piece;
}

static void imply_pieces(struct resolve *resolve, struct run *run) {
    const struct piece *first = run->pieces.count ? run->pieces.at[0] : NULL;
    if (run->from.kind == PORT_TAP && !(first && (first->kind->traits & PIECE_TAP)))
        insert_piece(resolve->job->arena, run, 0, implied_piece(resolve, run, PIECE_IMPLIED_TAP));
    bool resized = first && piece_resizes(first);
    bool shares = run->from.kind == PORT_END && run_is_face(run);
    if ((run->from.kind == PORT_END || run->from.kind == PORT_UNIT) && !resized && !shares)
        run->connect = implied_piece(resolve, run, PIECE_IMPLIED_CHANGE);
}

/* ---- Order ------------------------------------------------------------------------------------------------------- */

static void check_tap_piece(struct resolve *resolve, struct run *run, size_t index) {
    const struct piece *piece = run->pieces.at[index];
    struct diagnostics *all = resolve->job->diagnostics;
    if (run->from.kind == PORT_TAP && index > 0) {
        struct diagnostic *error =
            run_error(resolve, run, "tap", piece->at, "a tap joins '%s' to '%s': it must be the first piece", run->name,
                      run->from.name);
        diagnostic_relate(all, error, run->pieces.at[0]->at, "the first piece is here");
    } else if (run->from.kind == PORT_END || run->from.kind == PORT_LEG || run->from.kind == PORT_UNIT) {
        struct diagnostic *error = run_error(
            resolve, run, "tap", piece->at, "'%s' is not tapped in, so it has no tap: it does not say where along '%s'",
            run->name, run->from.name);
        diagnostic_relate(all, error, run->from.at, "what it hangs from");
        if (run->from.kind == PORT_END)
            diagnostic_hint(all, error, "from %s at 6 ft left", run->from.name);
    }
}

/* Nothing stands behind the piece that ends a run; but a filter and its grille are one face. */
static bool may_follow(const struct piece *before, const struct piece *piece) {
    if ((before->kind->traits & PIECE_INLET) && (piece->kind->traits & PIECE_INLET))
        return true;
    return !(before->kind->traits & (PIECE_ENDS_RUN | PIECE_SPLITS));
}

static void check_order(struct resolve *resolve, struct run *run) {
    struct diagnostics *all = resolve->job->diagnostics;
    for (size_t i = 0; i < run->pieces.count; i++) {
        struct piece *piece = run->pieces.at[i];
        const struct piece *before = i ? run->pieces.at[i - 1] : NULL;
        if (piece->kind->traits & PIECE_TAP)
            check_tap_piece(resolve, run, i);
        if (before && !may_follow(before, piece)) {
            struct diagnostic *error =
                run_error(resolve, run, "order", piece->at, "this '%s' stands behind the '%s' that ends the run",
                          piece->kind->form.word, before->kind->form.word);
            diagnostic_relate(all, error, before->at, "the run ends here");
            if (piece->kind == before->kind)
                diagnostic_hint(all, error, "leave out one of them, or make it another %s with its own airflow",
                                run->role == RUN_INLET ? "inlet" : "outlet");
            else
                diagnostic_hint(all, error, "put the '%s' last", before->kind->form.word);
            return;
        }
        if (piece->kind->traits & PIECE_SPLITS)
            run->split = piece;
    }
}

static void count_stations(struct run *run) {
    double station = 0;
    for (size_t i = 0; i < run->pieces.count; i++) {
        run->pieces.at[i]->station = station;
        station += run->pieces.at[i]->length;
    }
    run->length = station;
}

static void find_face(struct run *run) {
    for (size_t i = run->pieces.count; i-- > 0 && !run->face;) {
        const struct piece *piece = run->pieces.at[i];
        if ((piece->kind->traits & (PIECE_OUTLET | PIECE_INLET)) && piece->kind->face)
            run->face = piece;
    }
}

void resolve_pieces(struct resolve *resolve, struct run *run) {
    if (run->faulty)
        return;
    check_order(resolve, run);
    if (run->faulty)
        return;
    imply_pieces(resolve, run);
    count_stations(run);
    find_face(run);
}

/* ---- Taps -------------------------------------------------------------------------------------------------------- */

/* What a tap takes of its parent along it, on both sides of its station: m. */
struct tap_need {
    double toward, away; /* the unit */
};

/* A tap and its place in the file, for a stable order. */
struct placed_tap {
    struct run *run;
    size_t place;
};

static int by_station(const void *left, const void *right) {
    const struct placed_tap *a = left, *b = right;
    if (a->run->from.station < b->run->from.station)
        return -1;
    if (a->run->from.station > b->run->from.station)
        return 1;
    return (a->place > b->place) - (a->place < b->place);
}

static void sort_taps(struct arena *arena, struct run *run) {
    bool sorted = true;
    for (size_t i = 1; i < run->taps.count && sorted; i++)
        sorted = run->taps.at[i - 1]->from.station <= run->taps.at[i]->from.station;
    if (sorted)
        return;
    struct placed_tap *taps = ARENA_ARRAY(arena, struct placed_tap, run->taps.count);
    for (size_t i = 0; i < run->taps.count; i++)
        taps[i] = (struct placed_tap){.run = run->taps.at[i], .place = i};
    qsort(taps, run->taps.count, sizeof *taps, by_station);
    for (size_t i = 0; i < run->taps.count; i++)
        run->taps.at[i] = taps[i].run;
}

/* A station of whole eighths or millimetres, as it is typed in. */
static const char *station_text(const struct job *job, double station) {
    if (job->system == MEASURE_METRIC)
        return arena_format(job->arena, "%.8g mm", round(station / MILLIMETRE));
    return measure_text(job->arena, job->system, SHOW_RUN, station);
}

static const char *side_word(enum side side) {
    static const char *const words[] = {"", " left", " right", " top", " bottom"};
    return words[side];
}

/* A length written as a number alone is in inches or millimetres, which may not be what was
 * meant: told of the first. */
static void relate_bare(struct job *job, struct diagnostic *error, const struct run *run) {
    for (size_t i = 0; i < run->pieces.count; i++) {
        const struct piece *piece = run->pieces.at[i];
        const struct argument *length = &piece->reading.argument[0];
        if (!(piece->kind->traits & PIECE_LENGTH) || piece->implied || !length->given)
            continue;
        const char *written = length->at.text->bytes + length->at.begin;
        int count = (int)(length->at.end - length->at.begin);
        if (count < 1 || written[count - 1] < '0' || written[count - 1] > '9')
            continue;
        bool metric = job->system == MEASURE_METRIC;
        diagnostic_relate(job->diagnostics, error, length->at, "%.*s is read as %.*s %s; for %s write %.*s %s", count,
                          written, count, written, metric ? "mm" : "in", metric ? "metres" : "feet", count, written,
                          metric ? "m" : "ft");
        return;
    }
}

/* `inside` is the fitting that the tap would stand in, NULL beyond the end; `nearest` a station where it has room, or
 * negative; then `taken` says that other taps have that room. */
static void bad_tap(struct resolve *resolve, struct run *tap, const struct piece *inside, double nearest, bool taken) {
    struct job *job = resolve->job;
    const struct run *parent = tap->from.run;
    struct diagnostic *error;
    if (tap->from.station > parent->length + SAME_STATION) {
        error = run_error(resolve, tap, "tap", tap->from.station_at,
                          "'%s' is tapped in beyond the end of '%s', which is %s long", tap->name, parent->name,
                          measure_text(job->arena, job->system, SHOW_RUN, parent->length));
        diagnostic_relate(job->diagnostics, error, parent->at, "that run is declared here");
        relate_bare(job, error, parent);
    } else if (inside) {
        error = run_error(resolve, tap, "tap", tap->from.station_at,
                          "'%s' is tapped into the '%s' of '%s': expected straight duct", tap->name,
                          inside->kind->form.word, parent->name);
        diagnostic_relate(job->diagnostics, error, inside->at, "it begins at %s",
                          measure_text(job->arena, job->system, SHOW_RUN, inside->station));
    } else {
        error = run_error(resolve, tap, "tap", tap->from.station_at,
                          "'%s' has no straight duct there for '%s' to be tapped into", parent->name, tap->name);
        diagnostic_relate(job->diagnostics, error, parent->at, "that run is declared here");
    }
    if (nearest >= 0)
        diagnostic_hint(job->diagnostics, error, "at %s%s", station_text(job, nearest), side_word(tap->from.side));
    else if (taken)
        diagnostic_hint(job->diagnostics, error, "another side: other taps stand where there is straight duct");
    else
        diagnostic_hint(job->diagnostics, error, "give '%s' straight duct there: straight %s", parent->name,
                        job->system == MEASURE_METRIC ? "600 mm" : "24 in");
}

/* What a tap of a run whose size is not known yet is taken to need on either side of its middle.  Chosen here: half of
 * a wide runout. */
static const double ample = 12 * INCH;

static struct tap_need need_of(const struct run *tap) {
    if (!size_known(tap->own.size))
        return (struct tap_need){ample, ample};
    struct tap_opening opening = tap_opening_of(tap->pieces.at[0], tap->own.size);
    double half = tap_along(tap->from.side, tap->own.size) / 2;
    return (struct tap_need){half + opening.upstream, half + opening.downstream};
}

/* Whether the tap, put there, is clear of all others on its side. */
static bool is_clear(const struct run *tap, const struct tap_need *need, double station) {
    const struct run *parent = tap->from.run;
    for (size_t i = 0; i < parent->taps.count; i++) {
        const struct run *other = parent->taps.at[i];
        if (other == tap || other->from.side != tap->from.side || other->faulty)
            continue;
        struct tap_need its = need_of(other);
        double apart = station - other->from.station;
        if (apart > 0 ? apart < its.away + need->toward + tap_edge : -apart < its.toward + need->away + tap_edge)
            return false;
    }
    return true;
}

/* The station nearest to what was asked where the tap has room, in the nearer of the pieces around; negative: there is
 * none, since that is too short or, when `taken`, since other taps stand there. */
static double nearest_room(const struct job *job, const struct run *tap, const struct piece *before,
                           const struct piece *after, bool *taken) {
    double station = tap->from.station, unit = job->system == MEASURE_METRIC ? MILLIMETRE : INCH / 8;
    double end = before ? before->station + before->length : -INFINITY, next = after ? after->station : INFINITY;
    bool back = station - end <= next - station;
    const struct piece *into = back ? before : after;
    struct tap_need need = need_of(tap);
    *taken = false;
    if (!into || into->length < need.toward + need.away + unit)
        return -1;
    double room =
        back ? floor((end - need.away) / unit + 1e-6) * unit : ceil((next + need.toward) / unit - 1e-6) * unit;
    *taken = !is_clear(tap, &need, room);
    return *taken ? -1 : room;
}

void resolve_taps(struct resolve *resolve, struct run *run) {
    if (run->faulty || !run->taps.count)
        return;
    sort_taps(resolve->job->arena, run);
    /* Taps and pieces both come in order of station: one walk along the run serves all. */
    size_t next = 0, around = 0;
    const struct piece *before = NULL;
    for (size_t i = 0; i < run->taps.count; i++) {
        struct run *tap = run->taps.at[i];
        double station = tap->from.station;
        for (; next < run->pieces.count; next++) {
            const struct piece *piece = run->pieces.at[next];
            if (piece_takes_taps(piece) && piece->station + piece->length >= station - SAME_STATION)
                break;
            if (piece_takes_taps(piece))
                before = piece;
        }
        const struct piece *after = next < run->pieces.count ? run->pieces.at[next] : NULL;
        if (after && tap_in_piece(after, station))
            continue;
        while (around < run->pieces.count &&
               run->pieces.at[around]->station + run->pieces.at[around]->length <= station + SAME_STATION)
            around++;
        const struct piece *inside = around < run->pieces.count ? run->pieces.at[around] : NULL;
        if (inside && inside->station > station - SAME_STATION)
            inside = NULL;
        if (tap->faulty)
            continue;
        bool taken;
        double nearest = nearest_room(resolve->job, tap, before, after, &taken);
        bad_tap(resolve, tap, inside, nearest, taken);
    }
}
