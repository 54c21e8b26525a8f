#include "check/checks.h"
#include "size/limits.h"

static void look_at_face(const struct look *look, const struct piece *piece) {
    const struct run *run = piece->run;
    struct duct_size face = piece->kind->face(piece);
    if (!size_known(face) || !run->last_section)
        return;
    bool filter = piece->kind->traits & PIECE_FILTER;
    const struct velocity_guide *guide = face_guide(filter ? FACE_FILTER : FACE_GRILLE);
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

void check_return_area(struct job *job, const struct check *check, struct check_result *result) {
    struct look look = {job, check, result, NULL};
    for (size_t i = 0; i < job->runs.count; i++) {
        const struct run *run = job->runs.at[i];
        for (size_t k = 0; k < run->pieces.count; k++) {
            const struct piece *piece = run->pieces.at[k];
            if (piece->kind->face && piece->kind->traits & (PIECE_INLET | PIECE_FILTER))
                look_at_face(&look, piece);
        }
    }
}
