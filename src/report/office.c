/* The office sheet: its table of sections, and what several of them need. */
#include "report/office.h"

#include "report/bid.h"
#include "report/packet.h"
#include "report/system_figures.h"

bool office_is_priced(const struct job *job) {
    return bid_is_priced(job);
}

static bool has_offers(const struct job *job) {
    return job->alternates.count > 0;
}

static bool has_what_ifs(const struct job *job) {
    return office_is_priced(job) && job->price->what_ifs.count;
}

static bool has_takeoff(const struct job *job) {
    return job->takeoff && job->takeoff->lines.count;
}

static bool has_labour(const struct job *job) {
    return office_is_priced(job) && job->price->labour.count;
}

static const struct packet_section sections[] = {
    {.write = office_title},
    {.heading = "Build-up to the price", .write = office_build_up, .wanted = office_is_priced},
    {.heading = "Margin", .write = office_margin, .wanted = office_is_priced},
    {.heading = "Alternates", .write = office_offers, .wanted = has_offers},
    {.heading = "What one more costs", .write = office_what_ifs, .wanted = has_what_ifs},
    {.heading = "Take-off", .write = office_takeoff, .wanted = has_takeoff},
    {.heading = "How it was counted", .write = office_counted, .wanted = has_takeoff},
    {.heading = "Labour", .write = office_labour, .wanted = has_labour},
    {.heading = "Assumed", .write = office_assumed},
    {.heading = "To be measured", .write = office_to_verify},
    {.heading = "Warnings and accepted deviations", .write = office_warnings},
    {.heading = "Basis", .write = office_basis},
};

const struct packet packet_office = {
    .words = "the take-off, hours, and the build-up to the price",
    .sections = sections,
    .section_count = sizeof sections / sizeof sections[0],
    .csv = office_takeoff_csv,
    .drawn = true,
    .tells_price = true,
    .asks_what_ifs = true,
    .asks_effects = true,
};

/* ---- What several sections need ---------------------------------------------------------------------------------- */

const char *office_money(const struct job *job, struct document *document, money sum) {
    return money_text(document->arena, &job->price->currency, sum);
}

const char *office_head(const struct job *job, struct document *document, const char *words) {
    const char *mark = job->price ? job->price->currency.mark : "";
    return *mark ? arena_format(document->keep, "%s, %s", words, mark) : words;
}

static const char *quantity_text(struct arena *arena, enum measure_system system, enum bill_measure measure,
                                 thousandths quantity) {
    static const char *const units[][2] = {
        [BILL_EACH] = {"", ""},         [BILL_LENGTH] = {" ft", " m"},
        [BILL_AREA] = {" ft2", " m2"},  [BILL_VOLUME] = {" gallon", " L"},
        [BILL_WEIGHT] = {" lb", " kg"},
    };
    return arena_format(arena, "%s%s", quantity_figure(arena, quantity), units[measure][system == MEASURE_METRIC]);
}

static thousandths step_of(enum bill_measure measure) {
    return measure == BILL_VOLUME ? QUANTITY_PARTS / 100 : QUANTITY_PARTS / 10;
}

const char *office_quantity(struct arena *arena, enum measure_system system, enum bill_measure measure, double si) {
    double amount = si / sale_unit_usual(measure, system)->size;
    return quantity_text(arena, system, measure, quantity_nearest(amount, step_of(measure)));
}

const char *office_wanted(struct arena *arena, enum measure_system system, enum bill_measure measure, double si) {
    double amount = si / sale_unit_usual(measure, system)->size;
    return quantity_text(arena, system, measure, sale_quantity(amount, step_of(measure), measure));
}

const char *office_group(enum bill_group group) {
    static const char *const words[BILL_GROUP_COUNT] = {
        [BILL_SHEET] = "Sheet",
        [BILL_FLEXIBLE] = "Flexible duct and connectors",
        [BILL_FACES] = "Registers, grilles, filters",
        [BILL_FITTINGS] = "Bought fittings",
        [BILL_HANGING] = "Hangers",
        [BILL_FASTENING] = "Screws and ties",
        [BILL_SEALING] = "Sealant and tape",
        [BILL_INSULATION] = "Insulation",
    };
    return words[group];
}

/* ---- The first page ---------------------------------------------------------------------------------------------- */

static void price_facts(const struct job *job, struct document *document) {
    const struct build_up *up = &job->price->build_up;
    struct arena *arena = document->arena;
    document_fact(document, "Price", office_money(job, document, up->total));
    if (up->total != up->price)
        document_fact(document, "Price before sales tax on it", office_money(job, document, up->price));
    document_fact(document, "Spent",
                  arena_format(arena, "%s: cost%s%s", office_money(job, document, up->spent),
                               up->apart ? ", subcontracts" : "", up->bond ? ", bond" : ""));
    document_fact(document, "Kept",
                  arena_format(arena, "%s, %s of the price", office_money(job, document, up->kept),
                               share_text(arena, build_up_margin(up))));
    document_fact(document, "Hours",
                  arena_format(arena, "%s in the shop, %s in the field",
                               hours_figure(arena, job->price->sums.hours[LABOUR_SHOP]),
                               hours_figure(arena, job->price->sums.hours[LABOUR_FIELD])));
}

void office_title(const struct job *job, struct document *document) {
    document_heading(document, 1, arena_format(document->arena, "%s: for the office", bid_job_title(job)));
    bid_job_facts(job, document);
    if (job->shop.name)
        document_fact(document, "Shop", job->shop.name);
    if (office_is_priced(job))
        price_facts(job, document);
    bid_deference(document);
    document_paragraph(document, "This sheet is not for the customer.");
    if (!office_is_priced(job))
        document_paragraph(
            document,
            "The job is not priced: neither shop nor job states a rate, a markup or a margin. A shop that prices "
            "it says at least: rate shop 38 per hour; rate field 44 per hour; markup 15 %%; and the prices and "
            "hours of what is counted below.");
    system_drawings_note(document);
}
