/* What will really flow, as a section of the bid and of the field's packet. */
#ifndef CLEAT_REPORT_EXPECTED_H
#define CLEAT_REPORT_EXPECTED_H

#include "model/job.h"
#include "report/document.h"

/* Whether there is anything to say. */
bool report_has_expected(const struct job *job);

/* For every unit where blower and ducts meet, and what each outlet and inlet takes: designed, with the dampers open,
 * balanced; and how each damper has to stand for that. */
void report_expected(const struct job *job, struct document *document);

#endif
