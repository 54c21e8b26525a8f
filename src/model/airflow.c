/* Airflow of each terminal, and of every section toward the unit. */
#include <math.h>

#include "base/constant.h"
#include "model/model.h"

/* Difference between supply air and room when the job gives no temperatures: 20 F.  Common practice, no source. */
static const double usual_difference = 20 * RANKINE;

bool model_load_air(const struct air_unit *unit, double *supply, double *room) {
    bool cooling = unit->supply_air > 0 && unit->room_air > 0;
    *supply = cooling ? unit->supply_air : unit->heating_air;
    *room = cooling ? unit->room_air : unit->heating_room;
    return *supply > 0 && *room > 0;
}

/* Q = load / (density cp difference): the sensible heat equation (ASHRAE Fundamentals, from memory). */
static double flow_for_load(struct job *job, struct run *run) {
    const struct air_unit *unit = run->unit;
    double supply, room;
    bool given = model_load_air(unit, &supply, &room);
    run->difference = given ? fabs(room - supply) : usual_difference;
    run->difference_assumed = !given;
    job->source_used[SOURCE_SENSIBLE_HEAT] = true;
    job->source_used[SOURCE_SUPPLY_AIR] |= !given;
    return run->load / (job->air.density * job->air.specific_heat * run->difference);
}

/* ---- Terminals --------------------------------------------------------------------------------------------------- */

static void outlet_flow(struct job *job, struct run *run) {
    if (run->load > 0) {
        run->airflow = flow_for_load(job, run);
        run->airflow_given = true;
        run->airflow_at = run->load_at;
    }
    if (run->airflow_given)
        return;
    struct diagnostic *error = diagnose(job->diagnostics, DIAGNOSTIC_ERROR, "airflow", run->at,
                                        "outlet '%s' has neither an airflow nor a load", run->name);
    diagnostic_hint(job->diagnostics, error, "airflow %s", measure_words(MEASURE_FLOW)->example);
}

static void supply_error(struct job *job, const struct air_unit *unit, bool heats, double supply, double room) {
    const char *leaves = measure_text(job->arena, job->system, SHOW_TEMPERATURE, supply);
    const char *rooms = measure_text(job->arena, job->system, SHOW_TEMPERATURE, room);
    bool metric = job->system == MEASURE_METRIC, equal = fabs(room - supply) < 1;
    struct diagnostic *error =
        diagnose(job->diagnostics, DIAGNOSTIC_ERROR, "airflow", heats ? unit->heating_air_at : unit->supply_air_at,
                 equal   ? "the air of '%s' is as warm as the room when it %s: it carries no heat (%s, room %s)"
                 : heats ? "the air of '%s' leaves colder than the room when it %s: at %s, into a room at %s"
                         : "the air of '%s' leaves warmer than the room when it %s: at %s, into a room at %s",
                 unit->name, heats ? "heats" : "cools", leaves, rooms);
    if (!heats && !equal && !(unit->heating_air > 0) && !(unit->heating_room > 0))
        diagnostic_hint(job->diagnostics, error, "leaves heating %s; room heating %s", leaves, rooms);
    else if (heats)
        diagnostic_hint(job->diagnostics, error, "air that heats is warmer than its room, as in: leaves heating %s",
                        metric ? "40 C" : "105 F");
    else
        diagnostic_hint(job->diagnostics, error, "air that cools is colder than its room, as in: leaves %s",
                        metric ? "13 C" : "55 F");
}

/* Air that cools is colder than the room, air that heats warmer; two temperatures that are one carry no heat. */
static void check_temperatures(struct job *job, struct air_unit *unit) {
    if (unit->supply_air > 0 && unit->room_air > 0 && unit->room_air - unit->supply_air < 1) {
        supply_error(job, unit, false, unit->supply_air, unit->room_air);
        unit->supply_air = unit->room_air = 0;
    }
    if (unit->heating_air > 0 && unit->heating_room > 0 && unit->heating_air - unit->heating_room < 1) {
        supply_error(job, unit, true, unit->heating_air, unit->heating_room);
        unit->heating_air = unit->heating_room = 0;
    }
}

static struct run *terminal_of(const struct path *path) {
    return path->end->terminal;
}

double model_face_area(const struct run *inlet) {
    return inlet->face ? size_area(inlet->face->kind->face(inlet->face)) : 0;
}

struct inlet_rest model_inlet_rest(const struct network *network) {
    struct inlet_rest rest = {.areas_known = true};
    for (size_t i = 0; i < network->return_paths.count; i++) {
        const struct run *inlet = terminal_of(&network->return_paths.at[i]);
        if (inlet->airflow_given) {
            rest.given += inlet->airflow;
            continue;
        }
        rest.sharing++;
        rest.area += model_face_area(inlet);
        rest.areas_known &= model_face_area(inlet) > 0;
    }
    rest.flow = network->supply_flow - rest.given;
    return rest;
}

static void share_rest(struct job *job, struct network *network, const struct inlet_rest *rest) {
    for (size_t i = 0; i < network->return_paths.count; i++) {
        struct run *inlet = terminal_of(&network->return_paths.at[i]);
        if (!inlet->airflow_given)
            inlet->airflow =
                rest->flow * (rest->areas_known ? model_face_area(inlet) / rest->area : 1.0 / (double)rest->sharing);
    }
    job->source_used[SOURCE_SUPPLY_RETURN] = true;
}

static double sum_of(const struct path *paths, size_t count) {
    double sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += terminal_of(&paths[i])->airflow;
    return sum;
}

/* ---- Sums -------------------------------------------------------------------------------------------------------- */

static const char *flow_text(const struct job *job, double flow) {
    return measure_text(job->arena, job->system, SHOW_FLOW, flow);
}

static bool differ(double a, double b) {
    return fabs(a - b) > AIRFLOW_TOLERANCE * fmax(a, b);
}

/* Where an airflow comes from, for a second look: as many as help. */
static void relate_terminals(struct job *job, struct diagnostic *diagnostic, const struct path *paths, size_t count) {
    const size_t shown = 6;
    for (size_t i = 0; i < count && i < shown; i++) {
        const struct run *terminal = terminal_of(&paths[i]);
        diagnostic_relate(job->diagnostics, diagnostic, terminal->airflow_given ? terminal->airflow_at : terminal->at,
                          "%s for '%s'", flow_text(job, terminal->airflow), terminal->name);
    }
}

/* Only if there are no errors: what seems to be missing may be in a statement that could not be read. */
static bool may_compare(const struct job *job) {
    return !job->diagnostics->error_count;
}

static void nothing_left(struct job *job, const struct network *network) {
    if (!may_compare(job))
        return;
    struct diagnostic *error =
        diagnose(job->diagnostics, DIAGNOSTIC_ERROR, "airflow", network->unit->at,
                 "the inlets with an airflow take all %s of '%s': nothing is left for the others",
                 flow_text(job, network->supply_flow), network->unit->name);
    relate_terminals(job, error, network->return_paths.at, network->return_paths.count);
}

static void warn_supply_return(struct job *job, const struct network *network, double given) {
    const struct air_unit *unit = network->unit;
    job->source_used[SOURCE_SUPPLY_RETURN] = true;
    if (!may_compare(job) || !differ(given, network->supply_flow))
        return;
    struct diagnostic *warning = diagnose(job->diagnostics, DIAGNOSTIC_WARNING, "supply-return", unit->at,
                                          "the outlets of '%s' take %s, its inlets give %s", unit->name,
                                          flow_text(job, network->supply_flow), flow_text(job, given));
    warning->subject = unit->name;
    relate_terminals(job, warning, network->return_paths.at, network->return_paths.count);
    diagnostic_hint(job->diagnostics, warning, "leave out the airflow of one inlet: it then takes what is left");
}

/* The return side: what its inlets give, what the others share, and whether that is what the outlets take. */
static void balance_return(struct job *job, struct network *network) {
    struct inlet_rest rest = model_inlet_rest(network);
    if (!rest.sharing)
        warn_supply_return(job, network, rest.given);
    else if (rest.flow > 1e-9 * network->supply_flow)
        share_rest(job, network, &rest);
    else
        nothing_left(job, network);
}

/* The run at the end of what hangs from a collar. */
static const char *end_of(const struct run *run) {
    while (run && run->end)
        run = run->end;
    return run ? run->name : "RUN";
}

/* A side without a terminal moves no air. */
static void require_terminals(struct job *job, const struct network *network) {
    if (!may_compare(job) || (network->supply_paths.count && network->return_paths.count))
        return;
    bool outlets = network->supply_paths.count > 0;
    struct diagnostic *error =
        diagnose(job->diagnostics, DIAGNOSTIC_ERROR, "airflow", network->unit->at,
                 "'%s' has no %s: no air moves through it", network->unit->name, outlets ? "inlet" : "outlet");
    const char *face = piece_kind_with(job->pieces, outlets ? PIECE_INLET : PIECE_OUTLET)->form.example;
    if (outlets)
        diagnostic_hint(job->diagnostics, error, "inlet NAME from %s { %s }", end_of(network->unit->return_run), face);
    else
        diagnostic_hint(job->diagnostics, error, "outlet NAME from %s { airflow %s; %s }",
                        end_of(network->unit->supply_run), measure_words(MEASURE_FLOW)->example, face);
}

/* Outside the blower's points the declared airflow is an error of its own, which tells of the sum as well. */
static bool blower_knows(const struct air_unit *unit) {
    size_t count = unit->blower.count;
    return !count || (unit->airflow >= unit->blower.at[0].flow * (1 - 1e-6) &&
                      unit->airflow <= unit->blower.at[count - 1].flow * (1 + 1e-6));
}

static void balance_unit(struct job *job, struct network *network) {
    struct air_unit *unit = network->unit;
    if (!unit->airflow_given) {
        unit->airflow = network->supply_flow;
        return;
    }
    if (!may_compare(job) || !differ(unit->airflow, network->supply_flow) || !blower_knows(unit))
        return;
    struct diagnostic *warning = diagnose(job->diagnostics, DIAGNOSTIC_WARNING, "airflow-sum", unit->airflow_at,
                                          "'%s' moves %s, but its outlets take %s together", unit->name,
                                          flow_text(job, unit->airflow), flow_text(job, network->supply_flow));
    warning->subject = unit->name;
    relate_terminals(job, warning, network->supply_paths.at, network->supply_paths.count);
}

/* Children come after their parents, so one sweep from the back sums every section toward the unit. */
static void sum_sections(struct network *network) {
    for (size_t i = 0; i < network->sections.count; i++) {
        struct section *section = network->sections.at[i];
        section->flow = section->terminal ? section->terminal->airflow : 0;
    }
    for (size_t i = network->sections.count; i-- > 0;) {
        struct section *section = network->sections.at[i];
        if (section->parent)
            section->parent->flow += section->flow;
        section->duct->flow = fmax(section->duct->flow, section->flow);
    }
}

static void unit_airflow(struct job *job, struct network *network) {
    check_temperatures(job, network->unit);
    for (size_t i = 0; i < network->supply_paths.count; i++)
        outlet_flow(job, terminal_of(&network->supply_paths.at[i]));
    network->supply_flow = sum_of(network->supply_paths.at, network->supply_paths.count);
    require_terminals(job, network);
    balance_return(job, network);
    balance_unit(job, network);
    network->return_flow = sum_of(network->return_paths.at, network->return_paths.count);
    sum_sections(network);
}

void model_airflow(struct job *job) {
    for (size_t i = 0; i < job->units.count; i++)
        if (job->units.at[i]->network)
            unit_airflow(job, job->units.at[i]->network);
}
