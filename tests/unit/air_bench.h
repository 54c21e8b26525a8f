/* A small network built by hand, without any text, for the tests of losses and budget:
 *
 *     unit =10 in= trunk --5 m--+--2 m-- end: 8 in, 4 m, register B (250 cfm)
 *                               |
 *                               tap: 8 in, 3 m, flex 1 m, damper, register A (150 cfm)
 *     unit =10 in= back --1 m-- split: left 8 in, 2 m, grille (250 cfm); straight 8 in, 2 m, grille (150 cfm)
 *
 * All round and galvanised, so that friction is that of rows of tests/reference/friction.csv.
 */
#ifndef TESTS_UNIT_AIR_BENCH_H
#define TESTS_UNIT_AIR_BENCH_H

#include <string.h>

#include "air/air.h"

#define FOOT 0.3048
#define INCH 0.0254
#define CFM (FOOT * FOOT * FOOT / 60)

/* A piece whose loss is set by the test, and which remembers what it was asked with. */
struct bench_piece {
    struct piece piece; /* first: a piece is found back by its address */
    double pascals;
    enum source_id source;
    struct piece_flow seen;
    int asked;
};

enum bench_run { TRUNK, BRANCH, END, BACK, LEFT, STRAIGHT, BENCH_RUNS };
enum bench_section { TRUNK_1, TRUNK_2, BRANCH_1, END_1, BACK_1, LEFT_1, STRAIGHT_1, BENCH_SECTIONS };
enum bench_name {
    PLAIN,
    TAP,
    FLEX,
    DAMPER,
    REGISTER_A,
    CHANGE,
    REGISTER_B,
    SPLIT,
    GRILLE_LEFT,
    GRILLE_STRAIGHT,
    BENCH_PIECES
};

struct bench {
    struct run runs[BENCH_RUNS];
    struct duct ducts[BENCH_RUNS];
    struct section sections[BENCH_SECTIONS];
    struct item items[BENCH_SECTIONS][6];
    struct bench_piece pieces[BENCH_PIECES];
    struct path supply[2], back[2];
    struct duct *duct_list[BENCH_RUNS];
    struct section *section_list[BENCH_SECTIONS];
    struct blower_point blower[3];
    struct drop drops[2];
    struct air_unit unit;
    struct network network;
};

static inline void bench_loss(const struct piece_flow *flow, struct loss *loss) {
    struct bench_piece *piece = (struct bench_piece *)(uintptr_t)flow->piece;
    piece->seen = *flow;
    piece->asked++;
    loss->pressure = piece->pascals;
    loss->source = piece->source;
}

/* Flexible duct of 0.0005 ft, left 4 % short. */
static inline void bench_flex_wall(const struct piece *piece, double diameter, double *roughness, double *factor) {
    (void)piece;
    *roughness = 0.0005 * FOOT;
    *factor = air_flex_factor(diameter, 0.96);
}

static const struct piece_kind bench_plain = {.title = "Straight", .traits = PIECE_LENGTH};
static const struct piece_kind bench_fitting = {.title = "Fitting", .loss = bench_loss};
static const struct piece_kind bench_damper = {.title = "Damper", .traits = PIECE_BALANCES, .loss = bench_loss};
static const struct piece_kind bench_flex = {
    .title = "Flexible duct", .traits = PIECE_LENGTH | PIECE_FLEXIBLE, .loss = bench_loss, .wall = bench_flex_wall};

static inline void bench_add(struct bench *bench, enum bench_section section, enum bench_name piece,
                             enum item_role role, double length) {
    struct section *at = &bench->sections[section];
    at->items.at = bench->items[section];
    at->items.at[at->items.count++] =
        (struct item){.piece = &bench->pieces[piece].piece, .role = role, .length = length};
    at->length += length;
}

static inline void bench_run(struct bench *bench, enum bench_run run, double inches, enum bench_section first,
                             enum bench_section last) {
    bench->ducts[run] = (struct duct){
        .id = (uint32_t)run, .run = &bench->runs[run], .size = {SHAPE_ROUND, inches * INCH, inches * INCH}};
    bench->duct_list[run] = &bench->ducts[run];
    bench->runs[run] = (struct run){.unit = &bench->unit,
                                    .supply = run < BACK,
                                    .first_duct = &bench->ducts[run],
                                    .first_section = &bench->sections[first],
                                    .last_section = &bench->sections[last]};
}

static inline void bench_section(struct bench *bench, enum bench_section section, enum bench_run run,
                                 struct section *parent, double cfm) {
    bench->sections[section] = (struct section){.id = (uint32_t)section,
                                                .run = &bench->runs[run],
                                                .duct = &bench->ducts[run],
                                                .parent = parent,
                                                .flow = cfm * CFM};
    bench->section_list[section] = &bench->sections[section];
}

static inline void bench_hang(struct bench *bench) {
    bench_run(bench, TRUNK, 10, TRUNK_1, TRUNK_2);
    bench_run(bench, BRANCH, 8, BRANCH_1, BRANCH_1);
    bench_run(bench, END, 8, END_1, END_1);
    bench_run(bench, BACK, 10, BACK_1, BACK_1);
    bench_run(bench, LEFT, 8, LEFT_1, LEFT_1);
    bench_run(bench, STRAIGHT, 8, STRAIGHT_1, STRAIGHT_1);
    bench_section(bench, TRUNK_1, TRUNK, NULL, 400);
    bench_section(bench, TRUNK_2, TRUNK, &bench->sections[TRUNK_1], 250);
    bench_section(bench, BRANCH_1, BRANCH, &bench->sections[TRUNK_1], 150);
    bench_section(bench, END_1, END, &bench->sections[TRUNK_2], 250);
    bench_section(bench, BACK_1, BACK, NULL, 400);
    bench_section(bench, LEFT_1, LEFT, &bench->sections[BACK_1], 250);
    bench_section(bench, STRAIGHT_1, STRAIGHT, &bench->sections[BACK_1], 150);
    bench->runs[LEFT].from.leg = LEG_LEFT;
    bench->runs[STRAIGHT].from.leg = LEG_STRAIGHT;
    bench->runs[BACK].legs[LEG_LEFT] = &bench->runs[LEFT];
    bench->runs[BACK].legs[LEG_STRAIGHT] = &bench->runs[STRAIGHT];
}

static inline void bench_fill(struct bench *bench) {
    for (int i = 0; i < BENCH_PIECES; i++)
        bench->pieces[i].piece = (struct piece){.kind = &bench_fitting, .run = &bench->runs[BACK]};
    bench->pieces[PLAIN].piece.kind = &bench_plain;
    bench->pieces[FLEX].piece.kind = &bench_flex;
    bench->pieces[DAMPER].piece.kind = &bench_damper;
    bench_add(bench, TRUNK_1, PLAIN, ITEM_PIECE, 5);
    bench_add(bench, TRUNK_2, TAP, ITEM_PAST, 0);
    bench->items[TRUNK_2][0].tapped = &bench->runs[BRANCH];
    bench_add(bench, TRUNK_2, PLAIN, ITEM_PIECE, 2);
    bench_add(bench, BRANCH_1, TAP, ITEM_BRANCH, 0);
    bench_add(bench, BRANCH_1, PLAIN, ITEM_PIECE, 3);
    bench_add(bench, BRANCH_1, FLEX, ITEM_PIECE, 1);
    bench_add(bench, BRANCH_1, DAMPER, ITEM_PIECE, 0);
    bench_add(bench, BRANCH_1, REGISTER_A, ITEM_PIECE, 0);
    bench_add(bench, END_1, CHANGE, ITEM_CONNECT, 0);
    bench_add(bench, END_1, PLAIN, ITEM_PIECE, 4);
    bench_add(bench, END_1, REGISTER_B, ITEM_PIECE, 0);
    bench_add(bench, BACK_1, PLAIN, ITEM_PIECE, 1);
    bench_add(bench, LEFT_1, SPLIT, ITEM_LEG, 0);
    bench_add(bench, LEFT_1, PLAIN, ITEM_PIECE, 2);
    bench_add(bench, LEFT_1, GRILLE_LEFT, ITEM_PIECE, 0);
    bench_add(bench, STRAIGHT_1, SPLIT, ITEM_LEG, 0);
    bench_add(bench, STRAIGHT_1, PLAIN, ITEM_PIECE, 2);
    bench_add(bench, STRAIGHT_1, GRILLE_STRAIGHT, ITEM_PIECE, 0);
}

static inline void bench_unit(struct bench *bench) {
    struct network *network = &bench->network;
    bench->unit.name = "AHU";
    bench->unit.airflow = 400 * CFM;
    bench->unit.network = network;
    network->unit = &bench->unit;
    network->ducts.at = bench->duct_list;
    network->ducts.count = BENCH_RUNS;
    network->sections.at = bench->section_list;
    network->sections.count = BENCH_SECTIONS;
    bench->supply[0].end = &bench->sections[BRANCH_1];
    bench->supply[1].end = &bench->sections[END_1];
    bench->back[0].end = &bench->sections[LEFT_1];
    bench->back[1].end = &bench->sections[STRAIGHT_1];
    network->supply_paths.at = bench->supply;
    network->return_paths.at = bench->back;
    network->supply_paths.count = network->return_paths.count = 2;
}

/* Fills `bench`, which must stay where it is. */
static inline void bench_build(struct bench *bench) {
    memset(bench, 0, sizeof *bench);
    bench_hang(bench);
    bench_fill(bench);
    bench_unit(bench);
}

#endif
