/* The words of the language for what a job may choose among, in one place: as choices behind a statement and as names
 * in messages and papers. */
#ifndef CLEAT_MODEL_WORDS_H
#define CLEAT_MODEL_WORDS_H

#include "model/job.h"

/* For the slots of forms; NULL-terminated. */
extern const char *const side_choices[];     /* from SIDE_LEFT on */
extern const char *const leg_choices[];      /* in the order of enum leg */
extern const char *const material_choices[]; /* both spellings of the trade: material_of_choice tells which is meant */
extern const char *const seal_choices[];     /* from SEAL_C on */
extern const char *const location_choices[]; /* in the order of enum location */
extern const char *const seam_words[];       /* in the order of enum seam_kind */
extern const char *const joint_words[];      /* in the order of enum joint_kind */
enum { GRAIN_ANY, GRAIN_LENGTHWISE };
extern const char *const grain_choices[];  /* how blanks lie on a sheet */
extern const char *const system_choices[]; /* in the order of enum measure_system */
extern const char *const paper_choices[];  /* from PAPER_IS_LETTER on */

enum material material_of_choice(int choice);

/* SIDE_NONE: NULL.  SEAL_NONE: "none". */
const char *side_name(enum side side);
const char *leg_name(enum leg leg);
const char *material_name(enum material material);
const char *seal_name(enum seal_class seal);
const char *location_name(enum location location);
const char *whereabouts_words(enum location location); /* "the crawl space" */
const char *seam_name(enum seam_kind seam);
const char *joint_name(enum joint_kind joint);
const char *system_name(enum measure_system system);

/* "R-8": insulation (m2 K/W) as the trade calls it, in jobs of either system. */
char *insulation_name(struct arena *arena, double resistance);

#endif
