/* What the price rests on: assumptions, warnings, what was accepted, and where the figures come from. */
#include <string.h>

#include "report/basis.h"
#include "report/bid.h"
#include "report/effects.h"
#include "report/office.h"

/* ---- Assumed ----------------------------------------------------------------------------------------------------- */

static void stated(struct document *document, bool said, const char *otherwise) {
    if (!said)
        document_bullet(document, "%s", otherwise);
}

/* What neither shop nor job states, and what stands for it. */
static void terms_assumed(const struct terms *terms, struct document *document) {
    stated(document, terms->waste, "No waste is stated: nothing is added to what is counted without loss.");
    stated(document, terms->tax[TAX_MATERIAL] || terms->tax[TAX_LABOUR] || terms->tax[TAX_PRICE],
           "No sales tax is stated: none is in the price.");
    stated(document, terms->burden, "No burden is stated: wages alone are in the cost of labour.");
    stated(document, terms->overhead, "No overhead is stated: none is in the price.");
    stated(document, terms->contingency, "No contingency is stated: none is in the price.");
    stated(document, terms->profit != PROFIT_NONE, "No markup and no margin is stated: the price is the cost.");
    stated(document, terms->extras.count,
           "No fixed cost is stated: permits, disposal and the like are not in the price.");
}

static void access_assumed(const struct price *price, struct document *document) {
    size_t plain = 0;
    for (size_t i = 0; i < price->labour.count; i++) {
        const struct labour_line *line = &price->labour.at[i];
        plain += line->count.place != LOCATION_CONDITIONED && line->access == SHARE_WHOLE && line->hours[LABOUR_FIELD];
    }
    if (plain)
        document_bullet(
            document,
            "%s outside conditioned rooms %s the hours of open work: the shop states no access for that place.",
            bid_count(document, plain, "line"), plain == 1 ? "has" : "have");
}

void office_assumed(const struct job *job, struct document *document) {
    if (office_is_priced(job)) {
        terms_assumed(&job->price->terms, document);
        access_assumed(job->price, document);
        document_bullet(document,
                        "Waste of sheet is what its nest leaves, and what was counted with its loss has "
                        "that; the waste that the shop states is in the quantity of the rest of what is measured.");
        document_bullet(document,
                        "What is measured is bought in whole steps, up to half a percent short of its count.");
        document_bullet(document, "What an order brings beyond the job is bought by the job: whole sheets, boxes and "
                                  "rolls are in the price.");
    }
    bid_rests_on(job, document);
}

/* ---- To be measured ---------------------------------------------------------------------------------------------- */

/* What the customer is told of estimates, and what that paper does not tell. */
void office_to_verify(const struct job *job, struct document *document) {
    bid_to_verify(job, document);
    effects_write(job, document);
}

/* ---- Warnings ---------------------------------------------------------------------------------------------------- */

void office_warnings(const struct job *job, struct document *document) {
    size_t open = 0;
    for (size_t i = 0; i < job->diagnostics->all.count; i++) {
        const struct diagnostic *said = job->diagnostics->all.at[i];
        if (said->level != DIAGNOSTIC_WARNING || said->accepted_because)
            continue;
        open++;
        document_bullet(document, "%s: %s", said->check, said->message);
    }
    if (!open)
        document_paragraph(document, "No warnings are open.");
    document_heading(document, 3, "Accepted");
    bid_accepted_as(job, document, NULL);
}

/* ---- Basis ------------------------------------------------------------------------------------------------------- */

void office_basis(const struct job *job, struct document *document) {
    document_paragraph(
        document,
        "Prices, hours, rates and percentages are the shop's own, as its file states them. Money is counted in whole "
        "cents: each line is rounded once, half up. The order is: material; sales tax on material; labour; "
        "sales tax on labour; burden; fixed costs and subcontracts. Overhead is on that direct cost, contingency on "
        "both. A markup is added to cost; a margin is a share of cost and profit together. A bond is a share of the "
        "price with it. What the take-off rests on:");
    basis_list(job, BASIS_TAKEOFF, document);
    document_paragraph(document,
                       "What the design record rests on, which the customer's paper lists with a mark for how "
                       "each is known:");
    basis_list(job, BASIS_AIR, document);
}
