/* What the duct is lined with: a piece for each panel, butted. */
#include "report/shop.h"

#include <math.h>

#include "cost/takeoff.h"
#include "model/lined.h"
#include "report/bid.h"

enum { LINER_PART, LINER_PANEL, LINER_THICK, LINER_COUNT, LINER_WIDTH, LINER_LENGTH, LINER_COLUMNS };

static const struct column liner_columns[LINER_COLUMNS] = {
    [LINER_PART] = {.head = "Part", .kind = COLUMN_NUMBER},
    [LINER_PANEL] = {.head = "Panel"},
    [LINER_THICK] = {.head = "Thick", .kind = COLUMN_FIGURE, .use = SHOW_SIZE},
    [LINER_COUNT] = {.head = "How many", .kind = COLUMN_NUMBER},
    [LINER_WIDTH] = {.head = "Width", .kind = COLUMN_FIGURE, .use = SHOW_CUT},
    [LINER_LENGTH] = {.head = "Length", .kind = COLUMN_FIGURE, .use = SHOW_CUT},
};

/* A piece of liner as it is cut off the roll. */
struct liner_piece {
    const char *panel;
    double width, length; /* m */
    size_t count;
};
typedef LIST(struct liner_piece) piece_list;

/* ---- How large it is --------------------------------------------------------------------------------------------- */

/* Its longest edge, from end to end, gives the way that the piece lies. */
static struct flat longest_way(const struct solid_panel *panel) {
    struct flat way = {1, 0};
    double longest = 0;
    for (size_t e = 0; e < panel->edges.count; e++) {
        const struct solid_edge *edge = &panel->edges.at[e];
        struct flat chord = flat_sub(edge->flat[edge->count - 1], edge->flat[0]);
        double length = flat_length(chord);
        if (length > longest + SAME_POINT) {
            longest = length;
            way = flat_scale(chord, 1 / length);
        }
    }
    return way;
}

/* What the panel takes up along `way`. */
static double extent(const struct solid_panel *panel, struct flat way) {
    double low = INFINITY, high = -INFINITY;
    for (size_t e = 0; e < panel->edges.count; e++)
        for (size_t i = 0; i < panel->edges.at[e].count; i++) {
            double at = flat_dot(panel->edges.at[e].flat[i], way);
            low = fmin(low, at);
            high = fmax(high, at);
        }
    return high - low;
}

/* An upright side of straight duct: its pieces stand between those of the top and the bottom. */
static bool stands_between(const struct part *part, const struct solid_panel *panel) {
    if (!(part->finished_length > 0) || panel->kind != PANEL_PLANE ||
        part->solid->ports.at[0].size.shape != SHAPE_RECTANGULAR)
        return false;
    double x = panel->edges.at[0].space[0].x;
    for (size_t e = 0; e < panel->edges.count; e++)
        if (fabs(panel->edges.at[e].space[0].x - x) > SAME_POINT)
            return false;
    return true;
}

static struct liner_piece piece_of(const struct part *part, const struct solid_panel *panel) {
    struct flat along = longest_way(panel), across = {-along.y, along.x};
    double one = extent(panel, along), other = extent(panel, across);
    if (stands_between(part, panel)) {
        bool lengthwise = fabs(one - part->finished_length) < SAME_POINT;
        *(lengthwise ? &other : &one) -= 2 * part->lining;
    }
    return (struct liner_piece){
        .panel = panel->name, .width = fmin(one, other), .length = fmax(one, other), .count = 1};
}

static void add_piece(struct arena *arena, piece_list *pieces, struct liner_piece piece) {
    for (size_t i = 0; i < pieces->count; i++) {
        struct liner_piece *known = &pieces->at[i];
        if (fabs(known->width - piece.width) < 1e-6 && fabs(known->length - piece.length) < 1e-6) {
            known->count++;
            return;
        }
    }
    *list_add(arena, pieces) = piece;
}

/* ---- The list ---------------------------------------------------------------------------------------------------- */

static void liner_rows(struct document *document, struct table **table, const struct part *part) {
    piece_list pieces = {0};
    for (size_t p = 0; p < part->solid->panels.count; p++)
        add_piece(document->keep, &pieces, piece_of(part, &part->solid->panels.at[p]));
    for (size_t i = 0; i < pieces.count; i++) {
        union cell *cells = document_row(document, table);
        cells[LINER_PART].figure = (double)part->number;
        cells[LINER_PANEL].text = pieces.at[i].panel;
        cells[LINER_THICK].figure = part->lining;
        cells[LINER_COUNT].figure = (double)(pieces.at[i].count * part->uses.count);
        cells[LINER_WIDTH].figure = pieces.at[i].width;
        cells[LINER_LENGTH].figure = pieces.at[i].length;
    }
}

bool shop_is_lined(const struct job *job) {
    for (size_t i = 0; job->metal && i < job->metal->parts.count; i++)
        if (job->metal->parts.at[i]->lining > 0)
            return true;
    return false;
}

void shop_liner(const struct job *job, struct document *document) {
    document_paragraph(
        document, "The metal of a lined part is larger than its clear size by the liner on every side. A piece is "
                  "the rectangle round its panel: butt the pieces at corners and ends, trim them to the panel and "
                  "cut its openings through. In straight rectangular duct the sides stand between top and bottom.");
    struct table *table = document_table(document, liner_columns, LINER_COLUMNS);
    for (size_t i = 0; i < job->metal->parts.count; i++)
        if (job->metal->parts.at[i]->lining > 0)
            liner_rows(document, &table, job->metal->parts.at[i]);
}

/* ---- What it is said to be elsewhere ----------------------------------------------------------------------------- */

const char *shop_lined_words(struct arena *arena, enum measure_system system, const struct part *part) {
    if (!(part->lining > 0))
        return NULL;
    const char *thick = measure_text(arena, system, SHOW_SIZE, part->lining);
    const struct solid_port *last = &part->solid->ports.at[part->solid->ports.count - 1];
    struct duct_size near = part->solid->ports.at[0].size;
    if (last->use != PORT_USE_DUCT || !size_equal(near, last->size))
        return arena_format(arena, "lined, %s", thick);
    return arena_format(arena, "lined, %s: %s clear", thick,
                        size_text(arena, system, size_around(near, -part->lining)));
}

double shop_liner_area(const struct job *job, double thickness) {
    double area = 0;
    const struct metal *metal = job->metal;
    for (size_t i = 0; job->takeoff && i < metal->parts.count; i++)
        if (fabs(metal->parts.at[i]->lining - thickness) < 1e-6)
            area += job->takeoff->measures[i].surface * (double)metal->parts.at[i]->uses.count;
    return area;
}
