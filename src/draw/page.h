/* The page that figures are fitted to: as wide as a letter sheet between its margins, for US and A4 paper alike. */
#ifndef CLEAT_DRAW_PAGE_H
#define CLEAT_DRAW_PAGE_H

#define PAGE_WIDTH 518.4 /* pt, 7.2 in */
#define PAGE_MARGIN 8.0  /* pt */
#define PAGE_ROOM (PAGE_WIDTH - 2 * PAGE_MARGIN)
#define PAGE_TALLEST 600.0 /* pt: the drawing with its texts, without title, list and key */

#endif
