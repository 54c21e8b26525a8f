/* A blank as a drawing that metal is scribed from: nothing on it is left to be worked out. */
#include <string.h>

#include "report/figure_blank.h"

#include "report/shop.h"

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

/* Lines of a seam that nothing is bent along are no marks for the brake. */
static bool has_brake_marks(const struct blank *blank) {
    for (size_t i = 0; i < blank->marks.count; i++)
        if (blank->marks.at[i].kind == LINE_BEND)
            return true;
    return false;
}

static const char *station_note(const struct pattern *pattern) {
    if (!pattern->square)
        return "Points and corners: across from the left edge of the sheet, up from its bottom edge. P to 1: the "
               "length of the form line between them. An allowance stands square to its edge, as wide as its name "
               "says.";
    return pattern->across
               ? "Stations are up from the bottom edge; their left and right ends, across from the left edge."
               : "Stations are across from the left edge; their lower and upper ends, up from the bottom edge.";
}

static bool has_kind(const struct blank *blank, enum allowance_kind kind) {
    for (size_t i = 0; i < blank->edges.count; i++)
        if (blank->edges.at[i].kind == kind && blank->edges.at[i].allowance > 0)
            return true;
    return false;
}

static bool has_turned(const struct blank *blank) {
    for (size_t i = 0; i < blank->edges.count; i++)
        if (blank->edges.at[i].allowance > 0 && blank->edges.at[i].turn != TURN_FLAT)
            return true;
    return false;
}

/* How wide tabs are; common practice, no source. */
static const double tab_width = 1 * INCH;

/* Before anything is folded. */
static void add_cutting_notes(struct pattern *pattern) {
    const struct blank *blank = pattern->blank;
    if (blank->reliefs.count)
        figure_note(pattern->figure,
                    "Short cuts from the outline in to the net size are relief cuts: snip them first.");
    if (has_kind(blank, ALLOW_TABS))
        figure_note(pattern->figure, arena_format(pattern->arena, "Slit the tabs in to the net size, about %s apart.",
                                                  pattern_text(pattern, tab_width)));
}

/* Whether what is said of a twisted panel is said of one of this blank. */
static bool is_of_blank(const struct pattern *pattern, const char *note) {
    for (size_t p = 0; p < pattern->blank->panels.count; p++) {
        const char *name = pattern->part->solid->panels.at[pattern->blank->panels.at[p].panel].name;
        if (name && (strstr(note, name) || (strstr(note, "cheeks") && strstr(name, "cheek"))))
            return true;
    }
    return false;
}

/* Why there is a bend where none would be looked for. */
static void add_break_notes(struct pattern *pattern) {
    for (size_t i = 0; i < pattern->part->solid->notes.count; i++) {
        const char *note = pattern->part->solid->notes.at[i];
        if (strstr(note, "dashed") && is_of_blank(pattern, note))
            figure_note(pattern->figure, note);
    }
}

static void add_notes(struct pattern *pattern) {
    struct figure *figure = pattern->figure;
    const struct blank *blank = pattern->blank;
    figure_note(figure, has_turned(blank)
                            ? "Seen from the inside of the duct: bends and edges up come toward you, down go away."
                            : "Seen from the inside of the duct: bends up come toward you.");
    add_break_notes(pattern);
    add_cutting_notes(pattern);
    if (has_brake_marks(blank))
        figure_note(figure, arena_format(pattern->arena, "The brake marks are all measured from the %s edge.",
                                         shop_marks_from(blank)));
    if (pattern->opening_widths)
        figure_note(figure, "Half widths of openings are level, to either side of the upright centre line; above and "
                            "below are along it.");
    if (pattern->last_station > 0)
        figure_note(figure, station_note(pattern));
    double off = pattern->last_station > 0 ? stations_error(blank, &pattern->stations) : 0;
    if (off > CHORD_LIMIT)
        figure_note(figure, arena_format(pattern->arena,
                                         "Draw the curve through the points along a flexible rule: joined by straight "
                                         "lines they are off by up to %s.",
                                         pattern_text(pattern, off)));
    if (pattern->points > pattern->last_station)
        figure_note(figure,
                    pattern->opening_points
                        ? "Points of openings are measured from their centre lines."
                        : "Numbered points are across from the left edge and up from the bottom edge of the sheet.");
    if (!is_box(blank))
        figure_note(figure, arena_format(pattern->arena, "The thin box is the sheet as sheared, %s x %s.",
                                         pattern_text(pattern, blank->width), pattern_text(pattern, blank->height)));
}

struct figure *figure_pattern(struct arena *arena, const struct job *job, const struct part *part,
                              const struct blank *blank) {
    struct pattern pattern = {.arena = arena, .job = job, .part = part, .blank = blank};
    const char *title = arena_format(arena, "Part %zu%s: %s", part->number, blank->letter ? blank->letter : "",
                                     blank->name ? blank->name : part->shape);
    struct figure *figure = pattern.figure = figure_new(arena, title, subtitle(&pattern));
    figure->metric = job->system == MEASURE_METRIC;
    draw_sheet(&pattern);
    pattern_cut(&pattern);
    pattern_reliefs(&pattern);
    pattern_net(&pattern);
    find_stations(arena, part->solid, blank, job->shop.stations, &pattern.stations);
    pattern.square = stations_square(&pattern.stations, &pattern.across);
    for (size_t i = 0; i < pattern.stations.count; i++)
        pattern.last_station = pattern.points =
            pattern.stations.at[i].number > pattern.points ? pattern.stations.at[i].number : pattern.points;
    pattern_forming(&pattern);
    pattern_bends(&pattern);
    pattern_stations(&pattern);
    for (size_t i = 0; i < blank->openings.count; i++)
        pattern_opening(&pattern, &blank->openings.at[i]);
    pattern_brake_marks(&pattern);
    pattern_corner_marks(&pattern);
    pattern_curves(&pattern);
    pattern_slanting_bends(&pattern);
    pattern_edge_names(&pattern);
    pattern_panel_names(&pattern);
    add_notes(&pattern);
    return figure;
}
