/* The drawings of the papers: a blank to scribe from, a fitting as it looks, what the outlets take. */
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

/* What `count` outlets of a unit take, from the `from`th on, of their design: bars with the dampers open, black marks
 * balanced. The unit has an operation with airflows.  From `arena`. */
struct figure *figure_flow(struct arena *arena, const struct job *job, const struct network *network, size_t from,
                           size_t count);

#endif
