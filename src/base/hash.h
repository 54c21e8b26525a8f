/* One hash for every table of the program. */
#ifndef CLEAT_BASE_HASH_H
#define CLEAT_BASE_HASH_H

#include <stddef.h>
#include <stdint.h>

/* What a hash begins with. */
#define HASH_EMPTY UINT64_C(14695981039346656037)

/* `hash` with some bytes more.  FNV-1a, 64 bit (from memory: Fowler, Noll and Vo; offset basis and prime as in the IETF
 * draft). */
static inline uint64_t hash_bytes(uint64_t hash, const void *bytes, size_t count) {
    const unsigned char *at = bytes;
    for (size_t i = 0; i < count; i++)
        hash = (hash ^ at[i]) * UINT64_C(1099511628211);
    return hash;
}

#endif
