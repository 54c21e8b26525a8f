/* What the shop makes: parts, their blanks, strips, and what is bought.  Filled by metal_make from the sized job. */
#ifndef CLEAT_METAL_METAL_H
#define CLEAT_METAL_METAL_H

#include "metal/blank.h"
#include "model/job.h"
#include "model/piece.h"

/* A place that a part goes to. */
struct part_use {
    const struct run *run;
    const struct piece *piece; /* NULL: a tap's hole, or what the run's settings ask */
    double station; /* m along the run where it begins */
    double length;  /* m along the run, as made */
    bool about;     /* rests on a dimension that is only an estimate: measure before cutting */
};

/* A strip cut to length: an S, a drive, a vane rail. */
struct strip {
    const char *name; /* "drive cleat", "S cleat" */
    double length, width; /* m, of the flat strip */
    int gauge;
    size_t count;
};

struct part {
    size_t number; /* 1.. in the order that parts are first hung */
    const char *title; /* "Radius elbow, 14 x 8 in, 90 left" */
    const char *shape; /* name of its shape */
    struct solid *solid;
    blank_list blanks;
    LIST(struct part_use) uses;
    LIST(const char *) notes; /* what the maker must know */
    enum material material;
    int gauge;
    enum source_id gauge_source;
    bool cross_break;    /* or bead: the flat sides drum */
    bool reinforce;      /* the table asks for reinforcement, which is not laid out here */
    double pressure_class; /* Pa */
    const char *seam, *joint; /* words: "pittsburgh", "slip-and-drive" */
    double area;         /* m2 of sheet, allowances included, openings not taken off */
    double weight;       /* kg, finished: openings taken off */
    size_t stack;        /* sheets marked and notched together */
    double finished_length; /* m; of straight joints; 0: says nothing */
};

/* Bought, not made: flexible duct, registers, dampers. */
struct bought {
    const char *title; /* "Register, 12 x 6 in" */
    double length; /* m in all; 0: counted */
    size_t count;
    LIST(const struct piece *) pieces;
};

struct metal {
    LIST(struct part *) parts;
    LIST(struct strip) strips; /* by name, gauge and length */
    LIST(struct bought) bought;
    double area, weight;
    double chord_error; /* m, of all parts at most */
};

/* Fills job->metal. */
void metal_make(struct job *job);

/* ---- For the pieces: what a kind's `make` says ------------------------------------------------------------------- */

/* Builds one shape: `size` points to its struct, which holds nothing but doubles. */
typedef void shape_builder(struct solid *solid, const void *size);

/* What a piece asks the shop to make. */
struct order {
    const char *title;  /* words for the part, with its size */
    const char *shape;  /* the shape's name: "radius elbow" */
    shape_builder *build;
    const void *size;   /* a struct of doubles */
    size_t size_bytes;
    struct duct_size near, far; /* for gauge and joints */
    double station, length;
    bool about;
};

struct making;
void make_part(struct making *making, const struct order *order);
void make_bought(struct making *making, const char *title, double length);
void make_strip(struct making *making, const char *name, double length, double width, size_t count);
const struct job *making_job(const struct making *making);
const struct piece *making_piece(const struct making *making);

#endif
