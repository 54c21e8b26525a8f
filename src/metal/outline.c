/* The border of a section: its corners and sides, where a tube has its seams, plates over its ends. */
#include "metal/outline.h"

struct profile profile_of(struct duct_size size) {
    struct profile section = {size.width, size.height, 0};
    if (size.shape != SHAPE_RECTANGULAR)
        section.radius = fmin(size.width, size.height) / 2;
    return section;
}

struct duct_size profile_size(struct profile section) {
    struct duct_size size = {SHAPE_RECTANGULAR, section.width, section.height};
    if (section.radius > SAME_POINT)
        size.shape = fabs(section.width - section.height) <= SAME_POINT ? SHAPE_ROUND : SHAPE_OVAL;
    return size;
}

/* ---- The border of a section ------------------------------------------------------------------------------------- */

const char *const outline_names[SIDES] = {"top", "left side", "bottom", "right side"};

int outline_turn(int k) {
    return ((k % SIDES) + SIDES) % SIDES;
}

struct space outline_centre(const struct frame *frame, struct profile section, int k) {
    double right = section.width / 2 - section.radius, up = section.height / 2 - section.radius;
    k = outline_turn(k);
    return frame_point(frame, k == 0 || k == 3 ? right : -right, 0, k < 2 ? up : -up);
}

/* Where corner k begins, and with `end` where it ends: the ends of its sides. */
struct space outline_point(const struct frame *frame, struct profile section, int k, bool end) {
    static const double cosine[SIDES] = {1, 0, -1, 0}, sine[SIDES] = {0, 1, 0, -1};
    int at = outline_turn(end ? k + 1 : k);
    struct space out = frame_way(frame, cosine[at] * section.radius, 0, sine[at] * section.radius);
    return space_add(outline_centre(frame, section, k), out);
}

struct arc outline_arc(const struct frame *frame, struct profile section, int k, int corners) {
    return (struct arc){
        .centre = outline_centre(frame, section, k),
        .u = frame->right,
        .v = frame->up,
        .radius = section.radius,
        .from = k * PI / 2,
        .to = (k + corners) * PI / 2,
    };
}

/* Whether side k has no length. */
bool outline_closed(struct profile section, int k) {
    bool across = outline_turn(k) == SIDE_TOP_OF || outline_turn(k) == SIDE_BOTTOM_OF;
    return (across ? section.width : section.height) - 2 * section.radius <= SAME_POINT;
}

static double side_length(struct profile section, int k) {
    bool across = outline_turn(k) == SIDE_TOP_OF || outline_turn(k) == SIDE_BOTTOM_OF;
    return across ? section.width : section.height;
}

/* ---- What a tube is made of: flat sides, and corners between them; corners with no side between are one ---------- */

struct outline outline_of(struct profile from, struct profile to, enum wrap wrap, double moved) {
    struct outline outline = {.from = from, .to = to, .round = true};
    outline.sharp = from.radius <= SAME_POINT && to.radius <= SAME_POINT;
    for (int k = 0; k < SIDES; k++) {
        outline.open[k] = !outline_closed(from, k) || !outline_closed(to, k);
        outline.round = outline.round && !outline.open[k];
    }
    /* The lower right corner, or the bottom; where there is no flat bottom, the right side. */
    int first = outline.sharp ? 3 : SIDE_BOTTOM_OF;
    if (!outline.sharp && !outline.round && !outline.open[first])
        first = SIDE_RIGHT_OF;
    first = outline_turn(first + (int)moved);
    if (!outline.sharp && !outline.round &&
        !outline.open[first]) /* an oval has two flat sides: the seam goes into one */
        first = outline_turn(first + 1);
    outline.seam[first] = true;
    if (wrap != WRAP_ONE)
        outline.seam[outline_turn(first + 2)] = true;
    if (wrap == WRAP_SIDES && outline.sharp)
        outline.seam[outline_turn(first + 1)] = outline.seam[outline_turn(first + 3)] = true;
    return outline;
}

/* The pocket of a seam at corner k, between side k - 1 and side k, stands on the narrower side; between equal ones on
 * the left or right (common practice: the pocket goes on the narrow strip).  Straight duct of four sides has its
 * pockets on the top and bottom. */
static bool pocket_before(const struct outline *outline, int k) {
    if (outline->pockets_across)
        return outline_turn(k - 1) == SIDE_TOP_OF || outline_turn(k - 1) == SIDE_BOTTOM_OF;
    double before = side_length(outline->from, k - 1), behind = side_length(outline->from, k);
    if (fabs(before - behind) > SAME_POINT)
        return before < behind;
    return outline_turn(k - 1) == SIDE_LEFT_OF || outline_turn(k - 1) == SIDE_RIGHT_OF;
}

/* What the tube's lengthwise edge is at the end of side k where its anticlockwise neighbour begins (`after`), or at its
 * beginning. */
struct quad_edge outline_edge(const struct outline *outline, int k, bool after) {
    if (!outline->sharp)
        return (struct quad_edge){JOIN_SMOOTH, NO_PORT, false};
    int corner = after ? k + 1 : k;
    bool seam = outline->seam[outline_turn(corner)];
    bool pocket = seam && pocket_before(outline, corner) == after;
    return (struct quad_edge){seam ? JOIN_SEAM : JOIN_BEND, NO_PORT, pocket};
}

struct quad_edge outline_end(const struct tube_end *end) {
    return (struct quad_edge){end->join, end->port, end->pocket};
}

/* Corners from `k` on that have no side between them: 1 to 4. */
static int corners_from(const struct outline *outline, int k) {
    int corners = 1;
    while (corners < SIDES && !outline->open[outline_turn(k + corners - 1)])
        corners++;
    return corners;
}

/* Calls `add` for each run of corners that is rolled as one: those between two flat sides, or, all round, between two
 * seams. */
void outline_corners(const struct outline *outline, void *what,
                     void (*add)(void *what, int k, int corners, enum join from, enum join to)) {
    if (outline->sharp)
        return;
    for (int k = 0; k < SIDES; k++) {
        bool begins = outline->round ? outline->seam[outline_turn(k - 1)] : outline->open[outline_turn(k - 1)];
        if (!begins)
            continue;
        int corners = 1;
        enum join join = outline->round ? JOIN_SEAM : JOIN_SMOOTH;
        if (outline->round)
            while (!outline->seam[outline_turn(k + corners - 1)])
                corners++;
        else
            corners = corners_from(outline, k);
        add(what, k, corners, join, join);
    }
}

void outline_roll(struct roll *roll, const struct tube_end *near, const struct tube_end *far, enum join from,
                  enum join to) {
    roll->near_join = near->join;
    roll->near_port = near->port;
    roll->near_pocket = near->pocket;
    roll->far_join = far->join;
    roll->far_port = far->port;
    roll->far_pocket = far->pocket;
    roll->from_join = from;
    roll->to_join = to;
    roll->from_pocket = from == JOIN_SEAM;
}

/* ---- Plates and borders ------------------------------------------------------------------------------------------ */

/* Back along side k. The usual tube is one blank with its seam in the middle of the bottom or, without a flat bottom,
 * of its own right side, which from where a plate is seen is the left: the plate's border is parted there like the
 * tube's. */
static void plate_side(struct plane *plane, const struct frame *frame, struct profile section, int k, enum join join,
                       int port) {
    struct space to = outline_point(frame, section, k, true);
    int seam = outline_closed(section, SIDE_BOTTOM_OF) ? SIDE_LEFT_OF : SIDE_BOTTOM_OF;
    if (join == JOIN_SEAM && section.radius > SAME_POINT && k == seam)
        plane_line(plane, space_between(plane->at, to, 0.5), join, port);
    plane_line(plane, to, join, port);
}

/* Clockwise in the frame: anticlockwise for who looks from where `along` points. */
int solid_plate(struct solid *solid, const struct frame *frame, struct profile section, const char *name,
                enum join join, int port) {
    struct outline outline = outline_of(section, section, WRAP_ONE, 0);
    int start = outline.round ? 3 : 0, done = 0;
    while (!outline.round && !outline.open[outline_turn(start - 1)])
        start++;
    struct plane plane = plane_begin(solid, name, outline_point(frame, section, start - 1, true));
    while (done < SIDES) {
        /* Backward: the corners before this point, then the side before them. */
        int corners = 1;
        while (done + corners < SIDES && !outline.open[outline_turn(start - done - corners - 1)])
            corners++;
        int first = start - done - corners;
        if (section.radius > SAME_POINT)
            plane_arc(&plane, outline_centre(frame, section, first), frame->along, corners * PI / 2, join, port);
        if (outline.open[outline_turn(first - 1)])
            plate_side(&plane, frame, section, outline_turn(first - 1), join, port);
        done += corners;
    }
    return plane_end(&plane, join, port);
}

struct space *profile_points(const struct solid *solid, const struct frame *frame, struct profile section,
                             size_t *count) {
    size_t parts = section.radius > SAME_POINT ? solid_divisions(solid, section.radius, PI / 2) : 0;
    struct space *points = ARENA_ARRAY(solid->arena, struct space, SIDES * (parts + 1));
    size_t made = 0;
    for (int k = 0; k < SIDES; k++) {
        struct arc arc = outline_arc(frame, section, k, 1);
        bool side = !outline_closed(section, k);
        for (size_t i = 0; i < parts + (side || !parts); i++) {
            double t = arc.from + (arc.to - arc.from) * (double)i / (double)(parts ? parts : 1);
            points[made++] = space_add(arc.centre, space_add(space_scale(arc.u, arc.radius * cos(t)),
                                                             space_scale(arc.v, arc.radius * sin(t))));
        }
    }
    *count = made;
    return points;
}
