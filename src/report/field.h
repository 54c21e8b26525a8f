/* The sections of the field packet, each written as one part of a document. */
#ifndef CLEAT_REPORT_FIELD_H
#define CLEAT_REPORT_FIELD_H

#include <stdbool.h>

#include "model/job.h"
#include "report/document.h"

/* field.c */
void field_title(const struct job *job, struct document *document);
void field_cautions(const struct job *job, struct document *document);
void field_basis(const struct job *job, struct document *document);

/* field_verify.c */
void field_verify(const struct job *job, struct document *document);

/* field_hanging.c */
void field_order(const struct job *job, struct document *document);
void field_bought(const struct job *job, struct document *document);
void field_covering(const struct job *job, struct document *document);

/* field_hangers.c */
struct hanger;
/* "two straps, 1 in wide, 22 ga". */
const char *hanger_words(struct arena *arena, enum measure_system system, const struct hanger *hanger);
void field_hangers(const struct job *job, struct document *document);
/* Straps, screws, sealant, tape and wrap, in one sum each. */
void field_used_up(const struct job *job, struct document *document);

/* field_heat.c */
bool field_has_temperatures(const struct job *job);
void field_leakage(const struct job *job, struct document *document);
void field_temperatures(const struct job *job, struct document *document);

/* field_start_up.c */
void field_balance(const struct job *job, struct document *document);
void field_pressure(const struct job *job, struct document *document);
void field_test_points(const struct job *job, struct document *document);
void field_checklist(const struct job *job, struct document *document);
void field_sign_off(const struct job *job, struct document *document);

#endif
