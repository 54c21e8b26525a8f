/* What stands on a sheet already, indexed by a grid so that asking whether a box is free costs the same on a full
 * sheet. */
#ifndef CLEAT_DRAW_OBSTACLES_H
#define CLEAT_DRAW_OBSTACLES_H

#include "draw/sheet.h"

enum obstacle_kind {
    OBSTACLE_LINE = 1,      /* a drawn line */
    OBSTACLE_TEXT = 2,      /* a text's box */
    OBSTACLE_DIMENSION = 4, /* along a dimension line: another must not lie on it */
    OBSTACLE_PLACE = 8      /* a place that a label names: its leader will begin there */
};

struct obstacles;

struct obstacles *obstacles_new(struct arena *arena);

void obstacles_add_line(struct obstacles *all, struct spot from, struct spot to);
void obstacles_add_box(struct obstacles *all, struct sheet_box box, enum obstacle_kind kind);

/* Whether `box` meets any obstacle of `kinds`. */
bool obstacles_meet_box(struct obstacles *all, struct sheet_box box, unsigned kinds);

/* Whether the line meets a text. */
bool obstacles_meet_line(struct obstacles *all, struct spot from, struct spot to);

/* How many drawn lines the line passes, beyond its beginning. */
size_t obstacles_lines_passed(const struct obstacles *all, struct spot from, struct spot to);

/* The parts of the line from `from` that are outside every text: ends[0] to ends[1], ends[2] to ends[3], ...; their
 * number (of ends) is returned.  In the arena. */
size_t obstacles_clear_parts(struct obstacles *all, struct spot from, struct spot to, struct spot **ends);

/* ---- Boxes ------------------------------------------------------------------------------------------------------- */

struct sheet_box box_grown(struct sheet_box box, double by);
void box_corners(struct sheet_box box, struct spot corners[4]);
bool box_meets_box(struct sheet_box a, struct sheet_box b);

/* Whether the line has a part inside the box; that part is from `*enter` to `*leave`, fractions of the line. */
bool box_meets_line(struct sheet_box box, struct spot from, struct spot to, double *enter, double *leave);

#endif
