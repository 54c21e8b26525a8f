/* How the design was checked, in half a page; the safety and code notes of the offer;
 * where the design record begins. */
#include "report/bid.h"

#include <math.h>

/* The figure is printed by its size; the words say whether it is left over or wanting. */
static void unit_checked(struct document *document, const struct network *network) {
    const struct air_unit *unit = network->unit;
    const char *air = bid_figure(document, SHOW_FLOW, unit->airflow);
    if (!network->blower_known || network->system_pressure <= 0)
        return;
    const char *gives = bid_figure(document, SHOW_PRESSURE, network->blower_pressure);
    const char *takes = bid_figure(document, SHOW_PRESSURE, network->system_pressure);
    const char *parts = network->unit_drops > 0 ? arena_format(document->arena, ", of which %s in the unit itself",
                                                               bid_figure(document, SHOW_PRESSURE, network->unit_drops))
                                                : "";
    const char *rest = bid_figure(document, SHOW_PRESSURE, fabs(network->surplus));
    document_paragraph(
        document, "At %s the blower of %s gives %s of pressure. The path that costs the most takes %s%s; %s is %s.",
        air, unit->name, gives, takes, parts, rest, network->surplus < 0 ? "wanting" : "left over");
}

static void rules_checked(const struct job *job, struct document *document) {
    size_t looked_at = 0, warned = 0, accepted = 0;
    for (size_t i = 0; i < job->checks.count; i++) {
        looked_at += job->checks.at[i].looked_at;
        warned += job->checks.at[i].warned;
        accepted += job->checks.at[i].accepted;
    }
    if (!job->checks.count)
        return;
    const char *open = !warned       ? "No warning is open"
                       : warned == 1 ? "1 warning is open and stands there"
                                     : arena_format(document->arena, "%zu warnings are open and stand there", warned);
    const char *settled =
        !accepted ? ""
        : accepted == 1
            ? "; 1 deviation was accepted, with its reason"
            : arena_format(document->arena, "; %zu deviations were accepted, each with its reason", accepted);
    document_paragraph(document,
                       "%s were applied at %zu places, such as the speed of the air, the length of flexible duct, "
                       "room for every tap and the thickness of the sheet; the design record lists them. %s%s.",
                       bid_count(document, job->checks.count, "rule"), looked_at, open, settled);
}

void bid_checked(const struct job *job, struct document *document) {
    document_paragraph(document,
                       "The air of every outlet was added up toward the unit, every duct was given a standard "
                       "size, and what each length of duct, each fitting, register and filter takes of the "
                       "blower's pressure was computed by published relations, piece by piece, with no lump "
                       "allowance.");
    for (size_t i = 0; i < job->units.count; i++)
        if (job->units.at[i]->network)
            unit_checked(document, job->units.at[i]->network);
    rules_checked(job, document);
    document_paragraph(document,
                       "What no computation can show is how the building was found and how tightly the duct was "
                       "made. That is shown at start-up, by static pressures and airflows measured against the "
                       "figures of the design. The design record below lets anyone who is qualified check each of "
                       "them, with its source.");
}

void bid_safety(const struct job *job, struct document *document) {
    (void)job;
    document_paragraph(document,
                       "The work follows local code and the instructions of the manufacturers, and is open to "
                       "inspection. Whether a permit is needed, the authority having jurisdiction says.");
    bid_caution(document, CAUTION_COMBUSTION);
    bid_caution(document, CAUTION_ASBESTOS);
    bid_caution(document, CAUTION_FIRE);
}

void bid_record(const struct job *job, struct document *document) {
    (void)job;
    document_new_page(document);
    document_heading(document, 1, "Design record");
    document_paragraph(document,
                       "What follows changes nothing in the offer above. It is the design in figures, so that the "
                       "customer can have it checked, and so that it can be found again when the system is "
                       "changed.");
}
