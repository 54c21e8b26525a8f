/* What is offered: title, and the scope in plain words. */
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

static const char *joined(struct document *document, const char *const *texts, size_t count) {
    const char *text = NULL;
    for (size_t i = 0; i < count; i++)
        text = text ? arena_format(document->arena, "%s, %s", text, texts[i]) : texts[i];
    return text;
}

/* Who offers it. */
static void shop_facts(const struct shop *shop, struct document *document) {
    if (shop->name && *shop->name)
        document_fact(document, "Contractor", shop->name);
    if (shop->contacts.count)
        document_fact(document, "Contact", joined(document, shop->contacts.at, shop->contacts.count));
    if (shop->licence)
        document_fact(document, "Licence", shop->licence);
}

void bid_title(const struct job *job, struct document *document) {
    document_heading(document, 1, bid_job_title(job));
    bid_job_facts(job, document);
    shop_facts(&job->shop, document);
    bid_price_line(job, document);
    bid_deference(document);
}

/* ---- Scope ------------------------------------------------------------------------------------------------------- */

/* More outlets than this are left to the schedule. */
enum { ROOMS_NAMED = 12 };

struct paths {
    const struct path *at;
    size_t count;
};

static const char *room_of(const struct paths *paths, size_t index) {
    return bid_room(paths->at[index].end->terminal);
}

static bool named_before(const struct paths *paths, size_t index) {
    for (size_t i = 0; i < index; i++)
        if (strcmp(room_of(paths, index), room_of(paths, i)) == 0)
            return true;
    return false;
}

/* "Glaze room; Kiln room and Office". */
static const char *rooms_text(struct document *document, const struct paths *paths) {
    size_t named = 0, distinct = 0;
    const char *text = "";
    for (size_t i = 0; i < paths->count; i++)
        distinct += !named_before(paths, i);
    for (size_t i = 0; i < paths->count; i++) {
        if (named_before(paths, i))
            continue;
        const char *joint = named == 0 ? "" : named + 1 == distinct ? " and " : "; ";
        text = arena_format(document->arena, "%s%s%s", text, joint, room_of(paths, i));
        named++;
    }
    return text;
}

/* "10 outlets with 1200 cfm in all, for Glaze room and Office"; too many to name are left to the schedule. */
static const char *terminals_text(struct document *document, const struct paths *paths, const char *what,
                                  const char *where, double flow) {
    const char *count = bid_count(document, paths->count, what), *air = bid_figure(document, SHOW_FLOW, flow);
    if (paths->count > ROOMS_NAMED)
        return arena_format(document->arena, "%s with %s in all, as the design record schedules them", count, air);
    return arena_format(document->arena, "%s with %s in all, %s %s", count, air, where, rooms_text(document, paths));
}

/* "its 20 x 14 in collar". */
static const char *collar_text(struct document *document, struct duct_size collar) {
    if (!size_known(collar))
        return "its collar";
    return arena_format(document->arena, "its %s collar", size_text(document->arena, document->system, collar));
}

static void unit_scope(struct document *document, const struct air_unit *unit) {
    const struct network *network = unit->network;
    const char *name = unit->title ? arena_format(document->arena, "%s (%s)", unit->name, unit->title) : unit->name;
    if (!network) {
        document_paragraph(document, "%s: no ductwork.", name);
        return;
    }
    struct paths supply = {network->supply_paths.at, network->supply_paths.count};
    struct paths back = {network->return_paths.at, network->return_paths.count};
    if (supply.count)
        document_paragraph(document, "Furnish and install the supply ductwork of %s, from %s to %s.", name,
                           collar_text(document, unit->supply),
                           terminals_text(document, &supply, "outlet", "for", network->supply_flow));
    if (back.count)
        document_paragraph(document, "Furnish and install the return ductwork of %s, from %s, back to %s.",
                           supply.count ? unit->name : name,
                           terminals_text(document, &back, "inlet", "in", network->return_flow),
                           collar_text(document, unit->return_));
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
    bool material[MATERIAL_COUNT], seal[SEAL_A + 1];
    size_t runs, flexible;            /* all, and those with flexible duct */
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
        make.flexible += is_flexible(run);
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

const char *bid_r_value(struct document *document, double si) {
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
    if (make->flexible)
        document_fact(
            document, "Flexible duct",
            arena_format(document->arena, "on %zu of %s", make->flexible, bid_count(document, make->runs, "run")));
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

/* "a volume damper for 4 of 5 outlets". */
static void balance_fact(const struct job *job, struct document *document) {
    size_t outlets = 0, dampers = 0;
    for (size_t i = 0; i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        for (size_t p = 0; network && p < network->supply_paths.count; p++) {
            outlets++;
            dampers += network->supply_paths.at[p].damper != NULL;
        }
    }
    const char *count = bid_count(document, outlets, "outlet");
    if (dampers)
        document_fact(document, "Balancing",
                      dampers == outlets
                          ? arena_format(document->arena, "a volume damper for each of the %s", count)
                          : arena_format(document->arena, "a volume damper for %zu of %s", dampers, count));
}

void bid_scope(const struct job *job, struct document *document) {
    for (size_t i = 0; i < job->units.count; i++)
        unit_scope(document, job->units.at[i]);
    struct make make = make_of(job);
    made_of_fact(document, &make);
    whereabouts_fact(document, &make);
    spread_fact(document, "Insulation", &make.insulation, make.runs, bid_r_value);
    spread_fact(document, "Lining", &make.lining, make.runs, thickness);
    seal_fact(document, &make);
    balance_fact(job, document);
}
