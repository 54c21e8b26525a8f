/* What a run inherits. */
#ifndef CLEAT_MODEL_INHERIT_H
#define CLEAT_MODEL_INHERIT_H

#include "model/piece.h"

/* Fills run->settings from its own words, the run it hangs from, the job, the shop and the tool's defaults (see
 * settings.h for the rule).  The parent must have been done. */
void settings_inherit(struct run *run, const struct job *job);

/* Whether an outlet or inlet is only a face on what it hangs from: it has no duct and no size of its own. */
bool run_is_face(const struct run *run);

#endif
