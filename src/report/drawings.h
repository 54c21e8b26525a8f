/* The folder of drawings beside a paper: `shop-figures` beside shop.md.  All are written under new names, which become
 * theirs when the paper is whole.  What an older paper has left is taken away, since metal may be cut by a drawing that
 * is no longer true; but no file is written over or removed that has not the mark of a drawing (draw/svg.h).
 */
#ifndef CLEAT_REPORT_DRAWINGS_H
#define CLEAT_REPORT_DRAWINGS_H

#include <stdbool.h>

#include "draw/figure.h"

struct drawings;

/* For the drawings of the paper at `path`.  Nothing is made yet.  NULL when there is no memory. */
struct drawings *drawings_beside(const char *path);

/* For a paper that has its drawings on its own pages: only that it is there matters, and
 * nothing can be done with it. */
struct drawings *drawings_on_page(void);

/* Takes away what was written and not committed, and the folder if it was made for that.  NULL is allowed. */
void drawings_free(struct drawings *drawings);

/* Writes one, for a file of that name, making the folder when it is not there.  The name is a word in small letters, a
 * number, perhaps capital letters: "part-7B.svg".  A failure is kept, and nothing is written after it; it is one too
 * when a file of that name was not drawn by this program, or when what stands in the folder's place is a link or no
 * folder. */
void drawings_write(struct drawings *drawings, const char *file, const struct figure *figure);

/* Gives all that were written their names.  False, with a failure kept, when one of them could not get its name. */
bool drawings_commit(struct drawings *drawings);

/* The folder as a link in the paper has it. */
const char *drawings_link(const struct drawings *drawings);

/* What could not be written: its path, and why.  NULL: all was. */
const char *drawings_failed(const struct drawings *drawings, const char **why);

/* A drawing's name: "part-7.svg" is the sketch of part 7, "part-7B.svg" the pattern of its blank B. */
const char *drawing_file(struct arena *arena, size_t part, const char *letter);

/* Removes from the folder every drawing that was not written now, and what killed runs have left half written.  All
 * that this run wrote must be committed. */
void drawings_sweep(struct drawings *drawings);

#endif
