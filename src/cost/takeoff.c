/* The pass: connections and hangers are listed, then each row of the table adds its lines. */
#include "cost/takeoff.h"

#include <string.h>

#include "cost/count.h"
#include "cost/labour_count.h"
#include "cost/shop_prices.h"

struct bill_line *bill_line(struct takeoff *takeoff, const char *key, const char *title) {
    for (size_t i = takeoff->lines.count; i-- > 0 && takeoff->lines.at[i].item == takeoff->item;) {
        const char *known = takeoff->lines.at[i].key;
        if (known == key || (known && key && strcmp(known, key) == 0))
            return &takeoff->lines.at[i];
    }
    struct bill_line *line = list_add(takeoff->arena, &takeoff->lines);
    line->item = takeoff->item;
    line->key = key;
    line->title = title;
    return line;
}

double whole_ones(double count) {
    return ceil(count - 1e-9);
}

static const char *words_of(const struct takeoff *takeoff, double figure, const char *unit) {
    return figure < 99.95 ? arena_format(takeoff->arena, "%g %s", round(figure * 10) / 10, unit)
                          : arena_format(takeoff->arena, "%.0f %s", figure, unit);
}

const char *words_of_length(const struct takeoff *takeoff, const struct job *job, double length) {
    return job->system == MEASURE_METRIC ? words_of(takeoff, length, "m") : words_of(takeoff, length / FOOT, "ft");
}

const char *words_of_width(const struct takeoff *takeoff, const struct job *job, double length) {
    if (job->system == MEASURE_METRIC)
        return arena_format(takeoff->arena, "%.0f mm", length / MILLIMETRE);
    return measure_text(takeoff->arena, MEASURE_US, SHOW_CUT, length);
}

const char *words_of_area(const struct takeoff *takeoff, const struct job *job, double area) {
    const struct measure_show *show = measure_show(job->system, SHOW_AREA);
    return words_of(takeoff, area / show->factor, show->unit);
}

const char *words_of_count(const struct takeoff *takeoff, double count, const char *one, const char *many) {
    return arena_format(takeoff->arena, "%.0f %s", count, count < 1.5 && count > 0.5 ? one : many);
}

static void sum_closings(struct takeoff *takeoff) {
    for (size_t i = 0; i < takeoff->connections.count; i++) {
        const struct connection *connection = &takeoff->connections.at[i];
        takeoff->closings[connection->closing].count++;
        takeoff->closings[connection->closing].girth += size_perimeter(connection->size);
    }
}

void cost_takeoff(struct job *job) {
    if (!job->metal)
        return;
    struct takeoff *takeoff = job->takeoff = ARENA_NEW(job->arena, struct takeoff);
    takeoff->arena = job->arena;
    takeoff->piece_count = pieces_as_hung(takeoff->arena, job->metal, &takeoff->pieces);
    struct shop_prices *prices = ARENA_NEW(job->arena, struct shop_prices);
    *prices = shop_prices_of(job, job->arena);
    takeoff->prices = prices;
    takeoff->measures = parts_measured(takeoff->arena, job->metal);
    list_connections(takeoff, job);
    sum_closings(takeoff);
    hang_ducts(takeoff, job);
    size_t count;
    const struct bill_item *items = bill_items(&count);
    for (size_t i = 0; i < count; i++) {
        takeoff->item = &items[i];
        items[i].count(takeoff, job);
    }
    struct labour_counts *work = ARENA_NEW(job->arena, struct labour_counts);
    *work = labour_count(job, job->arena);
    takeoff->work = work;
}
