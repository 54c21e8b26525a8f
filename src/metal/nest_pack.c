/* The best place for a blank among the holes of the sheets taken. */
#include "metal/nest_pack.h"

#include <math.h>

void pack_init(struct pack *pack, struct arena *arena, const struct nest_problem *problem) {
    *pack = (struct pack){
        .arena = arena,
        .problem = problem,
        .only = PLATE_NONE,
        .most_cost = INT64_MAX,
        .taken = ARENA_ARRAY(arena, size_t, problem->sheet_count + 1),
        .random = problem->seed * 2 + 1,
    };
}

void pack_clear(struct pack *pack) {
    for (size_t i = 0; i < pack->plates.count; i++)
        pack->plates.at[i].sheet = PLATE_NONE;
    for (size_t i = 0; i < pack->problem->sheet_count; i++)
        pack->taken[i] = 0;
    pack->cost = 0;
}

/* Steele, Lea and Flood 2014, "Fast splittable pseudorandom number generators" (splitmix64): from memory. */
uint32_t pack_random(struct pack *pack, uint32_t count) {
    uint64_t z = pack->random += 0x9e3779b97f4a7c15u;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return (uint32_t)(((z ^ (z >> 31)) >> 32) * count >> 32);
}

/* ---- Places ------------------------------------------------------------------------------------------------------ */

/* The first cut of a hole, when a blank leaves `length` beside it and `width` above it. */
static bool split_across(const struct pack *pack, struct plate_hole hole, double length, double width) {
    if (pack->split != SPLIT_LARGEST)
        return pack->split == SPLIT_ACROSS;
    return length * hole.width >= width * hole.length;
}

/* Of two places as narrow on their short side the one that is narrower on the other: too little to outweigh a step.
 * Chosen here. */
static const double tie_weight = 1e-6;

/* What the place of a blank in a hole is worth, the less the better. */
static double score_of(const struct pack *pack, struct plate_hole hole, nest_steps length, nest_steps width,
                       bool *across) {
    double beside = hole.length - length, above = hole.width - width;
    *across = split_across(pack, hole, beside, above);
    switch (pack->rule) {
    case PACK_AREA:
        return (double)hole.length * hole.width;
    case PACK_SHORT_SIDE:
        return fmin(beside, above) + tie_weight * fmax(beside, above);
    default:
        return hole_value(hole.length, hole.width) - hole_value(beside, *across ? hole.width : width) -
               hole_value(above, *across ? length : hole.length);
    }
}

/* Once in so many, a place is overlooked, or its hole divided the other way. */
enum { BLINK = 64, OTHER_SPLIT = 8 };

static void try_spot(struct pack *pack, int32_t plate, int32_t hole, nest_steps length, nest_steps width, bool turned,
                     struct plate_spot *best) {
    if (pack->blink && !pack_random(pack, BLINK))
        return;
    bool across;
    double score = score_of(pack, pack->plates.at[plate].holes[hole], length, width, &across);
    if (score < best->score)
        *best = (struct plate_spot){plate, hole, turned, across, score};
}

/* Both sides are compared before either is decided on: nearly all the work of a search is to find that a blank goes
 * into none of the holes. */
static bool goes_in(struct plate_hole hole, nest_steps length, nest_steps width) {
    return (length <= hole.length) & (width <= hole.width);
}

static void look_at_plate(struct pack *pack, int32_t index, const struct nest_rectangle *rectangle,
                          struct plate_spot *best) {
    const struct plate *plate = &pack->plates.at[index];
    const struct plate_hole *holes = plate->holes;
    nest_steps length = rectangle->length, width = rectangle->width;
    bool turns = rectangle->turns && length != width;
    for (int32_t hole = 0, count = plate->hole_count; hole < count; hole++) {
        bool straight = goes_in(holes[hole], length, width), turned = turns & goes_in(holes[hole], width, length);
        if (!(straight | turned))
            continue;
        if (straight)
            try_spot(pack, index, hole, length, width, false, best);
        if (turned)
            try_spot(pack, index, hole, width, length, true, best);
    }
    pack->work += (size_t)plate->hole_count;
}

bool pack_find(struct pack *pack, int32_t rectangle, struct plate_spot *spot) {
    const struct nest_rectangle *blank = &pack->problem->rectangles[rectangle];
    int64_t area = rectangle_area(blank);
    *spot = (struct plate_spot){.score = INFINITY};
    for (int32_t i = 0; i < (int32_t)pack->plates.count; i++)
        if (pack->plates.at[i].sheet != PLATE_NONE && pack->plates.at[i].largest_hole >= area)
            look_at_plate(pack, i, blank, spot);
    pack->work += pack->plates.count / 4;
    if (!(spot->score < INFINITY))
        return false;
    if (pack->blink && !pack_random(pack, OTHER_SPLIT))
        spot->across = !spot->across;
    return true;
}

/* ---- Sheets ------------------------------------------------------------------------------------------------------ */

bool pack_fits(const struct nest_rectangle *rectangle, const struct nest_sheet *sheet) {
    return (rectangle->length <= sheet->length && rectangle->width <= sheet->width) ||
           (rectangle->turns && rectangle->width <= sheet->length && rectangle->length <= sheet->width);
}

static bool may_take(const struct pack *pack, size_t kind, const struct nest_rectangle *rectangle) {
    const struct nest_sheet *sheet = &pack->problem->sheets[kind];
    return pack_fits(rectangle, sheet) && (!sheet->limit || pack->taken[kind] < sheet->limit) &&
           sheet->cost <= pack->most_cost - pack->cost;
}

static double dearness(const struct pack *pack, size_t kind) {
    const struct nest_sheet *sheet = &pack->problem->sheets[kind];
    double cost = (double)sheet->cost;
    return pack->open == OPEN_CHEAPEST ? cost : cost / ((double)sheet->length * sheet->width);
}

/* While searching, any kind that fits is as good as another. */
static size_t choose_kind(struct pack *pack, int32_t rectangle) {
    const struct nest_rectangle *blank = &pack->problem->rectangles[rectangle];
    size_t best = pack->problem->sheet_count;
    if (pack->only != PLATE_NONE && may_take(pack, (size_t)pack->only, blank))
        return (size_t)pack->only;
    uint32_t seen = 0;
    for (size_t kind = 0; kind < pack->problem->sheet_count; kind++) {
        if (!may_take(pack, kind, blank))
            continue;
        seen++;
        if (best == pack->problem->sheet_count ||
            (pack->blink && pack->problem->sheet_count > 1 ? !pack_random(pack, seen)
                                                           : dearness(pack, kind) < dearness(pack, best)))
            best = kind;
    }
    return best;
}

/* One that was put back, or a new one. */
static int32_t free_plate(struct pack *pack) {
    for (size_t i = 0; i < pack->plates.count; i++)
        if (pack->plates.at[i].sheet == PLATE_NONE)
            return (int32_t)i;
    list_add(pack->arena, &pack->plates)->sheet = PLATE_NONE;
    return (int32_t)pack->plates.count - 1;
}

static int32_t take_sheet(struct pack *pack, int32_t rectangle, pack_touch *touch, void *context) {
    size_t kind = choose_kind(pack, rectangle);
    if (kind == pack->problem->sheet_count)
        return PLATE_NONE;
    int32_t plate = free_plate(pack);
    if (touch)
        touch(context, plate);
    plate_start(pack->arena, &pack->plates.at[plate], (int32_t)kind, &pack->problem->sheets[kind]);
    pack->taken[kind]++;
    pack->cost += pack->problem->sheets[kind].cost;
    return plate;
}

void pack_close(struct pack *pack, int32_t plate) {
    struct plate *closed = &pack->plates.at[plate];
    pack->taken[closed->sheet]--;
    pack->cost -= pack->problem->sheets[closed->sheet].cost;
    closed->sheet = PLATE_NONE;
}

/* The blank alone on a new sheet: always its first place, whatever blinks. */
static void first_spot(struct pack *pack, int32_t plate, int32_t rectangle, struct plate_spot *spot) {
    bool blink = pack->blink;
    pack->blink = false;
    *spot = (struct plate_spot){.score = INFINITY};
    look_at_plate(pack, plate, &pack->problem->rectangles[rectangle], spot);
    pack->blink = blink;
}

bool pack_insert(struct pack *pack, int32_t rectangle, pack_touch *touch, void *context) {
    struct plate_spot spot;
    if (pack_find(pack, rectangle, &spot)) {
        if (touch)
            touch(context, spot.plate);
    } else {
        int32_t plate = take_sheet(pack, rectangle, touch, context);
        if (plate == PLATE_NONE)
            return false;
        first_spot(pack, plate, rectangle, &spot);
    }
    plate_put(pack->arena, &pack->plates.at[spot.plate], pack->problem->rectangles, rectangle, spot);
    return true;
}
