/* Sheets set beside each other. */
#include "draw/sheet.h"

#include <math.h>

static void move(struct sheet *sheet, double right) {
    for (size_t i = 0; i < sheet->strokes.count; i++)
        for (size_t k = 0; k < sheet->strokes.at[i].count; k++)
            sheet->strokes.at[i].points[k].x += right;
    for (size_t i = 0; i < sheet->letters.count; i++)
        sheet->letters.at[i].box.centre.x += right;
}

struct sheet *sheets_beside(struct arena *arena, struct sheet *const *sheets, size_t count) {
    struct sheet *all = ARENA_NEW(arena, struct sheet);
    for (size_t i = 0; i < count; i++) {
        move(sheets[i], all->width);
        for (size_t k = 0; k < sheets[i]->strokes.count; k++)
            *list_add(arena, &all->strokes) = sheets[i]->strokes.at[k];
        for (size_t k = 0; k < sheets[i]->letters.count; k++)
            *list_add(arena, &all->letters) = sheets[i]->letters.at[k];
        all->width += sheets[i]->width;
        all->height = fmax(all->height, sheets[i]->height);
        all->ratio = sheets[i]->ratio;
    }
    return all;
}
