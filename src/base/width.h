/* How many columns characters take where every letter is as wide: on a terminal, and in Markdown that
 * is read as it is. */
#ifndef CLEAT_BASE_WIDTH_H
#define CLEAT_BASE_WIDTH_H

#include <stddef.h>
#include <stdint.h>

/* 0 (a mark on the character before), 1 or 2. */
size_t character_columns(uint32_t character);

/* Of `length` bytes of UTF-8; a byte that is none takes one. */
size_t text_columns(const char *bytes, size_t length);

#endif
