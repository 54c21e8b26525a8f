/* What heat meets on its way through the wall of a duct. */
#include "air/heat.h"
#include "base/constant.h"

/* SOURCE_FILMS: 0.17 inside, where air moves, and 0.68 outside, where it is still: 0.85 together; outdoors 0.25. */
static const double inside = 0.17, still = 0.68, outdoors = 0.25;

/* SOURCE_LINING_VALUE: 0.25 btu in/(h ft2 F), R-4 an inch; 1 in board of fibre. */
static const double lining_conductivity = 0.25, board = 4.3;

double heat_film_inside(void) {
    return inside * R_VALUE;
}

double heat_film_outside(enum location location) {
    return (location == LOCATION_OUTDOORS ? outdoors : still) * R_VALUE;
}

double heat_item_insulation(const struct run *run, const struct piece *piece) {
    const struct settings *settings = &run->settings;
    double around = piece_insulation(piece, run);
    if (piece->kind->traits & PIECE_FLEXIBLE)
        return around;
    double lining = settings->lining / INCH / lining_conductivity * R_VALUE;
    double material = settings->material == MATERIAL_FIBROUS_BOARD ? board * R_VALUE : 0;
    return around + lining + material;
}

/* ---- Surface ----------------------------------------------------------------------------------------------------- */

/* The share of a piece that belongs to the item: of duct divided by taps, its part; of a split, one leg; a box
 * belongs to the item with all its air. */
static double share_of(const struct section *section, const struct item *item) {
    const struct piece *piece = item->piece;
    if (item->skips_near)
        return 0;
    if (piece->kind->traits & PIECE_LENGTH)
        return piece->length > 0 ? item->length / piece->length : 0;
    size_t legs = 0;
    for (int leg = 0; leg < LEG_COUNT && item->role == ITEM_LEG; leg++)
        legs += section->run->parent->legs[leg] != NULL;
    return legs > 1 ? 1 / (double)legs : 1;
}

static double length_of(const struct section *section, const struct piece *piece) {
    return piece->kind->centre_line ? piece->kind->centre_line(piece, section->duct->size) : piece->length;
}

/* The girth of a piece: a box has its own, and one that changes the size takes the mean of both ends. */
static double girth_of(const struct section *section, const struct item *item) {
    const struct piece *piece = item->piece;
    struct duct_size body = piece->kind->body ? piece->kind->body(piece) : (struct duct_size){0};
    if (size_known(body))
        return size_perimeter(body);
    double own = size_perimeter(section->duct->size);
    bool changes = item->role == ITEM_CONNECT || (item->role == ITEM_PIECE && piece_resizes(piece));
    const struct section *before = section->parent;
    return changes && before && size_known(before->duct->size) ? (own + size_perimeter(before->duct->size)) / 2 : own;
}

double heat_item_surface(const struct section *section, const struct item *item) {
    if (item->role == ITEM_PAST || !item->piece || !size_known(section->duct->size))
        return 0;
    double share = share_of(section, item);
    if (item->piece->surface > 0)
        return share * item->piece->surface;
    return item->role == ITEM_BRANCH ? 0 : share * length_of(section, item->piece) * girth_of(section, item);
}

/* ---- What is asked ----------------------------------------------------------------------------------------------- */

/* SOURCE_INSULATION: R-8 in an attic and outdoors, R-6 elsewhere outside the rooms.  A basement may lie within the
 * building's own insulation, where nothing is asked: the job has to declare it. */
static const double least[LOCATION_COUNT] = {
    [LOCATION_ATTIC] = 8,
    [LOCATION_CRAWL] = 6,
    [LOCATION_OUTDOORS] = 8,
};

double heat_least_insulation(const struct settings *settings, bool *cited) {
    *cited = !settings->location_minimum_set;
    return *cited ? least[settings->location] * R_VALUE : settings->location_minimum;
}
