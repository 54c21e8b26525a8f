/* Leakage: class x pressure^0.65 x surface, section by section. */
#include "air/leakage.h"

#include <math.h>

#include "air/heat.h"
#include "base/constant.h"
#include "model/built_for.h"

/* SOURCE_LEAKAGE: by shape and seal class.  Flat oval as rectangular, the leakier. */
enum { SEALS = SEAL_A + 1 };
static const double classes[SHAPE_COUNT][SEALS] = {
    [SHAPE_RECTANGULAR] = {[SEAL_C] = 24, [SEAL_B] = 12, [SEAL_A] = 6},
    [SHAPE_ROUND] = {[SEAL_C] = 12, [SEAL_B] = 6, [SEAL_A] = 3},
    [SHAPE_OVAL] = {[SEAL_C] = 24, [SEAL_B] = 12, [SEAL_A] = 6},
};
static const double flexible = 12, board = 6;

/* SOURCE_LEAKAGE_LIMIT. */
static const double usual_limit = 0.05;

double leakage_class(enum shape shape, enum seal_class seal) {
    return classes[shape][seal];
}

enum seal_class leakage_seal(const struct run *run) {
    const struct settings *settings = &run->settings;
    return settings->seal_set && settings->seal != SEAL_NONE ? settings->seal : SEAL_C;
}

double leakage_class_of(const struct section *section, const struct piece *piece, enum seal_class seal) {
    if (piece->kind->traits & PIECE_FLEXIBLE)
        return flexible;
    if (section->run->settings.material == MATERIAL_FIBROUS_BOARD)
        return board;
    return leakage_class(section->duct->size.shape, seal);
}

const char *leakage_class_words(const struct section *section, const struct piece *piece, struct arena *arena) {
    static const char *const shapes[SHAPE_COUNT] = {
        [SHAPE_RECTANGULAR] = "rectangular duct", [SHAPE_ROUND] = "round duct", [SHAPE_OVAL] = "oval duct"};
    static const char seals[] = {[SEAL_C] = 'C', [SEAL_B] = 'B', [SEAL_A] = 'A'};
    if (piece->kind->traits & PIECE_FLEXIBLE)
        return "flexible duct, sealed: the table has one class for it, whatever the seal class";
    if (section->run->settings.material == MATERIAL_FIBROUS_BOARD)
        return "fibrous board: the table has one class for it, whatever the seal class";
    return arena_format(arena, "%s, seal %c", shapes[section->duct->size.shape], seals[leakage_seal(section->run)]);
}

double leakage_flow(double leakage_class_, double surface, double pressure) {
    double per_hundred = leakage_class_ * pow(fabs(pressure) / INCH_OF_WATER, LEAKAGE_EXPONENT);
    return per_hundred * CFM * surface / (100 * FOOT * FOOT);
}

double leakage_usual_limit(void) {
    return usual_limit;
}

/* ---- A section --------------------------------------------------------------------------------------------------- */

/* With what it would be of if it were sealed to class A. */
struct sealing_sum {
    double surface, classes, sealed; /* m2; class x m2 */
    double lost[2];                  /* as of struct leakage_section */
};

static struct sealing_sum sum_section(const struct section *section) {
    struct sealing_sum sum = {0};
    double lost = section->parent ? section->parent->loss_to_unit : 0;
    for (size_t i = 0; i < section->items.count; i++) {
        const struct item *item = &section->items.at[i];
        double surface = heat_item_surface(section, item), before = lost;
        lost += item->loss.pressure;
        if (!(surface > 0))
            continue;
        if (!(sum.surface > 0))
            sum.lost[0] = before;
        sum.lost[1] = lost;
        sum.surface += surface;
        sum.classes += surface * leakage_class_of(section, item->piece, leakage_seal(section->run));
        sum.sealed += surface * leakage_class_of(section, item->piece, SEAL_A);
    }
    return sum;
}

/* Halfway along its wall: total pressure against the room less velocity pressure. */
static double static_pressure(const struct network *network, const struct air *air, const struct section *section,
                              const double lost[2]) {
    double total = air_total_pressure(network, section->run->supply, (lost[0] + lost[1]) / 2);
    return total - air_velocity_pressure(air, section->velocity);
}

static void leak_section(struct leakage *leakage, const struct network *network, const struct air *air,
                         const struct section *section, double *sealed) {
    struct leakage_section *at = &leakage->sections[section->id];
    struct sealing_sum sum = sum_section(section);
    at->surface = sum.surface;
    at->leakage_class = sum.surface > 0 ? sum.classes / sum.surface : 0;
    at->lost[0] = sum.lost[0];
    at->lost[1] = sum.lost[1];
    at->static_pressure = static_pressure(network, air, section, sum.lost);
    at->leaks = leakage_flow(at->leakage_class, at->surface, at->static_pressure);
    leakage->surface += at->surface;
    *(section->run->supply ? &leakage->supply : &leakage->back) += at->leaks;
    if (section->run->settings.location != LOCATION_CONDITIONED)
        leakage->outside += at->leaks;
    *sealed += leakage_flow(1, sum.sealed, at->static_pressure);
    for (size_t t = 0; t < leakage->tests; t++)
        leakage->test[t].allowed += leakage_flow(1, sum.classes, leakage->test[t].pressure);
}

/* ---- The whole --------------------------------------------------------------------------------------------------- */

/* SOURCE_LEAKAGE_TEST: 25 Pa as residential codes test; 1 in. w.g. or 250 Pa, a usual pressure class, or less where the
 * ducts are built for less: a test must not burst what it tests. */
static void choose_tests(struct leakage *leakage, const struct network *network, enum measure_system system) {
    const double codes = 25, usual = system == MEASURE_METRIC ? 250 : INCH_OF_WATER;
    leakage->built_for = INFINITY;
    for (size_t s = 0; s < network->sections.count; s++)
        leakage->built_for = fmin(leakage->built_for, run_built_for(network->sections.at[s]->run));
    if (leakage->built_for >= codes)
        leakage->test[leakage->tests++].pressure = codes;
    double most = fmin(leakage->built_for, usual);
    if (!leakage->tests || most > 1.01 * codes)
        leakage->test[leakage->tests++].pressure = most;
}

static void leak_network(struct job *job, struct network *network) {
    const struct air_unit *unit = network->unit;
    struct leakage *leakage = ARENA_NEW(job->arena, struct leakage);
    double sealed = 0;
    leakage->sections = ARENA_ARRAY(job->arena, struct leakage_section, network->sections.count + 1);
    leakage->limit_assumed = !(unit->leakage_limit > 0);
    leakage->limit = leakage->limit_assumed ? usual_limit : unit->leakage_limit;
    choose_tests(leakage, network, job->system);
    network->leakage = leakage;
    for (size_t s = 0; s < network->sections.count; s++)
        leak_section(leakage, network, &job->air, network->sections.at[s], &sealed);
    leakage->share = unit->airflow > 0 ? (leakage->supply + leakage->back) / unit->airflow : 0;
    leakage->sealed_share = unit->airflow > 0 ? sealed / unit->airflow : 0;
    job->source_used[SOURCE_LEAKAGE] |= leakage->surface > 0;
}

void leakage_fill(struct job *job) {
    for (size_t u = 0; u < job->units.count && !job->incomplete; u++)
        if (job->units.at[u]->network)
            leak_network(job, job->units.at[u]->network);
}
