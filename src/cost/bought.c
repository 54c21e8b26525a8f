/* What the pieces say they are bought as; what of it is cut from boxes and rolls. */
#include <string.h>

#include "cost/count.h"
#include "cost/cut_lengths.h"
#include "cost/shop_prices.h"
#include "model/piece.h"

static bool is_known(const char *key) {
    size_t count;
    const struct bill_item *items = bill_items(&count);
    for (size_t i = 0; i < count; i++)
        if (strcmp(items[i].key, key) == 0)
            return true;
    return false;
}

/* Whether it is counted under the item at hand.  What has no row of its own is the rest: nothing that is bought is
 * lost. */
static bool is_of(const struct bought *bought, const struct bill_item *item) {
    return strcmp(bought->item, item->key) == 0 || (item->rest && !is_known(bought->item));
}

/* ---- By length --------------------------------------------------------------------------------------------------- */

/* A piece of flexible duct that no package is long enough for. */
static void add_splices(struct takeoff *takeoff, const struct piece *piece, double length, double package) {
    size_t count = cut_splices(length, package);
    if (!count || !(piece->kind->traits & PIECE_FLEXIBLE) || !piece->far)
        return;
    *list_add(takeoff->arena, &takeoff->splices) = (struct splice){
        .run = piece->run,
        .diameter = piece->far->size.width,
        .insulation = piece_insulation(piece, piece->run),
        .count = count,
    };
}

static void add_pieces(struct takeoff *takeoff, struct bill_line *line, const struct bought *bought) {
    double package = shop_package(takeoff->prices, line);
    for (size_t i = 0; i < bought->lengths.count; i++) {
        *list_add(takeoff->arena, &line->pieces) = bought->lengths.at[i];
        if (package > 0)
            add_splices(takeoff, bought->pieces.at[i], bought->lengths.at[i], package);
    }
}

/* "3 pieces, each cut from a single package of 25 ft: 3 of them; 8 % waste, as the shop says". */
static const char *pieces_basis(const struct takeoff *takeoff, const struct job *job, const struct bill_line *line,
                                double package) {
    struct arena *arena = takeoff->arena;
    const char *cut = "", *joined = "";
    size_t splices = 0;
    for (size_t i = 0; i < line->pieces.count && package > 0; i++)
        splices += cut_splices(line->pieces.at[i], package);
    if (splices)
        joined = arena_format(arena, "; what is longer is joined, with %s",
                              words_of_count(takeoff, (double)splices, "splice", "splices"));
    if (package > 0)
        cut = arena_format(arena, ", each cut from a single package of %s: %zu of them%s",
                           words_of_length(takeoff, job, package), line->packages, joined);
    const char *waste = takeoff->prices->waste > 0
                            ? arena_format(arena, "; %.4g %% waste, as the shop says", 100 * takeoff->prices->waste)
                            : "";
    return arena_format(arena, "%s%s%s", words_of_count(takeoff, (double)line->pieces.count, "piece", "pieces"), cut,
                        waste);
}

static void end_pieces(struct takeoff *takeoff, const struct job *job, struct bill_line *line) {
    double package = shop_package(takeoff->prices, line);
    if (package > 0)
        line->packages = cut_lengths(takeoff->arena, line->pieces.at, line->pieces.count, package);
    line->wanted = line->net * (1 + takeoff->prices->waste);
    line->basis = pieces_basis(takeoff, job, line, package);
}

/* ---- The rows ---------------------------------------------------------------------------------------------------- */

void count_bought(struct takeoff *takeoff, const struct job *job) {
    const struct bill_item *item = takeoff->item;
    size_t first = takeoff->lines.count;
    for (size_t i = 0; i < job->metal->bought.count; i++) {
        const struct bought *bought = &job->metal->bought.at[i];
        if (!is_of(bought, item))
            continue;
        struct bill_line *line = bill_line(takeoff, item->by_title ? bought->title : bought->key, bought->title);
        line->net += item->whole ? bought->length : (double)bought->count;
        line->wanted = line->net;
        line->basis = "as the job lists them";
        if (item->whole)
            add_pieces(takeoff, line, bought);
    }
    for (size_t i = first; item->whole && i < takeoff->lines.count; i++)
        end_pieces(takeoff, job, &takeoff->lines.at[i]);
}
