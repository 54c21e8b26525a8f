/* Output that is whole or not there: written beside its name, flushed to disk, then renamed.  Where the system has
 * files without a name (Linux, O_TMPFILE), what is written has none until it is whole, so that a process that is killed
 * leaves nothing behind; one of many excepted (output_open_one), whose leavings output_is_leftover tells. */
#ifndef CLEAT_BASE_OUTPUT_H
#define CLEAT_BASE_OUTPUT_H

#include <stdbool.h>
#include <stddef.h>

struct output;

/* Opens `path` for writing by way of a new file in the same folder; "-" is standard output.
 * NULL on failure, with errno set. */
struct output *output_open(const char *path);

/* The same of one of many that are written before any is committed: a number of its own for each finds its new file's
 * name at the first try.  They are not synced one by one, which would take the disk longer than all the rest: call
 * output_sync_folder behind the last commit.  What a power cut before that spoils must be what can be made again. */
struct output *output_open_one(const char *path, size_t serial);

/* Makes the names in the folder of `path` last through a power cut. */
void output_sync_folder(const char *path);

/* Opens an output that is kept in memory. NULL when there is no memory. */
struct output *output_open_memory(void);

/* Errors are kept and reported by output_commit. */
void output_put(struct output *out, const char *bytes, size_t length);
void output_text(struct output *out, const char *text);
void output_format(struct output *out, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Flushes and syncs, so that nothing is left for output_commit but to name it; nothing more may be put.  False
 * on failure, with errno set; `out` must still be committed or abandoned. */
bool output_close(struct output *out);

/* Does the same unless it is done, and renames into place.  True on success; on failure errno is set and any previous
 * file of that name is untouched.  Frees `out` either way. */
bool output_commit(struct output *out);

/* Hands over what was written to a memory output: malloc'd, a 0 behind it, the caller frees it.  Frees `out`.
 * NULL when memory ran out. */
char *output_take_memory(struct output *out, size_t *length);

/* Whether a file of that name (without folder) is a new file whose process has ended without committing it.  One of
 * this process counts as left over: ask only when all of its own are committed. */
bool output_is_leftover(const char *name);

/* Throws away what was written and frees `out`.  NULL is allowed. */
void output_abandon(struct output *out);

#endif
