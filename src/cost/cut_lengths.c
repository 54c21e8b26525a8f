/* First fit decreasing, with a tree over the packages: each knot holds the longest rest below it. */
#include "cost/cut_lengths.h"

#include <math.h>
#include <stdlib.h>

/* What is lost by rounding alone, as a share of a package. */
static const double by_rounding = 1e-9;

size_t cut_splices(double piece, double length) {
    double packages = ceil(piece / length - by_rounding);
    return packages > 1 ? (size_t)packages - 1 : 0;
}

static int longest_first(const void *left, const void *right) {
    double a = *(const double *)left, b = *(const double *)right;
    return (a < b) - (a > b);
}

/* The first package whose rest holds `piece`; all of them do hold at least one such. */
static size_t first_fit(const double *rests, size_t leaves, double piece) {
    size_t knot = 1;
    while (knot < leaves)
        knot = rests[2 * knot] >= piece ? 2 * knot : 2 * knot + 1;
    return knot;
}

static void take(double *rests, size_t knot, double piece) {
    rests[knot] -= piece;
    while (knot /= 2)
        rests[knot] = fmax(rests[2 * knot], rests[2 * knot + 1]);
}

size_t cut_lengths(struct arena *arena, const double *pieces, size_t count, double length) {
    double *sorted = ARENA_ARRAY(arena, double, count + 1);
    size_t whole = 0, leaves = 1, opened = 0;
    for (size_t i = 0; i < count; i++) {
        size_t splices = cut_splices(pieces[i], length);
        whole += splices;
        sorted[i] = pieces[i] - (double)splices * length;
    }
    qsort(sorted, count, sizeof *sorted, longest_first);
    while (leaves < count)
        leaves *= 2;
    double *rests = ARENA_ARRAY(arena, double, 2 * leaves);
    for (size_t i = 1; i < 2 * leaves; i++)
        rests[i] = length * (1 + by_rounding);
    for (size_t i = 0; i < count; i++) {
        size_t knot = first_fit(rests, leaves, sorted[i]);
        opened = opened > knot - leaves + 1 ? opened : knot - leaves + 1;
        take(rests, knot, sorted[i]);
    }
    return whole + opened;
}
