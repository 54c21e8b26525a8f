/* Networks built by hand from constant coefficients, for the operating point. */
#ifndef TESTS_UNIT_OPERATE_BENCH_H
#define TESTS_UNIT_OPERATE_BENCH_H

#include <stdlib.h>
#include <string.h>

#include "air/operation.h"
#include "base/constant.h"
#include "piece/common.h"

enum { HAND_SECTIONS = 64 };

/* A section's one piece besides its duct: a coefficient, and what a terminal takes. */
struct hand_piece {
    struct piece piece; /* first: a piece is found back by its address */
    double coefficient, pressure, flow;
};

struct hand {
    struct arena *arena, *scratch;
    jmp_buf out_of_memory;
    struct job job;
    struct air_unit unit;
    struct network network;
    struct blower_point blower[16];
    struct drop drops[4];
    struct run runs[HAND_SECTIONS];
    struct duct ducts[HAND_SECTIONS];
    struct section sections[HAND_SECTIONS];
    struct item items[HAND_SECTIONS][2];
    struct piece straights[HAND_SECTIONS];
    struct hand_piece pieces[HAND_SECTIONS];
    double roughness[HAND_SECTIONS], multiplier[HAND_SECTIONS];
    struct path supply[HAND_SECTIONS], back[HAND_SECTIONS];
    struct section *section_list[HAND_SECTIONS];
    struct duct *duct_list[HAND_SECTIONS];
    struct air_unit *unit_list[1];
};

static inline void hand_loss(const struct piece_flow *flow, struct loss *loss) {
    const struct hand_piece *piece = (const struct hand_piece *)(const void *)flow->piece;
    loss->pressure = piece->coefficient * stream_pressure(flow->air, flow->far);
    loss->reference_name = "duct";
    if (piece->pressure > 0)
        loss->pressure += piece->pressure * (flow->far.flow / piece->flow) * (flow->far.flow / piece->flow);
}

/* Its wall stands behind its run's number. */
static inline void hand_wall(const struct piece *piece, double diameter, double *roughness, double *factor) {
    (void)diameter;
    const struct hand *hand = (const struct hand *)(const void *)piece->reading.form;
    size_t i = (size_t)(piece->run - hand->runs);
    *roughness = hand->roughness[i];
    *factor = hand->multiplier[i];
}

static const struct piece_kind hand_straight = {.title = "Straight", .traits = PIECE_LENGTH, .wall = hand_wall};
static const struct piece_kind hand_fitting = {.title = "Fitting", .traits = PIECE_SQUARE, .loss = hand_loss};

static inline void hand_begin(struct hand *hand) {
    memset(hand, 0, sizeof *hand);
    hand->arena = arena_new(NULL);
    hand->scratch = arena_new(NULL);
    if (!hand->arena || !hand->scratch || setjmp(hand->out_of_memory))
        abort();
    arena_on_failure(hand->arena, &hand->out_of_memory);
    arena_on_failure(hand->scratch, &hand->out_of_memory);
    hand->unit_list[0] = &hand->unit;
    hand->unit.name = "AHU";
    hand->unit.blower.at = hand->blower;
    hand->unit.drops.at = hand->drops;
    hand->unit.network = &hand->network;
    hand->network.unit = &hand->unit;
    hand->network.sections.at = hand->section_list;
    hand->network.ducts.at = hand->duct_list;
    hand->network.supply_paths.at = hand->supply;
    hand->network.return_paths.at = hand->back;
    hand->job.arena = hand->arena;
    hand->job.scratch = hand->scratch;
    hand->job.air = air_state(0);
    hand->job.units.at = hand->unit_list;
    hand->job.units.count = 1;
}

static inline void hand_end(struct hand *hand) {
    arena_free(hand->arena);
    arena_free(hand->scratch);
}

struct hand_section {
    bool supply;
    int parent; /* -1: the collar */
    double length;
    struct duct_size size;
    double roughness, multiplier, coefficient;
    double pressure, flow; /* of a terminal; flow 0: none */
};

/* Gives its number.  Parents come first. */
static inline int hand_add(struct hand *hand, const struct hand_section *like) {
    size_t i = hand->network.sections.count++;
    hand->network.ducts.count++;
    struct run *run = &hand->runs[i];
    *run = (struct run){.id = (uint32_t)i, .name = "R", .supply = like->supply, .unit = &hand->unit};
    run->first_duct = &hand->ducts[i];
    run->first_section = run->last_section = &hand->sections[i];
    hand->ducts[i] = (struct duct){.id = (uint32_t)i, .run = run, .size = like->size};
    hand->straights[i] = (struct piece){.kind = &hand_straight, .run = run};
    hand->straights[i].reading.form = (const struct form *)(const void *)hand;
    hand->pieces[i] = (struct hand_piece){.piece = {.kind = &hand_fitting, .run = run},
                                          .coefficient = like->coefficient,
                                          .pressure = like->pressure,
                                          .flow = like->flow};
    hand->items[i][0] = (struct item){.piece = &hand->straights[i], .length = like->length};
    hand->items[i][1] = (struct item){.piece = &hand->pieces[i].piece};
    hand->roughness[i] = like->roughness;
    hand->multiplier[i] = like->multiplier;
    struct section *section = &hand->sections[i];
    *section = (struct section){.id = (uint32_t)i, .run = run, .duct = &hand->ducts[i], .length = like->length};
    section->parent = like->parent < 0 ? NULL : &hand->sections[like->parent];
    section->items.at = hand->items[i];
    section->items.count = 2;
    hand->section_list[i] = section;
    hand->duct_list[i] = &hand->ducts[i];
    if (like->flow > 0) {
        section->terminal = run;
        for (struct section *at = section; at; at = at->parent)
            at->flow += like->flow;
        struct network *network = &hand->network;
        if (like->supply)
            hand->supply[network->supply_paths.count++] = (struct path){.end = section};
        else
            hand->back[network->return_paths.count++] = (struct path){.end = section};
        *(like->supply ? &network->supply_flow : &network->return_flow) += like->flow;
    }
    return (int)i;
}

static inline const struct operation *hand_operate(struct hand *hand) {
    hand->unit.airflow = hand->network.supply_flow;
    air_losses(&hand->network, &hand->job.air);
    air_operate(&hand->job);
    return hand->network.operation;
}

#endif
