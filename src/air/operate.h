/* What the files of the operating point share. */
#ifndef CLEAT_AIR_OPERATE_H
#define CLEAT_AIR_OPERATE_H

#include <stdint.h>

#include "air/losses.h"
#include "air/operation.h"

/* ---- The network as Newton's method sees it (operate_model.c) ---------------------------------------------------- */

/* Duct of one wall. */
struct flow_span {
    double diameter, roughness; /* m; the diameter is the round equivalent */
    double length;              /* m, times the factor on friction */
};

/* What one section takes, sorted by how it is computed. */
struct flow_section {
    bool carries;     /* some terminal is behind it; others carry no air */
    double square;    /* Pa per (m3/s)^2, of all that goes with the square of the airflow */
    double blade;     /* a damper's blade: its coefficient over (or under) that which it has in the job */
    double roughness; /* m, of the run's wall */
    double per_blade; /* Pa for the square of 1 m3/s that a coefficient of 1 takes */
    struct flow_span *spans;
    const struct item **squares;   /* those that `square` is of */
    const struct item **others;    /* neither: they are asked */
    const struct item **junctions; /* those that depend on the sections beside it */
    uint32_t span_count, square_count, other_count, junction_count;
    uint32_t children;
    /* Ids, or NO_SECTION: what it hangs from, the first that hangs from it, the next that hangs from its parent. */
    uint32_t parent, child, next;
};

#define NO_SECTION UINT32_MAX

/* Runs over the ids of all that hangs from the section `parent`, in the order of the sections. */
#define EACH_CHILD(model, parent, id)                                                                                  \
    for (uint32_t id = (model)->sections[parent].child; (id) != NO_SECTION; (id) = (model)->sections[id].next)

/* A section hands its air on to another run, to a tapped run and its own next section, or to the legs of a split. */
enum { CHILDREN_MOST = LEG_COUNT + 1 };

struct flow_model {
    const struct network *network;
    const struct air *air;
    bool loaded;
    struct flow_section *sections; /* by id */
    size_t count;
    uint32_t supply, back; /* the sections at the collars */

    /* By section id; of the airflows that flow_evaluate was given. */
    double *flow;                      /* m3/s */
    double *loss;                      /* Pa */
    double *slope;                     /* Pa for each m3/s more of its own air, without its junctions */
    double *of_others, *of_junctions;  /* Pa of the loss */
    double (*junction)[CHILDREN_MOST]; /* the same of its junctions, by each section that leaves its parent, in order */
};

/* From `arena`.  False when a side has no terminal with air. */
bool flow_model_make(struct flow_model *model, struct arena *arena, const struct network *network,
                     const struct air *air);

/* Fills the ids of what hangs from `parent`; gives how many they are. */
int flow_children(const struct flow_model *model, uint32_t parent, uint32_t child[CHILDREN_MOST]);

/* Whether a terminal takes its air there. */
bool flow_is_end(const struct flow_model *model, size_t id);

/* Filters clean, or with their dust.  Leaves model->flow at the design. */
void flow_model_load(struct flow_model *model, bool loaded);

/* Sums model->flow toward the unit from that of the terminals' sections. */
void flow_sum(struct flow_model *model);

/* Fills loss at model->flow, and slope of what is known in closed form.  O(items). */
void flow_evaluate(struct flow_model *model);

/* Once after each flow_evaluate: adds the slopes found by difference quotients, and fills junction.  O(items). */
void flow_slopes(struct flow_model *model);

/* Pa that each path of a side takes from its terminal to the collar, by section id of its end; and the greatest and
 * least of them.  After flow_evaluate.  `path` may be the arena's: one a section. */
struct flow_range {
    double least, most;
};
struct flow_range flow_side(const struct flow_model *model, bool supply, double *path);

/* Pa of the unit's own drops at `flow`, and its slope. */
double flow_unit_drops(const struct flow_model *model, double flow, double *slope);

/* Blower pressure at `flow` in the job's air, and its slope.  Outside its points the curve goes on as a straight
 * line, only to lead Newton's steps back. */
double flow_blower(const struct flow_model *model, double flow, double *slope);

/* ---- Newton's method on the trees (operate_newton.c) ------------------------------------------------------------- */

/* From the airflows in model->flow to those at which every path closes; `fixed` over 0 holds the unit's airflow, and
 * the blower gives what it takes.  Fills `point` but for the copy of the airflows.  False: it does not settle. */
bool flow_solve(struct flow_model *model, struct arena *arena, double fixed, struct operating_point *point);

/* The same with the blower's own curve, or where it has none at the design airflow; held at the end of its points where
 * these do not reach.  Fills the outcome as well.  (operate.c) */
bool flow_settle(struct flow_model *model, struct arena *arena, struct operating_point *point);

/* ---- Dampers (operate_balance.c) --------------------------------------------------------------------------------- */

/* Sets model->flow to `share` of the design at every terminal, the return scaled to the supply. */
void flow_start(struct flow_model *model, double share);

/* The share of its design that every terminal would take if dampers made all paths cost the same; to a relative
 * precision of `within`, starting from `share`. */
double flow_common_share(struct flow_model *model, struct arena *arena, double share, double within);

/* Sets the blades in the model and in `operation`, and solves. */
void flow_balance(struct flow_model *model, struct arena *arena, struct operation *operation);

#endif
