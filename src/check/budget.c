/* The budget: one error a unit that asks more of its blower than it has, with what it would take to mend it. */
#include "check/checks.h"

#include <math.h>

/* Pieces that are named. */
enum { COSTLIEST = 3 };

/* Sizes tried in turn before a piece is given up. */
enum { SIZES_TRIED = 40 };

/* One item of the governing path. */
struct spender {
    const struct section *section;
    const struct item *item;
};

/* ---- The costliest pieces ---- */

/* Puts the item among the costliest, dearest first; of two that cost the same, the one seen first stays ahead. */
static void consider(struct spender *costliest, struct spender candidate) {
    for (int i = 0; i < COSTLIEST; i++) {
        const struct item *held = costliest[i].item;
        if (held && held->loss.pressure >= candidate.item->loss.pressure)
            continue;
        struct spender pushed = costliest[i];
        costliest[i] = candidate;
        if (!pushed.item)
            return;
        candidate = pushed;
    }
}

static void consider_way(struct spender *costliest, const struct path *path) {
    for (const struct section *at = path ? path->end : NULL; at; at = at->parent)
        for (size_t i = 0; i < at->items.count; i++)
            if (at->items.at[i].loss.pressure > 0)
                consider(costliest, (struct spender){at, &at->items.at[i]});
}

/* ---- What they would have to become ---- */

/* The item's loss, were its section's duct of `size`.  The section is computed in a network of its own, and put back.
 */
static double loss_at(const struct look *look, struct spender spender, struct duct_size size) {
    struct section *section = (struct section *)spender.section;
    struct network alone = {.unit = section->run->unit};
    struct section *sections[1] = {section};
    struct duct_size before = section->duct->size;
    alone.sections.at = sections;
    alone.sections.count = 1;
    section->duct->size = size;
    air_losses(&alone, &look->job->air);
    double loss = spender.item->loss.pressure;
    section->duct->size = before;
    air_losses(&alone, &look->job->air);
    return loss;
}

/* The standard size after `size`; false: none within the run's limits. */
static bool next_size(const struct look *look, const struct duct *duct, struct duct_size *size) {
    struct size_need need = {.diameter = air_equivalent_diameter(*size) * (1 + 1e-6)};
    return check_larger(look, duct, &need, size);
}

/* What the duct at the piece would have to be for the piece to lose `target` or less. */
static const char *resize_words(const struct look *look, struct spender spender, double target) {
    const struct duct *duct = spender.section->duct;
    struct arena *arena = look->job->arena;
    struct duct_size size = duct->size, first = {0};
    double first_loss = 0;
    for (int i = 0; i < SIZES_TRIED && next_size(look, duct, &size); i++) {
        double loss = loss_at(look, spender, size);
        if (i == 0 && fabs(loss - spender.item->loss.pressure) < 1e-6)
            return NULL; /* the size of the duct has no part in it */
        if (loss <= target)
            return arena_format(arena, "the %s of %s would have to be %s, where it loses %s",
                                check_size_text(look->job, duct->size), duct->run->name,
                                check_size_text(look->job, size), check_text(look->job, SHOW_PRESSURE, loss));
        if (i == 0) {
            first = size;
            first_loss = loss;
        }
    }
    if (!size_known(first))
        return NULL;
    return arena_format(arena, "with %s in place of %s it would lose %s, which is not enough by itself",
                        check_size_text(look->job, first), check_size_text(look->job, duct->size),
                        check_text(look->job, SHOW_PRESSURE, first_loss));
}

static const char *remedy(const struct look *look, struct spender spender, double deficit) {
    double target = spender.item->loss.pressure - deficit;
    const char *words = resize_words(look, spender, target);
    if (words)
        return words;
    if (target > 0)
        return arena_format(look->job->arena, "it would have to lose no more than %s",
                            check_text(look->job, SHOW_PRESSURE, target));
    return arena_format(look->job->arena, "even without it the path would be short by %s",
                        check_text(look->job, SHOW_PRESSURE, -target));
}

/* ---- What is said ---- */

/* "Elbow, 90 left, radius 1.0 (kilnside)". */
static const char *item_words(const struct look *look, struct spender spender) {
    const struct job *job = look->job;
    const struct item *item = spender.item;
    const struct piece *piece = item->piece;
    const char *name =
        piece->kind->describe ? piece->kind->describe(piece, job->system, job->arena) : piece->kind->title;
    const char *in = spender.section->run->name;
    if (item->role == ITEM_PAST)
        return arena_format(job->arena, "%s of %s, passed (%s)", name, item->tapped->name, in);
    if (item->length > 0)
        return arena_format(job->arena, "%s, %s (%s)", name, check_text(job, SHOW_RUN, item->length), in);
    return arena_format(job->arena, "%s (%s)", name, in);
}

static void name_costliest(const struct look *look, struct diagnostic *said, const struct network *network) {
    struct spender costliest[COSTLIEST] = {{NULL, NULL}};
    consider_way(costliest, network->governing_supply);
    consider_way(costliest, network->governing_return);
    for (int i = 0; i < COSTLIEST && costliest[i].item; i++) {
        const struct item *item = costliest[i].item;
        struct span at = item->piece->at.text ? item->piece->at : costliest[i].section->run->at;
        diagnostic_relate(look->job->diagnostics, said, at, "%s: %s; %s", item_words(look, costliest[i]),
                          check_text(look->job, SHOW_PRESSURE, item->loss.pressure),
                          remedy(look, costliest[i], -network->surplus));
    }
}

/* How many supply paths besides the governing one are short. */
static size_t others_short(const struct network *network) {
    size_t count = 0;
    for (size_t i = 0; i < network->supply_paths.count; i++)
        count += network->supply_paths.at[i].surplus < 0;
    return count ? count - 1 : 0;
}

static void diagnose_deficit(const struct look *look, const struct network *network) {
    const struct job *job = look->job;
    const struct path *path = network->governing_supply ? network->governing_supply : network->governing_return;
    const struct run *terminal = path->end->terminal;
    size_t others = others_short(network);
    const char *more =
        others ? arena_format(job->arena, "; %zu more outlet%s short", others, others == 1 ? " is" : "s are") : "";
    const char *back =
        network->governing_return && path != network->governing_return
            ? arena_format(job->arena, " and back from %s", network->governing_return->end->terminal->name)
            : "";
    struct diagnostic *said = diagnose(
        job->diagnostics, DIAGNOSTIC_ERROR, look->check->name, terminal->at,
        "the path to %s%s needs %s; %s has %s for it (blower %s, less %s in the unit): short by %s%s", terminal->name,
        back, check_text(job, SHOW_PRESSURE, path->total - network->unit_drops), network->unit->name,
        check_text(job, SHOW_PRESSURE, network->blower_pressure - network->unit_drops),
        check_text(job, SHOW_PRESSURE, network->blower_pressure), check_text(job, SHOW_PRESSURE, network->unit_drops),
        check_text(job, SHOW_PRESSURE, -network->surplus), more);
    said->subject = network->unit->name;
    name_costliest(look, said, network);
}

void check_budget(struct job *job, const struct check *check, struct check_result *result) {
    struct look look = {job, check, result, catalogue_make(job)};
    for (size_t i = 0; i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        if (!network || !network->blower_known || (!network->governing_supply && !network->governing_return))
            continue;
        result->looked_at++;
        if (network->surplus < 0)
            diagnose_deficit(&look, network);
    }
}
