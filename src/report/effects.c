/* What one step more of each estimated dimension does: a row each. */
#include "report/effects.h"

#include <math.h>

#include "base/constant.h"
#include "cost/effect.h"
#include "report/bid.h"
#include "report/office.h"

enum { EFFECT_WHERE, EFFECT_GIVEN, EFFECT_IF, EFFECT_CHANGE, EFFECT_LEFT, EFFECT_ELSE, EFFECT_PRICE, EFFECT_COLUMNS };

/* One foot of a wide duct takes less than a thousandth of an inch of water. */
enum { MORE_DECIMALS = 1 };

static const struct column *effect_columns(const struct job *job, struct document *document, bool priced) {
    struct column *columns = ARENA_ARRAY(document->keep, struct column, EFFECT_COLUMNS);
    columns[EFFECT_WHERE] = (struct column){.head = "Run"};
    columns[EFFECT_GIVEN] = (struct column){.head = "As the job has it"};
    columns[EFFECT_IF] = (struct column){.head = "If it is"};
    const char *unit = measure_show(document->system, SHOW_PRESSURE)->unit;
    columns[EFFECT_CHANGE] =
        (struct column){.head = arena_format(document->keep, "Change, %s", unit), .kind = COLUMN_AMOUNT};
    columns[EFFECT_LEFT] = (struct column){.head = "Left over", .kind = COLUMN_FIGURE, .use = SHOW_PRESSURE};
    columns[EFFECT_ELSE] = (struct column){.head = "What else"};
    if (priced)
        columns[EFFECT_PRICE] =
            (struct column){.head = office_head(job, document, "Price changes by"), .kind = COLUMN_AMOUNT};
    return columns;
}

/* "9 ft", "10 in wide", "50 degrees". */
static const char *if_words(const struct document *document, const struct estimate *estimate) {
    double value = estimate->value + estimate->step;
    if (estimate->use == MEASURE_USE_COUNT)
        return arena_format(document->arena, "%.3g degrees", value / DEGREE);
    const char *figure = bid_figure(document, estimate->use, value);
    return estimate->slot->kind == SLOT_SIZE ? arena_format(document->arena, "%s wide", figure) : figure;
}

/* ---- What else --------------------------------------------------------------------------------------------------- */

/* Adds a clause to the others. */
static void say(const struct document *document, const char **words, const char *clause) {
    *words = *words ? arena_format(document->arena, "%s; %s", *words, clause) : clause;
}

/* Of a pressure; NULL: it is under what a paper shows. */
static const char *change_words(const struct document *document, double change) {
    const struct measure_show *show = measure_show(document->system, SHOW_PRESSURE);
    int decimals = show->decimals + MORE_DECIMALS;
    double shown = change / show->factor;
    return fabs(shown) < 0.5 * pow(10, -decimals) ? NULL : arena_format(document->arena, "%.*f", decimals, shown);
}

static void say_path(const struct document *document, const struct effect *effect, const char **words) {
    const char *change = change_words(document, fabs(effect->path.change));
    if (!effect->terminal || !change)
        return;
    say(document, words,
        arena_format(document->arena, "the way to %s has %s left over, %s %s",
                     effect->room && *effect->room ? effect->room : effect->terminal,
                     bid_figure(document, SHOW_PRESSURE, effect->path.left), change,
                     effect->path.change < 0 ? "less" : "more"));
}

static void say_sizes(const struct document *document, const struct effect *effect, const char **words) {
    struct arena *arena = document->arena;
    for (size_t i = 0; i < effect->sizes.count; i++) {
        const struct effect_size *size = &effect->sizes.at[i];
        say(document, words,
            arena_format(arena, "%s becomes %s, not %s", size->run, size_text(arena, document->system, size->after),
                         size_text(arena, document->system, size->before)));
    }
    if (effect->resized > effect->sizes.count)
        say(document, words, arena_format(arena, "%zu sizes more change", effect->resized - effect->sizes.count));
}

static void say_warnings(const struct document *document, const struct effect *effect, const char **words) {
    for (size_t i = 0; i < effect->warnings.count; i++)
        say(document, words, arena_format(document->arena, "warned of: %s", effect->warnings.at[i]));
    if (effect->warned > effect->warnings.count)
        say(document, words,
            arena_format(document->arena, "%zu warnings more", effect->warned - effect->warnings.count));
}

/* Straight on from the one step that was computed; down to the inch. */
static void say_short(const struct document *document, const struct estimate *estimate, const char **words) {
    const struct effect *effect = estimate->effect;
    if (effect->falls_short)
        say(document, words, "the blower then falls short");
    else if (effect->short_after > 0)
        say(document, words,
            arena_format(document->arena, "at this rate the blower falls short from %s on",
                         measure_text_down(document->arena, document->system, SHOW_RUN,
                                           estimate->value + effect->short_after * estimate->step)));
}

static const char *else_words(const struct document *document, const struct estimate *estimate, bool priced) {
    const struct effect *effect = estimate->effect;
    const char *words = NULL;
    if (effect->fault)
        return arena_format(document->arena, "it cannot be built so: %s", effect->fault);
    say_short(document, estimate, &words);
    say_path(document, effect, &words);
    if (effect->unit && effect->speed)
        say(document, &words, arena_format(document->arena, "%s goes on speed %s", effect->unit->name, effect->speed));
    say_sizes(document, effect, &words);
    say_warnings(document, effect, &words);
    if (priced && effect->unpriced)
        say(document, &words, arena_format(document->arena, "no price is known: %s", effect->unpriced));
    return words ? words : effect->depth == EFFECT_WHOLE ? "nothing" : "no size";
}

/* ---- The table --------------------------------------------------------------------------------------------------- */

static const char *where_words(const struct document *document, const struct estimate *estimate) {
    return estimate->alternate
               ? arena_format(document->arena, "%s, alternate %s", estimate->where, estimate->alternate->name)
               : estimate->where;
}

static const char *price_words(const struct document *document, const struct effect *effect) {
    if (effect->fault)
        return NULL;
    if (!effect->priced)
        return effect->depth == EFFECT_SIZES ? "not asked" : "not known";
    const char *figure = money_figure(document->arena, effect->difference, true);
    return effect->difference > 0 ? arena_format(document->arena, "+%s", figure) : figure;
}

static void effect_row(const struct document *document, struct table *table, const struct estimate *estimate,
                       bool priced) {
    const struct effect *effect = estimate->effect;
    bool known = !effect->fault && effect->unit;
    union cell *cells = table_row(table);
    cells[EFFECT_WHERE].text = where_words(document, estimate);
    cells[EFFECT_GIVEN].text = bid_estimate_words(document->arena, estimate);
    cells[EFFECT_IF].text = if_words(document, estimate);
    if (known) {
        const char *change = change_words(document, effect->governing.change);
        cells[EFFECT_CHANGE].text = change ? change : "none";
    }
    cells[EFFECT_LEFT].figure = known ? effect->governing.left : NAN;
    cells[EFFECT_ELSE].text = else_words(document, estimate, priced);
    if (priced)
        cells[EFFECT_PRICE].text = price_words(document, effect);
}

/* How many were asked so far, or not at all. */
struct tally {
    size_t whole, sizes, none;
};

static struct tally tally_of(const struct job *job) {
    struct tally tally = {0};
    for (size_t i = 0; i < job->estimates.count; i++) {
        const struct estimate *estimate = job->estimates.at[i];
        size_t *count = !estimate->effect                         ? &tally.none
                        : estimate->effect->depth == EFFECT_WHOLE ? &tally.whole
                                                                  : &tally.sizes;
        *count += estimate->step != 0;
    }
    return tally;
}

static void say_bound(struct document *document, const struct tally *tally) {
    if (tally->sizes + tally->none == 0)
        return;
    document_paragraph(
        document,
        "So large a job is not made anew for every estimate. For the first %zu all was; for %zu that "
        "follow in the job only sizes and pressure, not what it warns of and costs; for %zu nothing was, "
        "and they are not in the table.",
        tally->whole, tally->sizes, tally->none);
}

void effects_write(const struct job *job, struct document *document) {
    struct tally tally = tally_of(job);
    if (tally.whole + tally.sizes == 0)
        return;
    bool priced = office_is_priced(job);
    document_heading(document, 3, "What if it comes out otherwise");
    document_paragraph(document,
                       "For each the whole job was designed%s anew with that one dimension a step farther: a length "
                       "along duct by %s, others by a step of their own. Left over is what the blower has, at the "
                       "design airflow, beyond what the costliest path of that unit takes; the change is by how much "
                       "that differs from the job as it is.%s",
                       priced ? " and priced" : "", document->system == MEASURE_METRIC ? "0.3 m" : "1 ft",
                       priced ? " The price is that of the bid before rounding; whole packages, boxes and sheets are "
                                "in it."
                              : "");
    say_bound(document, &tally);
    struct table *table =
        document_table(document, effect_columns(job, document, priced), priced ? EFFECT_COLUMNS : EFFECT_COLUMNS - 1);
    for (size_t i = 0; i < job->estimates.count; i++)
        if (job->estimates.at[i]->effect)
            effect_row(document, table, job->estimates.at[i], priced);
}
