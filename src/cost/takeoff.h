/* The take-off: everything that is bought for the job, counted.  Filled by cost_takeoff, from what the shop makes (metal/), its
 * nest, and the runs; priced by cost_price. */
#ifndef CLEAT_COST_TAKEOFF_H
#define CLEAT_COST_TAKEOFF_H

#include "metal/metal.h"
#include "model/job.h"

/* What a thing is counted in. */
enum bill_measure { BILL_EACH, BILL_LENGTH, BILL_AREA, BILL_VOLUME, BILL_WEIGHT };

/* Under which head a list of materials shows it, in this order. */
enum bill_group {
    BILL_SHEET,      /* sheets from stock */
    BILL_STRIPS,     /* cleats, rails, reinforcement */
    BILL_FLEXIBLE,   /* flexible duct, connectors */
    BILL_FACES,      /* registers, grilles, filters */
    BILL_FITTINGS,   /* dampers, boots and other things that are bought ready-made */
    BILL_HANGING,    /* hangers */
    BILL_FASTENING,  /* screws, clamps */
    BILL_SEALING,    /* sealant, tape */
    BILL_INSULATION, /* wrap and lining */
    BILL_GROUP_COUNT
};

struct bill_line;
struct takeoff;

/* A kind of thing that is bought: one row of the table in cost/bill_items.c. */
struct bill_item {
    const char *key;   /* the word that a shop prices it by: `price duct_sealant 18.50 per gallon` */
    const char *title; /* "Duct sealant" */
    enum bill_group group;
    enum bill_measure measure;
    const char *example; /* a line of a shop that prices it: "price duct_sealant 18.50 per gallon" */
    void (*count)(struct takeoff *takeoff, const struct job *job); /* adds its lines */
};

/* So much of one thing. */
struct bill_line {
    const struct bill_item *item;
    const char *title; /* "Register, 12 x 6 in" */
    const char *key;   /* a more particular word, which a shop may price it by too: "register 12 x 6"; NULL: none */
    double net;        /* what ends in the work: a count, m, m2, m3 or kg, as item->measure says */
    double wanted;     /* with what cutting, spreading and fitting lose, before whole packages are made of it */
    const char *basis; /* how it was counted, for the office: "240 ft of joints, 480 ft a gallon, half lost in brushing" */
    enum source_id source; /* of the rule behind that; SOURCE_NONE: it is plainly counted */
    const struct stock_sheet *sheet; /* BILL_SHEET: which; its price stands with it; else NULL */
};

struct takeoff {
    const struct bill_item *item; /* whose lines are being added */
    struct arena *arena;
    LIST(struct bill_line) lines; /* by group, then in the order of the table, then as they are hung */
};

/* The table. */
extern const struct bill_item *const bill_items[];
extern const size_t bill_item_count;

/* Fills job->takeoff.  NULL stays where there is nothing made of the job (errors before sizing). */
void cost_takeoff(struct job *job);

#endif
