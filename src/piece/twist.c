/* The free section of a transition whose far end is turned, and how sharply its sides are broken. */
#include "piece/twist.h"

#include <math.h>

enum { CORNERS = 4, SECTIONS = 32 };

/* A side's two edges run from near to far with its corners; its diagonal stands between them. */
struct twisted {
    struct space near[CORNERS], far[CORNERS];
    struct space from[CORNERS], to[CORNERS]; /* the diagonals, from the near end to the far one */
};

static struct space corner(int k, struct shape_duct duct, const struct change_shape *end) {
    static const int right[CORNERS] = {1, -1, -1, 1}, up[CORNERS] = {1, 1, -1, -1};
    double x = right[k] * duct.width / 2, z = up[k] * duct.height / 2;
    if (!end)
        return (struct space){x, 0, z};
    double c = cos(end->turned), s = sin(end->turned);
    return (struct space){x * c + z * s + end->right, end->length, z * c - x * s + end->up};
}

static struct twisted twisted_of(const struct change_shape *shape) {
    struct twisted twisted;
    for (int k = 0; k < CORNERS; k++) {
        twisted.near[k] = corner(k, shape->near, NULL);
        twisted.far[k] = corner(k, shape->far, shape);
    }
    for (int k = 0; k < CORNERS; k++) {
        int next = (k + 1) % CORNERS;
        bool onward =
            space_distance(twisted.near[k], twisted.far[next]) < space_distance(twisted.near[next], twisted.far[k]);
        twisted.from[k] = twisted.near[onward ? k : next];
        twisted.to[k] = twisted.far[onward ? next : k];
    }
    return twisted;
}

/* The bend between the triangles on both sides of a diagonal. */
static double bend(const struct twisted *twisted, int k) {
    int next = (k + 1) % CORNERS;
    struct space from = twisted->from[k], way = space_sub(twisted->to[k], from);
    bool onward = space_distance(from, twisted->near[k]) == 0;
    struct space one = space_cross(way, space_sub(twisted->near[onward ? next : k], from));
    struct space other = space_cross(space_sub(twisted->far[onward ? k : next], from), way);
    return atan2(sqrt(space_dot(space_cross(one, other), space_cross(one, other))), space_dot(one, other));
}

/* Of the section at a share of the length; less than 0 where it crosses itself. */
static double section_area(const struct twisted *twisted, double share) {
    struct space at[2 * CORNERS];
    double twice = 0;
    for (int k = 0; k < CORNERS; k++) {
        at[2 * k] = space_between(twisted->near[k], twisted->far[k], share);
        at[2 * k + 1] = space_between(twisted->from[k], twisted->to[k], share);
    }
    for (int i = 0; i < 2 * CORNERS; i++) {
        struct space a = at[i], b = at[(i + 1) % (2 * CORNERS)];
        twice += a.x * b.z - b.x * a.z;
    }
    return twice / 2;
}

struct twist twist_of(const struct change_shape *shape) {
    struct twisted twisted = twisted_of(shape);
    struct twist twist = {.open = 1};
    for (int k = 0; k < CORNERS; k++)
        twist.broken = fmax(twist.broken, bend(&twisted, k));
    double smaller = fmin(section_area(&twisted, 0), section_area(&twisted, 1));
    for (int i = 1; i < SECTIONS; i++)
        twist.open = fmin(twist.open, section_area(&twisted, (double)i / SECTIONS) / smaller);
    return twist;
}
