/* What waits for an estimate.  The last joint of a straight length; a fitting of which anything is only about, and
 * where that is its size the duct behind it; all of a run whose own size, airflow or lining is; the joint that a tap is
 * cut into where its place or its size is.  What size the tool finds from an airflow or a pressure waits with it: so do
 * the runs toward the unit, or all of the unit.  A run whose airflow is only about waits even where the job gives its
 * size, which was chosen for that airflow. */
#include "metal/waits.h"

#include <stdlib.h>
#include <string.h>

#include "base/constant.h"
#include "lang/syntax.h"
#include "model/estimate.h"
#include "model/names.h"
#include "model/taps.h"

/* Uses first .. end - 1 of metal->hung. */
struct made_piece {
    const struct piece *piece;
    size_t first, end;
};

struct made_run {
    size_t first, end;
    bool sized;               /* the tool found a size of it */
    bool whole;               /* all of it waits for something */
    const struct waits *told; /* for which all of it was told last */
};

struct looking {
    struct job *job;
    struct made_piece *pieces;              /* in hanging order */
    const struct made_piece **by_statement; /* sorted by where the statement is kept */
    size_t piece_count;
    struct made_run *runs;     /* by run->id */
    struct names names;        /* of the runs */
    bool *about;               /* of each of metal->hung */
    const struct waits **told; /* by part->number: which it was last told */
    struct waits *waits;       /* of the statement at hand */
};

/* ---- What is made of what ---------------------------------------------------------------------------------------- */

static int by_statement(const void *a, const void *b) {
    const struct statement *one = (*(const struct made_piece *const *)a)->piece->reading.statement;
    const struct statement *other = (*(const struct made_piece *const *)b)->piece->reading.statement;
    return (one > other) - (one < other);
}

static void list_piece(struct looking *looking, const struct piece *piece, size_t *next) {
    const struct metal *metal = looking->job->metal;
    struct made_piece *made = &looking->pieces[looking->piece_count++];
    *made = (struct made_piece){.piece = piece, .first = *next};
    while (*next < metal->pieces && metal->hung[*next].use->piece == piece)
        ++*next;
    made->end = *next;
}

static void list_pieces(struct looking *looking, struct arena *arena) {
    const struct metal *metal = looking->job->metal;
    size_t count = 0, next = 0;
    for (size_t r = 0; r < metal->runs.count; r++)
        count += metal->runs.at[r]->pieces.count + 1;
    looking->pieces = ARENA_ARRAY(arena, struct made_piece, count + 1);
    for (size_t r = 0; r < metal->runs.count; r++) {
        const struct run *run = metal->runs.at[r];
        struct made_run *made = &looking->runs[run->id];
        made->first = next;
        if (run->connect)
            list_piece(looking, run->connect, &next);
        for (size_t i = 0; i < run->pieces.count; i++)
            list_piece(looking, run->pieces.at[i], &next);
        made->end = next;
    }
    looking->by_statement = ARENA_ARRAY(arena, const struct made_piece *, count + 1);
    for (size_t i = 0; i < looking->piece_count; i++)
        looking->by_statement[i] = &looking->pieces[i];
    qsort(looking->by_statement, looking->piece_count, sizeof *looking->by_statement, by_statement);
}

static void list_runs(struct looking *looking) {
    for (size_t i = 0; i < looking->job->runs.count; i++)
        names_add(&looking->names, looking->job->runs.at[i]->name)->thing = looking->job->runs.at[i];
    for (size_t u = 0; u < looking->job->units.count; u++) {
        const struct network *network = looking->job->units.at[u]->network;
        for (size_t i = 0; network && i < network->ducts.count; i++)
            looking->runs[network->ducts.at[i]->run->id].sized |= !network->ducts.at[i]->fixed;
    }
}

static const struct made_piece *piece_of(const struct looking *looking, const struct statement *statement) {
    struct piece piece = {.reading = {.statement = statement}};
    struct made_piece key = {.piece = &piece};
    const struct made_piece *wanted = &key, **found = NULL;
    if (looking->piece_count)
        found = bsearch(&wanted, looking->by_statement, looking->piece_count, sizeof *found, by_statement);
    return found ? *found : NULL;
}

/* ---- What waits -------------------------------------------------------------------------------------------------- */

static void tell_use(struct looking *looking, size_t use, bool opening) {
    struct waits *waits = looking->waits;
    const struct part *part = looking->job->metal->hung[use].part;
    looking->about[use] = true;
    if (looking->told[part->number] == waits)
        return;
    looking->told[part->number] = waits;
    if (opening)
        *list_add(looking->job->arena, &waits->openings) = part->number;
    else
        *list_add(looking->job->arena, &waits->parts) = part->number;
}

static void tell_uses(struct looking *looking, size_t first, size_t end) {
    for (size_t i = first; i < end; i++)
        tell_use(looking, i, false);
}

/* The joint or box whose metal has the run's station; an opening is within one. */
static void tell_opening(struct looking *looking, const struct run *run) {
    const struct piece *into = run->from.kind == PORT_TAP ? run->from.into : NULL;
    const struct made_piece *made = into ? piece_of(looking, into->reading.statement) : NULL;
    if (!made || looking->runs[into->run->id].told == looking->waits)
        return;
    size_t low = made->first, high = made->end;
    while (low < high) {
        size_t middle = (low + high) / 2;
        const struct part_use *use = looking->job->metal->hung[middle].use;
        if (use->station + use->length + SAME_STATION < run->from.station)
            low = middle + 1;
        else
            high = middle;
    }
    if (low < made->end)
        tell_use(looking, low, true);
}

/* Trunks before what hangs from them. */
static void tell_whole(struct looking *looking, const struct run *run) {
    struct made_run *made = &looking->runs[run->id];
    if (made->first == made->end)
        return;
    made->whole = true;
    made->told = looking->waits;
    *list_add(looking->job->arena, &looking->waits->whole) = run;
    tell_opening(looking, run);
}

static void tell_sized(struct looking *looking, const struct network *network) {
    for (size_t i = 0; network && i < network->ducts.count; i++) {
        const struct run *run = network->ducts.at[i]->run;
        if (looking->runs[run->id].sized && looking->runs[run->id].told != looking->waits)
            tell_whole(looking, run);
    }
}

/* ---- By what it is an estimate of -------------------------------------------------------------------------------- */

/* Of air: what follows from it follows through sizes. */
static bool is_of_air(const struct estimate *estimate) {
    enum measure_kind measure = estimate->slot->measure;
    return estimate->slot->kind != SLOT_SIZE && (estimate->slot->kind != SLOT_QUANTITY || measure == MEASURE_FLOW ||
                                                 measure == MEASURE_POWER || measure == MEASURE_PRESSURE);
}

/* Words of which nothing follows for the metal. */
static bool cuts_nothing(const struct statement *statement) {
    static const char *const words[] = {"place", "clearance", "headroom", "insulation", "seal", "valid", "revision"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (strcmp(statement->word, words[i]) == 0)
            return true;
    return false;
}

/* To the next that gives the duct a size. */
static void tell_behind(struct looking *looking, const struct made_piece *made) {
    const struct made_piece *end = looking->pieces + looking->piece_count;
    for (const struct made_piece *next = made + 1; next < end && next->piece->run == made->piece->run; next++) {
        tell_uses(looking, next->first, next->end);
        if (piece_resizes(next->piece))
            return;
    }
}

/* A boot fits the face behind it. */
static void tell_face(struct looking *looking, const struct made_piece *made) {
    for (const struct made_piece *before = made; before > looking->pieces;) {
        before--;
        if (before->piece->run != made->piece->run)
            return;
        if (before->piece->kind->traits & PIECE_FITS_FACE)
            tell_uses(looking, before->first, before->end);
    }
}

static void look_at_piece(struct looking *looking, const struct estimate *estimate, const struct made_piece *made) {
    const struct piece *piece = made->piece;
    bool joints = (piece->kind->traits & PIECE_LENGTH) && made->end > made->first;
    if (is_of_air(estimate)) {
        tell_sized(looking, piece->run->unit ? piece->run->unit->network : NULL);
        return;
    }
    tell_uses(looking, joints ? made->end - 1 : made->first, made->end);
    if (estimate->slot->kind != SLOT_SIZE)
        return;
    if (piece_resizes(piece))
        tell_behind(looking, made);
    if (piece->kind->face)
        tell_face(looking, made);
}

static void look_at_run(struct looking *looking, const struct estimate *estimate, const struct run *run) {
    bool station = run->from.station_about && estimate->at.text == run->from.station_at.text &&
                   estimate->at.begin == run->from.station_at.begin;
    if (!station && cuts_nothing(estimate->statement))
        return;
    for (const struct run *up = run->parent; up && !station && is_of_air(estimate); up = up->parent)
        if (looking->runs[up->id].sized)
            tell_whole(looking, up);
    if (station)
        tell_opening(looking, run);
    else
        tell_whole(looking, run);
}

static void look_at_unit(struct looking *looking, const struct estimate *estimate, const struct air_unit *unit) {
    if (estimate->slot->kind == SLOT_SIZE) {
        bool supply = unit->supply_at.text == estimate->at.text && unit->supply_at.begin == estimate->at.begin;
        const struct run *run = supply ? unit->supply_run : unit->return_run;
        if (run)
            tell_whole(looking, run);
    } else if (is_of_air(estimate)) {
        tell_sized(looking, unit->network);
    }
}

static void look_at(struct looking *looking, const struct estimate *estimate) {
    const struct made_piece *made = piece_of(looking, estimate->statement);
    const struct name *name = names_find(&looking->names, estimate->where ? estimate->where : "");
    const struct run *run = name ? name->thing : NULL;
    if (run && run->alternate != estimate->alternate)
        run = NULL;
    looking->waits->made = made || run || !estimate->alternate;
    if (made)
        look_at_piece(looking, estimate, made);
    else if (run)
        look_at_run(looking, estimate, run);
    for (size_t u = 0; !made && !run && !estimate->alternate && u < looking->job->units.count; u++) {
        const struct air_unit *unit = looking->job->units.at[u];
        bool its = estimate->where && strcmp(unit->name, estimate->where) == 0;
        if (its)
            look_at_unit(looking, estimate, unit);
    }
}

/* ---- All --------------------------------------------------------------------------------------------------------- */

static void mark(const struct looking *looking) {
    const struct metal *metal = looking->job->metal;
    for (size_t i = 0; i < looking->job->runs.count; i++)
        for (size_t u = looking->runs[i].first; looking->runs[i].whole && u < looking->runs[i].end; u++)
            looking->about[u] = true;
    for (size_t p = 0; p < metal->parts.count; p++)
        for (size_t u = 0; u < metal->parts.at[p]->uses.count; u++)
            metal->parts.at[p]->uses.at[u].about = looking->about[metal->parts.at[p]->uses.at[u].hung - 1];
}

void metal_waits(struct job *job) {
    if (job->estimates.count == 0)
        return;
    struct arena *arena = job->scratch;
    struct looking looking = {.job = job, .names = {.arena = arena}};
    looking.runs = ARENA_ARRAY(arena, struct made_run, job->runs.count + 1);
    looking.about = ARENA_ARRAY(arena, bool, job->metal->pieces + 1);
    looking.told = ARENA_ARRAY(arena, const struct waits *, job->metal->parts.count + 1);
    list_runs(&looking);
    list_pieces(&looking, arena);
    for (size_t i = 0; i < job->estimates.count; i++) {
        struct estimate *estimate = job->estimates.at[i];
        if (i == 0 || job->estimates.at[i - 1]->statement != estimate->statement)
            looking.waits = ARENA_NEW(job->arena, struct waits);
        estimate->waits = looking.waits;
        look_at(&looking, estimate);
    }
    mark(&looking);
    arena_clear(arena);
}
