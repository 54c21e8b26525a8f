/* Ducts, sections and items of each unit, parents before children.
 *
 * A run is walked piece by piece; where another run hangs from it, that run's first section is made at once, so that it
 * knows its parent, and enters the list when its own turn comes.  The runs that wait stand on a stack kept here. */
#include "model/model.h"

#include <assert.h>
#include <string.h>

#include "model/lined.h"
#include "model/inherit.h"
#include "model/taps.h"

/* The place in the run that is being walked. */
struct weave {
    struct arena *arena;
    struct diagnostics *diagnostics;
    enum measure_system system;
    struct network *network;
    struct run *run;
    struct duct *duct; /* the one at hand */
    struct section *section;
    LIST(struct item) items; /* of that section, until it is closed: then it keeps just what it has */
    double station;
    size_t tap;      /* the next of run->taps */
    bool size_taken; /* the run's own size has been used for a duct: those behind later transitions are sized by their
                        air */
    LIST(struct run *) waiting;
};

/* ---- Making ------------------------------------------------------------------------------------------------------ */

static void fix_duct(struct duct *duct, struct duct_size size, enum size_reason reason) {
    duct->size = size;
    duct->reason = reason;
    duct->fixed = true;
}

static struct duct *start_duct(struct weave *weave, struct duct *upstream, struct span at) {
    struct duct *duct = ARENA_NEW(weave->arena, struct duct);
    const struct settings *settings = &weave->run->settings;
    duct->id = (uint32_t)weave->network->ducts.count;
    duct->run = weave->run;
    duct->upstream = upstream;
    duct->size.shape = settings->shape;
    duct->lining = settings->lining;
    duct->friction_multiplier = 1;
    duct->at = at;
    if (size_known(settings->size) && !weave->size_taken)
        fix_duct(duct, settings->size, SIZE_DECLARED);
    weave->size_taken = true;
    *list_add(weave->arena, &weave->network->ducts) = duct;
    if (!weave->run->first_duct)
        weave->run->first_duct = duct;
    weave->duct = duct;
    return duct;
}

/* The section at hand has all its items. */
static void close_section(struct weave *weave) {
    size_t count = weave->items.count;
    weave->items.count = 0;
    if (!count)
        return;
    struct item *items = ARENA_ARRAY(weave->arena, struct item, count);
    memcpy(items, weave->items.at, count * sizeof *items);
    weave->section->items.at = items;
    weave->section->items.count = weave->section->items.room = count;
}

/* Enters `section` (made, with its parent, when its run was hung) as the one at hand. */
static void enter_section(struct weave *weave, struct section *section) {
    close_section(weave);
    section->id = (uint32_t)weave->network->sections.count;
    section->run = weave->run;
    section->duct = weave->duct;
    section->station = weave->station;
    *list_add(weave->arena, &weave->network->sections) = section;
    weave->section = section;
    weave->run->last_section = section;
}

static struct section *new_section(struct weave *weave, struct section *parent) {
    struct section *section = ARENA_NEW(weave->arena, struct section);
    section->parent = parent;
    return section;
}

static struct item *add_item(struct weave *weave, const struct piece *piece, enum item_role role) {
    struct item *item = list_add(weave->arena, &weave->items);
    *item = (struct item){.piece = piece, .role = role};
    return item;
}

/* `run` hangs from the end of the section at hand. */
static void hang(struct weave *weave, struct run *run) {
    run->first_section = new_section(weave, weave->section);
}

/* ---- Along a run ------------------------------------------------------------------------------------------------- */

/* Part of a straight between taps, or all of it. */
static void add_part(struct weave *weave, const struct piece *piece, double until) {
    double length = until - weave->station;
    if (length <= SAME_STATION)
        return;
    add_item(weave, piece, ITEM_PIECE)->length = length;
    weave->section->length += length;
    weave->duct->length += length;
    weave->station = until;
}

/* The junction where the next tap leaves: what is behind it is a new section of the same duct. */
static void pass_tap(struct weave *weave, struct run *tapped) {
    hang(weave, tapped);
    enter_section(weave, new_section(weave, weave->section));
    add_item(weave, tapped->pieces.at[0], ITEM_PAST)->tapped = tapped;
}

/* The taps made in `piece`, in order; along a straight each ends one part of it. */
static void pass_taps(struct weave *weave, const struct piece *piece) {
    double end = piece->station + piece->length;
    for (; weave->tap < weave->run->taps.count; weave->tap++) {
        struct run *tapped = weave->run->taps.at[weave->tap];
        if (tapped->from.station > end + SAME_STATION)
            return;
        if (tapped->faulty)
            continue;
        if (piece->kind->traits & PIECE_LENGTH)
            add_part(weave, piece, tapped->from.station < end ? tapped->from.station : end);
        else
            weave->station = tapped->from.station;
        tapped->from.into = piece;
        pass_tap(weave, tapped);
    }
}

/* Whether duct follows behind the piece at `place`, or only what closes the run. */
static bool goes_on(const struct run *run, size_t place) {
    for (size_t i = place + 1; i < run->pieces.count; i++)
        if (!(run->pieces.at[i]->kind->traits & (PIECE_IMPLIED_CAP | PIECE_OUTLET | PIECE_INLET)))
            return true;
    return run->end && !run_is_face(run->end);
}

/* A piece with a body of its own (a plenum box).  Its taps leave from the body, so only the air that goes on meets
 * its far end: an item of its own behind the taps. */
static void pass_body(struct weave *weave, const struct piece *piece, size_t place) {
    struct section *before = weave->section;
    bool follows = goes_on(weave->run, place);
    size_t at = weave->items.count;
    add_item(weave, piece, ITEM_PIECE)->skips_far = !follows;
    pass_taps(weave, piece);
    if (weave->section == before)
        return;
    before->items.at[at].skips_far = true;
    if (follows)
        add_item(weave, piece, ITEM_PIECE)->skips_near = true;
}

/* A piece that cannot be made behind duct of the shape that it stands behind. */
static void check_fit(struct weave *weave, struct piece *piece, const struct duct *before) {
    const struct duct *shaped =
        before->leg_start && before->upstream ? before->upstream : before; /* a leg is as its split */
    const char *misfit = piece->kind->misfit ? piece->kind->misfit(piece, shaped->size.shape) : NULL;
    if (misfit)
        diagnose(weave->diagnostics, DIAGNOSTIC_ERROR, "piece", piece->at, "%s", misfit);
}

static void add_resize(struct weave *weave, struct piece *piece) {
    struct duct *before = weave->duct ? weave->duct : weave->section->parent->duct;
    struct duct_size size = piece->kind->resize ? piece->kind->resize(piece) : (struct duct_size){0};
    struct duct *after = start_duct(weave, before, piece->at);
    if (size_known(size))
        fix_duct(after, size, SIZE_DECLARED);
    piece->near = before;
    piece->far = after;
    check_fit(weave, piece, before);
}

/* A piece behind which a new duct begins; it is the first item of the section behind it. */
static void pass_resize(struct weave *weave, struct piece *piece) {
    bool first = !weave->duct; /* the run begins with it, on the plain end of another */
    add_resize(weave, piece);
    enter_section(weave, first ? weave->section : new_section(weave, weave->section));
    add_item(weave, piece, ITEM_PIECE);
}

static void pass_piece(struct weave *weave, size_t place) {
    struct piece *piece = weave->run->pieces.at[place];
    bool length = piece->kind->traits & PIECE_LENGTH, body = piece->kind->body;
    double end = piece->station + piece->length;
    weave->station = piece->station;
    if (piece_resizes(piece)) {
        pass_resize(weave, piece);
    } else {
        piece->near = piece->far = weave->duct;
        if (!length && !body && !(piece->kind->traits & PIECE_SPLITS))
            add_item(weave, piece, ITEM_PIECE);
    }
    if (body)
        pass_body(weave, piece, place);
    else if (piece_takes_taps(piece))
        pass_taps(weave, piece);
    if (length)
        add_part(weave, piece, end);
    weave->station = end;
}

/* ---- The start of a run ------------------------------------------------------------------------------------------ */

static bool changes_itself(const struct run *run) {
    for (size_t i = 0; i < run->pieces.count; i++)
        if (piece_resizes(run->pieces.at[i]))
            return true;
    return false;
}

/* Whether the run asks for another size than its collar.  A shape alone is meant for what follows its first
 * transition. */
static bool differs_from_collar(const struct run *run, struct duct_size collar) {
    const struct settings *settings = &run->settings;
    if (size_known(settings->size))
        return !size_equal(settings->size, collar);
    /* A shape that the whole job has is no reason to leave the collar's. */
    return run->own.shape_set && settings->shape != collar.shape && !changes_itself(run);
}

static void say_full(const struct weave *weave, struct duct_size collar) {
    struct diagnostic *said =
        diagnose(weave->diagnostics, DIAGNOSTIC_ERROR, "lining", weave->run->at,
                 "lining %s thick leaves no room inside %s's collar of %s",
                 measure_text(weave->arena, weave->system, SHOW_SIZE, weave->run->settings.lining),
                 weave->network->unit->name, size_text(weave->arena, weave->system, collar));
    diagnostic_hint(weave->diagnostics, said, "lining %s", weave->system == MEASURE_METRIC ? "25 mm" : "1 in");
}

/* On a collar: the first duct has the collar's size.  A run that wants another goes on from it by an implied change. */
static void start_at_unit(struct weave *weave) {
    struct run *run = weave->run;
    const struct air_unit *unit = weave->network->unit;
    struct duct_size collar = run->supply ? unit->supply : unit->return_;
    struct duct *first = start_duct(weave, NULL, run->at);
    enter_section(weave, run->first_section);
    if (!size_known(collar))
        return;
    /* A collar is metal.  A lined run that fits it is smaller inside; one that does not fit begins behind the
     * change. */
    struct duct_size inside = size_around(collar, -first->lining);
    bool differs = run->connect && differs_from_collar(run, inside);
    if (differs)
        first->lining = 0;
    else if (!size_known(inside)) {
        say_full(weave, collar);
        return;
    }
    fix_duct(first, differs ? collar : inside, SIZE_COLLAR);
    /* What the run says of its size is then for what begins behind the collar. */
    weave->size_taken = run->connect && !differs;
    if (!differs)
        return;
    run->connect->near = first;
    run->connect->far = start_duct(weave, first, run->at);
    enter_section(weave, new_section(weave, weave->section));
    add_item(weave, run->connect, ITEM_CONNECT);
}

/* On a plain end an implied change covers a change of size.  Without it the run begins with a change of its own, which
 * starts its first duct; or it is only a face on its parent's duct, and has none. */
static void start_at_end(struct weave *weave) {
    struct run *run = weave->run;
    struct duct *parent = run->first_section->parent->duct;
    if (run->connect) {
        run->connect->near = parent;
        run->connect->far = start_duct(weave, parent, run->at);
        enter_section(weave, run->first_section);
        add_item(weave, run->connect, ITEM_CONNECT);
    } else if (run->pieces.count && piece_resizes(run->pieces.at[0])) {
        weave->section = run->first_section;
    } else {
        run->first_duct = weave->duct = parent;
        enter_section(weave, run->first_section);
    }
}

static void start_at_junction(struct weave *weave, const struct piece *piece, enum item_role role) {
    struct run *run = weave->run;
    assert(run->first_section->parent); /* only the run on a collar has none */
    start_duct(weave, run->first_section->parent->duct, run->at);
    enter_section(weave, run->first_section);
    add_item(weave, piece, role);
}

/* Starts the run at hand; returns how many of its pieces that took. */
static size_t start_run(struct weave *weave) {
    struct run *run = weave->run;
    struct piece *first = run->pieces.count ? run->pieces.at[0] : NULL;
    switch (run->from.kind) {
    case PORT_TAP:
        assert(first); /* its tap, which model_resolve puts in where the job has none */
        start_at_junction(weave, first, ITEM_BRANCH);
        first->near = weave->duct->upstream;
        first->far = weave->duct;
        return 1;
    case PORT_LEG:
        start_at_junction(weave, run->parent->split, ITEM_LEG);
        weave->duct->leg_start = first && piece_resizes(first) && !weave->duct->fixed;
        return 0;
    case PORT_END:
        start_at_end(weave);
        return 0;
    default:
        start_at_unit(weave);
        return 0;
    }
}

/* ---- One run, one tree, the job ---------------------------------------------------------------------------------- */

static void wait_for(struct weave *weave, struct run *run) {
    if (run && !run->faulty)
        *list_add(weave->arena, &weave->waiting) = run;
}

/* Pushes what hangs from the run's end, then its taps in reverse, so that the first tap is popped first. */
static void push_hanging(struct weave *weave) {
    struct run *run = weave->run;
    for (int leg = LEG_COUNT; leg-- > 0;)
        if (run->legs[leg] && !run->legs[leg]->faulty)
            hang(weave, run->legs[leg]);
    if (run->end && !run->end->faulty)
        hang(weave, run->end);
    wait_for(weave, run->end);
    for (int leg = LEG_COUNT; leg-- > 0;)
        wait_for(weave, run->legs[leg]);
    for (size_t i = run->taps.count; i-- > 0;)
        wait_for(weave, run->taps.at[i]);
}

static void weave_run(struct weave *weave, struct run *run) {
    weave->run = run;
    weave->duct = NULL;
    weave->section = NULL;
    weave->station = 0;
    weave->tap = 0;
    weave->size_taken = false;
    for (size_t i = start_run(weave); i < run->pieces.count; i++)
        pass_piece(weave, i);
    close_section(weave);
    if (run->role != RUN_DUCT)
        run->last_section->terminal = run;
    push_hanging(weave);
}

static void weave_tree(struct weave *weave, struct run *root) {
    if (!root || root->faulty)
        return;
    root->first_section = new_section(weave, NULL);
    wait_for(weave, root);
    while (weave->waiting.count)
        weave_run(weave, weave->waiting.at[--weave->waiting.count]);
}

static void weave_unit(struct job *job, struct air_unit *unit) {
    if (unit->faulty || (!unit->supply_run && !unit->return_run))
        return;
    unit->network = ARENA_NEW(job->arena, struct network);
    unit->network->unit = unit;
    struct weave weave = {
        .arena = job->arena, .diagnostics = job->diagnostics, .system = job->system, .network = unit->network};
    weave_tree(&weave, unit->supply_run);
    weave_tree(&weave, unit->return_run);
}

/* One path for each terminal, in file order. */
static void list_paths(struct job *job) {
    for (size_t i = 0; i < job->runs.count; i++) {
        const struct run *run = job->runs.at[i];
        if (run->faulty || run->role == RUN_DUCT || !run->last_section)
            continue;
        struct network *network = run->unit->network;
        if (run->supply)
            list_add(job->arena, &network->supply_paths)->end = run->last_section;
        else
            list_add(job->arena, &network->return_paths)->end = run->last_section;
    }
}

void model_network(struct job *job) {
    for (size_t i = 0; i < job->units.count; i++)
        weave_unit(job, job->units.at[i]);
    list_paths(job);
}
