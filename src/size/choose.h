/* The size of one duct: the smallest standard one that carries its air within its limits. */
#ifndef CLEAT_SIZE_CHOOSE_H
#define CLEAT_SIZE_CHOOSE_H

#include "size/catalogue.h"

/* What the air asks for, then what is tapped in; 0: no matter. */
struct size_need {
    double diameter;      /* m, least circular equivalent (friction) */
    double area;          /* m2, least area (velocity) */
    double height, width; /* m, least sides; of a round duct its diameter */
    double flat;          /* m, least flat part of the wide sides: width less height */
    double tapped;        /* m2, least area: the greatest of what is tapped in */
};

/* What the place allows.  0: no bound. */
struct size_bounds {
    double height, width; /* m, greatest */
    double aspect;        /* greatest long over short side */
    double area;          /* m2, greatest */
    double keep_height;   /* m, taken as the height when a size of that height will do with at most 20 % more sheet */
};

/* What the settings of a run and its shop allow. */
struct size_bounds run_bounds(const struct shop *shop, const struct run *run);

/* Round: the smallest diameter.  Rectangular and oval: the least perimeter, then the squarest, then the wider
 * than high; but the bounds' kept height with the least width, when its perimeter is at most 20 % over that.  False
 * when nothing within the bounds is enough: `*size` is then the one within the bounds that carries most, or the
 * smallest of all when none is within them. */
bool choose_size(const struct catalogue *catalogue, enum shape shape, const struct size_need *need,
                 const struct size_bounds *bounds, struct duct_size *size);

/* The next size of the same shape that carries more than `*size`, and is enough for `need`, within the bounds.  False,
 * and `*size` unchanged: there is none. */
bool choose_next(const struct catalogue *catalogue, const struct size_need *need, const struct size_bounds *bounds,
                 struct duct_size *size);

/* Every standard size that will do, in the order of the lists, into `sizes`, which has room for all there are of that
 * shape (catalogue_count).  Gives how many. */
size_t choose_all(const struct catalogue *catalogue, enum shape shape, const struct size_need *need,
                  const struct size_bounds *bounds, struct duct_size *sizes);

#endif
