/* The take-off: everything that is bought for the job, counted.  Filled by cost_takeoff, from what the shop makes
 * (metal/), its nest, and the runs; priced by cost_price. */
#ifndef CLEAT_COST_TAKEOFF_H
#define CLEAT_COST_TAKEOFF_H

#include "metal/metal.h"
#include "model/job.h"

/* What a thing is counted in. */
enum bill_measure { BILL_EACH, BILL_LENGTH, BILL_AREA, BILL_VOLUME, BILL_WEIGHT };

/* Under which head a list of materials shows it, in this order. */
enum bill_group {
    BILL_SHEET,      /* sheets from stock, which strips are cut from too */
    BILL_FLEXIBLE,   /* flexible duct, connectors */
    BILL_FACES,      /* registers, grilles, filters */
    BILL_FITTINGS,   /* dampers, boots and other things that are bought ready-made */
    BILL_HANGING,    /* hangers */
    BILL_FASTENING,  /* screws, clamps, corners and bolts of flanges */
    BILL_SEALING,    /* sealant, tape, gaskets */
    BILL_INSULATION, /* wrap and lining */
    BILL_GROUP_COUNT
};

struct bill_line;
struct takeoff;
struct shop_prices;
struct labour_counts; /* cost/labour_count.h */
struct hung_piece;    /* cost/count.h */

/* A kind of thing that is bought: one row of the table in cost/bill_items.c. */
struct bill_item {
    const char *key;   /* the word that a shop prices it by: `price duct_sealant 18.50 per gallon` */
    const char *title; /* "Duct sealant" */
    enum bill_group group;
    enum bill_measure measure;
    bool whole;          /* measured by length, and each piece is cut from one package where that is long enough */
    bool by_title;       /* a thing that the job alone knows: its lines have their title for a key */
    bool rest;           /* things that no other row is for */
    const char *example; /* a line of a shop that prices it: "price duct_sealant 18.50 per gallon" */
    void (*count)(struct takeoff *takeoff, const struct job *job); /* adds its lines */
};

/* So much of one thing. */
struct bill_line {
    const struct bill_item *item;
    const char *title; /* "Register, 12 x 6 in" */
    const char *key;   /* a more particular name, which a shop may price it by too: "register 12 x 6"; NULL: none.  It
                          begins   with the item's key, and each word less is more general; things that only the job knows
                          (item->by_title) have their title instead */
    double net;        /* what ends in the work: a count, m, m2, m3 or kg, as item->measure says */
    double wanted; /* with what cutting, spreading and fitting lose, or else with the waste that the shop states, before
                      whole packages are made of it */
    LIST(double) pieces; /* of an item->whole: m of each */
    size_t packages;     /* that these need at least, as the shop sells them; 0: it does not sell by the package */
    const char
        *basis; /* how it was counted, for the office: "240 ft of joints, 480 ft a gallon, half lost in brushing" */
    enum source_id source;           /* of the rule behind that; SOURCE_NONE: it is plainly counted */
    const char *example;             /* a line of the shop that prices just this; NULL: item->example */
    const struct stock_sheet *sheet; /* BILL_SHEET: which; its price stands with it; else NULL */
};

/* ---- What is closed in the field --------------------------------------------------------------------------------- */

enum closing {
    CLOSED_JOINT,  /* two ends of duct, by the connection `kind` */
    CLOSED_BASE,   /* a tap on the wall that it is cut into; a cap over its duct */
    CLOSED_NECK,   /* within a part, in the shop: the neck of an elbow boot, the collar of a tee, on its wall */
    CLOSED_FLEX,   /* an end of flexible duct on its collar */
    CLOSED_CANVAS, /* an end of a flexible connector */
    CLOSED_FACE,   /* a boot or box at the floor, wall or ceiling that it opens through */
    CLOSED_ROD,    /* the rod of a damper, through both walls */
    CLOSED_READY   /* a piece that is not of sheet metal: its near end */
};
enum { CLOSING_COUNT = CLOSED_READY + 1 };

struct connection {
    const struct run *run;
    const struct piece *piece; /* behind it, away from the unit */
    struct duct_size size;
    enum closing closing;
    enum joint_kind kind; /* CLOSED_JOINT */
};

/* ---- What it hangs by -------------------------------------------------------------------------------------------- */

enum hanger_kind {
    HANGER_STRAPS, /* two, down the sides and turned under it */
    HANGER_BAND,   /* one, round the duct and up */
    HANGER_SADDLE, /* a wide one under flexible duct, both ends up */
    HANGER_RISER   /* under upright duct: angles on two sides of it, which stand on a floor or a frame */
};

/* Why one hangs there. */
enum hanger_reason {
    HUNG_APART,  /* no more than the spacing from the support before it */
    HUNG_TURN,   /* near an elbow */
    HUNG_BRANCH, /* near a branch or the run's own beginning at one */
    HUNG_START,  /* behind canvas or flexible duct, which bear nothing */
    HUNG_END,    /* near an end that nothing else bears */
    HUNG_ALONE,  /* in the middle of what would else have none */
    HUNG_RISER   /* its share of a riser: at a floor near there */
};

struct hanger {
    const struct run *run;
    double station; /* m along the run from its start */
    enum hanger_kind kind;
    enum hanger_reason reason;
    struct duct_size size;
    double strap_width; /* m; of a riser's support, like the next two, 0: it has none */
    int strap_gauge;    /* 0: woven webbing, of flexible duct */
    double strap;       /* m of it, cut, all legs together */
};

/* ---- What is joined because no box is long enough ---------------------------------------------------------------- */

struct splice {
    const struct run *run;
    double diameter;   /* m, of the sleeve */
    double insulation; /* m2 K/W */
    size_t count;
};

/* Of one part, once each: what several lines and hours are counted from. */
struct part_measure {
    double surface; /* m2 of its panels, openings taken off: what can be wrapped or lined.  0 for what lies inside a
                       duct (a vane, a blade) */
    double seams;   /* m, each counted once */
};

/* All connections of one kind. */
struct closing_sum {
    size_t count;
    double girth; /* m round them */
};

struct takeoff {
    const struct bill_item *item;     /* whose lines are being added */
    const struct shop_prices *prices; /* cost/shop_prices.h */
    struct arena *arena;
    const struct hung_piece *pieces; /* all of the job, as they are hung; piece_count of them */
    size_t piece_count;
    const struct part_measure *measures; /* of each of metal->parts */
    LIST(struct bill_line) lines;        /* by group, then in the order of the table, then as they are hung */
    LIST(struct connection) connections; /* as they are hung */
    struct closing_sum closings[CLOSING_COUNT];
    LIST(struct hanger) hangers;      /* likewise; by station in each run */
    LIST(struct splice) splices;      /* of flexible duct, as they are hung */
    const struct labour_counts *work; /* the work that all this makes */
};

/* The table, in the order of the bill. */
const struct bill_item *bill_items(size_t *count);

/* Fills job->takeoff.  NULL stays where there is nothing made of the job (errors before sizing). */
void cost_takeoff(struct job *job);

/* Distances that hangers go by, m, in round figures of the job's system of units. */
struct hanging_rules {
    double spacing;                 /* of metal duct, at most: the shop's, else SOURCE_HANGERS */
    double near_turn, near_branch;  /* one hanger so near, at least */
    double clear;                   /* none nearer to a tap's opening, or a joint from which it goes up or down */
    double wide_side, wide_spacing; /* duct with such a side is hung so near */
    double riser;                   /* one support for so much upright duct, at most: SOURCE_RISERS */
    double riser_borne;             /* so much of it is borne by what it is joined to */
    double flexible, flexible_sag;  /* of flexible duct, at most: SOURCE_FLEX_HANGERS */
};
struct hanging_rules hanging_rules_of(const struct job *job);

/* "near an elbow": why a hanger hangs where it does. */
const char *hanger_reason_words(enum hanger_reason reason);

#endif
