/* How long an offset is to be that goes so far aside. */
#ifndef CLEAT_ROUTE_OFFSET_CHOICE_H
#define CLEAT_ROUTE_OFFSET_CHOICE_H

#include "metal/shape.h"
#include "model/job.h"

struct offset_choice {
    double aside, along; /* m */
    double dear;         /* what `aside` is multiplied by to compare it with that of another offset; 1: a gentle one */
};

/* From the gentlest on: the last is too slight for the table of its loss, or has sides that the table does not know. */
enum { OFFSET_GRADES = 5, OFFSET_SLIGHT = OFFSET_GRADES - 1 };

/* The offset of a grade in `duct`, whose size is known, that goes `aside` at least, in lengths that one would write;
 * false: there is none that is not a gentler grade's. */
bool offset_choose(enum measure_system system, const struct duct *duct, enum way way, double aside, int grade,
                   struct offset_choice *choice);

#endif
