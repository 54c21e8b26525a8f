/* The build-up to the price, the margin, and what alternates and one more of a thing come to. */
#include "cost/offer.h"
#include "model/item_words.h"
#include "model/shape.h"
#include "report/bid.h"
#include "report/office.h"

/* ---- Build-up ---------------------------------------------------------------------------------------------------- */

enum { STEP_WHAT, STEP_ON, STEP_BASE, STEP_RATE, STEP_AMOUNT, STEP_SUM, STEP_COLUMNS };

/* With the currency in the heads; they last as long as the table. */
static const struct column *step_columns(const struct job *job, struct document *document) {
    struct column *columns = ARENA_ARRAY(document->keep, struct column, STEP_COLUMNS);
    columns[STEP_WHAT] = (struct column){.head = "Step"};
    columns[STEP_ON] = (struct column){.head = "On"};
    columns[STEP_BASE] = (struct column){.head = office_head(job, document, "Base"), .kind = COLUMN_AMOUNT};
    columns[STEP_RATE] = (struct column){.head = "Rate", .kind = COLUMN_AMOUNT};
    columns[STEP_AMOUNT] = (struct column){.head = office_head(job, document, "Amount"), .kind = COLUMN_AMOUNT};
    columns[STEP_SUM] = (struct column){.head = office_head(job, document, "Sum"), .kind = COLUMN_AMOUNT};
    return columns;
}

static void step_row(struct document *document, struct table *table, const struct step *step) {
    struct arena *arena = document->arena;
    union cell *cells = table_row(table);
    cells[STEP_WHAT].text = step->title;
    cells[STEP_ON].text = step->on;
    if (step->on)
        cells[STEP_BASE].text = money_figure(arena, step->base, true);
    if (step->has_rate)
        cells[STEP_RATE].text = share_text(arena, step->rate);
    if (step->kind == STEP_LABOUR) {
        cells[STEP_ON].text = arena_format(arena, "%s h", hours_figure(arena, step->hours));
        cells[STEP_RATE].text = arena_format(arena, "%s/h", price_figure(arena, step->price));
    }
    cells[step_is_subtotal(step->kind) ? STEP_SUM : STEP_AMOUNT].text = money_figure(arena, step->amount, true);
}

void office_build_up(const struct job *job, struct document *document) {
    const struct build_up *up = &job->price->build_up;
    document_paragraph(document, "Every line is rounded to the cent, half up; each sum is of all amounts above it.");
    struct table *table = document_table(document, step_columns(job, document), STEP_COLUMNS);
    for (size_t i = 0; i < up->steps.count; i++)
        step_row(document, table, &up->steps.at[i]);
    if (document->drawings)
        document_drawing(document, figure_build_up(document->arena, job), "price-1.svg", "What the price is made of");
}

/* ---- Margin ------------------------------------------------------------------------------------------------------ */

/* "3,120.40, less cost 2,700.00, subcontracts 250.00 and a bond 40.00". */
static const char *what_is_spent(const struct job *job, struct document *document) {
    const struct build_up *up = &job->price->build_up;
    const char *apart =
        up->apart ? arena_format(document->arena, ", less subcontracts of %s", office_money(job, document, up->apart))
                  : "";
    const char *bond =
        up->bond ? arena_format(document->arena, ", less a bond of %s", office_money(job, document, up->bond)) : "";
    return arena_format(document->arena, "a price of %s, less a cost of %s%s%s", office_money(job, document, up->price),
                        office_money(job, document, up->cost), apart, bond);
}

void office_margin(const struct job *job, struct document *document) {
    const struct build_up *up = &job->price->build_up;
    struct arena *arena = document->arena;
    document_fact(document, "Kept",
                  arena_format(arena, "%s: %s", office_money(job, document, up->kept), what_is_spent(job, document)));
    if (up->kept < 0)
        document_paragraph(document, "The price does not cover what is spent.");
    document_fact(document, "As a margin",
                  arena_format(arena, "%s of the price", share_text(arena, build_up_margin(up))));
    document_fact(document, "As a markup",
                  arena_format(arena, "%s on all that is spent, which is %s", share_text(arena, build_up_markup(up)),
                               office_money(job, document, up->spent)));
    if (job->price->terms.round_to)
        document_fact(document, "What rounding gives or takes",
                      arena_format(arena, "%s, in what is kept", office_money(job, document, up->rounding)));
    if (job->price->terms.profit == PROFIT_NONE)
        document_paragraph(document, "No markup and no margin is stated: nothing is earned on this price.");
}

/* ---- Alternates -------------------------------------------------------------------------------------------------- */

enum { CHANGE_RUN, CHANGE_AT, CHANGE_BEFORE, CHANGE_AFTER, CHANGE_FLOW_BEFORE, CHANGE_FLOW_AFTER, CHANGE_COLUMNS };

static const struct column change_columns[CHANGE_COLUMNS] = {
    [CHANGE_RUN] = {.head = "Run"},
    [CHANGE_AT] = {.head = "From", .kind = COLUMN_FIGURE, .use = SHOW_RUN},
    [CHANGE_BEFORE] = {.head = "Size without"},
    [CHANGE_AFTER] = {.head = "Size with"},
    [CHANGE_FLOW_BEFORE] = {.head = "Air without", .kind = COLUMN_FIGURE, .use = SHOW_FLOW},
    [CHANGE_FLOW_AFTER] = {.head = "Air with", .kind = COLUMN_FIGURE, .use = SHOW_FLOW},
};

static const char *names(struct document *document, const char *const *at, size_t count) {
    const char *text = "";
    for (size_t i = 0; i < count && i < OFFER_CHANGES; i++)
        text = arena_format(document->arena, "%s%s%s", text, i ? ", " : "", at[i]);
    return count > OFFER_CHANGES ? arena_format(document->arena, "%s and %zu more", text, count - OFFER_CHANGES) : text;
}

static const char *size_words(const struct document *document, struct duct_size size) {
    return size_known(size) ? size_text(document->arena, document->system, size) : "none";
}

static void changes(struct document *document, const struct offer *offer) {
    if (!offer->changes.count) {
        document_paragraph(document, "Sizes and air of all other runs stay as they are.");
        return;
    }
    struct table *table = document_table(document, change_columns, CHANGE_COLUMNS);
    for (size_t i = 0; i < offer->changes.count; i++) {
        const struct offer_change *change = &offer->changes.at[i];
        union cell *cells = table_row(table);
        cells[CHANGE_RUN].text = change->run;
        cells[CHANGE_AT].figure = change->station;
        cells[CHANGE_BEFORE].text = size_words(document, change->before);
        cells[CHANGE_AFTER].text = size_words(document, change->after);
        cells[CHANGE_FLOW_BEFORE].figure = change->flow_before;
        cells[CHANGE_FLOW_AFTER].figure = change->flow_after;
    }
    if (offer->change_count > offer->changes.count)
        document_paragraph(document, "%zu more changes are not listed.", offer->change_count - offer->changes.count);
}

static void offer_facts(const struct job *job, struct document *document, const struct offer *offer) {
    if (offer->priced) {
        money difference = offer->difference;
        document_fact(document, difference < 0 ? "Deduct" : "Add",
                      office_money(job, document, difference < 0 ? -difference : difference));
        document_fact(document, "Price with it", office_money(job, document, offer->total));
    }
    if (offer->added.count)
        document_fact(document, "Adds", names(document, offer->added.at, offer->added.count));
    if (offer->removed.count)
        document_fact(document, "Leaves out", names(document, offer->removed.at, offer->removed.count));
    for (size_t i = 0; i < offer->warnings.count; i++)
        document_fact(document, arena_format(document->arena, "Warning, %s", offer->warnings.at[i].check),
                      offer->warnings.at[i].message);
}

void office_offers(const struct job *job, struct document *document) {
    document_paragraph(
        document, "The whole job was designed and priced anew with each alternate by itself. Its add or deduct is the "
                  "difference of the two prices. Those of several do not add up to that of the job with all of them.");
    money step = office_is_priced(job) ? job->price->terms.round_to : 0;
    if (step)
        document_paragraph(document,
                           "Both prices are rounded before they are compared, so that a difference may be off by up "
                           "to %s, or be none where it is small.",
                           office_money(job, document, step));
    for (size_t i = 0; i < job->alternates.count; i++) {
        const struct alternate *alternate = job->alternates.at[i];
        document_relieve(document);
        document_heading(document, 3,
                         alternate->title ? arena_format(document->arena, "%s: %s", alternate->name, alternate->title)
                                          : alternate->name);
        if (!alternate->offer)
            continue;
        offer_facts(job, document, alternate->offer);
        changes(document, alternate->offer);
    }
}

/* ---- What one more costs ----------------------------------------------------------------------------------------- */

enum { ASK_WHAT, ASK_AMOUNT, ASK_HOW, ASK_COLUMNS };

void office_what_ifs(const struct job *job, struct document *document) {
    struct column *columns = ARENA_ARRAY(document->keep, struct column, ASK_COLUMNS);
    columns[ASK_WHAT] = (struct column){.head = "One more"};
    columns[ASK_AMOUNT] =
        (struct column){.head = office_head(job, document, "Adds to the price"), .kind = COLUMN_AMOUNT};
    columns[ASK_HOW] = (struct column){.head = "How it was found"};
    document_paragraph(document, "Found by designing and pricing the changed job anew, sizes and whole packages "
                                 "included, and not by a rate. Prices before rounding are compared.");
    struct table *table = document_table(document, columns, ASK_COLUMNS);
    for (size_t i = 0; i < job->price->what_ifs.count; i++) {
        const struct what_if *what_if = &job->price->what_ifs.at[i];
        union cell *cells = table_row(table);
        cells[ASK_WHAT].text = what_if->title;
        cells[ASK_AMOUNT].text =
            what_if->known ? money_figure(document->arena, what_if->difference, true) : "not known";
        cells[ASK_HOW].text =
            what_if->known
                ? what_if->how
                : arena_format(document->arena, "%s; but that cannot be built as it is described", what_if->how);
    }
}
