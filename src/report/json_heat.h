/* What passes through the walls of ducts, and what leaks, as data. */
#ifndef CLEAT_REPORT_JSON_HEAT_H
#define CLEAT_REPORT_JSON_HEAT_H

#include "model/job.h"
#include "report/json_stream.h"

/* Members of a section's object. */
void json_section_heat(struct json *json, json_t *object, const struct section *section);

/* The objects `heat` and `leakage` of a unit; nothing where they were not computed. */
void json_heat(struct json *json, const struct network *network);

#endif
