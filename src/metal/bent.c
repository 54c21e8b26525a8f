/* Bent ducts: cheeks with strips between them, and mitred pieces. */
#include "metal/bent.h"

struct profile section_for_way(struct shape_duct duct, double way) {
    struct profile section = profile_of(shape_duct_size(duct));
    if ((int)way == WAY_LEFT || (int)way == WAY_RIGHT)
        return section;
    return (struct profile){section.height, section.width, section.radius};
}

bool flat_throat(struct profile section) {
    return section.radius > SAME_POINT && section.height > section.width + 2 * SAME_POINT;
}

/* ---- Courses ----------------------------------------------------------------------------------------------------- */

static bool is_arc(const struct step *step) {
    return step->radius * fabs(step->turn) > SAME_POINT;
}

/* The middle of the turn that begins at `frame`. */
static struct frame turn_centre(const struct frame *frame, double radius, double turn) {
    return frame_moved(frame, turn > 0 ? -radius : radius, 0, 0);
}

static struct frame after_turn(const struct frame *frame, const struct step *step) {
    if (!is_arc(step))
        return frame_turned(frame, step->turn);
    struct frame centre = turn_centre(frame, step->radius, step->turn);
    struct frame turned = frame_turned(&centre, step->turn);
    return turn_centre(&turned, step->radius, -step->turn);
}

static struct frame after_step(const struct frame *frame, const struct step *step) {
    struct frame straight = frame_moved(frame, 0, step->length, 0);
    return after_turn(&straight, step);
}

struct frame course_end(const struct frame *frame, struct course course) {
    struct frame at = *frame;
    for (size_t i = 0; i < course.count; i++)
        at = after_step(&at, &course.steps[i]);
    return at;
}

/* ---- Cheeks ------------------------------------------------------------------------------------------------------ */

/* A straight or an arc of a course. */
struct stretch {
    struct frame from, to;
    double radius, turn; /* of an arc; 0 when straight */
    bool corner;         /* the course turns sharply before it */
};

struct stretches {
    LIST(struct stretch) list;
};

static struct stretches stretches_of(struct arena *arena, const struct frame *from, struct course course) {
    struct stretches made = {0};
    struct frame at = *from;
    double turned = 0;
    for (size_t i = 0; i < course.count; i++) {
        const struct step *step = &course.steps[i];
        struct frame straight = frame_moved(&at, 0, step->length, 0);
        if (step->length > SAME_POINT) {
            *list_add(arena, &made.list) = (struct stretch){at, straight, 0, 0, fabs(turned) > 1e-12};
            turned = 0;
        }
        at = after_turn(&straight, step);
        if (is_arc(step)) {
            *list_add(arena, &made.list) =
                (struct stretch){straight, at, step->radius, step->turn, fabs(turned) > 1e-12};
            turned = 0;
        } else {
            turned += step->turn;
        }
    }
    return made;
}

struct cheek_making {
    struct solid *solid;
    const struct cheeks *cheeks;
    struct stretches left, right;
};

static struct space raised(const struct frame *frame, double up) {
    return frame_point(frame, 0, 0, up);
}

static void along_stretch(struct plane *plane, const struct stretch *stretch, double up, bool back, const char *name) {
    const struct frame *to = back ? &stretch->from : &stretch->to;
    if (stretch->radius > 0) {
        struct frame centre = turn_centre(&stretch->from, stretch->radius, stretch->turn);
        double angle = back ? -stretch->turn : stretch->turn;
        plane_arc(plane, raised(&centre, up), stretch->from.up, angle, JOIN_SEAM, NO_PORT);
    } else {
        plane_line(plane, raised(to, up), JOIN_SEAM, NO_PORT);
    }
    plane_name(plane, name);
}

static void along_side(struct plane *plane, const struct stretches *side, double up, bool back, const char *name) {
    size_t count = side->list.count;
    for (size_t i = 0; i < count; i++)
        along_stretch(plane, &side->list.at[back ? count - 1 - i : i], up, back, name);
}

/* Out along one side, back along the other: the lower cheek out along the right side, the upper along the left. */
static void add_cheek(const struct cheek_making *making, bool upper) {
    const struct cheeks *cheeks = making->cheeks;
    const struct stretches *out = upper ? &making->left : &making->right;
    const struct stretches *back = upper ? &making->right : &making->left;
    double up = upper ? cheeks->depth / 2 : -cheeks->depth / 2;
    struct plane plane = plane_begin(making->solid, "cheek", raised(&back->list.at[0].from, up));
    plane_line(&plane, raised(&out->list.at[0].from, up), JOIN_PORT, cheeks->near_port);
    along_side(&plane, out, up, false, upper ? cheeks->left_name : cheeks->right_name);
    plane_line(&plane, raised(&back->list.at[back->list.count - 1].to, up), JOIN_PORT, cheeks->far_port);
    along_side(&plane, back, up, true, upper ? cheeks->right_name : cheeks->left_name);
    plane_end(&plane, JOIN_SEAM, NO_PORT);
}

/* What a part of a strip is joined by at its ends. */
struct strip_ends {
    enum join from, to;
    int from_port, to_port;
};

static enum join join_before(const struct stretch *stretch) {
    return stretch->corner ? JOIN_BEND : JOIN_SMOOTH;
}

static struct strip_ends strip_ends(const struct cheek_making *making, const struct stretches *side, size_t i) {
    struct strip_ends ends = {JOIN_PORT, JOIN_PORT, NO_PORT, NO_PORT};
    if (i == 0)
        ends.from_port = making->cheeks->near_port;
    else
        ends.from = join_before(&side->list.at[i]);
    if (i + 1 == side->list.count)
        ends.to_port = making->cheeks->far_port;
    else
        ends.to = join_before(&side->list.at[i + 1]);
    return ends;
}

static void straight_strip(struct solid *solid, const struct stretch *stretch, const char *name, double up,
                           struct strip_ends ends) {
    struct plane plane = plane_begin(solid, name, raised(&stretch->from, up));
    static const struct quad_edge pocket = {JOIN_SEAM, NO_PORT, true};
    plane_edge(&plane, raised(&stretch->to, up), pocket);
    plane_line(&plane, raised(&stretch->to, -up), ends.to, ends.to_port);
    plane_edge(&plane, raised(&stretch->from, -up), pocket);
    plane_end(&plane, ends.from, ends.from_port);
}

static void rolled_strip(struct solid *solid, const struct stretch *stretch, const char *name, double up,
                         struct strip_ends ends) {
    struct frame centre = turn_centre(&stretch->from, stretch->radius, stretch->turn);
    struct roll roll = {
        .name = name,
        .arc = {.centre = raised(&centre, up),
                .u = frame_way(&stretch->from, stretch->turn > 0 ? 1 : -1, 0, 0),
                .v = stretch->from.along,
                .radius = stretch->radius,
                .to = fabs(stretch->turn)},
        .way = frame_way(&stretch->from, 0, 0, up > 0 ? -1 : 1),
        .near = {.kind = CUT_ARC},
        .far = {.kind = CUT_PLANE, .point = raised(&centre, -up), .way = stretch->from.up},
        .divisions = solid_divisions(solid, stretch->radius, stretch->turn),
        .near_join = JOIN_SEAM,
        .far_join = JOIN_SEAM,
        .from_join = ends.from,
        .to_join = ends.to,
        .near_port = NO_PORT,
        .far_port = NO_PORT,
        .from_port = ends.from_port,
        .to_port = ends.to_port,
        .near_pocket = true,
        .far_pocket = true,
    };
    solid_roll(solid, &roll);
}

/* A strip begins at the lower cheek on the left, at the upper on the right: so it is seen from the inside. */
static void add_strip(const struct cheek_making *making, const struct stretches *side, const char *name, double up) {
    for (size_t i = 0; i < side->list.count; i++) {
        const struct stretch *stretch = &side->list.at[i];
        struct strip_ends ends = strip_ends(making, side, i);
        if (stretch->radius > 0)
            rolled_strip(making->solid, stretch, name, up, ends);
        else
            straight_strip(making->solid, stretch, name, up, ends);
    }
}

void solid_cheeks(struct solid *solid, const struct cheeks *cheeks) {
    struct frame left = frame_moved(&cheeks->frame, -cheeks->width / 2, 0, 0);
    struct frame right = frame_moved(&cheeks->frame, cheeks->width / 2, 0, 0);
    struct cheek_making making = {
        .solid = solid,
        .cheeks = cheeks,
        .left = stretches_of(solid->arena, &left, cheeks->left),
        .right = stretches_of(solid->arena, &right, cheeks->right),
    };
    if (!making.left.list.count || !making.right.list.count) {
        solid_fault(solid, NULL, "the %s has no metal",
                    making.left.list.count ? cheeks->right_name : cheeks->left_name);
        return;
    }
    add_cheek(&making, false);
    add_cheek(&making, true);
    add_strip(&making, &making.left, cheeks->left_name, -cheeks->depth / 2);
    add_strip(&making, &making.right, cheeks->right_name, cheeks->depth / 2);
}

/* ---- Mitred pieces ----------------------------------------------------------------------------------------------- */

/* The plane that halves the turn between a piece that ends at `end` and the next. */
static struct cut mitre_at(const struct frame *end, double turn) {
    return (struct cut){.kind = CUT_PLANE, .point = end->origin, .way = frame_turned(end, turn / 2).along};
}

void solid_mitred(struct solid *solid, const struct mitred *mitred) {
    struct frame at = mitred->frame;
    struct cut near = mitre_at(&at, 0);
    size_t last = mitred->course.count - 1;
    for (size_t i = 0; i <= last; i++) {
        const struct step *step = &mitred->course.steps[i];
        struct frame end = frame_moved(&at, 0, step->length, 0);
        struct prism piece = {
            .frame = at,
            .section = mitred->section,
            .near = near,
            .far = mitre_at(&end, i == last ? 0 : step->turn),
            .wrap = WRAP_ONE,
            .seam = mitred->seam,
            .near_end = {i == 0 ? JOIN_PORT : JOIN_SEAM, i == 0 ? mitred->near_port : NO_PORT, i > 0},
            .far_end = {i == last ? JOIN_PORT : JOIN_SEAM, i == last ? mitred->far_port : NO_PORT, false},
            .name = i == 0 || i == last ? mitred->end_name : mitred->name,
        };
        solid_prism(solid, &piece);
        near = piece.far;
        at = frame_turned(&end, step->turn);
    }
}
