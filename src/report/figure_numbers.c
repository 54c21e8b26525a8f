/* Stations of a blank, numbered and listed; the corners that its form lines start from, lettered. */
#include "report/figure_blank.h"

#include <math.h>

/* "P", "Q" ... "Z", "P2" ...: a corner that form lines come together in. */
static const char *corner_letter(const struct pattern *pattern, size_t number) {
    enum { LETTERS = 11 };
    char letter = (char)('P' + (number - 1) % LETTERS);
    return number <= LETTERS ? arena_format(pattern->arena, "%c", letter)
                             : arena_format(pattern->arena, "%c%zu", letter, (number - 1) / LETTERS + 1);
}

/* Across, up: "2-3/4, 7-1/16". */
static const char *place_text(const struct pattern *pattern, struct flat at) {
    return arena_format(pattern->arena, "%s, %s", pattern_figure(pattern, at.x), pattern_figure(pattern, at.y));
}

/* One end of a station that stands squarely: ", upper 10-15/16 (seam 10-3/16)". */
static const char *end_text(const struct pattern *pattern, const struct station_end *end, const struct flat *other) {
    if (!end->edge)
        return "";
    bool across = pattern->across, upper = across ? end->net.x > other->x : end->net.y > other->y;
    const char *side = across ? (upper ? "right" : "left") : (upper ? "upper" : "lower");
    const char *cut = pattern_figure(pattern, across ? end->cut.x : end->cut.y);
    if (flat_distance(end->cut, end->net) < same_mark)
        return arena_format(pattern->arena, ", %s %s", side, cut);
    return arena_format(pattern->arena, ", %s %s (%s %s)", side, cut, edge_own_line(end->edge),
                        pattern_figure(pattern, across ? end->net.x : end->net.y));
}

/* A number at one end, the lower or the left when that is on a curve. */
static void number_squarely(struct pattern *pattern, const struct station *station) {
    const struct station_end *from = &station->from, *to = &station->to;
    bool turned = pattern->across ? to->net.x < from->net.x : to->net.y < from->net.y;
    const struct station_end *low = turned ? to : from, *high = turned ? from : to, *end = low->edge ? low : high;
    unsigned toward =
        pattern->across ? (end == low ? TOWARD_LEFT : TOWARD_RIGHT) : (end == low ? TOWARD_DOWN : TOWARD_UP);
    const char *number = arena_format(pattern->arena, "%zu", station->number);
    figure_label(pattern->figure, number, spot_of(end->cut), toward | TOWARD_DOT, LETTER_SMALL);
    figure_list(pattern->figure, arena_format(pattern->arena, "%s: at %s%s%s", number,
                                              pattern_figure(pattern, pattern->across ? low->net.y : low->net.x),
                                              end_text(pattern, low, &high->net), end_text(pattern, high, &low->net)));
}

static void add_square_stations(struct pattern *pattern) {
    size_t last = 0;
    for (size_t i = 0; i < pattern->stations.count; i++)
        if (pattern->stations.at[i].number > last) {
            number_squarely(pattern, &pattern->stations.at[i]);
            last = pattern->stations.at[i].number;
        }
}

/* A foot of a slanting station: "3: 4-1/2, 7-1/16; seam 4-7/8, 7-1/2". */
static void add_foot(struct pattern *pattern, const char *number, const struct station_end *end, struct flat other) {
    struct flat out = flat_unit(flat_sub(end->net, other));
    unsigned toward =
        fabs(out.x) > fabs(out.y) ? (out.x > 0 ? TOWARD_RIGHT : TOWARD_LEFT) : (out.y > 0 ? TOWARD_UP : TOWARD_DOWN);
    figure_label(pattern->figure, number, spot_of(end->cut), toward | TOWARD_DOT, LETTER_SMALL);
    const char *text = arena_format(pattern->arena, "%s: %s", number, place_text(pattern, end->cut));
    if (flat_distance(end->cut, end->net) > same_mark)
        text = arena_format(pattern->arena, "%s; %s %s", text, edge_own_line(end->edge), place_text(pattern, end->net));
    figure_list(pattern->figure, text);
}

/* Of a line between two curves the number at its farther end is that of the nearer with a stroke. */
static void add_slanting_station(struct pattern *pattern, const struct station *station) {
    const struct station_end *one = station->from.edge ? &station->from : &station->to;
    const struct station_end *other = one == &station->from ? &station->to : &station->from;
    add_foot(pattern, arena_format(pattern->arena, "%zu", station->number), one, other->net);
    if (other->edge)
        add_foot(pattern, arena_format(pattern->arena, "%zu'", station->number), other, one->net);
}

/* A corner that form lines start from, or another of the net outline. */
static void add_lettered(struct pattern *pattern, size_t number, struct flat at) {
    const char *letter = corner_letter(pattern, number);
    figure_label(pattern->figure, letter, spot_of(at), TOWARD_CORNERS | TOWARD_DOT, LETTER_SMALL);
    figure_list(pattern->figure, arena_format(pattern->arena, "%s: %s", letter, place_text(pattern, at)));
}

/* Whether a place has a number or a letter of its own as the end of a station. */
static bool is_station_end(const struct pattern *pattern, struct flat at) {
    for (size_t i = 0; i < pattern->stations.count; i++) {
        const struct station *station = &pattern->stations.at[i];
        for (int end = 0; station->number > 0 && end < 2; end++) {
            const struct station_end *ends = end ? &station->to : &station->from;
            if ((ends->edge || ends->corner > 0) && flat_distance(ends->net, at) < same_point)
                return true;
        }
    }
    return false;
}

/* Corners of the net outline that no form line ends at. */
static void add_other_corners(struct pattern *pattern, size_t last) {
    const struct blank *blank = pattern->blank;
    for (size_t i = 0; i < blank->edges.count; i++) {
        const struct blank_edge *edge = &blank->edges.at[i],
                                *before = &blank->edges.at[i ? i - 1 : blank->edges.count - 1];
        struct flat in = flat_sub(before->points[before->count - 1], before->points[before->count - 2]);
        struct flat out = flat_sub(edge->points[1], edge->points[0]);
        if (fabs(atan2(flat_cross(in, out), flat_dot(in, out))) > curve_turn &&
            !is_station_end(pattern, edge->points[0]))
            add_lettered(pattern, ++last, edge->points[0]);
    }
}

/* Lengths of form lines, from their corner: "P to 1: 15-7/8". */
static void add_true_lengths(struct pattern *pattern) {
    for (size_t i = 0; i < pattern->stations.count; i++) {
        const struct station *station = &pattern->stations.at[i];
        size_t corner = station->from.corner ? station->from.corner : station->to.corner;
        double length = flat_distance(station->from.net, station->to.net);
        if (corner > 0 && station->number > 0)
            figure_list(pattern->figure, arena_format(pattern->arena, "%s to %zu: %s", corner_letter(pattern, corner),
                                                      station->number, pattern_figure(pattern, length)));
    }
}

static void add_slanting_stations(struct pattern *pattern) {
    size_t feet = 0, corners = 0;
    for (size_t n = 1; n <= pattern->stations.count; n++)
        for (size_t i = 0; i < pattern->stations.count && feet < n; i++)
            if (pattern->stations.at[i].number == n) {
                add_slanting_station(pattern, &pattern->stations.at[i]);
                feet = n;
            }
    for (size_t i = 0; i < 2 * pattern->stations.count; i++) {
        const struct station *station = &pattern->stations.at[i / 2];
        const struct station_end *end = i % 2 ? &station->to : &station->from;
        if (station->number == 0 || end->corner <= corners)
            continue;
        add_lettered(pattern, end->corner, end->net);
        corners = end->corner;
    }
    add_other_corners(pattern, corners);
    add_true_lengths(pattern);
}

void pattern_stations(struct pattern *pattern) {
    if (pattern->square)
        add_square_stations(pattern);
    else
        add_slanting_stations(pattern);
}
