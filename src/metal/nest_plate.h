/* A sheet being filled: a tree of cuts that can be undone branch by branch.  Internal to the solver of nests. */
#ifndef CLEAT_METAL_NEST_PLATE_H
#define CLEAT_METAL_NEST_PLATE_H

#include "metal/nest_solve.h"

enum { PLATE_NONE = -1 };

/* A region: a hole (nothing lies on it), a blank, or two regions parted by a cut. */
struct plate_node {
    nest_steps length, width;
    int32_t up, first, second; /* PLATE_NONE: there is none; `first` lies left of or below the cut */
    int32_t rectangle;         /* PLATE_NONE: no blank */
    int32_t hole;              /* its place among the holes; PLATE_NONE: it is none */
    bool across, turned, used;
};

struct plate_hole {
    nest_steps length, width;
    int32_t node;
};

struct plate {
    int32_t sheet; /* which kind; PLATE_NONE: it has not been taken from the rack */
    int32_t node_count, node_room, unused;
    int32_t hole_count, hole_room;
    int32_t blank_count;
    int64_t blank_area, largest_hole; /* steps2 */
    double value;                     /* the sum over its holes of hole_value */
    struct plate_node *nodes;         /* node 0: the whole sheet */
    struct plate_hole *holes;
};

typedef LIST(int32_t) rectangle_list; /* one entry a blank */

/* Where a blank may go. */
struct plate_spot {
    int32_t plate, hole;
    bool turned;
    bool across; /* the first cut runs across the sheet, beside the blank; else along it, above the blank */
    double score; /* the less the better */
};

/* What an empty region is worth: more than its parts would be. */
static inline double hole_value(double length, double width) {
    return length * width * (length * width);
}

static inline int64_t rectangle_area(const struct nest_rectangle *rectangle) {
    return (int64_t)rectangle->length * rectangle->width;
}

/* An empty sheet of that kind. */
void plate_start(struct arena *arena, struct plate *plate, int32_t sheet, const struct nest_sheet *kind);

/* Puts a blank into the lower left corner of a hole that it fits in. */
void plate_put(struct arena *arena, struct plate *plate, const struct nest_rectangle *rectangles, int32_t rectangle,
               struct plate_spot spot);

/* Empties a region, and the regions that it then becomes one with.  What lay there is added to `out`. */
void plate_clear(struct arena *arena, struct plate *plate, const struct nest_rectangle *rectangles, int32_t node,
                 rectangle_list *out);

/* Makes `to` equal to `from`; it keeps room of its own. */
void plate_copy(struct arena *arena, struct plate *to, const struct plate *from);

/* The tree as a layout, pushed together: every blank as far to the lower left as the cuts let it, what is empty
 * gathered in offcuts that are as large as can be.  Its nodes come in the order of cutting. */
void plate_layout(struct arena *arena, const struct plate *plate, const struct nest_problem *problem,
                  struct nest_layout *layout);

#endif
