/* What stands at the end of a run: its terminal, its legs, the cap that closes it. */
#include "model/resolve.h"
#include "model/inherit.h"
#include "model/words.h"

bool run_is_face(const struct run *run) {
    if (run->role == RUN_DUCT || size_known(run->own.size))
        return false;
    for (size_t i = 0; i < run->pieces.count; i++)
        if ((run->pieces.at[i]->kind->traits & PIECE_LENGTH) || piece_resizes(run->pieces.at[i]))
            return false;
    return true;
}

static void run_warning(struct resolve *resolve, const struct run *run, const char *check, const char *hint,
                        const char *message) {
    struct diagnostic *warning = diagnose(resolve->job->diagnostics, DIAGNOSTIC_WARNING, check, run->at, "%s", message);
    warning->subject = run->name;
    diagnostic_hint(resolve->job->diagnostics, warning, "%s", hint);
}

static const char *name_of(const struct resolve *resolve, const struct run *run) {
    return diagnostic_named(resolve->job->diagnostics, run->name);
}

/* An outlet ends in a register, an inlet in a grille or filter. */
static void check_face(struct resolve *resolve, const struct run *run) {
    unsigned face = run->role == RUN_OUTLET ? PIECE_OUTLET : PIECE_INLET;
    if (run->face && (run->face->kind->traits & face))
        return;
    const struct form *missing = &piece_kind_with(resolve->pieces, face)->form;
    run_warning(resolve, run, "register", missing->example,
                arena_format(resolve->job->arena, "'%s' has no %s: its pressure drop is not counted",
                             name_of(resolve, run), missing->word));
}

/* While there are errors nothing is reported missing: it may be in a statement that could not be read. */
static void warn_dead_end(struct resolve *resolve, const struct run *run, const char *hint, const char *message) {
    if (!resolve->job->diagnostics->error_count)
        run_warning(resolve, run, "dead-end", hint, message);
}

static void check_legs_used(struct resolve *resolve, const struct run *run) {
    size_t used = 0;
    for (int leg = 0; leg < LEG_COUNT; leg++)
        used += run->legs[leg] != NULL;
    if (used >= 2)
        return;
    const char *hint = arena_format(resolve->job->arena, "run NAME from %s.%s { ... }", run->name,
                                    leg_name(run->legs[LEG_LEFT] ? LEG_RIGHT : LEG_LEFT));
    warn_dead_end(resolve, run, hint,
                  arena_format(resolve->job->arena,
                               used ? "only one leg of the split of '%s' leads anywhere"
                                    : "no leg of the split of '%s' leads anywhere",
                               name_of(resolve, run)));
}

void resolve_end(struct resolve *resolve, struct run *run) {
    if (run->faulty)
        return;
    if (run->role != RUN_DUCT) {
        check_face(resolve, run);
        return;
    }
    if (run->split) {
        check_legs_used(resolve, run);
        return;
    }
    if (run->end)
        return;
    if (!run->taps.count) {
        const char *kind = run->supply ? "outlet" : "inlet";
        /* Without any terminal on that side, that is an error of its own. */
        if (run->supply ? run->unit->has_outlet : run->unit->has_inlet)
            warn_dead_end(
                resolve, run, arena_format(resolve->job->arena, "%s NAME from %s { ... }", kind, run->name),
                arena_format(resolve->job->arena, "'%s' leads nowhere: nothing hangs from it", name_of(resolve, run)));
        return;
    }
    const struct piece *last = run->pieces.count ? run->pieces.at[run->pieces.count - 1] : NULL;
    if (last && (last->kind->traits & PIECE_ENDS_RUN))
        return;
    struct piece *cap = implied_piece(resolve, run, PIECE_IMPLIED_CAP);
    cap->station = run->length;
    insert_piece(resolve->job->arena, run, run->pieces.count, cap);
}
