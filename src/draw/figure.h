/* A figure as data: what is drawn, in real sizes, before anything is known of paper.
 *
 * Lengths are metres and y points up.  Texts are UTF-8 and come ready to print: a figure knows no units.  Everything
 * is taken from the figure's arena; texts are not copied and must live as long.  The layout (sheet.h) finds the places.
 */
#ifndef CLEAT_DRAW_FIGURE_H
#define CLEAT_DRAW_FIGURE_H

#include <stdbool.h>

#include "base/list.h"

/* A place: metres with y up in a figure, points with y down on a sheet. */
struct spot {
    double x, y;
};

/* What a line means; each is told from the others by width and dashes, never by colour alone. */
enum stroke {
    STROKE_CUT,       /* outline and holes: thick, solid */
    STROKE_BEND_UP,   /* long dashes */
    STROKE_BEND_DOWN, /* long dash, two dots */
    STROKE_SEAM,      /* thick dash, dot */
    STROKE_NET,       /* the piece without its allowances: thin, solid */
    STROKE_HIDDEN,    /* short dashes */
    STROKE_CENTRE,    /* thin long dash, short dash */
    STROKE_THIN,      /* dimension lines and leaders */
    STROKE_NONE,      /* a fill without an outline */
    STROKE_COUNT = STROKE_NONE
};

/* What a closed path is filled with; a fill hides what was drawn before it. */
enum shade { SHADE_NONE, SHADE_WHITE, SHADE_LIGHT, SHADE_MIDDLE, SHADE_INK };

enum letter_size { LETTER_SMALL, LETTER_PLAIN, LETTER_LARGE };

/* From the place before it to `to`: straight, or an arc that turns by `sweep` rad (counter-clockwise positive). */
struct figure_step {
    struct spot to;
    double sweep;
};

/* The first step is where the path starts. */
struct figure_path {
    LIST(struct figure_step) steps;
    bool closed;
    bool kept; /* closed, without a corner that turns in: no label stands inside */
    enum stroke stroke;
    enum shade shade;
};

/* Where a label may stand, seen from its place; of several the earlier is tried first, and
 * all of them before others. */
enum toward {
    TOWARD_HERE = 1, /* the text centred on the place itself */
    TOWARD_RIGHT = 2,
    TOWARD_LEFT = 4,
    TOWARD_UP = 8,
    TOWARD_DOWN = 16,
    TOWARD_CORNERS = 32,
    TOWARD_DOT = 64,   /* besides: a dot marks the place */
    TOWARD_FIXED = 128 /* it stands just there, whatever else does: figure_text */
};

/* A text that belongs to a place (`from` is `to`), or to a line, along which it is written when there is room. */
struct figure_label {
    const char *text;
    bool briefly; /* where its line is too short a letter stands instead, which is explained under the drawing */
    struct spot from, to;
    unsigned toward; /* enum toward, or 0: anywhere near */
    enum letter_size size;
    double half; /* m: the line is the middle of a band, so far from its edges, and the text stands in or beside that */
    double room; /* m: a longer one is cut and ends in dots; 0: never.  Only with TOWARD_FIXED */
};

/* Where a dimension stands.  The first four measure straight across or straight up and stand outside the whole
 * drawing; the last two measure along the line from `from` to `to`. */
enum figure_side { FIGURE_ABOVE, FIGURE_BELOW, FIGURE_LEFT, FIGURE_RIGHT, FIGURE_RIGHT_OF_LINE };

struct figure_dimension {
    struct spot from, to;
    enum figure_side side;
    const char *text;
};

/* An arc's radius: a line from the centre to `on`.  A centre that is `located` is marked with a cross. */
struct figure_radius {
    struct spot centre, on;
    bool located;
    const char *text;
};

struct figure_mark {
    double distance; /* m from the origin, not negative, in rising order */
    const char *text;
};

/* A story stick: marks along one edge, all measured from its one end. */
struct figure_ordinates {
    struct spot origin;
    enum figure_side side; /* ABOVE, BELOW: marks run to the right, or `back`: to the left; LEFT, RIGHT: up, or down */
    bool back;
    const char *zero; /* what stands at the origin, "0" */
    LIST(struct figure_mark) marks;
};

/* A thick arrow: which way the air goes, which way a face looks. */
struct figure_arrow {
    struct spot from, to;
};

/* A bar across something, a dot beyond each of its ends, as large on any scale. */
struct figure_bar {
    struct spot at, across; /* of length 1 */
    double half;            /* m from its middle to the sides that it stands across */
};

struct figure {
    struct arena *arena;
    const char *title, *subtitle; /* NULL: none */
    bool diagram;                 /* its metres are those of the page, and it has no scale; its key has what it names */
    bool sketch;                  /* a view, which nothing is measured on: it has no scale */
    bool follows;                 /* it goes with the drawing before it */
    bool keyless;                 /* its lines are told on the drawing that it goes with */
    double largest;               /* its scale is no larger than 1 to so much; 0: 1:1 */
    bool north;                   /* up is north: an arrow beside the title says so */
    double tallest;               /* pt: the drawing itself is no taller on paper; 0: as tall as a page has room for */
    bool metric;                  /* the bar to check a full-size print by is 150 mm, not 6 in */
    LIST(struct figure_path) paths; /* drawn in this order */
    LIST(struct figure_label) labels;
    LIST(struct figure_dimension) dimensions;
    LIST(struct figure_radius) radii;
    LIST(struct figure_ordinates) ordinates;
    LIST(struct figure_arrow) arrows;
    LIST(struct figure_bar) bars;
    LIST(const char *) list;       /* short texts set in columns under the drawing: a table of points */
    LIST(const char *) notes;      /* lines of text under that */
    const char *key[STROKE_COUNT]; /* what the style key calls a line; NULL: its own name */
    const char *bar_key;           /* what the bars are; NULL: not told */
};

struct figure *figure_new(struct arena *arena, const char *title, const char *subtitle);

/* A path that starts at `start`; its further steps are added with path_line and path_arc.
 * Valid until the next path. */
struct figure_path *figure_path(struct figure *figure, enum stroke stroke, struct spot start);
void path_line(struct figure *figure, struct figure_path *path, struct spot to);
void path_arc(struct figure *figure, struct figure_path *path, struct spot to, double sweep);

void figure_line(struct figure *figure, enum stroke stroke, struct spot from, struct spot to);
void figure_polygon(struct figure *figure, enum stroke stroke, enum shade shade, const struct spot *corners,
                    size_t count);
/* The last path, which is closed, keeps labels out of its inside. */
void figure_keep_inside(struct figure *figure);
void figure_circle(struct figure *figure, enum stroke stroke, struct spot centre, double radius);

void figure_label(struct figure *figure, const char *text, struct spot at, unsigned toward, enum letter_size size);
void figure_label_line(struct figure *figure, const char *text, struct spot from, struct spot to,
                       enum letter_size size);
/* A text that names a band, whose middle is the line and whose edges are `half` (m) off. */
void figure_label_band(struct figure *figure, const char *text, struct spot from, struct spot to, double half,
                       enum letter_size size);
/* A text of a table or an axis, whose maker sees to it that nothing meets it: with its left end at the place
 * (TOWARD_RIGHT), its right end (TOWARD_LEFT) or its middle (TOWARD_HERE), and no longer than `room` (m; 0: as it is).
 */
void figure_text(struct figure *figure, const char *text, struct spot at, enum toward toward, double room,
                 enum letter_size size);
/* A text that many short lines may have. */
void figure_label_briefly(struct figure *figure, const char *text, struct spot from, struct spot to,
                          enum letter_size size);
void figure_dimension(struct figure *figure, struct spot from, struct spot to, enum figure_side side, const char *text);
void figure_radius(struct figure *figure, struct spot centre, struct spot on, bool located, const char *text);
struct figure_ordinates *figure_ordinates(struct figure *figure, struct spot origin, enum figure_side side, bool back,
                                          const char *zero);
void ordinates_mark(struct figure *figure, struct figure_ordinates *ordinates, double distance, const char *text);
void figure_arrow(struct figure *figure, struct spot from, struct spot to);
void figure_bar(struct figure *figure, struct spot at, struct spot across, double half);
void figure_list(struct figure *figure, const char *text);
void figure_note(struct figure *figure, const char *text);

#endif
