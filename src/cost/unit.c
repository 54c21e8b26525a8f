/* The table of units that things are sold by. */
#include "cost/unit.h"

#include <string.h>

#include "base/constant.h"

enum { WHOLE = QUANTITY_PARTS, TENTH = QUANTITY_PARTS / 10 };

#define SQUARE_FOOT (FOOT * FOOT)

/* A word for one and for several, its size, the parts it is sold in, and what it measures.  What is cut or weighed to
 * order is billed to the tenth; a gallon is a can.  Common practice, no source. */
static const struct sale_unit units[] = {
    {"each", "each", 1, WHOLE, BILL_EACH, false},
    {"piece", "pieces", 1, WHOLE, BILL_EACH, false},
    {"foot", "feet", FOOT, TENTH, BILL_LENGTH, false},
    {"ft", "ft", FOOT, TENTH, BILL_LENGTH, false},
    {"yard", "yards", 3 * FOOT, TENTH, BILL_LENGTH, false},
    {"metre", "metres", 1, TENTH, BILL_LENGTH, false},
    {"meter", "meters", 1, TENTH, BILL_LENGTH, false},
    {"m", "m", 1, TENTH, BILL_LENGTH, false},
    {"ft2", "ft2", SQUARE_FOOT, TENTH, BILL_AREA, false},
    {"sqft", "sqft", SQUARE_FOOT, TENTH, BILL_AREA, false},
    {"m2", "m2", 1, TENTH, BILL_AREA, false},
    {"lb", "lb", POUND, TENTH, BILL_WEIGHT, false},
    {"pound", "pounds", POUND, TENTH, BILL_WEIGHT, false},
    {"kg", "kg", 1, TENTH, BILL_WEIGHT, false},
    {"gallon", "gallons", GALLON, WHOLE, BILL_VOLUME, false},
    {"quart", "quarts", GALLON / 4, WHOLE, BILL_VOLUME, false},
    {"litre", "litres", LITRE, WHOLE, BILL_VOLUME, false},
    {"liter", "liters", LITRE, WHOLE, BILL_VOLUME, false},
    {"box", "boxes", 0, WHOLE, BILL_EACH, true},
    {"bag", "bags", 0, WHOLE, BILL_EACH, true},
    {"roll", "rolls", 0, WHOLE, BILL_EACH, true},
    {"coil", "coils", 0, WHOLE, BILL_EACH, true},
    {"sheet", "sheets", 0, WHOLE, BILL_EACH, true},
    {"length", "lengths", 0, WHOLE, BILL_EACH, true},
    {"bundle", "bundles", 0, WHOLE, BILL_EACH, true},
    {"carton", "cartons", 0, WHOLE, BILL_EACH, true},
    {"case", "cases", 0, WHOLE, BILL_EACH, true},
    {"pack", "packs", 0, WHOLE, BILL_EACH, true},
    {"pail", "pails", 0, WHOLE, BILL_EACH, true},
    {"can", "cans", 0, WHOLE, BILL_EACH, true},
    {"tube", "tubes", 0, WHOLE, BILL_EACH, true},
};
enum { UNIT_COUNT = sizeof units / sizeof units[0] };

const struct sale_unit *sale_unit_find(const char *word) {
    for (size_t i = 0; i < UNIT_COUNT; i++)
        if (strcmp(units[i].word, word) == 0 || strcmp(units[i].plural, word) == 0)
            return &units[i];
    return NULL;
}

const struct sale_unit *sale_unit_nearest(const char *word, enum bill_measure measure) {
    const char *names[UNIT_COUNT];
    size_t count = 0;
    for (size_t i = 0; i < UNIT_COUNT; i++)
        if (units[i].package || units[i].measure == measure)
            names[count++] = units[i].word;
    const char *nearest = text_nearest(word, names, count);
    return nearest ? sale_unit_find(nearest) : NULL;
}

const struct sale_unit *sale_unit_usual(enum bill_measure measure, enum measure_system system) {
    static const char *const usual[][2] = {
        [BILL_EACH] = {"each", "each"},      [BILL_LENGTH] = {"foot", "metre"}, [BILL_AREA] = {"ft2", "m2"},
        [BILL_VOLUME] = {"gallon", "litre"}, [BILL_WEIGHT] = {"lb", "kg"},
    };
    return sale_unit_find(usual[measure][system == MEASURE_METRIC]);
}

static const double short_of = 0.005;

thousandths sale_quantity(double wanted, thousandths step, enum bill_measure measure) {
    thousandths nearest = quantity_nearest(wanted, step);
    bool enough = measure != BILL_EACH && (double)nearest >= wanted * (1 - short_of) * QUANTITY_PARTS;
    return enough ? nearest : quantity_up(wanted, step);
}

bool sale_measure_of(enum measure_kind kind, enum bill_measure *measure) {
    static const struct {
        enum measure_kind kind;
        enum bill_measure measure;
    } pairs[] = {
        {MEASURE_NUMBER, BILL_EACH},   {MEASURE_LENGTH, BILL_LENGTH}, {MEASURE_AREA, BILL_AREA},
        {MEASURE_VOLUME, BILL_VOLUME}, {MEASURE_MASS, BILL_WEIGHT},
    };
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++)
        if (pairs[i].kind == kind) {
            *measure = pairs[i].measure;
            return true;
        }
    return false;
}

const char *bill_measure_words(enum bill_measure measure) {
    static const char *const words[] = {
        [BILL_EACH] = "counted",          [BILL_LENGTH] = "measured by length",
        [BILL_AREA] = "measured by area", [BILL_VOLUME] = "measured by volume",
        [BILL_WEIGHT] = "weighed",
    };
    return words[measure];
}
