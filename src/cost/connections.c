/* What is closed in the field: a walk along every run, as it is hung.
 *
 * A part brings the connection at its near end, as its strips do (metal/make.c); flexible duct and canvas bring both of
 * theirs, and what comes behind them brings none. */
#include "cost/count.h"
#include "metal/seam.h"
#include "model/lined.h"
#include "model/piece.h"

/* A walk along one run. */
struct walk {
    struct takeoff *takeoff;
    const struct run *run;
    const struct piece *piece;
    bool soft; /* flexible duct or canvas was the last duct passed: its end has been counted */
};

static void add(const struct walk *walk, enum closing closing, enum joint_kind kind, struct duct_size size) {
    if (size_known(size))
        *list_add(walk->takeoff->arena, &walk->takeoff->connections) =
            (struct connection){.closing = closing, .kind = kind, .size = size, .run = walk->run, .piece = walk->piece};
}

/* At its other ends nothing is closed but what sits on a wall. */
static void pass_ports(const struct walk *walk, const struct part *part) {
    for (size_t i = 0; i < part->solid->ports.count; i++) {
        const struct solid_port *port = &part->solid->ports.at[i];
        if (port->use == PORT_USE_BASE)
            add(walk, i == 0 ? CLOSED_BASE : CLOSED_NECK, JOINT_RAW, port->size);
        else if (port->use == PORT_USE_FACE)
            add(walk, CLOSED_FACE, JOINT_RAW, port->size);
    }
}

static void pass_part(struct walk *walk, const struct part *part) {
    if (part_is_within(part))
        return;
    if (part->joined[0] && !walk->soft)
        add(walk, CLOSED_JOINT, part->joints[0], part->solid->ports.at[0].size);
    pass_ports(walk, part);
    walk->soft = false;
}

static void pass_soft(struct walk *walk, enum closing closing) {
    struct duct_size size = duct_metal(walk->piece->far);
    if (!walk->soft) /* else the end of one meets the end of the other */
        add(walk, closing, JOINT_RAW, size);
    add(walk, closing, JOINT_RAW, size);
    walk->soft = true;
}

/* A damper that is bought stands in the line like a part; one that is made has its rod through the duct. */
static void pass_damper(struct walk *walk, bool made) {
    struct duct_size size = duct_metal(walk->piece->far);
    if (made) {
        add(walk, CLOSED_ROD, JOINT_RAW, size);
        return;
    }
    if (!walk->soft)
        add(walk, CLOSED_JOINT, metal_joint_used(&walk->run->settings, size), size);
    walk->soft = false;
}

/* Board and plastic come ready-made, each piece with an end to be closed. */
static void pass_ready(struct walk *walk) {
    const struct piece *piece = walk->piece;
    struct duct_size size = duct_metal(piece->near ? piece->near : piece->far);
    if (!walk->soft)
        add(walk, CLOSED_READY, JOINT_RAW, size);
    walk->soft = false;
}

static void pass_piece(struct walk *walk, const struct hung_piece *hung) {
    unsigned traits = hung->piece->kind->traits;
    walk->piece = hung->piece;
    if (traits & PIECE_FLEXIBLE)
        pass_soft(walk, CLOSED_FLEX);
    else if (traits & PIECE_SOFT)
        pass_soft(walk, CLOSED_CANVAS);
    else if (traits & PIECE_BALANCES)
        pass_damper(walk, hung->count + hung->ready > 0);
    else
        for (size_t i = 0; i < hung->ready; i++)
            pass_ready(walk);
    for (size_t i = 0; i < hung->count; i++)
        pass_part(walk, hung->parts[i].part);
}

void list_connections(struct takeoff *takeoff, const struct job *job) {
    bool *ends_soft = ARENA_ARRAY(takeoff->arena, bool, job->runs.count + 1); /* by run->id */
    struct walk walk = {.takeoff = takeoff};
    takeoff->connections.room = takeoff->piece_count + 1; /* about one a piece */
    takeoff->connections.at = ARENA_ARRAY(takeoff->arena, struct connection, takeoff->connections.room);
    for (size_t i = 0; i < takeoff->piece_count; i++) {
        const struct run *run = takeoff->pieces[i].run;
        if (i == 0 || run != takeoff->pieces[i - 1].run)
            walk.soft = run->from.kind == PORT_END && run->parent && ends_soft[run->parent->id];
        walk.run = run;
        pass_piece(&walk, &takeoff->pieces[i]);
        ends_soft[run->id] = walk.soft;
    }
}
