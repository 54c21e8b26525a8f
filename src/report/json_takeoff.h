/* What is bought, what is closed in the field and what the duct hangs by, in the JSON. */
#ifndef CLEAT_REPORT_JSON_TAKEOFF_H
#define CLEAT_REPORT_JSON_TAKEOFF_H

#include "model/job.h"
#include "report/json_stream.h"

/* The member "takeoff"; its lists are empty when nothing could be laid out. */
void json_takeoff(struct json *json, const struct job *job);

#endif
