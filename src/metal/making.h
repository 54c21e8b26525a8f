/* What the files of the pass over all pieces (make*.c) share: where it is, and what it has made. */
#ifndef CLEAT_METAL_MAKING_H
#define CLEAT_METAL_MAKING_H

#include "metal/allow.h"
#include "metal/gauge.h"
#include "metal/metal.h"

struct known_part; /* make_same.c */

enum { BUCKETS = 1 << 12 };

struct making {
    struct job *job;
    struct arena *arena;
    struct metal *metal;
    const struct run *run;
    const struct piece *piece;
    double surface;             /* m2 of the parts made for it so far */
    const struct piece *behind; /* the next of its run; NULL: none */
    double *size;               /* the size of the order at hand, on key_grid */
    size_t size_room;
    struct stock *stock[MATERIAL_COUNT][GAUGE_LIGHTEST + 1]; /* by gauge, once asked for */
    struct known_part *known[BUCKETS];
    LIST(struct run *) waiting;
};

/* A text from the scratch arena that is to stay; NULL stays NULL. */
const char *making_kept(const struct making *making, const char *text);

/* The heavier of the sheets that the two ends of an order ask at `pressure` (make_sheet.c). */
struct metal_choice making_sheet(const struct making *making, const struct order *order, double pressure);

/* What the runs that meet at a part ask of its seams and joints (make_joints.c). */
struct allowing making_allowing(const struct making *making, const struct order *order);

/* What becomes of an order. */
struct made {
    struct part *part;        /* NULL: it cannot be made */
    const char *fault, *hint; /* then why not, and what to type in instead; the second may be NULL */
    bool shapeless;           /* and that is for its shape, not for seams and joints */
};

/* The part of the order at hand: laid out when it is the first of its kind and size (make_same.c). */
const struct made *making_part(struct making *making, const struct order *order);

/* Lays one out in `sheet`, for a job that has none like it yet (make_lay.c). */
struct made making_lay_out(struct making *making, const struct order *order, const struct metal_choice *sheet,
                           const struct allowing *allowing);

/* Puts the strips in their order, when all are made (make_bought.c). */
void making_sort_strips(struct metal *metal);

#endif
