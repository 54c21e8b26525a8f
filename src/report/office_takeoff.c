/* The take-off: what is bought, at what price, and how it was counted. */
#include "report/bid.h"
#include "report/csv.h"
#include "report/office.h"

enum { BILL_WHAT, BILL_NET, BILL_WANTED, BILL_BOUGHT, BILL_UNIT, BILL_PRICE, BILL_AMOUNT, BILL_COLUMNS };

static const struct column *bill_columns(const struct job *job, struct document *document) {
    struct column *columns = ARENA_ARRAY(document->keep, struct column, BILL_COLUMNS);
    columns[BILL_WHAT] = (struct column){.head = "What"};
    columns[BILL_NET] = (struct column){.head = "In the work", .kind = COLUMN_AMOUNT};
    columns[BILL_WANTED] = (struct column){.head = "With loss", .kind = COLUMN_AMOUNT};
    columns[BILL_BOUGHT] = (struct column){.head = "Bought", .kind = COLUMN_AMOUNT};
    columns[BILL_UNIT] = (struct column){.head = "Of"};
    columns[BILL_PRICE] = (struct column){.head = office_head(job, document, "Price"), .kind = COLUMN_AMOUNT};
    columns[BILL_AMOUNT] = (struct column){.head = office_head(job, document, "Amount"), .kind = COLUMN_AMOUNT};
    return columns;
}

/* The lines of the take-off by their index; NULL: the job is not priced. */
static const struct priced_line *priced(const struct job *job, size_t index) {
    return job->price && job->price->lines.at[index].priced ? &job->price->lines.at[index] : NULL;
}

static void bill_row(const struct job *job, struct document *document, struct table **table, size_t index) {
    const struct bill_line *line = &job->takeoff->lines.at[index];
    const struct priced_line *at = priced(job, index);
    union cell *cells = document_row(document, table);
    struct arena *arena = document->arena;
    cells[BILL_WHAT].text = line->title;
    cells[BILL_NET].text = office_quantity(arena, document->system, line->item->measure, line->net);
    cells[BILL_WANTED].text = office_wanted(arena, document->system, line->item->measure, line->wanted);
    if (!at)
        return;
    cells[BILL_BOUGHT].text = quantity_figure(arena, at->bought);
    cells[BILL_UNIT].text = at->unit;
    cells[BILL_PRICE].text = price_figure(arena, at->price);
    cells[BILL_AMOUNT].text = money_figure(arena, at->amount, true);
}

static void group_sum(const struct job *job, struct document *document, struct table **table, enum bill_group group) {
    if (!job->price)
        return;
    union cell *cells = document_row(document, table);
    cells[BILL_WHAT].text = "Sum";
    cells[BILL_AMOUNT].text = money_figure(document->arena, job->price->groups[group], true);
}

void office_takeoff(const struct job *job, struct document *document) {
    document_paragraph(
        document,
        "Counted from the parts, their nest on sheets, the hangers and the joints. Whole packages are bought; an "
        "amount is the price times what is bought, as both stand here.");
    const struct takeoff *takeoff = job->takeoff;
    const struct column *columns = bill_columns(job, document);
    for (size_t i = 0; i < takeoff->lines.count;) {
        enum bill_group group = takeoff->lines.at[i].item->group;
        document_relieve(document);
        document_heading(document, 3, office_group(group));
        struct table *table = document_table(document, columns, BILL_COLUMNS);
        for (; i < takeoff->lines.count && takeoff->lines.at[i].item->group == group; i++)
            bill_row(job, document, &table, i);
        group_sum(job, document, &table, group);
    }
    if (office_is_priced(job))
        document_paragraph(document, "Material in all: %s.",
                           office_money(job, document, job->price->build_up.material));
}

/* ---- How it was counted ------------------------------------------------------------------------------------------ */

void office_counted(const struct job *job, struct document *document) {
    for (size_t i = 0; i < job->takeoff->lines.count; i++) {
        const struct bill_line *line = &job->takeoff->lines.at[i];
        const char *known = line->source ? arena_format(document->arena, "; the rule: %s",
                                                        source_known_words(source_of(line->source)->known))
                                         : "";
        document_fact(document, line->title, arena_format(document->arena, "%s%s", line->basis, known));
    }
}

/* ---- As data ----------------------------------------------------------------------------------------------------- */

static void csv_amounts(struct csv *csv, struct arena *arena, const struct priced_line *at) {
    csv_text(csv, at ? quantity_figure(arena, at->bought) : NULL);
    csv_text(csv, at ? at->unit : NULL);
    csv_text(csv, at ? price_figure(arena, at->price) : NULL);
    csv_text(csv, at ? money_figure(arena, at->amount, false) : NULL);
}

void office_takeoff_csv(const struct job *job, struct output *out) {
    static const char *const heads[] = {"Group",  "Item", "What",  "In the work", "With loss",         "Unit",
                                        "Bought", "Of",   "Price", "Amount",      "How it was counted"};
    static const char *const units[][2] = {
        [BILL_EACH] = {"each", "each"},  [BILL_LENGTH] = {"ft", "m"},  [BILL_AREA] = {"ft2", "m2"},
        [BILL_VOLUME] = {"gallon", "L"}, [BILL_WEIGHT] = {"lb", "kg"},
    };
    struct csv csv = {.out = out};
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++)
        csv_text(&csv, heads[i]);
    csv_end(&csv);
    for (size_t i = 0; job->takeoff && i < job->takeoff->lines.count; i++) {
        const struct bill_line *line = &job->takeoff->lines.at[i];
        double size = sale_unit_usual(line->item->measure, job->system)->size;
        csv_text(&csv, office_group(line->item->group));
        csv_text(&csv, line->key ? line->key : line->item->key);
        csv_text(&csv, line->title);
        csv_real(&csv, line->net / size, 3);
        csv_real(&csv, line->wanted / size, 3);
        csv_text(&csv, units[line->item->measure][job->system == MEASURE_METRIC]);
        csv_amounts(&csv, job->arena, priced(job, i));
        csv_text(&csv, line->basis);
        csv_end(&csv);
    }
}
