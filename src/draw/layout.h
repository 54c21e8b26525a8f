/* The parts of one layout: each puts its lines and texts on the sheet and remembers them as obstacles for the next.
 * Places here are points on the sheet, y down, and may be negative until the whole is moved onto its page. */
#ifndef CLEAT_DRAW_LAYOUT_H
#define CLEAT_DRAW_LAYOUT_H

#include "draw/lettering.h"
#include "draw/obstacles.h"

/* Room that every text keeps around itself. */
#define TEXT_MARGIN 1.0 /* pt */

/* The bounds of the first so many strokes and letters of the sheet. */
struct layout_extent {
    struct spot low, high;
    size_t strokes, letters;
};

struct layout {
    struct arena *arena;
    struct lettering *lettering;
    const struct figure *figure;
    struct sheet *sheet;
    struct obstacles *obstacles; /* NULL: nothing will ask what stands where */
    double scale;                /* points of paper for a metre of metal */
    double room;                 /* points along an edge that a page has for a row of texts; a longer edge has more */
    struct spot low, high;       /* bounds of the paths: left top, right bottom */
    double left, right;          /* labels keep between, so that the drawing need not be made smaller for them */
    LIST(const char *) told;     /* texts that a letter stands for: a, b, ... */
    LIST(const char *) list;     /* what found no room in the drawing, to stand under it */
    struct layout_extent extent;
    double widest, tallest; /* pt: when it is larger, it will not be used */
};

/* ---- Shared ------------------------------------------------------------------------------------------------------ */

struct spot layout_spot(const struct layout *layout, struct spot in_figure);

/* `points` (in the arena) become the sheet's. */
void layout_stroke(struct layout *layout, struct sheet_stroke stroke);
void layout_line(struct layout *layout, enum stroke stroke, struct spot from, struct spot to);

/* A line of STROKE_THIN, left out where a text stands. */
void layout_clear_line(struct layout *layout, struct spot from, struct spot to);

/* An arrow head whose point is at `tip`; `toward` is the unit vector that it points along. */
void layout_head(struct layout *layout, struct spot tip, struct spot toward, double length);
void layout_ring(struct layout *layout, struct spot centre, double radius, enum shade shade);

/* A bar of `half` on each side of `at`, and a dot beyond each of its ends. */
void layout_bar(struct layout *layout, struct spot at, struct spot across, double half);

/* A text with its size, measured, its box not yet in its place. */
struct sheet_letters letters_of(const struct layout *layout, const char *text, enum letter_size size, double wrap);
/* Whether a text may stand there. */
bool layout_is_free(struct layout *layout, struct sheet_box box);
void layout_letters(struct layout *layout, struct sheet_letters letters);

/* ---- Along a line ------------------------------------------------------------------------------------------------ */

/* Between a line and a text beside it. */
#define LAYOUT_CLEAR 2.2 /* pt */

/* Places of a line where a text is tried, its middle first. */
enum { LAYOUT_SHARES = 7 };
struct spot layout_share(struct spot from, struct spot to, size_t share);

/* Writes a text along a line that is no shorter, on either side of it, or with its middle `off` (pt) from it; false:
 * that is not free. */
bool layout_along(struct layout *layout, struct sheet_letters letters, struct spot from, struct spot to);
bool layout_off(struct layout *layout, struct sheet_letters letters, struct spot from, struct spot to, double off);

/* ---- In the order in which they are laid out --------------------------------------------------------------------- */

void layout_paths(struct layout *layout);
void layout_ordinates(struct layout *layout);
void layout_dimensions(struct layout *layout);
void layout_labels(struct layout *layout);

/* A letter in a ring near `at`, and `text` behind that letter in the list under the drawing; where not even a ring has
 * room, the text in the list alone. */
void layout_balloon(struct layout *layout, const char *text, struct spot at);

/* Moves the drawing onto its page, between the title and what stands below: list, notes, key and scale. */
void layout_frame(struct layout *layout, enum sheet_mode mode);

/* Bounds of all that is on the sheet so far; false when that is nothing.  Not for a drawing that stands on its page. */
bool layout_bounds(struct layout *layout, struct spot *low, struct spot *high);

/* Whether it is larger than it may be already: to go on is of no use. */
bool layout_outgrown(struct layout *layout);

#endif
