/* The drawings of the shop packet: a blank to scribe from, a strip, a sheet as it is cut, a fitting as it looks; and of
 * a unit's blower against its system. */
#ifndef CLEAT_REPORT_FIGURES_H
#define CLEAT_REPORT_FIGURES_H

#include "draw/figure.h"
#include "metal/metal.h"

/* A blank of `part`, dimensioned: every mark from one edge, arcs with their radii and centres, other curves and
 * slanting bends by points with their distances from the left and the bottom edge.  From `arena`. */
struct figure *figure_pattern(struct arena *arena, const struct job *job, const struct part *part,
                              const struct blank *blank);

/* What an opening is set out by: "opening 12 x 8 in, its centre 25-1/4 from the left edge and 14 from the upper". */
const char *opening_words(struct arena *arena, enum measure_system system, const struct blank *blank,
                          const struct blank_opening *opening);

/* A sheet as it is cut, with the cuts in their order.  From `arena`; `title` must live as long. */
struct nest_group;
struct nest_layout;
struct figure *figure_nest(struct arena *arena, const struct job *job, const struct nest_group *group,
                           const struct nest_layout *layout, const char *title);

/* A strip as it lies flat, with its folds; `strips`, so many, differ in length only, the
 * longest first.  From `arena`. */
struct figure *figure_strip(struct arena *arena, const struct job *job, size_t number, const struct made_strip *strips,
                            size_t count);

/* Where the eye stands, seen from the part: to the right of its near end (toward the unit), before it and above it. */
extern const struct space sketch_toward_eye;

/* The part put together, seen from there in parallel projection; hidden lines are left out,
 * ports named.  From `arena`. */
struct figure *figure_sketch(struct arena *arena, const struct job *job, const struct part *part);

/* The blower's pressure over the airflow, what ducts and unit take, and the design point, of a network whose blower is
 * known.  From `arena`. */
struct figure *figure_blower(struct arena *arena, const struct job *job, const struct network *network);
/* What `count` outlets of a unit take, from the `from`th on, of their design: bars with the dampers open, black marks
 * balanced. The unit has an operation with airflows.  From `arena`. */
struct figure *figure_flow(struct arena *arena, const struct job *job, const struct network *network, size_t from,
                           size_t count);

#endif
