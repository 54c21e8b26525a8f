/* Pieces whose loss was read at the end of its table. */
#include "check/checks.h"

/* The run that a warning about `item` is about: the one tapped in, when it is air that passes its tap. */
static const struct run *subject_of(const struct section *section, const struct item *item) {
    return item->role == ITEM_PAST ? item->tapped : section->run;
}

static void look_at_item(const struct look *look, const struct section *section, const struct item *item) {
    const struct loss *loss = &item->loss;
    if (!loss->reference_name)
        return;
    look->result->looked_at++;
    if (!loss->outside)
        return;
    const struct run *subject = subject_of(section, item);
    struct span at = item->piece->implied ? subject->from.at : item->piece->at;
    check_warn(look, at, subject->name,
               "this piece of %s lies outside the table its loss is read from (%s); the last value there, C %.3f, was "
               "taken, a loss of %s",
               subject->name, loss->outside, loss->coefficient, check_text(look->job, SHOW_PRESSURE, loss->pressure));
}

void check_table_range(struct job *job, const struct check *check, struct check_result *result) {
    struct look look = {job, check, result};
    check_each_item(&look, look_at_item);
}
