/* Growable arrays: where the room for one more comes from. */
#include "base/list.h"

#include <stdint.h>
#include <string.h>

enum { ROOM_FIRST = 4 };

void list_grow(struct arena *arena, void **at, size_t *room, size_t count, size_t element_size) {
    if (count < *room)
        return;
    size_t next = *room ? *room + *room / 2 : ROOM_FIRST; /* most lists are short, and there are very many */
    if (next > SIZE_MAX / 2 / element_size)
        arena_take(arena, SIZE_MAX); /* fails as memory that ran out does */
    /* `*at` is in truth a pointer to the element's type, so it is read and written as bytes. */
    void *elements;
    memcpy(&elements, (const void *)at, sizeof elements);
    elements = arena_resize(arena, elements, *room * element_size, next * element_size);
    memcpy((void *)at, &elements, sizeof elements);
    *room = next;
}
