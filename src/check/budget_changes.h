/* Changes that would ease a network, made on it and taken back. */
#ifndef CLEAT_CHECK_BUDGET_CHANGES_H
#define CLEAT_CHECK_BUDGET_CHANGES_H

#include "check/checks.h"
#include "size/wall_cost.h"

enum change_kind {
    CHANGE_SIZE,  /* a duct, and those of its run before it that would else be smaller */
    CHANGE_ELBOW, /* a piece as its kind says it is easier */
    CHANGE_SPEED  /* of the blower */
};

struct change {
    enum change_kind kind;
    struct span at;
    struct duct *duct; /* CHANGE_SIZE */
    struct duct_size size;
    struct section *section; /* CHANGE_ELBOW */
    const struct piece *piece, *easier;
    const char *words;                /* of `easier` */
    const struct blower_speed *speed; /* CHANGE_SPEED */
};

/* So many together are still one way out. */
enum { CHANGES_TOGETHER = 6 };

struct changes {
    size_t count;
    struct change at[CHANGES_TOGETHER];
};

/* The network as it is, and what has been made of it. */
struct bench {
    const struct look *look;
    struct network *network;
    struct wall_cost cost;
    const struct duct_size *sizes; /* of each duct, as it was */
    const double *costs;           /* of its walls */
    const struct blower_speed *speed;
    struct changes made;
    struct widened {
        struct section *section; /* NULL: none is */
        struct duct collar;
        struct piece connect;
        struct item *items, *own_items; /* with the change of size before them, and its own */
    } widened[2]; /* the runs on the unit's collars, return and supply, that a change makes larger than those */
};

void bench_set_up(struct bench *bench, const struct look *look, struct network *network);

/* Makes these and no others, and computes everything again.  What is left over then, Pa. */
double bench_make(struct bench *bench, const struct changes *changes);

/* Pa that all paths together are short by. */
double bench_shortage(const struct bench *bench);

/* What the walls of the changed ducts take more: m2, and money (or kg, where the shop prices no sheet). */
void bench_cost(const struct bench *bench, double *sheet, double *cost);

/* Whether a duct's size can be changed; and whether a tap has room for the run that it begins. */
bool bench_changeable(const struct duct *duct);
bool bench_tap_fits(const struct duct *duct);

/* The two may be one change: of the same duct, piece or blower. */
bool change_same_thing(const struct change *one, const struct change *other);

bool changes_have(const struct changes *changes, const struct change *change);

/* "o4 as 14 in round in place of 10 in round". */
const char *change_words(const struct bench *bench, const struct change *change);

#endif
