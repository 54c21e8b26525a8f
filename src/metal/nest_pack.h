/* Sheets being filled together: where the next blank goes, and when another sheet is taken.  Internal to the solver. */
#ifndef CLEAT_METAL_NEST_PACK_H
#define CLEAT_METAL_NEST_PACK_H

#include "metal/nest_plate.h"

/* What the best place of a blank is. */
enum pack_rule {
    PACK_VALUE,     /* that spoils the least of what the holes are worth */
    PACK_AREA,      /* the smallest hole */
    PACK_SHORT_SIDE, /* the hole that it is nearest to in one side */
    PACK_RULES
};

/* How the rest of the hole is divided. */
enum split_rule {
    SPLIT_LARGEST, /* so that its larger part is as large as it can be */
    SPLIT_ACROSS,  /* always across the sheet */
    SPLIT_ALONG,
    SPLIT_RULES
};

/* Which sheet is taken from the rack. */
enum open_rule {
    OPEN_CHEAPEST_AREA, /* the one whose area costs the least, of those that take the blank */
    OPEN_CHEAPEST,      /* that costs the least */
    OPEN_RULES
};

struct pack {
    struct arena *arena;
    const struct nest_problem *problem;
    enum pack_rule rule;
    enum split_rule split;
    enum open_rule open;
    int32_t only;      /* the one kind of sheet that is taken where it fits; PLATE_NONE: any */
    int64_t cost, most_cost; /* of the sheets taken; what they may cost at most */
    size_t *taken;     /* sheets of each kind */
    LIST(struct plate) plates; /* those of sheet PLATE_NONE are free to be taken again */
    size_t work;       /* places looked at so far */
    uint64_t random;   /* state of the generator; used where `blink` is set */
    bool blink;        /* a few places are overlooked, and some holes divided the other way */
};

void pack_init(struct pack *pack, struct arena *arena, const struct nest_problem *problem);

/* Puts all sheets back. */
void pack_clear(struct pack *pack);

/* Whether it may lie on an empty sheet of that kind. */
bool pack_fits(const struct nest_rectangle *rectangle, const struct nest_sheet *sheet);

/* The best place on the sheets taken; false: there is none. */
bool pack_find(struct pack *pack, int32_t rectangle, struct plate_spot *spot);

/* Puts the plate's sheet back: nothing may lie on it. */
void pack_close(struct pack *pack, int32_t plate);

/* Finds it a place, on another sheet if need be, and puts it there.  False: none was found.  `touch`, when not NULL, is
 * called with each plate before it is changed. */
typedef void pack_touch(void *context, int32_t plate);
bool pack_insert(struct pack *pack, int32_t rectangle, pack_touch *touch, void *context);

/* 0 .. count - 1. */
uint32_t pack_random(struct pack *pack, uint32_t count);

#endif
