/* Rectangles out of stock sheets by cuts from edge to edge, as a shear makes them.  Knows nothing of jobs.
 *
 * Lengths are whole steps of 1/320 mm, in which 1/64 in (127 steps) and 1 mm are both exact, so that what fits is never a
 * question of rounding.  The shear takes no metal away (kerf 0) and sheets need no trimming (trim 0).  Equal input gives
 * equal output: effort is counted in steps of work, never by the clock.
 */
#ifndef CLEAT_METAL_NEST_SOLVE_H
#define CLEAT_METAL_NEST_SOLVE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/list.h"

typedef int32_t nest_steps;
enum { NEST_STEPS_PER_MM = 320 };

struct nest_rectangle {
    nest_steps length, width; /* over 0; along the sheet's length and across it, unless it is turned */
    size_t count;
    bool turns; /* may lie on the sheet turned by 90 degrees */
};

struct nest_sheet {
    nest_steps length, width; /* over 0 */
    int64_t cost;             /* of one, over 0, in any unit that is the same for all */
    size_t limit;             /* how many there are; 0: as many as are wanted */
};

struct nest_problem {
    const struct nest_rectangle *rectangles;
    size_t rectangle_count;
    const struct nest_sheet *sheets;
    size_t sheet_count;
    nest_steps keep_length, keep_width; /* an offcut at least so large, either way round, is kept; 0: none is */
    size_t effort;                      /* steps of work that improving may take; 0: none */
    uint64_t seed;                      /* of the random choices in improving */
};

enum nest_node_kind {
    NEST_CUT,     /* divided by one cut into two */
    NEST_BLANK,   /* a rectangle that was asked for */
    NEST_OFFCUT,  /* what is left over and too small to keep */
    NEST_KEPT     /* an offcut that is kept */
};

/* A region of a sheet, and what becomes of it.  x along the sheet's length, y across it, from its lower left corner. */
struct nest_node {
    enum nest_node_kind kind;
    nest_steps x, y, length, width;
    bool across;          /* NEST_CUT: the cut runs along y, at a distance from the left edge; else along x, from the lower */
    nest_steps at;        /* NEST_CUT: that distance, from the region's own edge */
    size_t first, second; /* NEST_CUT: the nodes left of (below) the cut and right of (above) it */
    size_t rectangle;     /* NEST_BLANK: which */
    bool turned;          /* NEST_BLANK: by 90 degrees */
};

/* A way to cut a sheet, used `times` times over.  Node 0 is the whole sheet; a node comes before its two halves, and the
 * order of the cuts among the nodes is the order that they are made in. */
struct nest_layout {
    size_t sheet, times;
    size_t blank_count, cut_count; /* on one sheet */
    int64_t blank_area;            /* steps2, on one */
    LIST(struct nest_node) nodes;
};

struct nest_solution {
    LIST(struct nest_layout) layouts; /* the fullest first */
    size_t *unplaced;                 /* how many of each rectangle lie on no sheet */
    size_t sheets;                    /* used in all */
    size_t *sheets_of;                /* of each kind */
    int64_t cost;
    int64_t sheet_area, blank_area, kept_area; /* steps2, in all */
    int64_t largest_offcut;                    /* steps2; kept or not */

    /* What no way of cutting can do better than (guillotine or not), for the rectangles that were placed. */
    size_t area_bound;     /* sheets, were metal as fluid: by area alone, all sheets as large as the largest */
    size_t sheet_bound;    /* sheets: the better of that and of dual feasible functions */
    int64_t cost_bound;    /* cost */
    size_t work;           /* steps of work done */
};

/* The solution from `arena`; what is used on the way, which is much more, from `scratch`. */
struct nest_solution *nest_solve(struct arena *arena, struct arena *scratch, const struct nest_problem *problem);

#endif
