/* What will really flow, as a section of the bid and of the field's packet. */
#ifndef CLEAT_REPORT_WHAT_FLOWS_H
#define CLEAT_REPORT_WHAT_FLOWS_H

#include "air/operation.h"
#include "report/document.h"

/* Whether there is anything to say. */
bool report_knows_what_flows(const struct job *job);

/* For every unit where blower and ducts meet, and what each outlet and inlet takes: designed, with the dampers open,
 * balanced; and how each damper has to stand for that. */
void report_what_flows(const struct job *job, struct document *document);

/* How a damper has to stand: "open 60", "wide open", "has none"; NULL: nothing to say. */
const char *report_damper_words(const struct document *document, const struct damper_setting *setting);

#endif
