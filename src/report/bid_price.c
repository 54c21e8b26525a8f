/* What the customer pays, what that covers, and what each alternate adds or takes off: no cost, no hour, no rate of
 * what is earned. */
#include <string.h>

#include "cost/offer.h"
#include "cost/price.h"
#include "report/bid.h"

bool bid_is_priced(const struct job *job) {
    return job->price && job->price->complete;
}

static const char *amount(const struct job *job, struct document *document, money sum) {
    return money_text(document->arena, &job->price->currency, sum);
}

static bool has_tax(const struct price *price) {
    const percentage *tax = price->terms.tax;
    return tax[TAX_PRICE] || tax[TAX_MATERIAL] || tax[TAX_LABOUR];
}

void bid_price_line(const struct job *job, struct document *document) {
    if (!bid_is_priced(job))
        document_paragraph(document, "The price stands on a separate sheet; this paper carries none.");
    else
        document_fact(document, "Price",
                      arena_format(document->arena, "%s%s", amount(job, document, job->price->build_up.total),
                                   has_tax(job->price) ? ", sales tax included" : ""));
}

/* ---- Price ------------------------------------------------------------------------------------------------------- */

/* The taxes in the price; without their amount where that would reveal a cost. */
static void tax_said(const struct job *job, struct document *document) {
    const struct price *price = job->price;
    const percentage *tax = price->terms.tax;
    if (tax[TAX_PRICE])
        document_paragraph(document, "This is %s and sales tax of %s, %s.",
                           amount(job, document, price->build_up.price), share_text(document->arena, tax[TAX_PRICE]),
                           amount(job, document, price->build_up.tax_on_price));
    if (tax[TAX_MATERIAL] || tax[TAX_LABOUR])
        document_paragraph(document, "Sales tax on %s is in the price.",
                           !tax[TAX_LABOUR]     ? "material"
                           : !tax[TAX_MATERIAL] ? "labour"
                                                : "material and labour");
    if (!tax[TAX_PRICE] && !tax[TAX_MATERIAL] && !tax[TAX_LABOUR])
        document_paragraph(document, "No sales tax is in the price; what is due comes on top of it.");
}

/* Fixed lines and subcontracts, whoever states them: what is charged is named. */
static void covered_besides(const struct price *price, struct document *document) {
    for (size_t i = 0; i < price->terms.extras.count; i++) {
        if (!i)
            document_paragraph(document, "In the price besides:");
        document_bullet(document, "%s", price->terms.extras.at[i].title);
    }
}

void bid_price(const struct job *job, struct document *document) {
    document_paragraph(document, "The work described above, with all that is included, for %s.",
                       amount(job, document, job->price->build_up.total));
    covered_besides(job->price, document);
    tax_said(job, document);
    document_paragraph(document, "It is one price for the whole. %s",
                       !job->valid_days ? "How long it stands is said under validity."
                       : job->date
                           ? arena_format(document->arena, "It stands for %d days from %s.", job->valid_days, job->date)
                           : arena_format(document->arena, "It stands for %d days.", job->valid_days));
}

/* ---- Alternates -------------------------------------------------------------------------------------------------- */

/* More names than this are not listed. */
enum { NAMED = 8 };

static const struct run *run_named(struct run *const *runs, size_t count, const char *name) {
    for (size_t i = 0; i < count; i++)
        if (strcmp(runs[i]->name, name) == 0)
            return runs[i];
    return NULL;
}

/* "Cloakroom, 60 cfm". */
static const char *terminal_words(struct document *document, const struct run *run) {
    const char *words = bid_room(run);
    if (run->airflow > 0)
        return arena_format(document->arena, "%s, %s", words, bid_figure(document, SHOW_FLOW, run->airflow));
    if (run->load > 0)
        return arena_format(document->arena, "%s, for %s", words, bid_figure(document, SHOW_HEAT, run->load));
    return words;
}

/* "; adds Cloakroom (cloak), 50 cfm", for outlets and inlets alone. */
static const char *rooms(struct document *document, const char *verb, const char *const *names, size_t count,
                         struct run *const *runs, size_t run_count) {
    const char *text = "";
    for (size_t i = 0; i < count && i < NAMED; i++) {
        const struct run *run = run_named(runs, run_count, names[i]);
        if (run && run->role != RUN_DUCT)
            text = arena_format(document->arena, "%s; %s%s", text, *text ? "" : verb, terminal_words(document, run));
    }
    return count > NAMED ? arena_format(document->arena, "%s; and %zu more", text, count - NAMED) : text;
}

static const char *what_it_changes(const struct job *job, struct document *document,
                                   const struct alternate *alternate) {
    const struct offer *offer = alternate->offer;
    const char *title = alternate->title ? alternate->title : alternate->name;
    if (!offer)
        return title;
    return arena_format(
        document->arena, "%s%s%s", title,
        rooms(document, "adds ", offer->added.at, offer->added.count, alternate->runs.at, alternate->runs.count),
        rooms(document, "leaves out ", offer->removed.at, offer->removed.count, job->runs.at, job->runs.count));
}

/* "A: add $340.00". */
static const char *what_it_asks(const struct job *job, struct document *document, const struct alternate *alternate) {
    const struct offer *offer = alternate->offer;
    if (!offer || !offer->priced)
        return alternate->name;
    if (!offer->difference)
        return arena_format(document->arena, "%s: the price stays", alternate->name);
    bool deduct = offer->difference < 0;
    return arena_format(document->arena, "%s: %s %s", alternate->name, deduct ? "deduct" : "add",
                        amount(job, document, deduct ? -offer->difference : offer->difference));
}

void bid_alternates(const struct job *job, struct document *document) {
    document_paragraph(
        document, "%s",
        bid_is_priced(job)
            ? "Offered besides; no other figure in this paper counts them. The design was made and priced anew with "
              "each: the amount is added to the price, or deducted from it, when the alternate is taken by itself."
            : "Offered besides; no figure in this paper counts them. The design was made anew with each by itself.");
    if (job->alternates.count > 1)
        document_paragraph(document, bid_is_priced(job)
                                         ? "Each amount is for that alternate alone; several accepted together are "
                                           "priced anew: the amounts do not add up."
                                         : "Several accepted together are designed anew.");
    for (size_t i = 0; i < job->alternates.count; i++)
        document_fact(document, what_it_asks(job, document, job->alternates.at[i]),
                      what_it_changes(job, document, job->alternates.at[i]));
}
