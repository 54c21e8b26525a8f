/* Words set in type on a page.  Each distinct word is shaped once, at one size, and shown at any: without hinting its
 * width grows with the size.  The set of known words is emptied when it grows large, so that a long paper needs no more
 * memory than a short one. */
#ifndef CLEAT_DRAW_TYPE_H
#define CLEAT_DRAW_TYPE_H

#include <cairo.h>
#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"

enum type_face { TYPE_PLAIN, TYPE_BOLD, TYPE_FACES };

struct type;

/* NULL: there is no memory. */
struct type *type_new(void);
void type_free(struct type *type); /* NULL is allowed */

/* NULL when the fonts of pages are there; else the name of what the system has not. */
const char *type_missing(void);

/* Whether there was memory for every word so far. */
bool type_sound(const struct type *type);

/* Of `length` bytes of UTF-8, for a size of 1. */
double type_width(struct type *type, enum type_face face, const char *bytes, size_t length);

/* Of the space between words, for a size of 1. */
double type_space(struct type *type, enum type_face face);

/* Whether a text has letters that are written from right to left, so that its words do not stand in their order. */
bool type_turns(const char *bytes, size_t length);

/* The text without the code points that are no characters (U+FFFF and its like), which a PDF must not name: a box
 * stands for each.  The same text when it has none, else a copy. */
const char *type_clean(struct arena *arena, const char *text);

/* Shows it with its baseline beginning at (x, y), in the colour that is current at the latest when type_flush is
 * called: before the colour changes, or what was shown is drawn over, or the page ends. */
void type_show(struct type *type, cairo_t *cairo, enum type_face face, double size, double x, double y,
               const char *bytes, size_t length);
void type_flush(struct type *type, cairo_t *cairo);

#endif
