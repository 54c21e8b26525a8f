/* What a kind of piece is: one descriptor, in one file of src/piece, in one row of the table src/piece/kinds.c.
 * No other file lists the kinds, and none asks which kind a piece is.
 */
#ifndef CLEAT_MODEL_PIECE_H
#define CLEAT_MODEL_PIECE_H

#include "model/job.h"

/* Lengths of wall whose friction is part of a loss: kept, so that the friction at another airflow is computed
 * without the piece. */
enum { WALL_SPANS = 4 };
struct wall_spans {
    int count; /* over WALL_SPANS: there were more than are kept */
    struct wall_span {
        double diameter, roughness, length; /* m; the diameter is the round equivalent */
    } at[WALL_SPANS];
};

/* All that a piece's loss depends on.  `near` is toward the unit, `far` away from it; on the supply side air goes from
 * near to far, on the return side from far to near. */
struct piece_flow {
    const struct piece *piece;
    const struct air *air;
    enum item_role role;
    bool supply;
    double length;            /* m of duct in this item */
    double roughness;         /* m, of the duct's wall */
    double design;            /* m3/s that the section was designed for; 0: what it carries now */
    bool loaded;              /* a filter is asked with the dust that it holds before it is changed */
    struct wall_spans *spans; /* what it asks the friction of is noted here; NULL: nowhere */
    struct trace *trace;      /* told how the loss comes about (air/trace.h); NULL: nobody asks */
    struct stream near, far;
    /* ITEM_BRANCH, ITEM_PAST, ITEM_LEG: the junction.  near = common; far = the stream that the item's own section
     * carries. */
    struct stream common;       /* all the air, on the unit's side */
    struct stream branch;       /* the tap, also for ITEM_PAST; for ITEM_LEG this leg */
    struct stream through;      /* what goes straight on past a tap, or the other leg; flow 0 when nothing does */
    enum leg leg;               /* ITEM_LEG: which leg this is */
    bool skips_near, skips_far; /* as of struct item: air does not pass that end here */
};

/* How much larger than its run the hole of a tap is, m, >= 0. */
struct tap_opening {
    double across;               /* the parent, both sides together */
    double upstream, downstream; /* along the parent: toward the unit, and away from it */
};

struct trace;  /* air/trace.h */
struct making; /* metal/metal.h */
struct motion; /* route/motion.h */

/* What a piece does to the run it stands in. */
enum piece_trait {
    PIECE_LENGTH = 1 << 0,   /* straight or flexible duct: friction along its length */
    PIECE_RESIZES = 1 << 1,  /* a new duct size begins behind it, behind every one of the kind: ask piece_resizes() */
    PIECE_ENDS_RUN = 1 << 2, /* nothing may follow it */
    PIECE_SPLITS = 1 << 3,   /* ends a run in legs */
    PIECE_TAP = 1 << 4,      /* joins a run to its parent: only as the first piece of a tapped run */
    PIECE_OUTLET = 1 << 5,   /* air terminal of an outlet (register) */
    PIECE_INLET = 1 << 6,    /* air terminal of an inlet (grille, filter grille) */
    PIECE_BALANCES = 1 << 7, /* can take up a surplus (volume damper) */
    PIECE_FLEXIBLE = 1 << 8, /* flexible duct */
    PIECE_IMPLIED_TAP = 1 << 9,     /* what a tapped run gets when it declares no tap */
    PIECE_IMPLIED_CHANGE = 1 << 10, /* what joins two different sizes when no piece does */
    PIECE_IMPLIED_CAP = 1 << 11,    /* what closes a run that ends in taps only */
    PIECE_FILTER = 1 << 12,         /* has a filter face to be checked */
    PIECE_TAKES_TAPS = 1 << 13,     /* runs may be tapped into it (straight duct, plenum box) */
    PIECE_FITS_FACE = 1 << 14,      /* joins a duct to a face of any size (boot, plenum box) */
    PIECE_SOFT = 1 << 15,           /* canvas: screwed on all round, bears no weight */
    PIECE_TURNS = 1 << 16,          /* a turn that a hanger stands near (elbow) */
    PIECE_SQUARE =
        1
        << 17 /* its loss but for its wall friction goes exactly with the square of its own airflow, at every airflow */
};

struct piece_kind {
    struct form form;  /* its word, and what may stand behind it */
    const char *title; /* "Elbow": for schedules */
    unsigned traits;
    size_t length_slot; /* of a PIECE_LENGTH: which slot of its form is its length */

    /* The piece's own sense check, once read; fills piece->length.  Faults are diagnosed and mark the reading faulty.
     * For an implied piece reading.statement is NULL and every argument ungiven: defaults must do.  NULL: length 0. */
    void (*prepare)(struct piece *piece, struct diagnostics *diagnostics);

    /* Whether this very piece begins a new duct size behind it; it then has the drop between both.  NULL: as
     * PIECE_RESIZES says. */
    bool (*resizes)(const struct piece *piece);

    /* The size that a piece that resizes gives the duct behind it; unknown: to be computed.  NULL: to be computed. */
    struct duct_size (*resize)(const struct piece *piece);

    /* What is wrong with a piece that resizes behind duct of that shape, to be told where it stands.  NULL, and giving
     * NULL: nothing. */
    const char *(*misfit)(const struct piece *piece, enum shape near);

    /* Legs that a split offers, as a set of 1 << enum leg.  NULL: not a split. */
    unsigned (*legs)(const struct piece *piece);

    /* The pressure loss in the given flow, without the drop of any other piece; with the piece's own wall friction (the
     * arc of an elbow, the run of a transition) in loss->friction and in the sum.  Only for a PIECE_LENGTH does
     * air_losses add the friction along item->length to what this function gives. Never fails: outside a table it
     * clamps and says so in loss->outside. NULL: no loss. */
    void (*loss)(const struct piece_flow *flow, struct loss *loss);

    /* Wall of a PIECE_LENGTH of that diameter, m (of rectangular and oval duct the round equivalent): roughness (m) and
     * a factor on friction.  Sizing asks for diameters that the duct does not have yet.  NULL: the run's material,
     * factor 1. */
    void (*wall)(const struct piece *piece, double diameter, double *roughness, double *factor);

    /* In words for a schedule, without the length: "Elbow, 90 left, radius 1.0".  NULL: the title. */
    const char *(*describe)(const struct piece *piece, enum measure_system system, struct arena *arena);

    /* The R-value, m2 K/W, that the piece comes with; under 0: as its run is insulated.  NULL: likewise. */
    double (*insulation)(const struct piece *piece);

    /* How long its centre line is in duct of that size, m: of what takes no length along the run (elbow).  NULL:
     * piece->length. */
    double (*centre_line)(const struct piece *piece, struct duct_size size);

    /* Whether this very piece of a PIECE_BALANCES takes up a surplus: a fire damper does not.  NULL: it does. */
    bool (*balances)(const struct piece *piece);

    /* What runs tapped into the piece are cut into, where that is not the duct (PIECE_TAKES_TAPS): its section across
     * the run, a box's width and height; unknown: the duct.  Such a piece becomes two items when it has taps.  NULL:
     * the duct. */
    struct duct_size (*body)(const struct piece *piece);

    /* Fills `easier` with this piece, or one of another kind, as it would be with less loss in the same place, and
     * `sheet`, m2 that it takes besides the walls of its duct.  `nth`: 0, 1 ..., each with less loss than the one
     * before. NULL, and giving false: there are no more. */
    bool (*easier)(const struct piece *piece, int nth, struct piece *easier, double *sheet, struct arena *arena);

    /* What the sides of a piece that resizes make with the way of the air, at most, radians: those that widen in
     * `widens`, those that narrow in `narrows`; the air goes from `from` to `to`.  NULL: the kind has no tapering
     * sides. */
    void (*taper)(const struct piece *piece, struct duct_size from, struct duct_size to, double *widens,
                  double *narrows);

    /* How sharply the sides of a piece with a turned end are broken, radians, and the least section that it leaves
     * open, over that of its smaller end; false: nothing of it is turned.  NULL: the kind turns no end. */
    bool (*twist)(const struct piece *piece, double *broken, double *open);

    /* The line of a piece with the same ends that is twisted less, in `arena`; NULL: there is none. */
    const char *(*untwisted)(const struct piece *piece, enum measure_system system, struct arena *arena);

    /* How much larger than the run behind it, of size `run`, the opening of a PIECE_TAP is: a base that spreads.  NULL:
     * as large as its run. */
    void (*opening)(const struct piece *piece, struct duct_size run, struct tap_opening *opening);

    /* What the shop makes or buys for it, once the job is sized: calls make_part, make_bought, make_strip
     * (metal/metal.h).  Every kind has one, but those that are nothing one can hold. */
    void (*make)(const struct piece *piece, struct making *making);

    /* Where it leads in space, once the job is sized: moves the end of the run on, and says what fills the way
     * (route/motion.h). NULL: straight on by the piece's length. */
    void (*place)(const struct piece *piece, struct motion *motion);

    /* Face size of a terminal or filter, for face velocities; unknown when not given.  NULL: none. */
    struct duct_size (*face)(const struct piece *piece);
};

/* The table of kinds, in the order of the manual. Passed in by the driver, so that no pass reaches up to src/piece. */
struct piece_table {
    const struct piece_kind *const *kinds;
    size_t count;
};

/* The first kind in the table with one of these traits; there is one for every trait.  (piece.c) */
const struct piece_kind *piece_kind_with(const struct piece_table *table, unsigned traits);

/* Whether a new duct size begins behind this piece. */
bool piece_resizes(const struct piece *piece);

/* The R-value of what is round the duct there, m2 K/W: what the piece comes with, else its run's insulation. */
double piece_insulation(const struct piece *piece, const struct run *run);

#endif
