/* What the files that hang duct share: a stretch of a run, and the places along it where its hangers may stand. */
#ifndef CLEAT_COST_HANG_H
#define CLEAT_COST_HANG_H

#include "cost/count.h"

/* A hanger stands in it. */
struct window {
    double low, high; /* m along the run */
    enum hanger_reason reason;
};

/* None stands between these: the opening of a tap, and what is kept clear beside it.  m along the run. */
struct kept_clear {
    double low, high;
};

/* Pieces first .. end - 1 of a run, which bear each other. */
struct stretch {
    const struct run *run;
    size_t first, end;
    double from, to;     /* m along the run */
    bool soft_start;     /* begins behind canvas or flexible duct */
    bool behind_upright; /* begins behind duct that goes up or down */
    bool ends_upright;   /* ends where duct goes up or down */
    bool face;           /* ends at a face, which is fastened to the building */
    bool goes_on;        /* ends where another run goes on, of no flexible duct */
    bool hung;           /* `last` is a hanger, of this run or the one it goes on from */
    double last;         /* m along the run: the support before; less than `from` when the run before has it */
    double spacing;      /* m */
    LIST(struct window) windows;
    LIST(struct kept_clear) clear; /* by `low`; none meets the next */
};

/* How a run ends, for the one that goes on from it. */
struct run_end {
    bool soft;    /* with flexible duct or canvas */
    bool upright; /* with duct that goes up or down */
    bool hung;    /* `since` is counted from a hanger */
    double since; /* m from its last support */
};

struct hanging {
    struct hanging_rules rules;
    struct takeoff *takeoff;
    const struct job *job;
    struct arena *arena;
    size_t tap; /* of the run: the first that no stretch before has passed */
};

/* Straps or a band; a saddle: hanger_straps.c. */
void hang_metal(struct hanger *hanger, const struct job *job, double spacing);
void hang_flex(struct hanger *hanger, const struct piece *piece, const struct job *job);

/* Of the duct behind a piece, or else before it, as its metal is. */
struct duct_size hung_size(const struct piece *piece);

/* ---- Along a stretch: hang_along.c ------------------------------------------------------------------------------- */

/* Keeps hangers off the opening of a tap into the stretch; taps come by station. */
void keep_clear(const struct hanging *hanging, struct stretch *stretch, const struct run *tapped);

/* As few hangers as its windows and the spacing ask for; in the order of their stations. */
void hang_along(const struct hanging *hanging, struct stretch *stretch);

/* One near its middle. */
void hang_middle(const struct hanging *hanging, struct stretch *stretch);

#endif
