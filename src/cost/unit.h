/* What a price is for and what hours are per: "foot", "gallon", "box", "piece". */
#ifndef CLEAT_COST_UNIT_H
#define CLEAT_COST_UNIT_H

#include "cost/takeoff.h"

/* One unit that things are sold by. */
struct sale_unit {
    const char *word, *plural;
    double size;               /* of one, in SI */
    thousandths step;          /* sold in whole such parts: 1000 are whole ones */
    enum bill_measure measure; /* what it measures */
    bool package;              /* how much is in it is said behind it: "box of 500" */
};

/* The unit of that word or its plural, or NULL. */
const struct sale_unit *sale_unit_find(const char *word);

/* The nearest one in spelling that fits the measure (packages do), or NULL; and the usual one of it in a job of that
 * system. */
const struct sale_unit *sale_unit_nearest(const char *word, enum bill_measure measure);
const struct sale_unit *sale_unit_usual(enum bill_measure measure, enum measure_system system);

/* So much of a thing in whole steps: to the nearest where that is no more than half a percent short, else up: no count
 * of what is brushed, cut or wrapped is nearer than that.  What is counted is never short.  Common practice, no source.
 */
thousandths sale_quantity(double wanted, thousandths step, enum bill_measure measure);

/* What a measure of a job's text counts for a bill; false: nothing that is bought. */
bool sale_measure_of(enum measure_kind kind, enum bill_measure *measure);

/* "counted", "measured by length". */
const char *bill_measure_words(enum bill_measure measure);

#endif
