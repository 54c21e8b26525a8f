#include "check/checks.h"
#include "size/limits.h"

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
    struct diagnostic *said = check_warn(
        look, worst->duct->at, run->name, "%s in %s: %s through %s is over %s, %s",
        check_text(look->job, SHOW_VELOCITY, worst->velocity), run->name, check_text(look->job, SHOW_FLOW, worst->flow),
        check_size_text(look->job, worst->duct->size), check_text(look->job, SHOW_VELOCITY, limit), whose);
    hint_size(look, said, worst, limit);
}

static void look_at_register(const struct look *look, const struct piece *piece) {
    const struct run *run = piece->run;
    struct duct_size face = piece->kind->face(piece);
    if (!size_known(face) || !run->last_section)
        return;
    const struct velocity_guide *guide = face_guide(FACE_REGISTER);
    double flow = run->last_section->flow, velocity = flow / size_area(face);
    look->result->looked_at++;
    if (!check_over(velocity, guide->limit))
        return;
    struct diagnostic *said =
        check_warn(look, piece->at, run->name, "%s at the face of %s: %s through %s is over %s, the limit for %s",
                   check_text(look->job, SHOW_VELOCITY, velocity), run->name, check_text(look->job, SHOW_FLOW, flow),
                   check_size_text(look->job, face), check_text(look->job, SHOW_VELOCITY, guide->limit), guide->name);
    diagnostic_hint(look->job->diagnostics, said, "a face of %s would do",
                    check_text(look->job, SHOW_AREA, flow / guide->limit));
}

void check_velocity(struct job *job, const struct check *check, struct check_result *result) {
    struct look look = {job, check, result, catalogue_make(job)};
    for (size_t i = 0; i < job->runs.count; i++) {
        const struct run *run = job->runs.at[i];
        look_at_run(&look, run);
        for (size_t k = 0; k < run->pieces.count; k++) {
            const struct piece *piece = run->pieces.at[k];
            if (piece->kind->traits & PIECE_OUTLET && piece->kind->face)
                look_at_register(&look, piece);
        }
    }
}
