/* The drawings of the shop packet: a blank to scribe from, a strip, and a fitting as it looks. */
#ifndef CLEAT_REPORT_FIGURES_H
#define CLEAT_REPORT_FIGURES_H

#include "draw/figure.h"
#include "metal/metal.h"

/* A blank of `part`, dimensioned: every mark from one edge, arcs with their radii and centres, other curves and
 * slanting bends by points with their distances from the left and the bottom edge.  From `arena`. */
struct figure *figure_pattern(struct arena *arena, const struct job *job, const struct part *part,
                              const struct blank *blank);

/* A strip as it lies flat, with its folds; `strips`, so many, differ in length only, the longest first.  From `arena`.
 */
struct figure *figure_strip(struct arena *arena, const struct job *job, size_t number, const struct made_strip *strips,
                            size_t count);

/* Where the eye stands, seen from the part: to the right of its near end (toward the unit), before it and above it. */
extern const struct space sketch_toward_eye;

/* The part put together, seen from there in parallel projection; hidden lines are left out, ports named.  From `arena`.
 */
struct figure *figure_sketch(struct arena *arena, const struct job *job, const struct part *part);

#endif
