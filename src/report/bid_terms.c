/* What the offer stands on: what is included and what is not, what it rests on, time, terms, acceptance.
 *
 * Where the job is silent, what a careful shop would say stands there, marked as standard (common practice, no source).
 */
#include "report/bid.h"

#include "model/piece.h"

/* ---- Included and not -------------------------------------------------------------------------------------------- */

/* The last only where something is insulated or lined. */
static const char *const standard_includes[] = {
    "The ducts, fittings, dampers, registers and grilles of the design record, furnished and installed",
    "Hangers, fasteners and sealant",
    "Start-up with the unit in working order: the airflow of every outlet measured and balanced, with a written record",
    "Removal of our own waste",
    "The insulation and lining stated above",
};
enum { INCLUDES = sizeof standard_includes / sizeof standard_includes[0] };

static const char *const standard_excludes[] = {
    "Equipment, refrigerant lines, condensate drains and flues",
    "Line-voltage and control wiring, and smoke detectors",
    "Cutting and strengthening of structural members, and roofing",
    "Patching and painting, and firestopping other than at our own duct",
    "Finding, testing and removing asbestos, lead and mould",
    "Permits and fees, unless they are named above",
    "Load calculation: the airflows are taken as they were given",
};

static const char *const standard_assumes[] = {
    "The owner gives clear and safe access to where the duct runs, a dry place for material, and electric power and "
    "light at the place of work.",
    "The work is done in one stay and in ordinary working hours.",
    "Old material that may hold asbestos or lead stops the work at that place until it has been tested and made safe "
    "by those licensed for it.",
    "Whoever answers for the structure approves every opening in it beforehand.",
};

static const char *const standard_terms[] = {
    "Terms of payment are agreed in writing before work begins.",
    "A change is made in writing, and what it costs and how long it takes is settled before it is carried out.",
};

#define STANDARD(list) list, sizeof(list) / sizeof(list)[0]

/* The job's own, or what is standard, said to be so. */
static void bullets(struct document *document, const char *const *own, size_t own_count, const char *const *standard,
                    size_t standard_count) {
    if (!own_count)
        document_paragraph(document, "Nothing else being stated, this is standard for work of this kind:");
    for (size_t i = 0; i < (own_count ? own_count : standard_count); i++)
        document_bullet(document, "%s", own_count ? own[i] : standard[i]);
}

static bool is_covered(const struct job *job) {
    for (size_t i = 0; i < job->runs.count; i++)
        if (job->runs.at[i]->settings.insulation > 0 || job->runs.at[i]->settings.lining > 0)
            return true;
    return false;
}

void bid_included(const struct job *job, struct document *document) {
    bullets(document, job->includes.at, job->includes.count, standard_includes,
            is_covered(job) ? INCLUDES : INCLUDES - 1);
    for (size_t i = 0; i < job->notes.count; i++)
        document_paragraph(document, "Note: %s", job->notes.at[i]);
}

void bid_excluded(const struct job *job, struct document *document) {
    bullets(document, job->excludes.at, job->excludes.count, STANDARD(standard_excludes));
    document_paragraph(document, "What this paper does not name is not part of it.");
}

/* ---- What it rests on -------------------------------------------------------------------------------------------- */

/* What the job left open. */
struct openness {
    size_t drops;  /* registers, grilles and filters without a maker's figure */
    size_t pieces; /* put in without being named */
    size_t loads;  /* outlets whose airflow comes from a load */
};

static size_t assumed_drops(const struct network *network) {
    size_t count = 0;
    for (size_t s = 0; s < network->sections.count; s++)
        for (size_t i = 0; i < network->sections.at[s]->items.count; i++)
            count += network->sections.at[s]->items.at[i].loss.source == SOURCE_ASSUMED_DROP;
    return count;
}

static struct openness openness_of(const struct job *job) {
    struct openness open = {0};
    for (size_t i = 0; i < job->units.count; i++)
        if (job->units.at[i]->network)
            open.drops += assumed_drops(job->units.at[i]->network);
    for (size_t i = 0; i < job->runs.count; i++) {
        const struct run *run = job->runs.at[i];
        open.loads += run->difference > 0;
        for (size_t p = 0; p < run->pieces.count; p++)
            open.pieces += run->pieces.at[p]->implied;
    }
    return open;
}

void bid_rests_on(const struct job *job, struct document *document) {
    struct openness open = openness_of(job);
    size_t estimates = bid_estimates(job);
    if (open.loads)
        document_bullet(document,
                        "Airflows are taken as they were given, those of %s from the loads that were given. A load "
                        "calculation is not part of this bid.",
                        bid_count(document, open.loads, "outlet"));
    else
        document_bullet(document, "Airflows are taken as they were given. A load calculation is not part of this bid.");
    document_bullet(document, "The unit, its blower and the parts in it are taken as the design record states them; "
                              "another unit asks for another design.");
    if (estimates)
        document_bullet(document,
                        "%s %s estimated, as listed below. They are measured before anything is cut, and what a "
                        "difference changes is settled in writing first.",
                        bid_count(document, estimates, "dimension"), estimates == 1 ? "is" : "are");
    if (open.drops)
        document_bullet(
            document,
            "No maker's figure was given for the pressure that %zu register%s, grille%s or filter%s take%s; a "
            "common figure stands there until the maker's is known.",
            open.drops, open.drops == 1 ? "" : "s", open.drops == 1 ? "" : "s", open.drops == 1 ? "" : "s",
            open.drops == 1 ? "s" : "");
    if (open.pieces)
        document_bullet(document,
                        "%s %s put in where the duct cannot do without and none was named; the design record marks "
                        "them (assumed).",
                        bid_count(document, open.pieces, "fitting"), open.pieces == 1 ? "was" : "were");
    bullets(document, job->assumes.at, job->assumes.count, STANDARD(standard_assumes));
}

/* ---- Time and terms ---------------------------------------------------------------------------------------------- */

void bid_validity(const struct job *job, struct document *document) {
    document_paragraph(document, "Work begins on a day agreed in writing after acceptance%s.",
                       bid_estimates(job) ? ", when the dimensions that are estimated have been measured" : "");
    if (!job->valid_days)
        document_paragraph(document, "No period of validity is stated.");
    else if (job->date)
        document_paragraph(document, "This bid is good for %d days from %s.", job->valid_days, job->date);
    else
        document_paragraph(document, "This bid is good for %d days.", job->valid_days);
}

void bid_terms(const struct job *job, struct document *document) {
    bool own = job->terms.count > 0;
    bullets(document, own ? job->terms.at : job->shop.terms.at, own ? job->terms.count : job->shop.terms.count,
            STANDARD(standard_terms));
}

void bid_acceptance(const struct job *job, struct document *document) {
    document_paragraph(document, "Accepted as described above%s%s, with what it includes and does not include:",
                       job->revision ? ", revision " : "", job->revision ? job->revision : "");
    if (job->alternates.count)
        document_blank(document, job->alternates.count == 1 ? "Alternate accepted"
                                                            : "Alternate accepted (more than one: priced anew first)");
    document_blank(document, "For the customer");
    document_blank(document, "Name and date");
    document_blank(document, "For the contractor");
    document_blank(document, "Name and date");
}
