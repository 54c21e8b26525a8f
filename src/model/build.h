/* What the files of model_build share: the row of a statement, the slots of each form, the builder. */
#ifndef CLEAT_MODEL_BUILD_H
#define CLEAT_MODEL_BUILD_H

#include "model/model.h"
#include "model/names.h"

struct build;

/* What a value must lie within, to make sense in a building. */
struct range {
    const char *what;      /* "an airflow" */
    double low, high;      /* SI */
    bool above;            /* must be more than `low`, not only as much */
    enum measure_use show; /* how the limits are shown; MEASURE_USE_COUNT: as the next two say */
    const char *unit;      /* " %", "" */
    double factor;         /* SI value of one such unit */
    const char *hint;      /* what would do instead of so little; NULL: nothing to say */
};

/* One statement: its form, and the function that takes what was read into the job. */
struct row {
    struct form form; /* first, so that a form is its row */
    void (*take)(struct build *build, const struct reading *reading);
    bool repeats;              /* may stand more than once in its block */
    bool setting;              /* goes to the settings at hand, not to the thing whose block it stands in */
    int says;                  /* take_entry: enum says */
    size_t offset;             /* take_text, take_number: the member that is filled */
    size_t at_offset;          /* likewise, the member that keeps the place; 0: none */
    const struct range *range; /* take_number, take_entry: of the first quantity */
};

/* Rows in the order of the manual; forms.c strings the lists together. */
struct row_list {
    const struct row *at;
    size_t count;
};

extern const struct row_list rows_file, rows_job, rows_shop, rows_price, rows_unit, rows_settings;

/* Slots by name, where a form has more than one. */
enum { NAMED_NAME, NAMED_TITLE };
enum { RUN_NAME, RUN_TITLE, RUN_FROM, RUN_AT, RUN_SIDE };
enum { OBSTACLE_TITLE, OBSTACLE_FROM, OBSTACLE_TO };
enum { ACCEPT_CHECK, ACCEPT_NAME, ACCEPT_BECAUSE };
enum { DROP_LABEL, DROP_PRESSURE, DROP_FLOW, DROP_LOADED };
enum { BLOWER_SPEED, BLOWER_POINTS };
enum { SIZES_SHAPE, SIZES_LIST };
enum { SEAM_KIND, SEAM_POCKET, SEAM_FLANGE };
enum { CONNECTION_KIND, CONNECTION_END };
enum { LIMIT_HEIGHT, LIMIT_WIDTH, LIMIT_VELOCITY };
enum { PLACE_LOCATION, PLACE_TEMPERATURE, PLACE_WINTER, PLACE_HUMIDITY, PLACE_DEW_POINT, PLACE_MINIMUM, PLACE_HEIGHT };
enum { SEASON_COOLING, SEASON_HEATING };
enum { HEADROOM_HEIGHT, HEADROOM_OVER };
enum { COLLAR_SIZE, COLLAR_AT, COLLAR_FACES };
enum { FACES_WAY, FACES_FRONT };

/* Where a single statement of a block was first seen. */
struct seen {
    unsigned block; /* the block it was seen in */
    struct span at;
};

struct build {
    struct job *job;
    const struct piece_table *pieces;
    struct form_table table; /* statements, then pieces */
    size_t statement_count;  /* how many of the table are statements */
    struct seen *seen;       /* one a form of the table */
    unsigned blocks;         /* how many blocks have been numbered; the shops together are one */
    struct names entries;    /* shop entries by what they are for */

    /* Where we are. */
    enum form_place place;
    enum measure_system system; /* what a bare length means here */
    const struct text *file;    /* the file of the `job`, whose units hold all over it; NULL: there is none */
    unsigned block;
    void *thing;                 /* whose block it is */
    struct settings *settings;   /* where settings go */
    bool *faulty;                /* to be set by a fault in the block; NULL: nobody minds */
    struct alternate *alternate; /* the alternate we are in, or NULL */
    const char *where;           /* the name of what the statement stands in, or declares; NULL: of nothing */
};

/* ---- build.c: the reader ----------------------------------------------------------------------------------------- */

/* Reads the block of `statement`, as the block of `thing`; then we are back where we were. */
void build_block(struct build *build, const struct statement *statement, enum form_place place, void *thing,
                 struct settings *settings, bool *faulty);

/* Reads a statement and sees to it that its figures can be computed with. */
void build_read(struct build *build, struct reading *reading, const struct form *form,
                const struct statement *statement);

/* The units that a block says its bare lengths are in, before it is read.  False: it says nothing. */
bool build_units(const struct statement *block, enum measure_system *system);

/* Diagnoses an error of `check` at `at` and notes the fault. */
struct diagnostic *build_error(struct build *build, const char *check, struct span at, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* Whether `value` lies in `range`; diagnosed when not. */
bool build_within(struct build *build, struct span at, double value, const struct range *range);

/* Reads a duct's size out of a SLOT_SIZE; diagnoses a third dimension, an impossible shape, sizes out of range. */
bool build_size(struct build *build, const struct argument *argument, struct duct_size *size);

/* Whole numbers only; diagnosed when not, or not within low..high. */
bool build_whole(struct build *build, const struct argument *argument, const char *what, int low, int high, int *value);

/* ---- What statements do (build_*.c) ------------------------------------------------------------------------------ */

void take_text(struct build *build, const struct reading *reading);   /* the first slot's text */
void take_number(struct build *build, const struct reading *reading); /* the first slot's number, in the row's range */

void take_use(struct build *build, const struct reading *reading);
void take_job(struct build *build, const struct reading *reading);
void take_revision(struct build *build, const struct reading *reading);
void take_date(struct build *build, const struct reading *reading);
void take_altitude(struct build *build, const struct reading *reading);
void take_units(struct build *build, const struct reading *reading);
void take_paper(struct build *build, const struct reading *reading);
void take_valid(struct build *build, const struct reading *reading);
void take_assume(struct build *build, const struct reading *reading);
void take_terms(struct build *build, const struct reading *reading);
void take_contact(struct build *build, const struct reading *reading);
void take_include(struct build *build, const struct reading *reading);
void take_exclude(struct build *build, const struct reading *reading);
void take_note(struct build *build, const struct reading *reading);
void take_obstacle(struct build *build, const struct reading *reading);
void take_accept(struct build *build, const struct reading *reading);

void take_shop(struct build *build, const struct reading *reading);
void take_sizes(struct build *build, const struct reading *reading);
void take_trunk(struct build *build, const struct reading *reading);
void take_runout(struct build *build, const struct reading *reading);
void take_entry(struct build *build, const struct reading *reading);
void take_shop_seam(struct build *build, const struct reading *reading);
void take_connection(struct build *build, const struct reading *reading);
void take_stack(struct build *build, const struct reading *reading);
void take_stations(struct build *build, const struct reading *reading);
void take_access(struct build *build, const struct reading *reading);
void take_currency(struct build *build, const struct reading *reading);
void take_hours(struct build *build, const struct reading *reading);
void take_hang(struct build *build, const struct reading *reading);
void take_offcut(struct build *build, const struct reading *reading);
void take_grain(struct build *build, const struct reading *reading);
void shop_defaults(struct job *job); /* fills what no shop said */

void take_unit(struct build *build, const struct reading *reading);
void take_unit_airflow(struct build *build, const struct reading *reading);
void take_blower(struct build *build, const struct reading *reading);
void take_speed(struct build *build, const struct reading *reading);
void take_unit_drop(struct build *build, const struct reading *reading);
void take_collar(struct build *build, const struct reading *reading);
void take_position(struct build *build, const struct reading *reading);
void take_faces(struct build *build, const struct reading *reading);
void take_leaves(struct build *build, const struct reading *reading);
void take_room_air(struct build *build, const struct reading *reading);

void take_run(struct build *build, const struct reading *reading);
void take_outlet(struct build *build, const struct reading *reading);
void take_inlet(struct build *build, const struct reading *reading);
void take_alternate(struct build *build, const struct reading *reading);
void take_without(struct build *build, const struct reading *reading);
void take_airflow(struct build *build, const struct reading *reading);
void take_load(struct build *build, const struct reading *reading);
void take_piece(struct build *build, const struct piece_kind *kind, const struct statement *statement);

void take_shape(struct build *build, const struct reading *reading);
void take_size(struct build *build, const struct reading *reading);
void take_limit(struct build *build, const struct reading *reading);
void take_material(struct build *build, const struct reading *reading);
void take_gauge(struct build *build, const struct reading *reading);
void take_insulation(struct build *build, const struct reading *reading);
void take_lining(struct build *build, const struct reading *reading);
void take_seal(struct build *build, const struct reading *reading);
void take_seam(struct build *build, const struct reading *reading);
void take_joint(struct build *build, const struct reading *reading);
void take_place(struct build *build, const struct reading *reading);
void take_clearance(struct build *build, const struct reading *reading);
void take_headroom(struct build *build, const struct reading *reading);

enum hang_slot { HANG_EVERY, HANG_BELOW };

/* ---- ranges.c ---------------------------------------------------------------------------------------------------- */

extern const struct range range_airflow, range_power, range_altitude, range_run, range_side, range_allowance,
    range_sheet, range_pressure, range_friction, range_velocity, range_supply_air, range_room_air, range_design_air,
    range_insulation, range_lining, range_joint, range_aspect, range_stretch, range_percent, range_margin, range_bond,
    range_amount, range_hours, range_coordinate, range_humidity, range_leakage, range_clearance, range_headroom,
    range_pressure_class, range_bend, range_hang_every, range_hang_below;

#endif
