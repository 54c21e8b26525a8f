/* Open addressing with linear steps; at most half full. */
#include "model/names.h"

#include <string.h>

#include "base/hash.h"

static uint64_t hash_of(const char *text) {
    return hash_bytes(HASH_EMPTY, text, strlen(text));
}

/* The entry of that name, or the free place where it belongs. */
static struct name *place_of(const struct names *names, const char *text, uint64_t hash) {
    size_t mask = names->room - 1;
    size_t i = (size_t)hash & mask;
    while (names->at[i].text && (names->at[i].hash != hash || strcmp(names->at[i].text, text) != 0))
        i = (i + 1) & mask;
    return &names->at[i];
}

static void grow(struct names *names) {
    struct names larger = {.arena = names->arena, .count = names->count, .room = names->room ? names->room * 2 : 64};
    larger.at = ARENA_ARRAY(names->arena, struct name, larger.room);
    for (size_t i = 0; i < names->room; i++)
        if (names->at[i].text)
            *place_of(&larger, names->at[i].text, names->at[i].hash) = names->at[i];
    *names = larger;
}

struct name *names_find(const struct names *names, const char *text) {
    if (!names->count)
        return NULL;
    struct name *name = place_of(names, text, hash_of(text));
    return name->text ? name : NULL;
}

struct name *names_add(struct names *names, const char *text) {
    if (2 * (names->count + 1) > names->room)
        grow(names);
    uint64_t hash = hash_of(text);
    struct name *name = place_of(names, text, hash);
    if (!name->text) {
        *name = (struct name){.text = text, .hash = hash};
        names->count++;
    }
    return name;
}
