/* Newton's method on the two trees.
 *
 * In one sweep from the terminals to the unit each subtree becomes a straight line, the pressure that it takes against
 * its airflow; at the unit the two lines and the blower's meet, and a sweep back gives every section its step.  That is
 * the exact step of Newton's method for all paths at once, in O(sections).  A step that makes the worst path close
 * worse is halved.
 */
#include <math.h>

#include "air/operate.h"
#include "base/constant.h"

/* Steps until it is given up, and how often one is halved. */
enum { STEPS_MOST = 60, HALVINGS_MOST = 12 };

/* Every path has to close within 1e-9 in. w.g.; we go on to 1e-12 while steps still help. */
static const double closes = 1e-9 * INCH_OF_WATER, closes_well = 1e-12 * INCH_OF_WATER;

/* A subtree's pressure at the far end of a section is `at + per_flow x` (what is added to its airflow). */
struct line {
    double at, per_flow;
};

/* How the airflow of a section answers a pressure p at its near end: it grows by `per_pressure p - at`. */
struct response {
    double at, per_pressure;
};

struct solver {
    struct flow_model *model;
    double fixed;       /* m3/s; 0: the blower's curve decides */
    struct line *lines; /* by section id, like the following */
    struct response *responses;
    double *step, *before, *path;
    double closure;      /* Pa, at the airflows at hand */
    double supply, back; /* Pa, mean of the greatest and least path of each side */
};

/* ---- How well the paths close ------------------------------------------------------------------------------------ */

static double closure_of(struct solver *solver) {
    struct flow_model *model = solver->model;
    struct flow_range supply = flow_side(model, true, solver->path), back = flow_side(model, false, solver->path);
    solver->supply = (supply.least + supply.most) / 2;
    solver->back = (back.least + back.most) / 2;
    if (solver->fixed > 0)
        return supply.most - supply.least + back.most - back.least;
    double slope, flow = model->flow[model->supply];
    double has = flow_blower(model, flow, &slope) - flow_unit_drops(model, flow, &slope);
    return fmax(supply.most + back.most - has, has - supply.least - back.least);
}

/* ---- One step ---------------------------------------------------------------------------------------------------- */

/* The sections that leave one section share its air: M dq = p 1 - c, with M the slopes of each by the air of each. */
struct junction {
    int count;
    uint32_t id[CHILDREN_MOST];
    double m[CHILDREN_MOST][CHILDREN_MOST + 2]; /* behind the matrix its two right sides: 1 and c */
};

static void gather(const struct solver *solver, uint32_t parent, struct junction *junction, bool coupled) {
    const struct flow_model *model = solver->model;
    int n = junction->count = flow_children(model, parent, junction->id);
    for (int i = 0; i < n; i++) {
        uint32_t id = junction->id[i];
        double own = solver->lines[id].per_flow + model->slope[id];
        for (int j = 0; j < n; j++)
            junction->m[i][j] = coupled ? model->junction[id][j] : 0;
        /* Still air has no resistance: a nanopascal at the design airflow keeps the step finite.  Chosen here. */
        const double tiny = 1e-9;
        double little = tiny / fmax(model->network->sections.at[id]->flow, tiny);
        junction->m[i][i] += fabs(own) > little ? own : little;
        junction->m[i][n] = 1;
        junction->m[i][n + 1] = solver->lines[id].at + model->loss[id];
    }
}

/* Elimination with the largest pivot of each column; false: there is none. */
static bool eliminate(struct junction *junction) {
    int n = junction->count;
    for (int k = 0; k < n; k++) {
        int pivot = k;
        for (int i = k + 1; i < n; i++)
            if (fabs(junction->m[i][k]) > fabs(junction->m[pivot][k]))
                pivot = i;
        if (!(fabs(junction->m[pivot][k]) > 0))
            return false;
        for (int j = 0; j < n + 2; j++) {
            double held = junction->m[k][j];
            junction->m[k][j] = junction->m[pivot][j];
            junction->m[pivot][j] = held;
        }
        for (int i = 0; i < n; i++) {
            double times = i == k ? 0 : junction->m[i][k] / junction->m[k][k];
            for (int j = k; j < n + 2 && i != k; j++)
                junction->m[i][j] -= times * junction->m[k][j];
        }
    }
    return true;
}

/* Fills the children's responses, and the parent's line.  False: more pressure would bring less air. */
static bool join(struct solver *solver, uint32_t parent, bool coupled) {
    struct junction junction;
    gather(solver, parent, &junction, coupled);
    if (!eliminate(&junction))
        return false;
    int n = junction.count;
    double at = 0, per_pressure = 0;
    for (int i = 0; i < n; i++) {
        struct response response = {.at = junction.m[i][n + 1] / junction.m[i][i],
                                    .per_pressure = junction.m[i][n] / junction.m[i][i]};
        solver->responses[junction.id[i]] = response;
        at += response.at;
        per_pressure += response.per_pressure;
    }
    solver->lines[parent] = (struct line){at / per_pressure, 1 / per_pressure};
    return per_pressure > 0 && isfinite(at / per_pressure);
}

static void sweep_in(struct solver *solver) {
    const struct flow_model *model = solver->model;
    for (size_t i = model->count; i-- > 0;) {
        solver->lines[i] = (struct line){0, 0};
        if (!model->sections[i].carries || model->sections[i].child == NO_SECTION)
            continue;
        /* Where the junctions' slopes give no sensible line they are left out: a shorter step to the same solution. */
        if (!join(solver, (uint32_t)i, true))
            join(solver, (uint32_t)i, false);
    }
}

/* What is added to the unit's airflow. */
static double root_step(const struct solver *solver) {
    const struct flow_model *model = solver->model;
    double flow = model->flow[model->supply];
    if (solver->fixed > 0)
        return solver->fixed - flow;
    double blower_slope, drop_slope;
    double has = flow_blower(model, flow, &blower_slope) - flow_unit_drops(model, flow, &drop_slope);
    double takes = 0, slope = drop_slope - blower_slope;
    for (int side = 0; side < 2; side++) {
        uint32_t id = side ? model->back : model->supply;
        takes += solver->lines[id].at + model->loss[id];
        slope += solver->lines[id].per_flow + model->slope[id];
    }
    /* On a rising part of a blower's curve the sum may have the wrong sign; the slope of the ducts alone has the
     * right one. */
    if (!(slope > 0))
        slope += blower_slope;
    return (has - takes) / slope;
}

static void sweep_out(struct solver *solver, double root) {
    const struct flow_model *model = solver->model;
    solver->step[model->supply] = solver->step[model->back] = root;
    for (size_t i = 0; i < model->count; i++) {
        if (!model->sections[i].carries)
            continue;
        double pressure = solver->lines[i].at + solver->lines[i].per_flow * solver->step[i];
        EACH_CHILD(model, i, id)
            solver->step[id] = solver->responses[id].per_pressure * pressure - solver->responses[id].at;
    }
}

/* ---- Step by step ------------------------------------------------------------------------------------------------ */

static void take_step(struct solver *solver, double part) {
    struct flow_model *model = solver->model;
    for (size_t i = 0; i < model->count; i++)
        if (flow_is_end(model, i))
            model->flow[i] = solver->before[i] + part * solver->step[i];
    flow_sum(model);
}

/* Takes a whole step, or halves it until the worst path closes better; false: no part of it helps. */
static bool improve(struct solver *solver) {
    struct flow_model *model = solver->model;
    flow_slopes(model);
    sweep_in(solver);
    sweep_out(solver, root_step(solver));
    for (size_t i = 0; i < model->count; i++)
        solver->before[i] = model->flow[i];
    for (int i = 0; i < HALVINGS_MOST; i++) {
        take_step(solver, ldexp(1, -i));
        flow_evaluate(model);
        double closure = closure_of(solver);
        if (closure < solver->closure) {
            solver->closure = closure;
            return true;
        }
        /* Good enough, and rounding allows no better. */
        if (solver->closure <= closes)
            break;
    }
    for (size_t i = 0; i < model->count; i++)
        model->flow[i] = solver->before[i];
    flow_evaluate(model);
    solver->closure = closure_of(solver);
    return false;
}

static void describe(const struct solver *solver, struct operating_point *point) {
    const struct flow_model *model = solver->model;
    double slope;
    point->flow = model->flow[model->supply];
    point->drops = flow_unit_drops(model, point->flow, &slope);
    point->supply = solver->supply;
    point->back = solver->back;
    point->pressure =
        solver->fixed > 0 ? point->supply + point->back + point->drops : flow_blower(model, point->flow, &slope);
    point->closure = solver->closure;
    point->backward = 0;
    for (size_t i = 0; i < model->count; i++)
        if (flow_is_end(model, i) && model->flow[i] < 0)
            point->backward++;
}

/* Scales each side by itself, so that both have the unit's airflow but for rounding. */
static void scale_to(struct flow_model *model, double flow) {
    for (size_t i = 0; i < model->count; i++) {
        bool supply = model->network->sections.at[i]->run->supply;
        double whole = model->flow[supply ? model->supply : model->back];
        if (flow_is_end(model, i) && whole > 0)
            model->flow[i] *= flow / whole;
    }
    flow_sum(model);
}

bool flow_solve(struct flow_model *model, struct arena *arena, double fixed, struct operating_point *point) {
    struct solver solver = {.model = model, .fixed = fixed};
    solver.lines = ARENA_ARRAY(arena, struct line, model->count);
    solver.responses = ARENA_ARRAY(arena, struct response, model->count);
    solver.step = ARENA_ARRAY(arena, double, model->count);
    solver.before = ARENA_ARRAY(arena, double, model->count);
    solver.path = ARENA_ARRAY(arena, double, model->count);
    flow_sum(model);
    if (fixed > 0)
        scale_to(model, fixed);
    flow_evaluate(model);
    solver.closure = closure_of(&solver);
    point->steps = 0;
    while (solver.closure > closes_well && point->steps < STEPS_MOST) {
        point->steps++;
        if (!improve(&solver))
            break;
    }
    describe(&solver, point);
    return solver.closure <= closes;
}
