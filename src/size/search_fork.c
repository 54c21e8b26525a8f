/* Where the air divides: the sizes of what leaves a section, weighed together. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "size/search.h"

/* Whether the item's loss depends on another duct: the one ahead, or one that is tapped in. */
static bool is_joint(const struct item *item) {
    return item->role != ITEM_PIECE || piece_resizes(item->piece);
}

double search_joint_loss(const struct search *search, const struct section *section) {
    double sum = 0;
    for (size_t i = 0; i < section->items.count; i++)
        if (is_joint(&section->items.at[i]))
            sum += air_item_trial(&search->sizing->job->air, section, &section->items.at[i]);
    return sum;
}

void search_trim(struct search *search, struct steps *steps) {
    search->thinned |= steps_thin(steps, search->pressure, search->bound);
}

/* ---- Choices in turn --------------------------------------------------------------------------------------------- */

/* One size for each branch of a fork, of those that it may have behind the size at hand. */
struct choice {
    const struct fork *fork;
    struct option *allowed[LEG_COUNT][OPTIONS_LIMIT];
    size_t count[LEG_COUNT], at[LEG_COUNT];
};

static void list_allowed(const struct search *search, struct choice *choice, int branch) {
    const struct duct *duct = choice->fork->branch[branch]->duct;
    const struct options *options = &search->options[duct->id];
    for (size_t i = 0; i < options->count; i++) {
        struct option *option = &options->at[i];
        if (option->beyond.count && options_allow(search->sizing, search->options, duct, option->size, search->taps))
            choice->allowed[branch][choice->count[branch]++] = option;
    }
}

/* The first of all, of a choice that has nothing but its fork; false: some branch may have no size. */
static bool start_choice(const struct search *search, struct choice *choice) {
    for (int i = 0; i < choice->fork->count; i++) {
        list_allowed(search, choice, i);
        if (!choice->count[i])
            return false;
    }
    return true;
}

/* Goes on to the next; false: that was the last. */
static bool next_choice(struct choice *choice) {
    for (int i = 0; i < choice->fork->count; i++) {
        if (++choice->at[i] < choice->count[i])
            return true;
        choice->at[i] = 0;
    }
    return false;
}

static struct option *option_of(const struct choice *choice, int branch) {
    return choice->allowed[branch][choice->at[branch]];
}

/* Gives the ducts the sizes of the choice. */
static void lay(const struct choice *choice) {
    for (int i = 0; i < choice->fork->count; i++)
        choice->fork->branch[i]->duct->size = option_of(choice, i)->size;
}

/* What its air loses at the joint, and in the rest of its first section. */
static double branch_loss(const struct search *search, const struct choice *choice, int branch) {
    return search_joint_loss(search, choice->fork->branch[branch]) + option_of(choice, branch)->own_loss;
}

/* ---- Up: what a fork costs --------------------------------------------------------------------------------------- */

static void swap(struct steps *a, struct steps *b) {
    struct steps kept = *a;
    *a = *b;
    *b = kept;
}

/* Adds `steps` to those of *all, by way of *spare. */
static void add_choice(struct search *search, struct steps *all, const struct steps *steps, struct steps *spare) {
    /* Most choices are no use: at their least need, something already found is as cheap as they ever get. */
    if (!steps->count || steps_cost(all, steps->at[0].need) <= steps->at[steps->count - 1].cost)
        return;
    steps_either(spare, all, steps);
    search_trim(search, spare);
    swap(all, spare);
}

/* All branches with the sizes laid out, and the next section besides. */
static void weigh_choice(struct search *search, const struct choice *choice, const struct steps *next) {
    struct steps *sum = &search->work[WORK_SUM], *spare = &search->work[WORK_SHIFTED];
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
        lay(choice);
        weigh_choice(search, choice, next);
        add_choice(search, &search->work[WORK_ALL], &search->work[WORK_SUM], &search->work[WORK_SHIFTED]);
    } while (next_choice(choice));
}

/* A single branch: its sizes are grouped by the joint loss they cause in the next section, so that the steps of that
 * section are merged once for each group.  A tap's size changes that loss in a few steps only. */
static void weigh_tapped(struct search *search, struct choice *choice, const struct steps *next) {
    const struct fork *fork = choice->fork;
    size_t count = choice->count[0];
    double joints[OPTIONS_LIMIT], branches[OPTIONS_LIMIT];
    for (choice->at[0] = 0; choice->at[0] < count; choice->at[0]++) {
        lay(choice);
        joints[choice->at[0]] = search_joint_loss(search, fork->next);
        branches[choice->at[0]] = branch_loss(search, choice, 0);
    }
    for (size_t i = 0; i < count; i++) {
        double joint = joints[i];
        if (isinf(joint))
            continue;
        search->work[WORK_GROUP].count = 0;
        for (size_t k = i; k < count; k++) {
            if (joints[k] < joint || joints[k] > joint)
                continue;
            steps_behind(&search->work[WORK_SUM], &choice->allowed[0][k]->beyond, branches[k]);
            add_choice(search, &search->work[WORK_GROUP], &search->work[WORK_SUM], &search->work[WORK_SHIFTED]);
            joints[k] = INFINITY;
        }
        steps_both(&search->work[WORK_SUM], &search->work[WORK_GROUP], 0, next, joint);
        search_trim(search, &search->work[WORK_SUM]);
        add_choice(search, &search->work[WORK_ALL], &search->work[WORK_SUM], &search->work[WORK_SHIFTED]);
    }
}

void search_fork(struct search *search, const struct section *section, const struct steps *next, struct steps *out) {
    const struct fork *fork = &search->forks[section->id];
    struct choice choice = {.fork = fork};
    search->work[WORK_ALL].count = 0;
    if (!start_choice(search, &choice)) {
        out->count = 0;
        return;
    }
    if (fork->count == 1 && next)
        weigh_tapped(search, &choice, next);
    else if (fork->count)
        weigh_all(search, &choice, next);
    else if (next)
        steps_behind(&search->work[WORK_ALL], next, search_joint_loss(search, fork->next));
    else /* an outlet's air needs nothing more; where the duct is closed it never needed anything */
        search->work[WORK_ALL].at[search->work[WORK_ALL].count++] = (struct step){section->terminal ? 0 : -INFINITY, 0};
    steps_behind(out, &search->work[WORK_ALL], 0);
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
    struct choice choice = {.fork = fork};
    size_t best[LEG_COUNT] = {0};
    struct verdict chosen = {.need = INFINITY, .cost = INFINITY};
    bool some = start_choice(search, &choice);
    assert(some); /* the way up went through it */
    (void)some;
    do {
        lay(&choice);
        struct verdict verdict = judge(search, &choice, next, pressure);
        if (is_better(&verdict, &chosen)) {
            chosen = verdict;
            memcpy(best, choice.at, sizeof best);
        }
    } while (next_choice(&choice));
    memcpy(choice.at, best, sizeof best);
    lay(&choice);
    for (int i = 0; i < LEG_COUNT + 1; i++)
        left[i] = chosen.left[i];
}
