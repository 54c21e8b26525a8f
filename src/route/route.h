/* Where everything is in space.  Filled by route_place from the sized job.
 *
 * x goes east, y north, z up, in metres.  A unit's supply collar stands at its `at` and looks the way that it `faces`;
 * one that says nothing stands at the origin and looks east, and its route is good only for what is measured between
 * its own runs.  The return collar stands where `return ... at` says, else opposite, as far behind the supply as
 * route_cabinet().
 *
 * A frame (metal/solid.h) stands in the middle of the duct: `along` away from the unit, `right` and `up` as you look
 * that way.  A duct that goes level has its `up` up.  Where it turns, its axes turn with it; what comes to go level out
 * of duct that did not has its top up again, but for rectangular and oval duct that stands on its edge.  What is tapped
 * in at the left or right keeps the parent's `up`, at the top or bottom it begins as an elbow up or down would.
 */
#ifndef CLEAT_ROUTE_ROUTE_H
#define CLEAT_ROUTE_ROUTE_H

#include "metal/shape.h"
#include "model/job.h"

/* A part of a piece that has no bend in it: what lies between a section at each end.  A bend is several. */
struct stretch {
    struct frame near, far;
    struct duct_size from, to; /* inside sizes; unknown: nothing is there */
    double begins, ends;       /* m of the way along the run's middle line, from the run's beginning */
    double around;             /* m that stands out round it: insulation, or joints where those stand out farther */
    size_t piece;              /* index in route->pieces */
};

/* A piece of a run in its place. */
struct placed_piece {
    const struct piece *piece;
    const struct run *run;
    struct frame near, far;
    double begins, ends; /* as of a stretch */
    size_t first, count; /* of its stretches */
    bool free;           /* flexible duct, and all that hangs behind it: it is led where there is room */
    bool positioned;     /* its place in the building is known, not only its place beside its own unit's runs */
};

struct placed_run {
    const struct run *run; /* NULL: the run is faulty, or hangs from nothing that is placed */
    size_t first, count;   /* of its pieces; the implied `connect` first */
    struct frame begin, end;
    struct space behind; /* of a tap or leg: the way of the duct that it leaves; else nothing */
    bool free, positioned;
    size_t unit;                  /* index in job->units */
    double length;                /* m along its middle line, as made */
    struct duct_size face;        /* of its register, grille or filter as it hangs: the width along end.right */
    struct frame legs[LEG_COUNT]; /* where the legs of its split begin */
    bool has_leg[LEG_COUNT];
    double tap_station; /* m along the parent's middle line, where it is tapped in; 0: it is not */
};

/* What a unit takes up between its collars, as it is drawn; of a unit that air passes straight through. */
struct cabinet {
    const struct air_unit *unit;
    struct obstacle box;
    bool positioned;
    double apart; /* route_apart() of its runs */
};

/* An obstacle that stands in a unit's cabinet. */
struct inside {
    const struct air_unit *unit;
    const struct obstacle *obstacle;
    struct space at;
    double overlap; /* m */
};

/* An offset that is told: offset_line of piece/offset.h is the line to write. */
struct offset_told {
    bool found;
    enum way way;
    double aside, along; /* m */
};

/* Two things nearer to each other than they may be: one for each pair of a run with an obstacle or another run, where
 * they are nearest. */
struct clash {
    const struct run *run;
    const struct run *other;         /* NULL: `obstacle` */
    const struct obstacle *obstacle; /* or a unit's cabinet; NULL: `other` */
    const struct piece *piece, *other_piece;
    size_t stretch, other_stretch; /* in the route where their runs were laid last */
    struct space at;               /* about where */
    double apart;                  /* m between their outsides; 0: they meet */
    double overlap;                /* m that one must move by, at least; 0: they do not meet */
    double clearance;              /* m that was asked for */
    struct offset_told offset;     /* clears it */
    const struct piece *before;    /* what its line stands before */
    const struct run *with;  /* the offset is told for another clash, of this run, and clears this one too; or NULL */
    const struct run *moved; /* the run whose tap, moved to `station`, clears it; NULL: none was found */
    double station;          /* m */
    bool keeps;              /* of one that `with` tells of: that run's tap, put at its station, does not clear this */
    const struct piece *shortened; /* the last straight of a run of the two, which clears it at `length`; or NULL */
    double length;                 /* m */
};

/* A change to try: an offset put into a run, a tap moved along its parent, or the last straight of a run made shorter.
 */
struct detour {
    const struct run *run;
    size_t before;      /* index of the piece that it is put before; of one that is made shorter, its own */
    double less;        /* m that this is shorter; 0: none is */
    double right, up;   /* m aside */
    double along;       /* m on */
    struct space shift; /* m, of a moved tap; `before` is then past all pieces */
    double on;          /* m, likewise: along the parent */
};

struct route {
    LIST(struct stretch) stretches;   /* by piece */
    LIST(struct placed_piece) pieces; /* by run, in hanging order */
    struct placed_run *runs;          /* by run->id, of the base job */
    LIST(struct clash) clashes;       /* in file order of their runs, then of the others, then of the obstacles */
    LIST(struct cabinet) cabinets;    /* in the order of job->units */
    LIST(struct inside) inside;       /* by cabinet */
    size_t pairs;                     /* pairs of near things that were measured */
    bool cut_short;                   /* there were more clashes than anybody reads, and the search ended */
};

/* Fills job->route; the pass. */
void route_place(struct job *job);

/* ---- Parts of the pass ------------------------------------------------------------------------------------------- */

/* Places every piece.  From `arena`. */
struct route *route_lay(struct arena *arena, const struct job *job);

/* Places the run of a detour, and what hangs from it, again; other runs have no place in the result. */
struct route *route_lay_again(struct arena *arena, const struct job *job, const struct route *route,
                              const struct detour *detour);

/* Fills the cabinets of a route that is job->route, and what stands in them. */
void route_cabinets(struct arena *arena, const struct job *job, struct route *route);

struct box_tree; /* route/box_tree.h */

/* What may be met: the obstacles, and the stretches that are not free. */
struct box_tree *route_tree(struct arena *arena, const struct job *job, const struct route *route);

/* Finds the clashes of a route that is laid, without their offsets. */
void route_clashes(struct arena *arena, const struct job *job, struct route *route);

/* The same for runs that were laid again, among themselves and with the runs of `route` that were not. */
void route_clashes_again(struct arena *arena, const struct job *job, struct route *again, const struct route *route,
                         const struct box_tree *tree);

/* Finds the smallest gentle offset that clears each clash, makes no other and none worse, by laying the route again
 * with it. */
void route_clear(const struct job *job, struct route *route);

/* ---- Rules ------------------------------------------------------------------------------------------------------- */

/* Metal is hung to an eighth of an inch: being too near by less than this is not told, and overlapping by less counts
 * as touching.  m.  Common practice, no source. */
extern const double route_slack;

/* Whether duct that goes that way, a vector of length 1, is level. */
bool route_level(struct space along);

/* How far behind its supply collar the return collar of a unit stands that does not say: m.  Common practice, no
 * source. */
double route_cabinet(void);

/* What stands out round the duct of a run, along a piece (NULL: along its duct): insulation as it is hung, flexible
 * duct as it comes; or joints where those stand out farther. */
double route_around(const struct run *run, const struct piece *piece, struct duct_size size);

/* ---- For drawings and checks ------------------------------------------------------------------------------------- */

/* NULL: it has no place. */
const struct placed_run *route_of(const struct job *job, const struct run *run);

/* A place on the middle line of a run: the axes of its duct there, and its inside size. */
struct route_point {
    struct frame frame;
    struct duct_size size;
};

/* The place of a station, m along the run as its pieces count; of what has no length of its own (an elbow) the far end.
 * False: the run has no place. */
bool route_at(const struct job *job, const struct run *run, double station, struct route_point *point);

/* What stands between a unit's collars, as large as the greater of them and a little more.  False: its supply has no
 * place. */
bool route_cabinet_box(const struct job *job, const struct air_unit *unit, struct stretch *box);

/* The lowest point of a stretch, what stands out round it included: m. */
double stretch_lowest(const struct stretch *stretch);

/* The level that no duct of a run may hang under, m: its floor and the headroom over it.  -INFINITY: none is asked, or
 * its place in the building is not known. */
double route_headroom(const struct placed_run *placed);

/* The lowest stretch of a run that is hung where it is drawn, and its `level`, m.  NULL: there is none. */
const struct stretch *route_lowest(const struct route *route, const struct placed_run *placed, double *level);

/* Units without a position all stand at the origin: in a tree of boxes they are set so far apart, eastward, that they
 * do not meet.  m. */
double route_apart(const struct placed_run *run);

/* Where the air of an outlet or inlet enters or leaves the room. */
struct space route_face(const struct placed_run *placed);

#endif
