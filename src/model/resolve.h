/* What the files of model_resolve share. */
#ifndef CLEAT_MODEL_RESOLVE_H
#define CLEAT_MODEL_RESOLVE_H

#include "model/model.h"
#include "model/names.h"

enum named { NAMED_UNIT, NAMED_RUN, NAMED_ALTERNATE };

struct resolve {
    struct job *job;
    const struct piece_table *pieces;
    struct names names;            /* units and runs of the base job */
    struct names alternates;       /* theirs: nothing hangs from one */
    LIST(const char *) candidates; /* the same, for nearest names */
    struct names unknown;          /* names that nothing has, each with its diagnostic */
    int nearest_sought;            /* how many nearest names were looked for */
    int free_sought;               /* how many free names were */
};

/* Diagnoses an error about `run` and takes it out of the later passes. */
struct diagnostic *run_error(struct resolve *resolve, struct run *run, const char *check, struct span at,
                             const char *format, ...) __attribute__((format(printf, 5, 6)));

/* ---- resolve_names.c --------------------------------------------------------------------------------------------- */

/* Enters every unit and run of the base job, and every alternate; a second thing of one name is an error. */
void resolve_names(struct resolve *resolve);

/* Enters the runs of an alternate in `names`; they may not take a name of the base job either, other than of
 * what the alternate leaves out. */
void resolve_alternate_names(struct resolve *resolve, struct alternate *alternate, struct names *names);

/* The name nearest to `name` among those of the job, or NULL.  Looks only so often, to stay linear in a job full of
 * errors. */
const char *resolve_nearest(struct resolve *resolve, const char *name);

/* ---- resolve_ports.c --------------------------------------------------------------------------------------------- */

/* Finds what the run's port names, in `names` and then in the base job's: fills kind, unit, supply, run, leg. */
void resolve_port(struct resolve *resolve, struct run *run, const struct names *names);

/* Enters the run with what it hangs from; two on one port, a leg that is not there,
 * a terminal with something behind. */
void resolve_hang(struct resolve *resolve, struct run *run);

/* Splits: no more legs taken than they have. */
void resolve_legs(struct resolve *resolve, struct run *run);

/* ---- resolve_pieces.c -------------------------------------------------------------------------------------------- */

/* The order of a run's pieces: the tap first, the terminal or split last; inserts implied pieces; counts stations. */
void resolve_pieces(struct resolve *resolve, struct run *run);

/* A piece of the kind with `trait`, made for a run whose job did not write it. */
struct piece *implied_piece(struct resolve *resolve, struct run *run, unsigned trait);
void insert_piece(struct arena *arena, struct run *run, size_t place, struct piece *piece);

/* Sorts the run's taps and sees that each stands in a piece that can be tapped. */
void resolve_taps(struct resolve *resolve, struct run *run);

/* ---- resolve_end.c ----------------------------------------------------------------------------------------------- */

/* Closes a run that ends in taps only; warns of runs that lead nowhere and terminals without a face. */
void resolve_end(struct resolve *resolve, struct run *run);

/* ---- resolve_order.c --------------------------------------------------------------------------------------------- */

/* Follows every run to its unit, parents first: what is faulty takes down what hangs from it, a loop is diagnosed, the
 * rest learns its unit and side and inherits settings. */
void resolve_order(struct resolve *resolve);

#endif
