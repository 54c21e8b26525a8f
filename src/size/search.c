/* The search along the ducts of a network: up from the outlets, and down again. */
#include "size/search.h"

#include <assert.h>
#include <math.h>

/* ---- The network as it is searched ------------------------------------------------------------------------------- */

static void link_sections(struct search *search) {
    const struct network *network = search->sizing->network;
    size_t ducts = network->ducts.count, sections = network->sections.count;
    size_t *counts = ARENA_ARRAY(search->arena, size_t, ducts);
    search->forks = ARENA_ARRAY(search->arena, struct fork, sections);
    search->along = ARENA_ARRAY(search->arena, struct section **, ducts);
    for (size_t i = 0; i < sections; i++)
        counts[network->sections.at[i]->duct->id]++;
    for (size_t i = 0; i < ducts; i++) {
        search->along[i] = ARENA_ARRAY(search->arena, struct section *, counts[i] + 1);
        counts[i] = 0;
    }
    for (size_t i = 0; i < sections; i++) {
        struct section *section = network->sections.at[i];
        uint32_t duct = section->duct->id;
        search->along[duct][counts[duct]++] = section;
        if (!section->parent)
            continue;
        struct fork *fork = &search->forks[section->parent->id];
        if (section->parent->duct == section->duct) {
            assert(!fork->next); /* a duct is one line */
            fork->next = section;
        } else {
            assert(fork->count < LEG_COUNT);
            fork->branch[fork->count++] = section;
        }
    }
}

struct search search_make(const struct sizing *sizing, const struct wall_cost *cost, struct options *options,
                          double pressure, struct arena *arena) {
    struct search search = {
        .sizing = sizing, .options = options, .cost = cost, .arena = arena, .pressure = pressure, .taps = TAPS_HELD};
    link_sections(&search);
    for (size_t i = 0; i < WORK_COUNT; i++)
        search.work[i].at = ARENA_ARRAY(arena, struct step, STEPS_ROOM);
    return search;
}

/* Losses of a section that depend on its own duct alone. */
static double own_loss(const struct search *search, const struct section *section) {
    return air_section_trial(&search->sizing->job->air, section) - search_joint_loss(search, section);
}

/* ---- Up ---------------------------------------------------------------------------------------------------------- */

static struct steps keep_steps(const struct search *search, const struct steps *steps, double cost) {
    struct steps kept = {.count = steps->count, .at = ARENA_ARRAY(search->arena, struct step, steps->count)};
    for (size_t i = 0; i < steps->count; i++)
        kept.at[i] = (struct step){steps->at[i].need, steps->at[i].cost + cost};
    return kept;
}

/* What hangs from the end of the first section of a duct that has its size at hand, into work[WORK_HERE].  `kept`
 * (NULL: not wanted): what hangs from the start of each section behind it, joints left out, by its place along the
 * duct. */
static void climb_duct(struct search *search, const struct duct *duct, struct steps *kept) {
    struct section **along = search->along[duct->id];
    struct steps *next = NULL;
    size_t at = 0;
    while (along[at + 1])
        at++;
    for (;; at--) {
        search_fork(search, along[at], next, &search->work[WORK_HERE]);
        if (at == 0)
            return;
        next = &search->work[WORK_NEXT];
        steps_behind(next, &search->work[WORK_HERE], own_loss(search, along[at]));
        if (kept)
            kept[at] = keep_steps(search, next, 0);
    }
}

static void climb_option(struct search *search, struct duct *duct, struct option *option) {
    duct->size = option->size;
    option->own_loss = own_loss(search, search->along[duct->id][0]);
    climb_duct(search, duct, NULL);
    option->beyond = keep_steps(search, &search->work[WORK_HERE], option->cost);
}

/* One side of the unit, as a fork with a single branch. */
static struct duct *root_of(const struct search *search, bool supply) {
    const struct network *network = search->sizing->network;
    for (size_t i = 0; i < network->sections.count; i++)
        if (!network->sections.at[i]->parent && network->sections.at[i]->run->supply == supply)
            return network->sections.at[i]->duct;
    return NULL;
}

/* The staircase of a whole side; a missing side needs nothing. */
static struct steps climb_side(struct search *search, bool supply) {
    struct duct *root = root_of(search, supply);
    struct steps all = {.at = ARENA_ARRAY(search->arena, struct step, STEPS_ROOM)};
    if (!root) {
        all.at[all.count++] = (struct step){0, 0};
        return all;
    }
    struct steps behind = {.at = ARENA_ARRAY(search->arena, struct step, STEPS_ROOM)}, sum = behind;
    sum.at = ARENA_ARRAY(search->arena, struct step, STEPS_ROOM);
    const struct section *first = search->along[root->id][0];
    for (size_t i = 0; i < search->options[root->id].count; i++) {
        struct option *option = &search->options[root->id].at[i];
        root->size = option->size;
        steps_behind(&behind, &option->beyond, option->own_loss + search_joint_loss(search, first));
        steps_either(&sum, &all, &behind);
        search_trim(search, &sum);
        struct steps spare = all;
        all = sum;
        sum = spare;
    }
    /* Without outlets nothing is needed of the budget. */
    for (size_t i = 0; i < all.count; i++)
        all.at[i].need = fmax(all.at[i].need, 0);
    return all;
}

/* Shares the pressure between the sides: the cheapest pair of steps, and what the supply side then gets.  Infinite:
 * none. */
static double share(const struct search *search, const struct steps *supply, const struct steps *back,
                    double *to_supply) {
    double least = INFINITY;
    for (size_t i = 0; i < supply->count; i++) {
        double cost = supply->at[i].cost + steps_cost(back, search->pressure - supply->at[i].need);
        if (cost < least) {
            least = cost;
            *to_supply = supply->at[i].need;
        }
    }
    return least;
}

/* How the pressure is shared. */
struct shares {
    double supply, back; /* Pa */
};

/* NAN: a side has no sizes at all, whatever the pressure. */
static double climb(struct search *search, struct shares *shares) {
    const struct network *network = search->sizing->network;
    for (size_t i = network->ducts.count; i-- > 0;) {
        struct options *options = &search->options[i];
        for (size_t k = 0; k < options->count; k++)
            climb_option(search, network->ducts.at[i], &options->at[k]);
    }
    struct steps supply = climb_side(search, true), back = climb_side(search, false);
    if (!supply.count || !back.count)
        return NAN;
    double cost = share(search, &supply, &back, &shares->supply);
    shares->back = search->pressure - shares->supply;
    if (isinf(cost))
        *shares = (struct shares){supply.at[0].need, back.at[0].need};
    return cost;
}

/* ---- Down -------------------------------------------------------------------------------------------------------- */

/* A duct that has its size, and the pressure left at the end of its first section. */
struct visit {
    struct duct *duct;
    double left;
};

typedef LIST(struct visit) visit_list;

static void descend_duct(struct search *search, struct visit visit, visit_list *waiting) {
    struct section **along = search->along[visit.duct->id];
    size_t count = 0;
    while (along[count])
        count++;
    struct steps *kept = ARENA_ARRAY(search->arena, struct steps, count);
    climb_duct(search, visit.duct, kept);
    for (size_t at = 0; at < count; at++) {
        const struct fork *fork = &search->forks[along[at]->id];
        double left[LEG_COUNT + 1];
        if (!fork->count && !fork->next)
            continue;
        search_choose(search, along[at], fork->next ? &kept[at + 1] : NULL, visit.left, left);
        for (int i = 0; i < fork->count; i++)
            *list_add(search->arena, waiting) = (struct visit){fork->branch[i]->duct, left[i]};
        visit.left = left[fork->count];
        if (fork->next)
            visit.left -= own_loss(search, fork->next);
    }
}

/* The cheapest size of a side's first duct within `pressure`, else the size that needs least. */
static void descend_side(struct search *search, bool supply, double pressure) {
    struct duct *root = root_of(search, supply);
    visit_list waiting = {0};
    if (!root)
        return;
    const struct options *options = &search->options[root->id];
    double least = INFINITY, need = INFINITY;
    struct visit first = {.duct = root};
    struct duct_size chosen = options->at[0].size;
    for (size_t i = 0; i < options->count; i++) {
        const struct option *option = &options->at[i];
        if (!option->beyond.count)
            continue;
        root->size = option->size;
        double left = pressure - option->own_loss - search_joint_loss(search, search->along[root->id][0]);
        double cost = steps_cost(&option->beyond, left + SEARCH_ROUNDING);
        double needs = option->beyond.at[0].need - left;
        if (cost < least || (isinf(cost) && isinf(least) && needs < need)) {
            least = cost;
            need = needs;
            chosen = option->size;
            first.left = left;
        }
    }
    root->size = chosen;
    *list_add(search->arena, &waiting) = first;
    while (waiting.count)
        descend_duct(search, waiting.at[--waiting.count], &waiting);
}

double search_sizes(struct search *search) {
    struct shares shares = {0};
    double cost = climb(search, &shares);
    /* A tap with little metal beside it is a warning, a path without pressure an error; so is a tap that cannot be cut,
     * which is let be only where no sizes at all are without it. */
    while ((isinf(cost) && search->taps > TAPS_CUT) || (isnan(cost) && search->taps > TAPS_ANYHOW)) {
        search->taps--;
        cost = climb(search, &shares);
    }
    if (isnan(cost))
        return cost;
    descend_side(search, true, shares.supply);
    descend_side(search, false, shares.back);
    return cost;
}

double search_bound(struct search *search) {
    struct shares shares = {0};
    search->bound = true;
    double cost = climb(search, &shares);
    search->bound = false;
    return cost;
}
