/* How the blanks of a job lie on the shop's sheets: one group for each gauge and material.  Filled by metal_nest from
 * what metal_make has laid out; the cuts run from edge to edge, as a shear makes them (nest_solve.h).
 */
#ifndef CLEAT_METAL_NEST_H
#define CLEAT_METAL_NEST_H

#include "metal/metal.h"
#include "metal/nest_solve.h"

/* The effort (nest_problem.effort) that a group of so many blanks is worth: some 5 ms for few,
 * under 150 ms for 2,000. */
size_t nest_effort(size_t blanks);

/* What is to be cut: a blank of a part, or a strip.  One a kind, with its count over the whole job. */
struct nest_piece {
    const struct part *part;        /* NULL: it is a strip */
    const struct blank *blank;      /* likewise */
    const struct made_strip *strip; /* NULL: it is a blank */
    double length, width;           /* m, of its box */
    size_t count;                   /* wanted */
    size_t unplaced;                /* of these, how many lie on no sheet: no sheet takes one */
};

/* So many of one `stock` entry. */
struct nest_stock {
    const struct stock_sheet *sheet; /* its sides, its price if it is priced; lives as long as the job */
    size_t count;                    /* sheets used; may be 0 */
    double area;                     /* m2 of all of them */
};

struct nest_group {
    int gauge;
    enum material material;
    bool stock_assumed;  /* the shop lists no sheet: the assumed one (struct stock) */
    bool stock_borrowed; /* the shop lists none of this gauge and material: the sizes of its others, unpriced */
    bool by_price;       /* sheets are chosen by what they cost; false: by area, since a price is missing */
    LIST(struct nest_piece) pieces;
    LIST(struct nest_stock) stock;        /* in the order of the shop */
    const struct nest_solution *solution; /* its rectangles are `pieces`, its sheets `stock`, by index; never NULL */

    size_t sheets;     /* used */
    size_t blanks;     /* that lie on them */
    size_t unplaced;   /* that lie on none */
    double sheet_area; /* m2 of all sheets used */
    double blank_area; /* m2 of the boxes that lie on them */
    double metal_area; /* m2 of what is cut out of the boxes (outlines of blanks, strips whole) */
    double kept_area;  /* m2 of offcuts that are kept for another job */
    size_t kept_count;
    /* Share of the sheets that neither is a blank's box nor is kept: (sheet - blank - kept) / sheet; 0..1. */
    double waste;
    double scrap; /* share of the sheets, less what is kept, that does not end in the work: 1 - metal / (sheet - kept);
                     for a take-off's waste allowance */
    money price;  /* of all sheets; 0 unless by_price */
};

struct nest {
    LIST(struct nest_group) groups; /* materials in their order, the heaviest gauge first */
    double keep[2];                 /* m: an offcut at least this large, either way round, is kept */
    bool keep_assumed;              /* the shop did not say */
    bool grain;                     /* the shop wants the longer side of each blank along the sheet */
    size_t sheets, blanks, unplaced;
    double sheet_area, blank_area, metal_area, kept_area;
};

/* Fills job->metal->nest; NULL stays where nothing is made.  Pieces that no sheet takes are counted as unplaced; the
 * check `stock` has a warning for them. */
void metal_nest(struct job *job);

/* A length of the solver in m. */
double nest_metres(nest_steps steps);

#endif
