/* What is offered: title, scope in plain words, what is included and what is not, validity, acceptance. */
#include "report/bid.h"

#include <string.h>

#include "model/item_words.h"
#include "model/piece.h"
#include "model/words.h"

const char *bid_job_title(const struct job *job) {
    return job->title ? job->title : "Ductwork";
}

void bid_job_facts(const struct job *job, struct document *document) {
    if (job->customer)
        document_fact(document, "Customer", job->customer);
    if (job->location)
        document_fact(document, "Location", job->location);
    if (job->revision)
        document_fact(document, "Revision", job->revision);
    if (job->date)
        document_fact(document, "Date", job->date);
}

void bid_deference(struct document *document) {
    document_paragraph(document,
                       "Local code, the authority having jurisdiction, the manufacturers' instructions and licensed "
                       "practice stand above this paper. Its figures are an aid to judgement; a qualified person must "
                       "review them before any work begins.");
}

void bid_title(const struct job *job, struct document *document) {
    document_heading(document, 1, bid_job_title(job));
    bid_job_facts(job, document);
    document_paragraph(document, "The price stands on a separate sheet; this paper carries none.");
    bid_deference(document);
}

/* ---- Scope ----------------------------------------------------------------------------------------------------- */

/* More outlets than this are left to the schedule. */
enum { ROOMS_NAMED = 12 };

static bool named_before(const struct network *network, size_t index) {
    const char *room = bid_room(network->supply_paths.at[index].end->terminal);
    for (size_t i = 0; i < index; i++)
        if (strcmp(room, bid_room(network->supply_paths.at[i].end->terminal)) == 0)
            return true;
    return false;
}

/* ", for Glaze room; Kiln room and Office", or "" when there are too many to name. */
static const char *rooms_text(struct document *document, const struct network *network) {
    size_t count = network->supply_paths.count, named = 0, distinct = 0;
    if (count > ROOMS_NAMED)
        return "";
    for (size_t i = 0; i < count; i++)
        distinct += !named_before(network, i);
    const char *text = "";
    for (size_t i = 0; i < count; i++) {
        if (named_before(network, i))
            continue;
        const char *joint = named == 0 ? ", for " : named + 1 == distinct ? " and " : "; ";
        text =
            arena_format(document->arena, "%s%s%s", text, joint, bid_room(network->supply_paths.at[i].end->terminal));
        named++;
    }
    return text;
}

static void unit_scope(struct document *document, const struct air_unit *unit) {
    const struct network *network = unit->network;
    const char *name = unit->title ? arena_format(document->arena, "%s (%s)", unit->name, unit->title) : unit->name;
    if (!network) {
        document_paragraph(document, "%s: no ductwork.", name);
        return;
    }
    if (network->supply_paths.count)
        document_paragraph(document, "Supply ductwork of %s, from its collar to %s, %s in all%s%s.", name,
                           bid_count(document, network->supply_paths.count, "outlet"),
                           bid_figure(document, SHOW_FLOW, network->supply_flow), rooms_text(document, network),
                           network->supply_paths.count > ROOMS_NAMED ? ", as scheduled below" : "");
    if (network->return_paths.count)
        document_paragraph(document, "Return ductwork of %s, from %s back to its collar, %s in all.", name,
                           bid_count(document, network->return_paths.count, "inlet"),
                           bid_figure(document, SHOW_FLOW, network->return_flow));
}

/* What the runs are made of, in the words of a scope. */
static const char *const material_words[] = {
    [MATERIAL_GALVANISED] = "galvanised steel",
    [MATERIAL_ALUMINIUM] = "aluminium",
    [MATERIAL_FIBROUS_BOARD] = "duct board",
    [MATERIAL_PVC] = "PVC",
};

/* A figure of the settings, over the runs that have it. */
struct spread {
    size_t runs;
    double least, most;
};

static const char *const location_words[] = {
    [LOCATION_CONDITIONED] = "conditioned rooms",
    [LOCATION_ATTIC] = "attic",
    [LOCATION_CRAWL] = "crawl space",
    [LOCATION_BASEMENT] = "basement",
    [LOCATION_OUTDOORS] = "outdoors",
};

/* Where runs lie. */
struct whereabouts {
    size_t runs;
    struct spread temperature; /* K, as far as given */
};

struct make {
    struct whereabouts in[LOCATION_COUNT];
    bool material[MATERIAL_COUNT], seal[SEAL_A + 1], flexible;
    size_t runs;
    struct spread insulation, lining; /* m2 K/W; m */
};

static bool is_flexible(const struct run *run) {
    for (size_t i = 0; i < run->pieces.count; i++)
        if (run->pieces.at[i]->kind->traits & PIECE_FLEXIBLE)
            return true;
    return false;
}

static bool has_own_metal(const struct run *run) {
    for (size_t i = 0; i < run->pieces.count; i++)
        if ((run->pieces.at[i]->kind->traits & (PIECE_LENGTH | PIECE_FLEXIBLE)) == PIECE_LENGTH)
            return true;
    return false;
}

static void spread_over(struct spread *spread, double figure) {
    if (figure <= 0)
        return;
    if (!spread->runs || figure < spread->least)
        spread->least = figure;
    if (figure > spread->most)
        spread->most = figure;
    spread->runs++;
}

static struct make make_of(const struct job *job) {
    struct make make = {.runs = job->runs.count};
    for (size_t i = 0; i < job->runs.count; i++) {
        const struct run *run = job->runs.at[i];
        make.flexible |= is_flexible(run);
        make.material[run->settings.material] |= has_own_metal(run);
        make.seal[run->settings.seal_set ? run->settings.seal : SEAL_NONE] = true;
        spread_over(&make.insulation, run->settings.insulation);
        spread_over(&make.lining, run->settings.lining);
        if (!run->settings.location_set)
            continue;
        make.in[run->settings.location].runs++;
        spread_over(&make.in[run->settings.location].temperature, run->settings.location_temperature);
    }
    return make;
}

static void add_words(struct document *document, const char **text, const char *words) {
    *text = *text ? arena_format(document->arena, "%s, %s", *text, words) : words;
}

/* An R-value as it is sold. */
static const char *r_value(struct document *document, double si) {
    if (document->system == MEASURE_METRIC)
        return arena_format(document->arena, "R %s", bid_figure(document, SHOW_RESISTANCE, si));
    return arena_format(document->arena, "R-%s", measure_figure(document->arena, MEASURE_US, SHOW_RESISTANCE, si));
}

static const char *thickness(struct document *document, double si) {
    return bid_figure(document, SHOW_SIZE, si);
}

/* "R-6.0 to on 9 of 12 runs". */
static void spread_fact(struct document *document, const char *key, const struct spread *spread, size_t runs,
                        const char *(*show)(struct document *document, double si)) {
    if (!spread->runs)
        return;
    const char *least = show(document, spread->least), *most = show(document, spread->most);
    const char *value = strcmp(least, most) == 0 ? least : arena_format(document->arena, "%s to %s", least, most);
    document_fact(
        document, key,
        arena_format(document->arena, "%s on %zu of %s", value, spread->runs, bid_count(document, runs, "run")));
}

static void made_of_fact(struct document *document, const struct make *make) {
    const char *materials = NULL;
    for (size_t i = 0; i < MATERIAL_COUNT; i++)
        if (make->material[i])
            add_words(document, &materials, material_words[i]);
    if (make->flexible)
        add_words(document, &materials, "flexible duct");
    if (materials)
        document_fact(document, "Made of", materials);
}

static void seal_fact(struct document *document, const struct make *make) {
    const char *classes = NULL;
    for (enum seal_class seal = SEAL_C; seal <= SEAL_A; seal++)
        if (make->seal[seal])
            add_words(document, &classes, seal_name(seal));
    if (classes)
        document_fact(document, "Seal class",
                      arena_format(document->arena, "%s%s", classes,
                                   make->seal[SEAL_NONE] ? ", on the runs that ask for it" : ""));
}

/* "crawl space at 60 F (15 of 15 runs)". */
static const char *whereabouts_text(struct document *document, enum location location, const struct make *make) {
    const struct whereabouts *in = &make->in[location];
    const char *least = bid_figure(document, SHOW_TEMPERATURE, in->temperature.least);
    const char *most = bid_figure(document, SHOW_TEMPERATURE, in->temperature.most), *at = "";
    if (in->temperature.runs && strcmp(least, most) == 0)
        at = arena_format(document->arena, " at %s", least);
    else if (in->temperature.runs)
        at = arena_format(document->arena, " at %s to %s", least, most);
    return arena_format(document->arena, "%s%s (%zu of %s)", location_words[location], at, in->runs,
                        bid_count(document, make->runs, "run"));
}

static void whereabouts_fact(struct document *document, const struct make *make) {
    const char *text = NULL;
    for (enum location location = 0; location < LOCATION_COUNT; location++)
        if (make->in[location].runs)
            add_words(document, &text, whereabouts_text(document, location, make));
    if (text)
        document_fact(document, "Where it runs", text);
}

void bid_scope(const struct job *job, struct document *document) {
    for (size_t i = 0; i < job->units.count; i++)
        unit_scope(document, job->units.at[i]);
    struct make make = make_of(job);
    made_of_fact(document, &make);
    whereabouts_fact(document, &make);
    spread_fact(document, "Insulation", &make.insulation, make.runs, r_value);
    spread_fact(document, "Lining", &make.lining, make.runs, thickness);
    seal_fact(document, &make);
}

/* ---- Included and not ------------------------------------------------------------------------------------------ */

void bid_included(const struct job *job, struct document *document) {
    if (!job->includes.count)
        document_bullet(document,
                        "The ducts, fittings, dampers, registers and grilles scheduled below, furnished and installed");
    for (size_t i = 0; i < job->includes.count; i++)
        document_bullet(document, "%s", job->includes.at[i]);
    for (size_t i = 0; i < job->notes.count; i++)
        document_paragraph(document, "Note: %s", job->notes.at[i]);
}

void bid_excluded(const struct job *job, struct document *document) {
    for (size_t i = 0; i < job->excludes.count; i++)
        document_bullet(document, "%s", job->excludes.at[i]);
    if (!job->excludes.count)
        document_paragraph(document, "No exclusion is stated. What this paper does not name is not part of it.");
}

/* "Cloakroom (cloak), 60 cfm". */
static const char *added_text(struct document *document, const struct run *run) {
    const char *words = bid_terminal(document, run);
    if (run->airflow > 0)
        return arena_format(document->arena, "%s, %s", words, bid_figure(document, SHOW_FLOW, run->airflow));
    if (run->load > 0)
        return arena_format(document->arena, "%s, for %s", words, bid_figure(document, SHOW_HEAT, run->load));
    return words;
}

/* "; adds Cloakroom (cloak), 60 cfm", or "" for one that adds no outlet or inlet. */
static const char *additions(struct document *document, const struct alternate *alternate) {
    const char *text = "";
    size_t count = 0;
    for (size_t i = 0; i < alternate->runs.count; i++) {
        const struct run *run = alternate->runs.at[i];
        if (run->role != RUN_DUCT && count++ < ROOMS_NAMED)
            text = arena_format(document->arena, "%s%s %s", text, *text ? ";" : "; adds", added_text(document, run));
    }
    return count > ROOMS_NAMED ? arena_format(document->arena, "%s; and %zu more", text, count - ROOMS_NAMED) : text;
}

void bid_alternates(const struct job *job, struct document *document) {
    document_paragraph(document, "Offered besides; no figure in this paper counts them.");
    for (size_t i = 0; i < job->alternates.count; i++) {
        const struct alternate *alternate = job->alternates.at[i];
        document_bullet(document, "%s%s%s%s", alternate->name, alternate->title ? ": " : "",
                        alternate->title ? alternate->title : "", additions(document, alternate));
    }
}

/* ---- Validity and acceptance ----------------------------------------------------------------------------------- */

void bid_validity(const struct job *job, struct document *document) {
    if (!job->valid_days)
        document_paragraph(document, "No period of validity is stated.");
    else if (job->date)
        document_paragraph(document, "This bid is good for %d days from %s.", job->valid_days, job->date);
    else
        document_paragraph(document, "This bid is good for %d days.", job->valid_days);
}

void bid_acceptance(const struct job *job, struct document *document) {
    document_paragraph(document, "Accepted as described above%s%s, with what it includes and does not include:",
                       job->revision ? ", revision " : "", job->revision ? job->revision : "");
    document_blank(document, "For the customer");
    document_blank(document, "Name and date");
    document_blank(document, "For the contractor");
    document_blank(document, "Name and date");
}
