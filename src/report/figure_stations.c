/* Which rulings of a rolled panel are its stations, and where they end. */
#include "report/figure_stations.h"

#include <math.h>
#include <stdlib.h>

/* Two places nearer than this are one. */
static const double same_place = 1e-4; /* m */

/* An arc whose centre is farther away than so many times the blank's size is given by points: no trammel on the
 * bench reaches it. */
static const double reach_most = 1.5;

/* A panel's rulings as they lie on the blank. */
struct rolled {
    int panel;
    const struct blank_ruling *rulings;
    size_t count;
    double *round; /* how far round the panel each is, as a share of the whole */
};

bool edge_by_points(const struct blank *blank, const struct blank_edge *edge) {
    if (edge->shape != EDGE_ARC || edge->count < 2)
        return edge->shape == EDGE_CURVE && edge->count > 1;
    double reach = reach_most * fmax(blank->width, blank->height);
    struct flat centre = edge->centre;
    return centre.x < -reach || centre.x > blank->width + reach || centre.y < -reach ||
           centre.y > blank->height + reach;
}

/* ---- Which ------------------------------------------------------------------------------------------------------- */

/* How far a rolled panel turns, rad: by the chords of its rim, of which there is one more than turns between them. */
static double turn_of(const struct solid_panel *panel) {
    const struct space *rim = panel->near;
    if (panel->rulings < 3)
        return 0;
    if (space_distance(rim[0], rim[1]) <= SAME_POINT && space_distance(rim[1], rim[2]) <= SAME_POINT)
        rim = panel->far;
    double turn = 0;
    for (size_t i = 2; i < panel->rulings; i++) {
        struct space in = space_unit(space_sub(rim[i - 1], rim[i - 2])),
                     out = space_unit(space_sub(rim[i], rim[i - 1]));
        turn += acos(fmax(-1, fmin(1, space_dot(in, out))));
    }
    double chords = (double)(panel->rulings - 1);
    return turn * chords / (chords - 1);
}

/* From one ruling to the next: square to both where they are parallel; else along the rim
 * where they are farther apart. */
static double step_of(struct blank_ruling a, struct blank_ruling b) {
    struct flat way = flat_unit(flat_sub(a.to, a.from)), other = flat_unit(flat_sub(b.to, b.from));
    if (fabs(flat_cross(way, other)) < 1e-9)
        return fabs(flat_cross(way, flat_sub(b.from, a.from)));
    return fmax(flat_distance(a.from, b.from), flat_distance(a.to, b.to));
}

static void measure_round(struct arena *arena, struct rolled *rolled) {
    rolled->round = ARENA_ARRAY(arena, double, rolled->count);
    rolled->round[0] = 0;
    for (size_t i = 1; i < rolled->count; i++)
        rolled->round[i] = rolled->round[i - 1] + step_of(rolled->rulings[i - 1], rolled->rulings[i]);
    double whole = rolled->round[rolled->count - 1];
    for (size_t i = 0; whole > 0 && i < rolled->count; i++)
        rolled->round[i] /= whole;
}

/* The ruling nearest to a share of the whole, at `from` or behind it. */
static size_t ruling_at(const struct rolled *rolled, size_t from, double share) {
    while (from + 1 < rolled->count && fabs(rolled->round[from + 1] - share) <= fabs(rolled->round[from] - share))
        from++;
    return from;
}

/* Whether so many even spaces all end at rulings. */
static bool ends_at_rulings(const struct rolled *rolled, size_t spaces) {
    static const double nearly = 0.01; /* of a space */
    size_t at = 0;
    for (size_t i = 1; i <= spaces; i++) {
        double share = (double)i / (double)spaces;
        at = ruling_at(rolled, at, share);
        if (fabs(rolled->round[at] - share) * (double)spaces > nearly)
            return false;
    }
    return true;
}

/* More numbers in a full turn than these crowd a drawing, unless the shop asks for more. */
static const double crowded = 24;

/* Fewer than this share of what the shop asks for do not show the curve. */
static const double too_few = 0.75;

/* How many spaces, of those that end at rulings: the nearest to what is wanted, in proportion.  Where even spaces end
 * at few of them (on a cone whose foot follows a round wall), as many as are wanted: uneven, but at rulings. */
static size_t spaces_of(const struct rolled *rolled, double turns, double whole) {
    double wanted = fmax(1, whole * turns), limit = fmax(whole, crowded) * turns + 1e-3;
    size_t best = 1, most = (size_t)fmin(limit, (double)(rolled->count - 1));
    for (size_t spaces = 2; spaces <= most; spaces++)
        if (fabs(log((double)spaces / wanted)) < fabs(log((double)best / wanted)) && ends_at_rulings(rolled, spaces))
            best = spaces;
    if ((double)best < too_few * wanted)
        best = (size_t)fmin(round(wanted), (double)(rolled->count - 1));
    return best;
}

/* ---- Where they end ---------------------------------------------------------------------------------------------- */

/* The edge of the panel that goes along its rulings' ends and is set out by points; its end may have been moved by what
 * a bend takes off. */
static const struct blank_edge *edge_of(const struct blank *blank, const struct rolled *rolled, size_t ruling,
                                        struct flat end) {
    static const double moved = INCH / 8;
    for (size_t i = 0; i < blank->edges.count; i++) {
        const struct blank_edge *edge = &blank->edges.at[i];
        if (edge->panel != rolled->panel || edge->count != rolled->count || !edge_by_points(blank, edge))
            continue;
        size_t last = edge->count - 1;
        bool inner = ruling > 0 && ruling < last;
        double away = fmin(flat_distance(edge->points[ruling], end), flat_distance(edge->points[last - ruling], end));
        if (away < (inner ? same_place : moved))
            return edge;
    }
    return NULL;
}

/* Where the line goes on to meet the outline to cut, no farther than `most`. */
static bool meets_cut(const struct blank *blank, struct flat from, struct flat way, double most, struct flat *at) {
    double nearest = most;
    for (size_t i = 0; i < blank->cut_count; i++) {
        struct flat a = blank->cut[i], side = flat_sub(blank->cut[(i + 1) % blank->cut_count], a);
        double length = flat_length(side), across = length > 0 ? flat_cross(way, side) / length : 0;
        if (fabs(across) < 1e-6)
            continue;
        double far = flat_cross(flat_sub(a, from), side) / length / across;
        double along = flat_cross(flat_sub(a, from), way) / across;
        if (far > 1e-6 && far < nearest && along > -same_place && along < length + same_place)
            nearest = far;
    }
    *at = flat_add(from, flat_scale(way, nearest));
    return nearest < most;
}

/* The place along the edge where a station meets it. */
static size_t index_on(const struct blank_edge *edge, struct flat at) {
    size_t nearest = 0;
    for (size_t i = 1; i < edge->count; i++)
        if (flat_distance(edge->points[i], at) < flat_distance(edge->points[nearest], at))
            nearest = i;
    return nearest;
}

/* Square to the edge there, outward: a loop of edges goes anticlockwise. */
static struct flat outward_at(const struct blank_edge *edge, struct flat at) {
    size_t i = index_on(edge, at);
    return flat_right(
        flat_unit(flat_sub(edge->points[i + 1 < edge->count ? i + 1 : i], edge->points[i > 0 ? i - 1 : 0])));
}

/* Parallel lines are drawn on to the cut; from others that spread or close in, the cut is found square to the edge. */
static bool is_parallel(const struct rolled *rolled) {
    struct blank_ruling first = rolled->rulings[0], last = rolled->rulings[rolled->count - 1];
    struct blank_ruling middle = rolled->rulings[rolled->count / 2];
    struct flat way = flat_unit(flat_sub(middle.to, middle.from));
    return fabs(flat_cross(way, flat_unit(flat_sub(first.to, first.from)))) < 1e-6 &&
           fabs(flat_cross(way, flat_unit(flat_sub(last.to, last.from)))) < 1e-6;
}

static struct station_end end_of(const struct blank *blank, const struct rolled *rolled, size_t ruling, bool far) {
    static const double longest = 4; /* times its allowance: a line that slants more ends at its own edge */
    struct flat here = far ? rolled->rulings[ruling].to : rolled->rulings[ruling].from;
    struct flat there = far ? rolled->rulings[ruling].from : rolled->rulings[ruling].to;
    struct station_end end = {.net = here, .cut = here, .edge = edge_of(blank, rolled, ruling, here)};
    struct flat at, way = flat_unit(flat_sub(here, there));
    if (end.edge && !is_parallel(rolled))
        way = outward_at(end.edge, here);
    if (end.edge && end.edge->allowance > 0 && meets_cut(blank, here, way, longest * end.edge->allowance, &at))
        end.cut = at;
    return end;
}

/* Whether all rulings end there in one point. */
static bool ends_in_corner(const struct rolled *rolled, bool far) {
    const struct blank_ruling *first = &rolled->rulings[0], *last = &rolled->rulings[rolled->count - 1];
    return flat_distance(far ? first->to : first->from, far ? last->to : last->from) < same_place;
}

static void add_station(struct arena *arena, const struct blank *blank, const struct rolled *rolled, size_t ruling,
                        station_list *stations) {
    struct station station = {.from = end_of(blank, rolled, ruling, false), .to = end_of(blank, rolled, ruling, true)};
    for (size_t i = 0; i < stations->count; i++)
        if (flat_distance(stations->at[i].from.net, station.from.net) < same_place &&
            flat_distance(stations->at[i].to.net, station.to.net) < same_place)
            return; /* where one panel goes on smoothly as another */
    *list_add(arena, stations) = station;
}

/* ---- Numbers ----------------------------------------------------------------------------------------------------- */

static const struct station_end *end_at(const struct station *station, const struct blank_edge *edge) {
    return station->from.edge == edge ? &station->from : station->to.edge == edge ? &station->to : NULL;
}

/* A station that has its number already and the same place on a curve. */
static size_t number_there(const station_list *stations, struct flat at) {
    for (size_t i = 0; i < stations->count; i++) {
        const struct station *station = &stations->at[i];
        if (station->number > 0 && ((station->from.edge && flat_distance(station->from.net, at) < same_place) ||
                                    (station->to.edge && flat_distance(station->to.net, at) < same_place)))
            return station->number;
    }
    return 0;
}

/* In the order in which they come along the outline. */
static void number_along(const struct blank_edge *edge, station_list *stations, size_t *last) {
    for (;;) {
        struct station *next = NULL;
        size_t first = 0;
        for (size_t i = 0; i < stations->count; i++) {
            const struct station_end *end = end_at(&stations->at[i], edge);
            if (!end || stations->at[i].number > 0)
                continue;
            size_t index = index_on(edge, end->net);
            if (!next || index < first) {
                next = &stations->at[i];
                first = index;
            }
        }
        if (!next)
            return;
        next->number = number_there(stations, end_at(next, edge)->net);
        if (next->number == 0)
            next->number = ++*last;
    }
}

/* Corners that are one place have one number. */
static void number_corners(station_list *stations) {
    size_t last = 0;
    for (size_t i = 0; i < 2 * stations->count; i++) {
        struct station *station = &stations->at[i / 2];
        struct station_end *end = i % 2 ? &station->to : &station->from;
        if (end->corner == 0)
            continue;
        size_t number = 0;
        for (size_t j = 0; number == 0 && j < i; j++) {
            const struct station_end *other = j % 2 ? &stations->at[j / 2].to : &stations->at[j / 2].from;
            if (other->corner > 0 && flat_distance(other->net, end->net) < same_place)
                number = other->corner;
        }
        end->corner = number > 0 ? number : ++last;
    }
}

bool stations_square(const station_list *stations, bool *across) {
    bool upright = true, level = true;
    for (size_t i = 0; i < stations->count; i++) {
        const struct station *station = &stations->at[i];
        upright = upright && (station->number == 0 || fabs(station->from.net.x - station->to.net.x) < same_place);
        level = level && (station->number == 0 || fabs(station->from.net.y - station->to.net.y) < same_place);
    }
    *across = level;
    return upright || level;
}

/* Squarely standing ones are numbered from the left or from below. */
static int by_place(const void *a, const void *b) {
    struct flat one = ((const struct station *)a)->from.net, other = ((const struct station *)b)->from.net;
    double x = one.x - other.x, y = one.y - other.y;
    double difference = fabs(x) > same_place ? x : y;
    return (difference > 0) - (difference < 0);
}

static int by_height(const void *a, const void *b) {
    struct flat one = ((const struct station *)a)->from.net, other = ((const struct station *)b)->from.net;
    double x = one.x - other.x, y = one.y - other.y;
    double difference = fabs(y) > same_place ? y : x;
    return (difference > 0) - (difference < 0);
}

static void number_squarely(station_list *stations, bool across) {
    qsort(stations->at, stations->count, sizeof *stations->at, across ? by_height : by_place);
    size_t last = 0;
    for (size_t i = 0; i < stations->count; i++) {
        struct station *station = &stations->at[i], *before = i > 0 ? &stations->at[i - 1] : NULL;
        if (station->number == 0)
            continue;
        double apart =
            before ? across ? station->from.net.y - before->from.net.y : station->from.net.x - before->from.net.x
                   : INFINITY;
        station->number = before && before->number > 0 && apart < same_place ? last : ++last;
    }
}

/* ---- How near they are ------------------------------------------------------------------------------------------- */

static double distance_to(struct flat at, struct flat from, struct flat to) {
    struct flat way = flat_sub(to, from);
    double length = flat_length(way);
    if (!(length > 0))
        return flat_distance(at, from);
    double along = fmax(0, fmin(length, flat_dot(flat_sub(at, from), way) / length));
    return flat_distance(at, flat_add(from, flat_scale(way, along / length)));
}

/* Whether a station ends at that point of the edge; the ends of an edge are marked anyway. */
static bool is_marked(const struct blank_edge *edge, size_t point, const station_list *stations) {
    if (point == 0 || point + 1 == edge->count)
        return true;
    for (size_t i = 0; i < stations->count; i++) {
        const struct station_end *end = end_at(&stations->at[i], edge);
        if (end && flat_distance(end->net, edge->points[point]) < same_place)
            return true;
    }
    return false;
}

static double edge_error(const struct blank_edge *edge, const station_list *stations) {
    double error = 0;
    size_t before = 0;
    for (size_t next = 1; next < edge->count; next++) {
        if (!is_marked(edge, next, stations))
            continue;
        for (size_t i = before + 1; i < next; i++)
            error = fmax(error, distance_to(edge->points[i], edge->points[before], edge->points[next]));
        before = next;
    }
    return error;
}

static bool is_set_out(const struct blank_edge *edge, const station_list *stations) {
    for (size_t i = 0; i < stations->count; i++)
        if (stations->at[i].number > 0 && end_at(&stations->at[i], edge))
            return true;
    return false;
}

double stations_error(const struct blank *blank, const station_list *stations) {
    double error = 0;
    for (size_t i = 0; i < blank->edges.count; i++)
        if (is_set_out(&blank->edges.at[i], stations))
            error = fmax(error, edge_error(&blank->edges.at[i], stations));
    return error;
}

void find_stations(struct arena *arena, const struct solid *solid, const struct blank *blank, int whole,
                   station_list *stations) {
    size_t first = 0, last = 0;
    for (size_t p = 0; p < blank->panels.count; p++) {
        const struct solid_panel *panel = &solid->panels.at[blank->panels.at[p].panel];
        struct rolled rolled = {blank->panels.at[p].panel, panel->rulings ? blank->rulings.at + first : NULL,
                                panel->rulings, NULL};
        first += panel->rulings;
        if (panel->rulings < 2 || first > blank->rulings.count)
            continue;
        measure_round(arena, &rolled);
        size_t spaces = spaces_of(&rolled, turn_of(panel) / (2 * PI), whole), at = 0, before = stations->count;
        for (size_t i = 0; i <= spaces; i++) {
            at = ruling_at(&rolled, at, (double)i / (double)spaces);
            add_station(arena, blank, &rolled, at, stations);
        }
        for (size_t i = before; i < stations->count; i++) {
            stations->at[i].from.corner = ends_in_corner(&rolled, false);
            stations->at[i].to.corner = ends_in_corner(&rolled, true);
        }
    }
    for (size_t i = 0; i < blank->edges.count; i++)
        number_along(&blank->edges.at[i], stations, &last);
    number_corners(stations);
    bool across;
    if (last > 0 && stations_square(stations, &across))
        number_squarely(stations, across);
}
