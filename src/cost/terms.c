/* What shop and job state of rates, percentages and fixed amounts. */
#include "base/constant.h"
#include "cost/price.h"
#include "model/entries.h"
#include "model/names.h"

/* The statement that counts: the job's own, else the shop's; NULL: neither says it. */
static const struct shop_entry *stated(const struct job *job, enum says says) {
    const struct shop_entry *found = NULL, *entry;
    for (size_t i = 0; (entry = shop_says(&job->shop, says, &i));)
        if (!found || entry->of_job)
            found = entry;
    return found;
}

bool cost_is_priced(const struct job *job) {
    return stated(job, SAYS_RATE) || stated(job, SAYS_MARKUP) || stated(job, SAYS_MARGIN);
}

struct currency cost_currency(const struct job *job) {
    const char *said = job->currency ? job->currency : job->shop.currency;
    return (struct currency){.mark = said ? said : job->system == MEASURE_METRIC ? "" : "$"};
}

/* ---- Exact figures ----------------------------------------------------------------------------------------------- */

static void say_fine(struct price *price, struct job *job, struct span at, const char *decimals) {
    price_error(price, job, "price", at, "this is finer than money is counted: expected at most %s decimals", decimals);
}

static percentage share_of(struct price *price, struct job *job, const struct argument *argument) {
    percentage part = 0;
    if (argument->given && !share_from(argument->number, &part))
        say_fine(price, job, argument->at, "four");
    return part;
}

static money money_of(struct price *price, struct job *job, const struct argument *argument) {
    money amount = 0;
    if (argument->given && !money_from(argument->number, &amount))
        say_fine(price, job, argument->at, "two");
    return amount;
}

static percentage share_stated(struct price *price, struct job *job, enum says says) {
    const struct shop_entry *entry = stated(job, says);
    return entry ? share_of(price, job, &entry->reading.argument[0]) : 0;
}

/* ---- Rates ------------------------------------------------------------------------------------------------------- */

static void read_rate(struct price *price, struct job *job, const struct shop_entry *entry) {
    const struct argument *argument = entry->reading.argument;
    enum labour_kind kind = (enum labour_kind)argument[RATE_OF].choice;
    if (!price_from(argument[RATE_AMOUNT].number, &price->terms.rate[kind]))
        say_fine(price, job, argument[RATE_AMOUNT].at, "four");
    price->terms.rated[kind] = true;
}

/* ---- Profit ------------------------------------------------------------------------------------------------------ */

static const struct shop_entry *stated_by(const struct job *job, enum says says, bool of_job) {
    const struct shop_entry *entry = stated(job, says);
    return entry && entry->of_job == of_job ? entry : NULL;
}

/* The job's own profit goes before the shop's, whichever of the two it is. */
static void read_profit(struct price *price, struct job *job) {
    bool of_job = stated_by(job, SAYS_MARKUP, true) || stated_by(job, SAYS_MARGIN, true);
    const struct shop_entry *markup = stated_by(job, SAYS_MARKUP, of_job),
                            *margin = stated_by(job, SAYS_MARGIN, of_job);
    if (markup && margin) {
        struct diagnostic *error = price_error(price, job, "price", margin->reading.statement->at,
                                               "there is a markup and a margin: expected one of them");
        diagnostic_relate(job->diagnostics, error, markup->reading.statement->at, "the markup is here");
        diagnostic_hint(job->diagnostics, error,
                        "leave out one of them, or state the one that counts in the job itself; a markup of 25 %% is a "
                        "margin of 20 %%");
    }
    const struct shop_entry *profit = markup ? markup : margin;
    if (!profit)
        return;
    price->terms.profit = markup ? PROFIT_MARKUP : PROFIT_MARGIN;
    price->terms.profit_share = share_of(price, job, &profit->reading.argument[0]);
}

/* ---- Taxes, rounding --------------------------------------------------------------------------------------------- */

/* The job's own statement goes before the shop's on the same thing. */
static void read_taxes(struct price *price, struct job *job) {
    bool of_job[TAX_BASE_COUNT] = {false};
    const struct shop_entry *entry;
    for (size_t i = 0; (entry = shop_says(&job->shop, SAYS_TAX, &i));) {
        int on = entry->reading.argument[TAX_ON].choice; /* 0, material, when it does not say */
        if (of_job[on] && !entry->of_job)
            continue;
        of_job[on] = entry->of_job;
        price->terms.tax[on] = share_of(price, job, &entry->reading.argument[TAX_RATE]);
    }
}

static void read_rounding(struct price *price, struct job *job) {
    const struct shop_entry *entry = stated(job, SAYS_ROUND);
    if (!entry)
        return;
    price->terms.round_to = money_of(price, job, &entry->reading.argument[ROUND_TO]);
    price->terms.round_up = entry->reading.argument[ROUND_UP].given;
}

/* ---- Fixed lines and subcontracts -------------------------------------------------------------------------------- */

static void add_fixed(struct price *price, struct job *job, const struct shop_entry *entry) {
    const struct argument *argument = entry->reading.argument;
    *list_add(job->arena, &price->terms.extras) = (struct extra){
        .title = argument[FIXED_TITLE].text,
        .amount = money_of(price, job, &argument[FIXED_AMOUNT]),
        .taxed = argument[FIXED_TAXED].given,
    };
}

static void add_subcontract(struct price *price, struct job *job, const struct shop_entry *entry) {
    const struct argument *argument = entry->reading.argument;
    *list_add(job->arena, &price->terms.extras) = (struct extra){
        .title = argument[SUBCONTRACT_TITLE].text,
        .amount = money_of(price, job, &argument[SUBCONTRACT_AMOUNT]),
        .subcontract = true,
        .apart = argument[SUBCONTRACT_MARKUP].given,
        .markup = share_of(price, job, &argument[SUBCONTRACT_MARKUP]),
    };
}

static const char *extra_title(const struct shop_entry *entry) {
    return entry->reading.argument[entry->says == SAYS_FIXED ? FIXED_TITLE : SUBCONTRACT_TITLE].text;
}

static bool is_extra(const struct shop_entry *entry) {
    return !entry->overridden && (entry->says == SAYS_FIXED || entry->says == SAYS_SUBCONTRACT);
}

/* The shop's in the order they are written, then the job's, whose line of a title replaces the shop's. */
static void read_extras(struct price *price, struct job *job) {
    struct names of_job = {.arena = job->arena};
    const struct shop *shop = &job->shop;
    for (size_t i = 0; i < shop->entries.count; i++)
        if (is_extra(shop->entries.at[i]) && shop->entries.at[i]->of_job)
            names_add(&of_job, extra_title(shop->entries.at[i]));
    for (int own = 0; own < 2; own++)
        for (size_t i = 0; i < shop->entries.count; i++) {
            const struct shop_entry *entry = shop->entries.at[i];
            if (!is_extra(entry) || entry->of_job != own || (!own && names_find(&of_job, extra_title(entry))))
                continue;
            (entry->says == SAYS_FIXED ? add_fixed : add_subcontract)(price, job, entry);
        }
}

void price_read_terms(struct price *price, struct job *job) {
    struct terms *terms = &price->terms;
    const struct shop_entry *entry;
    for (size_t i = 0; (entry = shop_says(&job->shop, SAYS_RATE, &i));)
        read_rate(price, job, entry);
    terms->burden = share_stated(price, job, SAYS_BURDEN);
    terms->waste = stated(job, SAYS_WASTE);
    terms->overhead = share_stated(price, job, SAYS_OVERHEAD);
    terms->contingency = share_stated(price, job, SAYS_CONTINGENCY);
    terms->bond = share_stated(price, job, SAYS_BOND);
    read_taxes(price, job);
    read_profit(price, job);
    read_rounding(price, job);
    read_extras(price, job);
}
