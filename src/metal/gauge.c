/* The gauge table, and the least sheet by pressure class, shape and size. */
#include "metal/gauge.h"

#include <math.h>

#include "base/constant.h"
#include "metal/stock.h"

/* ---- The table --------------------------------------------------------------------------------------------------- */

#define POUND_PER_FOOT2 (POUND / (FOOT * FOOT)) /* kg/m2 */
#define ROW(number, thick, thinnest, pounds)                                                                           \
    [(number)-GAUGE_HEAVIEST] = {(number), (thick)*INCH, (thinnest)*INCH, (pounds)*POUND_PER_FOOT2}

/* Read: table on the basis of ASTM A924/A924M and A653/A653M.  The weights of 17, 19, 21, 23 and 25 are computed: US
 * Standard gauge weight and 2.5 oz/ft2 of zinc.  SOURCE_GAUGES. */
static const struct sheet_gauge gauges[GAUGE_LIGHTEST - GAUGE_HEAVIEST + 1] = {
    ROW(16, 0.0635, 0.0575, 2.656), ROW(17, 0.0575, 0.0525, 2.406), ROW(18, 0.0516, 0.0466, 2.156),
    ROW(19, 0.0456, 0.0406, 1.906), ROW(20, 0.0396, 0.0356, 1.656), ROW(21, 0.0366, 0.0326, 1.531),
    ROW(22, 0.0336, 0.0296, 1.406), ROW(23, 0.0306, 0.0266, 1.281), ROW(24, 0.0276, 0.0236, 1.156),
    ROW(25, 0.0247, 0.0217, 1.031), ROW(26, 0.0217, 0.0187, 0.906), ROW(27, 0.0202, 0.0172, 0.844),
    ROW(28, 0.0187, 0.0157, 0.781), ROW(29, 0.0172, 0.0142, 0.719), ROW(30, 0.0157, 0.0127, 0.656),
};

/* 14.2 lb/ft2 for an inch; from memory: density of alloy 3003 (SOURCE_ALUMINIUM).  kg/m3. */
static const double aluminium_density = 14.2 * POUND_PER_FOOT2 / INCH;

const struct sheet_gauge *metal_gauge(int gauge) {
    return gauge < GAUGE_HEAVIEST || gauge > GAUGE_LIGHTEST ? NULL : &gauges[gauge - GAUGE_HEAVIEST];
}

double metal_thickness(int gauge) {
    const struct sheet_gauge *row = metal_gauge(gauge);
    return row ? row->thickness : 0;
}

double metal_weight(int gauge, enum material material) {
    const struct sheet_gauge *row = metal_gauge(gauge);
    if (!row)
        return 0;
    if (material == MATERIAL_GALVANISED)
        return row->weight;
    return material == MATERIAL_ALUMINIUM ? row->thickness * aluminium_density : 0;
}

/* ---- Pressure classes -------------------------------------------------------------------------------------------- */

static const double class_pressure[CLASS_COUNT] = {0.5 * INCH_OF_WATER, INCH_OF_WATER, 2 * INCH_OF_WATER, INFINITY};

double metal_class_pressure(enum pressure_class of) {
    return class_pressure[of];
}

/* An inch of water is written as 250 Pa as often as 249: a class holds for one per cent more.  Common practice, no
 * source. */
static const double class_slack = 0.01;

enum pressure_class metal_class(double pressure) {
    enum pressure_class of = CLASS_HALF;
    double amount = fabs(pressure);
    if (!(amount > 0))
        return CLASS_ONE;
    while (of < CLASS_OVER && amount > class_pressure[of] * (1 + class_slack))
        of++;
    return of;
}

/* ---- Rules of least sheet ---------------------------------------------------------------------------------------- */

/* What a table says of sizes up to one, in. */
struct thickness_row {
    double up_to;
    bool under;     /* that one itself not */
    double mils[2]; /* thousandths of an inch: 1/2 in. w.g., 1 in. w.g. */
};

/* Read: International Mechanical Code 2015, table 603.4 (SOURCE_SHEET_CODE). */
static const struct thickness_row code_round[] = {
    {12, true, {13, 13}}, {14, false, {13, 16}}, {17, false, {16, 19}}, {18, false, {16, 24}}, {20, false, {19, 24}},
};
static const struct thickness_row code_rectangular[] = {
    {8, false, {13, 13}},  {10, false, {13, 16}}, {12, false, {16, 19}},
    {16, false, {19, 19}}, {18, false, {19, 24}}, {20, false, {24, 24}},
};
static const double code_limit = 20; /* in: where both tables end */

struct gauge_row {
    double up_to; /* in; infinite: the table has no end */
    int gauge;    /* 0: the table ends */
};

/* Read: a published city bid specification, section 15890; over 42 in it wants bars or angles besides, which are not
 * laid out here (SOURCE_SHEET_CITY). */
static const struct gauge_row sides_large[] = {{30, 24}, {42, 22}, {54, 22}, {84, 20}, {INFINITY, 18}, {0, 0}};
static const double sides_plain = 42; /* in */

/* From memory: SMACNA, HVAC Duct Construction Standards, table 2-1, sides without reinforcement; low confidence
 * (SOURCE_SHEET_SIDES). */
static const struct gauge_row sides_two[] = {{8, 26}, {10, 24}, {12, 22}, {14, 20}, {18, 18}, {0, 0}};

/* Read: an engineering reference published online, for general heating and ventilating (SOURCE_SHEET_ROUND). */
static const struct gauge_row round_large[] = {{19, 26}, {29, 24}, {39, 22}, {49, 20}, {INFINITY, 18}, {0, 0}};

/* From memory: SMACNA, HVAC Duct Construction Standards, +2 in. w.g., lengthwise seam; low confidence
 * (SOURCE_SHEET_ROUND_HIGH). */
static const struct gauge_row round_two[] = {{14, 28}, {26, 26}, {36, 24}, {50, 22}, {0, 0}};

/* What a rule asks for of galvanised sheet. */
struct rule {
    long mils;
    enum source_id source;
    bool beyond; /* the size is past its end; the figure is that of its last row */
};

/* The least thickness of a gauge as the code's tables state it, to a thousandth of an inch. */
static long gauge_mils(int gauge) {
    return lround(metal_gauge(gauge)->least / INCH * 1000);
}

/* Sizes a hundredth of a millimetre over a row's end still belong to it. */
static bool within(double inches, double up_to, bool under) {
    const double same = 1e-5 / INCH;
    return under ? inches < up_to - same : inches <= up_to + same;
}

static struct rule by_gauge(const struct gauge_row *row, double inches, enum source_id source) {
    while (!within(inches, row->up_to, false) && row[1].gauge)
        row++;
    return (struct rule){gauge_mils(row->gauge), source, !within(inches, row->up_to, false)};
}

/* At 1/2 and 1 in. w.g.: the code to 20 in, beyond it the tables that it leaves that to. */
static struct rule low_rule(bool rectangular, double inches, enum pressure_class of) {
    const struct thickness_row *row = rectangular ? code_rectangular : code_round;
    if (!within(inches, code_limit, false)) {
        if (!rectangular)
            return by_gauge(round_large, inches, SOURCE_SHEET_ROUND);
        struct rule large = by_gauge(sides_large, inches, SOURCE_SHEET_CITY);
        large.beyond = !within(inches, sides_plain, false);
        return large;
    }
    while (!within(inches, row->up_to, row->under))
        row++;
    return (struct rule){lround(row->mils[of]), SOURCE_SHEET_CODE, false};
}

/* At 2 in. w.g., or what 1 in. w.g. already asks for. */
static struct rule high_rule(bool rectangular, double inches) {
    struct rule low = low_rule(rectangular, inches, CLASS_ONE);
    struct rule high = rectangular ? by_gauge(sides_two, inches, SOURCE_SHEET_SIDES)
                                   : by_gauge(round_two, inches, SOURCE_SHEET_ROUND_HIGH);
    struct rule heavier = high.mils >= low.mils ? high : low;
    heavier.beyond = high.beyond || low.beyond;
    return heavier;
}

/* Read: International Mechanical Code, section 603; the ratio of its last pair
 * above them (SOURCE_ALUMINIUM_FOR_STEEL). */
static long aluminium_mils(long steel) {
    static const long pairs[][2] = {{13, 18}, {16, 23}, {19, 27}, {24, 34}};
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++)
        if (steel <= pairs[i][0])
            return pairs[i][1];
    return (long)ceil((double)steel * 34 / 24);
}

/* The lightest even gauge that is thick enough: the odd ones are rolled but seldom stocked.  0: none is. */
static int lightest_of(long mils) {
    for (int gauge = GAUGE_LIGHTEST; gauge >= GAUGE_HEAVIEST; gauge -= 2)
        if (gauge_mils(gauge) >= mils)
            return gauge;
    return 0;
}

struct metal_demand metal_demand(struct duct_size size, enum pressure_class of, enum material material) {
    if (!size_known(size) || (material != MATERIAL_GALVANISED && material != MATERIAL_ALUMINIUM))
        return (struct metal_demand){0};
    bool rectangular = size.shape == SHAPE_RECTANGULAR;
    double inches = fmax(size.width, size.height) / INCH;
    struct rule rule = of <= CLASS_ONE ? low_rule(rectangular, inches, of) : high_rule(rectangular, inches);
    long mils = material == MATERIAL_ALUMINIUM ? aluminium_mils(rule.mils) : rule.mils;
    int gauge = lightest_of(mils);
    return (struct metal_demand){
        .gauge = gauge ? gauge : GAUGE_HEAVIEST,
        .thickness = (double)mils * INCH / 1000,
        .source = rule.source,
        .reinforce = rule.beyond || !gauge || of == CLASS_OVER,
    };
}

/* From memory: SMACNA, HVAC Duct Construction Standards (SOURCE_CROSS_BREAK). */
bool metal_cross_break(double side, double length, int gauge) {
    return side >= 19 * INCH - 1e-5 && gauge >= 20 && side * length > 10 * FOOT * FOOT * (1 + 1e-9);
}

/* ---- The gauge to use -------------------------------------------------------------------------------------------- */

static bool thick_enough(int gauge, const void *demand) {
    const struct metal_demand *asked = demand;
    return metal_gauge(gauge) && gauge_mils(gauge) >= lround(asked->thickness / INCH * 1000);
}

struct metal_choice metal_choose(const struct shop *shop, const struct settings *settings, struct duct_size size,
                                 double pressure) {
    struct metal_choice choice = {.demand = metal_demand(size, metal_class(pressure), settings->material)};
    if (!choice.demand.gauge)
        return choice;
    choice.declared = settings->gauge > 0;
    if (choice.declared) {
        choice.gauge = settings->gauge;
        choice.thin = !thick_enough(choice.gauge, &choice.demand);
    } else if (thick_enough(choice.demand.gauge, &choice.demand)) {
        choice.gauge = stock_gauge(shop, settings->material, thick_enough, &choice.demand);
    }
    if (!choice.gauge)
        choice.gauge = choice.demand.gauge;
    return choice;
}
