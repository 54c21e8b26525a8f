/* The rows of the tree, with an explicit stack: a job may be deeper than recursion allows. */
#include "report/figure_tree.h"

#include <stdlib.h>

/* What comes next in a run, by how far along it is: another size, or a run that hangs from it. */
struct step {
    double station;
    const struct duct *duct;
    const struct run *child;
};

/* A run on its way into rows. */
struct frame {
    const struct run *run;
    int depth;
    struct step *steps;
    size_t count, next;
};

struct growing {
    struct arena *arena;
    struct tree *tree;
    const bool *costly; /* by section id */
    LIST(struct frame) frames;
};

static void add_row(struct growing *growing, struct tree_row row) {
    row.clamped = row.depth > TREE_DEEPEST;
    if (row.clamped)
        row.depth = TREE_DEEPEST;
    *list_add(growing->arena, &growing->tree->rows) = row;
}

/* ---- One run ----------------------------------------------------------------------------------------------------- */

static size_t children_of(const struct run *run) {
    size_t count = run->taps.count + (run->end != NULL);
    for (int leg = 0; leg < LEG_COUNT; leg++)
        count += run->legs[leg] != NULL;
    return count;
}

static size_t sections_of(const struct run *run) {
    size_t count = 0;
    for (const struct section *at = run->last_section; at && at->run == run; at = at->parent)
        count++;
    return count;
}

/* Sizes from the run's last section to its first, then put in their order; an empty stretch behind a split is passed
 * over when another size follows. */
static size_t size_steps(const struct run *run, struct step *steps) {
    size_t count = 0;
    for (const struct section *at = run->last_section; at && at->run == run; at = at->parent) {
        bool last = !at->parent || at->parent->run != run || at->parent->duct != at->duct;
        if (last && !(at->duct->leg_start && at->duct->length <= 0 && count))
            steps[count++] = (struct step){.station = at->station, .duct = at->duct};
    }
    for (size_t i = 0; i < count / 2; i++) {
        struct step other = steps[i];
        steps[i] = steps[count - 1 - i];
        steps[count - 1 - i] = other;
    }
    return count;
}

/* Sizes and taps by station, sizes first where they meet; then what hangs from the end. */
static void plan_steps(struct growing *growing, struct frame *frame) {
    const struct run *run = frame->run;
    struct step *sizes = ARENA_ARRAY(growing->arena, struct step, sections_of(run) + 1);
    size_t size_count = size_steps(run, sizes), size = 0, tap = 0;
    frame->steps = ARENA_ARRAY(growing->arena, struct step, size_count + children_of(run) + 1);
    while (size < size_count || tap < run->taps.count) {
        const struct run *child = tap < run->taps.count ? run->taps.at[tap] : NULL;
        if (size < size_count && (!child || size == 0 || sizes[size].station <= child->from.station)) {
            frame->steps[frame->count++] = sizes[size++];
        } else {
            frame->steps[frame->count++] = (struct step){.child = child};
            tap++;
        }
    }
    for (int leg = 0; leg < LEG_COUNT; leg++)
        if (run->legs[leg])
            frame->steps[frame->count++] = (struct step){.child = run->legs[leg]};
    if (run->end)
        frame->steps[frame->count++] = (struct step){.child = run->end};
}

static bool is_costly(const struct growing *growing, const struct run *run) {
    return run->first_section && growing->costly[run->first_section->id];
}

static void begin_run(struct growing *growing, const struct run *run, int depth) {
    struct frame frame = {.run = run, .depth = depth};
    plan_steps(growing, &frame);
    add_row(growing,
            (struct tree_row){.depth = depth,
                              .supply = run->supply,
                              .run = run,
                              .duct = frame.count && frame.steps[0].duct ? frame.steps[0].duct : run->first_duct,
                              .flow = run->first_section ? run->first_section->flow : run->airflow,
                              .costliest = is_costly(growing, run)});
    frame.next = frame.count && frame.steps[0].duct;
    *list_add(growing->arena, &growing->frames) = frame;
}

/* The size that a run goes on with, in line with what hangs from it. */
static void add_size(struct growing *growing, const struct frame *frame, const struct duct *duct) {
    add_row(growing, (struct tree_row){.depth = frame->depth + 1,
                                       .supply = frame->run->supply,
                                       .run = frame->run,
                                       .duct = duct,
                                       .goes_on = true,
                                       .flow = duct->flow});
}

static void grow(struct growing *growing, const struct run *root) {
    begin_run(growing, root, 1);
    while (growing->frames.count) {
        struct frame *frame = &growing->frames.at[growing->frames.count - 1];
        if (frame->next == frame->count) {
            growing->frames.count--;
            continue;
        }
        struct step step = frame->steps[frame->next++];
        if (step.duct)
            add_size(growing, frame, step.duct);
        else
            begin_run(growing, step.child, frame->depth + 1);
    }
}

/* ---- The lines between rows -------------------------------------------------------------------------------------- */

/* From the last row to the first: a line goes on at a depth as long as a later row hangs there from the same one. */
static void find_lines(struct tree *tree) {
    unsigned open = 0, thick = 0;
    for (size_t i = tree->rows.count; i-- > 0;) {
        struct tree_row *row = &tree->rows.at[i];
        unsigned shallower = (1u << row->depth) - 1;
        row->lines = open & (shallower | 1u << row->depth);
        row->thick = thick & row->lines;
        open &= shallower;
        thick &= shallower;
        if (row->depth == 0)
            continue;
        open |= 1u << (row->depth - 1);
        if (row->costliest)
            thick |= 1u << (row->depth - 1);
    }
}

static void add_side(struct growing *growing, const struct run *root, bool supply, double flow,
                     const struct path *worst) {
    if (!root)
        return;
    add_row(growing, (struct tree_row){.supply = supply, .flow = flow, .costliest = worst != NULL});
    grow(growing, root);
}

static void mark(bool *costly, const struct path *path) {
    for (const struct section *at = path ? path->end : NULL; at; at = at->parent)
        costly[at->id] = true;
}

const struct tree *tree_of(struct arena *arena, const struct network *network) {
    struct tree *tree = ARENA_NEW(arena, struct tree);
    tree->network = network;
    bool *costly = ARENA_ARRAY(arena, bool, network->sections.count + 1);
    mark(costly, network->governing_supply);
    mark(costly, network->governing_return);
    struct growing growing = {.arena = arena, .tree = tree, .costly = costly};
    const struct air_unit *unit = network->unit;
    add_side(&growing, unit->supply_run, true, network->supply_flow, network->governing_supply);
    add_side(&growing, unit->return_run, false, network->return_flow, network->governing_return);
    find_lines(tree);
    return tree;
}
