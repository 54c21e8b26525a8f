/* Boxes that stand askew: whether they meet each other or a line. */
#include <math.h>

#include "draw/obstacles.h"

struct sheet_box box_grown(struct sheet_box box, double by) {
    box.half_width += by;
    box.half_height += by;
    return box;
}

void box_corners(struct sheet_box box, struct spot corners[4]) {
    static const double signs[4][2] = {{-1, -1}, {1, -1}, {1, 1}, {-1, 1}};
    for (int i = 0; i < 4; i++) {
        double u = signs[i][0] * box.half_width, v = signs[i][1] * box.half_height;
        corners[i] = (struct spot){box.centre.x + u * box.along.x - v * box.along.y,
                                   box.centre.y + u * box.along.y + v * box.along.x};
    }
}

/* The half length of the box's shadow on `axis`. */
static double reach(struct sheet_box box, struct spot axis) {
    return box.half_width * fabs(box.along.x * axis.x + box.along.y * axis.y) +
           box.half_height * fabs(box.along.x * axis.y - box.along.y * axis.x);
}

/* Two boxes are apart when their shadows on some side's direction are. */
bool box_meets_box(struct sheet_box a, struct sheet_box b) {
    const struct spot axes[4] = {a.along, {-a.along.y, a.along.x}, b.along, {-b.along.y, b.along.x}};
    for (int i = 0; i < 4; i++) {
        double apart = (b.centre.x - a.centre.x) * axes[i].x + (b.centre.y - a.centre.y) * axes[i].y;
        if (fabs(apart) >= reach(a, axes[i]) + reach(b, axes[i]))
            return false;
    }
    return true;
}

/* Narrows [*enter, *leave] to where |start + t step| < half. */
static bool clip(double start, double step, double half, double *enter, double *leave) {
    if (step == 0)
        return fabs(start) < half;
    double one = (-half - start) / step, other = (half - start) / step;
    *enter = fmax(*enter, fmin(one, other));
    *leave = fmin(*leave, fmax(one, other));
    return *enter < *leave;
}

bool box_meets_line(struct sheet_box box, struct spot from, struct spot to, double *enter, double *leave) {
    double x = from.x - box.centre.x, y = from.y - box.centre.y, dx = to.x - from.x, dy = to.y - from.y;
    *enter = 0;
    *leave = 1;
    return clip(x * box.along.x + y * box.along.y, dx * box.along.x + dy * box.along.y, box.half_width, enter, leave) &&
           clip(y * box.along.x - x * box.along.y, dy * box.along.x - dx * box.along.y, box.half_height, enter, leave);
}
