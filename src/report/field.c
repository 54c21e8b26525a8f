/* The field packet: its table of sections, its first page and its basis. */
#include "report/field.h"

#include "cost/takeoff.h"
#include "metal/metal.h"
#include "report/basis.h"
#include "report/bid.h"
#include "report/packet.h"
#include "report/figure_route.h"
#include "report/system_figures.h"

static bool has_parts(const struct job *job) {
    return job->metal && job->metal->parts.count;
}

static bool has_bought(const struct job *job) {
    return job->metal && (job->metal->bought.count || (job->takeoff && job->takeoff->lines.count));
}

static bool has_estimates(const struct job *job) {
    return bid_estimates(job) > 0;
}

static const struct packet_section sections[] = {
    {.write = field_title},
    {.heading = "Before anyone goes in", .write = field_cautions},
    {.heading = "To be measured first", .write = field_verify, .wanted = has_estimates},
    {.heading = "The system at a glance", .write = system_tree, .wanted = system_has_network},
    {.heading = "Drawings", .write = figure_route_drawings, .wanted = figure_route_wanted},
    {.heading = "Hanging order", .write = field_order, .wanted = has_parts},
    {.heading = "Bought things and where they go", .write = field_bought, .wanted = has_bought},
    {.heading = "Hangers", .write = field_hangers},
    {.heading = "Sealing and insulation", .write = field_covering},
    {.heading = "Leakage test", .write = field_leakage, .wanted = system_has_network},
    {.heading = "Balancing", .write = field_balance, .wanted = system_has_network},
    {.heading = "Pressure along the costliest path", .write = field_pressure, .wanted = system_has_path},
    {.heading = "Test points", .write = field_test_points, .wanted = system_has_network},
    {.heading = "Supply temperatures", .write = field_temperatures, .wanted = field_has_temperatures},
    {.heading = "Start-up", .write = field_checklist},
    {.heading = "Sign-off", .write = field_sign_off},
    {.heading = "All cautions", .write = bid_cautions},
    {.heading = "Basis", .write = field_basis},
};

const struct packet packet_field = {
    .words = "what is hung, sealed, measured and balanced: order, test points, sheets to fill in",
    .sections = sections,
    .section_count = sizeof sections / sizeof sections[0],
    .drawn = true,
    .asks_effects = true,
};

void field_title(const struct job *job, struct document *document) {
    document_heading(document, 1, arena_format(document->arena, "%s: for the field", bid_job_title(job)));
    bid_job_facts(job, document);
    if (job->shop.name && *job->shop.name)
        document_fact(document, "Shop", job->shop.name);
    bid_deference(document);
    document_paragraph(document,
                       "Empty columns are to be filled in at the place. A run is counted from its end toward the "
                       "unit, and left and right are those of someone who looks away from the unit.");
}

void field_cautions(const struct job *job, struct document *document) {
    bid_place_cautions(job, document);
    bid_caution(document, CAUTION_ASBESTOS);
    bid_caution(document, CAUTION_HEIGHT);
    bid_caution(document, CAUTION_EDGES);
}

/* What only these papers use; the figures of the design have their sources in the bid. */
void field_basis(const struct job *job, struct document *document) {
    document_paragraph(document, "Sizes, losses and airflows are those of the design record, where each method and its "
                                 "source stand. Besides them:");
    basis_list(job, BASIS_FIELD, document);
}
