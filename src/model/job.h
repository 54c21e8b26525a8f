/* The job as things: units, runs, pieces, outlets; and the network that the air sees: ducts, sections, paths.
 *
 * Filled by the passes in the order of the table in compile/compile.c; each member says which fills it, where that is
 * not model_build. All of it lives in job->arena.  All quantities are SI.
 *
 *   run       what a mechanic declares: a line of pieces that hang from something, away from the unit
 *   piece     one fitting, length of duct or device in a run
 *   duct      a stretch of one run that has one size: from its start, or a transition, to the next transition
 *   section   a stretch of one duct that carries one airflow: from tap to tap
 *   item      what the air meets in a section, in the order the run is hung; carries the pressure loss
 *   path      from a supply outlet or return inlet back to its unit
 */
#ifndef CLEAT_MODEL_JOB_H
#define CLEAT_MODEL_JOB_H

#include "base/diagnostics.h"
#include "model/network.h"
#include "model/run.h"
#include "model/settings.h"
#include "model/shop.h"
#include "model/unit.h"

struct piece_table; /* model/piece.h */
struct catalogue;   /* size/catalogue.h */
struct wall_worth;  /* model/worth.h */
struct metal;       /* metal/metal.h */
struct nest_memory; /* metal/nest_memory.h */
struct takeoff;     /* cost/takeoff.h */
struct price;       /* cost/price.h */
struct variant;     /* model/variant.h */
struct retyper;     /* model/retype.h */
struct route;       /* route/route.h */
struct estimate;    /* model/estimate.h */

/* State of the air that the job is computed with. */
struct air {
    double altitude;      /* m */
    double temperature;   /* K */
    double pressure;      /* Pa, barometric */
    double density;       /* kg/m3 */
    double density_ratio; /* over that of standard air, which makers' figures are for */
    double viscosity;     /* Pa s, dynamic */
    double specific_heat; /* J/(kg K) */
};

/* One row of the "checks" section of a report: filled by the checks. */
struct check_result {
    const char *name;                   /* of the check */
    size_t looked_at, warned, accepted; /* warned: not counting what was accepted */
    LIST(const char *) passed_over;     /* what it was not held against, as the budget does not come out */
};

/* The paper that pages are laid out for; when the job says nothing, that of its system of units. */
enum paper_wish { PAPER_OF_SYSTEM, PAPER_IS_LETTER, PAPER_IS_A4 };

struct job {
    struct arena *arena;
    struct arena *scratch; /* what a pass needs for a moment; it clears it when it is done with a piece */
    struct diagnostics *diagnostics;
    const struct syntax *syntax;
    const struct variant *variant;    /* model/variant.h: a change that it is compiled with; NULL: none */
    const struct retyper *retyper;    /* model/retype.h: compiles it with other lines; NULL: nobody does */
    bool trial;                       /* it is compiled to see what comes of it: nobody reads what it says */
    const struct piece_table *pieces; /* model/piece.h: all kinds of piece; kept by model_resolve */

    const char *title, *customer, *location, *revision, *date;
    struct span at; /* the job's title */
    enum measure_system system;
    double altitude;      /* m */
    double friction_rate; /* Pa/m the job asks for; 0: the tool finds it */
    struct span friction_rate_at;
    const char *sizing; /* as written; NULL: equal-friction */
    struct span sizing_at;
    int valid_days; /* 0: not given */
    enum paper_wish paper;
    LIST(const char *) includes, excludes, notes;
    LIST(const char *) assumes, terms; /* what the bid rests on; of payment and the like */
    struct settings settings;
    struct shop shop;
    const char *currency; /* the mark of the money on its papers; NULL: the shop's, else what is usual */

    LIST(struct air_unit *) units;
    LIST(struct run *) runs; /* runs, outlets and inlets of the base job, in file order */
    LIST(struct obstacle *) obstacles;
    LIST(struct alternate *) alternates;
    LIST(struct acceptance *) acceptances;
    LIST(struct estimate *) estimates; /* of the base job and its alternates, in file order */
    bool effects_asked;                /* of them, what one step more does (compile/effects.h) */

    struct air air;                    /* filled by air_set */
    const struct wall_worth *worth;    /* what walls of duct cost; by metal_worth */
    const struct catalogue *catalogue; /* size/catalogue.h: the standard sizes; made by size_ducts */
    bool incomplete; /* errors before sizing: the figures are not of the whole job, and nobody is warned of them; by
                        size_ducts */
    const char *sizing_used; /* the method's name; filled by size_ducts */
    struct metal *metal; /* what the shop makes; filled by metal_make; NULL before, and when the job is incomplete */
    struct nest_memory *nests; /* those found so far, of this job and its variants; made by metal_nest; NULL before */
    struct takeoff *takeoff;   /* everything that is bought, counted; filled by cost_takeoff; NULL like metal */
    struct price *price;       /* what it costs and what is asked; filled by cost_price; NULL like metal */
    struct route *route;       /* where everything is in space; filled by route_place; NULL before */
    LIST(struct check_result) checks;
    bool source_used[SOURCE_COUNT]; /* what the basis of calculation lists */
};

#endif
