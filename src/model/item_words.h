/* What messages and papers call pieces, items and sizes. */
#ifndef CLEAT_MODEL_ITEM_WORDS_H
#define CLEAT_MODEL_ITEM_WORDS_H

#include "model/piece.h"

/* "Elbow, 90 left, radius 1.0"; one that the job does not write ends in "(assumed)". */
const char *piece_words(const struct piece *piece, enum measure_system system, struct arena *arena);

/* The piece as the air meets it: "Past the tap of glaze_room", "Split, wye: left leg". */
const char *item_words(const struct section *section, const struct item *item, enum measure_system system,
                       struct arena *arena);

/* Whether it is only where one run ends and another of its size goes on. */
bool item_is_nothing(const struct item *item);

/* "branch", "past": stable names for data. */
const char *item_role_name(enum item_role role);

/* "the friction rate"; for data "friction". */
const char *size_reason_words(enum size_reason reason);
const char *size_reason_name(enum size_reason reason);

/* "IDELCHIK_BEND": a source's stable name for data. */
const char *source_name(enum source_id id);

#endif
