/* Lined duct: the metal round what is clear. */
#include "model/lined.h"

#include <math.h>

#include "model/piece.h"

struct duct_size size_around(struct duct_size size, double lining) {
    if (!size_known(size))
        return size;
    size.width += 2 * lining;
    size.height += 2 * lining;
    return size;
}

struct duct_size duct_metal(const struct duct *duct) {
    return duct ? size_around(duct->size, duct->lining) : (struct duct_size){0};
}

struct duct_size tapped_metal(const struct port *port, struct duct_size duct) {
    const struct piece *into = port->into;
    if (!into || !into->kind->body)
        return duct;
    struct duct_size body = into->kind->body(into);
    return size_known(body) ? size_around(body, piece_lining(into)) : duct;
}

double piece_lining(const struct piece *piece) {
    double near = piece->near && !(piece->kind->traits & PIECE_TAP) ? piece->near->lining : 0;
    return fmax(near, piece->far ? piece->far->lining : 0);
}
