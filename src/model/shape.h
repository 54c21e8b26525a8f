/* Cross-sections of duct. */
#ifndef CLEAT_MODEL_SHAPE_H
#define CLEAT_MODEL_SHAPE_H

#include <stdbool.h>

#include "base/arena.h"
#include "base/measure.h"

enum shape { SHAPE_RECTANGULAR, SHAPE_ROUND, SHAPE_OVAL, SHAPE_COUNT };

/* Sides, lengths and sizes nearer than this are the same, m: a hundredth of a millimetre. */
#define SAME_SIZE 1e-5

/* Inside dimensions, m.  Round: width = height = diameter.  Oval: flat oval, ends are half
 * circles on the lesser side. */
struct duct_size {
    enum shape shape;
    double width, height;
};

/* "rectangular", "round", "oval": in the order of enum shape, NULL-terminated. */
extern const char *const shape_choices[];
const char *shape_name(enum shape shape);

double size_area(struct duct_size size);                 /* m2 */
double size_perimeter(struct duct_size size);            /* m */
double size_aspect(struct duct_size size);               /* long side over short side, >= 1 */
double size_hydraulic_diameter(struct duct_size size);   /* m, 4 A / P */
bool size_equal(struct duct_size a, struct duct_size b); /* to a hundredth of a millimetre */
bool size_known(struct duct_size size);                  /* both dimensions over zero */

/* "18 x 14 in", "8 in round", "20 x 8 in oval"; metric "450 x 350 mm". */
char *size_text(struct arena *arena, enum measure_system system, struct duct_size size);

/* The same without its unit, as a shop writes it in the name of what it prices: "18 x 14", "8", "20 x 8 oval". */
char *size_figures(struct arena *arena, enum measure_system system, struct duct_size size);

#endif
