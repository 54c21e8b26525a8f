/* What one step more of an estimated dimension does: found by compiling the job with it (compile/effects.h). */
#ifndef CLEAT_COST_EFFECT_H
#define CLEAT_COST_EFFECT_H

#include "base/money.h"
#include "model/estimate.h"

/* How far the changed job was compiled. */
enum effect_depth {
    EFFECT_WHOLE, /* through price and checks */
    EFFECT_SIZES  /* through sizes and pressure: a large job has too many estimates to price each */
};

/* What is left of a blower's pressure on one path, Pa, with the change and what that took or gave. */
struct effect_left {
    double left, change;
};

/* A stretch of a run that gets another size. */
struct effect_size {
    const char *run;
    struct duct_size before, after;
};
enum { EFFECT_SIZES_NAMED = 3, EFFECT_WARNINGS_NAMED = 3 };

struct effect {
    enum effect_depth depth;
    const char *fault; /* why the changed job cannot be built as it is written; NULL: it can, and the rest is filled */
    const struct air_unit *unit;  /* whose paths these are; NULL: no air goes there */
    struct effect_left governing; /* on the costliest path of that unit */
    const char *terminal, *room;  /* of the tightest path through the thing; NULL: none, or it is the costliest one */
    struct effect_left path;      /* on that path */
    bool falls_short;             /* the blower then has less than the costliest path takes */
    double short_after; /* so many steps in all, when pressure goes on alike and no size changes; 0: not known, or over
                           EFFECT_STEPS; of a length along duct */
    const char *speed;  /* the blower speed that is taken in place of the job's; NULL: the same */
    bool priced;        /* both jobs have a price, and the changed one no errors */
    const char *unpriced; /* why it has none; NULL: it has, or is not asked what it costs */
    money difference;     /* of the prices before rounding */
    size_t resized;       /* stretches that get another size; `sizes` has the first EFFECT_SIZES_NAMED */
    LIST(struct effect_size) sizes;
    size_t warned;               /* warnings that the job alone does not raise; of those the first are kept */
    LIST(const char *) warnings; /* as said */
};
/* Beyond so many steps it does not matter when it falls short. */
enum { EFFECT_STEPS = 20 };

#endif
