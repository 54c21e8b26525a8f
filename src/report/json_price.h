/* Prices in the JSON: the member "price", and what alternates come to. */
#ifndef CLEAT_REPORT_JSON_PRICE_H
#define CLEAT_REPORT_JSON_PRICE_H

#include "model/job.h"
#include "report/json_stream.h"

/* The member "price"; without sums, its lists empty, when the job is not priced. */
void json_price(struct json *json, const struct job *job);

/* What an alternate changes, into its own object. */
void json_offer(struct json *json, json_t *object, const struct alternate *alternate);

#endif
