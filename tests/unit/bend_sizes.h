/* Sizes of duct for bends: given in inches, and random ones.  Include it behind cmocka.h. */
#ifndef TESTS_UNIT_BEND_SIZES_H
#define TESTS_UNIT_BEND_SIZES_H

#include "metal/shape.h"
#include "random.h"

static inline struct shape_duct rectangle(double width, double height) {
    return (struct shape_duct){SHAPE_RECTANGULAR, width * INCH, height * INCH};
}

static inline struct shape_duct round_duct(double diameter) {
    return (struct shape_duct){SHAPE_ROUND, diameter * INCH, diameter * INCH};
}

/* Half of them whole, so that equal ones come by chance; m. */
static inline double random_inches(double low, double high) {
    double inches = random_between(low, high);
    return (random_chance(0.5) ? round(inches) : inches) * INCH;
}

static inline struct shape_duct random_rectangle(void) {
    return (struct shape_duct){SHAPE_RECTANGULAR, random_inches(3, 60), random_inches(3, 60)};
}

/* Round, or oval of any proportion. */
static inline struct shape_duct random_tube(void) {
    struct shape_duct duct = {SHAPE_ROUND, random_inches(3, 40), 0};
    duct.height = duct.width;
    if (random_chance(0.5))
        return duct;
    duct.shape = SHAPE_OVAL;
    duct.height = random_inches(3, 40);
    return duct;
}

/* The side in the plane of a bend that goes `way`, and the other. */
static inline double *plane_side(struct shape_duct *duct, double way) {
    return (int)way == WAY_LEFT || (int)way == WAY_RIGHT ? &duct->width : &duct->height;
}
static inline double *depth_side(struct shape_duct *duct, double way) {
    return (int)way == WAY_LEFT || (int)way == WAY_RIGHT ? &duct->height : &duct->width;
}

#endif
