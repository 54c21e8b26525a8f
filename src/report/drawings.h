/* The folder of drawings beside a paper: `shop-figures` beside shop.md.  Each file is whole or not there, and what an
 * older paper has left is taken away, since metal may be cut by a drawing that is no longer true.
 */
#ifndef CLEAT_REPORT_DRAWINGS_H
#define CLEAT_REPORT_DRAWINGS_H

#include <stdbool.h>

#include "draw/figure.h"

struct drawings;

/* For the drawings of the paper at `path`.  Nothing is made yet.  NULL when there is no memory. */
struct drawings *drawings_beside(const char *path);
void drawings_free(struct drawings *drawings); /* NULL is allowed */

/* Writes one, in a file of that name, making the folder when it is not there.  A failure is kept, and nothing is
 * written after it. */
void drawings_write(struct drawings *drawings, const char *file, const struct figure *figure);

/* The folder as a link in the paper has it. */
const char *drawings_link(const struct drawings *drawings);

/* What could not be written: its path, and the errno in *fault.  NULL: all was. */
const char *drawings_failed(const struct drawings *drawings, int *fault);

/* A drawing's name: "part-7.svg" is the sketch of part 7, "part-7B.svg" the pattern of its blank B. */
const char *drawing_file(struct arena *arena, size_t part, const char *letter);

/* Removes from the folder every file whose name is such as drawing_file gives and for which `current` says no.  The
 * folder goes when it is empty then. */
void drawings_sweep(const struct drawings *drawings, bool (*current)(const void *what, size_t part, const char *letter),
                    const void *what);

#endif
