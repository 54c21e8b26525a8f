/* Patterns a second, on one core: each shape built until its curves are near enough, laid flat, given its allowances
 * and cut, many times over; no drawing.
 *
 *     patterns
 *
 * A pattern is a blank.  Sizes vary from turn to turn, so that nothing is the same as the time before.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "metal/allow.h"
#include "metal/shape_change.h"
#include "metal/shape_elbow.h"
#include "metal/shape_offset.h"
#include "metal/shape_split.h"
#include "metal/shape_straight.h"
#include "metal/shape_tap.h"

static const double seconds_each = 0.25;

/* A size for turn `i`: 12 in and up, by hundredths. */
union any_size {
    struct straight_shape straight;
    struct change_shape change;
    struct radius_elbow radius;
    struct square_elbow square;
    struct gored_elbow gored;
    struct offset offset;
    struct wye wye;
    struct collar_tee collar_tee;
    struct tap_size tap;
};

static double grown(double inches, int i) {
    return (inches + (double)(i % 400) / 100) * INCH;
}

static struct shape_duct duct(enum shape shape, double width, double height, int i) {
    return (struct shape_duct){(double)shape, grown(width, i), shape == SHAPE_ROUND ? grown(width, i) : height * INCH};
}

static struct profile round_profile(double diameter, int i) {
    return (struct profile){grown(diameter, i), grown(diameter, i), grown(diameter, i) / 2};
}

static void straight(union any_size *size, int i) {
    size->straight = (struct straight_shape){.section = duct(SHAPE_RECTANGULAR, 14, 8, i), .length = 58 * INCH};
}
static void pipe(union any_size *size, int i) {
    size->straight = (struct straight_shape){.section = duct(SHAPE_ROUND, 8, 0, i), .length = 58 * INCH};
}
static void transition(union any_size *size, int i) {
    size->change = (struct change_shape){
        duct(SHAPE_RECTANGULAR, 18, 10, i), duct(SHAPE_RECTANGULAR, 12, 8, i), 18 * INCH, 2 * INCH, INCH, 0};
}
static void square_to_round(union any_size *size, int i) {
    size->change = (struct change_shape){
        duct(SHAPE_RECTANGULAR, 14, 10, i), duct(SHAPE_ROUND, 9, 0, i), 14 * INCH, 2 * INCH, 0, 0};
}
static void cone(union any_size *size, int i) {
    size->change = (struct change_shape){duct(SHAPE_ROUND, 12, 0, i), duct(SHAPE_ROUND, 8, 0, i), 12 * INCH, 0, 0, 0};
}
static void radius_elbow(union any_size *size, int i) {
    struct shape_duct both = duct(SHAPE_RECTANGULAR, 14, 8, i);
    size->radius = (struct radius_elbow){both, both, 0, 90 * DEGREE, 8 * INCH, 2 * INCH};
}
static void square_elbow(union any_size *size, int i) {
    struct shape_duct both = duct(SHAPE_RECTANGULAR, 14, 8, i);
    size->square = (struct square_elbow){both, both, 0, 90 * DEGREE, 4 * INCH, 0};
}
static void gored_elbow(union any_size *size, int i) {
    size->gored = (struct gored_elbow){duct(SHAPE_ROUND, 8, 0, i), 0, 90 * DEGREE, 18 * INCH, 5, 2 * INCH};
}
static void ogee(union any_size *size, int i) {
    size->offset = (struct offset){duct(SHAPE_RECTANGULAR, 14, 8, i), 0, 8 * INCH, 36 * INCH, 2 * INCH};
}
static void wye(union any_size *size, int i) {
    struct profile main = {grown(24, i), 12 * INCH, 0}, leg = {12 * INCH, 10 * INCH, 0};
    size->wye = wye_for(main, leg, leg, 0.5, 0);
}
static void collar_tee(union any_size *size, int i) {
    double reducer;
    size->collar_tee = collar_tee_for(round_profile(14, i), round_profile(8, i), round_profile(14, i), 1, 0, &reducer);
}
static void tap_shoe(union any_size *size, int i) {
    size->tap =
        (struct tap_size){.style = TAP_SHOE, .run = {grown(10, i), 8 * INCH, 0}, .base = {.upstream = 4 * INCH}};
    tap_lengths(&size->tap);
}
static void saddle(union any_size *size, int i) {
    size->tap = (struct tap_size){.style = TAP_SADDLE, .run = round_profile(6, i), .wall = 14 * INCH};
    tap_lengths(&size->tap);
}

static const struct {
    const char *name;
    void (*fill)(union any_size *size, int i);
    shape_builder *build;
    bool straight;
} shapes[] = {
    {"straight joint, rectangular", straight, shape_straight, true},
    {"straight joint, round", pipe, shape_straight, true},
    {"transition, offset", transition, shape_change, false},
    {"square to round, offset", square_to_round, shape_change, false},
    {"cone", cone, shape_change, false},
    {"radius elbow", radius_elbow, shape_radius_elbow, false},
    {"square elbow", square_elbow, shape_square_elbow, false},
    {"gored elbow, 5 pieces", gored_elbow, shape_gored_elbow, false},
    {"ogee offset", ogee, shape_ogee_offset, false},
    {"wye", wye, shape_wye, false},
    {"tee with a round collar", collar_tee, shape_collar_tee, false},
    {"tap with a shoe", tap_shoe, shape_tap, false},
    {"saddle", saddle, shape_tap, false},
};
enum { SHAPES = sizeof shapes / sizeof *shapes };

/* As the shop's pass does. */
static struct solid *built(struct arena *arena, shape_builder *build, const void *size) {
    struct solid *solid;
    double fineness = 1;
    do {
        solid = solid_new(arena, fineness);
        build(solid, size);
        if (!solid->fault)
            solid_close(solid);
        fineness *= 1.5;
    } while (!solid->fault && solid_chord_error(solid) > CHORD_LIMIT);
    return solid;
}

/* The number of blanks; 0: the shape cannot be. */
static size_t lay_out(struct arena *arena, int shape, int i, const char **why) {
    static const struct shop shop = {0};
    struct allowing allowing = {.shop = &shop, .settings = &shop.settings, .supply = true};
    for (int side = 0; side < JOINT_SIDES; side++)
        allowing.joints[side] = &shop.settings;
    union any_size size;
    memset(&size, 0, sizeof size);
    shapes[shape].fill(&size, i);
    struct part part = {.solid = built(arena, shapes[shape].build, &size), .gauge = 26};
    *why = part.solid->fault;
    if (*why)
        return 0;
    part.finished_length = shapes[shape].straight ? size.straight.length : 0;
    solid_blanks(part.solid, 0, &part.blanks);
    part_connections(&part, &allowing);
    if (!part_allow(&part, &allowing, why))
        return 0;
    size_t count = part.blanks.count;
    for (size_t b = 0; b < count; b++) {
        if (!blank_cut(&part.blanks.at[b], arena, why))
            return 0;
        blank_settle(&part.blanks.at[b]);
        blank_mark(&part.blanks.at[b], arena);
    }
    blanks_batch(&part.blanks, arena);
    return count;
}

static double now(void) {
    struct timespec time;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
    return (double)time.tv_sec + (double)time.tv_nsec * 1e-9;
}

/* One fitting, in an arena of its own; gives its blanks. */
static size_t fitting(int shape, int i) {
    jmp_buf no_memory;
    struct arena *arena = arena_new(NULL);
    if (!arena || setjmp(no_memory))
        return 0;
    arena_on_failure(arena, &no_memory);
    const char *why;
    size_t made = lay_out(arena, shape, i, &why);
    if (!made)
        fprintf(stderr, "patterns: %s: %s\n", shapes[shape].name, why);
    arena_free(arena);
    return made;
}

/* A line of the table; false when a fitting cannot be made. */
static bool measure(int shape, size_t *all, double *whole) {
    size_t blanks = 0;
    int fittings = 0;
    double start = now(), spent = 0;
    while (spent < seconds_each) {
        size_t made = fitting(shape, fittings++);
        if (!made)
            return false;
        blanks += made;
        spent = now() - start;
    }
    printf("%-28s %9d %9.1f %12.0f %12.0f\n", shapes[shape].name, (int)(blanks / (size_t)fittings),
           spent * 1e6 / fittings, fittings / spent, (double)blanks / spent);
    fflush(stdout);
    *all += blanks;
    *whole += spent;
    return true;
}

int main(void) {
    size_t blanks = 0;
    double spent = 0;
    bool sound = true;
    printf("%-28s %9s %9s %12s %12s\n", "from size to patterns", "blanks", "us each", "fittings/s", "patterns/s");
    for (int i = 0; i < SHAPES; i++)
        sound = measure(i, &blanks, &spent) && sound;
    if (spent > 0)
        printf("%-28s %9s %9s %12s %12.0f\n", "all together", "", "", "", (double)blanks / spent);
    return sound ? 0 : 1;
}
