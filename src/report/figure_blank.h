/* Inside of the drawing of a blank: what its files share.  Each adds one kind of thing to the figure. */
#ifndef CLEAT_REPORT_FIGURE_BLANK_H
#define CLEAT_REPORT_FIGURE_BLANK_H

#include "report/figure_stations.h"
#include "report/figures.h"

/* Two marks nearer than this are one. */
static const double same_mark = 1e-4; /* m */

/* Nor does a point so near to the one before it help the hand that scribes. */
static const double same_point = INCH / 8; /* m */

/* Where an outline turns by less than this it is a curve. */
static const double curve_turn = 0.15; /* rad */

struct pattern {
    struct arena *arena;
    struct figure *figure;
    const struct job *job;
    const struct part *part;
    const struct blank *blank;
    size_t points;       /* numbered so far */
    size_t last_station; /* the first of them are stations, so many */
    struct flat last_point;
    bool opening_points, opening_widths; /* openings are listed by points, by half widths */
    station_list stations;
    bool square, across;       /* its stations, see stations_square */
    LIST(struct flat) centres; /* dimensioned already */
    LIST(struct flat) radii;   /* of arcs: directions of their lines */
};

struct distances {
    LIST(double) list;
};

static inline struct spot spot_of(struct flat flat) {
    return (struct spot){flat.x, flat.y};
}

/* ---- figure_blank.c: words and measures -------------------------------------------------------------------------- */

/* As cut, without its unit and with it. */
const char *pattern_figure(const struct pattern *pattern, double length);
const char *pattern_text(const struct pattern *pattern, double length);

/* What an edge's own line is called where an allowance stands outside of it. */
const char *edge_own_line(const struct blank_edge *edge);

/* The corner of the sheet that all is measured from: of the edge that the brake marks are counted from, else the lower
 * left. */
struct flat blank_datum(const struct blank *blank);

void opening_box(const struct blank_opening *opening, struct flat *low, struct flat *high);

/* A rectangle; other openings that are not circles are curves drawn by chords. */
bool opening_has_corners(const struct blank_opening *opening);

/* Upright or level. */
bool line_is_upright(struct flat from, struct flat to);

void distances_add(struct pattern *pattern, struct distances *distances, double distance);
void distances_sort(struct distances *distances);

/* ---- figure_lines.c: what is cut, bent and formed ---------------------------------------------------------------- */

/* The outline to cut; snips in it; the edges' own lines inside it; an opening's outline. */
void pattern_cut(struct pattern *pattern);
void pattern_reliefs(struct pattern *pattern);
void pattern_net(struct pattern *pattern);
void pattern_loop(struct pattern *pattern, const struct flat *points, size_t count);

/* Lines to bend along, and to roll or form along. */
void pattern_bends(struct pattern *pattern);
void pattern_forming(struct pattern *pattern);

bool blank_is_open_at(const struct blank *blank, struct flat at);

/* ---- figure_names.c: what edges and panels are called ------------------------------------------------------------ */

void pattern_edge_names(struct pattern *pattern);
void pattern_panel_names(struct pattern *pattern);

/* ---- figure_marks.c: distances from one edge --------------------------------------------------------------------- */

void pattern_brake_marks(struct pattern *pattern);
void pattern_corner_marks(struct pattern *pattern);

/* ---- figure_points.c: curves and slanting bends, by radius and centre or by numbered points ---------------------- */

void pattern_curves(struct pattern *pattern);
void pattern_slanting_bends(struct pattern *pattern);
void pattern_centre(struct pattern *pattern, struct flat centre);

/* ---- figure_numbers.c: stations and the corners that form lines start from --------------------------------------- */

void pattern_stations(struct pattern *pattern);

/* ---- figure_openings.c ------------------------------------------------------------------------------------------- */

void pattern_opening(struct pattern *pattern, const struct blank_opening *opening);

#endif
