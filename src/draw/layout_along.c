/* Texts along a line. */
#include <math.h>

#include "draw/layout.h"

/* Upright or read from the right. */
static struct spot reading(struct spot from, struct spot to, double length) {
    struct spot along = {(to.x - from.x) / length, (to.y - from.y) / length};
    bool turned = along.x < -1e-9 || (along.x < 1e-9 && along.y > 0);
    return turned ? (struct spot){-along.x, -along.y} : along;
}

/* The middle first. */
static const double shares[LAYOUT_SHARES] = {0.5, 0.38, 0.62, 0.26, 0.74, 0.15, 0.85};

struct spot layout_share(struct spot from, struct spot to, size_t share) {
    return (struct spot){from.x + shares[share] * (to.x - from.x), from.y + shares[share] * (to.y - from.y)};
}

bool layout_off(struct layout *layout, struct sheet_letters letters, struct spot from, struct spot to, double off) {
    double length = hypot(to.x - from.x, to.y - from.y);
    if (length < 2 * letters.box.half_width)
        return false;
    struct spot along = letters.box.along = reading(from, to, length);
    for (size_t i = 0; i < LAYOUT_SHARES; i++)
        for (int side = 1; side >= -1; side -= 2) { /* above first */
            double edge = fmin(shares[i], 1 - shares[i]) * length;
            struct spot on = layout_share(from, to, i);
            letters.box.centre = (struct spot){on.x + side * off * along.y, on.y - side * off * along.x};
            if (edge >= letters.box.half_width && layout_is_free(layout, letters.box)) {
                layout_letters(layout, letters);
                return true;
            }
        }
    return false;
}

bool layout_along(struct layout *layout, struct sheet_letters letters, struct spot from, struct spot to) {
    return layout_off(layout, letters, from, to, letters.box.half_height + LAYOUT_CLEAR);
}
