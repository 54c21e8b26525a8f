/* A fitting as a solid: its exact surface in space, made of panels that can be laid flat, and its ports.
 *
 * Every panel is a plane or is rolled from flat sheet (a cylinder or a cone, right or oblique, cut by planes and
 * cylinders); its flat shape is had by exact laws, not by chords.  A panel's border is a loop of edges.  Each edge has
 * the same points twice: in space, and in the panel's own plane.  It is joined to the edge of another panel, or is open
 * at a port.
 *
 * Coordinates of a piece: the middle of its near port (toward the unit) is the origin; y goes along the duct away from
 * the unit, x to the right and z up, as you look that way.  Flat shapes are seen from the inside of the duct, and loops
 * go anticlockwise there, so that the bends of a plain duct come up, toward the eye.
 *
 * A builder fills a solid: solid_new, then panels and ports, then solid_close, which finds what each edge is joined to.
 * Lengths are m, angles rad.  All memory is the arena's.  A shape that cannot be is told by solid_fault; building goes
 * on harmlessly.
 */
#ifndef CLEAT_METAL_SOLID_H
#define CLEAT_METAL_SOLID_H

#include <stdbool.h>

#include "base/constant.h"
#include "base/list.h"
#include "base/measure.h"
#include "metal/vector.h"
#include "model/shape.h"

/* The greatest distance between a drawn curve and the true one: 1/64 in (common practice, no source). */
#define CHORD_LIMIT (INCH / 64)

/* Two points of one solid nearer than this are one: a hundredth of a micrometre. */
#define SAME_POINT 1e-8

/* Beside the struct of a shape, which holds nothing but doubles: equal ones have equal bytes. */
#define HOLDS_DOUBLES(type) _Static_assert(sizeof(type) % sizeof(double) == 0, "holds nothing but doubles")

/* ---- Where a thing stands ---------------------------------------------------------------------------------------- */

/* Axes are of length 1 and square to each other; right x along = up. */
struct frame {
    struct space origin, right, along, up;
};

/* The frame of the near port: the axes themselves. */
extern const struct frame frame_near;

struct space frame_point(const struct frame *frame, double right, double along, double up);
struct space frame_way(const struct frame *frame, double right, double along, double up); /* a direction */
struct frame frame_moved(const struct frame *frame, double right, double along, double up);
/* Rolled clockwise about `along`, as you look along it. */
struct frame frame_rolled(const struct frame *frame, double angle);
/* Turned left (`along` goes toward -right) about the line through `origin` that points up. */
struct frame frame_turned(const struct frame *frame, double angle);

/* ---- Edges, panels, ports ---------------------------------------------------------------------------------------- */

enum join {
    JOIN_BEND,   /* the sheet goes on, bent there */
    JOIN_SMOOTH, /* the sheet goes on without a bend */
    JOIN_SEAM,   /* locked or lapped to another edge */
    JOIN_PORT,   /* open: an end of the fitting; `port` says which */
    JOIN_FREE    /* meets nothing: a vane's edge, a plate's rim */
};

enum edge_shape { EDGE_LINE, EDGE_ARC, EDGE_CURVE };

enum { NO_PANEL = -1, NO_PORT = -1, NO_EDGE = -1 };

struct solid_edge {
    enum edge_shape shape; /* in the flat; what is a line there may be an arc in space */
    enum join join;
    int port;         /* of JOIN_PORT */
    bool pocket;      /* JOIN_SEAM: this side takes the pocket (the wider allowance), the other the flange */
    const char *name; /* what the edge is called on a pattern: "throat", "heel"; NULL: what it joins says enough */
    size_t count;     /* points: 2 for a line in space and flat, more for an arc or curve of either */
    struct space *space;
    struct flat *flat;
    struct flat centre;        /* EDGE_ARC, flat */
    double radius, sweep;      /* EDGE_ARC: > 0 anticlockwise about the centre */
    int mate_panel, mate_edge; /* by solid_close; NO_PANEL at ports and free edges */
};

enum panel_kind { PANEL_PLANE, PANEL_ROLLED };

/* An opening in a panel: for a tap, or for a duct in the end of a box. */
struct opening {
    size_t count;
    struct space *space;
    struct flat *flat; /* a closed loop; the first point is not repeated */
    bool round;        /* in the flat a circle about `middle`, of `radius` */
    struct flat middle;
    double radius;
    const char *name; /* "for desk, 8 in round"; NULL: none */
};

struct solid_panel {
    enum panel_kind kind;
    const char *name; /* "cheek", "heel", "top", "gore" */
    LIST(struct solid_edge) edges;
    LIST(struct opening) openings;
    /* PANEL_ROLLED: the rulings, straight in space and flat, near[i] to far[i]; count of them. */
    size_t rulings;
    struct space *near, *far;
    struct flat *near_flat, *far_flat;
    double chord_error; /* m: how far its drawn curves are from the true ones, at most */
};

enum port_use {
    PORT_USE_DUCT,  /* a joint with the next piece */
    PORT_USE_FACE,  /* a register, grille or filter sits there */
    PORT_USE_BASE,  /* of a tap: sits on the wall of the duct that it is cut into */
    PORT_USE_BRANCH /* a leg or collar, joined as a duct */
};

struct solid_port {
    enum port_use use;
    const char *name;   /* "toward the unit", "away from the unit", "left leg" */
    struct frame frame; /* `along` points out of the solid */
    struct duct_size size;
};

struct solid {
    struct arena *arena;
    LIST(struct solid_panel) panels;
    LIST(struct solid_port) ports;
    double fineness;            /* divisions of curves are multiplied by this; 1 by default */
    enum measure_system system; /* that hints are written in; MEASURE_US by default */
    const char *fault;          /* why the shape cannot be: "the crotch lies outside the body"; NULL: it can */
    const char *hint;           /* what would make it possible, as it can be typed in; NULL: none */
    LIST(const char *)
    notes; /* what the maker must know: "the left side is broken from ... to ..., its shorter diagonal" */
};

struct solid *solid_new(struct arena *arena, double fineness);

/* Says why the shape cannot be; the first reason stays. */
void solid_fault(struct solid *solid, const char *hint, const char *format, ...) __attribute__((format(printf, 3, 4)));
void solid_note(struct solid *solid, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* A new port; gives its index. */
int solid_port(struct solid *solid, enum port_use use, const char *name, const struct frame *frame,
               struct duct_size size);

/* How many parts an arc of `radius` and `sweep` is divided into so that its chords stay within CHORD_LIMIT; at least 2,
 * and 2 a quarter. */
size_t solid_divisions(const struct solid *solid, double radius, double sweep);

/* Finds the mate of every seam, bend and smooth edge: the edge with the same end points and middle, the other way
 * round.  A bend too sharp for a brake becomes a seam.  Faults the solid when one has none. */
void solid_close(struct solid *solid);

double panel_area(const struct solid_panel *panel); /* m2, without openings' area; of the flat shape */
double opening_area(const struct opening *opening); /* m2, flat */
double
edge_length(const struct solid_edge *edge); /* m, in the flat, along the drawn points; exact for lines and arcs */
double solid_chord_error(const struct solid *solid);

/* A bend too sharp for a brake becomes a seam.  Faults the solid unless the whole opening lies within its panel. */
void panel_holds(struct solid *solid, const struct solid_panel *panel, const struct opening *opening);

/* Angle that the sheet is bent by at a bend between two panels, rad: 0 flat on, PI/2 a square corner; > 0 when the far
 * part comes up toward the eye (the inside of the duct), < 0 when it goes down. */
double solid_bend(const struct solid *solid, int panel, int edge);

/* ---- Flat panels ------------------------------------------------------------------------------------------------- */

/* Begun with its first point; each edge goes on from where the last ended.  The loop goes anticlockwise seen from the
 * inside of the duct. plane_end closes it with an edge back to the first point when that is not where it is (as a
 * line), lays it flat and gives its index; a loop that is no plane (by more than a nanometre or a billionth of its
 * size) is a fault of the program. */
struct plane {
    struct solid *solid;
    struct solid_panel panel;
    struct space first, at;
};

/* What an edge is joined to, on its way to a panel. */
struct quad_edge {
    enum join join;
    int port;
    bool pocket;
};

struct plane plane_begin(struct solid *solid, const char *name, struct space first);
void plane_line(struct plane *plane, struct space to, enum join join, int port);
/* A line with its pocket; one of no length adds nothing and marks nothing. */
void plane_edge(struct plane *plane, struct space to, struct quad_edge edge);
/* An arc about the line through `centre` along `axis` (right hand), by `angle`. */
void plane_arc(struct plane *plane, struct space centre, struct space axis, double angle, enum join join, int port);
/* Any curve in the plane, through `count` points, the first being where it is. */
void plane_curve(struct plane *plane, const struct space *points, size_t count, enum join join, int port);
/* Of the edge added last, which there must be: behind an arc or curve of some length. */
void plane_pocket(struct plane *plane);
void plane_name(struct plane *plane, const char *name);
int plane_end(struct plane *plane, enum join join, int port);

/* Four corners that need not lie in one plane, in loop order; edge i goes from corner i to corner i + 1.  When twisted
 * it is broken along the better diagonal (the shorter; of two equal ones that with the smaller bend) into two
 * triangles, with a bend, and a note says so. Edges between corners that coincide are left out. */
void solid_quad(struct solid *solid, const char *name, const struct space corners[4], const struct quad_edge edges[4]);

/* An opening in a flat panel, by its points in space (a loop). */
void panel_opening(struct solid *solid, int panel, const struct space *points, size_t count, const char *name);

/* ---- Rolled panels ----------------------------------------------------------------------------------------------- */

/* centre + radius (cos t u + sin t v), t from `from` to `to` (either may be the greater); u and v of length 1 and
 * square to each other. */
struct arc {
    struct space centre, u, v;
    double radius, from, to;
};

enum cut_kind {
    CUT_ARC,      /* at the arc itself */
    CUT_PLANE,    /* where the ruling meets the plane through `point`, square to `way` */
    CUT_CYLINDER, /* where it meets the cylinder about the line through `point` along `way`, of `radius`: the first such
                     place, counted from the arc along the ruling */
    CUT_APEX      /* all rulings end in one point */
};
struct cut {
    enum cut_kind kind;
    struct space point, way;
    double radius;
};

/* Rulings start at the arc; all run along `way` (parallel, a cylinder) or through `apex` (a cone).  A ruling's points
 * near and far are where the cuts meet it.  The loop: near edge along t, ruling at `to`, far edge back, ruling at
 * `from`; an edge of no length is left out. */
struct roll {
    const char *name;
    struct arc arc;
    bool cone;
    struct space apex, way; /* apex of a cone; way of a cylinder, length 1, from near to far */
    struct cut near, far;
    size_t divisions;
    const double *places; /* t of each ruling, divisions + 1 of them from arc.from to arc.to; NULL: evenly spaced */
    enum join near_join, far_join, from_join, to_join;
    int near_port, far_port, from_port, to_port; /* where the join is JOIN_PORT */
    bool near_pocket, far_pocket, from_pocket, to_pocket;
};

/* Gives the panel's index.  The direction of t must be such that the loop goes anticlockwise seen from the inside.  A
 * ruling that misses a cut is a fault. */
int solid_roll(struct solid *solid, const struct roll *roll);

/* Where the line from `from` along `way` (length 1) meets a plane or cylinder; at CUT_ARC `from` itself.  False:
 * nowhere. */
bool cut_meets(const struct cut *cut, struct space from, struct space way, struct space *point);

/* The curve on which a cylinder meets rulings along `way` through the line from a to b, divided evenly round the
 * cylinder: how far it goes round, rad, and the point of the line at a share of that.  Rulings that miss the cylinder
 * count as if they touched it. */
double cut_sweep(const struct cut *cut, struct space a, struct space b, struct space way);
struct space cut_between(const struct cut *cut, struct space a, struct space b, struct space way, double share);

/* An opening in a rolled panel, cut by a straight tube: the tube's `points` (a loop in space) are moved along `way`
 * onto the panel's surface.  Each must meet it: else a fault. */
void roll_opening(struct solid *solid, int panel, const struct roll *roll, const struct space *points, size_t count,
                  struct space way, const char *name);

#endif
