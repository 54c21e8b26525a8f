/* What a section leaks, and all sections of a unit. */
#include <math.h>

#include "air/heat.h"
#include "air/leakage.h"
#include "base/constant.h"
#include "report/explain.h"

/* ---- A section --------------------------------------------------------------------------------------------------- */

/* Walls of one class. */
struct leaky {
    double leakage_class, surface;
};
enum { LEAKY_KINDS = 4 };

static void add_wall(struct leaky *kinds, size_t *count, double leakage_class_, double surface) {
    size_t i = 0;
    while (i < *count && kinds[i].leakage_class != leakage_class_)
        i++;
    if (i == *count)
        kinds[(*count)++] = (struct leaky){leakage_class_, 0};
    kinds[i].surface += surface;
}

/* The classes of its pieces, and the mean of them by their surface. */
static void explain_class(struct working *working, const struct section *section, const struct leakage_section *at) {
    const struct working_units *units = working->units;
    struct leaky kinds[LEAKY_KINDS];
    size_t count = 0;
    for (size_t i = 0; i < section->items.count; i++) {
        const struct piece *piece = section->items.at[i].piece;
        double surface = heat_item_surface(section, &section->items.at[i]);
        size_t before = count;
        if (!(surface > 0))
            continue;
        double value = leakage_class_of(section, piece, leakage_seal(section->run));
        add_wall(kinds, &count, value, surface);
        if (count > before)
            work_given(working, "Class of its wall", SOURCE_LEAKAGE, "CL = %s, of %s", working_number(working, value),
                       leakage_class_words(section, piece, working->arena));
    }
    const char *sum = "";
    for (size_t i = 0; i < count; i++)
        sum = arena_format(working->arena, "%s%s%s x %s", sum, i ? " + " : "",
                           working_value(working, units->area, kinds[i].surface),
                           working_number(working, kinds[i].leakage_class));
    if (count > 1)
        work(working, "Mean class, by surface", SOURCE_NONE, working_plain, at->leakage_class,
             "CL = sum of A x CL / A = (%s) / %s", sum, working_value(working, units->area, at->surface));
}

void explain_section_leak(struct working *working, const struct section *section) {
    const struct working_units *units = working->units;
    const struct network *network = section->run->unit->network;
    if (!(section->flow > 0) || !network->leakage)
        return;
    const struct leakage_section *at = &network->leakage->sections[section->id];
    const struct path *worst = network_side(network, section->run->supply).governing;
    if (!(at->surface > 0) || !worst)
        return;
    explain_class(working, section, at);
    double lost = (at->lost[0] + at->lost[1]) / 2;
    work(working, "Lost between the unit and the middle of its wall", SOURCE_NONE, units->pressure, lost,
         "hto = (hstart + hend) / 2 = (%s + %s) / 2", working_value(working, units->pressure, at->lost[0]),
         working_value(working, units->pressure, at->lost[1]));
    const char *first = working_value(working, units->pressure, section->run->supply ? worst->loss : lost);
    const char *second = working_value(working, units->pressure, section->run->supply ? lost : worst->loss);
    work(working, "Static pressure there", SOURCE_STATIC_PRESSURE, units->pressure, at->static_pressure,
         section->run->supply ? "ps = hworst - hto - pv = %s - %s - %s" : "ps = hto - hworst - pv = %s - %s - %s",
         first, second,
         working_value(working, units->pressure, air_velocity_pressure(&working->job->air, section->velocity)));
    const char *class_ = working_number(working, at->leakage_class);
    const char *pressure = working_value(working, units->pressure, fabs(at->static_pressure));
    const char *surface = working_value(working, units->area, at->surface);
    const char *cfm = working_value(working, units->flow, CFM);
    const char *hundred = working_value(working, units->area, 100 * FOOT * FOOT);
    if (working->job->system == MEASURE_US)
        work(working, "Leakage", SOURCE_LEAKAGE, units->flow, at->leaks,
             "q = CL x ps^%g x A / 100 = %s x %s^%g x %s / 100", LEAKAGE_EXPONENT, class_, pressure, LEAKAGE_EXPONENT,
             surface);
    else
        work(working, "Leakage, by the class in cfm and in. w.g.", SOURCE_LEAKAGE, units->flow, at->leaks,
             "q = CL x (ps / %g)^%g x A x %s / %s = %s x (%s / %g)^%g x %s x %s / %s", INCH_OF_WATER, LEAKAGE_EXPONENT,
             cfm, hundred, class_, pressure, INCH_OF_WATER, LEAKAGE_EXPONENT, surface, cfm, hundred);
}

/* ---- A unit ------------------------------------------------------------------------------------------------------ */

static void explain_side(struct working *working, const struct network *network, bool supply) {
    struct working_sum sum = {0};
    for (size_t i = 0; i < network->sections.count; i++) {
        const struct section *section = network->sections.at[i];
        if (section->run->supply == supply && network->leakage->sections[section->id].leaks > 0)
            *list_add(working->arena, &sum.terms) = network->leakage->sections[section->id].leaks;
    }
    work_sum(working, supply ? "Of the sections of the supply" : "Of the sections of the return",
             supply ? "qsupply" : "qreturn", working->units->flow, &sum);
}

void explain_unit_leakage(struct working *working, const struct network *network) {
    const struct working_units *units = working->units;
    const struct leakage *leakage = network->leakage;
    if (!leakage)
        return;
    document_heading(working->document, 2, "Leakage");
    explain_side(working, network, true);
    explain_side(working, network, false);
    work(working, "Leakage of all sections, supply and return", SOURCE_LEAKAGE, units->flow,
         leakage->supply + leakage->back, "q = qsupply + qreturn = %s + %s",
         working_value(working, units->flow, leakage->supply), working_value(working, units->flow, leakage->back));
    if (network->unit->airflow > 0)
        work(working, "Its share of the airflow", SOURCE_NONE, working_plain, leakage->share, "q / Q = %s / %s",
             working_value(working, units->flow, leakage->supply + leakage->back),
             working_value(working, units->flow, network->unit->airflow));
    work_given(working, "It may be", leakage->limit_assumed ? SOURCE_LEAKAGE_LIMIT : SOURCE_NONE, "%s",
               working_number(working, leakage->limit));
}
