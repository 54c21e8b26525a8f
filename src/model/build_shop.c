/* What a shop makes and how.  A later value overrides an earlier one, and that is noted. */
#include "model/build.h"

#include <stdlib.h>
#include <string.h>

#include "base/constant.h"
#include "model/entries.h"
#include "model/words.h"

void take_shop(struct build *build, const struct reading *reading) {
    struct shop *shop = &build->job->shop;
    const struct argument *name = &reading->argument[0];
    if (name->given) {
        shop->name = name->text;
        shop->at = name->at;
    }
    enum measure_system outer = build->system;
    /* A file of a shop means the same to whatever job uses it. */
    if (!build_units(reading->statement, &build->system) && reading->statement->at.text != build->file)
        build->system = MEASURE_US;
    build_block(build, reading->statement, IN_SHOP, shop, &shop->settings, NULL);
    build->system = outer;
}

/* ---- Overriding -------------------------------------------------------------------------------------------------- */

/* The last statement for one thing. */
struct latest {
    struct span at;
    struct shop_entry *entry; /* NULL: it was not kept as an entry */
};

/* Puts `at` in the place of an earlier statement for `thing`, which is noted in `words`. */
static void override_as(struct build *build, const char *thing, const char *words, struct span at,
                        struct shop_entry *entry) {
    struct diagnostics *all = build->job->diagnostics;
    struct name *name = names_add(&build->entries, thing);
    struct latest *latest = name->thing;
    if (latest) {
        struct diagnostic *note =
            diagnose(all, DIAGNOSTIC_NOTE, "override", at, "this '%s' overrides an earlier one", words);
        diagnostic_relate(all, note, latest->at, "overridden here");
        if (latest->entry)
            latest->entry->overridden = true;
    } else {
        latest = name->thing = ARENA_NEW(build->job->arena, struct latest);
    }
    *latest = (struct latest){.at = at, .entry = entry};
}

static void override(struct build *build, const char *thing, struct span at, struct shop_entry *entry) {
    override_as(build, thing, thing, at, entry);
}

/* ---- Standard sizes ---------------------------------------------------------------------------------------------- */

static int ascending(const void *left, const void *right) {
    double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

/* Sorts sizes and drops repeated ones; returns how many are left. */
static size_t sort_sizes(double *sizes, size_t count) {
    size_t kept = 0;
    if (count == 0)
        return 0;
    qsort(sizes, count, sizeof *sizes, ascending);
    for (size_t i = 0; i < count; i++)
        if (!kept || sizes[i] - sizes[kept - 1] > 1e-6)
            sizes[kept++] = sizes[i];
    return kept;
}

void take_sizes(struct build *build, const struct reading *reading) {
    struct shop *shop = &build->job->shop;
    enum shape shape = (enum shape)reading->argument[SIZES_SHAPE].choice;
    LIST(double) sizes = {0};
    for (const struct argument *a = &reading->argument[SIZES_LIST]; a && a->given; a = a->next) {
        if (!build_within(build, a->at, a->number, &range_side))
            return;
        *list_add(build->job->arena, &sizes) = a->number;
    }
    size_t count = sort_sizes(sizes.at, sizes.count);
    override(build, arena_format(build->job->arena, "sizes %s", shape_name(shape)), reading->statement->at, NULL);
#define TAKE_SIZES(list) ((list).at = sizes.at, (list).count = count, (list).room = sizes.room)
    if (shape == SHAPE_ROUND)
        TAKE_SIZES(shop->round_sizes);
    else if (shape == SHAPE_OVAL)
        TAKE_SIZES(shop->oval_heights);
    else
        TAKE_SIZES(shop->widths);
#undef TAKE_SIZES
}

void take_trunk(struct build *build, const struct reading *reading) {
    build->job->shop.trunk_shape_set = true;
    build->job->shop.trunk_shape = (enum shape)reading->argument[0].choice;
}

void take_runout(struct build *build, const struct reading *reading) {
    build->job->shop.runout_shape_set = true;
    build->job->shop.runout_shape = (enum shape)reading->argument[0].choice;
}

/* ---- Entries ----------------------------------------------------------------------------------------------------- */

/* " on labour": what a statement is about besides its word. */
static const char *entry_choices(struct arena *arena, const struct reading *reading) {
    const char *words = "";
    for (size_t i = 0; i < SLOT_LIMIT && reading->form->slots[i].kind != SLOT_NONE; i++) {
        const struct slot *slot = &reading->form->slots[i];
        if (slot->kind == SLOT_CHOICE)
            words = arena_format(arena, "%s %s %s", words, slot->key, slot->choices[reading->argument[i].choice]);
    }
    return words;
}

/* ", aluminium", where a sheet is not of what all are that do not say. */
static const char *stock_material(struct arena *arena, const struct reading *reading) {
    const struct argument *material = &reading->argument[STOCK_MATERIAL];
    enum material of = material->given ? material_of_choice(material->choice) : MATERIAL_GALVANISED;
    return of == MATERIAL_GALVANISED ? "" : arena_format(arena, ", %s", material_name(of));
}

/* "stock 48 x 120 in, gauge 26": a sheet in the units of who states it. */
static const char *sheet_words(const struct build *build, const struct reading *reading) {
    const struct measure_show *show = measure_show(build->system, SHOW_SIZE);
    const struct argument *size = &reading->argument[0], *gauge = &reading->argument[1];
    return arena_format(build->job->arena, "%s %.6g x %.6g %s%s%s", reading->form->word, size->point[0] / show->factor,
                        size->point[1] / show->factor, show->unit, stock_material(build->job->arena, reading),
                        gauge->given ? arena_format(build->job->arena, ", gauge %g", gauge->number) : "");
}

/* What an entry is for: "price duct_sealant", "stock 1.2192 x 3.0480 gauge 26", "tax on material". */
static const char *entry_thing(struct arena *arena, const struct reading *reading) {
    const struct argument *first = &reading->argument[0];
    switch (reading->form->slots[0].kind) {
    case SLOT_SIZE:
        return arena_format(arena, "%s %.4f x %.4f m, gauge %g%s", reading->form->word, first->point[0],
                            first->point[1], reading->argument[1].number, stock_material(arena, reading));
    case SLOT_ITEM:
    case SLOT_TEXT:
        return arena_format(arena, "%s %s", reading->form->word, first->text);
    case SLOT_CHOICE:
        return arena_format(arena, "%s %s", reading->form->word, reading->form->slots[0].choices[first->choice]);
    default:
        return arena_format(arena, "%s%s", reading->form->word, entry_choices(arena, reading));
    }
}

/* Every quantity of an entry must lie in the range of its row; sheets besides must have a size. */
static bool entry_sane(struct build *build, const struct reading *reading, const struct range *range) {
    for (size_t i = 0; i < SLOT_LIMIT && reading->form->slots[i].kind != SLOT_NONE; i++) {
        const struct argument *a = &reading->argument[i];
        if (!a->given)
            continue;
        const struct slot *slot = &reading->form->slots[i];
        /* a percentage beside an amount */
        bool percent = slot->measure == MEASURE_PERCENT && range == &range_amount;
        const struct range *within = percent                                        ? &range_percent
                                     : slot->key && strcmp(slot->key, "above") == 0 ? &range_run
                                                                                    : range;
        if (slot->kind == SLOT_QUANTITY && !build_within(build, a->at, a->number, within))
            return false;
        for (int d = 0; reading->form->slots[i].kind == SLOT_SIZE && d < a->count; d++)
            if (!build_within(build, a->at, a->point[d], &range_sheet))
                return false;
    }
    return true;
}

/* An entry whose figures are in the range of its row; NULL: they are not. */
static struct shop_entry *new_entry(struct build *build, const struct reading *reading) {
    const struct row *row = (const struct row *)(const void *)reading->form;
    if (!entry_sane(build, reading, row->range))
        return NULL;
    struct shop_entry *entry = ARENA_NEW(build->job->arena, struct shop_entry);
    entry->reading = *reading;
    entry->says = (enum says)row->says;
    entry->of_job = build->place == IN_JOB;
    *list_add(build->job->arena, &build->job->shop.entries) = entry;
    return entry;
}

/* Keeps an entry in the place of an earlier one for the same thing.  What the job says for itself takes no statement of
 * a shop away: it goes before it, wherever it stands. */
static bool keep_entry(struct build *build, const struct reading *reading) {
    struct shop_entry *entry = new_entry(build, reading);
    if (!entry)
        return false;
    const char *thing = entry_thing(build->job->arena, reading);
    if (entry->of_job)
        thing = arena_format(build->job->arena, "%s, of the job", thing);
    bool sheet = reading->form->slots[0].kind == SLOT_SIZE;
    override_as(build, thing, sheet ? sheet_words(build, reading) : thing, reading->statement->at, entry);
    return true;
}

void take_entry(struct build *build, const struct reading *reading) {
    keep_entry(build, reading);
}

void take_access(struct build *build, const struct reading *reading) {
    const struct argument *above = &reading->argument[ACCESS_ABOVE];
    bool high = reading->argument[ACCESS_PLACE].choice == LOCATION_COUNT;
    if (above->given && !high) {
        build_error(build, "value", above->at, "a height is only for high work");
        return;
    }
    if (keep_entry(build, reading) && above->given)
        build->job->shop.reach = above->number;
}

/* Shop and field hours may be said apart, each per something else: the later one of each counts. */
void take_hours(struct build *build, const struct reading *reading) {
    const char *item = reading->argument[HOURS_ITEM].text;
    bool shop = reading->argument[HOURS_SHOP].given, field = reading->argument[HOURS_FIELD].given;
    if (!shop && !field) {
        struct diagnostic *error =
            build_error(build, "value", reading->statement->at, "no time is given for '%s'", item);
        diagnostic_hint(build->job->diagnostics, error, "hours %s, shop 0.6 h, field 0.4 h", item);
        return;
    }
    if (!new_entry(build, reading))
        return;
    if (shop)
        override(build, arena_format(build->job->arena, "hours %s, shop", item), reading->statement->at, NULL);
    if (field)
        override(build, arena_format(build->job->arena, "hours %s, field", item), reading->statement->at, NULL);
}

/* A mark, not a sentence: common practice, no source. */
void take_currency(struct build *build, const struct reading *reading) {
    const struct argument *mark = &reading->argument[0];
    if (strlen(mark->text) > 8 || strpbrk(mark->text, "0123456789-\n")) {
        struct diagnostic *error = build_error(build, "value", mark->at, "this is no mark of money");
        diagnostic_hint(build->job->diagnostics, error, "currency \"$\", or currency \"EUR\"");
        return;
    }
    if (build->place == IN_JOB)
        build->job->currency = mark->text;
    else
        build->job->shop.currency = mark->text;
}

/* ---- Seams, joints and marks ------------------------------------------------------------------------------------- */

/* In the place of what was said of the same seam, or behind the others. */
static void keep_seam(struct job *job, struct shop_seam seam) {
    size_t i = 0;
    while (i < job->shop.seams.count && job->shop.seams.at[i].kind != seam.kind)
        i++;
    if (i == job->shop.seams.count)
        list_add(job->arena, &job->shop.seams);
    job->shop.seams.at[i] = seam;
}

static void keep_connection(struct job *job, struct shop_connection connection) {
    size_t i = 0;
    while (i < job->shop.connections.count && job->shop.connections.at[i].kind != connection.kind)
        i++;
    if (i == job->shop.connections.count)
        list_add(job->arena, &job->shop.connections);
    job->shop.connections.at[i] = connection;
}

/* A seam that takes no sheet does not hold; only a lap has no pocket. */
static bool seam_holds(struct build *build, const struct reading *reading) {
    const struct argument *pocket = &reading->argument[SEAM_POCKET], *flange = &reading->argument[SEAM_FLANGE];
    enum seam_kind kind = (enum seam_kind)reading->argument[SEAM_KIND].choice;
    bool no_pocket = kind != SEAM_LAP && pocket->given && !(pocket->number > 0);
    bool no_flange = flange->given && !(flange->number > 0);
    if (!no_pocket && !no_flange)
        return true;
    struct diagnostic *error = build_error(build, "value", (no_pocket ? pocket : flange)->at,
                                           "a %s seam without a %s holds nothing: expected more than 0",
                                           seam_name(kind), no_pocket ? "pocket" : "flange");
    diagnostic_hint(build->job->diagnostics, error, kind == SEAM_LAP ? "seam lap, flange 3/4 in" : "leave the 0 out");
    return false;
}

/* `seam pittsburgh` alone is the shop's choice; with its allowances it tells what the seam takes. */
void take_shop_seam(struct build *build, const struct reading *reading) {
    const struct argument *pocket = &reading->argument[SEAM_POCKET], *flange = &reading->argument[SEAM_FLANGE];
    if (!seam_holds(build, reading))
        return;
    if (!pocket->given && !flange->given)
        take_seam(build, reading);
    else if (keep_entry(build, reading))
        keep_seam(build->job, (struct shop_seam){
                                  .kind = (enum seam_kind)reading->argument[SEAM_KIND].choice,
                                  .pocket = pocket->number,
                                  .flange = flange->number,
                                  .pocket_given = pocket->given,
                                  .flange_given = flange->given,
                                  .at = reading->statement->at,
                              });
}

void take_connection(struct build *build, const struct reading *reading) {
    const struct argument *end = &reading->argument[CONNECTION_END];
    if (keep_entry(build, reading))
        keep_connection(build->job, (struct shop_connection){
                                        .kind = (enum joint_kind)reading->argument[CONNECTION_KIND].choice,
                                        .end = end->number,
                                        .end_given = end->given,
                                        .at = reading->statement->at,
                                    });
}

/* More light sheets in one stack cannot be notched by hand: common practice, no source. */
void take_stack(struct build *build, const struct reading *reading) {
    build_whole(build, &reading->argument[0], "a stack of sheets", 1, 20, &build->job->shop.stack);
}

/* The size of an offcut that is worth keeping; what is no sheet's size is diagnosed. */
void take_offcut(struct build *build, const struct reading *reading) {
    const struct argument *size = &reading->argument[0];
    if (size->count != 2) {
        struct diagnostic *error = build_error(build, "value", size->at, "an offcut has two sides");
        diagnostic_hint(build->job->diagnostics, error, "%s",
                        build->system == MEASURE_METRIC ? "offcut 300 x 600" : "offcut 12 x 24");
        return;
    }
    for (int side = 0; side < 2; side++)
        if (!build_within(build, size->at, size->point[side], &range_sheet))
            return;
    for (int side = 0; side < 2; side++)
        build->job->shop.offcut[side] = size->point[side];
}

void take_grain(struct build *build, const struct reading *reading) {
    build->job->shop.grain = reading->argument[0].choice == GRAIN_LENGTHWISE;
}

/* All quarters of a circle have the same ordinates, so they are counted by quarters. */
void take_stations(struct build *build, const struct reading *reading) {
    const struct argument *value = &reading->argument[0];
    int stations;
    if (!build_whole(build, value, "the stations of a pattern", 8, 96, &stations))
        return;
    if (stations % 4 == 0) {
        build->job->shop.stations = stations;
        return;
    }
    struct diagnostic *error = build_error(build, "value", value->at, "the stations of a pattern are a multiple of 4");
    diagnostic_hint(build->job->diagnostics, error, "write %d", (stations + 2) / 4 * 4);
}

void take_hang(struct build *build, const struct reading *reading) {
    const struct argument *every = &reading->argument[HANG_EVERY], *below = &reading->argument[HANG_BELOW];
    struct shop *shop = &build->job->shop;
    if (!every->given && !below->given) {
        struct diagnostic *error = build_error(build, "value", reading->statement->at, "expected how duct is hung");
        diagnostic_hint(build->job->diagnostics, error, "hang every 8 ft, below 12 in");
        return;
    }
    if (every->given && build_within(build, every->at, every->number, &range_hang_every))
        shop->hang_every = every->number;
    if (below->given && build_within(build, below->at, below->number, &range_hang_below)) {
        shop->hang_below = below->number;
        shop->hang_below_set = true;
    }
}

/* What no shop said.  Standard sizes are left empty: sizing has its own lists.  Joint length 5 ft, aspect ratio 4,
 * flexible duct pulled out to 96 %, stacks of 8 sheets, 16 stations, no notch of its own and nothing taken off per
 * bend: common practice, no source. */
void shop_defaults(struct job *job) {
    struct shop *shop = &job->shop;
    if (!(shop->joint_length > 0))
        shop->joint_length = 5 * FOOT;
    if (!(shop->aspect_limit > 0))
        shop->aspect_limit = 4;
    if (!(shop->flex_stretch > 0))
        shop->flex_stretch = 0.96;
    if (!shop->stack)
        shop->stack = 8;
    if (!shop->stations)
        shop->stations = 16;
    if (!(shop->reach > 0))
        shop->reach = 10 * FOOT; /* common practice, no source */
    if (!(shop->hang_every > 0)) /* SOURCE_HANGERS */
        shop->hang_every = measure_chosen(job->system, 10 * FOOT);
    if (!shop->hang_below_set) /* common practice, no source */
        shop->hang_below = measure_chosen(job->system, 12 * INCH);
    if (!shop->trunk_shape_set)
        shop->trunk_shape = SHAPE_RECTANGULAR;
    if (!shop->runout_shape_set)
        shop->runout_shape = SHAPE_ROUND;
}
