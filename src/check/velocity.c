/* Air velocity in ducts and at register faces. */
#include "check/checks.h"

/* A collar or a split's leg that a transition leaves at once is a place, not a duct.  What a limit keeps too small has
 * been diagnosed when it was sized. */
static double velocity_of(const struct section *section) {
    const struct duct *duct = section->duct;
    bool place = duct->length <= 0 && (duct->reason == SIZE_COLLAR || duct->reason == SIZE_SPLIT);
    return place || duct->reason == SIZE_LIMITED ? 0 : section->velocity;
}

/* Where the duct is the job's to choose, the size that would do. */
static void hint_size(const struct look *look, struct diagnostic *said, const struct section *section, double limit) {
    struct size_need need = {.area = section->flow / limit};
    struct duct_size size;
    if (check_larger(look, section->duct, &need, &size))
        diagnostic_hint(look->job->diagnostics, said, "%s would bring it to %s", check_size_text(look->job, size),
                        check_text(look->job, SHOW_VELOCITY, section->flow / size_area(size)));
}

static void look_at_run(const struct look *look, const struct run *run) {
    const struct section *worst = check_worst(run, velocity_of);
    if (!worst)
        return;
    double limit = velocity_limit(run);
    look->result->looked_at++;
    if (!check_over(worst->velocity, limit))
        return;
    const char *whose = run->settings.limit_velocity > 0
                            ? "the run's own limit"
                            : arena_format(look->job->arena, "the limit for %s", duct_guide(duct_use_of(run))->name);
    struct diagnostic *said =
        check_warn(look, worst->duct->at, run->name, "%s in %s: %s through %s is over %s, %s",
                   check_text(look->job, SHOW_VELOCITY, worst->velocity), check_name(look, run),
                   check_text(look->job, SHOW_FLOW, worst->flow), check_size_text(look->job, worst->duct->size),
                   check_text(look->job, SHOW_VELOCITY, limit), whose);
    hint_size(look, said, worst, limit);
}

void check_velocity(const struct look *look) {
    for (size_t i = 0; i < look->job->runs.count; i++) {
        const struct run *run = look->job->runs.at[i];
        look_at_run(look, run);
        for (size_t k = 0; k < run->pieces.count; k++) {
            const struct piece *piece = run->pieces.at[k];
            if (piece->kind->traits & PIECE_OUTLET && piece->kind->face)
                check_face(look, piece, FACE_REGISTER);
        }
    }
}

/* "900 fpm (4.57 m/s) in a supply trunk, ..." */
const char *velocity_limits(struct arena *arena) {
    const char *words = "the run's own limit; else";
    for (int use = 0; use < DUCT_USE_COUNT; use++) {
        const struct velocity_guide *guide = duct_guide((enum duct_use)use);
        words = arena_format(arena, "%s %s in %s,", words, check_both(arena, SHOW_VELOCITY, guide->limit), guide->name);
    }
    const struct velocity_guide *face = face_guide(FACE_REGISTER);
    return arena_format(arena, "%s %s at the face of %s", words, check_both(arena, SHOW_VELOCITY, face->limit),
                        face->name);
}
