/* Duct that is too flat. */
#include "check/checks.h"

static double aspect_of(const struct section *section) {
    struct duct_size size = section->duct->size;
    return size.shape != SHAPE_ROUND && size_known(size) ? size_aspect(size) : 0;
}

static void look_at_run(const struct look *look, const struct run *run) {
    const struct section *worst = check_worst(run, aspect_of);
    double limit = look->job->shop.aspect_limit;
    if (!worst)
        return;
    look->result->looked_at++;
    if (limit <= 0 || !check_over(aspect_of(worst), limit))
        return;
    const struct duct *duct = worst->duct;
    struct diagnostic *said =
        check_warn(look, duct->at, run->name, "%s in %s is %.1f to 1, flatter than %g to 1",
                   check_size_text(look->job, duct->size), check_name(look, run), size_aspect(duct->size), limit);
    struct size_need need = {.diameter = air_equivalent_diameter(duct->size)};
    struct duct_size size;
    if (check_larger(look, duct, &need, &size))
        diagnostic_hint(look->job->diagnostics, said, "%s carries as much", check_size_text(look->job, size));
}

void check_aspect(const struct look *look) {
    for (size_t i = 0; i < look->job->runs.count; i++)
        look_at_run(look, look->job->runs.at[i]);
}
