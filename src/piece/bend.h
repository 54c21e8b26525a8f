/* Bends of any piece: their sides, and what they cost the air. */
#ifndef CLEAT_PIECE_BEND_H
#define CLEAT_PIECE_BEND_H

#include "air/fitting.h"
#include "air/trace.h"
#include "metal/shape.h"
#include "model/piece.h"

/* The dimension in the plane of a bend that goes `way`, m, and the other over it. */
double bend_side(struct duct_size size, enum way way);
double bend_aspect(struct duct_size size, enum way way);

/* A bend is laid out once for both ways that it may be hung: to the right it is one to the left rolled half round, down
 * is up, and a round one goes any way. */
enum way bend_way(struct duct_size size, enum way way);
/* ", left or right": those ways, for the title of a part; "" when any. */
const char *bend_ways(struct duct_size size, enum way way);

/* The radius of the centre line over the side that is clear, of a bend that is made with `radius` over that of its
 * metal: the metal and what its lining leaves clear have one centre line. */
double bend_clear_radius(struct trace *trace, struct duct_size clear, enum way way, double lining, double radius);

/* What a radius elbow in the duct is multiplied by, at the Reynolds number there. */
struct coefficient bend_reynolds(const struct piece_flow *flow, double radius);

/* ---- The loss, without the friction along the arc, in the duct at the flow's far end ----------------------------- */

struct bend {
    double angle; /* rad */
    enum way way;
    double radius; /* of the centre line over the side that bends; of a square one no matter */
    bool vanes;
};

/* A sharp corner, in and out. */
void bend_square_loss(const struct piece_flow *flow, const struct bend *bend, struct loss *loss);
/* Rectangular or flat oval, bent in one. */
void bend_radius_loss(const struct piece_flow *flow, const struct bend *bend, struct loss *loss);
/* Round, of so many pieces; without vanes. */
void bend_gored_loss(const struct piece_flow *flow, const struct bend *bend, int pieces, struct loss *loss);

/* Rectangular, from the size at the flow's near end to that at its far end, with the friction along its arc.  Its
 * radius counts over the side of the metal at the near end; `square`: as of bend_square_loss. */
void bend_changing_loss(const struct piece_flow *flow, const struct bend *bend, double lining, bool square,
                        struct loss *loss);

#endif
