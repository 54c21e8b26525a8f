/* Which of a blower's speeds a unit runs at. */
#ifndef CLEAT_SIZE_BLOWER_SPEED_H
#define CLEAT_SIZE_BLOWER_SPEED_H

#include "size/size.h"

/* Of a unit with several speeds and none asked for, takes the least that meets the budget when `method` sizes the ducts
 * for it; the greatest, when none does.  Fills what is known of each that was tried.  Diagnoses nothing. */
void choose_speed(struct job *job, struct network *network, const struct sizing_method *method);

/* What the job's own choice leaves, or the one that was taken: once the ducts are sized. */
void note_speed(struct network *network);

#endif
