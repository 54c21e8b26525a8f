/* How much flexible duct a run has. */
#include "base/constant.h"
#include "check/checks.h"

/* 14 ft: common practice, no source. */
static const double longest = 14 * FOOT;

static void look_at_run(const struct look *look, const struct run *run) {
    const struct piece *first = NULL;
    double length = 0;
    for (size_t i = 0; i < run->pieces.count; i++) {
        const struct piece *piece = run->pieces.at[i];
        if (!(piece->kind->traits & PIECE_FLEXIBLE))
            continue;
        first = first ? first : piece;
        length += piece->length;
    }
    if (!first)
        return;
    look->result->looked_at++;
    if (!check_over(length, longest))
        return;
    struct diagnostic *said = check_warn(look, first->at, run->name, "%s of flexible duct in %s is more than %s",
                                         check_text(look->job, SHOW_RUN, length), check_name(look, run),
                                         check_text(look->job, SHOW_RUN, longest));
    diagnostic_hint(look->job->diagnostics, said, "hang the first %s as straight duct",
                    check_text_up(look->job, SHOW_RUN, length - longest));
}

void check_flex_length(const struct look *look) {
    for (size_t i = 0; i < look->job->runs.count; i++)
        look_at_run(look, look->job->runs.at[i]);
}

const char *flex_length_limit(struct arena *arena) {
    return arena_format(arena, "%s in a run", check_both(arena, SHOW_RUN, longest));
}
