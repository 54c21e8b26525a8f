/* Points and directions, in the plane and in space. */
#ifndef CLEAT_METAL_VECTOR_H
#define CLEAT_METAL_VECTOR_H

#include <math.h>

struct flat {
    double x, y; /* m */
};

struct space {
    double x, y, z; /* m; of a direction: no unit */
};

static inline struct flat flat_add(struct flat a, struct flat b) {
    return (struct flat){a.x + b.x, a.y + b.y};
}
static inline struct flat flat_sub(struct flat a, struct flat b) {
    return (struct flat){a.x - b.x, a.y - b.y};
}
static inline struct flat flat_scale(struct flat a, double by) {
    return (struct flat){a.x * by, a.y * by};
}
static inline double flat_dot(struct flat a, struct flat b) {
    return a.x * b.x + a.y * b.y;
}
static inline double flat_cross(struct flat a, struct flat b) {
    return a.x * b.y - a.y * b.x;
}
static inline double flat_length(struct flat a) {
    return sqrt(a.x * a.x + a.y * a.y);
}
static inline double flat_distance(struct flat a, struct flat b) {
    return flat_length((struct flat){a.x - b.x, a.y - b.y});
}
/* A direction of length 1; (0, 0) stays. */
static inline struct flat flat_unit(struct flat a) {
    double length = flat_length(a);
    return length > 0 ? flat_scale(a, 1 / length) : a;
}
/* A quarter turn clockwise: to the right of a way taken, outward of a loop that goes anticlockwise. */
static inline struct flat flat_right(struct flat a) {
    return (struct flat){a.y, -a.x};
}
static inline struct flat flat_turn(struct flat a, double angle) {
    double c = cos(angle), s = sin(angle);
    return (struct flat){a.x * c - a.y * s, a.x * s + a.y * c};
}
/* The point `share` of the way from a to b. */
static inline struct flat flat_between(struct flat a, struct flat b, double share) {
    return (struct flat){a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share};
}

static inline struct space space_add(struct space a, struct space b) {
    return (struct space){a.x + b.x, a.y + b.y, a.z + b.z};
}
static inline struct space space_sub(struct space a, struct space b) {
    return (struct space){a.x - b.x, a.y - b.y, a.z - b.z};
}
static inline struct space space_scale(struct space a, double by) {
    return (struct space){a.x * by, a.y * by, a.z * by};
}
static inline double space_dot(struct space a, struct space b) {
    return a.x * b.x + a.y * b.y + a.z * b.z;
}
static inline struct space space_cross(struct space a, struct space b) {
    return (struct space){a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
static inline double space_length(struct space a) {
    return sqrt(space_dot(a, a));
}
static inline double space_distance(struct space a, struct space b) {
    return space_length(space_sub(a, b));
}
/* A direction of length 1; (0, 0, 0) stays. */
static inline struct space space_unit(struct space a) {
    double length = space_length(a);
    return length > 0 ? space_scale(a, 1 / length) : a;
}
static inline struct space space_between(struct space a, struct space b, double share) {
    return space_add(a, space_scale(space_sub(b, a), share));
}
/* How far a point stands off the line through a and b; 0 when those are one. */
static inline double space_off_line(struct space a, struct space b, struct space point) {
    double length = space_distance(a, b);
    return length > 0 ? space_length(space_cross(space_sub(b, a), space_sub(point, a))) / length : 0;
}

#endif
