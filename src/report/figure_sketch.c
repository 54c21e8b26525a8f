/* A part put together, as a line drawing: the solid's edges in parallel projection, without what other panels hide. */
#include "report/figures.h"

#include <math.h>
#include <stdlib.h>

/* A choice of look. */
const struct space sketch_toward_eye = {0.46, -0.72, 0.52};

/* A line nearer to a facet than this share of the part's size lies on it and is not hidden by it; likewise by the
 * chords of a curve that it lies on. */
static const double on_it = 2e-5, on_chord = 4;

/* A place as seen: x to the right, y up, depth toward the eye. */
struct seen {
    double x, y, depth;
};

/* A flat part of a panel, as seen: a loop, perhaps with loops of openings. */
struct facet {
    size_t first, count; /* of corners, one loop after another */
    size_t panel;
    double low_x, high_x, low_y, high_y;
    double depth, by_x, by_y; /* depth + by_x x + by_y y: how far toward the eye it is there */
    bool upright;             /* seen from its edge: hides nothing */
    double area;              /* as seen, twice; > 0 when its inside is toward the eye */
};

/* One side of a facet, from one corner to the next. */
struct rim {
    struct seen from, to;
};

struct sketch {
    struct arena *arena;
    const struct job *job;
    const struct solid *solid;
    struct figure *figure;
    struct space right, up, eye; /* the view's axes */
    double size;                 /* m: how far the part reaches */
    double near_enough;          /* m: so far before a line a facet does not hide it */
    LIST(struct rim) rims;
    LIST(struct facet) facets;
    size_t *first_facet; /* by panel; one more at the end */
};

static struct seen seen_of(const struct sketch *sketch, struct space at) {
    return (struct seen){space_dot(at, sketch->right), space_dot(at, sketch->up), space_dot(at, sketch->eye)};
}

static struct spot spot_of(const struct sketch *sketch, struct space at) {
    struct seen seen = seen_of(sketch, at);
    return (struct spot){seen.x, seen.y};
}

/* ---- Facets ------------------------------------------------------------------------------------------------------ */

static void begin_facet(struct sketch *sketch, size_t panel) {
    *list_add(sketch->arena, &sketch->facets) = (struct facet){.first = sketch->rims.count,
                                                               .panel = panel,
                                                               .low_x = INFINITY,
                                                               .high_x = -INFINITY,
                                                               .low_y = INFINITY,
                                                               .high_y = -INFINITY};
}

static void add_rim(struct sketch *sketch, struct space from, struct space to) {
    struct facet *facet = &sketch->facets.at[sketch->facets.count - 1];
    struct seen a = seen_of(sketch, from);
    *list_add(sketch->arena, &sketch->rims) = (struct rim){a, seen_of(sketch, to)};
    facet->count++;
    facet->low_x = fmin(facet->low_x, a.x);
    facet->high_x = fmax(facet->high_x, a.x);
    facet->low_y = fmin(facet->low_y, a.y);
    facet->high_y = fmax(facet->high_y, a.y);
}

/* Finds the facet's plane from its whole rim (Newell's sums: the vector area), seen: depth = depth0 +
 * by_x x + by_y y. */
static void end_facet(struct sketch *sketch) {
    struct facet *facet = &sketch->facets.at[sketch->facets.count - 1];
    struct seen middle = {0, 0, 0};
    double normal_x = 0, normal_y = 0, normal_depth = 0;
    for (size_t i = 0; i < facet->count; i++) {
        struct seen a = sketch->rims.at[facet->first + i].from, b = sketch->rims.at[facet->first + i].to;
        normal_x += (a.y - b.y) * (a.depth + b.depth);
        normal_y += (a.depth - b.depth) * (a.x + b.x);
        normal_depth += (a.x - b.x) * (a.y + b.y);
        middle = (struct seen){middle.x + a.x, middle.y + a.y, middle.depth + a.depth};
    }
    double length = sqrt(normal_x * normal_x + normal_y * normal_y + normal_depth * normal_depth);
    facet->upright = !(fabs(normal_depth) > 1e-6 * length);
    facet->area = normal_depth;
    if (facet->upright)
        return;
    facet->by_x = -normal_x / normal_depth;
    facet->by_y = -normal_y / normal_depth;
    double count = (double)facet->count;
    facet->depth = (middle.depth - facet->by_x * middle.x - facet->by_y * middle.y) / count;
}

static void add_loop(struct sketch *sketch, const struct space *points, size_t count) {
    for (size_t i = 0; i < count; i++)
        add_rim(sketch, points[i], points[(i + 1) % count]);
}

static void add_plane(struct sketch *sketch, size_t index) {
    const struct solid_panel *panel = &sketch->solid->panels.at[index];
    begin_facet(sketch, index);
    for (size_t i = 0; i < panel->edges.count; i++)
        for (size_t j = 1; j < panel->edges.at[i].count; j++)
            add_rim(sketch, panel->edges.at[i].space[j - 1], panel->edges.at[i].space[j]);
    for (size_t i = 0; i < panel->openings.count; i++)
        add_loop(sketch, panel->openings.at[i].space, panel->openings.at[i].count);
    end_facet(sketch);
}

/* Between each two rulings two triangles: they need not lie in one plane. */
static void add_rolled(struct sketch *sketch, size_t index) {
    const struct solid_panel *panel = &sketch->solid->panels.at[index];
    for (size_t i = 1; i < panel->rulings; i++) {
        struct space one[3] = {panel->near[i - 1], panel->near[i], panel->far[i]};
        struct space other[3] = {panel->near[i - 1], panel->far[i], panel->far[i - 1]};
        begin_facet(sketch, index);
        add_loop(sketch, one, 3);
        end_facet(sketch);
        begin_facet(sketch, index);
        add_loop(sketch, other, 3);
        end_facet(sketch);
    }
}

static void add_facets(struct sketch *sketch) {
    const struct solid *solid = sketch->solid;
    sketch->first_facet = ARENA_ARRAY(sketch->arena, size_t, solid->panels.count + 1);
    for (size_t i = 0; i < solid->panels.count; i++) {
        sketch->first_facet[i] = sketch->facets.count;
        if (solid->panels.at[i].kind == PANEL_PLANE)
            add_plane(sketch, i);
        else
            add_rolled(sketch, i);
    }
    sketch->first_facet[solid->panels.count] = sketch->facets.count;
}

/* ---- What hides what --------------------------------------------------------------------------------------------- */

/* Part of a line, as shares of it. */
struct part_of_line {
    double from, to;
};

struct hidden {
    LIST(double) crossings;          /* of one facet */
    LIST(struct part_of_line) parts; /* of all */
};

static int by_size(const void *a, const void *b) {
    double one = *(const double *)a, other = *(const double *)b;
    return (one > other) - (one < other);
}

static int by_beginning(const void *a, const void *b) {
    return by_size(&((const struct part_of_line *)a)->from, &((const struct part_of_line *)b)->from);
}

/* Whether (x, y) lies inside the loops: an odd number of their sides lie to its right. */
static bool is_inside(const struct rim *rims, size_t count, double x, double y) {
    bool inside = false;
    for (size_t i = 0; i < count; i++) {
        struct seen a = rims[i].from, b = rims[i].to;
        if ((a.y > y) != (b.y > y) && x < a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x))
            inside = !inside;
    }
    return inside;
}

/* An opening of a rolled panel lets through what lies behind it. */
static bool in_opening(const struct sketch *sketch, const struct facet *facet, double x, double y) {
    const struct solid_panel *panel = &sketch->solid->panels.at[facet->panel];
    if (panel->kind == PANEL_PLANE)
        return false; /* its openings are loops of its facet */
    for (size_t i = 0; i < panel->openings.count; i++) {
        bool inside = false;
        const struct opening *opening = &panel->openings.at[i];
        for (size_t j = 0; j < opening->count; j++) {
            struct seen a = seen_of(sketch, opening->space[j]);
            struct seen b = seen_of(sketch, opening->space[(j + 1) % opening->count]);
            if ((a.y > y) != (b.y > y) && x < a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x))
                inside = !inside;
        }
        if (inside)
            return true;
    }
    return false;
}

/* Where the line crosses the sides of the facet, as shares of the line, both ends of the line included. */
static void find_crossings(struct sketch *sketch, const struct facet *facet, struct seen from, struct seen to,
                           struct hidden *hidden) {
    double dx = to.x - from.x, dy = to.y - from.y;
    hidden->crossings.count = 0;
    *list_add(sketch->arena, &hidden->crossings) = 0;
    *list_add(sketch->arena, &hidden->crossings) = 1;
    for (size_t i = 0; i < facet->count; i++) {
        const struct rim *rim = &sketch->rims.at[facet->first + i];
        double side_x = rim->to.x - rim->from.x, side_y = rim->to.y - rim->from.y;
        double across = dx * side_y - dy * side_x;
        if (across == 0)
            continue;
        double x = rim->from.x - from.x, y = rim->from.y - from.y;
        double at = (x * side_y - y * side_x) / across, on = (x * dy - y * dx) / across;
        if (at > 0 && at < 1 && on >= 0 && on <= 1)
            *list_add(sketch->arena, &hidden->crossings) = at;
    }
    qsort(hidden->crossings.at, hidden->crossings.count, sizeof *hidden->crossings.at, by_size);
}

/* The parts of the line that lie behind the facet: between two crossings all is the same. */
static void hide_behind(struct sketch *sketch, const struct facet *facet, struct seen from, struct seen to,
                        struct hidden *hidden) {
    if (facet->upright || fmax(from.x, to.x) < facet->low_x || fmin(from.x, to.x) > facet->high_x ||
        fmax(from.y, to.y) < facet->low_y || fmin(from.y, to.y) > facet->high_y)
        return;
    find_crossings(sketch, facet, from, to, hidden);
    for (size_t i = 1; i < hidden->crossings.count; i++) {
        double begin = hidden->crossings.at[i - 1], end = hidden->crossings.at[i], t = (begin + end) / 2;
        struct seen at = {from.x + t * (to.x - from.x), from.y + t * (to.y - from.y),
                          from.depth + t * (to.depth - from.depth)};
        double before = facet->depth + facet->by_x * at.x + facet->by_y * at.y - at.depth;
        if (end > begin && before > sketch->near_enough &&
            is_inside(&sketch->rims.at[facet->first], facet->count, at.x, at.y) &&
            !in_opening(sketch, facet, at.x, at.y))
            *list_add(sketch->arena, &hidden->parts) = (struct part_of_line){begin, end};
    }
}

/* ---- Lines ------------------------------------------------------------------------------------------------------- */

/* A line being drawn through several points: it goes on as long as nothing hides it. */
struct pen {
    struct sketch *sketch;
    enum stroke stroke;
    struct figure_path *path; /* NULL: lifted */
    struct hidden hidden;
};

static struct spot between(struct seen from, struct seen to, double share) {
    return (struct spot){from.x + share * (to.x - from.x), from.y + share * (to.y - from.y)};
}

/* Shorter parts than this are rounding. */
static const double shortest = 1e-6;

static void draw_part(struct pen *pen, struct seen from, struct seen to, double begin, double end) {
    if (end - begin < shortest)
        return;
    struct figure *figure = pen->sketch->figure;
    if (!pen->path || begin > 0)
        pen->path = figure_path(figure, pen->stroke, between(from, to, begin));
    path_line(figure, pen->path, between(from, to, end));
    if (end < 1)
        pen->path = NULL;
}

static void draw_to(struct pen *pen, struct space from_space, struct space to_space) {
    struct sketch *sketch = pen->sketch;
    struct seen from = seen_of(sketch, from_space), to = seen_of(sketch, to_space);
    pen->hidden.parts.count = 0;
    for (size_t i = 0; i < sketch->facets.count; i++)
        hide_behind(sketch, &sketch->facets.at[i], from, to, &pen->hidden);
    size_t count = pen->hidden.parts.count;
    if (count > 1)
        qsort(pen->hidden.parts.at, count, sizeof *pen->hidden.parts.at, by_beginning);
    double clear = 0;
    for (size_t i = 0; i < count; i++) {
        draw_part(pen, from, to, clear, pen->hidden.parts.at[i].from);
        clear = fmax(clear, pen->hidden.parts.at[i].to);
    }
    draw_part(pen, from, to, clear, 1);
    if (clear >= 1 - shortest)
        pen->path = NULL;
}

static void draw_line(struct sketch *sketch, enum stroke stroke, const struct space *points, size_t count) {
    struct pen pen = {.sketch = sketch, .stroke = stroke};
    for (size_t i = 1; i < count; i++)
        draw_to(&pen, points[i - 1], points[i]);
}

/* ---- Which lines ------------------------------------------------------------------------------------------------- */

/* Whether a panel shows its inside at one of its facets; of a rolled one, between the ruling `ruling` and the next. */
static bool shows_inside(const struct sketch *sketch, size_t panel, size_t ruling) {
    const struct facet *facet = &sketch->facets.at[sketch->first_facet[panel]];
    if (sketch->solid->panels.at[panel].kind == PANEL_PLANE)
        return facet->area > 0;
    facet += 2 * ruling; /* one of the two triangles may be none, where rulings meet */
    return facet[0].area + facet[1].area > 0;
}

/* The same beside one of a panel's edges. */
static bool shows_inside_at(const struct sketch *sketch, size_t index, const struct solid_edge *edge) {
    const struct solid_panel *panel = &sketch->solid->panels.at[index];
    struct space end = edge->space[0], other = edge->space[edge->count - 1];
    bool at_first = panel->rulings < 2 ||
                    (fmin(space_distance(end, panel->near[0]), space_distance(other, panel->near[0])) < SAME_POINT &&
                     fmin(space_distance(end, panel->far[0]), space_distance(other, panel->far[0])) < SAME_POINT);
    return shows_inside(sketch, index, at_first ? 0 : panel->rulings - 2);
}

/* Where the sheet goes on smoothly a line is seen only if one side faces the eye and the other turns away. */
static bool is_outline(const struct sketch *sketch, int panel, const struct solid_edge *edge) {
    const struct solid_panel *mate = &sketch->solid->panels.at[edge->mate_panel];
    if (edge->count != 2)
        return false;
    return shows_inside_at(sketch, (size_t)panel, edge) !=
           shows_inside_at(sketch, (size_t)edge->mate_panel, &mate->edges.at[edge->mate_edge]);
}

static void draw_edge(struct sketch *sketch, int panel, const struct solid_edge *edge) {
    const struct solid_edge *own = sketch->solid->panels.at[panel].edges.at;
    if (edge->mate_panel != NO_PANEL &&
        (edge->mate_panel < panel || (edge->mate_panel == panel && own + edge->mate_edge < edge)))
        return; /* drawn with its mate */
    if (edge->join == JOIN_SMOOTH && (edge->mate_panel == NO_PANEL || !is_outline(sketch, panel, edge)))
        return;
    enum stroke stroke = edge->join == JOIN_SEAM ? STROKE_SEAM : edge->join == JOIN_BEND ? STROKE_NET : STROKE_CUT;
    draw_line(sketch, stroke, edge->space, edge->count);
}

/* Rulings along which a rolled panel turns away from the eye. */
static void draw_outline(struct sketch *sketch, size_t index) {
    const struct solid_panel *panel = &sketch->solid->panels.at[index];
    for (size_t i = 1; panel->kind == PANEL_ROLLED && i + 1 < panel->rulings; i++) {
        struct space ruling[2] = {panel->near[i], panel->far[i]};
        if (shows_inside(sketch, index, i - 1) != shows_inside(sketch, index, i))
            draw_line(sketch, STROKE_CUT, ruling, 2);
    }
}

static void draw_panels(struct sketch *sketch) {
    for (size_t i = 0; i < sketch->solid->panels.count; i++) {
        const struct solid_panel *panel = &sketch->solid->panels.at[i];
        for (size_t e = 0; e < panel->edges.count; e++)
            draw_edge(sketch, (int)i, &panel->edges.at[e]);
        draw_outline(sketch, i);
        for (size_t o = 0; o < panel->openings.count; o++) {
            const struct opening *opening = &panel->openings.at[o];
            draw_line(sketch, STROKE_CUT, opening->space, opening->count);
            struct space closing[2] = {opening->space[opening->count - 1], opening->space[0]};
            draw_line(sketch, STROKE_CUT, closing, 2);
        }
    }
}

/* ---- Words ------------------------------------------------------------------------------------------------------- */

/* Whether no facet stands before a place. */
static bool is_seen(const struct sketch *sketch, struct space at_space) {
    struct seen at = seen_of(sketch, at_space);
    for (size_t i = 0; i < sketch->facets.count; i++) {
        const struct facet *facet = &sketch->facets.at[i];
        if (facet->upright || at.x < facet->low_x || at.x > facet->high_x || at.y < facet->low_y ||
            at.y > facet->high_y)
            continue;
        double before = facet->depth + facet->by_x * at.x + facet->by_y * at.y - at.depth;
        if (before > sketch->near_enough && is_inside(&sketch->rims.at[facet->first], facet->count, at.x, at.y) &&
            !in_opening(sketch, facet, at.x, at.y))
            return false;
    }
    return true;
}

/* The best place so far on a port's rim. */
struct rim_place {
    struct spot place;
    double out; /* how far out it reaches */
    bool seen;
};

/* A place that is seen before one that is not; of two the farther out. */
static void try_rim(const struct sketch *sketch, struct space at, struct spot out, struct rim_place *best) {
    struct spot place = spot_of(sketch, at);
    double reach = place.x * out.x + place.y * out.y;
    bool seen = is_seen(sketch, at);
    if (seen == best->seen ? reach > best->out : seen)
        *best = (struct rim_place){place, reach, seen};
}

/* The part of its rim that is seen and reaches out farthest; the middle of a port without a rim of its own. */
static struct spot place_of_port(const struct sketch *sketch, size_t index) {
    const struct frame *frame = &sketch->solid->ports.at[index].frame;
    struct rim_place best = {spot_of(sketch, frame->origin), -INFINITY, false};
    struct spot out = {space_dot(frame->along, sketch->right), space_dot(frame->along, sketch->up)};
    if (space_dot(frame->along, sketch->eye) > 0)
        out = (struct spot){-1, 2}; /* away from the arrow of the air */
    for (size_t i = 0; i < sketch->solid->panels.count; i++)
        for (size_t e = 0; e < sketch->solid->panels.at[i].edges.count; e++) {
            const struct solid_edge *edge = &sketch->solid->panels.at[i].edges.at[e];
            for (size_t j = 1; edge->join == JOIN_PORT && edge->port == (int)index && j < edge->count; j++) {
                try_rim(sketch, edge->space[j], out, &best);
                try_rim(sketch, space_between(edge->space[j - 1], edge->space[j], 0.5), out, &best);
            }
        }
    return best.place;
}

static void name_ports(struct sketch *sketch) {
    for (size_t i = 0; i < sketch->solid->ports.count; i++) {
        const struct solid_port *port = &sketch->solid->ports.at[i];
        const char *size = size_text(sketch->arena, sketch->job->system, port->size);
        const char *text = port->name ? arena_format(sketch->arena, "%s, %s", port->name, size) : size;
        figure_label(sketch->figure, text, place_of_port(sketch, i), TOWARD_HERE, LETTER_PLAIN);
    }
}

/* Before the near end: into it in a supply, out of it in a return. */
static void draw_air(struct sketch *sketch, bool supply) {
    if (sketch->solid->ports.count == 0)
        return;
    const struct frame *near = &sketch->solid->ports.at[0].frame;
    double apart = 0.12 * sketch->size, length = 0.28 * sketch->size;
    struct spot at_end = spot_of(sketch, frame_point(near, 0, apart, 0));
    struct spot before = spot_of(sketch, frame_point(near, 0, apart + length, 0));
    figure_arrow(sketch->figure, supply ? before : at_end, supply ? at_end : before);
    figure_label(sketch->figure, "air", before, TOWARD_LEFT | TOWARD_DOWN, LETTER_PLAIN);
}

/* ---- The whole --------------------------------------------------------------------------------------------------- */

/* The diagonal of the box around all points. */
static double size_of(const struct solid *solid) {
    struct space low = {INFINITY, INFINITY, INFINITY}, high = {-INFINITY, -INFINITY, -INFINITY};
    for (size_t i = 0; i < solid->panels.count; i++)
        for (size_t e = 0; e < solid->panels.at[i].edges.count; e++)
            for (size_t j = 0; j < solid->panels.at[i].edges.at[e].count; j++) {
                struct space at = solid->panels.at[i].edges.at[e].space[j];
                low = (struct space){fmin(low.x, at.x), fmin(low.y, at.y), fmin(low.z, at.z)};
                high = (struct space){fmax(high.x, at.x), fmax(high.y, at.y), fmax(high.z, at.z)};
            }
    return low.x <= high.x ? space_distance(low, high) : 0;
}

/* By look: it shows what the part is, and the blanks are what is measured. */
static const double sketch_tallest = 130; /* pt */

struct figure *figure_sketch(struct arena *arena, const struct job *job, const struct part *part) {
    struct sketch sketch = {.arena = arena, .job = job, .solid = part->solid};
    const struct space upright = {0, 0, 1};
    sketch.eye = space_unit(sketch_toward_eye);
    sketch.right = space_unit(space_cross(upright, sketch.eye));
    sketch.up = space_cross(sketch.eye, sketch.right);
    sketch.size = size_of(part->solid);
    sketch.near_enough = on_it * sketch.size + on_chord * solid_chord_error(part->solid);
    sketch.figure = figure_new(arena, arena_format(arena, "Part %zu: %s", part->number, part->title), NULL);
    sketch.figure->sketch = true;
    sketch.figure->tallest = sketch_tallest;
    sketch.figure->key[STROKE_CUT] = "edge";
    sketch.figure->key[STROKE_NET] = "bend";
    add_facets(&sketch);
    draw_panels(&sketch);
    draw_air(&sketch, part->uses.count == 0 || !part->uses.at[0].run || part->uses.at[0].run->supply);
    name_ports(&sketch);
    return sketch.figure;
}
