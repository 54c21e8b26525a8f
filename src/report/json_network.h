/* A unit and all that the air sees of it, as data. */
#ifndef CLEAT_REPORT_JSON_NETWORK_H
#define CLEAT_REPORT_JSON_NETWORK_H

#include "model/job.h"
#include "report/json_stream.h"

void json_unit(struct json *json, const struct job *job, const struct air_unit *unit);

#endif
