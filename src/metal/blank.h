/* Blanks: the panels of a solid that are bent from one sheet, laid flat together, with the allowances of seams and
 * ends.
 *
 * Seen from the inside of the duct; x and y from the lower left corner of the cut outline (with allowances), m.
 */
#ifndef CLEAT_METAL_BLANK_H
#define CLEAT_METAL_BLANK_H

#include "metal/solid.h"

enum allowance_kind {
    ALLOW_NONE,   /* cut at the net line */
    ALLOW_POCKET, /* of a seam, the side with the pocket */
    ALLOW_FLANGE, /* of a seam, the other side */
    ALLOW_END,    /* of a joint: left flat and raw (S lip, crimp, collar) */
    ALLOW_TURNED, /* of a joint: turned back (drive) */
    ALLOW_FACE,   /* the flange that a register sits on */
    ALLOW_TABS    /* slit into tabs, to hold in the wall of another duct */
};

/* Which way an allowance goes from the sheet as it lies, its inside up. */
enum allowance_turn {
    TURN_FLAT, /* it stays in the sheet: a lip, a lap, a crimp */
    TURN_IN,   /* up, toward the eye */
    TURN_OUT   /* down, away from it */
};

/* One edge of the net outline, in order round the blank. */
struct blank_edge {
    enum edge_shape shape;
    size_t count;
    struct flat *points; /* from the end of the edge before to the beginning of the next */
    struct flat centre;
    double radius, sweep; /* EDGE_ARC */
    int panel, edge;      /* of the solid */
    enum join join;
    int port;
    enum allowance_kind kind;
    double allowance; /* m, outward */
    enum allowance_turn turn;
    double start_cut, end_cut; /* m by which the allowance is shortened at its ends: the notch, along the edge */
    double notch_depth;        /* m from the outer line of the allowance inward, at most all of it; of both notches */
    bool slit;                 /* snipped at its end, where a bend takes it and what stands on the next edge apart */
    bool notch_vee;            /* cut aslant, to nothing at the corner; else square */
    const char *label;         /* "pocket 1 in", "S, 1/2 in": what the shop reads there */
};

struct blank_bend {
    struct flat from, to; /* its line */
    double angle;         /* rad; > 0 up, toward the eye */
    const char *name;     /* what lies behind it: NULL or a panel's name */
};

struct blank_opening {
    size_t count;
    struct flat *points;
    bool round;
    struct flat middle;
    double radius;
    const char *name;
};

/* A snip: from the outline to cut in to the net outline, so that what stands on either side of it can be turned. */
struct blank_relief {
    struct flat from, to;
};

struct blank_panel {
    int panel;
    struct flat origin; /* the panel's own flat (0, 0) */
    double turn;        /* rad: blank = origin + turned(flat) */
};

/* A ruling to roll or bend slightly along: drawn thin. */
struct blank_ruling {
    struct flat from, to;
};

/* A line across a blank whose bends are all parallel, where it is marked, m from the one edge that all marks are
 * measured from. */
enum blank_mark_kind { LINE_SEAM, LINE_BEND };
struct blank_mark {
    double at;
    enum blank_mark_kind kind; /* where a seam's allowance begins or ends; a bend */
    double angle;              /* rad, of a bend */
};

struct blank {
    const char *letter; /* "A" */
    const char *name;   /* "cheek"; of unlike panels "wrap" or "half" */
    LIST(struct blank_panel) panels;
    LIST(struct blank_edge) edges; /* the net outline, one loop, anticlockwise */
    LIST(struct blank_bend) bends;
    LIST(struct blank_opening) openings;
    LIST(struct blank_ruling) rulings;
    LIST(struct blank_relief) reliefs; /* by blank_cut */
    LIST(struct blank_mark)
    marks; /* ascending, from the pocket's edge where there is one; none when its bends are not all parallel */
    bool marks_from_right; /* of the settled blank: measured from its right or upper edge, not its left or lower one */
    bool marks_upward;     /* the marks run across: distances are along y */
    size_t cut_count;
    struct flat *cut;     /* outline to cut: a closed loop, anticlockwise, first point not repeated */
    double width, height; /* of the cut outline's box, turned so that it is least when that helps (see blank_settle) */
    double net_area, cut_area; /* m2, without openings */
    size_t quantity;           /* alike in one part, of either hand */
    size_t opposite;           /* how many of them are of the opposite hand: turned over before bending */
};

/* The blanks of a closed solid, in the order of their first panels, each laid flat; without allowances yet (kind
 * ALLOW_NONE, allowance 0). `deduction`, m, is taken off at each bend of 90 degrees, half before the bend line and half
 * behind it, and in proportion at others: the one place where the thickness of the sheet comes in. */
typedef LIST(struct blank) blank_list;
void solid_blanks(const struct solid *solid, double deduction, blank_list *blanks);

/* m, along its points. */
double blank_edge_length(const struct blank_edge *edge);

/* Makes the cut outline from the edges' allowances, and the snips in it.  False: an allowance does not fit (it is wider
 * than what it stands on, or the outline would cross itself); *why says so. */
bool blank_cut(struct blank *blank, struct arena *arena, const char **why);

/* Turns the blank so that its box is smallest (along its longest edge), and moves it to the lower left corner. */
void blank_settle(struct blank *blank);

/* Finds the marks of a settled blank. */
void blank_mark(struct blank *blank, struct arena *arena);

/* Folds alike blanks of one part into one with a quantity; names them A, B, ... */
void blanks_batch(blank_list *blanks, struct arena *arena);

/* Whether two lines cross: each has the ends of the other on either side of it, by more than rounding. */
bool lines_cross(struct flat a, struct flat b, struct flat c, struct flat d);

/* Whether a loop of points crosses itself. */
bool loop_crosses(const struct flat *points, size_t count, struct arena *arena);

#endif
