/* Blocks of memory cut into pieces from the front. */
#include "base/arena.h"

#include <stdalign.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Nothing here is wider than a double or a pointer, and a large job has millions of pieces: no more than they need. */
enum { ALIGNMENT = alignof(double) < alignof(void *) ? alignof(void *) : alignof(double) };

/* Blocks start small, for a job of a page, and double up to the largest. */
enum { BLOCK_SMALLEST = 16 * 1024, BLOCK_LARGEST = 1024 * 1024 };

struct block {
    struct block *previous;
    size_t room, used; /* bytes behind this head */
    alignas(max_align_t) unsigned char bytes[];
};

struct arena {
    struct arena_source source;
    struct block *blocks; /* the one being cut; older ones behind it */
    jmp_buf *failure;
    size_t used;
    size_t next_room;
};

static void *take_from_heap(void *context, size_t size) {
    (void)context;
    return malloc(size);
}

static void give_to_heap(void *context, void *block) {
    (void)context;
    free(block);
}

struct arena *arena_new(const struct arena_source *source) {
    static const struct arena_source heap = {.take = take_from_heap, .give = give_to_heap};
    if (!source)
        source = &heap;
    struct arena *arena = source->take(source->context, sizeof *arena);
    if (arena)
        *arena = (struct arena){.source = *source, .next_room = BLOCK_SMALLEST};
    return arena;
}

void arena_free(struct arena *arena) {
    if (!arena)
        return;
    struct arena_source source = arena->source;
    for (struct block *block = arena->blocks, *previous; block; block = previous) {
        previous = block->previous;
        source.give(source.context, block);
    }
    source.give(source.context, arena);
}

/* The block being cut stays; it is the largest so far, or nearly. */
void arena_clear(struct arena *arena) {
    struct block *kept = arena->blocks;
    if (!kept)
        return;
    for (struct block *block = kept->previous, *previous; block; block = previous) {
        previous = block->previous;
        arena->source.give(arena->source.context, block);
    }
    kept->previous = NULL;
    kept->used = 0;
    arena->used = 0;
}

jmp_buf *arena_on_failure(struct arena *arena, jmp_buf *place) {
    jmp_buf *before = arena->failure;
    arena->failure = place;
    return before;
}

_Noreturn static void fail(struct arena *arena) {
    if (!arena->failure)
        abort(); /* a fault of the caller: the place must be set first */
    longjmp(*arena->failure, 1);
}

static size_t rounded_up(size_t size) {
    return (size + ALIGNMENT - 1) / ALIGNMENT * ALIGNMENT;
}

static struct block *new_block(struct arena *arena, size_t room) {
    struct block *block = arena->source.take(arena->source.context, sizeof(struct block) + room);
    if (!block)
        fail(arena);
    block->previous = NULL;
    block->room = room;
    block->used = 0;
    return block;
}

/* A block with `size` free bytes.  A large piece gets a block of its own, kept behind the one being cut so that the
 * rest of that one is not lost. */
static struct block *block_with_room(struct arena *arena, size_t size) {
    struct block *current = arena->blocks;
    if (current && current->room - current->used >= size)
        return current;
    if (current && size > arena->next_room / 4) {
        struct block *own = new_block(arena, size);
        own->previous = current->previous;
        current->previous = own;
        return own;
    }
    struct block *next = new_block(arena, size > arena->next_room ? size : arena->next_room);
    next->previous = current;
    arena->blocks = next;
    if (arena->next_room < BLOCK_LARGEST)
        arena->next_room *= 2;
    return next;
}

void *arena_take(struct arena *arena, size_t size) {
    if (size > PTRDIFF_MAX / 2) /* also what a product that wrapped below zero looks like */
        fail(arena);
    size_t whole = rounded_up(size ? size : 1);
    struct block *block = block_with_room(arena, whole);
    void *piece = block->bytes + block->used;
    block->used += whole;
    arena->used += whole;
    return memset(piece, 0, whole);
}

/* The last piece of the current block grows where it is, when there is room behind it. */
static bool grown_in_place(struct arena *arena, unsigned char *piece, size_t old_size, size_t new_size) {
    struct block *block = arena->blocks;
    size_t old_whole = rounded_up(old_size), new_whole = rounded_up(new_size);
    if (!block || block->used < old_whole || piece != block->bytes + block->used - old_whole)
        return false;
    if (new_whole - old_whole > block->room - block->used)
        return false;
    memset(piece + old_size, 0, new_whole - old_size);
    block->used += new_whole - old_whole;
    arena->used += new_whole - old_whole;
    return true;
}

void *arena_resize(struct arena *arena, void *block, size_t old_size, size_t new_size) {
    if (!block || old_size == 0)
        return arena_take(arena, new_size);
    if (new_size <= old_size)
        return block;
    if (new_size > PTRDIFF_MAX / 2)
        fail(arena);
    if (grown_in_place(arena, block, old_size, new_size))
        return block;
    return memcpy(arena_take(arena, new_size), block, old_size);
}

size_t arena_used(const struct arena *arena) {
    return arena->used;
}

char *arena_copy(struct arena *arena, const char *bytes, size_t length) {
    char *copy = arena_take(arena, length + 1);
    if (length > 0)
        memcpy(copy, bytes, length);
    return copy;
}

char *arena_format_list(struct arena *arena, const char *format, va_list list) {
    va_list again;
    va_copy(again, list);
    char start[256];
    int length = vsnprintf(start, sizeof start, format, list);
    char *text = NULL;
    if (length >= 0) {
        text = arena_take(arena, (size_t)length + 1);
        if ((size_t)length < sizeof start)
            memcpy(text, start, (size_t)length);
        else
            vsnprintf(text, (size_t)length + 1, format, again);
    }
    va_end(again);
    return text ? text : arena_copy(arena, "", 0);
}

char *arena_format(struct arena *arena, const char *format, ...) {
    va_list list;
    va_start(list, format);
    char *text = arena_format_list(arena, format, list);
    va_end(list);
    return text;
}
