/* A grid of square cells, kept in a hash table because a sheet has no edge until it is laid out. */
#include "draw/obstacles.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>

/* About the size of a short text. */
static const double cell_size = 24; /* pt */

enum { HEADS_FIRST = 256 };

struct thing {
    enum obstacle_kind kind;
    struct sheet_box box;
    struct spot from, to; /* of a line */
};

struct entry {
    int32_t column, row;
    uint32_t thing;
    uint32_t next; /* index of the next in its chain and one; 0: none */
};

struct grid {
    LIST(struct entry) entries;
    uint32_t *heads;   /* index of an entry and one; 0: none */
    size_t head_count; /* a power of two */
};

struct obstacles {
    struct arena *arena;
    LIST(struct thing) things;
    struct grid all, texts; /* the latter of texts alone, which are few among lines: a leader asks for nothing else */
};

static void grid_begin(struct grid *grid, struct arena *arena) {
    grid->head_count = HEADS_FIRST;
    grid->heads = ARENA_ARRAY(arena, uint32_t, grid->head_count);
}

struct obstacles *obstacles_new(struct arena *arena) {
    struct obstacles *all = ARENA_NEW(arena, struct obstacles);
    all->arena = arena;
    grid_begin(&all->all, arena);
    grid_begin(&all->texts, arena);
    return all;
}

/* ---- Cells ------------------------------------------------------------------------------------------------------- */

static int32_t cell(double at) {
    return (int32_t)floor(at / cell_size);
}

static size_t head_of(const struct grid *grid, int32_t column, int32_t row) {
    uint32_t mixed = (uint32_t)column * 0x9e3779b1u ^ (uint32_t)row * 0x85ebca77u;
    return (mixed ^ mixed >> 15) & (grid->head_count - 1);
}

static void chain(struct grid *grid, uint32_t index) {
    struct entry *entry = &grid->entries.at[index];
    uint32_t *head = &grid->heads[head_of(grid, entry->column, entry->row)];
    entry->next = *head;
    *head = index + 1;
}

static void enter_cell(struct grid *grid, struct arena *arena, struct entry entry) {
    if (grid->entries.count >= 2 * grid->head_count) {
        grid->head_count *= 2;
        grid->heads = ARENA_ARRAY(arena, uint32_t, grid->head_count);
        for (uint32_t i = 0; i < grid->entries.count; i++)
            chain(grid, i);
    }
    *list_add(arena, &grid->entries) = entry;
    chain(grid, (uint32_t)grid->entries.count - 1);
}

/* A span of cells, ends included. */
struct cells {
    int32_t first, last;
};

/* The heights at which the line passes `column`, joined to those from `*low` to `*high`. */
static void join_heights(struct spot from, struct spot to, int32_t column, double *low, double *high) {
    double left = column * cell_size, right = left + cell_size, step = to.x - from.x;
    if (fmax(from.x, to.x) < left || fmin(from.x, to.x) > right)
        return;
    double enter = 0, leave = 1;
    if (fabs(step) > 1e-9) {
        double one = (left - from.x) / step, other = (right - from.x) / step;
        enter = fmax(0, fmin(one, other));
        leave = fmin(1, fmax(one, other));
    }
    double first = from.y + enter * (to.y - from.y), last = from.y + leave * (to.y - from.y);
    *low = fmin(*low, fmin(first, last));
    *high = fmax(*high, fmax(first, last));
}

/* A hair more, so that rounding at a cell's edge loses nothing. */
static struct cells cells_between(double low, double high) {
    return (struct cells){cell(low - 1e-6), cell(high + 1e-6)};
}

/* The rows of `column` that a line, or a box given by its corners, touches; a long slanting one does not fill the
 * rectangle around it, as one does whose first side is level or upright. */
static struct cells rows_of(const struct spot *corners, int count, int32_t column) {
    double low = INFINITY, high = -INFINITY;
    if (count == 4 && (corners[0].y == corners[1].y || corners[0].x == corners[1].x))
        return cells_between(fmin(corners[0].y, corners[2].y), fmax(corners[0].y, corners[2].y));
    for (int i = 0; i < count; i++)
        join_heights(corners[i], corners[(i + 1) % count], column, &low, &high);
    return low <= high ? cells_between(low, high) : (struct cells){0, -1};
}

static struct cells columns_of(const struct spot *corners, int count) {
    double left = corners[0].x, right = left;
    for (int i = 1; i < count; i++) {
        left = fmin(left, corners[i].x);
        right = fmax(right, corners[i].x);
    }
    return cells_between(left, right);
}

/* ---- Adding ------------------------------------------------------------------------------------------------------ */

/* The last thing. */
static void enter_cells(struct obstacles *all, const struct spot *corners, int count) {
    uint32_t thing = (uint32_t)all->things.count - 1;
    bool text = all->things.at[thing].kind == OBSTACLE_TEXT;
    struct cells columns = columns_of(corners, count);
    for (int32_t column = columns.first; column <= columns.last; column++) {
        struct cells rows = rows_of(corners, count, column);
        for (int32_t row = rows.first; row <= rows.last; row++) {
            struct entry entry = {.column = column, .row = row, .thing = thing};
            enter_cell(&all->all, all->arena, entry);
            if (text)
                enter_cell(&all->texts, all->arena, entry);
        }
    }
}

void obstacles_add_line(struct obstacles *all, struct spot from, struct spot to) {
    const struct spot ends[2] = {from, to};
    *list_add(all->arena, &all->things) = (struct thing){.kind = OBSTACLE_LINE, .from = from, .to = to};
    enter_cells(all, ends, 2);
}

void obstacles_add_box(struct obstacles *all, struct sheet_box box, enum obstacle_kind kind) {
    struct spot corners[4];
    box_corners(box, corners);
    *list_add(all->arena, &all->things) = (struct thing){.kind = kind, .box = box};
    enter_cells(all, corners, 4);
}

/* ---- Asking ------------------------------------------------------------------------------------------------------ */

static bool thing_meets_box(const struct thing *thing, struct sheet_box box) {
    double enter, leave;
    if (thing->kind == OBSTACLE_LINE)
        return box_meets_line(box, thing->from, thing->to, &enter, &leave);
    return box_meets_box(box, thing->box);
}

static bool cell_meets_box(const struct obstacles *all, int32_t column, int32_t row, struct sheet_box box,
                           unsigned kinds) {
    for (uint32_t next = all->all.heads[head_of(&all->all, column, row)]; next;) {
        const struct entry *entry = &all->all.entries.at[next - 1];
        const struct thing *thing = &all->things.at[entry->thing];
        if (entry->column == column && entry->row == row && (thing->kind & kinds) && thing_meets_box(thing, box))
            return true;
        next = entry->next;
    }
    return false;
}

bool obstacles_meet_box(struct obstacles *all, struct sheet_box box, unsigned kinds) {
    struct spot corners[4];
    box_corners(box, corners);
    struct cells columns = columns_of(corners, 4);
    for (int32_t column = columns.first; column <= columns.last; column++) {
        struct cells rows = rows_of(corners, 4, column);
        for (int32_t row = rows.first; row <= rows.last; row++)
            if (cell_meets_box(all, column, row, box, kinds))
                return true;
    }
    return false;
}

/* Part of a line that a text covers, as fractions of it. */
struct cover {
    double enter, leave;
};

struct covers {
    bool any; /* one is enough: who asks wants none */
    LIST(struct cover) list;
};

static void cell_covers(struct obstacles *all, int32_t column, int32_t row, struct spot from, struct spot to,
                        struct covers *covers) {
    for (uint32_t next = all->texts.heads[head_of(&all->texts, column, row)]; next;) {
        const struct entry *entry = &all->texts.entries.at[next - 1];
        struct cover cover;
        if (entry->column == column && entry->row == row &&
            box_meets_line(all->things.at[entry->thing].box, from, to, &cover.enter, &cover.leave))
            *list_add(all->arena, &covers->list) = cover;
        next = entry->next;
    }
}

static void find_covers(struct obstacles *all, struct spot from, struct spot to, struct covers *covers) {
    const struct spot ends[2] = {from, to};
    struct cells columns = columns_of(ends, 2);
    for (int32_t column = columns.first; column <= columns.last; column++) {
        struct cells rows = rows_of(ends, 2, column);
        for (int32_t row = rows.first; row <= rows.last; row++) {
            cell_covers(all, column, row, from, to, covers);
            if (covers->any && covers->list.count)
                return;
        }
    }
}

bool obstacles_meet_line(struct obstacles *all, struct spot from, struct spot to) {
    struct covers covers = {.any = true};
    find_covers(all, from, to, &covers);
    return covers.list.count > 0;
}

/* Whether it passes a line there; each is told in the one cell where it does. */
static bool passes_in(const struct thing *thing, struct spot from, struct spot to, int32_t column, int32_t row) {
    double x = to.x - from.x, y = to.y - from.y, line_x = thing->to.x - thing->from.x,
           line_y = thing->to.y - thing->from.y, across = x * line_y - y * line_x;
    if (thing->kind != OBSTACLE_LINE || across == 0)
        return false;
    double apart_x = thing->from.x - from.x, apart_y = thing->from.y - from.y;
    double at = (apart_x * line_y - apart_y * line_x) / across, on = (apart_x * y - apart_y * x) / across;
    return at > 1e-6 && at <= 1 && on >= 0 && on < 1 && cell(from.x + at * x) == column && cell(from.y + at * y) == row;
}

size_t obstacles_lines_passed(const struct obstacles *all, struct spot from, struct spot to) {
    const struct spot ends[2] = {from, to};
    size_t count = 0;
    struct cells columns = columns_of(ends, 2);
    for (int32_t column = columns.first; column <= columns.last; column++) {
        struct cells rows = rows_of(ends, 2, column);
        for (int32_t row = rows.first; row <= rows.last; row++)
            for (uint32_t next = all->all.heads[head_of(&all->all, column, row)]; next;) {
                const struct entry *entry = &all->all.entries.at[next - 1];
                count += entry->column == column && entry->row == row &&
                         passes_in(&all->things.at[entry->thing], from, to, column, row);
                next = entry->next;
            }
    }
    return count;
}

static int by_enter(const void *a, const void *b) {
    double one = ((const struct cover *)a)->enter, other = ((const struct cover *)b)->enter;
    return (one > other) - (one < other);
}

size_t obstacles_clear_parts(struct obstacles *all, struct spot from, struct spot to, struct spot **ends) {
    struct covers covers = {0};
    find_covers(all, from, to, &covers);
    if (covers.list.count > 1)
        qsort(covers.list.at, covers.list.count, sizeof *covers.list.at, by_enter);
    *ends = ARENA_ARRAY(all->arena, struct spot, 2 * covers.list.count + 2);
    size_t count = 0;
    double clear_from = 0;
    for (size_t i = 0; i <= covers.list.count; i++) {
        double clear_to = i < covers.list.count ? covers.list.at[i].enter : 1;
        if (clear_to > clear_from) {
            (*ends)[count++] =
                (struct spot){from.x + clear_from * (to.x - from.x), from.y + clear_from * (to.y - from.y)};
            (*ends)[count++] = (struct spot){from.x + clear_to * (to.x - from.x), from.y + clear_to * (to.y - from.y)};
        }
        if (i < covers.list.count)
            clear_from = fmax(clear_from, covers.list.at[i].leave);
    }
    return count;
}
