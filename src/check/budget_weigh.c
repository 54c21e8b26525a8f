/* Ways out, proved and priced. */
#include "check/budget_weigh.h"

#include <math.h>
#include <string.h>

#include "check/budget_lines.h"
#include "check/budget_sides.h"

/* ---- Compiled with its lines ------------------------------------------------------------------------------------- */

static const struct job *retyped(const struct bench *bench, const struct changes *changes) {
    const struct job *job = bench->look->job;
    struct line_edit edits[CHANGES_ALL];
    for (size_t i = 0; i < changes->count; i++)
        if (!change_edit(bench, &changes->at[i], &edits[i]))
            return NULL;
    return job->retyper->compile(job->retyper, job, edits, changes->count);
}

static const struct network *same_network(const struct job *job, const struct network *network,
                                          const struct job *other) {
    for (size_t i = 0; i < job->units.count && i < other->units.count; i++)
        if (job->units.at[i] == network->unit)
            return other->units.at[i]->network;
    return NULL;
}

static bool is_check(const struct diagnostic *said, const char *check) {
    return said->check && strcmp(said->check, check) == 0;
}

/* Whether it is about a run of another unit. */
static bool is_elsewhere(const struct bench *bench, const struct diagnostic *said) {
    for (size_t i = 0; said->subject && i < bench->run_count; i++)
        if (strcmp(bench->runs[i]->name, said->subject) == 0)
            return false;
    return said->subject != NULL;
}

/* Another unit may be short; what is wrong as it is may be wrong still. */
static bool is_no_matter(const struct bench *bench, const struct diagnostic *said) {
    if (is_check(said, "budget"))
        return said->subject && strcmp(said->subject, bench->network->unit->name) != 0;
    return bench_warned(bench->warned[false], said) || bench_warned(bench->look->job->diagnostics, said);
}

/* Kept for the way: the job with it is soon gone. */
static void note_coming_out(const struct bench *bench, struct way *way, const struct diagnostic *said) {
    if (said && said->subject && !way->comes_out)
        way->comes_out = arena_format(bench->look->job->arena,
                                      is_check(said, "tap-fit") ? "the tap of %s then wants room"
                                                                : "a transition of %s then wants length",
                                      said->subject);
}

static const struct run *run_named(const struct job *job, const char *name) {
    for (size_t i = 0; name && i < job->runs.count; i++)
        if (strcmp(job->runs.at[i]->name, name) == 0)
            return job->runs.at[i];
    return NULL;
}

/* Any error that is new, and any warning of what a change can break.  Where a tap cannot be cut, `cures` gets the side
 * where it can. */
static bool is_sound(const struct bench *bench, const struct job *with, struct way *way, struct changes *cures) {
    bool sound = true;
    for (size_t i = 0; i < with->diagnostics->all.count; i++) {
        const struct diagnostic *said = with->diagnostics->all.at[i];
        bool rule = is_check(said, "tap-fit") || is_check(said, "transition"), error = said->level == DIAGNOSTIC_ERROR;
        if (!error && (said->level != DIAGNOSTIC_WARNING || !rule || is_elsewhere(bench, said)))
            continue;
        if (rule && bench_comes_out(bench, said)) {
            note_coming_out(bench, way, said);
        } else if (!is_no_matter(bench, said)) {
            sides_cure(bench, said, run_named(with, said->subject), cures);
            sound = false;
        }
    }
    return sound;
}

static double sheet_of_pieces(const struct changes *changes) {
    double sum = 0;
    for (size_t i = 0; i < changes->count; i++)
        sum += changes->at[i].sheet;
    return sum;
}

static bool has_price(const struct job *job) {
    return job->price && job->price->complete;
}

static bool weigh_retyped(const struct search_ways *search, struct way *way, const struct job *with,
                          struct changes *cures) {
    const struct job *job = search->bench->look->job;
    const struct network *network = same_network(job, search->bench->network, with);
    if (!network)
        return false;
    way->spare = network->surplus;
    if (air_budget_short(network)) { /* small taps may be why */
        sides_widen(search->bench, network, cures);
        return false;
    }
    if (!is_sound(search->bench, with, way, cures))
        return false;
    way->sheet = network->walls_area - search->bench->walls_area + sheet_of_pieces(&way->changes);
    way->walls = network->walls_cost - search->bench->walls_cost;
    way->priced = has_price(job) && has_price(with);
    if (way->priced)
        way->more = with->price->build_up.unrounded - job->price->build_up.unrounded;
    return true;
}

static bool weigh_once(const struct weighing *weighing, struct way *way, struct changes *cures) {
    struct bench *bench = weighing->search->bench;
    bool rate = way->changes.at[0].kind == CHANGE_RATE;
    way->comes_out = NULL;
    if (weighing->retypes) {
        bench_make(bench, &(struct changes){0});
        const struct job *with = retyped(bench, &way->changes);
        if (with)
            return weigh_retyped(weighing->search, way, with, cures);
    }
    struct resized resized = bench_resize(bench, &way->changes, rate);
    *cures = resized.cures;
    way->spare = resized.surplus;
    way->sheet = resized.sheet;
    way->walls = resized.cost;
    note_coming_out(bench, way, resized.comes_out);
    return resized.sound;
}

/* False: there are none, or no room for them, or the side of one of the taps is another already. */
static bool add_cures(struct changes *changes, const struct changes *cures) {
    for (size_t i = 0; i < cures->count; i++) {
        for (size_t k = 0; k < changes->count; k++)
            if (change_same_thing(&changes->at[k], &cures->at[i]))
                return false;
        if (changes->count >= CHANGES_ALL)
            return false;
        changes->at[changes->count++] = cures->at[i];
    }
    return cures->count > 0;
}

bool way_weigh(const struct weighing *weighing, struct way *way) {
    way->changes = bench_completed(weighing->search->bench, &way->changes);
    for (;;) {
        struct changes cures = {0};
        if (weigh_once(weighing, way, &cures))
            return true;
        if (!add_cures(&way->changes, &cures))
            return false;
    }
}

/* ---- How they compare -------------------------------------------------------------------------------------------- */

/* Cents, kg or m2: what differs by less costs the same but for rounding. */
static const double alike = 1e-9;

bool way_goes_before(const struct job *job, const struct way *one, const struct way *other) {
    if (!one->comes_out != !other->comes_out)
        return other->comes_out;
    if (one->is_face != other->is_face)
        return other->is_face;
    double more = one->priced && other->priced ? (double)(one->more - other->more)
                  : job->worth->priced         ? one->walls - other->walls
                                               : one->sheet - other->sheet;
    if (fabs(more) > alike)
        return more < 0;
    if (one->changes.count != other->changes.count)
        return one->changes.count < other->changes.count;
    return one->spare > other->spare;
}

/* ---- In words ---------------------------------------------------------------------------------------------------- */

static const char *money_words(const struct job *job, money more, const char *of) {
    struct currency currency = cost_currency(job);
    if (more == 0)
        return arena_format(job->arena, "no more%s", of);
    return arena_format(job->arena, "%s %s%s", money_text(job->arena, &currency, more < 0 ? -more : more),
                        more < 0 ? "less" : "more", of);
}

const char *way_takes_words(const struct job *job, const struct way *way) {
    if (way->is_face && job->worth->priced)
        return "at a price that is not known here";
    if (way->priced)
        return money_words(job, way->more, "");
    if (job->worth->priced)
        return money_words(job, llround(way->walls * 100), " for walls");
    const char *sheet = check_text(job, SHOW_AREA, fabs(way->sheet));
    if (strcmp(sheet, check_text(job, SHOW_AREA, 0)) == 0)
        return "no more duct wall";
    return arena_format(job->arena, "%s %s duct wall", sheet, way->sheet < 0 ? "less" : "more");
}
