/* How well and how fast nests are found: the published classes of two-dimensional bin packing beside their bounds and the
 * best published results, and large jobs. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "metal/nest.h"
#include "../unit/binpack.h"
#include "../unit/csv.h"

struct sums {
    size_t sheets, area, bound, best;
    double seconds;
};

static double now(void) {
    struct timespec at;
    clock_gettime(CLOCK_MONOTONIC, &at);
    return (double)at.tv_sec + 1e-9 * (double)at.tv_nsec;
}

static size_t effort; /* 0: what the program takes */

static void solve_one(struct arena *arena, struct arena *scratch, const struct nest_problem *problem,
                      struct sums *sums) {
    jmp_buf out_of_memory;
    if (setjmp(out_of_memory))
        exit(1);
    arena_on_failure(arena, &out_of_memory);
    arena_on_failure(scratch, &out_of_memory);
    double start = now();
    const struct nest_solution *solution = nest_solve(arena, scratch, problem);
    sums->seconds += now() - start;
    sums->sheets += solution->sheets;
    sums->area += solution->area_bound;
    sums->bound += solution->sheet_bound;
    arena_clear(arena);
    arena_clear(scratch);
}

static void print_sums(const char *name, const struct sums *sums) {
    printf("%-8s %6zu %6zu %6zu %6zu   %5.2f %%   %5.2f %%   %7.0f ms\n", name, sums->sheets, sums->area, sums->bound,
           sums->best, 100.0 * ((double)sums->sheets / (double)sums->bound - 1),
           100.0 * ((double)sums->sheets / (double)sums->best - 1), sums->seconds * 1e3);
}

static void add_sums(struct sums *to, const struct sums *from) {
    to->sheets += from->sheets;
    to->area += from->area;
    to->bound += from->bound;
    to->best += from->best;
    to->seconds += from->seconds;
}

static void solve_classes(struct arena *arena, struct arena *scratch, bool turns) {
    struct sums classes[BINPACK_CLASSES] = {0}, all = {0};
    struct csv csv;
    csv_open(&csv, "tests/reference/binpack.csv");
    while (csv_next(&csv)) {
        int class = (int)csv_number(&csv, "class"), n = (int)csv_number(&csv, "n");
        struct sums *sums = &classes[class - 1];
        sums->best += (size_t)csv_number(&csv, turns ? "RG_best_of_table" : "OG_best_of_table");
        for (int instance = 1; instance <= BINPACK_INSTANCES; instance++) {
            struct binpack binpack;
            binpack_make(&binpack, class, n, instance, turns);
            struct nest_problem problem = {
                .rectangles = binpack.items,
                .rectangle_count = (size_t)n,
                .sheets = &binpack.bin,
                .sheet_count = 1,
                .effort = effort ? effort : nest_effort((size_t)n),
            };
            solve_one(arena, scratch, &problem, sums);
        }
    }
    csv_close(&csv);
    printf("%s\n%-8s %6s %6s %6s %6s %9s %9s %12s\n", turns ? "blanks may turn" : "blanks keep their way", "class", "sheets",
           "area", "bound", "best", "to bound", "to best", "time");
    for (int class = 1; class <= BINPACK_CLASSES; class++) {
        char name[8];
        snprintf(name, sizeof name, "%d", class);
        print_sums(name, &classes[class - 1]);
        add_sums(&all, &classes[class - 1]);
    }
    print_sums("all", &all);
}

/* Blanks such as a job has, in sixteenths of an inch: sides of joints, throats, cheeks, strips. */
static void solve_large(struct arena *arena, struct arena *scratch, size_t blanks, size_t kinds) {
    enum { SIXTEENTH = 508 };
    struct nest_rectangle *rectangles = calloc(kinds, sizeof *rectangles);
    for (size_t i = 0; i < kinds; i++) {
        binpack_draw();
        rectangles[i] = (struct nest_rectangle){
            .length = (64 + (nest_steps)(880 * binpack_draw())) * SIXTEENTH,
            .width = (32 + (nest_steps)(700 * binpack_draw())) * SIXTEENTH,
            .count = blanks / kinds,
            .turns = true,
        };
    }
    const struct nest_sheet sheets[] = {
        {.length = 1920 * SIXTEENTH, .width = 768 * SIXTEENTH, .cost = 415000},
        {.length = 1920 * SIXTEENTH, .width = 960 * SIXTEENTH, .cost = 530000},
    };
    for (size_t kind_count = 1; kind_count <= 2; kind_count++) {
        struct sums sums = {0};
        struct nest_problem problem = {rectangles, kinds, sheets, kind_count, .effort = effort ? effort : nest_effort(blanks)};
        solve_one(arena, scratch, &problem, &sums);
        printf("%zu blanks of %zu kinds, %zu kinds of sheet: %zu sheets, bound %zu, %.0f ms\n", blanks, kinds, kind_count,
               sums.sheets, sums.bound, sums.seconds * 1e3);
    }
    free(rectangles);
}

int main(int count, char **words) {
    struct arena *arena = arena_new(NULL), *scratch = arena_new(NULL);
    if (!arena || !scratch)
        return 1;
    if (count > 1)
        effort = strtoul(words[1], NULL, 10);
    solve_classes(arena, scratch, false);
    solve_classes(arena, scratch, true);
    solve_large(arena, scratch, 200, 50);
    solve_large(arena, scratch, 2000, 2000);
    solve_large(arena, scratch, 2000, 200);
    solve_large(arena, scratch, 100000, 500);
    arena_free(arena);
    arena_free(scratch);
    return 0;
}
