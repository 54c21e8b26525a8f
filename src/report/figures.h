/* Drawings of a part: a blank to scribe from, and a fitting as it looks; and of a unit's blower against its system. */
#ifndef CLEAT_REPORT_FIGURES_H
#define CLEAT_REPORT_FIGURES_H

#include "draw/figure.h"
#include "metal/metal.h"

/* A blank of `part`, dimensioned: every mark from one edge, arcs with their radii and centres, other curves and
 * slanting bends by points with their distances from the left and the bottom edge.  From `arena`. */
struct figure *figure_pattern(struct arena *arena, const struct job *job, const struct part *part,
                              const struct blank *blank);

/* Where the eye stands, seen from the part: to the right of its near end (toward the unit), before it and above it. */
extern const struct space sketch_toward_eye;

/* The part put together, seen from there in parallel projection; hidden lines are left out, ports named.  From `arena`.
 */
struct figure *figure_sketch(struct arena *arena, const struct job *job, const struct part *part);

/* The blower's pressure over the airflow, what ducts and unit take, and the design point, of a network whose blower is
 * known.  From `arena`. */
struct figure *figure_blower(struct arena *arena, const struct job *job, const struct network *network);

#endif
