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

#include <stdint.h>

#include "base/diagnostics.h"
#include "base/list.h"
#include "base/measure.h"
#include "base/source.h"
#include "lang/form.h"
#include "model/entries.h"
#include "model/shape.h"

struct piece_kind;  /* model/piece.h */
struct piece_table; /* likewise */
struct catalogue;   /* size/catalogue.h */
struct wall_worth;  /* model/worth.h */
struct metal;       /* metal/metal.h */
struct nest_memory; /* metal/nest_memory.h */
struct takeoff;     /* cost/takeoff.h */
struct price;       /* cost/price.h */
struct offer;       /* cost/price.h */
struct variant;     /* model/variant.h */
struct retyper;     /* model/retype.h */
struct route;       /* route/route.h */
struct heat;        /* air/heat.h */
struct leakage;     /* air/leakage.h */
struct operation;   /* air/operation.h */
struct estimate;    /* model/estimate.h */
struct piece;
struct run;
struct duct;
struct section;

/* ---- Settings: on the job, a shop, a run; inherited by what hangs from it ---------------------------------------- */

/* A run takes each setting from the first that has it: its own words, the run it hangs from, the job, the shop, the
 * tool. From the run it hangs from it takes material, gauge, insulation, lining, seal, pressure class, seam, joint,
 * place, clearance and headroom.  A leg or plain end also takes the shape (when somebody said it) and the height and
 * width limits, since the space is the same; a tapped run does not.  A size and a velocity limit belong to the run that
 * states them. */

enum material { MATERIAL_GALVANISED, MATERIAL_ALUMINIUM, MATERIAL_FIBROUS_BOARD, MATERIAL_PVC, MATERIAL_COUNT };
enum location {
    LOCATION_CONDITIONED,
    LOCATION_ATTIC,
    LOCATION_CRAWL,
    LOCATION_BASEMENT,
    LOCATION_OUTDOORS,
    LOCATION_COUNT
};
enum seal_class { SEAL_NONE, SEAL_C, SEAL_B, SEAL_A };
enum seam_kind { SEAM_PITTSBURGH, SEAM_SNAPLOCK, SEAM_GROOVED, SEAM_LAP, SEAM_STANDING, SEAM_COUNT };
enum joint_kind { JOINT_SLIP_AND_DRIVE, JOINT_STANDING_S, JOINT_FLANGE, JOINT_CRIMP, JOINT_RAW, JOINT_COUNT };

struct settings {
    bool shape_set;
    enum shape shape;
    struct duct_size size; /* fixed by the job when known */
    struct span size_at;
    double limit_height, limit_width, limit_velocity; /* 0: no limit */
    struct span limit_at;
    bool material_set;
    enum material material;
    int gauge; /* 0: by the gauge table (metal_choose) */
    bool insulation_set, lining_set;
    double insulation; /* R-value, m2 K/W; 0: none */
    double lining;     /* thickness, m; 0: none */
    bool seal_set;
    enum seal_class seal;
    double pressure_class;    /* static pressure that the duct is built for, Pa; 0: not said */
    bool seam_set, joint_set; /* false: as the shape asks */
    enum seam_kind seam;      /* lengthwise */
    enum joint_kind joint;    /* between pieces */
    bool location_set, location_minimum_set;
    enum location location;
    double location_temperature, location_winter; /* K, in summer and in winter; 0: not given */
    double location_humidity;                     /* relative, of the air there in summer; 0: not given */
    double location_dew_point;                    /* K, likewise; 0: not given */
    double location_minimum; /* m2 K/W that duct there is to be insulated with at least; when location_minimum_set */
    double location_height;  /* m above the floor that one works from; 0: not given */
    bool clearance_set, headroom_set;
    double clearance;       /* what the outside of the duct keeps from everything else, m; 0: it may touch */
    double headroom, floor; /* what stays free under it, m, over a floor at that height; 0: nothing is asked */
    double stretch;         /* of flexible duct that does not say: installed over extended length; from the shop */
};

/* ---- The shop ---------------------------------------------------------------------------------------------------- */

/* A statement of a shop block that is kept as it was read: what the pricing and the metal look up by its words. */
struct shop_entry {
    struct reading reading;
    enum says says;  /* model/entries.h */
    bool overridden; /* a later entry for the same thing replaced it: for the pass that prices */
    bool of_job;     /* it stands in the job's own block, and goes before what a shop says of the same */
};

/* What a seam takes of the sheet, as the shop has said: m. */
struct shop_seam {
    enum seam_kind kind;
    double pocket, flange;
    bool pocket_given, flange_given;
    struct span at;
};

/* What a joint between pieces takes of each end, as the shop has said: m. */
struct shop_connection {
    enum joint_kind kind;
    double end;
    bool end_given;
    struct span at;
};

struct shop {
    const char *name;
    struct span at;
    LIST(const char *) contacts;     /* lines of an address, a telephone: as they are to stand on the papers */
    const char *licence;             /* its number or words, or NULL */
    LIST(const char *) terms;        /* of payment and the like, where the job gives none */
    LIST(double) round_sizes;        /* standard diameters, m, ascending */
    LIST(double) widths;             /* standard sides of rectangular duct (and widths of oval), m, ascending */
    LIST(double) oval_heights;       /* standard lesser sides of oval duct, m, ascending */
    bool sizes_assumed[SHAPE_COUNT]; /* the tool's own list was used */
    double joint_length;          /* greatest length of the blank of a straight joint, what its ends take included, m */
    LIST(struct shop_seam) seams; /* one a kind at most: the latest that was said */
    LIST(struct shop_connection) connections; /* likewise */
    int stack;                                /* sheets of 26 gauge that are marked and notched together */
    int stations;                             /* ordinates round a curved edge of a round pattern; a multiple of 4 */
    double notch;     /* of the corners of end allowances, m; 0: as deep and wide as the seam and the connection ask */
    double offcut[2]; /* an offcut at least that large, either way round, is kept, m; 0: the shop did not say */
    bool grain;       /* the longer side of a blank lies along the sheet */
    double bend_deduction; /* taken off per 90-degree bend, m; 0: none */
    double hang_every;     /* greatest distance between the hangers of duct, m */
    double hang_below;     /* how far under what it hangs from its top is, m */
    bool hang_below_set;
    struct settings settings;
    bool trunk_shape_set, runout_shape_set;
    enum shape trunk_shape;  /* default of a run that starts at a unit or a split */
    enum shape runout_shape; /* default of what hangs from a tap or the end of a run */
    double aspect_limit;     /* long over short side */
    double flex_stretch;     /* installed length over extended length, default */
    LIST(struct shop_entry *) entries;
    enum measure_system system; /* that of the job: its usual allowances are whole millimetres in a metric one */
    const char *currency;       /* the mark of its money; NULL: not said */
    double reach;               /* m above the floor from which work is high; 10 ft when not said */
};

/* ---- What the job declares --------------------------------------------------------------------------------------- */

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
    const char *name;
    const char *title; /* "Horizontal air handler, 3 ton"; may be NULL */
    struct span at;    /* its name */
    bool faulty;
    double airflow; /* declared design airflow, or the sum of its outlets */
    bool airflow_given;
    struct span airflow_at;
    double cooling, heating; /* W; 0: not given */
    struct span cooling_at;
    LIST(struct blower_point) blower; /* ascending in flow; of several speeds that which the ducts are sized for */
    struct span blower_at;
    LIST(struct blower_speed) speeds; /* all that are given, in file order */
    const struct blower_speed *speed; /* the one in use; NULL: no blower was given.  size_ducts chooses it */
    const char *speed_wanted;         /* by the job; NULL: the tool chooses */
    struct span speed_at;
    LIST(struct drop) drops;
    struct duct_size supply, return_; /* collars; unknown when not given */
    struct span supply_at, return_at;
    double position[3];
    bool position_given, return_position_given; /* with the position and what it faces, for the pass that draws */
    const char *faces;                          /* compass word, up or down; NULL: not said */
    const char *front;                          /* compass word, of one that faces up or down; NULL: not said, west */
    double return_position[3]; /* of the return collar; the pass that places has a rule for one that says nothing */
    struct span return_position_at;
    const char *return_faces;         /* like `faces` */
    double supply_air, room_air;      /* K, for airflow from a load, and when it cools; 0: not given */
    double heating_air, heating_room; /* K, when it heats; 0: not given */
    struct span supply_air_at, heating_air_at;
    double leakage_limit;                /* share of the airflow that may leak; 0: the usual one */
    struct run *supply_run, *return_run; /* what hangs from each collar; NULL: nothing */
    bool has_outlet, has_inlet;          /* some terminal hangs from that side; by model_resolve */
    struct network *network;             /* filled by model_network; NULL when nothing could be built */
};

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

/* What keeps sizing from giving a tap its room: a limit in words, and what to type; NULL: not known. */
struct tap_kept {
    const char *limit, *hint;
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
    struct tap_kept tap_kept; /* by size_ducts; all NULL: its tap has room, or the job dictates the sizes */
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

/* ---- The network ------------------------------------------------------------------------------------------------- */

/* How a size came about. */
enum size_reason {
    SIZE_UNSET,
    SIZE_DECLARED,    /* by the job */
    SIZE_COLLAR,      /* dictated by the unit's collar */
    SIZE_SPLIT,       /* a leg's share of the split it leaves */
    SIZE_FRICTION,    /* the friction rate decided */
    SIZE_VELOCITY,    /* the velocity limit or target decided */
    SIZE_HEIGHT_KEPT, /* a size as high as the duct upstream, where another would take less sheet */
    SIZE_TAP,         /* room for what is tapped in, or on the wall that it is tapped into */
    SIZE_REGAIN,      /* the smallest whose regain pays the way to the next take-off */
    SIZE_COST,        /* part of the cheapest whole */
    SIZE_SMALLEST,    /* the smallest standard size is already enough */
    SIZE_LIMITED      /* no standard size within the limits is enough; the largest that fits was taken, and diagnosed */
};

/* A stretch of one run with one size. */
struct duct {
    uint32_t id; /* index in network->ducts; parents come before children */
    struct run *run;
    struct duct *upstream; /* the duct it leaves, toward the unit; NULL at the collar */
    struct duct_size size;
    enum size_reason reason;
    bool fixed;               /* the job, a collar or a split dictates its size */
    bool leg_start;           /* an empty first stretch of a split leg: sized by its share of the split */
    double lining;            /* thickness of what lines it, m; 0: nothing does.  Its metal: model/lined.h */
    double flow;              /* m3/s, the greatest it carries */
    double length;            /* m of straight and flexible duct in it */
    const struct piece *wall; /* flexible duct that it is mostly made of; NULL: the run's material; by air_walls */
    double roughness;         /* m, of what it is mostly made of */
    /* Multiplies friction: 1, or the flexible-duct correction of what it is mostly made of. */
    double friction_multiplier;
    double equivalent_diameter, hydraulic_diameter; /* m, of its size; 0: no size yet; like the next by air_losses */
    double area, aspect;                            /* m2; long over short side */
    struct span at;                                 /* the piece that starts it, or its run */
};

enum item_role {
    ITEM_PIECE,  /* a piece passed through */
    ITEM_BRANCH, /* the tap into the parent: air turns into this run */
    ITEM_PAST,   /* air that goes on past a tap */
    ITEM_LEG,    /* a leg of a split */
    ITEM_CONNECT /* a plain connection of two different sizes that no piece covers */
};

/* A size and the air through it. */
struct stream {
    struct duct_size size;
    double flow; /* m3/s, >= 0 */
};

/* A pressure loss and how it was had. */
struct loss {
    double pressure;    /* Pa of total pressure, at the design flow; may be slightly negative past a tap */
    double friction;    /* Pa of it that is wall friction */
    double coefficient; /* of the rest, on `reference`; 0 when none */
    double reference;   /* Pa: velocity pressure that the coefficient is on */
    struct stream on;   /* whose velocity pressure that is */
    /* Which velocity that is: "duct", "smaller end", "branch", "common"; NULL: no coefficient. */
    const char *reference_name;
    enum source_id source;        /* of the coefficient or drop; SOURCE_NONE: friction alone */
    enum source_id factor_source; /* of a correction within the coefficient; SOURCE_NONE: none */
    const char *outside;          /* a table's range that the piece lies outside of, value clamped; NULL: inside */
};

struct item {
    const struct piece *piece; /* for ITEM_PAST the tap piece of the run tapped in; for ITEM_LEG the split */
    enum item_role role;
    double length;            /* m of duct in this item (part of a straight that taps divide) */
    const struct run *tapped; /* ITEM_PAST: the run whose tap is passed */
    bool skips_near,
        skips_far;    /* air does not pass that end of the piece here: a box with taps is two items, one an end */
    struct loss loss; /* filled by air_losses */
};

struct section {
    uint32_t id; /* index in network->sections; parents come before children */
    struct run *run;
    struct duct *duct;
    struct section *parent; /* toward the unit; NULL at the collar */
    double flow;            /* m3/s, design */
    double station, length; /* m along the run: where it starts, how much straight and flexible duct it has */
    LIST(struct item) items;
    struct run *terminal; /* the outlet or inlet whose air ends here; NULL: it goes on */
    double velocity;      /* m/s; filled by air_losses */
    double friction_rate; /* Pa/m of the duct itself */
    double loss;          /* Pa, sum of its items */
    double loss_to_unit;  /* Pa, with all toward the unit */
};

/* One way through the system, as the budget sees it. */
struct path {
    struct section *end;        /* the terminal's section */
    double loss;                /* Pa, its own side: from the unit to the terminal */
    double total;               /* Pa, with the worst path of the other side and the unit's drops */
    double surplus;             /* Pa left of the blower's pressure: what its damper takes up; negative: a deficit */
    const struct piece *damper; /* the first volume damper that serves only this path, or NULL */
};

/* A place where the pressure is read at start-up, or a thing that it is read across. */
enum test_kind {
    TEST_COLLAR, /* the static pressure at the unit's collar of that side */
    TEST_RUN_START,
    TEST_RUN_END, /* in the middle of the first and of the last straight of a run that has air */
    TEST_FACE,    /* the difference across a filter in a run */
    TEST_DROP,    /* the difference across a part of the unit */
    TEST_UNIT     /* the static difference across the unit, collar to collar */
};

struct test_point {
    enum test_kind kind;
    bool supply;                     /* which side; not of TEST_DROP and TEST_UNIT */
    const struct run *run;           /* NULL: at or in the unit */
    double station;                  /* m along the run */
    const struct piece *piece;       /* TEST_FACE: the filter */
    const struct drop *drop;         /* TEST_DROP */
    double total, velocity_pressure; /* Pa against the room; differences have no velocity pressure of their own: 0 */
    /* Pa that the gauge is to show: static pressure (total less velocity pressure), or the difference. */
    double expected;
    double operating; /* the same of what will really flow, balanced; not a number: that is not known */
};

/* How a search over all the sizes at once went. */
struct size_search {
    bool made;         /* false: the method makes none, and the rest is 0 */
    bool met;          /* some sizes meet the budget; false: none do, or there is no budget */
    double short_by;   /* Pa that the budget lacks for the sizes that take the least; 0: it does not, and they were not
                          taken */
    double bound;      /* what no sizes that were weighed can cost less than, as walls_cost */
    double resolution; /* Pa: sizes whose needs differ by less were taken together somewhere; 0: nowhere */
    size_t sizes;      /* sizes that were weighed, of all ducts together */
    size_t left_out;   /* sizes within the limits that were not, being dear for what they carry */
};

/* Everything the air sees of one unit. */
struct network {
    struct air_unit *unit;
    LIST(struct duct *) ducts;                    /* parents before children; supply side first */
    LIST(struct section *) sections;              /* likewise */
    LIST(struct path) supply_paths, return_paths; /* in file order of their terminals */
    double supply_flow, return_flow;              /* m3/s, sums of the terminals */

    /* Filled by size_ducts. */
    double friction_rate;          /* Pa/m found or given; 0: the method has none */
    int rounds;                    /* how many times the whole tree was sized and its losses computed */
    const char *rate_note;         /* what bounded the rate: "the budget of the governing path", ... */
    double walls_cost, walls_area; /* what the walls that size/wall_cost.c counts cost, and m2 of them */
    bool walls_in_money;           /* that cost is money; false: kg of sheet, since the shop prices none */
    struct size_search search;
    double regain; /* share of the velocity pressure given up that is taken to come back; 0: the method has none */
    double velocity_share; /* of the velocity limits, what ducts that follow no take-off are sized for; 0: likewise */

    /* Filled by air_budget. */
    bool blower_known;                                /* false: outside its points, or none given (diagnosed) */
    double blower_pressure;                           /* Pa at the design airflow */
    double unit_drops;                                /* Pa, sum of the unit's drops at the design airflow */
    struct path *governing_supply, *governing_return; /* the costliest of each side; NULL: none */
    double surplus;                                   /* Pa left on the governing path; negative: a deficit */

    /* Filled by air_start_up. */
    LIST(struct test_point) test_points;    /* return side, unit, supply side, as the air meets them */
    LIST(struct blower_point) blower_curve; /* the blower in the job's air, read between its points; empty: no point */
    /* What ducts and unit take, with the square of the airflow; empty: no paths. */
    LIST(struct blower_point) system_curve;
    double system_pressure;      /* Pa that the governing path takes at the design airflow */
    struct operation *operation; /* what will really flow; filled by air_operate; NULL: nothing to compute it with */

    struct heat *heat;       /* what passes through the walls; filled by air_heat; NULL before */
    struct leakage *leakage; /* what leaks; filled by air_leakage; NULL before */
};

/* ---- The whole --------------------------------------------------------------------------------------------------- */

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
