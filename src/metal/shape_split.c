/* What all splits share: sizes, lengths, hints. */
#include "metal/shape_split.h"

#include "metal/shape.h"

struct profile split_boxed(struct profile profile) {
    return (struct profile){profile.width, profile.height, 0};
}

/* Common practice, no source. */
static const double steepest = 30 * DEGREE;

double split_reach(double aside) {
    return fabs(aside) / tan(steepest);
}

double split_whole(double length) {
    return ceil(length / INCH - 1e-6) * INCH;
}

const char *split_hint(struct arena *arena, enum measure_system system, const char *style, double enough) {
    return arena_format(arena, "split %s over %s", style, enough_length(arena, system, enough));
}

/* The middle of a rounded corner lies (sqrt 2 - 1) r inside the sharp one. */
static double corner_move(struct profile from, struct profile to) {
    return (sqrt(2) - 1) * fabs(from.radius - to.radius);
}

double split_change(struct profile from, struct profile to, double aside) {
    double across = fabs(from.width - to.width) / 2 + fabs(aside), up = fabs(from.height - to.height) / 2;
    double most = fmax(fmax(across, up), corner_move(from, to));
    return most <= SAME_POINT ? 0 : split_whole(fmax(split_reach(most), SPLIT_END));
}
