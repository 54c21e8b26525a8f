/* What the files of the checks share. */
#ifndef CLEAT_CHECK_CHECKS_H
#define CLEAT_CHECK_CHECKS_H

#include "air/air.h"
#include "check/check.h"
#include "model/taps.h"
#include "size/choose.h"
#include "size/limits.h"

/* What a check works with. */
struct look {
    struct job *job;
    const struct check *check;
    struct check_result *result;
    bool trial; /* sizes are tried: it warns of what stands in for a size too (check_stands_in), and leaves no mark on
                   the job */
};

/* Raises a warning about `subject` (a run, outlet, inlet or unit) and counts it. */
struct diagnostic *check_warn(const struct look *look, struct span at, const char *subject, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* The run's name for the message of a warning (diagnostic_named). */
const char *check_name(const struct look *look, const struct run *run);

/* The section of `run` for which `measure` is greatest, or NULL: it has none, or all give 0. */
const struct section *check_worst(const struct run *run, double (*measure)(const struct section *section));

/* Shows every item of every network to `see`, with the section it is in. */
void check_each_item(const struct look *look,
                     void (*see)(const struct look *look, const struct section *section, const struct item *item));

/* Warns when the air passes a face (of a register, grille or filter) faster than the limit for its use. */
void check_face(const struct look *look, const struct piece *piece, enum face_use use);

/* The standard size of `duct` that meets `need` within its run's limits; false: none.  Keeps the height where that will
 * do. */
bool check_larger(const struct look *look, const struct duct *duct, const struct size_need *need,
                  struct duct_size *size);

/* Makes `*size` the next standard one that carries more; false: none within the run's limits.  Likewise. */
bool check_next(const struct look *look, const struct duct *duct, struct duct_size *size);

/* The line that puts a run's tap, were the run of size `size`, on another side of what it is cut into, where there is
 * room for it across: "from trunk at 5 ft top".  NULL: neither there. */
const char *check_other_side(const struct look *look, const struct run *tapped, struct duct_size size);

/* Whether the duct's size only stands in for one: the job leaves it open, and no sizes meet the budget, which is an
 * error.  What such sizes alone make is not warned of. */
bool check_stands_in(const struct job *job, const struct duct *duct);

/* Notes that `subject` was not looked at for that reason: what is accepted there may be warned of again. */
void check_pass_over(const struct look *look, const char *subject);

/* A figure with its unit, in the job's system of units. */
const char *check_text(const struct job *job, enum measure_use use, double si);
const char *check_text_up(const struct job *job, enum measure_use use, double si);   /* what has to be enough */
const char *check_text_down(const struct job *job, enum measure_use use, double si); /* what must not be passed */
const char *check_size_text(const struct job *job, struct duct_size size);

/* The same in both systems: "14 ft (4.27 m)". */
const char *check_both(struct arena *arena, enum measure_use use, double si);

/* Pa: less is shown as nothing or as the last digit, 0.001 in. w.g. or 0.1 Pa, and no matter.  Chosen here, no source.
 */
#define SHOWN_AS_NOTHING 0.1

/* Whether `value` is over `limit` by more than rounding. */
bool check_over(double value, double limit);

/* The checks, one a row of the table in checks.c. */
void check_velocity(const struct look *look);
void check_friction(const struct look *look);
void check_aspect(const struct look *look);
void check_tonnage(const struct look *look);
void check_budget(const struct look *look);
void check_operating(const struct look *look);
void check_airflow_short(const struct look *look);
void check_unbalanced(const struct look *look);
void check_flex_length(const struct look *look);
void check_tap_fit(const struct look *look);
void check_transition(const struct look *look);
void check_boot(const struct look *look);
void check_table_range(const struct look *look);
void check_currency(const struct look *look);
void check_stock(const struct look *look);
void check_gauge(const struct look *look);
void check_seam(const struct look *look);
void check_return_area(const struct look *look);
void check_condensation(const struct look *look);
void check_insulation(const struct look *look);
void check_leakage(const struct look *look);
void check_clash(const struct look *look);
void check_on_edge(const struct look *look);
void check_headroom(const struct look *look);
void check_short_cycle(const struct look *look);

/* Their limits in words, each beside its check. */
const char *velocity_limits(struct arena *arena);
const char *friction_limits(struct arena *arena);
const char *tonnage_limit(struct arena *arena);
const char *unbalanced_limit(struct arena *arena);
const char *flex_length_limit(struct arena *arena);
const char *tap_fit_limit(struct arena *arena);
const char *transition_limit(struct arena *arena);
const char *boot_limit(struct arena *arena);
const char *return_area_limit(struct arena *arena);
const char *short_cycle_limit(struct arena *arena);
const char *short_limit(struct arena *arena);
const char *insulation_limit(struct arena *arena);
const char *leakage_limit(struct arena *arena);

/* Matches the job's acceptances with the warnings raised so far; diagnoses those that name an unknown check or thing,
 * or match nothing. */
void accept_warnings(struct job *job);

#endif
