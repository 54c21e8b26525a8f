/* What the job gives only about, and what one step more of it does, as data. */
#ifndef CLEAT_REPORT_JSON_ESTIMATES_H
#define CLEAT_REPORT_JSON_ESTIMATES_H

#include "model/job.h"
#include "report/json_stream.h"

/* The member "estimates"; for the customer without effects, which have the price. */
void json_estimates(struct json *json, const struct job *job);

#endif
