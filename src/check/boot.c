/* Registers and grilles on duct of another size, with nothing that joins the two. */
#include <math.h>

#include "base/constant.h"
#include "check/checks.h"

/* A face may differ so much from its duct, a side: the sizes of filters and grilles are nominal.  Common practice, no
 * source. */
static const double nominal = 1 * INCH + 1e-6;

static bool near(double a, double b) {
    return fabs(a - b) <= nominal;
}

static bool matches(struct duct_size duct, struct duct_size face) {
    if ((duct.shape == SHAPE_ROUND) != (face.shape == SHAPE_ROUND))
        return false;
    return (near(duct.width, face.width) && near(duct.height, face.height)) ||
           (near(duct.width, face.height) && near(duct.height, face.width));
}

/* Whether a boot or box stands between the face and the last duct before it: in its run, or where the run is only the
 * face, at the end of what it hangs from. */
static bool is_fitted(const struct run *run) {
    for (; run; run = run->from.kind == PORT_END ? run->parent : NULL)
        for (size_t i = run->pieces.count; i-- > 0;) {
            const struct piece *piece = run->pieces.at[i];
            if (piece->kind->traits & PIECE_FITS_FACE)
                return true;
            if ((piece->kind->traits & PIECE_LENGTH) || piece_resizes(piece))
                return false;
        }
    return false;
}

static void look_at_run(const struct look *look, const struct run *run) {
    if (run->faulty || !run->last_section || !run->face)
        return;
    struct duct_size face = run->face->kind->face(run->face);
    struct duct_size duct = run->last_section->duct->size;
    if (!size_known(duct) || !size_known(face))
        return;
    look->result->looked_at++;
    if (matches(duct, face) || is_fitted(run))
        return;
    struct diagnostic *said = check_warn(
        look, run->face->at, run->name, "no boot between the %s duct of %s and its %s %s: what it loses is not counted",
        check_size_text(look->job, duct), check_name(look, run), check_size_text(look->job, face),
        run->face->kind->form.word);
    diagnostic_hint(look->job->diagnostics, said, "boot");
}

void check_boot(const struct look *look) {
    for (size_t i = 0; i < look->job->runs.count; i++)
        look_at_run(look, look->job->runs.at[i]);
}

const char *boot_limit(struct arena *arena) {
    return arena_format(arena, "%s a side", check_both(arena, SHOW_SIZE, nominal));
}
