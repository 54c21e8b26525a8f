/* What hangs from what, as rows: the order of hanging, each run below what it hangs from. */
#ifndef CLEAT_REPORT_FIGURE_TREE_H
#define CLEAT_REPORT_FIGURE_TREE_H

#include "draw/figure.h"
#include "model/job.h"

/* Runs that hang deeper are drawn in line with those that hang so deep. */
enum { TREE_DEEPEST = 10 };

struct tree_row {
    int depth;              /* 0: a side of the unit */
    bool supply;            /* which side */
    const struct run *run;  /* NULL: the unit */
    const struct duct *duct; /* NULL: the unit, or a run without a size */
    bool goes_on;           /* the run has another size from here */
    double flow;            /* m3/s */
    bool costliest;         /* the costliest path of its side leads through it */
    unsigned lines, thick;  /* by bit: at which depths a line goes on below this row, and which of them are thick */
    bool clamped;           /* it hangs deeper than TREE_DEEPEST */
};

struct tree {
    const struct network *network;
    LIST(struct tree_row) rows;
};

/* Both sides of a network.  From `arena`. */
const struct tree *tree_of(struct arena *arena, const struct network *network);

/* In how many figures it is drawn, and one of them (from 0). */
size_t tree_pages(const struct tree *tree);
struct figure *figure_tree(struct arena *arena, const struct job *job, const struct tree *tree, size_t page);

#endif
