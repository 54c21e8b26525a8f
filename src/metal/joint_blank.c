/* Blanks of straight joints, their marks, and stacks of equal ones. */
#include "metal/joint_blank.h"

#include <math.h>
#include <stdlib.h>

#include "base/constant.h"
#include "metal/gauge.h"

/* ---- Layout --------------------------------------------------------------------------------------------------------
 */

/* What stands at an edge of a blank. */
struct edge {
    enum mark_kind kind; /* MARK_POCKET or MARK_FLANGE */
    double allowance;    /* m; 0: a raw edge, no mark */
};

/* Marks from the first edge on.  A bend takes half its deduction off before it and half behind it. */
static void add_mark(struct joint_blank *blank, double at, enum mark_kind kind, double deduction, int *bends) {
    bool bent = kind != MARK_POCKET; /* the pocket is formed flat, by the lock's own rolls */
    double off = (*bends + (bent ? 0.5 : 0)) * deduction;
    *bends += bent;
    blank->marks[blank->mark_count++] = (struct brake_mark){.at = at - off, .kind = kind};
}

static void lay_out(struct joint_blank *blank, struct edge first, const double *panels, size_t count, struct edge last,
                    double deduction) {
    double at = first.allowance;
    int bends = 0;
    if (first.allowance > 0)
        add_mark(blank, at, first.kind, deduction, &bends);
    for (size_t i = 0; i < count; i++) {
        blank->panels[blank->panel_count++] = panels[i];
        at += panels[i];
        if (i + 1 < count)
            add_mark(blank, at, MARK_BEND, deduction, &bends);
    }
    if (last.allowance > 0)
        add_mark(blank, at, last.kind, deduction, &bends);
    blank->girth = at + last.allowance - bends * deduction;
}

struct joint_plan joint_blanks(const struct straight_joint *joint, enum blanking way) {
    double w = joint->size.width, h = joint->size.height, off = joint->bend_deduction;
    double around[] = {w, h, w, h};
    struct edge pocket = {MARK_POCKET, joint->seam.pocket}, flange = {MARK_FLANGE, joint->seam.flange};
    struct joint_blank blank = {.length = joint->length + joint->ends[0] + joint->ends[1]};
    struct joint_plan plan = {.way = way, .blanks = {blank, blank}, .count = 1};
    if (way == BLANK_WRAP) {
        lay_out(&plan.blanks[0], pocket, around, 4, flange, off);
        plan.blanks[0].count = 1;
    } else if (way == BLANK_HALVES) {
        lay_out(&plan.blanks[0], pocket, around, 2, flange, off);
        plan.blanks[0].count = 2;
    } else {
        lay_out(&plan.blanks[0], pocket, &around[0], 1, pocket, off);
        lay_out(&plan.blanks[1], flange, &around[1], 1, flange, off);
        plan.blanks[0].count = plan.blanks[1].count = 2;
        plan.count = 2;
    }
    return plan;
}

struct joint_plan joint_plan_of(const struct straight_joint *joint, const struct stock *stock) {
    struct joint_plan plan = {0};
    for (enum blanking way = BLANK_WRAP; way < BLANK_NONE; way++) {
        bool fits = true;
        plan = joint_blanks(joint, way);
        for (size_t i = 0; i < plan.count; i++) {
            plan.blanks[i].sheet = stock_for(stock, plan.blanks[i].length, plan.blanks[i].girth);
            fits &= plan.blanks[i].sheet != NULL;
        }
        if (fits)
            return plan;
    }
    plan.way = BLANK_NONE;
    return plan;
}

const char *blanking_words(enum blanking way) {
    static const char *const words[] = {
        [BLANK_WRAP] = "one wrap",
        [BLANK_HALVES] = "two L's",
        [BLANK_SIDES] = "four sides",
        [BLANK_NONE] = "no sheet is large enough",
    };
    return words[way];
}

/* ---- Stacks --------------------------------------------------------------------------------------------------------
 */

int metal_stack(int declared, int gauge) {
    double thickness = metal_thickness(gauge);
    double sheets = thickness > 0 ? declared * metal_thickness(26) / thickness : declared;
    return sheets < 1 ? 1 : (int)floor(sheets + 1e-9);
}

/* A blank to be sorted among equals. */
struct sorted {
    const struct joint_use *use;
    size_t place;          /* among the uses */
    struct sorted *leader; /* the first of its equals */
    int total;             /* of a leader: blanks in the batch */
};

static int order(double left, double right) {
    long long a = llround(left / 1e-5), b = llround(right / 1e-5);
    return (a > b) - (a < b);
}

/* By what makes two blanks equal. */
static int compare(const struct joint_use *left, const struct joint_use *right) {
    const struct joint_blank *a = &left->blank, *b = &right->blank;
    int by = (left->gauge > right->gauge) - (left->gauge < right->gauge);
    by = by ? by : (left->material > right->material) - (left->material < right->material);
    by = by ? by : order(a->length, b->length);
    by = by ? by : order(a->girth, b->girth);
    by = by ? by : (a->mark_count > b->mark_count) - (a->mark_count < b->mark_count);
    for (size_t i = 0; !by && i < a->mark_count; i++) {
        by = order(a->marks[i].at, b->marks[i].at);
        by = by ? by : (a->marks[i].kind > b->marks[i].kind) - (a->marks[i].kind < b->marks[i].kind);
    }
    return by;
}

static int compare_sorted(const void *left, const void *right) {
    const struct sorted *a = left, *b = right;
    int by = compare(a->use, b->use);
    return by ? by : (a->place > b->place) - (a->place < b->place);
}

static int compare_places(const void *left, const void *right) {
    const struct sorted *a = *(struct sorted *const *)left, *b = *(struct sorted *const *)right;
    return (a->place > b->place) - (a->place < b->place);
}

static struct joint_batch batch_of(const struct sorted *leader, int declared_stack) {
    struct joint_batch batch = {
        .blank = leader->use->blank,
        .gauge = leader->use->gauge,
        .material = leader->use->material,
        .depth = metal_stack(declared_stack, leader->use->gauge),
    };
    batch.blank.count = leader->total;
    batch.stacks = (leader->total + batch.depth - 1) / batch.depth;
    return batch;
}

struct batch_list joint_batches(struct arena *arena, const struct joint_use *uses, size_t count, int declared_stack) {
    struct batch_list list = {0};
    struct sorted *sorted = ARENA_ARRAY(arena, struct sorted, count ? count : 1);
    LIST(struct sorted *) leaders = {0};
    for (size_t i = 0; i < count; i++)
        sorted[i] = (struct sorted){.use = &uses[i], .place = i};
    if (count)
        qsort(sorted, count, sizeof *sorted, compare_sorted);
    for (size_t i = 0; i < count; i++) {
        bool same = i > 0 && compare(sorted[i - 1].use, sorted[i].use) == 0;
        sorted[i].leader = same ? sorted[i - 1].leader : &sorted[i];
        if (!same)
            *list_add(arena, &leaders) = &sorted[i];
        sorted[i].leader->total += uses[sorted[i].place].blank.count;
    }
    if (leaders.count)
        qsort(leaders.at, leaders.count, sizeof *leaders.at, compare_places);
    for (size_t i = 0; i < leaders.count; i++)
        *list_add(arena, &list.batches) = batch_of(leaders.at[i], declared_stack);
    return list;
}
