/* The network that the air sees of one unit: ducts, sections, items, paths; and what was found of it. */
#ifndef CLEAT_MODEL_NETWORK_H
#define CLEAT_MODEL_NETWORK_H

#include <stdint.h>

#include "base/list.h"
#include "base/source.h"
#include "base/text.h"
#include "model/shape.h"
#include "model/unit.h"

struct piece;     /* model/run.h */
struct run;       /* likewise */
struct operation; /* air/operation.h */
struct heat;      /* air/heat.h */
struct leakage;   /* air/leakage.h */
struct duct;
struct section;

/* How a size came about. */
enum size_reason {
    SIZE_UNSET,
    SIZE_CHOSEN,      /* while ducts are sized: enough, and sizing_explain says why it is this one */
    SIZE_DECLARED,    /* by the job */
    SIZE_COLLAR,      /* dictated by the unit's collar */
    SIZE_SPLIT,       /* a leg's share of the split it leaves */
    SIZE_FRICTION,    /* the friction rate decided */
    SIZE_VELOCITY,    /* the velocity limit or target decided */
    SIZE_HEIGHT_KEPT, /* a size as high as the duct upstream, where another would take less sheet */
    SIZE_TAP,         /* room for what is tapped in, or on the wall that it is tapped into */
    SIZE_WALL,        /* the largest that the wall holds that it is tapped into; less than was asked for */
    SIZE_REGAIN,      /* the smallest whose regain pays the way to the next take-off */
    SIZE_COST,        /* part of the cheapest whole */
    SIZE_SMALLEST,    /* the smallest standard size is already enough */
    SIZE_LIMITED      /* no standard size within the limits is enough; the largest that fits was taken, and diagnosed */
};

/* A stretch of one run with one size. */
struct duct {
    uint32_t id; /* index in network->ducts; parents come before children */
    struct run *run;
    struct duct *upstream; /* the duct it leaves, toward the unit; NULL at the collar */
    struct duct_size size;
    enum size_reason reason;
    bool fixed;               /* the job, a collar or a split dictates its size */
    bool leg_start;           /* an empty first stretch of a split leg: sized by its share of the split */
    double lining;            /* thickness of what lines it, m; 0: nothing does.  Its metal: model/lined.h */
    double flow;              /* m3/s, the greatest it carries */
    double length;            /* m of straight and flexible duct in it */
    const struct piece *wall; /* flexible duct that it is mostly made of; NULL: the run's material; by air_walls */
    double roughness;         /* m, of what it is mostly made of */
    /* Multiplies friction: 1, or the flexible-duct correction of what it is mostly made of. */
    double friction_multiplier;
    double equivalent_diameter, hydraulic_diameter; /* m, of its size; 0: no size yet; like the next by air_losses */
    double area, aspect;                            /* m2; long over short side */
    struct span at;                                 /* the piece that starts it, or its run */
};

enum item_role {
    ITEM_PIECE,  /* a piece passed through */
    ITEM_BRANCH, /* the tap into the parent: air turns into this run */
    ITEM_PAST,   /* air that goes on past a tap */
    ITEM_LEG,    /* a leg of a split */
    ITEM_CONNECT /* a plain connection of two different sizes that no piece covers */
};

/* A size and the air through it. */
struct stream {
    struct duct_size size;
    double flow; /* m3/s, >= 0 */
};

/* A pressure loss and how it was had. */
struct loss {
    double pressure;    /* Pa of total pressure, at the design flow; may be slightly negative past a tap */
    double friction;    /* Pa of it that is wall friction */
    double coefficient; /* of the rest, on `reference`; 0 when none */
    double reference;   /* Pa: velocity pressure that the coefficient is on */
    struct stream on;   /* whose velocity pressure that is */
    /* Which velocity that is: "duct", "smaller end", "branch", "common"; NULL: no coefficient. */
    const char *reference_name;
    enum source_id source;        /* of the coefficient or drop; SOURCE_NONE: friction alone */
    enum source_id factor_source; /* of a correction within the coefficient; SOURCE_NONE: none */
    const char *outside;          /* a table's range that the piece lies outside of, value clamped; NULL: inside */
};

struct item {
    const struct piece *piece; /* for ITEM_PAST the tap piece of the run tapped in; for ITEM_LEG the split */
    enum item_role role;
    double length;            /* m of duct in this item (part of a straight that taps divide) */
    const struct run *tapped; /* ITEM_PAST: the run whose tap is passed */
    bool skips_near,
        skips_far;    /* air does not pass that end of the piece here: a box with taps is two items, one an end */
    struct loss loss; /* filled by air_losses */
};

struct section {
    uint32_t id; /* index in network->sections; parents come before children */
    struct run *run;
    struct duct *duct;
    struct section *parent; /* toward the unit; NULL at the collar */
    double flow;            /* m3/s, design */
    double station, length; /* m along the run: where it starts, how much straight and flexible duct it has */
    LIST(struct item) items;
    struct run *terminal; /* the outlet or inlet whose air ends here; NULL: it goes on */
    double velocity;      /* m/s; filled by air_losses */
    double friction_rate; /* Pa/m of the duct itself */
    double loss;          /* Pa, sum of its items */
    double loss_to_unit;  /* Pa, with all toward the unit */
};

/* One way through the system, as the budget sees it. */
struct path {
    struct section *end;        /* the terminal's section */
    double loss;                /* Pa, its own side: from the unit to the terminal */
    double total;               /* Pa, with the worst path of the other side and the unit's drops */
    double surplus;             /* Pa left of the blower's pressure: what its damper takes up; negative: a deficit */
    const struct piece *damper; /* the first volume damper that serves only this path, or NULL */
};

/* A place where the pressure is read at start-up, or a thing that it is read across. */
enum test_kind {
    TEST_COLLAR, /* the static pressure at the unit's collar of that side */
    TEST_RUN_START,
    TEST_RUN_END, /* in the middle of the first and of the last straight of a run that has air */
    TEST_FACE,    /* the difference across a filter in a run */
    TEST_DROP,    /* the difference across a part of the unit */
    TEST_UNIT     /* the static difference across the unit, collar to collar */
};

struct test_point {
    enum test_kind kind;
    bool supply;                     /* which side; not of TEST_DROP and TEST_UNIT */
    const struct run *run;           /* NULL: at or in the unit */
    double station;                  /* m along the run */
    const struct piece *piece;       /* TEST_FACE: the filter */
    const struct drop *drop;         /* TEST_DROP */
    double total, velocity_pressure; /* Pa against the room; differences have no velocity pressure of their own: 0 */
    /* Pa that the gauge is to show: static pressure (total less velocity pressure), or the difference. */
    double expected;
    double operating; /* the same of what will really flow, balanced; not a number: that is not known */
};

/* How a search over all the sizes at once went. */
struct size_search {
    bool made;         /* false: the method makes none, and the rest is 0 */
    bool met;          /* some sizes meet the budget; false: none do, or there is no budget */
    double short_by;   /* Pa that the budget lacks for the sizes that take the least; 0: it does not, and they were not
                          taken */
    double bound;      /* what no sizes that were weighed can cost less than, as walls_cost */
    double resolution; /* Pa: sizes whose needs differ by less were taken together somewhere; 0: nowhere */
    size_t sizes;      /* sizes that were weighed, of all ducts together */
    size_t left_out;   /* sizes within the limits that were not, being dear for what they carry */
};

/* Everything the air sees of one unit. */
struct network {
    struct air_unit *unit;
    LIST(struct duct *) ducts;                    /* parents before children; supply side first */
    LIST(struct section *) sections;              /* likewise */
    LIST(struct path) supply_paths, return_paths; /* in file order of their terminals */
    double supply_flow, return_flow;              /* m3/s, sums of the terminals */

    /* Filled by size_ducts. */
    double friction_rate;          /* Pa/m found or given; 0: the method has none */
    int rounds;                    /* how many times the whole tree was sized and its losses computed */
    const char *rate_note;         /* what bounded the rate: "the budget of the governing path", ... */
    double walls_cost, walls_area; /* what the walls that size/wall_cost.c counts cost, and m2 of them */
    bool walls_in_money;           /* that cost is money; false: kg of sheet, since the shop prices none */
    struct size_search search;
    double regain; /* share of the velocity pressure given up that is taken to come back; 0: the method has none */
    double velocity_share; /* of the velocity limits, what ducts that follow no take-off are sized for; 0: likewise */

    /* Filled by air_budget. */
    bool blower_known;                                /* false: outside its points, or none given (diagnosed) */
    double blower_pressure;                           /* Pa at the design airflow */
    double unit_drops;                                /* Pa, sum of the unit's drops at the design airflow */
    struct path *governing_supply, *governing_return; /* the costliest of each side; NULL: none */
    double surplus;                                   /* Pa left on the governing path; negative: a deficit */

    /* Filled by air_start_up. */
    LIST(struct test_point) test_points;    /* return side, unit, supply side, as the air meets them */
    LIST(struct blower_point) blower_curve; /* the blower in the job's air, read between its points; empty: no point */
    /* What ducts and unit take, with the square of the airflow; empty: no paths. */
    LIST(struct blower_point) system_curve;
    double system_pressure;      /* Pa that the governing path takes at the design airflow */
    struct operation *operation; /* what will really flow; filled by air_operate; NULL: nothing to compute it with */

    struct heat *heat;       /* what passes through the walls; filled by heat_fill; NULL before */
    struct leakage *leakage; /* what leaks; filled by leakage_fill; NULL before */
};

/* One side of it: the supply, or the return. */
struct network_side {
    const struct path *paths; /* in file order of their terminals */
    size_t count;
    const struct path *governing; /* the costliest; NULL: none, or air_budget has not been */
    double flow;                  /* m3/s, the sum of its terminals */
};
struct network_side network_side(const struct network *network, bool supply); /* model/network_side.c */

#endif
