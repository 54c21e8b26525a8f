/* Sheets as the nest uses them, and what none of them is large enough for. */
#include "cost/count.h"
#include "cost/shop_prices.h"
#include "metal/nest.h"
#include "model/words.h"

static const char *sheet_size(const struct takeoff *takeoff, const struct job *job, const struct stock_sheet *sheet) {
    return size_figures(takeoff->arena, job->system,
                        (struct duct_size){SHAPE_RECTANGULAR, sheet->sides[0], sheet->sides[1]});
}

/* "stock 48 x 120 in, aluminium, gauge 22, price 41.50 per sheet": for the first size that the group uses. */
static const char *stock_example(const struct takeoff *takeoff, const struct job *job, const struct nest_group *group) {
    size_t used = 0;
    while (!group->stock.at[used].count)
        used++;
    bool plain = group->material == MATERIAL_GALVANISED;
    return arena_format(takeoff->arena, "stock %s %s, %s%sgauge %d, price 41.50 per sheet",
                        sheet_size(takeoff, job, group->stock.at[used].sheet),
                        measure_show(job->system, SHOW_SIZE)->unit, plain ? "" : material_name(group->material),
                        plain ? "" : ", ", group->gauge);
}

static void add_stock(struct takeoff *takeoff, const struct job *job, const struct nest_group *group,
                      const struct nest_stock *stock) {
    const char *size = sheet_size(takeoff, job, stock->sheet);
    const char *material = material_name(group->material);
    bool plain = group->material == MATERIAL_GALVANISED;
    const char *key = arena_format(takeoff->arena, "sheet %s gauge %d%s%s", size, group->gauge, plain ? "" : " ",
                                   plain ? "" : material);
    const char *title = arena_format(takeoff->arena, "Sheet, %s %s, %d ga %s", size,
                                     measure_show(job->system, SHOW_SIZE)->unit, group->gauge, material);
    struct bill_line *line = bill_line(takeoff, key, title);
    line->net = line->wanted = (double)stock->count;
    line->sheet = stock->sheet;
    line->example = stock_example(takeoff, job, group);
    line->basis = arena_format(
        takeoff->arena, "%s of this size%s, for %s of %d ga %s; %.0f %% of the metal that is not kept is scrap%s",
        words_of_count(takeoff, (double)stock->count, "sheet", "sheets"),
        stock->count < group->sheets ? arena_format(takeoff->arena, " among %zu of several sizes", group->sheets) : "",
        words_of_count(takeoff, (double)group->blanks, "blank or strip", "blanks and strips"), group->gauge, material,
        100 * group->scrap, group->stock_assumed ? "; the shop lists no stock, so this sheet is assumed" : "");
    line->source = group->stock_assumed ? SOURCE_STOCK_SHEET : SOURCE_NONE;
}

void count_sheets(struct takeoff *takeoff, const struct job *job) {
    const struct nest *nest = job->metal->nest;
    for (size_t g = 0; nest && g < nest->groups.count; g++)
        for (size_t s = 0; s < nest->groups.at[g].stock.count; s++)
            if (nest->groups.at[g].stock.at[s].count > 0)
                add_stock(takeoff, job, &nest->groups.at[g], &nest->groups.at[g].stock.at[s]);
}

void count_loose_sheet(struct takeoff *takeoff, const struct job *job) {
    const struct nest *nest = job->metal->nest;
    double waste = takeoff->prices->waste;
    for (size_t g = 0; nest && g < nest->groups.count; g++) {
        const struct nest_group *group = &nest->groups.at[g];
        double area = 0;
        for (size_t p = 0; p < group->pieces.count; p++)
            area += (double)group->pieces.at[p].unplaced * group->pieces.at[p].length * group->pieces.at[p].width;
        if (!(area > 0))
            continue;
        struct bill_line *line = bill_line(takeoff, arena_format(takeoff->arena, "sheet_metal gauge %d", group->gauge),
                                           arena_format(takeoff->arena, "Larger sheet than the shop stocks, %d ga %s",
                                                        group->gauge, material_name(group->material)));
        line->net += area;
        line->wanted = line->net * (1 + waste);
        line->basis = arena_format(takeoff->arena, "%s that no stock sheet takes; %.0f %% waste, as the shop says",
                                   words_of_count(takeoff, (double)group->unplaced, "blank", "blanks"), 100 * waste);
    }
}
