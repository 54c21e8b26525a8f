/* The cost model of least-cost sizing.
 *
 * The sheet of a duct is its girth times the length of what it is made of: straight duct, changes of size and offsets
 * as long as they are along the run, a bend as long as its arc.  A square metre of it costs what the cheapest sheet of
 * its material and gauge costs in the shop's stock, and the gauge goes with the size; where the shop prices no sheet,
 * the weight counts instead.  Wrap and lining are added by the same area where they are called for and priced. Flexible
 * duct, and board, count as the lightest sheet of the same area: a shop prices them by the foot, without their size.
 *
 * Not counted is what no choice of sizes changes, or hardly: seams and connections, waste, taps, dampers, boots and
 * faces; and hours, which a shop gives for a piece of whatever size.
 */
#include "model/lined.h"
#include "size/wall_cost.h"

const char *wall_cost_words(const struct job *job) {
    const struct wall_worth *worth = job->worth;
    const char *covers = worth->wrap_priced && worth->lining_priced ? ", with its wrap or lining"
                         : worth->wrap_priced                       ? ", with its wrap"
                         : worth->lining_priced                     ? ", with its lining"
                                                : "; insulation, which it does not price, is left out";
    const char *sheet = "the weight of the sheet, since the shop prices none; insulation is left out";
    if (worth->priced)
        sheet = arena_format(job->arena, "the sheet at the shop's prices by gauge%s", covers);
    return arena_format(
        job->arena,
        "What was made least: %s. Counted are the walls of straight and flexible duct, bends, offsets and changes of "
        "size, flexible duct like light sheet of its area. Hours are not, since a shop gives them for a piece of "
        "whatever size.",
        sheet);
}

/* ---- Lengths ----------------------------------------------------------------------------------------------------- */

/* What is bought, or is as large as its face and not as its duct. */
enum { NO_WALL = PIECE_OUTLET | PIECE_INLET | PIECE_FILTER | PIECE_BALANCES | PIECE_TAKES_TAPS | PIECE_FITS_FACE };

static bool is_bend(const struct item *item) {
    const struct piece *piece = item->piece;
    return item->role == ITEM_PIECE && !(piece->kind->traits & (NO_WALL | PIECE_LENGTH)) && !(piece->length > 0) &&
           !piece_resizes(piece);
}

static void add_item(struct wall_length *length, const struct item *item) {
    const struct piece *piece = item->piece;
    unsigned traits = piece->kind->traits;
    if (item->role != ITEM_PIECE)
        return;
    if (traits & PIECE_FLEXIBLE)
        length->flexible += item->length;
    else if (traits & PIECE_LENGTH)
        length->sheet += item->length;
    else if (!(traits & NO_WALL))
        length->sheet += piece->length;
    length->bends |= is_bend(item);
}

struct wall_cost wall_cost_make(const struct job *job, const struct network *network, struct arena *arena) {
    struct wall_length *lengths = ARENA_ARRAY(arena, struct wall_length, network->ducts.count);
    struct wall_cost cost = {
        .job = job,
        .lengths = lengths,
        .sections = ARENA_ARRAY(arena, const struct section *, network->ducts.count),
        .next = ARENA_ARRAY(arena, const struct section *, network->sections.count),
    };
    for (size_t i = network->sections.count; i-- > 0;) {
        const struct section *section = network->sections.at[i];
        uint32_t duct = section->duct->id;
        cost.next[i] = cost.sections[duct];
        cost.sections[duct] = section;
        for (size_t k = 0; k < section->items.count; k++)
            add_item(&lengths[duct], &section->items.at[k]);
    }
    return cost;
}

/* A bend is as long as the straight duct of its own wall friction: the friction along its arc. */
static double bends_length(const struct wall_cost *cost, const struct duct *duct) {
    double sum = 0;
    for (const struct section *at = cost->sections[duct->id]; at; at = cost->next[at->id])
        for (size_t i = 0; i < at->items.count; i++)
            if (is_bend(&at->items.at[i]))
                sum += air_rubbed_length(&cost->job->air, at, &at->items.at[i]);
    return sum;
}

/* ---- Cost -------------------------------------------------------------------------------------------------------- */

static double sheet_worth(const struct job *job, const struct duct *duct) {
    const struct wall_worth *worth = job->worth;
    const struct settings *settings = &duct->run->settings;
    int gauge = worth->gauge_of(job, duct->run, duct_metal(duct));
    double sheet = worth->gauge[settings->material][gauge], of = sheet > 0 ? sheet : worth->light;
    return of + (settings->insulation > 0 ? worth->wrap : 0) + (duct->lining > 0 ? worth->lining : 0);
}

static double sheet_length(const struct wall_cost *cost, const struct duct *duct) {
    const struct wall_length *length = &cost->lengths[duct->id];
    return length->sheet + (length->bends ? bends_length(cost, duct) : 0);
}

double wall_cost_of(const struct wall_cost *cost, const struct duct *duct) {
    double sheet = sheet_length(cost, duct), flexible = cost->lengths[duct->id].flexible;
    double each = sheet > 0 ? sheet * sheet_worth(cost->job, duct) : 0;
    return size_perimeter(duct_metal(duct)) * (each + flexible * cost->job->worth->light);
}

double wall_cost_sum(const struct wall_cost *cost, const struct network *network) {
    double sum = 0;
    for (size_t i = 0; i < network->ducts.count; i++)
        if (size_known(network->ducts.at[i]->size))
            sum += wall_cost_of(cost, network->ducts.at[i]);
    return sum;
}

double wall_area_of(const struct wall_cost *cost, const struct duct *duct) {
    return size_perimeter(duct_metal(duct)) * (sheet_length(cost, duct) + cost->lengths[duct->id].flexible);
}

double wall_area(const struct wall_cost *cost, const struct network *network) {
    double sum = 0;
    for (size_t i = 0; i < network->ducts.count; i++)
        if (size_known(network->ducts.at[i]->size))
            sum += wall_area_of(cost, network->ducts.at[i]);
    return sum;
}
