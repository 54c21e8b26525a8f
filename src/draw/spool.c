/* Pages in a temporary file, which no other process sees. */
#include "draw/spool.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* What was read last; grows to the largest there is. */
struct room {
    char *bytes;
    size_t size;
};

struct spool {
    FILE *file;
    size_t pages;
    bool failed;
    struct room text, strokes, points, letters, words;
    struct sheet sheet;
};

/* A drawing as it stands in the file: this, then its strokes, all their points, its letters, all their texts. */
struct sheet_head {
    struct sheet sheet;
    size_t points, words;
};

struct spool *spool_new(void) {
    struct spool *spool = calloc(1, sizeof *spool);
    if (spool)
        spool->file = tmpfile();
    if (spool && spool->file)
        return spool;
    free(spool);
    return NULL;
}

void spool_free(struct spool *spool) {
    if (!spool)
        return;
    fclose(spool->file);
    free(spool->text.bytes);
    free(spool->strokes.bytes);
    free(spool->points.bytes);
    free(spool->letters.bytes);
    free(spool->words.bytes);
    free(spool);
}

size_t spool_pages(const struct spool *spool) {
    return spool->pages;
}

bool spool_sound(const struct spool *spool) {
    return !spool->failed;
}

/* ---- Writing ----------------------------------------------------------------------------------------------------- */

static void put(struct spool *spool, const void *bytes, size_t size) {
    if (size && fwrite(bytes, 1, size, spool->file) != size)
        spool->failed = true;
}

void spool_put(struct spool *spool, struct spool_mark mark, const char *text) {
    if (mark.kind == SPOOL_PAGE)
        spool->pages++;
    put(spool, &mark, sizeof mark);
    if (text)
        put(spool, text, mark.length);
}

void spool_sheet(struct spool *spool, const struct sheet *sheet, double x, double y, double scale) {
    spool_put(spool, (struct spool_mark){.kind = SPOOL_SHEET, .x = x, .y = y, .size = scale}, NULL);
    struct sheet_head head = {.sheet = *sheet};
    for (size_t i = 0; i < sheet->strokes.count; i++)
        head.points += sheet->strokes.at[i].count;
    for (size_t i = 0; i < sheet->letters.count; i++)
        head.words += strlen(sheet->letters.at[i].text) + 1;
    put(spool, &head, sizeof head);
    put(spool, sheet->strokes.at, sheet->strokes.count * sizeof *sheet->strokes.at);
    for (size_t i = 0; i < sheet->strokes.count; i++)
        put(spool, sheet->strokes.at[i].points, sheet->strokes.at[i].count * sizeof(struct spot));
    put(spool, sheet->letters.at, sheet->letters.count * sizeof *sheet->letters.at);
    for (size_t i = 0; i < sheet->letters.count; i++)
        put(spool, sheet->letters.at[i].text, strlen(sheet->letters.at[i].text) + 1);
}

/* ---- Reading ----------------------------------------------------------------------------------------------------- */

bool spool_rewind(struct spool *spool) {
    if (fflush(spool->file) != 0 || fseek(spool->file, 0, SEEK_SET) != 0)
        spool->failed = true;
    return !spool->failed;
}

static bool get(struct spool *spool, void *bytes, size_t size) {
    if (size && fread(bytes, 1, size, spool->file) != size)
        spool->failed = true;
    return !spool->failed;
}

/* Reads `size` bytes into the room, with a 0 behind them; NULL: a failure. */
static void *get_into(struct spool *spool, struct room *room, size_t size) {
    if (size >= room->size) {
        char *bytes = realloc(room->bytes, 2 * size + 64);
        if (!bytes) {
            spool->failed = true;
            return NULL;
        }
        room->bytes = bytes;
        room->size = 2 * size + 64;
    }
    room->bytes[size] = 0;
    return get(spool, room->bytes, size) ? room->bytes : NULL;
}

bool spool_next(struct spool *spool, struct spool_mark *mark, const char **text) {
    size_t read = fread(mark, 1, sizeof *mark, spool->file);
    if (read != sizeof *mark) {
        spool->failed = spool->failed || read > 0 || ferror(spool->file);
        return false;
    }
    *text = get_into(spool, &spool->text, mark->length);
    return *text;
}

/* The addresses that the file has of points and texts are those of what was written: they are set anew. */
const struct sheet *spool_read_sheet(struct spool *spool) {
    struct sheet_head head;
    if (!get(spool, &head, sizeof head))
        return NULL;
    struct sheet *sheet = &spool->sheet;
    *sheet = head.sheet;
    sheet->strokes.at = get_into(spool, &spool->strokes, sheet->strokes.count * sizeof *sheet->strokes.at);
    struct spot *points = get_into(spool, &spool->points, head.points * sizeof *points);
    sheet->letters.at = get_into(spool, &spool->letters, sheet->letters.count * sizeof *sheet->letters.at);
    const char *words = get_into(spool, &spool->words, head.words);
    if (!sheet->strokes.at || !points || !sheet->letters.at || !words)
        return NULL;
    for (size_t i = 0; i < sheet->strokes.count; i++) {
        sheet->strokes.at[i].points = points;
        points += sheet->strokes.at[i].count;
    }
    for (size_t i = 0; i < sheet->letters.count; i++) {
        sheet->letters.at[i].text = words;
        words += strlen(words) + 1;
    }
    return sheet;
}
