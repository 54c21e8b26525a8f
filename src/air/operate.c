/* The operating point of every unit: with its dampers open, balanced, and with its filters full. */
#include "air/operate.h"

#include <math.h>

/* `end_slack`: an airflow so near to an end of the blower's points counts as that end.  `guess_within`: the first
 * guess of the common share is precise enough then.  Both relative; chosen here, no source. */
static const double end_slack = 1e-6, guess_within = 0.02;

/* ---- One point --------------------------------------------------------------------------------------------------- */

static enum operating_outcome outcome_of(const struct flow_model *model, double flow) {
    const struct air_unit *unit = model->network->unit;
    if (flow > unit->blower.at[unit->blower.count - 1].flow * (1 + end_slack))
        return OPERATES_BEYOND;
    return flow < unit->blower.at[0].flow * (1 - end_slack) ? OPERATES_SHORT_OF : OPERATES;
}

/* Beyond its points nothing is known of the blower: use the nearest point. */
static bool hold_at_end(struct flow_model *model, struct arena *arena, struct operating_point *point) {
    const struct air_unit *unit = model->network->unit;
    double end = unit->blower.at[point->outcome == OPERATES_BEYOND ? unit->blower.count - 1 : 0].flow;
    int steps = point->steps;
    bool found = end > 0 && flow_solve(model, arena, end, point);
    point->steps += steps;
    return found;
}

bool flow_settle(struct flow_model *model, struct arena *arena, struct operating_point *point) {
    bool found;
    if (model->network->unit->blower.count < 2) {
        found = flow_solve(model, arena, model->network->supply_flow, point);
        point->outcome = OPERATES_NO_CURVE;
    } else {
        found = flow_solve(model, arena, 0, point);
        point->outcome = outcome_of(model, point->flow);
        if (found && point->outcome != OPERATES)
            found = hold_at_end(model, arena, point);
    }
    if (!found)
        point->outcome = OPERATES_UNSETTLED;
    return found;
}

/* Keeps the airflows that were found. */
static void keep(const struct flow_model *model, struct arena *arena, struct operating_point *point) {
    if (point->outcome == OPERATES_UNSETTLED)
        return;
    double *kept = ARENA_ARRAY(arena, double, model->count);
    for (size_t i = 0; i < model->count; i++)
        kept[i] = model->flow[i];
    point->sections = kept;
}

double operating_flow(const struct operating_point *point, const struct path *path) {
    return point->sections ? point->sections[path->end->id] : 0;
}

const struct damper_setting *operation_settings(const struct operation *operation, bool supply) {
    if (!operation)
        return NULL;
    return supply ? operation->supply_settings : operation->return_settings;
}

const struct operating_point *operation_left(const struct operation *operation) {
    return operation->balanced.sections ? &operation->balanced : &operation->dampers_open;
}

/* ---- One unit ---------------------------------------------------------------------------------------------------- */

static bool has_loaded_drop(const struct air_unit *unit) {
    for (size_t i = 0; i < unit->drops.count; i++)
        if (unit->drops.at[i].loaded > 0)
            return true;
    return false;
}

/* Balanced, with the filters full of dust, if that makes a difference. */
static void load_filters(struct flow_model *model, struct job *job, struct operation *operation) {
    double clean = 0, dirty = 0;
    for (size_t i = 0; i < model->count; i++)
        clean += model->sections[i].square;
    flow_model_load(model, true);
    for (size_t i = 0; i < model->count; i++)
        dirty += model->sections[i].square;
    operation->dirty_known = dirty != clean || has_loaded_drop(model->network->unit);
    if (!operation->dirty_known)
        return;
    for (size_t i = 0; i < model->count; i++)
        model->flow[i] = operation->balanced.sections[i];
    flow_settle(model, job->scratch, &operation->balanced_dirty);
    keep(model, job->arena, &operation->balanced_dirty);
}

static void operate_unit(struct job *job, struct network *network) {
    struct flow_model model;
    if (!network->supply_paths.count || !network->return_paths.count || !network->unit->blower.count ||
        !flow_model_make(&model, job->scratch, network, &job->air))
        return;
    struct operation *operation = ARENA_NEW(job->arena, struct operation);
    operation->supply_settings = ARENA_ARRAY(job->arena, struct damper_setting, network->supply_paths.count);
    operation->return_settings = ARENA_ARRAY(job->arena, struct damper_setting, network->return_paths.count);
    flow_start(&model, flow_common_share(&model, job->scratch, 1, guess_within));
    flow_settle(&model, job->scratch, &operation->dampers_open);
    keep(&model, job->arena, &operation->dampers_open);
    flow_balance(&model, job->scratch, operation);
    keep(&model, job->arena, &operation->balanced);
    if (operation->balanced.sections)
        load_filters(&model, job, operation);
    network->operation = operation;
    job->source_used[SOURCE_OPERATING_POINT] = true;
    job->source_used[SOURCE_PROPORTIONAL] = job->source_used[SOURCE_DAMPER_BLADE] |= operation->share > 0;
}

void air_operate(struct job *job) {
    for (size_t i = 0; i < job->units.count && !job->incomplete; i++) {
        struct network *network = job->units.at[i]->network;
        if (network)
            operate_unit(job, network);
        arena_clear(job->scratch);
    }
}
