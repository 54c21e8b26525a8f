/* The budget: one error a unit that asks more of its blower than it has, with what it would take to mend it. */
#include "check/budget_delivers.h"
#include "check/budget_options.h"
#include "check/budget_ways.h"
#include "check/checks.h"
#include "model/item_words.h"

/* Pieces that are named.  Chosen here, no source: after three the rest is small, and nobody reads on. */
enum { COSTLIEST = 3 };

/* Sizes tried in turn before a piece is given up.  Chosen here, no source: more than any of the tool's own lists has
 * sides. */
enum { SIZES_TRIED = 40 };

/* One item of the governing path. */
struct spender {
    const struct section *section;
    const struct item *item;
};

/* ---- The costliest pieces ---------------------------------------------------------------------------------------- */

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

/* ---- What they would have to become ------------------------------------------------------------------------------ */

/* A duct at an item, and the size of it that was tried. */
struct cure {
    const struct duct *duct;
    struct duct_size size;
    double loss; /* of the item then, Pa */
};

/* Looks for the size of cure->duct with which the item loses `target` or less.  Without one, the next size is left in
 * `cure` if it is of any help; else cure->size is unknown. */
static bool try_sizes(const struct look *look, struct spender spender, double target, struct cure *cure) {
    struct cure next = {.loss = spender.item->loss.pressure};
    struct duct_size size = cure->duct->size;
    for (int i = 0; i < SIZES_TRIED && check_next(look, cure->duct, &size); i++) {
        double loss = air_trial_loss(&look->job->air, spender.section, spender.item, cure->duct, size);
        if (loss <= target) {
            cure->size = size;
            cure->loss = loss;
            return true;
        }
        if (i == 0 && loss < next.loss - NO_GAIN)
            next = (struct cure){NULL, size, loss};
    }
    cure->size = next.size;
    cure->loss = next.loss;
    return false;
}

static const char *cure_words(const struct look *look, const struct cure *cure, bool enough) {
    struct arena *arena = look->job->arena;
    const char *now = check_size_text(look->job, cure->duct->size), *then = check_size_text(look->job, cure->size);
    const char *loss = check_text(look->job, SHOW_PRESSURE, cure->loss), *run = cure->duct->run->name;
    if (enough)
        return arena_format(arena, "the %s of %s would have to be %s, where it loses %s", now, run, then, loss);
    return arena_format(arena, "with the %s of %s as %s it would lose %s, which is not enough by itself", now, run,
                        then, loss);
}

/* By the size of its own duct; at a junction also by that of the duct it leaves.  NULL: neither helps. */
static const char *resize_words(const struct look *look, struct spender spender, double target) {
    const struct section *section = spender.section;
    bool junction = spender.item->role == ITEM_BRANCH || spender.item->role == ITEM_LEG;
    struct cure own = {.duct = section->duct};
    if (try_sizes(look, spender, target, &own))
        return cure_words(look, &own, true);
    struct cure parent = {.duct = junction && section->parent ? section->parent->duct : NULL};
    if (parent.duct && try_sizes(look, spender, target, &parent))
        return cure_words(look, &parent, true);
    if (size_known(own.size))
        return cure_words(look, &own, false);
    return size_known(parent.size) ? cure_words(look, &parent, false) : NULL;
}

static const char *remedy(const struct look *look, struct spender spender, double deficit) {
    double target = spender.item->loss.pressure - deficit;
    const char *words = resize_words(look, spender, target);
    if (words)
        return words;
    if (target > 0)
        return arena_format(look->job->arena, "it would have to lose no more than %s",
                            check_text_down(look->job, SHOW_PRESSURE, target));
    return arena_format(look->job->arena, "even without it the path would be short by %s",
                        check_text(look->job, SHOW_PRESSURE, -target));
}

/* ---- What is said ------------------------------------------------------------------------------------------------ */

/* "Elbow, 90 left, radius 1.0 (kilnside)". */
static const char *spender_words(const struct look *look, struct spender spender) {
    const struct job *job = look->job;
    const char *words = item_words(spender.section, spender.item, job->system, job->arena);
    const char *in = spender.section->run->name;
    if (spender.item->length > 0)
        return arena_format(job->arena, "%s, %s (%s)", words, check_text(job, SHOW_RUN, spender.item->length), in);
    return arena_format(job->arena, "%s (%s)", words, in);
}

static void name_costliest(const struct look *look, struct diagnostic *said, const struct network *network) {
    struct spender costliest[COSTLIEST] = {{NULL, NULL}};
    consider_way(costliest, network->governing_supply);
    consider_way(costliest, network->governing_return);
    for (int i = 0; i < COSTLIEST && costliest[i].item; i++) {
        const struct item *item = costliest[i].item;
        struct span at = item->piece->at.text ? item->piece->at : costliest[i].section->run->at;
        diagnostic_relate(look->job->diagnostics, said, at, "%s: %s; %s", spender_words(look, costliest[i]),
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

/* `units`: how many are short. */
static void diagnose_deficit(const struct look *look, struct network *network, size_t units) {
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
        job->diagnostics, DIAGNOSTIC_ERROR, look->check->name, network->unit->at,
        "the path to %s%s needs %s; %s has %s for it (blower %s, less %s in the unit): short by %s%s%s", terminal->name,
        back, check_text(job, SHOW_PRESSURE, path->total - network->unit_drops), network->unit->name,
        check_text(job, SHOW_PRESSURE, network->blower_pressure - network->unit_drops),
        check_text(job, SHOW_PRESSURE, network->blower_pressure), check_text(job, SHOW_PRESSURE, network->unit_drops),
        check_text(job, SHOW_PRESSURE, -network->surplus), more, delivers_words(look, network));
    said->subject = network->unit->name;
    if (job->trial)
        return;
    delivers_tell(look, network, said);
    name_costliest(look, said, network);
    budget_ways(look, network, units, said);
    if (network->search.short_by > 0)
        diagnostic_relate(job->diagnostics, said, network->unit->at,
                          "no standard sizes within the limits are enough: the best are short by %s",
                          check_text(job, SHOW_PRESSURE, network->search.short_by));
}

static bool has_budget(const struct network *network) {
    return network && network->blower_known && (network->governing_supply || network->governing_return);
}

void check_budget(const struct look *look) {
    const struct job *job = look->job;
    size_t units = 0;
    for (size_t i = 0; i < job->units.count; i++)
        if (has_budget(job->units.at[i]->network)) {
            look->result->looked_at++;
            units += air_budget_short(job->units.at[i]->network);
        }
    for (size_t i = 0; i < job->units.count; i++)
        if (has_budget(job->units.at[i]->network) && air_budget_short(job->units.at[i]->network))
            diagnose_deficit(look, job->units.at[i]->network, units);
}
