/* Where each constant, table and rule comes from.  One record a source; the reports' basis of calculation
 * is written from the same records, so that a reader can check any figure. */
#ifndef CLEAT_BASE_SOURCE_H
#define CLEAT_BASE_SOURCE_H

#include <stdbool.h>

/* How the project came by a source. */
enum source_known {
    SOURCE_READ,      /* read in the published text, or an excerpt of it */
    SOURCE_REPRINTED, /* read as reprinted elsewhere, in a library or handbook that names it */
    SOURCE_COMPUTED,  /* computed with a named library or by arithmetic */
    SOURCE_MEMORY,    /* from memory of the source named */
    SOURCE_PRACTICE   /* common practice, no source */
};

/* SOURCE_NONE is not a source; every other id has one row in source.c. The form is
 * kept from the formatter, which takes each X(...) for the head of the next. */
/* clang-format off */
#define SOURCE_IDS(X)                                                                                                  \
    X(STANDARD_AIR) X(ATMOSPHERE) X(IDEAL_GAS) X(SUTHERLAND) X(INCH_OF_WATER) X(DARCY) X(COLEBROOK) X(LAMINAR)         \
    X(ROUGHNESS) X(HUEBSCHER) X(HEYT_DIAZ) X(FLEX_COMPRESSION) X(BLOWER_CURVE) X(OPERATING_POINT) X(PROPORTIONAL)      \
    X(AIRFLOW_SHORT) X(IDELCHIK_BEND) X(IDELCHIK_MITRE) X(IDELCHIK_DIFFUSER) X(IDELCHIK_CONTRACTION) X(IDELCHIK_TAP)   \
    X(IDELCHIK_SPLIT) X(IDELCHIK_BULLHEAD) X(IDELCHIK_JOIN) X(IDELCHIK_JOIN_BULLHEAD) X(ELBOW_REYNOLDS)                \
    X(GORED_ELBOW) X(VANED_ELBOW) X(DAMPER_BLADE) X(NEAREST_BEND) X(NEAREST_CHANGE) X(NEAREST_TAP) X(NEAREST_SPLIT)    \
    X(NEAREST_BOOT) X(NEAREST_BOX) X(NEAREST_FLEX) X(NEAREST_DAMPER) X(DECLARED_DROP) X(ASSUMED_DROP) X(RATED_AIR)     \
    X(SENSIBLE_HEAT) X(SUPPLY_AIR) X(CFM_PER_TON) X(VELOCITY_GUIDE) X(FRICTION_RANGE) X(STATIC_REGAIN)                 \
    X(ASPECT_RATIO) X(STANDARD_SIZES) X(FLEX_LENGTH) X(RETURN_AREA) X(BALANCE) X(SUPPLY_RETURN) X(TAP_FIT) X(TAPER)    \
    X(NOMINAL_FACE) X(OFFSET_ELBOWS) X(SHOP_DEFAULTS) X(GAUGES) X(ALUMINIUM) X(ALUMINIUM_FOR_STEEL) X(SHEET_CODE)      \
    X(SHEET_CITY) X(SHEET_SIDES) X(SHEET_ROUND) X(SHEET_ROUND_HIGH) X(CROSS_BREAK) X(STOCK_SHEET) X(PITTSBURGH)        \
    X(SNAPLOCK) X(GROOVED) X(LAP) X(STANDING_SEAM) X(SLIP_AND_DRIVE) X(STANDING_S) X(ROLLED_FLANGE) X(CRIMP)           \
    X(RAW_EDGE) X(CORNER_NOTCH) X(STATIC_PRESSURE) X(DUCT_HEAT) X(FILMS) X(LINING_VALUE) X(DEW_POINT) X(INSULATION)    \
    X(LEAKAGE) X(LEAKAGE_LIMIT) X(LEAKAGE_TEST) X(JOINT_LINES) X(BLANKING) X(STACK) X(STRIP_GAUGE) X(OFFCUT_KEPT)      \
    X(SHEAR_CUTS) X(DUAL_FEASIBLE) X(RUIN_AND_RECREATE) X(HANGERS) X(RISERS) X(HANGER_STRAPS) X(FLEX_HANGERS) X(FASTENERS)       \
    X(FLEX_TIES) X(FLANGE_CORNERS) X(SEAL_CLASSES) X(FLEX_TAPE) X(WRAP) X(LINER) X(DUCT_OUTSIDE) X(SHORT_CYCLE)
/* clang-format on */

enum source_id {
    SOURCE_NONE,
#define X(name) SOURCE_##name,
    SOURCE_IDS(X)
#undef X
        SOURCE_COUNT
};

struct source {
    const char *method; /* what it gives: "Friction factor of straight duct" */
    const char *text;   /* the published source, named fully */
    const char *trace;  /* what whoever checks the figures needs besides: how it was solved, what it was held against;
                           NULL: nothing */
    enum source_known known;
};

/* The record of `id` (not SOURCE_NONE). */
const struct source *source_of(enum source_id id);

/* "read", "read as reprinted elsewhere", "computed", "from memory", "common practice, no source". */
const char *source_known_words(enum source_known known);

#endif
