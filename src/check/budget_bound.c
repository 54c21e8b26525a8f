/* What changes must cost at the least that gain so much: the linear relaxation of a knapsack with one choice a thing.
 *
 * Of each thing the options on the lower hull of cost over gain count, each as a step from the one before it; the steps
 * of all things in the order of their cost a pascal, the last in part (from memory: Sinha and Zoltners, the
 * multiple-choice knapsack problem, Operations Research 27, 1979). */
#include "check/budget_bound.h"

#include <math.h>

double option_gain(const struct option *option, int supply, int back) {
    return option->lift + (supply >= 0 ? option->gain[supply] : 0) + (back >= 0 ? option->gain[back] : 0);
}

double bound_gain(const struct bound *bound, const struct option *option) {
    return option_gain(option, bound->supply, bound->back);
}

static double price(const struct bound_step *step) {
    return step->cost / step->gain;
}

/* A point of the hull of one slot, from its options in any order: the next is that with the least cost a pascal more.
 * NULL: none gains more. */
static const struct option *next_of(const struct bound *bound, const struct options *options, const bool *barred,
                                    int slot, double gain, double cost) {
    const struct option *best = NULL;
    double least = INFINITY;
    for (int i = 0; i < options->count; i++) {
        const struct option *option = &options->at[i];
        double more = bound_gain(bound, option) - gain;
        if (option->slot != slot || barred[i] || !(more > 0))
            continue;
        double each = fmax(option->cost - cost, 0) / more;
        if (each < least || (each == least && best && bound_gain(bound, option) > bound_gain(bound, best))) {
            least = each;
            best = option;
        }
    }
    return best;
}

static void add_step(struct bound *bound, struct bound_step step) {
    int place = bound->count++;
    for (; place > 0 && price(&step) < price(&bound->at[place - 1]); place--)
        bound->at[place] = bound->at[place - 1];
    bound->at[place] = step;
}

void bound_make(struct bound *bound, const struct options *options, const bool barred[OPTIONS],
                const struct network *network, double margin) {
    *bound = (struct bound){.supply = options_watched(options, network->governing_supply),
                            .back = options_watched(options, network->governing_return)};
    bound->unknown = (network->governing_supply && bound->supply < 0) || (network->governing_return && bound->back < 0);
    for (int slot = 0; slot < options->slots; slot++) {
        double gain = 0, cost = 0;
        for (const struct option *next = next_of(bound, options, barred, slot, gain, cost);
             next && bound->count < OPTIONS; next = next_of(bound, options, barred, slot, gain, cost)) {
            double then = bound_gain(bound, next);
            add_step(bound, (struct bound_step){
                                .gain = margin * (then - gain), .cost = fmax(next->cost - cost, 0), .slot = slot});
            gain = then;
            cost = fmax(cost, next->cost);
        }
    }
}

double bound_least(const struct bound *bound, double need, int slot) {
    double sum = 0;
    if (bound->unknown)
        return 0;
    for (int i = 0; i < bound->count && need > 0; i++) {
        const struct bound_step *step = &bound->at[i];
        if (step->slot <= slot)
            continue;
        double share = fmin(need / step->gain, 1);
        sum += share * step->cost;
        need -= share * step->gain;
    }
    return need > 1e-9 ? INFINITY : sum;
}
