/* A sheet at full size over as many pages as it needs, to be taped together: each has crosses that it shares with its
 * neighbours, its name, and a bar to measure before cutting; the first page is a map of them. */
#ifndef CLEAT_DRAW_TILE_H
#define CLEAT_DRAW_TILE_H

#include "base/output.h"
#include "draw/sheet.h"

struct tiling {
    double width, height;              /* pt, of the paper upright */
    bool metric;                       /* the bar is 150 mm long, not 6 in */
    const char *title, *author, *date; /* NULL: not known; but a title there is */
};

/* False when there was no memory; a failure of `out` shows when that is committed.  Uses `arena` for names. */
bool sheet_write_tiles(const struct sheet *sheet, const struct tiling *tiling, struct arena *arena, struct output *out);

#endif
