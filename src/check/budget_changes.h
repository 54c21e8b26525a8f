/* Changes that would ease a network, made on it and taken back. */
#ifndef CLEAT_CHECK_BUDGET_CHANGES_H
#define CLEAT_CHECK_BUDGET_CHANGES_H

#include "check/checks.h"
#include "size/wall_cost.h"

enum change_kind {
    CHANGE_SIZE,  /* of a duct */
    CHANGE_PIECE, /* another in its place: as its kind says it is easier, or a face that takes less */
    CHANGE_SPEED, /* of the blower */
    CHANGE_SIDE,  /* of the wall that a tap is cut into: only where another change leaves it no room on its own */
    CHANGE_RATE,  /* no friction rate that is asked for: never with others, and not made by bench_make */
    CHANGE_KINDS
};

struct change {
    enum change_kind kind;
    struct span at;
    struct duct *duct; /* CHANGE_SIZE */
    struct duct_size size;
    struct section *section; /* CHANGE_PIECE: where it is first met */
    const struct piece *piece, *other;
    double sheet; /* m2 that `other` takes besides the walls of its duct */
    int step;     /* of the kinds that `other` could be: a later one goes further */
    bool is_face;
    const struct blower_speed *speed; /* CHANGE_SPEED */
    struct run *run;                  /* CHANGE_SIDE */
    enum side side, own_side;
};

/* So many together are still one way out: more is another design; with the sides of taps that follow from them.  Chosen
 * here, no source. */
enum { CHANGES_TOGETHER = 8, CHANGES_ALL = 2 * CHANGES_TOGETHER };

struct changes {
    size_t count;
    struct change at[CHANGES_ALL];
};

/* The network as it is, and what has been made of it. */
struct bench {
    const struct look *look;
    struct network *network;
    struct wall_cost cost;
    struct wall_length *lengths;                 /* of cost: a change of flexible duct to pipe moves some */
    const struct duct_size *sizes;               /* of each duct, as it was */
    const double *costs;                         /* of its walls, by what is ranked: bench_change_cost */
    double walls_cost, walls_area, walls_ranked; /* of all ducts, as they were; the last by what is ranked */
    const struct blower_speed *speed;
    struct run **runs; /* of the unit */
    size_t run_count;
    const struct diagnostics *warned[2]; /* of what a change can break, as it is; [true]: also of sizes that stand in */
    struct changes made;
    struct widened {
        struct section *section; /* NULL: none is */
        struct duct collar;
        struct piece connect;
        struct item *items, *own_items; /* with the change of size before them, and its own */
    } widened[2]; /* the runs on the unit's collars, return and supply, that a change makes larger than those */
};

void bench_set_up(struct bench *bench, const struct look *look, struct network *network);

/* Makes these and no others, turns taps that have no room then to another side of what they are cut into where they
 * have it, and computes everything again.  Gives the surplus, Pa. */
double bench_make(struct bench *bench, const struct changes *changes);

/* These, and the sides of taps that follow from them. */
struct changes bench_completed(struct bench *bench, const struct changes *changes);

/* Pa that all paths together are short by. */
double bench_shortage(const struct bench *bench);

/* Takes all back; losses and budget stay those of what was made. */
void bench_take_back(struct bench *bench);

/* The same, but with all ducts that nothing dictates sized anew, as if those lines were in the job; `rate` without the
 * friction rate that the job asks for.  Fills what the walls take more.  Takes as long as sizing, and leaves the
 * network as it was. */
struct resized {
    double surplus, friction_rate;
    bool sound; /* it is inside the budget, and nothing is wrong that was not */
    const struct diagnostic
        *comes_out;       /* what was wrong, and nobody was warned of, since sizes stood in; NULL: nothing */
    double sheet, cost;   /* m2; money, or kg where the shop prices no sheet */
    struct changes cures; /* sides of taps that cannot be cut otherwise */
};
struct resized bench_resize(struct bench *bench, const struct changes *changes, bool rate);

/* What a change takes more, by what is ranked: money where the shop prices sheet, else m2 of sheet.  It is to be made,
 * alone. */
double bench_change_cost(struct bench *bench, const struct change *change);

/* Whether a duct's size can be changed; and whether a tap has room for the run that it begins. */
bool bench_changeable(const struct duct *duct);
bool bench_tap_fits(const struct duct *duct);

/* Whether nothing is warned of taps and changes of size of the unit that was not before. */
bool bench_warns_of_nothing(const struct bench *bench);

/* Whether it was so before, but nobody was warned of it, since sizes only stood in. */
bool bench_comes_out(const struct bench *bench, const struct diagnostic *said);

/* Whether something of that check, about the same and no less grave, is among them. */
bool bench_warned(const struct diagnostics *all, const struct diagnostic *said);

/* Whether a changed duct is larger than the one before it in its run, and was not: no run grows away from the unit. */
bool bench_grows(const struct bench *bench);

/* A run that has its collar's size goes over to another by a change that stands in no line. */
bool bench_on_collar(const struct duct *duct);

#endif
