/* What there is to do, counted: the quantities that hours are multiplied with.  From the parts' uses and the runs'
 * pieces, so that a figure here is the figure of the cut list. */
#ifndef CLEAT_COST_LABOUR_COUNT_H
#define CLEAT_COST_LABOUR_COUNT_H

#include "metal/metal.h"
#include "model/job.h"

/* All work of one kind in one place: one `hours` statement of a shop, times one access factor. */
struct labour_count {
    const char *word;    /* as `hours` names it: the word of a kind of piece ("elbow", "flex", "register"), or "hanger",
                            "splice", "sealing", "wrapping", "lining" */
    const char *title;   /* "Elbow", "Hanger" */
    bool cut;            /* it is cut into lengths: its hours are for one of them */
    enum location place; /* where it is hung: for the access factor of field hours */
    bool high;           /* over the shop's reach: likewise */
    size_t pieces;       /* as they stand in the runs, implied ones among them, without changes that change nothing: "3
                            elbows"; hangers; splices; 0 for the others */
    size_t parts;   /* made in the shop for them that are duct: a straight of 12 ft has three, a flexible duct none */
    size_t ready;   /* likewise where they are not of sheet metal: bought, and only hung */
    size_t inserts; /* made besides, to lie within a duct: vanes, blades of dampers */
    double length;  /* m along the runs of what has a length; of "sealing" the joints and seams that are brushed */
    double area;    /* m2 of sheet that is cut, allowances included; of "wrapping" and "lining" what is covered */
    double weight;  /* kg, finished */
    double seam;    /* m of lengthwise and other seams of the parts, each counted once */
    size_t joints; /* connections that are closed in the field: at the near ends of the parts, at the bases of taps, and
                      at the ends of flexible duct and connectors */
};

/* How often the hours of `hours WORD` count: by the part where the kind is cut into lengths (a straight: "a joint"),
 * else by the piece or the hanger.  0 for what is counted by its length or area alone. */
size_t labour_times(const struct labour_count *count);

struct labour_counts {
    LIST(struct labour_count)
    lines; /* in the order of the table of pieces, then the others; places in their order; none
              is empty */
};

/* What job->metal and job->takeoff say; empty where there is no take-off.  Memory from `arena`. */
struct labour_counts labour_count(const struct job *job, struct arena *arena);

#endif
