/* The table of units that things are sold by. */
#include "cost/unit.h"

#include <string.h>

#include "base/constant.h"

enum { WHOLE = QUANTITY_PARTS, TENTH = QUANTITY_PARTS / 10 };

#define SQUARE_FOOT (FOOT * FOOT)
#define GALLON (231 * INCH * INCH * INCH)

/* A word for one and for several, what it measures, its size, and the parts it is sold in.  What is cut or weighed to order is
 * billed to the tenth; a gallon is a can.  Common practice, no source. */
static const struct sale_unit units[] = {
    {"each", "each", BILL_EACH, 1, WHOLE, false},
    {"piece", "pieces", BILL_EACH, 1, WHOLE, false},
    {"foot", "feet", BILL_LENGTH, FOOT, TENTH, false},
    {"ft", "ft", BILL_LENGTH, FOOT, TENTH, false},
    {"yard", "yards", BILL_LENGTH, 3 * FOOT, TENTH, false},
    {"metre", "metres", BILL_LENGTH, 1, TENTH, false},
    {"meter", "meters", BILL_LENGTH, 1, TENTH, false},
    {"m", "m", BILL_LENGTH, 1, TENTH, false},
    {"ft2", "ft2", BILL_AREA, SQUARE_FOOT, TENTH, false},
    {"sqft", "sqft", BILL_AREA, SQUARE_FOOT, TENTH, false},
    {"m2", "m2", BILL_AREA, 1, TENTH, false},
    {"lb", "lb", BILL_WEIGHT, POUND, TENTH, false},
    {"pound", "pounds", BILL_WEIGHT, POUND, TENTH, false},
    {"kg", "kg", BILL_WEIGHT, 1, TENTH, false},
    {"gallon", "gallons", BILL_VOLUME, GALLON, WHOLE, false},
    {"quart", "quarts", BILL_VOLUME, GALLON / 4, WHOLE, false},
    {"litre", "litres", BILL_VOLUME, 0.001, WHOLE, false},
    {"liter", "liters", BILL_VOLUME, 0.001, WHOLE, false},
    {"box", "boxes", BILL_EACH, 0, WHOLE, true},
    {"bag", "bags", BILL_EACH, 0, WHOLE, true},
    {"roll", "rolls", BILL_EACH, 0, WHOLE, true},
    {"coil", "coils", BILL_EACH, 0, WHOLE, true},
    {"sheet", "sheets", BILL_EACH, 0, WHOLE, true},
    {"length", "lengths", BILL_EACH, 0, WHOLE, true},
    {"bundle", "bundles", BILL_EACH, 0, WHOLE, true},
    {"carton", "cartons", BILL_EACH, 0, WHOLE, true},
    {"case", "cases", BILL_EACH, 0, WHOLE, true},
    {"pack", "packs", BILL_EACH, 0, WHOLE, true},
    {"pail", "pails", BILL_EACH, 0, WHOLE, true},
    {"can", "cans", BILL_EACH, 0, WHOLE, true},
    {"tube", "tubes", BILL_EACH, 0, WHOLE, true},
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
        [BILL_EACH] = {"each", "each"},     [BILL_LENGTH] = {"foot", "metre"}, [BILL_AREA] = {"ft2", "m2"},
        [BILL_VOLUME] = {"gallon", "litre"}, [BILL_WEIGHT] = {"lb", "kg"},
    };
    return sale_unit_find(usual[measure][system == MEASURE_METRIC]);
}

bool sale_measure_of(enum measure_kind kind, enum bill_measure *measure) {
    static const struct {
        enum measure_kind kind;
        enum bill_measure measure;
    } pairs[] = {
        {MEASURE_NUMBER, BILL_EACH}, {MEASURE_LENGTH, BILL_LENGTH}, {MEASURE_AREA, BILL_AREA},
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
        [BILL_EACH] = "counted",
        [BILL_LENGTH] = "measured by length",
        [BILL_AREA] = "measured by area",
        [BILL_VOLUME] = "measured by volume",
        [BILL_WEIGHT] = "weighed",
    };
    return words[measure];
}
