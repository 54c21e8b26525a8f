/* Drawings of where the ducts run: plan, elevation, and a view of the whole. */
#ifndef CLEAT_REPORT_FIGURE_ROUTE_H
#define CLEAT_REPORT_FIGURE_ROUTE_H

#include "draw/figure.h"
#include "report/document.h"
#include "report/figure_outline.h"
#include "route/route.h"

/* What one drawing shows: a unit, or of a large one its trunks alone, or one trunk with what hangs from it. */
struct route_sheet {
    const struct air_unit *unit;
    const struct run *trunk; /* NULL: all runs */
    bool overview;           /* runs are named, outlets are not drawn */
};

typedef LIST(struct route_sheet) route_sheet_list;

/* How much is written on a drawing. */
enum route_detail {
    ROUTE_FOR_CUSTOMER, /* sizes, outlets and their airflow */
    ROUTE_FOR_FIELD     /* lengths and the numbers of the parts, too */
};

/* The plan is seen from above, north up.  The elevation is seen from the south or the east, whichever shows more.  The
 * view is seen from above in the south-east, in parallel projection. */
enum route_view { ROUTE_PLAN, ROUTE_ELEVATION, ROUTE_VIEW };

struct figure *figure_route(struct arena *arena, const struct job *job, const struct route_sheet *sheet,
                            enum route_view view, enum route_detail detail);

/* Whether a run is on the sheet. */
bool figure_route_on_sheet(const struct route_sheet *sheet, const struct run *run);

/* How many outlets and inlets hang from a run; with more than this it has no sheet of its own. */
enum { ROUTE_TAPPED_MOST = 60 };
size_t figure_route_terminals(const struct run *run);

/* Whether its sizes, lengths, parts and hangers are told there: of a trunk with a sheet of its own they are told on
 * that, and the sheet of all trunks has its name. */
bool figure_route_told_on_sheet(const struct route_sheet *sheet, const struct run *run);

/* ---- Parts of a drawing (figure_route_lines.c) ------------------------------------------------------------------- */

/* A drawing on its way. */
struct route_drawing {
    struct arena *arena;
    const struct job *job;
    const struct route_sheet *sheet;
    struct figure *figure;
    enum route_view view;
    enum route_detail detail;
    struct space right, up, eye; /* the view's axes; `eye` looks at the viewer */
    bool obstacles_cut;          /* of an obstacle not all is drawn */
    bool numbered;               /* numbers of parts stand on it */
    struct line_part *seen;      /* by index in route->stretches: what of its middle line nothing hides, or the longest
                                    of several parts; filled by route_in_order */
};

/* A stretch on the drawing. */
struct route_drawn {
    const struct stretch *stretch;
    double depth; /* of its middle, toward the viewer */
    size_t index; /* in route->stretches */
};

/* What comes by depth, in the order in which each hides what is behind it. */
struct route_drawn *figure_route_in_order(const struct route_drawing *drawing, const struct route_drawn *drawn,
                                          size_t count);

/* Which of the job's obstacles are drawn: those about the ducts, the nearest `most` at the most; `near` is how many
 * there are. */
bool *figure_route_obstacles(const struct route_drawing *drawing, const struct route_drawn *drawn, size_t count,
                             size_t *near, size_t *most);

/* The room about the ducts of a sheet that obstacles are drawn in. */
struct route_part {
    double low[3], high[3]; /* m */
    double size;            /* m: the greatest side of the ducts alone */
};

struct route_part figure_route_part(const struct route_drawn *drawn, size_t count);
/* What is drawn of an obstacle, and whether that is not all of it. */
void figure_route_part_of(const struct route_part *part, const struct obstacle *obstacle, double low[3],
                          double high[3]);
bool figure_route_part_cuts(const struct route_part *part, const struct obstacle *obstacle);

struct spot figure_route_spot(const struct route_drawing *drawing, struct space at);
struct outline figure_route_outline(const struct route_drawing *drawing, const struct stretch *stretch);
/* The unit, then its runs from the farthest stretch to the nearest, each hiding what is behind it; over all the
 * obstacles near them. */
void figure_route_lines(struct route_drawing *drawing);

/* Parts of that: the unit, named where no duct hides it; and the obstacles. */
void figure_route_unit(const struct route_drawing *drawing, const struct route_drawn *drawn, size_t count);
void figure_route_draw_obstacles(struct route_drawing *drawing, const struct route_drawn *drawn, size_t count);

/* A bar across the duct at the station of each hanger of the take-off, and in the key what they are made of; of what
 * the drawing hides too. */
void figure_route_hangers(struct route_drawing *drawing);

/* Numbers of parts, on a plan for the field.  Those of a trunk stand on its pieces; those of what is tapped in, by
 * run->id, go with its name. */
const char **figure_route_numbers(struct route_drawing *drawing);

/* ---- Sections (figure_route_papers.c) -----------------------------------------------------------------------------
 */

/* Whether anything is placed that could be drawn. */
bool figure_route_wanted(const struct job *job);

/* Of the bid: a plan of every sheet. */
void figure_route_plan(const struct job *job, struct document *document);

/* Of the field packet: every sheet in plan, elevation and view, with lengths and the numbers of the parts; and where
 * each register stands. */
void figure_route_drawings(const struct job *job, struct document *document);

#endif
