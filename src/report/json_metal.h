/* What the shop makes, in the JSON. */
#ifndef CLEAT_REPORT_JSON_METAL_H
#define CLEAT_REPORT_JSON_METAL_H

#include "model/job.h"
#include "report/json_stream.h"

/* The member "metal"; its lists are empty when nothing could be laid out. */
void json_metal(struct json *json, const struct job *job);

/* "nest", the same way. */
void json_nest(struct json *json, const struct job *job);

#endif
