/* A price without the mark of any money: in a metric job nothing tells which is meant. */
#include "check/checks.h"
#include "cost/price.h"

void check_currency(const struct look *look) {
    const struct job *job = look->job;
    if (!job->price)
        return;
    look->result->looked_at = 1;
    if (job->currency || job->shop.currency || *job->price->currency.mark)
        return;
    struct diagnostic *said = check_warn(look, job->at, job->title, "the price names no currency");
    diagnostic_hint(job->diagnostics, said,
                    "currency \"EUR\", in the job or its shop; currency \"\" where none is meant");
}
