/* Seams and connections, a row each: allowances, limits, notches, strips. */
#include "metal/seam.h"

#include <math.h>

#include "base/constant.h"
#include "metal/gauge.h"

/* ---- Seams ------------------------------------------------------------------------------------------------------- */

/* A lock stands outside the duct, whose inside stays smooth: its pocket is formed outward, and the flange is turned in,
 * over the edge of the neighbour that has the pocket.  Common practice, no source. */
static const struct seam_rule seams[SEAM_COUNT] = {
    /* Taught so, common practice; the gauges that a lock former takes likewise. */
    [SEAM_PITTSBURGH] =
        {
            .title = "Pittsburgh lock",
            .pocket = 1 * INCH,
            .flange = 0.25 * INCH,
            .pocket_turn = TURN_OUT,
            .flange_turn = TURN_IN,
            .shapes = FIT_RECTANGULAR,
            .pressure_limit = INFINITY,
            .heaviest = 18,
            .lightest = GAUGE_LIGHTEST,
            .aluminium = true,
            .source = SOURCE_PITTSBURGH,
        },

    /* Read: Machinery's Handbook, 31st edition: pocket 5/8 in deep at least, 20 to 26 gauge, 4 in. w.g. with the ends
     * screwed, not for aluminium.  The allowances are common practice: 1-1/16 to 1-3/16 and 1/2 in. */
    [SEAM_SNAPLOCK] =
        {
            .title = "Snap lock",
            .pocket = 1.125 * INCH,
            .flange = 0.5 * INCH,
            .pocket_turn = TURN_OUT,
            .flange_turn = TURN_IN,
            .shapes = FIT_RECTANGULAR | FIT_ROUND,
            .pressure_limit = 4 * INCH_OF_WATER,
            .heaviest = 20,
            .lightest = 26,
            .aluminium = false,
            .source = SOURCE_SNAPLOCK,
        },

    /* Three widths of the lock, w = 1/4 in: 2 w and w.  Common practice. */
    [SEAM_GROOVED] =
        {
            .title = "Grooved seam",
            .pocket = 0.5 * INCH,
            .flange = 0.25 * INCH,
            .pocket_turn = TURN_OUT,
            .flange_turn = TURN_IN,
            .shapes = FIT_ROUND | FIT_OVAL,
            .pressure_limit = INFINITY,
            .heaviest = 20,
            .lightest = GAUGE_LIGHTEST,
            .aluminium = true,
            .source = SOURCE_GROOVED,
        },

    /* The edge that goes under the other has all of it, and stays flat.  Common practice, 3/4 to 1 in. */
    [SEAM_LAP] =
        {
            .title = "Lapped seam",
            .pocket = 0,
            .flange = 0.75 * INCH,
            .shapes = FIT_RECTANGULAR | FIT_ROUND | FIT_OVAL,
            .pressure_limit = INFINITY,
            .heaviest = GAUGE_HEAVIEST,
            .lightest = GAUGE_LIGHTEST,
            .aluminium = true,
            .source = SOURCE_LAP,
        },

    /* 1 in high, 3/8 in folded over.  Common practice. */
    [SEAM_STANDING] =
        {
            .title = "Standing seam",
            .pocket = 1.375 * INCH,
            .flange = 1 * INCH,
            .pocket_turn = TURN_OUT,
            .flange_turn = TURN_OUT,
            .shapes = FIT_RECTANGULAR,
            .pressure_limit = INFINITY,
            .heaviest = 18,
            .lightest = GAUGE_LIGHTEST,
            .aluminium = true,
            .source = SOURCE_STANDING_SEAM,
        },
};

const struct seam_rule *metal_seam_rule(enum seam_kind kind) {
    return &seams[kind];
}

double metal_usual(const struct shop *shop, double length) {
    return shop->system == MEASURE_METRIC ? round(length / MILLIMETRE) * MILLIMETRE : length;
}

struct edge_allowance metal_seam(const struct shop *shop, enum seam_kind kind) {
    const struct seam_rule *rule = &seams[kind];
    struct edge_allowance edges = {.pocket = metal_usual(shop, rule->pocket),
                                   .flange = metal_usual(shop, rule->flange),
                                   .pocket_turn = rule->pocket_turn,
                                   .flange_turn = rule->flange_turn,
                                   .source = rule->source};
    for (size_t i = 0; i < shop->seams.count; i++) {
        const struct shop_seam *own = &shop->seams.at[i];
        if (own->kind != kind)
            continue;
        edges.declared = own->pocket_given || own->flange_given;
        if (own->pocket_given)
            edges.pocket = own->pocket;
        if (own->flange_given)
            edges.flange = own->flange;
    }
    return edges;
}

enum seam_kind metal_seam_used(const struct settings *settings, enum shape shape, bool fitting) {
    if (settings->seam_set && seams[settings->seam].shapes & 1u << shape)
        return settings->seam;
    if (shape == SHAPE_RECTANGULAR)
        return SEAM_PITTSBURGH;
    return fitting ? SEAM_LAP : SEAM_GROOVED;
}

/* ---- Connections ------------------------------------------------------------------------------------------------- */

/* A slip stops short of its side, between the drives; a drive is longer, to be folded round the corners.  Read: makers'
 * guides to roll-formed edges and to the standing S (SOURCE_SLIP_AND_DRIVE). */
#define SLIP_LENGTH (-0.75 * INCH)
#define DRIVE_TAB (1 * INCH)

/* One edge of the duct in each of two pockets 1 in deep, behind and before the middle layer; the lip opens the second.
 * Common practice, no source; shops differ by 1/4 in and more. */
static const struct strip_rule s_slip = {
    .title = "S slip",
    .longer = SLIP_LENGTH,
    .width = (3 * 1 + 0.25) * INCH,
    .fold_count = 3,
    .folds = {{1 * INCH, 180 * DEGREE}, {2 * INCH, -180 * DEGREE}, {3 * INCH, 30 * DEGREE}},
};

/* The same with a rib 1 in high, folded of the outer layer; common practice. */
static const struct strip_rule standing_s = {
    .title = "standing S",
    .longer = SLIP_LENGTH,
    .width = (3 * 1 + 2 * 1 + 0.25) * INCH,
    .fold_count = 5,
    .folds = {{1 * INCH, 180 * DEGREE},
              {2 * INCH, -180 * DEGREE},
              {3 * INCH, 90 * DEGREE},
              {4 * INCH, -180 * DEGREE},
              {5 * INCH, 90 * DEGREE}},
};

/* 1-1/8 in wide with a hem of 1/2 in at each side; common practice. */
static const struct strip_rule drive = {
    .title = "drive",
    .longer = 2 * DRIVE_TAB,
    .width = (1.125 + 2 * 0.5) * INCH,
    .tab = DRIVE_TAB,
    .fold_count = 2,
    .folds = {{0.5 * INCH, 180 * DEGREE}, {1.625 * INCH, 180 * DEGREE}},
};

/* The flat S is dropped by some shops at 18 in, by others at 20; 20 in chosen here (SOURCE_STANDING_S). */
#define STANDING_S_OVER (20 * INCH)

/* A maker's guide gives 18 in as usual for the side of a drive, in print that is not clear; 20 in, as of the flat S,
 * chosen here (SOURCE_STANDING_S). */
const double metal_longest_drive = STANDING_S_OVER;

static const struct connection_rule connections[JOINT_COUNT] = {
    /* Read: 1/2 in of each end, turned for the drive and raw for the S; 2 in. w.g. (Machinery's Handbook, 31st
       edition). */
    [JOINT_SLIP_AND_DRIVE] =
        {
            .title = "Slip and drive",
            .end = 0.5 * INCH,
            .slip_edge = EDGE_RAW,
            .other_edge = EDGE_TURNED,
            .shapes = FIT_RECTANGULAR,
            .pressure_limit = 2 * INCH_OF_WATER,
            .longest_side = STANDING_S_OVER,
            .slip = &s_slip,
            .other = &drive,
            .source = SOURCE_SLIP_AND_DRIVE,
        },

    /* The drives beside it hold the pressure to 2 in. w.g. */
    [JOINT_STANDING_S] =
        {
            .title = "Standing S and drive",
            .end = 0.5 * INCH,
            .slip_edge = EDGE_RAW,
            .other_edge = EDGE_TURNED,
            .shapes = FIT_RECTANGULAR,
            .pressure_limit = 2 * INCH_OF_WATER,
            .longest_side = INFINITY,
            .slip = &standing_s,
            .other = &drive,
            .source = SOURCE_STANDING_S,
        },

    /* Read: blanks of 60 and 72 in make joints of 56-1/4 and 68-1/4 in; shared by the two ends. */
    [JOINT_FLANGE] =
        {
            .title = "Rolled flange",
            .end = 1.875 * INCH,
            .slip_edge = EDGE_FLANGED,
            .other_edge = EDGE_FLANGED,
            .shapes = FIT_RECTANGULAR,
            .pressure_limit = INFINITY,
            .longest_side = INFINITY,
            .source = SOURCE_ROLLED_FLANGE,
        },

    /* From memory: International Mechanical Code, 1 in of contact at least; shops make 1-1/2 in. */
    [JOINT_CRIMP] =
        {
            .title = "Crimped end",
            .end = 1.5 * INCH,
            .one_end = true,
            .slip_edge = EDGE_CRIMPED,
            .other_edge = EDGE_CRIMPED,
            .shapes = FIT_ROUND | FIT_OVAL,
            .pressure_limit = INFINITY,
            .longest_side = INFINITY,
            .source = SOURCE_CRIMP,
        },

    [JOINT_RAW] =
        {
            .title = "Raw edges",
            .slip_edge = EDGE_RAW,
            .other_edge = EDGE_RAW,
            .shapes = FIT_RECTANGULAR | FIT_ROUND | FIT_OVAL,
            .pressure_limit = INFINITY,
            .longest_side = INFINITY,
            .source = SOURCE_RAW_EDGE,
        },
};

const struct connection_rule *metal_connection_rule(enum joint_kind kind) {
    return &connections[kind];
}

enum side_pair metal_slip_pair(struct duct_size size) {
    return size.width >= size.height - SAME_SIZE ? PAIR_TOP_BOTTOM : PAIR_LEFT_RIGHT;
}

/* How far a hem stops short of the corner, so that it clears the raw lip round it; common practice
 * (SOURCE_CORNER_NOTCH). */
static const double hem_clearance = 0.5 * INCH;

struct end_allowance metal_connection(const struct shop *shop, enum joint_kind kind, struct duct_size size, bool male) {
    const struct connection_rule *rule = &connections[kind];
    struct end_allowance end = {
        .slip = metal_slip_pair(size), .clearance = metal_usual(shop, hem_clearance), .source = rule->source};
    if (rule->one_end && !male)
        return end;
    double allowance = metal_usual(shop, rule->end);
    for (size_t i = 0; i < shop->connections.count; i++)
        if (shop->connections.at[i].kind == kind && shop->connections.at[i].end_given) {
            allowance = shop->connections.at[i].end;
            end.declared = true;
        }
    for (int pair = 0; pair < 2; pair++) {
        enum end_edge edge = pair == (int)end.slip ? rule->slip_edge : rule->other_edge;
        end.sides[pair] = (struct end_side){.edge = edge, .allowance = allowance};
    }
    return end;
}

double metal_end_depth(const struct end_allowance *end) {
    return fmax(end->sides[PAIR_TOP_BOTTOM].allowance, end->sides[PAIR_LEFT_RIGHT].allowance);
}

double metal_finished(const struct shop *shop, enum joint_kind kind, double blank) {
    struct end_allowance male = metal_connection(shop, kind, (struct duct_size){0}, true);
    struct end_allowance female = metal_connection(shop, kind, (struct duct_size){0}, false);
    return blank - metal_end_depth(&male) - metal_end_depth(&female);
}

/* ---- Notches ----------------------------------------------------------------------------------------------------- */

/* From one panel at the corner. */
static double notch_width(const struct end_side *side, double clearance, double declared) {
    if (side->edge == EDGE_FLANGED) /* 45 degrees */
        return declared > 0 ? declared : side->allowance;
    if (side->edge == EDGE_TURNED)
        return declared > 0 ? declared : clearance;
    return 0;
}

struct notch metal_notch(const struct end_allowance *end, double declared) {
    struct notch notch = {.depth = metal_end_depth(end)};
    if (!(notch.depth > 0))
        return notch;
    for (int pair = 0; pair < 2; pair++) {
        notch.width[pair] = notch_width(&end->sides[pair], end->clearance, declared);
        if (end->sides[pair].edge == EDGE_FLANGED)
            notch.shape = NOTCH_VEE;
        else if (notch.width[pair] > 0)
            notch.shape = NOTCH_SQUARE;
    }
    if (notch.shape == NOTCH_NONE)
        return (struct notch){0};
    if (declared > 0)
        notch.depth = fmin(declared, notch.depth);
    return notch;
}

/* ---- Strips ------------------------------------------------------------------------------------------------------ */

static void add_strip(struct strip_set *set, const struct strip_rule *rule, enum side_pair pair, double side) {
    if (!rule)
        return;
    double length = side + rule->longer;
    if (!(length > SAME_SIZE)) {
        set->fits = false;
        return;
    }
    set->at[set->count++] = (struct joint_strip){
        .rule = rule,
        .pair = pair,
        .count = 2,
        .length = length,
    };
}

struct strip_set metal_strips(enum joint_kind kind, struct duct_size size) {
    const struct connection_rule *rule = &connections[kind];
    bool across = metal_slip_pair(size) == PAIR_TOP_BOTTOM;
    struct strip_set set = {.fits = true};
    add_strip(&set, rule->slip, across ? PAIR_TOP_BOTTOM : PAIR_LEFT_RIGHT, across ? size.width : size.height);
    add_strip(&set, rule->other, across ? PAIR_LEFT_RIGHT : PAIR_TOP_BOTTOM, across ? size.height : size.width);
    return set;
}

double metal_drive_side(enum joint_kind kind, struct duct_size size) {
    if (connections[kind].other != &drive)
        return 0;
    return metal_slip_pair(size) == PAIR_TOP_BOTTOM ? size.height : size.width;
}

/* What the shop declares as slip and drive, too, has the S that its long side asks for. */
enum joint_kind metal_joint_used(const struct settings *settings, struct duct_size size) {
    bool declared = settings->joint_set && connections[settings->joint].shapes & 1u << size.shape;
    if (declared && settings->joint != JOINT_SLIP_AND_DRIVE)
        return settings->joint;
    if (size.shape != SHAPE_RECTANGULAR)
        return JOINT_CRIMP;
    double side = fmax(size.width, size.height);
    return side > connections[JOINT_SLIP_AND_DRIVE].longest_side + SAME_SIZE ? JOINT_STANDING_S : JOINT_SLIP_AND_DRIVE;
}
