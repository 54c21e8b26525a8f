/* Growable arrays in an arena:   LIST(struct run *) runs;   *list_add(arena, &runs) = run;   */
#ifndef CLEAT_BASE_LIST_H
#define CLEAT_BASE_LIST_H

#include "base/arena.h"

#define LIST(type)                                                                                                     \
    struct {                                                                                                           \
        type *at;     /* the elements */                                                                               \
        size_t count; /* how many are in use */                                                                        \
        size_t room;  /* how many fit before it grows */                                                               \
    }

/* Adds one zeroed element at the end and gives its address (valid until the next list_add to the same list). */
#define list_add(arena, list)                                                                                          \
    (list_grow((arena), (void **)(void *)&(list)->at, &(list)->room, (list)->count, sizeof *(list)->at),               \
     &(list)->at[(list)->count++])

/* Room for so many elements in an empty list, for who knows how many will come: growing leaves what was too short
 * behind.
 */
#define list_reserve(arena, list, elements)                                                                            \
    ((list)->at = arena_take((arena), (elements) * sizeof *(list)->at), (list)->room = (elements))

/* Makes room for one more element; grows by half, so that adding is constant time on average. */
void list_grow(struct arena *arena, void **at, size_t *room, size_t count, size_t element_size);

#endif
