/* Staircases of cost over pressure. */
#include "size/steps.h"

#include <assert.h>
#include <math.h>

double steps_cost(const struct steps *steps, double pressure) {
    size_t low = 0, high = steps->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (steps->at[middle].need <= pressure)
            low = middle + 1;
        else
            high = middle;
    }
    return low > 0 ? steps->at[low - 1].cost : INFINITY;
}

void steps_both(struct steps *out, const struct steps *a, double loss_a, const struct steps *b, double loss_b) {
    out->count = 0;
    if (!a->count || !b->count)
        return;
    size_t i = 0, j = 0;
    double need = fmax(a->at[0].need + loss_a, b->at[0].need + loss_b);
    for (;;) {
        while (i + 1 < a->count && a->at[i + 1].need + loss_a <= need)
            i++;
        while (j + 1 < b->count && b->at[j + 1].need + loss_b <= need)
            j++;
        out->at[out->count++] = (struct step){need, a->at[i].cost + b->at[j].cost};
        double next_a = i + 1 < a->count ? a->at[i + 1].need + loss_a : INFINITY;
        double next_b = j + 1 < b->count ? b->at[j + 1].need + loss_b : INFINITY;
        if (isinf(next_a) && isinf(next_b))
            return;
        need = fmin(next_a, next_b);
    }
}

/* Steps as they are gone through. */
struct walk {
    const struct step *at, *end;
};

static struct walk walk_of(const struct steps *steps) {
    return (struct walk){steps->at, steps->at + steps->count};
}

/* Goes past what costs `least` or more; what is left then costs less from its first step on. */
static void skip_dear(struct walk *walk, double least) {
    while (walk->at < walk->end && walk->at->cost >= least)
        walk->at++;
}

/* Takes those that need less than `need`; their costs descend. */
static void take_until(struct steps *out, struct walk *walk, double need) {
    while (walk->at < walk->end && walk->at->need < need)
        out->at[out->count++] = *walk->at++;
}

/* Nearly half of the time of a search is spent here: by stretches of one and of the other, not step by step. */
void steps_either(struct steps *out, const struct steps *a, const struct steps *b) {
    struct walk one = walk_of(a), other = walk_of(b);
    out->count = 0;
    while (one.at < one.end && other.at < other.end) {
        if (other.at->need < one.at->need || (other.at->need <= one.at->need && other.at->cost < one.at->cost)) {
            struct walk kept = one;
            one = other;
            other = kept;
        }
        out->at[out->count++] = *one.at++;
        take_until(out, &one, other.at->need);
        skip_dear(&other, out->at[out->count - 1].cost);
    }
    take_until(out, &one, INFINITY);
    take_until(out, &other, INFINITY);
}

void steps_behind(struct steps *out, const struct steps *a, double loss) {
    out->count = a->count;
    for (size_t i = 0; i < a->count; i++)
        out->at[i] = (struct step){a->at[i].need + loss, a->at[i].cost};
}

/* Which part of the range a need lies in; the least need of all may lie before the range, even infinitely far. */
static double part_of(double need, double low, double width) {
    return floor((need - low) / width);
}

bool steps_thin(struct steps *steps, double pressure, bool bound) {
    while (steps->count > 1 && steps->at[steps->count - 1].need > pressure)
        steps->count--;
    if (steps->count <= STEPS_LIMIT)
        return false;
    size_t kept = 1;
    double low = steps->at[1].need, width = (steps->at[steps->count - 1].need - low) / (STEPS_LIMIT - 2);
    for (size_t i = 1; i < steps->count;) {
        struct step taken = steps->at[i];
        double part = part_of(taken.need, low, width);
        for (; i < steps->count && part_of(steps->at[i].need, low, width) <= part; i++)
            taken = (struct step){bound ? taken.need : steps->at[i].need, steps->at[i].cost};
        steps->at[kept++] = taken;
    }
    assert(kept <= STEPS_LIMIT + 1);
    steps->count = kept;
    return true;
}
