/* Hours: what is counted, times what the shop says one takes, times how hard it is to get at. */
#include <string.h>

#include "base/constant.h"
#include "cost/price.h"
#include "model/entries.h"
#include "model/names.h"
#include "model/words.h"

/* Hours are kept to the hundredth, lengths, areas and weights to the tenth. */
enum { HUNDREDTH = QUANTITY_PARTS / 100, TENTH = QUANTITY_PARTS / 10 };

static double pieces_of(const struct labour_count *count) {
    return (double)count->pieces;
}

static double parts_of(const struct labour_count *count) {
    return (double)count->parts;
}

static double inserts_of(const struct labour_count *count) {
    return (double)count->inserts;
}

/* What one is where the shop does not say: the joints that a straight is cut into, pieces of the others, hangers. */
static double times_of(const struct labour_count *count) {
    return (double)labour_times(count);
}

static double joints_of(const struct labour_count *count) {
    return (double)count->joints;
}

static double length_of(const struct labour_count *count) {
    return count->length;
}

static double area_of(const struct labour_count *count) {
    return count->area;
}

static double weight_of(const struct labour_count *count) {
    return count->weight;
}

static double seam_of(const struct labour_count *count) {
    return count->seam;
}

/* What hours can be per. */
struct per {
    const char *word;
    double (*of)(const struct labour_count *count);
    double size; /* of one, SI */
    thousandths step;
};

/* By what is counted, or by a length that nothing is sold by. */
static const struct per pers[] = {
    {"piece", pieces_of, 1, QUANTITY_PARTS},   {"part", parts_of, 1, QUANTITY_PARTS},
    {"insert", inserts_of, 1, QUANTITY_PARTS}, {"joint", joints_of, 1, QUANTITY_PARTS},
    {"seam-foot", seam_of, FOOT, TENTH},       {"seam-metre", seam_of, 1, TENTH},
};
enum { PER_COUNT = sizeof pers / sizeof pers[0] };

/* Said nothing of. */
static const struct per per_time = {"time", times_of, 1, QUANTITY_PARTS};

/* By a unit that things are sold by; false: by none that work is measured in. */
static bool per_unit(const char *word, struct per *per) {
    static double (*const of[])(const struct labour_count *count) = {
        [BILL_LENGTH] = length_of, [BILL_AREA] = area_of, [BILL_VOLUME] = NULL, [BILL_WEIGHT] = weight_of};
    const struct sale_unit *unit = sale_unit_find(word);
    if (!unit || unit->package || !of[unit->measure] || strcmp(unit->word, word) != 0)
        return false;
    *per = (struct per){unit->word, of[unit->measure], unit->size, unit->step};
    return true;
}

static const struct per *per_named(struct arena *arena, const char *word) {
    for (size_t i = 0; i < PER_COUNT; i++)
        if (strcmp(pers[i].word, word) == 0)
            return &pers[i];
    struct per *per = ARENA_NEW(arena, struct per);
    return per_unit(word, per) ? per : NULL;
}

static const char *nearest_per(const char *word) {
    static const enum bill_measure measures[] = {BILL_LENGTH, BILL_AREA, BILL_WEIGHT};
    enum { MEASURES = sizeof measures / sizeof measures[0] };
    const char *words[PER_COUNT + 2 * MEASURES];
    size_t count = 0;
    for (size_t i = 0; i < PER_COUNT; i++)
        words[count++] = pers[i].word;
    for (size_t i = 0; i < MEASURES; i++) {
        words[count++] = sale_unit_usual(measures[i], MEASURE_US)->word;
        words[count++] = sale_unit_usual(measures[i], MEASURE_METRIC)->word;
    }
    return text_nearest(word, words, count);
}

/* What a shop says of one kind of work: the latest of each kind of labour. */
struct work_hours {
    const struct shop_entry *entry[LABOUR_KIND_COUNT];
    bool said[LABOUR_KIND_COUNT]; /* that something is wrong with it */
};

struct hour_list {
    struct price *price;
    struct job *job;
    struct names words;                    /* struct work_hours of each */
    percentage access[LOCATION_COUNT + 1]; /* by place; the last: of high work, besides */
};

static void read_hours(struct hour_list *list, const struct shop_entry *entry) {
    const struct argument *argument = entry->reading.argument;
    struct name *name = names_add(&list->words, argument[HOURS_ITEM].text);
    if (!name->thing)
        name->thing = ARENA_NEW(list->job->arena, struct work_hours);
    struct work_hours *hours = name->thing;
    for (enum labour_kind kind = 0; kind < LABOUR_KIND_COUNT; kind++)
        if (argument[labour_rows[kind].hours].given)
            hours->entry[kind] = entry;
}

static void read_access(struct hour_list *list, const struct shop_entry *entry) {
    const struct argument *argument = entry->reading.argument;
    percentage factor;
    if (share_from(argument[ACCESS_FACTOR].number, &factor))
        list->access[argument[ACCESS_PLACE].choice] = factor;
    else
        price_error(list->price, list->job, "price", argument[ACCESS_FACTOR].at,
                    "expected a percentage of at most four decimals");
}

static void read_all(struct hour_list *list) {
    for (size_t place = 0; place <= LOCATION_COUNT; place++)
        list->access[place] = SHARE_WHOLE;
    const struct shop *shop = &list->job->shop;
    const struct shop_entry *entry;
    for (size_t i = 0; (entry = shop_says(shop, SAYS_HOURS, &i));)
        read_hours(list, entry);
    for (size_t i = 0; (entry = shop_says(shop, SAYS_ACCESS, &i));)
        read_access(list, entry);
}

/* ---- What is wrong ----------------------------------------------------------------------------------------------- */

static void say_no_hours(struct hour_list *list, const struct labour_count *count, struct name *name) {
    struct job *job = list->job;
    list->price->complete = false;
    if (name->thing)
        return;
    name->thing = ARENA_NEW(job->arena, struct work_hours); /* so that it is said once */
    struct diagnostic *error = price_error(list->price, job, "price", job->shop.at.text ? job->shop.at : job->at,
                                           "no hours are given for '%s'", count->word);
    if (labour_times(count))
        diagnostic_hint(job->diagnostics, error, "hours %s, shop 0.6 h, field 0.4 h", count->word);
    else
        diagnostic_hint(job->diagnostics, error, "hours %s, field 0.02 h per %s", count->word,
                        count->area > 0 ? (job->system == MEASURE_METRIC ? "m2" : "ft2")
                                        : (job->system == MEASURE_METRIC ? "metre" : "foot"));
}

/* What the hours of an entry are per; NULL: diagnosed, once. */
static const struct per *per_of(struct hour_list *list, const struct labour_count *count, struct work_hours *hours,
                                enum labour_kind kind) {
    const struct argument *argument = &hours->entry[kind]->reading.argument[HOURS_PER];
    const struct per *per = argument->given ? per_named(list->job->arena, argument->text) : &per_time;
    if (per && (per != &per_time || labour_times(count)))
        return per;
    struct job *job = list->job;
    list->price->complete = false;
    if (hours->said[kind])
        return NULL;
    hours->said[kind] = true;
    struct span at = argument->given ? argument->at : hours->entry[kind]->reading.statement->at;
    if (!per) {
        const char *nearest = nearest_per(argument->text);
        struct diagnostic *error = price_error(list->price, job, "price", at, "no hours are per '%s'", argument->text);
        diagnostic_hint(job->diagnostics, error, "write per %s",
                        nearest ? nearest : "piece, part, joint, foot, ft2, lb or seam-foot");
        return NULL;
    }
    struct diagnostic *error = price_error(list->price, job, "price", at,
                                           "'%s' is not counted: its hours are per length or area", count->word);
    diagnostic_hint(job->diagnostics, error, "hours %s, field 0.02 h per %s", count->word,
                    count->area > 0 ? "ft2" : "foot");
    return NULL;
}

/* ---- Lines ------------------------------------------------------------------------------------------------------- */

static void work_kind(struct hour_list *list, struct labour_line *line, struct work_hours *hours,
                      enum labour_kind kind) {
    const struct shop_entry *entry = hours->entry[kind];
    const struct per *per = entry ? per_of(list, &line->count, hours, kind) : NULL;
    if (!per)
        return;
    percentage access = labour_rows[kind].by_access ? line->access : SHARE_WHOLE;
    double each = entry->reading.argument[labour_rows[kind].hours].number / HOUR;
    line->per[kind] = per == &per_time ? (line->count.cut ? "part" : "piece") : per->word;
    line->each[kind] = each;
    line->amount[kind] = quantity_nearest(per->of(&line->count) / per->size, per->step);
    line->hours[kind] = quantity_times(line->amount[kind], (int64_t)(each * SHARE_WHOLE + 0.5), access, HUNDREDTH);
    list->price->sums.hours[kind] = money_add(list->price->sums.hours[kind], line->hours[kind]);
}

static void need_rates(struct hour_list *list) {
    struct job *job = list->job;
    for (enum labour_kind kind = 0; kind < LABOUR_KIND_COUNT; kind++) {
        if (!list->price->sums.hours[kind] || list->price->terms.rated[kind])
            continue;
        struct diagnostic *error =
            price_error(list->price, job, "price", job->shop.at.text ? job->shop.at : job->at,
                        "there are %s hours in the job, and no rate for them", labour_choices[kind]);
        price_hint(job, error, labour_rows[kind].example);
    }
}

void price_labour(struct price *price, struct job *job) {
    struct hour_list list = {.price = price, .job = job, .words = {.arena = job->arena}};
    read_all(&list);
    const struct labour_counts *work = job->takeoff->work;
    for (size_t i = 0; i < work->lines.count; i++) {
        struct labour_line *line = list_add(job->arena, &price->labour);
        *line = (struct labour_line){.count = work->lines.at[i], .access = list.access[work->lines.at[i].place]};
        if (line->count.high)
            line->access = money_share(line->access, list.access[LOCATION_COUNT]);
        struct name *name = names_find(&list.words, line->count.word);
        if (!name) {
            say_no_hours(&list, &line->count, names_add(&list.words, line->count.word));
            continue;
        }
        for (enum labour_kind kind = 0; kind < LABOUR_KIND_COUNT; kind++)
            work_kind(&list, line, name->thing, kind);
    }
    need_rates(&list);
}
