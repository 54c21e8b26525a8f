/* What shop and job state of rates, percentages and fixed amounts. */
#include <string.h>

#include "base/constant.h"
#include "cost/price.h"
#include "model/names.h"

static bool is(const struct shop_entry *entry, const char *word) {
    return !entry->overridden && strcmp(entry->reading.form->word, word) == 0;
}

/* The statement that counts: the job's own, else the shop's; NULL: neither says it. */
static const struct shop_entry *stated(const struct job *job, const char *word) {
    const struct shop_entry *found = NULL;
    for (size_t i = 0; i < job->shop.entries.count; i++) {
        const struct shop_entry *entry = job->shop.entries.at[i];
        if (is(entry, word) && (!found || entry->of_job))
            found = entry;
    }
    return found;
}

bool cost_is_priced(const struct job *job) {
    return stated(job, "rate") || stated(job, "markup") || stated(job, "margin");
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

static percentage share_stated(struct price *price, struct job *job, const char *word) {
    const struct shop_entry *entry = stated(job, word);
    return entry ? share_of(price, job, &entry->reading.argument[0]) : 0;
}

/* ---- Rates ------------------------------------------------------------------------------------------------------- */

static const char *const kind_words[] = {[LABOUR_SHOP] = "shop", [LABOUR_FIELD] = "field"};

static void read_rate(struct price *price, struct job *job, const struct shop_entry *entry) {
    const struct argument *argument = entry->reading.argument;
    enum labour_kind kind = LABOUR_SHOP;
    while (kind < LABOUR_KIND_COUNT && strcmp(argument[RATE_OF].text, kind_words[kind]) != 0)
        kind++;
    struct diagnostic *error = NULL;
    if (kind == LABOUR_KIND_COUNT)
        error = price_error(price, job, "price", argument[RATE_OF].at, "there is no '%s' labour: hours are shop or field hours",
                            argument[RATE_OF].text);
    else if (strcmp(argument[RATE_PER].text, "hour") != 0 && strcmp(argument[RATE_PER].text, "h") != 0)
        error = price_error(price, job, "price", argument[RATE_PER].at, "labour is paid per hour, not per '%s'",
                            argument[RATE_PER].text);
    else if (!price_from(argument[RATE_AMOUNT].number, &price->terms.rate[kind]))
        say_fine(price, job, argument[RATE_AMOUNT].at, "four");
    if (kind < LABOUR_KIND_COUNT)
        price->terms.rated[kind] = true;
    if (error)
        diagnostic_hint(job->diagnostics, error, "rate %s %g per hour",
                        kind == LABOUR_KIND_COUNT ? "field" : kind_words[kind], argument[RATE_AMOUNT].number);
}

/* ---- Profit ------------------------------------------------------------------------------------------------------ */

static const struct shop_entry *stated_by(const struct job *job, const char *word, bool of_job) {
    const struct shop_entry *entry = stated(job, word);
    return entry && entry->of_job == of_job ? entry : NULL;
}

/* The job's own profit goes before the shop's, whichever of the two it is. */
static void read_profit(struct price *price, struct job *job) {
    bool of_job = stated_by(job, "markup", true) || stated_by(job, "margin", true);
    const struct shop_entry *markup = stated_by(job, "markup", of_job), *margin = stated_by(job, "margin", of_job);
    if (markup && margin) {
        struct diagnostic *error = price_error(price, job, "price", margin->reading.statement->at,
                                               "there is a markup and a margin: expected one of them");
        diagnostic_relate(job->diagnostics, error, markup->reading.statement->at, "the markup is here");
        diagnostic_hint(job->diagnostics, error, "leave out one of them, or state the one that counts in the job itself; a markup of 25 %% is a margin of 20 %%");
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
    for (size_t i = 0; i < job->shop.entries.count; i++) {
        const struct shop_entry *entry = job->shop.entries.at[i];
        if (!is(entry, "tax"))
            continue;
        int on = entry->reading.argument[TAX_ON].choice; /* 0, material, when it does not say */
        if (of_job[on] && !entry->of_job)
            continue;
        of_job[on] = entry->of_job;
        price->terms.tax[on] = share_of(price, job, &entry->reading.argument[TAX_RATE]);
    }
}

static void read_rounding(struct price *price, struct job *job) {
    const struct shop_entry *entry = stated(job, "round");
    if (!entry)
        return;
    price->terms.round_to = money_of(price, job, &entry->reading.argument[ROUND_TO]);
    price->terms.round_up = entry->reading.argument[ROUND_UP].given;
}

/* ---- Fixed lines and subcontracts -------------------------------------------------------------------------------- */

static void add_extra(struct price *price, struct job *job, const struct shop_entry *entry) {
    const struct argument *argument = entry->reading.argument;
    struct extra *extra = list_add(job->arena, &price->terms.extras);
    *extra = (struct extra){.title = argument[FIXED_TITLE].text, .amount = money_of(price, job, &argument[FIXED_AMOUNT])};
    extra->subcontract = is(entry, "subcontract");
    if (!extra->subcontract) {
        extra->taxed = argument[FIXED_TAXED].given;
        return;
    }
    extra->apart = argument[SUBCONTRACT_MARKUP].given;
    extra->markup = share_of(price, job, &argument[SUBCONTRACT_MARKUP]);
}

static bool is_extra(const struct shop_entry *entry) {
    return is(entry, "fixed") || is(entry, "subcontract");
}

/* The shop's in the order they are written, then the job's, whose line of a title replaces the shop's. */
static void read_extras(struct price *price, struct job *job) {
    struct names of_job = {.arena = job->arena};
    for (size_t i = 0; i < job->shop.entries.count; i++) {
        const struct shop_entry *entry = job->shop.entries.at[i];
        if (is_extra(entry) && entry->of_job)
            names_add(&of_job, entry->reading.argument[FIXED_TITLE].text);
    }
    for (size_t i = 0; i < job->shop.entries.count; i++) {
        const struct shop_entry *entry = job->shop.entries.at[i];
        if (is_extra(entry) && !entry->of_job && !names_find(&of_job, entry->reading.argument[FIXED_TITLE].text))
            add_extra(price, job, entry);
    }
    for (size_t i = 0; i < job->shop.entries.count; i++)
        if (is_extra(job->shop.entries.at[i]) && job->shop.entries.at[i]->of_job)
            add_extra(price, job, job->shop.entries.at[i]);
}

void price_read_terms(struct price *price, struct job *job) {
    struct terms *terms = &price->terms;
    for (size_t i = 0; i < job->shop.entries.count; i++)
        if (is(job->shop.entries.at[i], "rate"))
            read_rate(price, job, job->shop.entries.at[i]);
    terms->burden = share_stated(price, job, "burden");
    terms->waste = stated(job, "waste");
    terms->overhead = share_stated(price, job, "overhead");
    terms->contingency = share_stated(price, job, "contingency");
    terms->bond = share_stated(price, job, "bond");
    read_taxes(price, job);
    read_profit(price, job);
    read_rounding(price, job);
    read_extras(price, job);
}
