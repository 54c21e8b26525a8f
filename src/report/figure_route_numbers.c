/* The numbers of the parts on a plan, each on its piece. */
#include <stdlib.h>

#include "base/constant.h"
#include "metal/metal.h"
#include "report/figure_route.h"

/* The numbers of the parts that each piece of the job is made of, as words, each once. */
struct numbers {
    const struct piece *piece;
    size_t number;
};

static int by_piece(const void *left, const void *right) {
    const struct numbers *a = left, *b = right;
    const struct run *one = a->piece->run, *other = b->piece->run;
    if (one->id != other->id)
        return one->id < other->id ? -1 : 1;
    if (a->piece->station < b->piece->station || a->piece->station > b->piece->station)
        return a->piece->station < b->piece->station ? -1 : 1;
    if (a->piece != b->piece)
        return a->piece->at.begin < b->piece->at.begin ? -1 : 1;
    return (a->number > b->number) - (a->number < b->number);
}

/* By run, then along it. */
static struct numbers *numbers_of(const struct route_drawing *drawing, size_t *count) {
    const struct metal *metal = drawing->job->metal;
    struct numbers *all = ARENA_ARRAY(drawing->arena, struct numbers, (metal ? metal->pieces : 0) + 1);
    for (size_t i = 0; metal && i < metal->pieces; i++) {
        const struct piece *piece = metal->hung[i].use->piece;
        if (piece && piece->run && !piece->run->alternate && figure_route_told_on_sheet(drawing->sheet, piece->run))
            all[(*count)++] = (struct numbers){piece, metal->hung[i].part->number};
    }
    qsort(all, *count, sizeof *all, by_piece);
    return all;
}

/* On its middle line: of a bend its straight from end to end lies elsewhere. */
static struct space middle_of(const struct route *route, const struct placed_piece *placed) {
    const struct stretch *half = &route->stretches.at[placed->first + placed->count / 2];
    if (placed->count < 2 || space_distance(half[-1].far.origin, half->near.origin) > MILLIMETRE)
        return space_between(placed->near.origin, placed->far.origin, 0.5);
    return placed->count % 2 ? space_between(half->near.origin, half->far.origin, 0.5) : half->near.origin;
}

/* On the piece.  `from`: where the last one lay among all pieces,
 * since numbers come along their run as pieces do. */
static struct space place_of_numbers(const struct route_drawing *drawing, const struct placed_run *placed,
                                     const struct piece *piece, size_t *from) {
    const struct route *route = drawing->job->route;
    size_t end = placed->first + placed->count;
    if (*from < placed->first || *from >= end)
        *from = placed->first;
    for (size_t i = *from; i < end; i++)
        if (route->pieces.at[i].piece == piece) {
            *from = i;
            return middle_of(route, &route->pieces.at[i]);
        }
    return placed->begin.origin;
}

static bool goes_with(const struct numbers *a, const struct numbers *b) {
    return a->piece == b->piece || (a->piece->run == b->piece->run && a->piece->run->role != RUN_DUCT);
}

/* "(4, 5)", never broken into lines. */
static const char *number_words(const struct route_drawing *drawing, const struct numbers *numbers, size_t count) {
    const char *words = "";
    for (size_t i = 0; i < count; i++) {
        bool said = false;
        for (size_t k = 0; k < i; k++)
            said = said || numbers[k].number == numbers[i].number;
        if (!said)
            words = arena_format(drawing->arena, "%s%s%zu", words, i ? ",\u00a0" : "", numbers[i].number);
    }
    return arena_format(drawing->arena, "(%s)", words);
}

const char **figure_route_numbers(struct route_drawing *drawing) {
    const char **terminals = ARENA_ARRAY(drawing->arena, const char *, drawing->job->runs.count + 1);
    if (drawing->detail != ROUTE_FOR_FIELD || drawing->view != ROUTE_PLAN || drawing->sheet->overview)
        return terminals;
    size_t count = 0, from = 0;
    struct numbers *all = numbers_of(drawing, &count);
    for (size_t i = 0, next; i < count; i = next) {
        for (next = i + 1; next < count && goes_with(&all[i], &all[next]);)
            next++;
        const struct run *run = all[i].piece->run;
        const struct placed_run *placed = route_of(drawing->job, run);
        if (!placed)
            continue;
        drawing->numbered = true;
        const char *words = number_words(drawing, &all[i], next - i);
        if (run->role != RUN_DUCT)
            terminals[run->id] = words;
        else
            figure_label(drawing->figure, words,
                         figure_route_spot(drawing, place_of_numbers(drawing, placed, all[i].piece, &from)),
                         TOWARD_HERE, LETTER_SMALL);
    }
    return terminals;
}
