/* What the job declares: runs with their pieces (outlets and inlets are runs), what they hang from, obstacles,
 * alternates, and warnings that it accepts. */
#ifndef CLEAT_MODEL_RUN_H
#define CLEAT_MODEL_RUN_H

#include <stdint.h>

#include "base/list.h"
#include "base/measure.h"
#include "lang/form.h"
#include "model/settings.h"

struct piece_kind; /* model/piece.h */
struct air_unit;   /* model/unit.h */
struct duct;       /* model/network.h */
struct section;    /* likewise */
struct offer;      /* cost/offer.h */
struct run;
struct piece;
struct alternate;

enum port_kind { PORT_NONE, PORT_UNIT, PORT_END, PORT_TAP, PORT_LEG };
enum side { SIDE_NONE, SIDE_LEFT, SIDE_RIGHT, SIDE_TOP, SIDE_BOTTOM };
enum leg { LEG_LEFT, LEG_RIGHT, LEG_STRAIGHT, LEG_COUNT };

/* What a run hangs from. */
struct port {
    enum port_kind kind;
    const char *name;     /* as written before the dot */
    const char *leg_name; /* as written after the dot, or NULL */
    struct span at;
    struct air_unit *unit; /* PORT_UNIT */
    bool supply;           /* PORT_UNIT: its supply collar, else its return */
    struct run *run;       /* PORT_END, PORT_TAP, PORT_LEG */
    double station;        /* PORT_TAP: m along the parent run from its start */
    bool station_about;    /* the station was marked as an estimate */
    struct span station_at;
    enum side side;           /* PORT_TAP */
    struct span side_at;      /* no text: it is not said */
    const struct piece *into; /* PORT_TAP: the piece of the parent that it is cut into; by model_network */
    enum leg leg;             /* PORT_LEG */
};

/* What keeps sizing from giving a tap its room: a limit in words, what dictates the wall that it is cut into ("the
 * unit's collar dictates the height of trunk"), and what to type; NULL: not known, or not so. */
struct tap_kept {
    const char *limit, *dictated, *hint;
};

enum run_role { RUN_DUCT, RUN_OUTLET, RUN_INLET };

struct run {
    uint32_t id; /* index in job->runs, or in the runs of its alternate */
    const char *name;
    const char *title; /* text behind the name, or NULL */
    enum run_role role;
    struct span at; /* its name */
    bool faulty;    /* diagnosed; later passes skip it */
    struct port from;
    struct settings own;         /* as declared on it */
    struct settings settings;    /* with what it inherits; filled by model_resolve */
    LIST(struct piece *) pieces; /* in hanging order; implied ones have been inserted */
    double length;               /* m, sum of the pieces' station lengths */

    /* An outlet's or inlet's own words. */
    const char *room;
    double airflow;           /* m3/s; given, from its load, or its share */
    bool airflow_given;       /* given or from a load */
    bool difference_assumed;  /* of `difference`: the unit gives no temperatures */
    bool tap_misfits;         /* it has been said that its tap has no room; by the check tap-fit */
    struct tap_kept tap_kept; /* by size_ducts; all NULL: its tap has room, and the size that was asked for */
    struct span airflow_at;
    double load;       /* sensible, W; 0: airflow was given */
    double difference; /* K, between supply air and room, by which the load became an airflow; 0: it did not; by
                          model_airflow */
    struct span load_at;

    /* Resolved by model_resolve. */
    struct air_unit *unit;       /* NULL: hangs from nothing that leads to a unit (and is faulty) */
    bool supply;                 /* air leaves the unit through it */
    struct run *parent;          /* NULL at a unit */
    LIST(struct run *) taps;     /* what is tapped into it, by station, then in file order */
    struct run *legs[LEG_COUNT]; /* what hangs from the split that ends it */
    struct run *end;             /* what hangs from its plain end */
    struct piece *split;         /* the split that ends it, or NULL */
    /* What its air passes into or out of the room by: the last register, grille or filter; NULL: none. */
    const struct piece *face;
    /* Implied, not among the pieces: joins its first duct to a collar or plain end of another size; or NULL. */
    struct piece *connect;
    struct alternate *alternate; /* the alternate it belongs to, or NULL: the base job */

    /* Made by model_network. */
    struct duct *first_duct; /* of a run that is only a face (an outlet or inlet on a plain end): the duct it sits on,
                                of its parent */
    struct section *first_section, *last_section;
};

/* One fitting, length or device of a run.  What a kind needs to know of its words, it reads from `reading`. */
struct piece {
    const struct piece_kind *kind;
    struct reading reading; /* .statement is NULL when the piece is implied */
    struct span at;
    struct run *run;
    enum measure_system system; /* that of the job, for what the piece assumes */
    bool implied;               /* the job did not write it: the tool put it in, and says so */
    double station;             /* m along the run where it starts */
    double length;           /* m, as declared along the run: what stations are counted in (an elbow counts nothing) */
    struct duct *near, *far; /* ducts at its ends, toward and away from the unit; the same for most */
    double surface;          /* m2 of sheet that it is made of, openings taken off; 0: of none; by metal_make */
    bool upright;            /* it goes straight up or down, and not where it is led; by route_place */
};

struct obstacle {
    const char *title;
    struct span at;
    double low[3], high[3];
};

/* A run of the base job that an alternate leaves out. */
struct left_out {
    const char *name;
    struct span at;
};

struct alternate {
    const char *name, *title;
    struct span at;
    LIST(struct run *) runs; /* in a job that is compiled with it they are among the runs of the job */
    LIST(struct left_out) without;
    /* cost/offer.h: what it changes; filled when the job is compiled with it; NULL: it has not been. */
    struct offer *offer;
};

/* accept CHECK on NAME because "why" */
struct acceptance {
    const char *check, *name, *because;
    struct span at;
    bool used; /* some warning matched it */
};

#endif
