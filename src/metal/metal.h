/* What the shop makes: parts, their blanks, strips, and what is bought.  Filled by metal_make from the sized job. */
#ifndef CLEAT_METAL_METAL_H
#define CLEAT_METAL_METAL_H

#include "metal/blank.h"
#include "metal/seam.h"
#include "metal/stock.h"
#include "model/job.h"
#include "model/piece.h"

/* A place that a part goes to. */
struct part_use {
    size_t hung; /* 1.. over all parts of the job, in hanging order */
    const struct run *run;
    const struct piece *piece; /* NULL: a tap's hole, or what the run's settings ask */
    double station;            /* m along the run where it begins */
    double length;             /* m along the run, as made */
    bool about;       /* rests on a dimension that is only an estimate: measure before cutting.  By metal/waits.c */
    const char *note; /* what is to be done there that the pattern does not show; NULL: nothing */
};

/* A strip cut to length: an S, a drive, a vane rail. */
struct made_strip {
    const char *name;              /* "drive", "S slip" */
    double length, width;          /* m, of the flat strip */
    const struct strip_rule *rule; /* how it is folded; NULL: it stays flat */
    double apart; /* m, along it: from its end to the first hole, and so on to the other end; 0: none */
    size_t count;
    int gauge; /* of the duct it belongs to: common practice, no source (SOURCE_STRIP_GAUGE) */
    enum material material;
};

struct part {
    size_t number;     /* 1.. in the order that parts are first hung */
    const char *title; /* "Radius elbow, 14 x 8 in, 90 left" */
    const char *shape; /* name of its shape */
    struct solid *solid;
    blank_list blanks;
    LIST(struct part_use) uses;
    LIST(const char *) notes; /* what the maker must know of its seams and connections; of its shape: solid->notes */
    enum material material;
    int gauge;
    enum source_id gauge_source; /* of the row that asks for it; SOURCE_NONE: the job says it */
    int gauge_needed;            /* by the table */
    bool gauge_thin;             /* thinner than the table asks for */
    bool cross_break;            /* or bead: the flat sides drum */
    bool reinforce;              /* the table asks for reinforcement, which is not laid out here */
    double pressure_class;       /* Pa */
    double lining;               /* thickness of what lines it, m; 0: nothing does */
    enum seam_kind seam;         /* of most of its seams */
    bool seamed[SEAM_COUNT];     /* which kinds it has at all */
    enum joint_kind joints[2];   /* at its near and its other ports, where those are duct */
    bool joined[2];              /* it has such a port */
    double surface;              /* m2 of its walls, openings taken off; 0 of what lies within a duct */
    double area;                 /* m2 of sheet for one, allowances included, openings not taken off */
    double weight;               /* kg of one, finished: openings taken off */
    size_t stack;                /* sheets marked and notched together */
    double finished_length;      /* m; of straight joints; 0: says nothing */
};

/* Bought, not made: flexible duct, registers, dampers. */
struct bought {
    const char *title; /* "Register, 12 x 6 in" */
    const char *item;  /* what a shop prices it as, a key of cost/bill_items.c: "register" */
    const char *key;   /* more particularly: "register 12 x 6"; NULL: nothing but its title tells it from others */
    double length;     /* m in all; 0: counted */
    size_t count;
    LIST(const struct piece *) pieces;
    LIST(double) lengths; /* m, of each of these; 0: counted */
};

/* A part at the place it goes to. */
struct hung_part {
    const struct part *part;
    const struct part_use *use;
};

struct nest; /* metal/nest.h */

struct metal {
    LIST(struct part *) parts;
    LIST(struct made_strip) strips; /* by name, width and length: alike ones stand together */
    LIST(struct bought) bought;
    LIST(const struct piece *)
    ready;                         /* as hung, a piece for each of its parts that is not of sheet metal, and bought */
    LIST(const struct run *) runs; /* in hanging order: the uses of one run's parts follow each other */
    double area, weight;
    size_t pieces;          /* how many are hung: the uses of all parts */
    struct hung_part *hung; /* so many, in hanging order */
    double chord_error;     /* m, of all parts at most */
    struct nest *nest;      /* how the blanks lie on stock sheets; filled by metal_nest (metal/nest.h); NULL before */
};

/* Whether it lies within a duct, as vanes do: it joins nothing. */
bool part_is_within(const struct part *part);

/* Whether two strips differ in length only. */
bool strips_alike(const struct made_strip *a, const struct made_strip *b);

/* Fills job->metal. */
void metal_make(struct job *job);

/* ---- For the pieces: what a kind's `make` says ------------------------------------------------------------------- */

/* Builds one shape: `size` points to its struct, which holds nothing but doubles. */
typedef void shape_builder(struct solid *solid, const void *size);

/* What a piece asks the shop to make. */
struct order {
    const char *title; /* words for the part, with its size */
    const char *shape; /* the shape's name: "radius elbow" */
    shape_builder *build;
    const void *size; /* a struct of doubles */
    size_t size_bytes;
    struct duct_size near, far; /* for gauge and joints */
    double station, length;     /* m, along the run */
    double finished_length;     /* m, of a joint of straight duct; 0: it is none */
    const char *note;           /* as of struct part_use */
    bool changes_behind;        /* a change of size is made behind it, before the straight leg of its split begins */
    const char *line;           /* what to type in instead where its shape cannot be; NULL: the shape's own hint */
    const char *ready; /* what it is bought as where the run is not of sheet metal: "boot"; NULL: "ready_made" */
};

/* Something that is bought. */
struct purchase {
    const char *item;  /* as of struct bought: a literal */
    const char *key;   /* likewise */
    const char *title; /* words, with its size */
    double length;     /* m, added up; 0: it is counted */
};

/* The pass at one piece. */
struct making;

/* A part for the piece at hand: laid out when it is the first of its kind and size, else only counted.  A shape that
 * cannot be is an error at the piece. */
void make_part(struct making *making, const struct order *order);

/* Something to be bought for it. */
void make_bought(struct making *making, const struct purchase *purchase);

/* Something bought that belongs to a part made for it: rods, quadrants. */
void make_hardware(struct making *making, const struct purchase *purchase);

/* Strips of sheet cut to length for it: vane rails.  Their material is that of the run at hand. */
void make_strip(struct making *making, const struct made_strip *asked);

/* The error that the piece cannot be made so; `hint` may be NULL. */
void make_fault(struct making *making, const char *hint, const char *why);

/* The gauge that duct of that size is made of in the run at hand; 0: it is no sheet metal. */
int making_gauge(const struct making *making, struct duct_size size);

/* The sheets that the shop has of it. */
const struct stock *making_stock(struct making *making, struct duct_size size);

/* For titles, notes and sizes: cleared behind each piece; what is to stay is copied from it. */
struct arena *making_scratch(const struct making *making);
const struct job *making_job(const struct making *making);
const struct run *making_run(const struct making *making);

#endif
