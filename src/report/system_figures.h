/* Figures of the whole system, as sections of several packets have them. */
#ifndef CLEAT_REPORT_SYSTEM_FIGURES_H
#define CLEAT_REPORT_SYSTEM_FIGURES_H

#include "model/job.h"
#include "report/document.h"

/* Each writes the figures of every unit, in files numbered through the job; nothing where figures are left out. */
void system_tree(const struct job *job, struct document *document);
void system_pressure(const struct job *job, struct document *document);
void system_blower(const struct job *job, struct document *document);

/* Says that they are left out, where they are. */
void system_drawings_note(struct document *document);

/* Whether some unit has what they draw. */
bool system_has_network(const struct job *job);
bool system_has_path(const struct job *job);

#endif
