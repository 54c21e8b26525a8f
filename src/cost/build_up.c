/* From cost to price, step by step. */
#include "cost/build_up.h"

const struct labour_row labour_rows[LABOUR_KIND_COUNT] = {
    [LABOUR_SHOP] = {.title = "Shop labour", .hours = HOURS_SHOP, .example = "rate shop 38 per hour"},
    [LABOUR_FIELD] = {.title = "Field labour",
                      .hours = HOURS_FIELD,
                      .example = "rate field 44 per hour",
                      .by_access = true},
};

/* The working: what has been added up so far. */
struct work {
    struct build_up *up;
    const struct terms *terms;
    const struct sums *sums;
    struct arena *arena;
    money sum; /* of all lines that are no subtotals */
};

bool step_is_subtotal(enum step_kind kind) {
    return kind == STEP_DIRECT || kind == STEP_COST || kind == STEP_BEFORE_ROUNDING || kind == STEP_PRICE ||
           kind == STEP_TOTAL;
}

static struct step *add(struct work *work, enum step_kind kind, const char *title, money amount) {
    struct step *step = list_add(work->arena, &work->up->steps);
    *step = (struct step){.kind = kind, .title = title, .amount = amount};
    work->sum = money_add(work->sum, amount);
    return step;
}

static money subtotal(struct work *work, enum step_kind kind, const char *title) {
    struct step *step = list_add(work->arena, &work->up->steps);
    *step = (struct step){.kind = kind, .title = title, .amount = work->sum};
    return work->sum;
}

static void state(struct step *step, const char *on, money base, percentage rate) {
    step->on = on;
    step->base = base;
    step->has_rate = true;
    step->rate = rate;
}

/* `rate` of `base`, when there is a rate; gives the amount. */
static money add_share(struct work *work, enum step_kind kind, const char *title, const char *on, money base,
                       percentage rate) {
    if (!rate)
        return 0;
    money amount = money_share(base, rate);
    state(add(work, kind, title, amount), on, base, rate);
    return amount;
}

/* ---- Direct cost ------------------------------------------------------------------------------------------------- */

static money taxed_extras(const struct terms *terms) {
    money sum = 0;
    for (size_t i = 0; i < terms->extras.count; i++)
        if (terms->extras.at[i].taxed)
            sum = money_add(sum, terms->extras.at[i].amount);
    return sum;
}

static void add_material(struct work *work) {
    money material = work->up->material = work->sums->material;
    add(work, STEP_MATERIAL, "Material", material);
    money fixed = taxed_extras(work->terms);
    work->up->tax =
        add_share(work, STEP_TAX_MATERIAL, "Sales tax on material", fixed ? "material and taxed lines" : "material",
                  money_add(material, fixed), work->terms->tax[TAX_MATERIAL]);
}

static void add_labour(struct work *work) {
    money labour = 0;
    for (enum labour_kind kind = 0; kind < LABOUR_KIND_COUNT; kind++) {
        money amount = money_times(work->terms->rate[kind], work->sums->hours[kind]);
        struct step *step = add(work, STEP_LABOUR, labour_rows[kind].title, amount);
        step->hours = work->sums->hours[kind];
        step->price = work->terms->rate[kind];
        labour = money_add(labour, amount);
    }
    work->up->labour = labour;
    money tax = add_share(work, STEP_TAX_LABOUR, "Sales tax on labour", "labour", labour, work->terms->tax[TAX_LABOUR]);
    work->up->tax = money_add(work->up->tax, tax);
    add_share(work, STEP_BURDEN, "Burden", "labour", labour, work->terms->burden);
}

static void add_extras(struct work *work) {
    for (size_t i = 0; i < work->terms->extras.count; i++) {
        const struct extra *extra = &work->terms->extras.at[i];
        if (!extra->apart)
            add(work, extra->subcontract ? STEP_SUBCONTRACT : STEP_FIXED, extra->title, extra->amount);
    }
}

/* ---- Price ------------------------------------------------------------------------------------------------------- */

static void add_profit(struct work *work) {
    const struct terms *terms = work->terms;
    money cost = work->up->cost;
    if (terms->profit == PROFIT_MARKUP)
        work->up->profit = add_share(work, STEP_PROFIT, "Profit, as a markup", "cost", cost, terms->profit_share);
    if (terms->profit != PROFIT_MARGIN)
        return;
    /* cost / (1 - m) is rounded, and profit is what that leaves */
    work->up->profit = money_gross(cost, terms->profit_share) - cost;
    state(add(work, STEP_PROFIT, "Profit, as a margin", work->up->profit), "cost and profit together",
          money_add(cost, work->up->profit), terms->profit_share);
}

static void add_apart(struct work *work) {
    for (size_t i = 0; i < work->terms->extras.count; i++) {
        const struct extra *extra = &work->terms->extras.at[i];
        if (!extra->apart)
            continue;
        add(work, STEP_SUBCONTRACT_APART, extra->title, extra->amount);
        money markup =
            add_share(work, STEP_SUBCONTRACT_MARKUP, "Markup on it", extra->title, extra->amount, extra->markup);
        work->up->profit = money_add(work->up->profit, markup);
        work->up->apart = money_add(work->up->apart, extra->amount);
    }
}

static void add_bond(struct work *work) {
    percentage part = work->terms->bond;
    if (!part)
        return;
    money bonded = money_gross(work->sum, part);
    work->up->bond = bonded - work->sum;
    state(add(work, STEP_BOND, "Bond", work->up->bond), "the price with it", bonded, part);
}

static void round_price(struct work *work) {
    money step = work->terms->round_to;
    if (!step)
        return;
    money rounded = money_round(work->sum, step, work->terms->round_up);
    subtotal(work, STEP_BEFORE_ROUNDING, "Before rounding");
    const char *how = work->terms->round_up ? "Rounded up to the next %s" : "Rounded to the nearest %s";
    const char *to =
        step % 100 ? money_figure(work->arena, step, true) : arena_format(work->arena, "%lld", (long long)(step / 100));
    add(work, STEP_ROUNDING, arena_format(work->arena, how, to), rounded - work->sum);
}

void build_up_work(struct build_up *build_up, const struct terms *terms, const struct sums *sums, struct arena *arena) {
    struct work work = {.up = build_up, .terms = terms, .sums = sums, .arena = arena};
    add_material(&work);
    add_labour(&work);
    add_extras(&work);
    build_up->direct = subtotal(&work, STEP_DIRECT, "Direct cost");
    money overhead = add_share(&work, STEP_OVERHEAD, "Overhead", "direct cost", build_up->direct, terms->overhead);
    add_share(&work, STEP_CONTINGENCY, "Contingency", overhead ? "direct cost and overhead" : "direct cost", work.sum,
              terms->contingency);
    build_up->cost = subtotal(&work, STEP_COST, "Cost");
    add_profit(&work);
    add_apart(&work);
    add_bond(&work);
    build_up->unrounded = work.sum;
    round_price(&work);
    build_up->price = subtotal(&work, STEP_PRICE, "Price");
    build_up->rounding = build_up->price - build_up->unrounded;
    build_up->tax_on_price =
        add_share(&work, STEP_TAX_PRICE, "Sales tax on the price", "price", build_up->price, terms->tax[TAX_PRICE]);
    if (build_up->tax_on_price)
        subtotal(&work, STEP_TOTAL, "Price with sales tax");
    build_up->total = work.sum;
    build_up->spent = money_add(money_add(build_up->cost, build_up->apart), build_up->bond);
    build_up->kept = build_up->price - build_up->spent;
    build_up->too_great = work.sum >= MONEY_MOST;
}

percentage build_up_margin(const struct build_up *build_up) {
    return build_up->kept > 0 ? money_part(build_up->kept, build_up->price) : 0;
}

percentage build_up_markup(const struct build_up *build_up) {
    return build_up->kept > 0 ? money_part(build_up->kept, build_up->spent) : 0;
}
