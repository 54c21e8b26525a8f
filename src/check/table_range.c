/* Pieces whose loss was read at the end of its table. */
#include <math.h>

#include "check/checks.h"
#include "model/item_words.h"

/* The run that a warning about `item` is about: the one tapped in, when it is air that passes its tap. */
static const struct run *subject_of(const struct section *section, const struct item *item) {
    return item->role == ITEM_PAST ? item->tapped : section->run;
}

static bool is_tap(const struct item *item) {
    return item->role == ITEM_BRANCH || item->role == ITEM_PAST;
}

/* What lies outside a table most often is a tap larger than its trunk: that is said in the trade's words. */
static const char *tap_words(const struct look *look, const struct run *tapped) {
    const struct duct *parent = tapped->first_section->parent->duct;
    struct duct_size size = tapped->first_duct->size, into = tapped_size(&tapped->from, parent->size);
    if (!tap_is_larger(tapped, size, parent->size))
        return NULL;
    return arena_format(look->job->arena, "the tap of %s, %s, is larger than the duct it is cut into, %s of %s",
                        check_name(look, tapped), check_size_text(look->job, size), check_size_text(look->job, into),
                        check_name(look, parent->run));
}

static const char *piece_of(const struct look *look, const struct section *section, const struct item *item) {
    return arena_format(look->job->arena, "%s (%s) is not a shape that its table knows",
                        item_words(section, item, look->job->system, look->job->arena), check_name(look, section->run));
}

/* Whether a tap's sizes only stand in, the trunk's or its own. */
static bool tap_stands_in(const struct look *look, const struct run *tapped) {
    return check_stands_in(look->job, tapped->first_section->parent->duct) ||
           check_stands_in(look->job, tapped->first_duct);
}

/* What is said of a tap is said once, where the air turns into it; of a tap that does not fit, tap-fit has spoken: it
 * stands before this check in the table. */
static void look_at_item(const struct look *look, const struct section *section, const struct item *item) {
    const struct loss *loss = &item->loss;
    const struct run *subject = subject_of(section, item);
    if (!loss->reference_name)
        return;
    look->result->looked_at++;
    if (!loss->outside || fabs(loss->pressure) < SHOWN_AS_NOTHING || (is_tap(item) && subject->tap_misfits))
        return;
    if (is_tap(item) && tap_stands_in(look, subject)) {
        check_pass_over(look, subject->name);
        return;
    }
    const char *words = is_tap(item) ? tap_words(look, subject) : NULL;
    if (words && item->role == ITEM_PAST)
        return;
    struct span at = item->piece->implied ? subject->from.at : item->piece->at;
    check_warn(look, at, subject->name, "%s; its loss of %s is an estimate (C held at %.3f, the end of the range: %s)",
               words ? words : piece_of(look, section, item), check_text(look->job, SHOW_PRESSURE, loss->pressure),
               loss->coefficient, loss->outside);
}

void check_table_range(const struct look *look) {
    check_each_item(look, look_at_item);
}
