/* The take-off at the shop's prices. */
#include <string.h>

#include "cost/price.h"
#include "cost/shop_prices.h"
#include "model/names.h"

/* The lines being priced. */
struct price_list {
    struct price *price;
    struct job *job;
    struct names missing; /* items that have been said to have no price */
};

/* ---- What is wrong ----------------------------------------------------------------------------------------------- */

/* Where prices stand, or would. */
static struct span price_place(const struct job *job) {
    return job->shop.at.text ? job->shop.at : job->at;
}

/* Said once an item, however many sizes of it there are. */
static void say_missing(struct price_list *list, const struct bill_line *line) {
    struct job *job = list->job;
    list->price->complete = false;
    struct name *name = names_add(&list->missing, line->item->key);
    if (name->thing)
        return;
    name->thing = list;
    struct diagnostic *error =
        price_error(list->price, job, "price", price_place(job), "'%s' has no price: %s", line->item->key, line->title);
    price_hint(job, error, line->item->example);
}

/* Once a statement, however many lines it prices. */
static struct diagnostic *say_wrong(struct price_list *list, const struct shop_entry *entry, struct span at,
                                    const char *message) {
    struct name *name = names_add(&list->missing, entry->reading.argument[PRICE_ITEM].text);
    list->price->complete = false;
    if (name->thing)
        return NULL;
    name->thing = list;
    return price_error(list->price, list->job, "price", at, "%s", message);
}

static void say_no_unit(struct price_list *list, const struct shop_entry *entry, const struct bill_line *line) {
    const struct argument *argument = entry->reading.argument;
    struct arena *arena = list->job->arena;
    const struct sale_unit *nearest = sale_unit_nearest(argument[PRICE_PER].text, line->item->measure);
    if (!nearest)
        nearest = sale_unit_usual(line->item->measure, list->job->system);
    struct diagnostic *error = say_wrong(list, entry, argument[PRICE_PER].at,
                                         arena_format(arena, "nothing is sold per '%s'", argument[PRICE_PER].text));
    if (error)
        diagnostic_hint(list->job->diagnostics, error, "write per %s", nearest->word);
}

static void say_misfit(struct price_list *list, const struct shop_entry *entry, const struct bill_line *line) {
    struct arena *arena = list->job->arena;
    const struct argument *argument = entry->reading.argument;
    struct diagnostic *error =
        say_wrong(list, entry, argument[PRICE_PER].at,
                  arena_format(arena, "'%s' is %s, and '%s' is not", argument[PRICE_ITEM].text,
                               bill_measure_words(line->item->measure), argument[PRICE_PER].text));
    if (error)
        price_hint(list->job, error, line->item->example);
}

static void say_no_contents(struct price_list *list, const struct shop_entry *entry, const struct bill_line *line) {
    static const char *const contents[] = {
        [BILL_EACH] = "500",        [BILL_LENGTH] = "25 ft", [BILL_AREA] = "50 ft2",
        [BILL_VOLUME] = "2 gallon", [BILL_WEIGHT] = "50 lb",
    };
    struct arena *arena = list->job->arena;
    const struct argument *argument = entry->reading.argument;
    struct diagnostic *error =
        say_wrong(list, entry, argument[PRICE_PER].at,
                  arena_format(arena, "how much is in a %s is not said, and '%s' is %s", argument[PRICE_PER].text,
                               argument[PRICE_ITEM].text, bill_measure_words(line->item->measure)));
    if (error)
        diagnostic_hint(list->job->diagnostics, error, "per %s of %s", argument[PRICE_PER].text,
                        contents[line->item->measure]);
}

/* ---- Lines ------------------------------------------------------------------------------------------------------- */

/* "box of 500", as the shop wrote it. */
static const char *package_words(struct arena *arena, const struct argument *per, const struct argument *of) {
    const char *size = arena_copy(arena, of->at.text->bytes + of->at.begin, of->at.end - of->at.begin);
    return arena_format(arena, "%s of %s", per->text, size);
}

/* Finds what one unit is and holds; false: diagnosed. */
static bool fit_unit(struct price_list *list, const struct shop_entry *entry, struct priced_line *priced,
                     thousandths *step) {
    const struct argument *argument = entry->reading.argument, *of = &argument[PRICE_OF];
    const struct bill_line *line = priced->line;
    const struct sale_unit *unit = sale_unit_find(argument[PRICE_PER].text);
    enum bill_measure measure = unit ? unit->measure : BILL_EACH;
    if (!unit) {
        say_no_unit(list, entry, line);
        return false;
    }
    if (unit->package && !(of->given && of->number > 0)) {
        say_no_contents(list, entry, line);
        return false;
    }
    if (unit->package != of->given || (of->given && !sale_measure_of((enum measure_kind)of->choice, &measure)) ||
        measure != line->item->measure) {
        say_misfit(list, entry, line);
        return false;
    }
    priced->unit = unit->package ? package_words(list->job->arena, &argument[PRICE_PER], of) : unit->word;
    priced->package = unit->package ? of->number : unit->size;
    *step = unit->step;
    return true;
}

static void price_item(struct price_list *list, struct priced_line *priced) {
    const struct shop_entry *entry = shop_price_for(list->job->takeoff->prices, priced->line);
    thousandths step;
    if (!entry) {
        say_missing(list, priced->line);
        return;
    }
    if (!fit_unit(list, entry, priced, &step))
        return;
    const struct argument *amount = &entry->reading.argument[PRICE_AMOUNT];
    if (!price_from(amount->number, &priced->price)) {
        say_wrong(list, entry, amount->at, "this is finer than prices are counted: expected at most four decimals");
        return;
    }
    priced->priced = true;
    priced->key = entry->reading.argument[PRICE_ITEM].text;
    priced->bought = sale_quantity(priced->line->wanted / priced->package, step, priced->line->item->measure);
    thousandths cut = (thousandths)priced->line->packages * QUANTITY_PARTS;
    if (priced->bought < cut)
        priced->bought = cut;
    priced->amount = money_times(priced->price, priced->bought);
}

/* A sheet has its price from the shop's `stock`. */
static void price_sheet(struct price_list *list, struct priced_line *priced) {
    const struct stock_sheet *sheet = priced->line->sheet;
    struct job *job = list->job;
    priced->unit = "sheet";
    priced->key = "stock";
    priced->package = 1;
    priced->bought = quantity_up(priced->line->wanted, QUANTITY_PARTS);
    if (sheet->priced) {
        priced->priced = true;
        priced->price = sheet->price;
        priced->amount = money_times(sheet->price, priced->bought);
        return;
    }
    list->price->complete = false;
    struct name *name = names_add(&list->missing, priced->line->example); /* once a gauge and material */
    if (name->thing)
        return;
    name->thing = list;
    struct diagnostic *error = price_error(list->price, job, "price", sheet->at.text ? sheet->at : price_place(job),
                                           "a sheet that the job needs has no price: %s", priced->line->title);
    price_hint(job, error, priced->line->example);
}

static void sum_line(struct price *price, const struct priced_line *priced) {
    const struct bill_item *item = priced->line->item;
    price->sums.material = money_add(price->sums.material, priced->amount);
    price->groups[item->group] = money_add(price->groups[item->group], priced->amount);
}

void price_material(struct price *price, struct job *job) {
    struct price_list list = {.price = price, .job = job, .missing = {.arena = job->arena}};
    for (size_t i = 0; i < job->takeoff->lines.count; i++) {
        struct priced_line *priced = list_add(job->arena, &price->lines);
        priced->line = &job->takeoff->lines.at[i];
        if (priced->line->sheet)
            price_sheet(&list, priced);
        else
            price_item(&list, priced);
        sum_line(price, priced);
    }
}
