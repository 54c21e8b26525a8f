/* Figures for tests: an arena for each test, sizes in inches, and what must hold of every sheet. */
#ifndef TESTS_UNIT_DRAW_BENCH_H
#define TESTS_UNIT_DRAW_BENCH_H

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/constant.h"
#include "draw/obstacles.h"

struct bench {
    struct arena *arena;
    jmp_buf full;
};

static inline int bench_setup(void **state) {
    struct bench *bench = calloc(1, sizeof *bench);
    *state = bench;
    if (!bench || !(bench->arena = arena_new(NULL)))
        return -1;
    if (setjmp(bench->full))
        abort();
    arena_on_failure(bench->arena, &bench->full);
    return 0;
}

static inline int bench_teardown(void **state) {
    struct bench *bench = *state;
    arena_free(bench->arena);
    free(bench);
    return 0;
}

/* A place in inches. */
static inline struct spot inches(double x, double y) {
    return (struct spot){x * INCH, y * INCH};
}

/* The next of a series of numbers from 0 to 1 (xorshift64). */
static inline double chance(uint64_t *seed) {
    *seed ^= *seed << 13;
    *seed ^= *seed >> 7;
    *seed ^= *seed << 17;
    return (double)(*seed >> 11) / 9007199254740992.0;
}

static inline const struct sheet_letters *letters_find(const struct sheet *sheet, const char *text) {
    for (size_t i = 0; i < sheet->letters.count; i++)
        if (strcmp(sheet->letters.at[i].text, text) == 0)
            return &sheet->letters.at[i];
    return NULL;
}

/* Whether the text stands on the sheet, alone or in a longer one. */
static inline bool letters_shown(const struct sheet *sheet, const char *text) {
    for (size_t i = 0; i < sheet->letters.count; i++)
        if (strstr(sheet->letters.at[i].text, text))
            return true;
    return false;
}

static inline void assert_on_page(const struct sheet *sheet, struct spot at) {
    if (!(at.x >= 0 && at.y >= 0 && at.x <= sheet->width && at.y <= sheet->height))
        fail_msg("(%g, %g) is off the page of %g x %g", at.x, at.y, sheet->width, sheet->height);
}

static inline void assert_box_clear_of_stroke(const struct sheet_letters *letters, const struct sheet_stroke *stroke) {
    double enter, leave;
    if (stroke->stroke == STROKE_NONE && stroke->shade != SHADE_INK)
        return;
    for (size_t i = 0; i < stroke->count; i++)
        if ((i > 0 || stroke->closed) && box_meets_line(letters->box, stroke->points[i ? i - 1 : stroke->count - 1],
                                                        stroke->points[i], &enter, &leave))
            fail_msg("'%s' lies on a line to (%g, %g)", letters->text, stroke->points[i].x, stroke->points[i].y);
}

/* No text on a text or a line, nothing off the page: each against each, without the grid of the layout. */
static inline void assert_sheet_clear(const struct sheet *sheet) {
    for (size_t i = 0; i < sheet->strokes.count; i++)
        for (size_t j = 0; j < sheet->strokes.at[i].count; j++)
            assert_on_page(sheet, sheet->strokes.at[i].points[j]);
    for (size_t i = 0; i < sheet->letters.count; i++) {
        const struct sheet_letters *letters = &sheet->letters.at[i];
        struct spot corners[4];
        box_corners(letters->box, corners);
        for (int j = 0; j < 4; j++)
            assert_on_page(sheet, corners[j]);
        for (size_t j = 0; j < i; j++)
            if (box_meets_box(letters->box, sheet->letters.at[j].box))
                fail_msg("'%s' lies on '%s'", letters->text, sheet->letters.at[j].text);
        for (size_t j = 0; j < sheet->strokes.count; j++)
            assert_box_clear_of_stroke(letters, &sheet->strokes.at[j]);
    }
}

#endif
