/* What the figures rest on: the state of the air, the units, and the source of each method. */
#include "report/bid.h"

#include "base/source.h"

static void air_facts(const struct job *job, struct document *document) {
    const struct air *air = &job->air;
    document_fact(document, "Altitude", bid_figure(document, SHOW_ALTITUDE, air->altitude));
    document_fact(document, "Air",
                  arena_format(document->arena, "%s at %s", bid_figure(document, SHOW_DENSITY, air->density),
                               bid_figure(document, SHOW_TEMPERATURE, air->temperature)));
}

/* Every figure is computed in SI; a reader who checks one needs the factors used to show it. */
static void unit_facts(struct document *document) {
    if (document->system == MEASURE_METRIC) {
        document_fact(document, "Units", "m, mm, L/s, Pa, Pa/m, m/s");
        return;
    }
    const struct measure_show *pressure = measure_show(MEASURE_US, SHOW_PRESSURE);
    document_fact(document, "Units",
                  arena_format(document->arena, "in, ft, cfm, fpm; 1 %s is %g Pa, 1 cfm is %g L/s", pressure->unit,
                               pressure->factor, measure_show(MEASURE_US, SHOW_FLOW)->factor * 1000));
}

void bid_basis(const struct job *job, struct document *document) {
    air_facts(job, document);
    unit_facts(document);
    document_paragraph(
        document, "Losses are losses of total pressure. What the blower gives is its external static pressure at the "
                  "design airflow; the difference between the velocity pressures of the unit's two collars is not "
                  "counted. Nothing is a lumped allowance: every piece stands for itself. Each method and its source:");
    for (enum source_id id = SOURCE_NONE + 1; id < SOURCE_COUNT; id++)
        if (job->source_used[id])
            document_reference_marked(document, source_of(id));
    document_paragraph(document, "%s", reference_legend);
}
