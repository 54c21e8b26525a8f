/* How many columns characters take. */
#include "base/width.h"

#include <stdbool.h>

#include "base/text.h"

struct character_range {
    uint32_t first, last;
};

/* Marks that stand on the character before them: the larger blocks of general categories Mn and Me, and zero-width
 * characters.  Checked against the Unicode Character Database 14.0.0. */
static const struct character_range no_columns[] = {
    {0x0300, 0x036F}, /* combining diacritical marks */
    {0x0483, 0x0489}, /* Cyrillic */
    {0x0591, 0x05BD}, /* Hebrew points */
    {0x064B, 0x065F}, /* Arabic marks */
    {0x1AB0, 0x1ACE}, /* combining marks extended */
    {0x1DC0, 0x1DFF}, /* combining marks supplement */
    {0x200B, 0x200F}, /* zero width space, joiners, marks of direction */
    {0x20D0, 0x20F0}, /* combining marks for symbols */
    {0xFE00, 0xFE0F}, /* variation selectors */
    {0xFE20, 0xFE2F}, /* combining half marks */
};

/* East Asian Wide and Fullwidth (Unicode Standard Annex 11), the larger blocks.  Checked against the Unicode Character
 * Database 14.0.0. */
static const struct character_range two_columns[] = {
    {0x1100, 0x115F},   /* Hangul initials */
    {0x2E80, 0x303E},   /* radicals, CJK punctuation */
    {0x3041, 0x3247},   /* kana, bopomofo, enclosed letters */
    {0x3250, 0x4DBF},   /* compatibility, ideographs of extension A */
    {0x4E00, 0xA4CF},   /* ideographs, Yi */
    {0xAC00, 0xD7A3},   /* Hangul syllables */
    {0xF900, 0xFAFF},   /* compatibility ideographs */
    {0xFE30, 0xFE6F},   /* vertical and small forms */
    {0xFF01, 0xFF60},   /* fullwidth forms */
    {0xFFE0, 0xFFE6},   /* fullwidth signs */
    {0x1F337, 0x1F37C}, /* pictographs: plants and food */
    {0x1F442, 0x1F4FC}, /* people and things */
    {0x1F4FF, 0x1F53D}, /* signs */
    {0x1F5FB, 0x1F64F}, /* places and faces */
    {0x1F90C, 0x1F93A}, /* gestures and sports */
    {0x1F947, 0x1F9FF}, /* things and animals */
    {0x20000, 0x2FFFD}, /* ideographs, supplementary planes */
    {0x30000, 0x3FFFD},
};

static bool within(uint32_t character, const struct character_range *ranges, size_t count) {
    for (size_t i = 0; i < count; i++)
        if (character >= ranges[i].first && character <= ranges[i].last)
            return true;
    return false;
}

size_t character_columns(uint32_t character) {
    if (character < 0x300)
        return 1;
    if (within(character, no_columns, sizeof no_columns / sizeof *no_columns))
        return 0;
    return within(character, two_columns, sizeof two_columns / sizeof *two_columns) ? 2 : 1;
}

size_t text_columns(const char *bytes, size_t length) {
    size_t columns = 0;
    for (size_t i = 0; i < length;) {
        uint32_t character;
        i += text_character(bytes + i, length - i, &character);
        columns += character_columns(character);
    }
    return columns;
}
