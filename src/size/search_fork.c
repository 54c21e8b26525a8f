/* Where the air divides: the sizes of what leaves a section, weighed together. */
#include <math.h>

#include "size/search.h"

/* The air of an item depends on the duct ahead, or on what is tapped in. */
static bool is_joint(const struct item *item) {
    return item->role != ITEM_PIECE || piece_resizes(item->piece);
}

double search_joint_loss(const struct search *search, const struct section *section) {
    double sum = 0;
    for (size_t i = 0; i < section->items.count; i++)
        if (is_joint(&section->items.at[i]))
            sum += air_item_trial(&search->tree->job->air, section, &section->items.at[i]);
    return sum;
}

void search_trim(struct search *search, struct steps *steps) {
    search->thinned |= steps_thin(steps, search->pressure, search->bound);
}

/* ---- Choices in turn --------------------------------------------------------------------------------------------- */

/* One size for each branch of a fork. */
struct choice {
    const struct fork *fork;
    struct options *options[LEG_COUNT];
    size_t at[LEG_COUNT];
};

static struct choice first_choice(const struct search *search, const struct fork *fork) {
    struct choice choice = {.fork = fork};
    for (int i = 0; i < fork->count; i++)
        choice.options[i] = &search->options[fork->branch[i]->duct->id];
    return choice;
}

/* Goes on to the next; false: that was the last. */
static bool next_choice(struct choice *choice) {
    for (int i = 0; i < choice->fork->count; i++) {
        if (++choice->at[i] < choice->options[i]->count)
            return true;
        choice->at[i] = 0;
    }
    return false;
}

static struct option *option_of(const struct choice *choice, int branch) {
    return &choice->options[branch]->at[choice->at[branch]];
}

/* Gives the ducts the sizes of the choice; false: they may not be had together with the size ahead. */
static bool lay(const struct search *search, const struct choice *choice) {
    for (int i = 0; i < choice->fork->count; i++) {
        struct duct *duct = choice->fork->branch[i]->duct;
        const struct option *option = option_of(choice, i);
        if (!option->beyond.count ||
            !options_allow(search->tree, search->options, duct, option->size, search->taps))
            return false;
        duct->size = option->size;
    }
    return true;
}

/* What its air loses at the joint, and in the rest of its first section. */
static double branch_loss(const struct search *search, const struct choice *choice, int branch) {
    return search_joint_loss(search, choice->fork->branch[branch]) + option_of(choice, branch)->own_loss;
}

/* ---- Up: what a fork costs --------------------------------------------------------------------------------------- */

enum { SHIFTED, SUM, ALL, GROUP }; /* of search->work; the climb along a duct has the others */

static void swap(struct steps *a, struct steps *b) {
    struct steps kept = *a;
    *a = *b;
    *b = kept;
}

/* Adds `steps` to those of *all, by way of *spare. */
static void add_choice(struct search *search, struct steps *all, const struct steps *steps, struct steps *spare) {
    steps_either(spare, all, steps);
    search_trim(search, spare);
    swap(all, spare);
}

/* All branches with the sizes laid out, and the next section besides. */
static void weigh_choice(struct search *search, const struct choice *choice, const struct steps *next) {
    struct steps *sum = &search->work[SUM], *spare = &search->work[SHIFTED];
    const struct fork *fork = choice->fork;
    steps_behind(sum, &option_of(choice, 0)->beyond, branch_loss(search, choice, 0));
    for (int i = 1; i < fork->count; i++) {
        steps_both(spare, sum, 0, &option_of(choice, i)->beyond, branch_loss(search, choice, i));
        search_trim(search, spare);
        swap(sum, spare);
    }
    if (next) {
        steps_both(spare, sum, 0, next, search_joint_loss(search, fork->next));
        swap(sum, spare);
    }
    search_trim(search, sum);
}

static void weigh_all(struct search *search, struct choice *choice, const struct steps *next) {
    do {
        if (!lay(search, choice))
            continue;
        weigh_choice(search, choice, next);
        add_choice(search, &search->work[ALL], &search->work[SUM], &search->work[SHIFTED]);
    } while (next_choice(choice));
}

/* Of one branch: sizes with which the next section loses the same are weighed first, so that its steps are gone through once for all of
 * them.  A tap's size matters to the air that goes on in a few steps only. */
static void weigh_tapped(struct search *search, struct choice *choice, const struct steps *next) {
    const struct fork *fork = choice->fork;
    const struct options *options = choice->options[0];
    double joints[OPTIONS_LIMIT], branches[OPTIONS_LIMIT];
    for (choice->at[0] = 0; choice->at[0] < options->count; choice->at[0]++) {
        bool laid = lay(search, choice);
        joints[choice->at[0]] = laid ? search_joint_loss(search, fork->next) : INFINITY;
        branches[choice->at[0]] = laid ? branch_loss(search, choice, 0) : 0;
    }
    for (size_t i = 0; i < options->count; i++) {
        double joint = joints[i];
        if (isinf(joint))
            continue;
        search->work[GROUP].count = 0;
        for (size_t k = i; k < options->count; k++) {
            if (joints[k] < joint || joints[k] > joint)
                continue;
            steps_behind(&search->work[SUM], &options->at[k].beyond, branches[k]);
            add_choice(search, &search->work[GROUP], &search->work[SUM], &search->work[SHIFTED]);
            joints[k] = INFINITY;
        }
        steps_both(&search->work[SUM], &search->work[GROUP], 0, next, joint);
        search_trim(search, &search->work[SUM]);
        add_choice(search, &search->work[ALL], &search->work[SUM], &search->work[SHIFTED]);
    }
}

void search_fork(struct search *search, const struct section *section, const struct steps *next, struct steps *out) {
    const struct fork *fork = &search->forks[section->id];
    struct choice choice = first_choice(search, fork);
    search->work[ALL].count = 0;
    if (fork->count == 1 && next)
        weigh_tapped(search, &choice, next);
    else if (fork->count)
        weigh_all(search, &choice, next);
    else if (next)
        steps_behind(&search->work[ALL], next, search_joint_loss(search, fork->next));
    else /* an outlet's air needs nothing more; where the duct is closed it never needed anything */
        search->work[ALL].at[search->work[ALL].count++] = (struct step){section->terminal ? 0 : -INFINITY, 0};
    steps_behind(out, &search->work[ALL], 0);
}

/* ---- Down: which sizes those are --------------------------------------------------------------------------------- */

/* A choice as it is weighed on the way down. */
struct verdict {
    double need, cost; /* Pa at the end of the section; cost with the pressure at hand, infinite: it needs more */
    double left[LEG_COUNT + 1];
};

static void judge_part(struct verdict *verdict, const struct steps *part, double loss, double pressure, double *left) {
    *left = pressure - loss;
    verdict->need = fmax(verdict->need, part->at[0].need + loss);
    verdict->cost += steps_cost(part, *left + SEARCH_ROUNDING);
}

static struct verdict judge(const struct search *search, const struct choice *choice, const struct steps *next,
                            double pressure) {
    struct verdict verdict = {.need = -INFINITY};
    const struct fork *fork = choice->fork;
    for (int i = 0; i < fork->count; i++)
        judge_part(&verdict, &option_of(choice, i)->beyond, branch_loss(search, choice, i), pressure, &verdict.left[i]);
    if (next)
        judge_part(&verdict, next, search_joint_loss(search, fork->next), pressure, &verdict.left[fork->count]);
    return verdict;
}

static bool is_better(const struct verdict *a, const struct verdict *b) {
    if (isinf(a->cost) && isinf(b->cost))
        return a->need < b->need;
    return a->cost < b->cost;
}

void search_choose(struct search *search, const struct section *section, const struct steps *next, double pressure,
                   double left[LEG_COUNT + 1]) {
    const struct fork *fork = &search->forks[section->id];
    struct choice choice = first_choice(search, fork), best = choice;
    struct verdict chosen = {.need = INFINITY, .cost = INFINITY};
    do {
        if (!lay(search, &choice))
            continue;
        struct verdict verdict = judge(search, &choice, next, pressure);
        if (is_better(&verdict, &chosen)) {
            chosen = verdict;
            best = choice;
        }
    } while (next_choice(&choice));
    lay(search, &best);
    for (int i = 0; i < LEG_COUNT + 1; i++)
        left[i] = chosen.left[i];
}
