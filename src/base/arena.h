/* Memory of one compilation: everything is taken from one arena and given back at once.
 *
 * Nothing in a pass frees anything.  When memory runs out the arena does not return NULL: it jumps to the
 * place named with arena_on_failure, so that no pass carries an error path for it.
 */
#ifndef CLEAT_BASE_ARENA_H
#define CLEAT_BASE_ARENA_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

/* Where blocks come from; a test passes one that fails on purpose.  `take` returns NULL when it has none. */
struct arena_source {
    void *(*take)(void *context, size_t size);
    void (*give)(void *context, void *block);
    void *context;
};

struct arena;

/* A new, empty arena, or NULL when there is no memory.  `source` NULL means malloc and free. */
struct arena *arena_new(const struct arena_source *source);

/* Gives back the arena and everything in it.  NULL is allowed. */
void arena_free(struct arena *arena);

/* Forgets everything in the arena, so that its room is used again. */
void arena_clear(struct arena *arena);

/* Where to go when memory runs out: longjmp(*place, 1).  Must be set before the first allocation.  Gives the place that was
 * set before, for who has something of his own to give back on the way there; NULL: none was. */
jmp_buf *arena_on_failure(struct arena *arena, jmp_buf *place);

/* `size` zeroed bytes, aligned for pointers, doubles and 64-bit integers. Never NULL. Owned by the arena. */
void *arena_take(struct arena *arena, size_t size);

/* `block` (of `old_size` bytes, from this arena, or NULL) made `new_size` bytes long; the new bytes are zero. */
void *arena_resize(struct arena *arena, void *block, size_t old_size, size_t new_size);

/* Bytes handed out so far. */
size_t arena_used(const struct arena *arena);

/* A copy of `length` bytes at `bytes`, with a 0 behind it. */
char *arena_copy(struct arena *arena, const char *bytes, size_t length);

/* printf into the arena. */
char *arena_format(struct arena *arena, const char *format, ...) __attribute__((format(printf, 2, 3)));
char *arena_format_list(struct arena *arena, const char *format, va_list list) __attribute__((format(printf, 2, 0)));

#define ARENA_NEW(arena, type) ((type *)arena_take((arena), sizeof(type)))
#define ARENA_ARRAY(arena, type, count) ((type *)arena_take((arena), (count) * sizeof(type)))

#endif
