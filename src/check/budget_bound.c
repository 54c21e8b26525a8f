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

/* What options cost, each shared among so many paths. */
struct shared {
    const struct options *options;
    const bool *barred; /* NULL: none is */
    int among[OPTIONS];
};

static double cost_of(const struct shared *shared, int option) {
    return shared->options->at[option].cost / shared->among[option];
}

/* A point of the hull of one slot, from its options in any order: the next is that with the least cost a pascal more.
 * -1: none gains more. */
static int next_of(const struct bound *bound, const struct shared *shared, int slot, double gain, double cost) {
    const struct options *options = shared->options;
    int best = -1;
    double least = INFINITY;
    for (int i = 0; i < options->count; i++) {
        const struct option *option = &options->at[i];
        double more = bound_gain(bound, option) - gain;
        if (option->slot != slot || (shared->barred && shared->barred[i]) || !(more > 0))
            continue;
        double each = fmax(cost_of(shared, i) - cost, 0) / more;
        if (each < least ||
            (each == least && best >= 0 && bound_gain(bound, option) > bound_gain(bound, &options->at[best]))) {
            least = each;
            best = i;
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

static void add_steps(struct bound *bound, const struct shared *shared, double margin) {
    for (int slot = 0; slot < shared->options->slots; slot++) {
        double gain = 0, cost = 0;
        for (int next = next_of(bound, shared, slot, gain, cost); next >= 0 && bound->count < OPTIONS;
             next = next_of(bound, shared, slot, gain, cost)) {
            double then = bound_gain(bound, &shared->options->at[next]), costs = cost_of(shared, next);
            add_step(bound,
                     (struct bound_step){.gain = margin * (then - gain), .cost = fmax(costs - cost, 0), .slot = slot});
            gain = then;
            cost = fmax(cost, costs);
        }
    }
}

void bound_make(struct bound *bound, const struct options *options, const bool barred[OPTIONS],
                const struct network *network, double margin) {
    struct shared shared = {.options = options, .barred = barred};
    *bound = (struct bound){.supply = options_watched(options, network->governing_supply),
                            .back = options_watched(options, network->governing_return)};
    bound->unknown = (network->governing_supply && bound->supply < 0) || (network->governing_return && bound->back < 0);
    for (int i = 0; i < options->count; i++)
        shared.among[i] = 1;
    add_steps(bound, &shared, margin);
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

/* ---- All supply paths -------------------------------------------------------------------------------------------- */

void bounds_make(struct bounds *bounds, const struct options *options, const struct network *network, double margin) {
    struct shared shared = {.options = options};
    *bounds = (struct bounds){.back = options_watched(options, network->governing_return)};
    while (bounds->count < options->watched && bounds->count < WATCHED_SUPPLY &&
           options->end[bounds->count]->run->supply) {
        int supply = bounds->count++;
        bounds->at[supply] = (struct bound){.supply = supply, .back = bounds->back};
        for (int i = 0; i < options->count; i++)
            shared.among[i] += bound_gain(&bounds->at[supply], &options->at[i]) > 0;
    }
    for (int i = 0; i < options->count; i++)
        shared.among[i] += !shared.among[i];
    if (network->governing_return && bounds->back < 0)
        bounds->count = 0;
    for (int i = 0; i < bounds->count; i++)
        add_steps(&bounds->at[i], &shared, margin);
}

static double least_of(const struct bound *bound, double need, const bool *taken, int but) {
    double sum = 0;
    for (int i = 0; i < bound->count && need > 0; i++) {
        const struct bound_step *step = &bound->at[i];
        if (step->slot == but || taken[step->slot])
            continue;
        double share = fmin(need / step->gain, 1);
        sum += share * step->cost;
        need -= share * step->gain;
    }
    return need > 1e-9 ? INFINITY : sum;
}

double bounds_least(const struct bounds *bounds, const struct options *options, const struct network *network,
                    const struct option *option, const bool taken[SLOTS], double margin) {
    double sum = 0, has = network->blower_pressure - network->unit_drops;
    for (int i = 0; i < bounds->count; i++) {
        double loss =
            options->end[i]->loss_to_unit + (bounds->back >= 0 ? options->end[bounds->back]->loss_to_unit : 0);
        double need = loss - has - margin * fmax(bound_gain(&bounds->at[i], option), 0);
        sum += least_of(&bounds->at[i], need, taken, option->slot);
    }
    return sum;
}
