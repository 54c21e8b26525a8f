/* The sections of the office sheet, each written as one part of a document. */
#ifndef CLEAT_REPORT_OFFICE_H
#define CLEAT_REPORT_OFFICE_H

#include "cost/price.h"
#include "draw/figure.h"
#include "report/document.h"

void office_title(const struct job *job, struct document *document);
void office_build_up(const struct job *job, struct document *document);
void office_margin(const struct job *job, struct document *document);
void office_offers(const struct job *job, struct document *document);
void office_what_ifs(const struct job *job, struct document *document);
void office_takeoff(const struct job *job, struct document *document);
void office_counted(const struct job *job, struct document *document);
void office_labour(const struct job *job, struct document *document);
void office_assumed(const struct job *job, struct document *document);
void office_to_verify(const struct job *job, struct document *document);
void office_warnings(const struct job *job, struct document *document);
void office_basis(const struct job *job, struct document *document);

/* The take-off with its prices as comma-separated values. */
void office_takeoff_csv(const struct job *job, struct output *out);

/* ---- What several sections need ---------------------------------------------------------------------------------- */

/* Whether the job is priced, and whole. */
bool office_is_priced(const struct job *job);

/* An amount with the job's mark, and without it for a column whose head has it: "Amount, $". */
const char *office_money(const struct job *job, struct document *document, money sum);
const char *office_head(const struct job *job, struct document *document, const char *words);

/* So much of what a bill measures, in the job's units: "57.3 ft", "0.8 gallon", "12". */
const char *office_quantity(struct arena *arena, enum measure_system system, enum bill_measure measure, double si);
/* Likewise what is to be bought: up to the step, as it is when it is bought by that. */
const char *office_wanted(struct arena *arena, enum measure_system system, enum bill_measure measure, double si);

/* "Registers, grilles, filters". */
const char *office_group(enum bill_group group);

/* The bar of the build-up.  From `arena`. */
struct figure *figure_build_up(struct arena *arena, const struct job *job);

#endif
