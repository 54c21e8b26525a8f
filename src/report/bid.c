/* The customer's packet, the bid: its table of sections, and what several sections need. */
#include "report/bid.h"

#include <strings.h>

#include "report/what_flows.h"
#include "report/packet.h"
#include "report/figure_route.h"
#include "report/system_figures.h"

static bool has_alternates(const struct job *job) {
    return job->alternates.count > 0;
}

static bool has_acceptances(const struct job *job) {
    return job->acceptances.count > 0;
}

/* The offer first, short; then the record of the design, for whoever checks it. */
static const struct packet_section sections[] = {
    {.write = bid_title},
    {.heading = "Scope of work", .write = bid_scope},
    {.heading = "Included", .write = bid_included},
    {.heading = "Not included", .write = bid_excluded},
    {.heading = "Price", .write = bid_price, .wanted = bid_is_priced},
    {.heading = "Alternates", .write = bid_alternates, .wanted = has_alternates},
    {.heading = "What this bid rests on", .write = bid_rests_on},
    {.heading = "To be measured before work begins", .write = bid_to_verify},
    {.heading = "Schedule and validity", .write = bid_validity},
    {.heading = "Terms", .write = bid_terms},
    {.heading = "How the design was checked", .write = bid_checked},
    {.heading = "Safety and code", .write = bid_safety},
    {.heading = "Acceptance", .write = bid_acceptance},
    {.write = bid_record},
    {.heading = "The system at a glance", .write = system_tree, .wanted = system_has_network},
    {.heading = "Supply outlets", .write = bid_outlets},
    {.heading = "Return inlets", .write = bid_returns},
    {.heading = "Ducts", .write = bid_ducts},
    {.heading = "Blower and system", .write = system_blower, .wanted = system_has_path},
    {.heading = "Plan", .write = figure_route_plan, .wanted = figure_route_wanted},
    {.heading = "Pressure budget", .write = bid_budget},
    {.heading = "What will really flow", .write = report_what_flows, .wanted = report_knows_what_flows},
    {.heading = "Pressure losses of every run", .write = bid_losses},
    {.heading = "Heat and leakage", .write = bid_heat, .wanted = system_has_network},
    {.heading = "How the sizes were chosen", .write = bid_sizing},
    {.heading = "Checks", .write = bid_checks},
    {.heading = "Accepted deviations", .write = bid_accepted, .wanted = has_acceptances},
    {.heading = "Cautions", .write = bid_cautions},
    {.heading = "Basis of calculation", .write = bid_basis},
};

const struct packet packet_customer = {
    .tells_price = true,
    .words = "the bid: scope, terms, acceptance, and the record of the design",
    .sections = sections,
    .section_count = sizeof sections / sizeof sections[0],
    .drawn = true,
};

const char *bid_count(struct document *document, size_t count, const char *what) {
    return arena_format(document->arena, "%zu %s%s", count, what, count == 1 ? "" : "s");
}

const char *bid_figure(const struct document *document, enum measure_use use, double si) {
    return measure_text(document->arena, document->system, use, si);
}

void bid_unit_heading(const struct job *job, struct document *document, const struct air_unit *unit) {
    if (job->units.count < 2)
        return;
    document_relieve(document);
    document_heading(document, 3,
                     unit->title ? arena_format(document->arena, "%s (%s)", unit->title, unit->name) : unit->name);
}

const char *bid_room(const struct run *run) {
    return run->room && *run->room ? run->room : run->name;
}

const char *bid_plain_name(const struct run *run) {
    return run->room && *run->room ? run->room : run->title && *run->title ? run->title : run->name;
}

const char *bid_terminal(const struct document *document, const struct run *run) {
    const char *room = bid_room(run);
    return strcasecmp(room, run->name) == 0 ? room : arena_format(document->arena, "%s (%s)", room, run->name);
}
