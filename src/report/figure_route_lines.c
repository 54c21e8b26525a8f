/* The ducts of a route as lines: outlines of what lies between two sections, the nearer over the farther. */
#include <stdlib.h>

#include "base/constant.h"
#include "report/figure_route.h"
#include "route/hull.h"

/* A round section is drawn with so many corners. */
enum { CORNERS = OUTLINE_CORNERS / 2 };

struct spot figure_route_spot(const struct route_drawing *drawing, struct space at) {
    return (struct spot){space_dot(at, drawing->right), space_dot(at, drawing->up)};
}

/* ---- Sections ---------------------------------------------------------------------------------------------------- */

static size_t section_points(const struct frame *frame, struct duct_size size, struct space *points) {
    double width = size.width / 2, height = size.height / 2;
    if (size.shape == SHAPE_RECTANGULAR) {
        for (int i = 0; i < 4; i++)
            points[i] = frame_point(frame, i == 0 || i == 3 ? -width : width, 0, i < 2 ? -height : height);
        return 4;
    }
    double radius = fmin(width, height);
    for (int i = 0; i < CORNERS; i++) {
        double angle = 2 * PI * (i + 0.5) / CORNERS, x = cos(angle), y = sin(angle);
        points[i] =
            frame_point(frame, x * radius + copysign(width - radius, x), 0, y * radius + copysign(height - radius, y));
    }
    return CORNERS;
}

/* ---- Outlines ---------------------------------------------------------------------------------------------------- */

struct outline figure_route_outline(const struct route_drawing *drawing, const struct stretch *stretch) {
    struct outline outline = {0};
    struct space points[CORNERS];
    for (int end = 0; end < 2; end++) {
        size_t count = section_points(end ? &stretch->far : &stretch->near, end ? stretch->to : stretch->from, points);
        for (size_t i = 0; i < count; i++)
            outline_add(&outline, figure_route_spot(drawing, points[i]), end);
    }
    outline_enclose(&outline);
    return outline;
}

/* ---- A stretch --------------------------------------------------------------------------------------------------- */

/* Whether the viewer looks along it: then its sections lie over each other. */
static bool is_end_on(const struct route_drawing *drawing, const struct stretch *stretch) {
    struct space way = space_unit(space_sub(stretch->far.origin, stretch->near.origin));
    return fabs(space_dot(way, drawing->eye)) > 0.999;
}

static void fill(const struct route_drawing *drawing, const struct outline *outline) {
    struct spot corners[OUTLINE_CORNERS];
    for (size_t i = 0; i < outline->count; i++)
        corners[i] = outline->corners[i].at;
    figure_polygon(drawing->figure, STROKE_NONE, SHADE_WHITE, corners, outline->count);
}

/* The outlines of its own piece that hide lines of a stretch. */
struct beside {
    struct outline outlines[32];
    bool joined[32]; /* it goes on into that one: what parts the two is no edge.  Else that one is nearer */
    size_t count;
};

static void add_beside(const struct route_drawing *drawing, struct beside *beside, size_t index, bool joined) {
    if (beside->count >= sizeof beside->outlines / sizeof *beside->outlines)
        return;
    beside->outlines[beside->count] = figure_route_outline(drawing, &drawing->job->route->stretches.at[index]);
    beside->joined[beside->count++] = joined;
}

static bool is_joined(size_t a, size_t b) {
    return (a > b ? a - b : b - a) <= 2;
}

/* Of a bend the two chords before and behind it, of a split all; and what of the piece is drawn later, `group` its
 * stretches from this one on. */
static void find_beside(const struct route_drawing *drawing, const struct route_drawn *group, size_t count,
                        struct beside *beside) {
    size_t index = group->index;
    const struct placed_piece *piece = &drawing->job->route->pieces.at[group->stretch->piece];
    size_t first = piece->first, end = piece->first + piece->count;
    beside->count = 0;
    for (size_t i = index > first + 2 ? index - 2 : first; i < end && i <= index + 2; i++)
        if (i != index)
            add_beside(drawing, beside, i, true);
    for (size_t i = 1; i < count; i++)
        if (!is_joined(index, group[i].index))
            add_beside(drawing, beside, group[i].index, false);
}

static struct spot spot_between(struct spot a, struct spot b, double share) {
    return (struct spot){a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share};
}

/* So far beyond a line is its other side, m: less than a hair on paper. */
static const double other_side = 0.02 * MILLIMETRE;

static int by_beginning(const void *left, const void *right) {
    double one = ((const struct line_part *)left)->from, other = ((const struct line_part *)right)->from;
    return (one > other) - (one < other);
}

static struct line_part covered(const struct beside *beside, size_t i, struct spot a, struct spot b, struct spot out) {
    if (!beside->joined[i])
        return outline_covers(&beside->outlines[i], a, b);
    return outline_covers(&beside->outlines[i], (struct spot){a.x + out.x, a.y + out.y},
                          (struct spot){b.x + out.x, b.y + out.y});
}

/* A side of an outline, but for its parts that are hidden, or whose other side is the same piece. */
static void draw_edge(const struct route_drawing *drawing, const struct beside *beside, struct spot a, struct spot b,
                      enum stroke stroke) {
    double length = hypot(b.x - a.x, b.y - a.y), clear = 0;
    if (!(length > 0))
        return;
    struct spot out = {other_side * (b.y - a.y) / length, -other_side * (b.x - a.x) / length};
    struct line_part hidden[sizeof beside->outlines / sizeof *beside->outlines + 1] = {{1, 1}};
    for (size_t i = 0; i < beside->count; i++)
        hidden[i] = covered(beside, i, a, b, out);
    qsort(hidden, beside->count, sizeof *hidden, by_beginning);
    hidden[beside->count] = (struct line_part){1, 1};
    for (size_t i = 0; i <= beside->count; i++) {
        if (i < beside->count && !(hidden[i].to > hidden[i].from))
            continue;
        if ((hidden[i].from - clear) * length > other_side)
            figure_line(drawing->figure, stroke, spot_between(a, b, clear), spot_between(a, b, hidden[i].from));
        clear = fmax(clear, hidden[i].to);
    }
}

/* The sides of the duct, and thinner where a piece ends. */
static void draw_outline(const struct route_drawing *drawing, const struct outline *outline,
                         const struct route_drawn *drawn, const struct beside *beside) {
    const struct placed_piece *piece = &drawing->job->route->pieces.at[drawn->stretch->piece];
    bool end_on = is_end_on(drawing, drawn->stretch);
    bool begins = drawn->stretch->begins < piece->begins + MILLIMETRE;
    bool ends = drawn->stretch->ends > piece->ends - MILLIMETRE;
    for (size_t i = 0; i < outline->count; i++) {
        const struct seen_corner *a = &outline->corners[i], *b = &outline->corners[(i + 1) % outline->count];
        bool joint = a->end == b->end && !end_on && (a->end ? ends : begins);
        enum stroke stroke = piece->free ? STROKE_HIDDEN : joint ? STROKE_NET : STROKE_CUT;
        draw_edge(drawing, beside, a->at, b->at, stroke);
    }
}

/* Whether the viewer sees the side of a rectangular stretch that lies between the corners `side` and the next. */
static bool sees_side(const struct route_drawing *drawing, const struct space *near, const struct space *far,
                      int side) {
    int next = (side + 1) % 4;
    struct space out = space_cross(space_sub(far[side], near[next]), space_sub(far[next], near[side]));
    return space_dot(out, drawing->eye) > 0.05 * sqrt(space_dot(out, out));
}

/* The corners between two sides that both look at the viewer; only what is nearer hides them. */
static void draw_corners(const struct route_drawing *drawing, const struct stretch *stretch, struct beside *beside) {
    struct space near[CORNERS], far[CORNERS];
    if (stretch->from.shape != SHAPE_RECTANGULAR || stretch->to.shape != SHAPE_RECTANGULAR)
        return;
    section_points(&stretch->near, stretch->from, near);
    section_points(&stretch->far, stretch->to, far);
    for (size_t i = 0; i < beside->count; i++)
        if (beside->joined[i])
            beside->outlines[i].count = 0;
    for (int i = 0; i < 4; i++)
        if (sees_side(drawing, near, far, i) && sees_side(drawing, near, far, (i + 3) % 4))
            draw_edge(drawing, beside, figure_route_spot(drawing, near[i]), figure_route_spot(drawing, far[i]),
                      STROKE_NET);
}

/* The rim of a piece's end that looks at the viewer: what goes on from there is nearer, and covers it. */
static void draw_rim(const struct route_drawing *drawing, const struct route_drawn *drawn) {
    const struct stretch *stretch = drawn->stretch;
    const struct placed_piece *piece = &drawing->job->route->pieces.at[stretch->piece];
    struct space points[CORNERS];
    bool far = space_dot(stretch->far.along, drawing->eye) > 0;
    if (!(far ? stretch->ends > piece->ends - MILLIMETRE : stretch->begins < piece->begins + MILLIMETRE))
        return;
    size_t count = section_points(far ? &stretch->far : &stretch->near, far ? stretch->to : stretch->from, points);
    for (size_t i = 0; i < count; i++)
        figure_line(drawing->figure, piece->free ? STROKE_HIDDEN : STROKE_NET, figure_route_spot(drawing, points[i]),
                    figure_route_spot(drawing, points[(i + 1) % count]));
}

/* A duct that comes at the viewer: crossed when it brings air, with one line when it takes it. */
static void draw_riser(const struct route_drawing *drawing, const struct route_drawn *drawn) {
    const struct placed_piece *piece = &drawing->job->route->pieces.at[drawn->stretch->piece];
    const struct frame *frame = &drawn->stretch->far;
    double width = drawn->stretch->to.width / 2, height = drawn->stretch->to.height / 2;
    if (drawn->stretch->to.shape != SHAPE_RECTANGULAR)
        width = height = fmin(width, height) * sqrt(0.5);
    for (int line = 0; line < (piece->run->supply ? 2 : 1); line++) {
        double x = line ? -width : width;
        figure_line(drawing->figure, STROKE_NET, figure_route_spot(drawing, frame_point(frame, -x, 0, -height)),
                    figure_route_spot(drawing, frame_point(frame, x, 0, height)));
    }
}

static void draw_stretch_lines(const struct route_drawing *drawing, const struct route_drawn *group, size_t count) {
    struct outline outline = figure_route_outline(drawing, group->stretch);
    struct beside beside;
    if (outline.count < 3)
        return;
    find_beside(drawing, group, count, &beside);
    draw_outline(drawing, &outline, group, &beside);
    if (drawing->view == ROUTE_VIEW) {
        draw_rim(drawing, group);
        draw_corners(drawing, group->stretch, &beside);
    } else if (count == 1 && is_end_on(drawing, group->stretch)) /* what of a bend is nearer hides it */
        draw_riser(drawing, group);
}

/* Stretches of one piece that come one after the other: a fill among their lines would cover half of a line beside it.
 */
static void draw_group(const struct route_drawing *drawing, const struct route_drawn *group, size_t count) {
    for (size_t i = 0; i < count; i++) {
        struct outline outline = figure_route_outline(drawing, group[i].stretch);
        if (outline.count >= 3)
            fill(drawing, &outline);
    }
    for (size_t i = 0; i < count; i++)
        draw_stretch_lines(drawing, &group[i], count - i);
}

/* ---- Faces ------------------------------------------------------------------------------------------------------- */

/* A register, grille or filter: a plate, crossed as a duct that comes at the viewer. */
static void draw_face(const struct route_drawing *drawing, const struct run *run) {
    const struct placed_run *placed = route_of(drawing->job, run);
    struct duct_size face = placed->face;
    if (!size_known(face))
        return;
    struct space points[CORNERS];
    size_t count = section_points(&placed->end, face, points);
    struct spot corners[CORNERS];
    for (size_t i = 0; i < count; i++)
        corners[i] = figure_route_spot(drawing, points[i]);
    figure_polygon(drawing->figure, STROKE_CUT, SHADE_LIGHT, corners, count);
    figure_keep_inside(drawing->figure);
    if (fabs(space_dot(placed->end.along, drawing->eye)) < 0.3 || count != 4)
        return;
    for (size_t line = 0; line < (run->supply ? 2U : 1U); line++)
        figure_line(drawing->figure, STROKE_NET, corners[line], corners[line + 2]);
}

/* ---- All --------------------------------------------------------------------------------------------------------- */

static int by_depth(const void *left, const void *right) {
    const struct route_drawn *a = left, *b = right;
    if (fabs(a->depth - b->depth) > 1e-9)
        return a->depth < b->depth ? -1 : 1;
    return (a->index > b->index) - (a->index < b->index);
}

static struct route_drawn *stretches_of(const struct route_drawing *drawing, size_t *count) {
    const struct route *route = drawing->job->route;
    struct route_drawn *drawn = ARENA_ARRAY(drawing->arena, struct route_drawn, route->stretches.count + 1);
    for (size_t i = 0; i < route->stretches.count; i++) {
        const struct stretch *stretch = &route->stretches.at[i];
        if (!figure_route_on_sheet(drawing->sheet, route->pieces.at[stretch->piece].run))
            continue;
        struct space middle = space_between(stretch->near.origin, stretch->far.origin, 0.5);
        drawn[(*count)++] = (struct route_drawn){stretch, space_dot(middle, drawing->eye), i};
    }
    qsort(drawn, *count, sizeof *drawn, by_depth);
    return figure_route_in_order(drawing, drawn, *count);
}

void figure_route_lines(struct route_drawing *drawing) {
    const struct job *job = drawing->job;
    size_t count = 0;
    struct route_drawn *drawn = stretches_of(drawing, &count);
    if (!drawing->sheet->trunk)
        figure_route_unit(drawing, drawn, count);
    for (size_t i = 0, next; i < count; i = next) {
        for (next = i + 1; next < count && drawn[next].stretch->piece == drawn[i].stretch->piece;)
            next++;
        draw_group(drawing, &drawn[i], next - i);
    }
    for (size_t i = 0; i < job->runs.count; i++)
        if (job->runs.at[i]->role != RUN_DUCT && figure_route_on_sheet(drawing->sheet, job->runs.at[i]) &&
            route_of(job, job->runs.at[i]))
            draw_face(drawing, job->runs.at[i]);
    if (drawing->sheet->unit->position_given)
        figure_route_draw_obstacles(drawing, drawn, count);
}
