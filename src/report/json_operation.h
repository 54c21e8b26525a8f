/* What will really flow, as data. */
#ifndef CLEAT_REPORT_JSON_OPERATION_H
#define CLEAT_REPORT_JSON_OPERATION_H

#include "model/job.h"
#include "report/json_stream.h"

/* The unit's operating points and how its dampers stand, as "operation"; null when there is none. */
void json_operation(struct json *json, const struct network *network);

#endif
