/* The route as data. */
#ifndef CLEAT_REPORT_JSON_ROUTE_H
#define CLEAT_REPORT_JSON_ROUTE_H

#include "model/job.h"
#include "report/json_stream.h"

/* The member "route" of the job. */
void json_route(struct json *json, const struct job *job);

#endif
