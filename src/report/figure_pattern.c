/* A blank as a drawing that metal is scribed from: nothing on it is left to be worked out. */
#include "report/figures.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "report/shop.h"

/* Two marks nearer than this are one. */
static const double same_mark = 1e-4; /* m */

/* Nor does a point so near to the one before it help the hand that scribes. */
static const double same_point = INCH / 8; /* m */

/* Where an outline turns by less than the first it is a curve; by more than the second, a corner; between them it is a
 * corner unless it follows a curved edge. */
static const double curve_turn = 0.15, corner_turn = 0.8; /* rad */

/* A centre farther from the blank than so many times its size cannot be reached with a trammel on the bench: the arc is
 * then given by points. */
static const double reach_most = 1.5;

struct pattern {
    struct arena *arena;
    struct figure *figure;
    const struct job *job;
    const struct part *part;
    const struct blank *blank;
    size_t points; /* numbered so far */
    struct flat last_point;
    LIST(struct flat) centres; /* of arcs, dimensioned already */
};

static struct spot spot_of(struct flat flat) {
    return (struct spot){flat.x, flat.y};
}

static const char *length_figure(const struct pattern *pattern, double length) {
    return measure_figure(pattern->arena, pattern->job->system, SHOW_CUT, length);
}

static const char *length_text(const struct pattern *pattern, double length) {
    return measure_text(pattern->arena, pattern->job->system, SHOW_CUT, length);
}

/* "90", "22.5" */
static const char *degrees(const struct pattern *pattern, double angle) {
    double shown = round(fabs(angle) / DEGREE * 10) / 10;
    return arena_format(pattern->arena, fabs(shown - round(shown)) < 1e-9 ? "%.0f" : "%.1f", shown);
}

/* ---- Outlines ---------------------------------------------------------------------------------------------------- */

static void draw_loop(struct figure *figure, enum stroke stroke, const struct flat *points, size_t count) {
    if (count == 0)
        return;
    struct figure_path *path = figure_path(figure, stroke, spot_of(points[0]));
    for (size_t i = 1; i < count; i++)
        path_line(figure, path, spot_of(points[i]));
    path->closed = true;
}

/* The angle by which the cut goes round an arc's centre from one point to the next; 0 when the two do not lie on the
 * arc moved out by its allowance, as near as its chords do. */
static double arc_between(const struct blank_edge *edge, struct flat from, struct flat to) {
    if (edge->shape != EDGE_ARC)
        return 0;
    double radius = edge->radius + (edge->sweep > 0 ? edge->allowance : -edge->allowance);
    struct flat a = flat_sub(from, edge->centre), b = flat_sub(to, edge->centre);
    if (fabs(flat_length(a) - radius) > CHORD_LIMIT || fabs(flat_length(b) - radius) > CHORD_LIMIT)
        return 0;
    double sweep = atan2(flat_cross(a, b), flat_dot(a, b)), step = fabs(edge->sweep) / (double)(edge->count - 1);
    return sweep * edge->sweep > 0 && fabs(sweep) < 1.5 * step ? sweep : 0;
}

/* The outline to cut, with arcs as arcs where the blank has them. */
static void draw_cut(struct pattern *pattern) {
    const struct blank *blank = pattern->blank;
    if (blank->cut_count == 0)
        return;
    struct figure_path *path = figure_path(pattern->figure, STROKE_CUT, spot_of(blank->cut[0]));
    for (size_t i = 0; i < blank->cut_count; i++) {
        struct flat from = blank->cut[i], to = blank->cut[(i + 1) % blank->cut_count];
        double sweep = 0;
        for (size_t e = 0; sweep == 0 && e < blank->edges.count; e++)
            sweep = arc_between(&blank->edges.at[e], from, to);
        path_arc(pattern->figure, path, spot_of(to), sweep);
    }
    path->closed = true;
}

/* An edge that has an allowance shows its own line, inside the cut. */
static void draw_net(struct pattern *pattern) {
    for (size_t i = 0; i < pattern->blank->edges.count; i++) {
        const struct blank_edge *edge = &pattern->blank->edges.at[i];
        if (edge->allowance <= 0)
            continue;
        enum stroke stroke = edge->join == JOIN_SEAM ? STROKE_SEAM : STROKE_NET;
        struct figure_path *path = figure_path(pattern->figure, stroke, spot_of(edge->points[0]));
        if (edge->shape == EDGE_ARC)
            path_arc(pattern->figure, path, spot_of(edge->points[edge->count - 1]), edge->sweep);
        for (size_t j = 1; edge->shape != EDGE_ARC && j < edge->count; j++)
            path_line(pattern->figure, path, spot_of(edge->points[j]));
    }
}

/* Rulings show which way it is rolled; of very many some are enough. */
static void draw_rulings(struct pattern *pattern) {
    size_t count = pattern->blank->rulings.count, most = (size_t)pattern->job->shop.stations;
    size_t step = most && count > most ? (count + most - 1) / most : 1;
    for (size_t i = 0; i < count; i += step) {
        const struct blank_ruling *ruling = &pattern->blank->rulings.at[i];
        figure_line(pattern->figure, STROKE_HIDDEN, spot_of(ruling->from), spot_of(ruling->to));
    }
    pattern->figure->key[STROKE_HIDDEN] = "roll or form lightly along";
}

static void draw_bends(struct pattern *pattern) {
    for (size_t i = 0; i < pattern->blank->bends.count; i++) {
        const struct blank_bend *bend = &pattern->blank->bends.at[i];
        const char *way = bend->angle < 0 ? "down" : "up";
        figure_line(pattern->figure, bend->angle < 0 ? STROKE_BEND_DOWN : STROKE_BEND_UP, spot_of(bend->from),
                    spot_of(bend->to));
        figure_label_line(pattern->figure, arena_format(pattern->arena, "%s %s°", way, degrees(pattern, bend->angle)),
                          spot_of(bend->from), spot_of(bend->to), LETTER_SMALL);
    }
}

/* ---- Names ------------------------------------------------------------------------------------------------------- */

/* "toward the unit: S slip, 1/2 in", "pocket, 1 in", "throat". */
static const char *edge_words(const struct pattern *pattern, const struct blank_edge *edge) {
    const struct solid_edge *own = &pattern->part->solid->panels.at[edge->panel].edges.at[edge->edge];
    const char *name = own->name, *label = edge->label;
    if (!name && edge->join == JOIN_PORT)
        name = pattern->part->solid->ports.at[edge->port].name;
    if (label && edge->allowance > 0)
        label = arena_format(pattern->arena, "%s, %s", label, length_text(pattern, edge->allowance));
    if (name && label)
        return arena_format(pattern->arena, "%s: %s", name, label);
    if (name || label)
        return name ? name : label;
    return edge->join == JOIN_SEAM ? "seam" : "free edge";
}

static double edge_span(const struct blank_edge *edge) {
    return flat_distance(edge->points[0], edge->points[edge->count - 1]);
}

/* Along a straight edge when there is room, else by a letter; at the middle of a curved one. */
static void name_edge(struct pattern *pattern, const struct blank_edge *edge, const char *words) {
    struct spot from = spot_of(edge->points[0]), to = spot_of(edge->points[edge->count - 1]);
    if (edge->shape != EDGE_LINE)
        from = to = spot_of(edge->points[edge->count / 2]);
    figure_label_briefly(pattern->figure, words, from, to, LETTER_SMALL);
}

/* The first edge whose words are not those of the edge before it, round the loop. */
static size_t first_named(const struct pattern *pattern) {
    const struct blank *blank = pattern->blank;
    for (size_t i = 1; i < blank->edges.count; i++)
        if (strcmp(edge_words(pattern, &blank->edges.at[i - 1]), edge_words(pattern, &blank->edges.at[i])) != 0)
            return i;
    return 0;
}

/* Neighbours with the same words are named once, at the longest. */
static void name_edges(struct pattern *pattern) {
    size_t count = pattern->blank->edges.count, first = first_named(pattern);
    const struct blank_edge *longest = NULL;
    const char *said = NULL;
    for (size_t i = 0; i < count; i++) {
        const struct blank_edge *edge = &pattern->blank->edges.at[(first + i) % count];
        const char *words = edge_words(pattern, edge);
        if (said && strcmp(said, words) == 0) {
            longest = edge_span(edge) > edge_span(longest) ? edge : longest;
            continue;
        }
        if (said)
            name_edge(pattern, longest, said);
        longest = edge;
        said = words;
    }
    if (said)
        name_edge(pattern, longest, said);
}

/* Whether no other panel of the blank is called so. */
static bool has_own_name(const struct pattern *pattern, const struct solid_panel *panel) {
    const struct blank *blank = pattern->blank;
    size_t alike = 0;
    for (size_t i = 0; panel->name && i < blank->panels.count; i++) {
        const char *name = pattern->part->solid->panels.at[blank->panels.at[i].panel].name;
        alike += name && strcmp(name, panel->name) == 0;
    }
    return alike == 1;
}

/* In the middle of each panel of several. */
static void name_panels(struct pattern *pattern) {
    const struct blank *blank = pattern->blank;
    for (size_t i = 0; blank->panels.count > 1 && i < blank->panels.count; i++) {
        const struct blank_panel *placed = &blank->panels.at[i];
        const struct solid_panel *panel = &pattern->part->solid->panels.at[placed->panel];
        struct flat sum = {0, 0};
        for (size_t e = 0; e < panel->edges.count; e++)
            sum = flat_add(sum, panel->edges.at[e].flat[0]);
        struct flat middle = flat_scale(sum, 1 / fmax(1, (double)panel->edges.count));
        if (has_own_name(pattern, panel))
            figure_label(pattern->figure, panel->name,
                         spot_of(flat_add(placed->origin, flat_turn(middle, placed->turn))), TOWARD_HERE, LETTER_PLAIN);
    }
}

/* ---- Marks from one edge ----------------------------------------------------------------------------------------- */

struct distances {
    LIST(double) list;
};

static int by_size(const void *a, const void *b) {
    double one = *(const double *)a, other = *(const double *)b;
    return (one > other) - (one < other);
}

static void add_distance(struct pattern *pattern, struct distances *distances, double distance) {
    *list_add(pattern->arena, &distances->list) = distance;
}

/* A story stick of `distances`, sorted here, those that read the same once; what would stand at the origin is left out.
 */
static void add_stick(struct pattern *pattern, struct distances *distances, struct spot origin, enum figure_side side,
                      bool back) {
    if (distances->list.count == 0)
        return;
    qsort(distances->list.at, distances->list.count, sizeof *distances->list.at, by_size);
    struct figure_ordinates *stick = figure_ordinates(pattern->figure, origin, side, back, "0");
    const char *last = "0";
    for (size_t i = 0; i < distances->list.count; i++) {
        const char *text = length_figure(pattern, distances->list.at[i]);
        if (distances->list.at[i] < 0 || strcmp(text, last) == 0)
            continue;
        ordinates_mark(pattern->figure, stick, distances->list.at[i], text);
        last = text;
    }
}

/* The marks of the brake, from the edge that they all are measured from, to the far edge. */
static void add_brake_marks(struct pattern *pattern) {
    const struct blank *blank = pattern->blank;
    struct distances distances = {0};
    for (size_t i = 0; i < blank->marks.count; i++)
        add_distance(pattern, &distances, blank->marks.at[i].at);
    if (distances.list.count == 0)
        return;
    add_distance(pattern, &distances, blank->marks_upward ? blank->height : blank->width);
    struct spot origin = {0, 0};
    if (blank->marks_from_right)
        *(blank->marks_upward ? &origin.y : &origin.x) = blank->marks_upward ? blank->height : blank->width;
    add_stick(pattern, &distances, origin, blank->marks_upward ? FIGURE_LEFT : FIGURE_BELOW, blank->marks_from_right);
}

/* How sharply a loop turns at point i. */
static double turn_at(const struct flat *points, size_t count, size_t i) {
    struct flat in = flat_sub(points[i], points[(i + count - 1) % count]);
    struct flat out = flat_sub(points[(i + 1) % count], points[i]);
    return fabs(atan2(flat_cross(in, out), flat_dot(in, out)));
}

/* Whether the point stands an allowance away from a curved edge, between its ends. */
static bool follows_curve(const struct blank *blank, struct flat at) {
    static const double mitred = 1.1; /* chords moved out meet a little farther out */
    for (size_t i = 0; i < blank->edges.count; i++) {
        const struct blank_edge *edge = &blank->edges.at[i];
        for (size_t j = 1; edge->shape != EDGE_LINE && j + 1 < edge->count; j++)
            if (flat_distance(edge->points[j], at) < mitred * edge->allowance + same_mark)
                return true;
    }
    return false;
}

static bool is_corner(const struct blank *blank, size_t i) {
    double turn = turn_at(blank->cut, blank->cut_count, i);
    return turn > corner_turn || (turn > curve_turn && !follows_curve(blank, blank->cut[i]));
}

/* A rectangle; other openings that are not circles are curves drawn by chords. */
static bool has_corners(const struct blank_opening *opening) {
    return opening->count == 4;
}

static void add_corner(struct pattern *pattern, struct flat corner, struct distances *across, struct distances *up) {
    add_distance(pattern, across, corner.x);
    add_distance(pattern, up, corner.y);
}

/* Distances from the other end of `whole`. */
static void turn_round(struct distances *distances, double whole) {
    for (size_t i = 0; i < distances->list.count; i++)
        distances->list.at[i] = whole - distances->list.at[i];
}

/* What the marks of the brake say already is not said twice. */
static void leave_out_brake_marks(const struct blank *blank, struct distances *across, struct distances *up) {
    struct distances *distances = blank->marks_upward ? up : across;
    size_t kept = 0;
    for (size_t i = 0; i < distances->list.count; i++) {
        bool said = false;
        for (size_t j = 0; j < blank->marks.count; j++)
            said = said || fabs(distances->list.at[i] - blank->marks.at[j].at) < same_mark;
        if (!said)
            distances->list.at[kept++] = distances->list.at[i];
    }
    distances->list.count = kept;
}

static bool is_upright(struct flat from, struct flat to) {
    return fabs(from.x - to.x) < same_mark || fabs(from.y - to.y) < same_mark;
}

/* The corners of the outline and of square holes, and straight net lines and bends: across from the left edge, up from
 * the bottom. */
static void add_corner_marks(struct pattern *pattern) {
    const struct blank *blank = pattern->blank;
    struct distances across = {0}, up = {0};
    add_corner(pattern, (struct flat){0, 0}, &across, &up);
    add_corner(pattern, (struct flat){blank->width, blank->height}, &across, &up);
    for (size_t i = 0; i < blank->cut_count; i++)
        if (is_corner(blank, i))
            add_corner(pattern, blank->cut[i], &across, &up);
    for (size_t i = 0; i < blank->openings.count; i++)
        for (size_t j = 0; has_corners(&blank->openings.at[i]) && j < blank->openings.at[i].count; j++)
            add_corner(pattern, blank->openings.at[i].points[j], &across, &up);
    for (size_t i = 0; i < blank->edges.count; i++) {
        const struct blank_edge *edge = &blank->edges.at[i];
        struct flat from = edge->points[0], to = edge->points[edge->count - 1];
        if (edge->shape == EDGE_LINE && edge->allowance > 0 && is_upright(from, to))
            add_distance(pattern, fabs(from.x - to.x) < same_mark ? &across : &up,
                         fabs(from.x - to.x) < same_mark ? from.x : from.y);
    }
    for (size_t i = 0; i < blank->bends.count; i++) {
        struct flat from = blank->bends.at[i].from, to = blank->bends.at[i].to;
        if (is_upright(from, to))
            add_distance(pattern, fabs(from.x - to.x) < same_mark ? &across : &up,
                         fabs(from.x - to.x) < same_mark ? from.x : from.y);
    }
    bool back = blank->marks.count > 0 && blank->marks_from_right; /* one edge for all that is measured along it */
    bool left = back && !blank->marks_upward, down = back && blank->marks_upward;
    if (left)
        turn_round(&across, blank->width);
    if (down)
        turn_round(&up, blank->height);
    leave_out_brake_marks(blank, &across, &up);
    add_stick(pattern, &across, (struct spot){left ? blank->width : 0, blank->height}, FIGURE_ABOVE, left);
    add_stick(pattern, &up, (struct spot){blank->width, down ? blank->height : 0}, FIGURE_RIGHT, down);
}

/* ---- Points ------------------------------------------------------------------------------------------------------ */

/* A numbered point of the drawing, with its place in the list: "3: 4-1/2 across, 7-1/16 up".  Its number stands on the
 * side `out`. */
static void add_point(struct pattern *pattern, struct flat at, struct flat out) {
    if (pattern->points > 0 && flat_distance(at, pattern->last_point) < same_point)
        return; /* where one curve goes on as another */
    pattern->last_point = at;
    size_t number = ++pattern->points;
    unsigned toward =
        fabs(out.x) > fabs(out.y) ? (out.x > 0 ? TOWARD_RIGHT : TOWARD_LEFT) : (out.y > 0 ? TOWARD_UP : TOWARD_DOWN);
    figure_label(pattern->figure, arena_format(pattern->arena, "%zu", number), spot_of(at), toward | TOWARD_DOT,
                 LETTER_SMALL);
    figure_list(pattern->figure, arena_format(pattern->arena, "%zu: %s across, %s up", number,
                                              length_figure(pattern, at.x), length_figure(pattern, at.y)));
}

/* How many spaces between points along a curve: as many as the shop wants stations along the whole blank, in
 * proportion. */
static size_t spaces_of(const struct pattern *pattern, const struct flat *points, size_t count) {
    double length = 0, whole = fmax(pattern->blank->width, pattern->blank->height);
    for (size_t i = 1; i < count; i++)
        length += flat_distance(points[i - 1], points[i]);
    double wanted = fmax(2, round(pattern->job->shop.stations * length / whole));
    return (size_t)fmin(wanted, (double)(count - 1));
}

/* The direction square to a line of points at point i, to its right: outward of a loop that goes anticlockwise. */
static struct flat outward(const struct flat *points, size_t count, size_t i) {
    return flat_right(flat_unit(flat_sub(points[i + 1 < count ? i + 1 : i], points[i ? i - 1 : 0])));
}

/* Points of an outline, the ends among them, moved outward by `by`. */
static void add_points(struct pattern *pattern, const struct flat *points, size_t count, double by) {
    size_t spaces = spaces_of(pattern, points, count);
    for (size_t i = 0; i <= spaces; i++) {
        size_t at = i * (count - 1) / spaces;
        struct flat out = outward(points, count, at);
        add_point(pattern, flat_add(points[at], flat_scale(out, by)), out);
    }
}

/* The same of an arc, in equal steps of its sweep. */
static void add_arc_points(struct pattern *pattern, const struct blank_edge *edge) {
    size_t spaces = spaces_of(pattern, edge->points, edge->count);
    double sign = edge->sweep > 0 ? 1 : -1;
    struct flat start = flat_unit(flat_sub(edge->points[0], edge->centre));
    for (size_t i = 0; i <= spaces; i++) {
        struct flat way = flat_turn(start, edge->sweep * (double)i / (double)spaces);
        add_point(pattern, flat_add(edge->centre, flat_scale(way, edge->radius + sign * edge->allowance)),
                  flat_scale(way, sign));
    }
}

static bool centre_in_reach(const struct pattern *pattern, struct flat centre) {
    double size = fmax(pattern->blank->width, pattern->blank->height);
    return centre.x > -reach_most * size && centre.x < pattern->blank->width + reach_most * size &&
           centre.y > -reach_most * size && centre.y < pattern->blank->height + reach_most * size;
}

static void locate_centre(struct pattern *pattern, struct flat centre) {
    for (size_t i = 0; i < pattern->centres.count; i++)
        if (flat_distance(pattern->centres.at[i], centre) < same_mark)
            return;
    *list_add(pattern->arena, &pattern->centres) = centre;
    struct spot corner = {0, 0}, at = spot_of(centre);
    if (fabs(centre.x) > same_mark)
        figure_dimension(pattern->figure, corner, at, FIGURE_BELOW, length_text(pattern, fabs(centre.x)));
    if (fabs(centre.y) > same_mark)
        figure_dimension(pattern->figure, corner, at, FIGURE_LEFT, length_text(pattern, fabs(centre.y)));
}

/* An arc is scribed with a trammel: its radius to the cut, and to its own line when it has an allowance. */
static void add_arc(struct pattern *pattern, const struct blank_edge *edge) {
    double sign = edge->sweep > 0 ? 1 : -1, cut = edge->radius + sign * edge->allowance;
    struct flat way = flat_unit(flat_sub(edge->points[edge->count / 2], edge->centre));
    const char *text = arena_format(pattern->arena, "R %s", length_text(pattern, cut));
    if (edge->allowance > 0)
        text = arena_format(pattern->arena, "%s, R %s to the %s", text, length_text(pattern, edge->radius),
                            edge->join == JOIN_SEAM ? "seam" : "net line");
    figure_radius(pattern->figure, spot_of(edge->centre), spot_of(flat_add(edge->centre, flat_scale(way, cut))), true,
                  text);
    locate_centre(pattern, edge->centre);
}

/* The outline to cut between the ends of a curved edge is its own line moved out by the allowance, square to it. */
static void add_curves(struct pattern *pattern) {
    for (size_t i = 0; i < pattern->blank->edges.count; i++) {
        const struct blank_edge *edge = &pattern->blank->edges.at[i];
        if (edge->shape == EDGE_ARC && centre_in_reach(pattern, edge->centre))
            add_arc(pattern, edge);
        else if (edge->shape == EDGE_ARC && edge->count > 1)
            add_arc_points(pattern, edge);
        else if (edge->shape == EDGE_CURVE && edge->count > 1)
            add_points(pattern, edge->points, edge->count, edge->allowance);
    }
}

static void add_slanting_bends(struct pattern *pattern) {
    for (size_t i = 0; i < pattern->blank->bends.count; i++) {
        const struct blank_bend *bend = &pattern->blank->bends.at[i];
        if (is_upright(bend->from, bend->to))
            continue;
        struct flat way = flat_sub(bend->to, bend->from);
        add_point(pattern, bend->from, flat_scale(way, -1));
        add_point(pattern, bend->to, way);
    }
}

/* ---- Openings ---------------------------------------------------------------------------------------------------- */

static void add_opening(struct pattern *pattern, const struct blank_opening *opening) {
    struct figure *figure = pattern->figure;
    struct flat middle = opening->middle;
    const char *name = opening->name ? opening->name : "hole";
    const char *across = length_text(pattern, 2 * opening->radius);
    if (opening->round) {
        figure_circle(figure, STROKE_CUT, spot_of(middle), opening->radius);
        figure_centre(figure, spot_of(middle), opening->radius);
        name = opening->name ? arena_format(pattern->arena, "%s: hole %s across", name, across)
                             : arena_format(pattern->arena, "hole %s across", across);
        locate_centre(pattern, middle);
    } else {
        draw_loop(figure, STROKE_CUT, opening->points, opening->count);
        middle = (struct flat){0, 0};
        for (size_t i = 0; i < opening->count; i++)
            middle = flat_add(middle, flat_scale(opening->points[i], 1 / (double)opening->count));
        if (!has_corners(opening) && opening->count > 1)
            add_points(pattern, opening->points, opening->count, 0);
    }
    figure_label(figure, name, spot_of(middle), TOWARD_HERE, LETTER_SMALL);
}

/* ---- The whole --------------------------------------------------------------------------------------------------- */

static const char *subtitle(const struct pattern *pattern) {
    const struct blank *blank = pattern->blank;
    size_t all = blank->quantity * pattern->part->uses.count;
    const char *text =
        arena_format(pattern->arena, "%s · %d gauge · %zu wanted", pattern->part->title, pattern->part->gauge, all);
    if (blank->opposite == 0)
        return text;
    return arena_format(pattern->arena, "%s, %zu of them of the opposite hand: turn over before bending", text,
                        blank->opposite * pattern->part->uses.count);
}

/* Whether what is cut is the whole sheared sheet, but for small notches: its area says so. */
static bool is_box(const struct blank *blank) {
    static const double nearly = 0.97;
    return blank->cut_area > nearly * blank->width * blank->height;
}

static void draw_sheet(struct pattern *pattern) {
    const struct blank *blank = pattern->blank;
    const struct spot corners[] = {{0, 0}, {blank->width, 0}, {blank->width, blank->height}, {0, blank->height}};
    if (!is_box(blank))
        figure_polygon(pattern->figure, STROKE_THIN, SHADE_NONE, corners, 4);
}

static void add_notes(struct pattern *pattern) {
    struct figure *figure = pattern->figure;
    const struct blank *blank = pattern->blank;
    figure_note(figure, "Seen from the inside of the duct: bends up come toward you.");
    if (blank->marks.count > 0)
        figure_note(figure, arena_format(pattern->arena, "The brake marks are all measured from the %s edge.",
                                         shop_marks_from(blank)));
    if (pattern->points > 0)
        figure_note(figure, "Numbered points are across from the left edge and up from the bottom edge of the sheet.");
    if (!is_box(blank))
        figure_note(figure, arena_format(pattern->arena, "The thin box is the sheet as sheared, %s x %s.",
                                         length_text(pattern, blank->width), length_text(pattern, blank->height)));
}

struct figure *figure_pattern(struct arena *arena, const struct job *job, const struct part *part,
                              const struct blank *blank) {
    struct pattern pattern = {.arena = arena, .job = job, .part = part, .blank = blank};
    const char *title = arena_format(arena, "Part %zu%s: %s", part->number, blank->letter ? blank->letter : "",
                                     blank->name ? blank->name : part->shape);
    struct figure *figure = pattern.figure = figure_new(arena, title, subtitle(&pattern));
    figure->metric = job->system == MEASURE_METRIC;
    draw_sheet(&pattern);
    draw_cut(&pattern);
    draw_net(&pattern);
    draw_rulings(&pattern);
    draw_bends(&pattern);
    for (size_t i = 0; i < blank->openings.count; i++)
        add_opening(&pattern, &blank->openings.at[i]);
    add_brake_marks(&pattern);
    add_corner_marks(&pattern);
    add_curves(&pattern);
    add_slanting_bends(&pattern);
    name_edges(&pattern);
    name_panels(&pattern);
    add_notes(&pattern);
    return figure;
}
