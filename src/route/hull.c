/* Convex bodies. */
#include "route/hull.h"

#include "base/constant.h"

static struct hull_end end_of(const struct frame *frame, struct duct_size size, double around) {
    double lesser = fmin(size.width, size.height);
    double radius = size.shape == SHAPE_RECTANGULAR ? 0 : lesser / 2 + around;
    double taken = size.shape == SHAPE_RECTANGULAR ? -2 * around : lesser;
    return (struct hull_end){
        .middle = frame->origin,
        .right = frame->right,
        .up = frame->up,
        .half_width = (size.width - taken) / 2,
        .half_height = (size.height - taken) / 2,
        .radius = radius,
    };
}

struct hull hull_of_stretch(const struct stretch *stretch) {
    return (struct hull){
        {end_of(&stretch->near, stretch->from, stretch->around), end_of(&stretch->far, stretch->to, stretch->around)}};
}

struct hull hull_of_box(const double low[3], const double high[3]) {
    struct hull hull;
    for (int i = 0; i < 2; i++)
        hull.ends[i] = (struct hull_end){
            .middle = {(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, i ? high[2] : low[2]},
            .right = {1, 0, 0},
            .up = {0, 1, 0},
            .half_width = (high[0] - low[0]) / 2,
            .half_height = (high[1] - low[1]) / 2,
        };
    return hull;
}

static struct space end_support(const struct hull_end *end, struct space way) {
    double right = space_dot(way, end->right), up = space_dot(way, end->up), flat = hypot(right, up);
    double x = copysign(end->half_width, right), y = copysign(end->half_height, up);
    if (flat > 0) {
        x += end->radius * right / flat;
        y += end->radius * up / flat;
    }
    return space_add(end->middle, space_add(space_scale(end->right, x), space_scale(end->up, y)));
}

struct space hull_support(const struct hull *hull, struct space way) {
    struct space near = end_support(&hull->ends[0], way), far = end_support(&hull->ends[1], way);
    return space_dot(near, way) >= space_dot(far, way) ? near : far;
}

void hull_bounds(const struct hull *hull, double low[3], double high[3]) {
    static const struct space axes[3] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
    for (int i = 0; i < 3; i++) {
        low[i] = space_dot(hull_support(hull, space_scale(axes[i], -1)), axes[i]);
        high[i] = space_dot(hull_support(hull, axes[i]), axes[i]);
    }
}

/* ---- Distance ---------------------------------------------------------------------------------------------------- */

/* Nearer than this, m, is touching; a step that gains less than this share is the last, and there are so many at most.
 * Chosen here, no source: far under what anybody measures, far over rounding. */
static const double touching = 1e-7, gained = 1e-9;
enum { STEPS = 200 };

/* Points of the difference of both bodies, whose nearest point to the origin is what we are after. */
struct simplex {
    int count;
    struct space at[4];
};

/* The shares of up to four points in the point of their flat that is nearest to the origin, by the normal equations;
 * false: they lie in less than that. */
static bool shares_of(const struct space *at, int count, double share[4]) {
    double m[3][4] = {{0}};
    int n = count - 1;
    for (int i = 0; i < n; i++) {
        struct space way = space_sub(at[i + 1], at[0]);
        for (int j = 0; j < n; j++)
            m[i][j] = space_dot(way, space_sub(at[j + 1], at[0]));
        m[i][n] = -space_dot(way, at[0]);
    }
    for (int i = 0; i < n; i++) {
        int pivot = i;
        for (int k = i + 1; k < n; k++)
            if (fabs(m[k][i]) > fabs(m[pivot][i]))
                pivot = k;
        if (fabs(m[pivot][i]) < 1e-18)
            return false;
        for (int j = 0; j <= n && pivot != i; j++) {
            double keep = m[i][j];
            m[i][j] = m[pivot][j];
            m[pivot][j] = keep;
        }
        for (int k = 0; k < n; k++) {
            double factor = k == i ? 0 : m[k][i] / m[i][i];
            for (int j = i; j <= n; j++)
                m[k][j] -= factor * m[i][j];
        }
    }
    share[0] = 1;
    for (int i = 0; i < n; i++) {
        share[i + 1] = m[i][n] / m[i][i];
        share[0] -= share[i + 1];
    }
    return true;
}

/* The nearest point of the simplex, by trying each of its corners, edges, faces and itself; the simplex is brought down
 * to what holds that point. */
static struct space nearest(struct simplex *simplex) {
    struct simplex best = {0};
    struct space found = {0, 0, 0};
    double least = INFINITY;
    for (unsigned set = 1; set < 1u << simplex->count; set++) {
        struct simplex part = {0};
        double share[4] = {0};
        for (int i = 0; i < simplex->count; i++)
            if (set & 1u << i)
                part.at[part.count++] = simplex->at[i];
        bool within = shares_of(part.at, part.count, share);
        struct space point = {0, 0, 0};
        for (int i = 0; i < part.count; i++) {
            within = within && share[i] >= 0;
            point = space_add(point, space_scale(part.at[i], share[i]));
        }
        double square = space_dot(point, point);
        /* All of space is the flat of four points, and the origin its own nearest; else they lie in one plane, nearly,
         * and the shares are nothing but rounding. */
        within = within && (part.count < 4 || square < touching * touching);
        if (within && square < least) {
            least = square;
            found = point;
            best = part;
        }
    }
    *simplex = best;
    return found;
}

static struct space difference(const struct hull *a, const struct hull *b, struct space way) {
    return space_sub(hull_support(a, way), hull_support(b, space_scale(way, -1)));
}

double hull_distance(const struct hull *a, const struct hull *b) {
    struct space at = space_sub(a->ends[0].middle, b->ends[0].middle);
    struct simplex simplex = {0};
    if (space_length(at) < touching)
        return 0;
    at = difference(a, b, space_scale(at, -1));
    simplex.at[simplex.count++] = at;
    for (int step = 0; step < STEPS; step++) {
        double length = space_length(at);
        if (length < touching)
            return 0;
        struct space next = difference(a, b, space_scale(at, -1));
        /* No point of the difference lies nearer than the plane through `next`, square to `at`. */
        if (length * length - space_dot(next, at) <= gained * length * length)
            return length;
        simplex.at[simplex.count++] = next;
        at = nearest(&simplex);
        if (simplex.count == 4)
            return 0; /* the origin is inside */
        if (!(space_length(at) < length))
            return length; /* no longer nearer: rounding */
    }
    return space_length(at);
}

/* ---- Overlap ----------------------------------------------------------------------------------------------------- */

/* How far they go into each other along a way of length 1; negative: they are apart along it. */
static double depth_along(const struct hull *a, const struct hull *b, struct space way) {
    struct space back = space_scale(way, -1);
    double forward = space_dot(hull_support(a, way), way) - space_dot(hull_support(b, back), way);
    double other = space_dot(hull_support(b, way), way) - space_dot(hull_support(a, back), way);
    return fmin(forward, other);
}

static void axes_of(const struct hull *hull, struct space axes[3]) {
    const struct hull_end *near = &hull->ends[0], *far = &hull->ends[1];
    axes[0] = near->right;
    axes[1] = near->up;
    axes[2] = space_cross(near->up, near->right);
    struct space way = space_sub(far->middle, near->middle);
    if (space_length(way) > touching)
        axes[2] = space_unit(way);
}

double hull_overlap(const struct hull *a, const struct hull *b) {
    struct space axes[2][3], ways[15];
    int count = 0;
    axes_of(a, axes[0]);
    axes_of(b, axes[1]);
    for (int i = 0; i < 3; i++) {
        ways[count++] = axes[0][i];
        ways[count++] = axes[1][i];
        for (int j = 0; j < 3; j++) {
            struct space across = space_cross(axes[0][i], axes[1][j]);
            if (space_length(across) > 1e-6)
                ways[count++] = space_unit(across);
        }
    }
    double least = INFINITY;
    for (int i = 0; i < count; i++)
        least = fmin(least, depth_along(a, b, ways[i]));
    return fmax(least, 0);
}

struct space hull_meeting(const struct hull *a, const struct hull *b) {
    double a_low[3], a_high[3], b_low[3], b_high[3], at[3];
    hull_bounds(a, a_low, a_high);
    hull_bounds(b, b_low, b_high);
    for (int i = 0; i < 3; i++)
        at[i] = (fmax(a_low[i], b_low[i]) + fmin(a_high[i], b_high[i])) / 2;
    return (struct space){at[0], at[1], at[2]};
}
