/* Equipment that moves air: its collars, its drops and its blower. */
#ifndef CLEAT_MODEL_UNIT_H
#define CLEAT_MODEL_UNIT_H

#include <stdbool.h>

#include "base/list.h"
#include "base/text.h"
#include "model/shape.h"

struct run;
struct network; /* model/network.h */

/* A drop declared for the unit or in a run: so much pressure at so much air. */
struct drop {
    const char *label;
    double pressure; /* Pa at `flow` */
    double flow;     /* m3/s; 0: at the design airflow */
    double loaded;   /* Pa at `flow` when it is a filter full of dust; 0: not said */
    bool assumed;    /* the job gave no pressure: the tool's assumption */
    struct span at;
    double actual; /* filled by air_budget: Pa at the design flow */
};

struct blower_point {
    double flow, pressure; /* m3/s, Pa */
    struct span at;
};

/* One curve of a blower that has several. */
struct blower_speed {
    const char *name; /* "low"; NULL: the job gives it none, and it is the only one */
    struct span at;
    LIST(struct blower_point) points; /* ascending in flow */
    bool known; /* at the design airflow; filled by size_ducts, as the next: of those that were tried */
    /* Pa left on the governing path when the ducts are sized for it; negative: it is short by so much. */
    double surplus;
    bool tried;
};

/* Equipment that moves air: air handler, furnace, heat pump. */
struct air_unit {
    /* Given by the job; what is not given is 0, NULL or an unknown size. */
    const char *name;
    const char *title; /* "Horizontal air handler, 3 ton" */
    struct span at;    /* its name */
    bool airflow_given;
    struct span airflow_at;
    double cooling, heating; /* W */
    struct span cooling_at;
    LIST(struct blower_speed) speeds; /* all that are given, in file order */
    const char *speed_wanted;         /* NULL: the tool chooses */
    struct span speed_at;
    LIST(struct drop) drops;
    struct duct_size supply, return_; /* collars */
    struct span supply_at, return_at;
    double position[3];
    bool position_given, return_position_given; /* with the position and what it faces, for the pass that draws */
    const char *faces;                          /* compass word, up or down */
    const char *front;                          /* compass word, of one that faces up or down; NULL: west */
    double return_position[3]; /* of the return collar; the pass that places has a rule for one that says nothing */
    struct span return_position_at;
    const char *return_faces;         /* like `faces` */
    double supply_air, room_air;      /* K, for airflow from a load, and when it cools */
    double heating_air, heating_room; /* K, when it heats */
    struct span supply_air_at, heating_air_at;
    double leakage_limit; /* share of the airflow that may leak; 0: the usual one */

    /* Chosen by size_ducts (unit_speed). */
    const struct blower_speed *speed; /* the one in use; NULL: no blower was given */
    LIST(struct blower_point)
    blower; /* its points, ascending in flow; before: those of the speed wanted, else of the first */
    struct span blower_at;

    /* Computed. */
    bool faulty;                         /* diagnosed; later passes skip it */
    double airflow;                      /* m3/s: as given, or the sum of its outlets; by model_airflow */
    struct run *supply_run, *return_run; /* what hangs from each collar; NULL: nothing; by model_resolve */
    bool has_outlet, has_inlet;          /* some terminal hangs from that side; by model_resolve */
    struct network *network;             /* filled by model_network; NULL when nothing could be built */
};

#endif
