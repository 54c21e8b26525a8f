/* Changes as the lines that are written for them, and where. */
#ifndef CLEAT_CHECK_BUDGET_LINES_H
#define CLEAT_CHECK_BUDGET_LINES_H

#include "check/budget_changes.h"
#include "model/retype.h"

/* The whole statement of one word whose only argument stands at `at`; false: another word stands before it. */
bool budget_statement(struct span at, const char *word, struct span *statement);

/* What is written where; false: no line of the job says what it changes. */
bool change_edit(const struct bench *bench, const struct change *change, struct line_edit *edit);

/* "write 'size 12' in o4, in place of 10 in round": the line as a whole, with the edit made. */
const char *change_words(const struct bench *bench, const struct change *change);

#endif
