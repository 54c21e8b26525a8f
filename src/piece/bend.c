/* Bends of any piece: their sides, and what they cost the air. */
#include "piece/bend.h"

#include <math.h>

#include "piece/common.h"

/* ---- Its sides --------------------------------------------------------------------------------------------------- */

double bend_side(struct duct_size size, enum way way) {
    return way_is_level(way) ? size.width : size.height;
}

double bend_aspect(struct duct_size size, enum way way) {
    if (size.shape == SHAPE_ROUND || !size_known(size))
        return 1;
    return way_is_level(way) ? size.height / size.width : size.width / size.height;
}

enum way bend_way(struct duct_size size, enum way way) {
    if (size.shape == SHAPE_ROUND)
        return WAY_LEFT;
    return way_is_level(way) ? WAY_LEFT : WAY_UP;
}

const char *bend_ways(struct duct_size size, enum way way) {
    if (size.shape == SHAPE_ROUND)
        return "";
    return way_is_level(way) ? ", left or right" : ", up or down";
}

double bend_clear_radius(struct trace *trace, struct duct_size clear, enum way way, double lining, double radius) {
    double side = bend_side(clear, way), ratio = radius * (side + 2 * lining) / side;
    if (lining > 0)
        TRACE(trace, TRACE_NUMBER, "Radius of its centre line over the side that is clear", "R",
              "R0 x (W + 2 x lining) / W", ratio, SOURCE_NONE, trace_number("R0", radius),
              trace_of(TRACE_LENGTH, "W", side), trace_of(TRACE_LENGTH, "lining", lining));
    else
        trace_read(trace, "Radius of its centre line over the side that bends", "R", ratio, SOURCE_NONE, NULL);
    return ratio;
}

/* ---- In duct of one size ----------------------------------------------------------------------------------------- */

static double stream_reynolds(const struct piece_flow *flow, struct stream stream) {
    if (stream_still(stream))
        return 0;
    const struct air *air = flow->air;
    double velocity = stream.flow / size_area(stream.size), diameter = size_hydraulic_diameter(stream.size);
    double reynolds = air->density * velocity * diameter / air->viscosity;
    TRACE(flow->trace, TRACE_LENGTH, "Hydraulic diameter", "Dh", "4 x A / P", diameter, SOURCE_NONE,
          trace_of(TRACE_AREA, "A", size_area(stream.size)), trace_of(TRACE_LENGTH, "P", size_perimeter(stream.size)));
    TRACE(flow->trace, TRACE_NUMBER, "Reynolds number on it", "Re", "V x Dh / nu", reynolds, SOURCE_SUTHERLAND,
          trace_of(TRACE_VELOCITY, "V", velocity), trace_of(TRACE_LENGTH, "Dh", diameter),
          trace_of(TRACE_VISCOSITY, "nu", air->viscosity / air->density));
    return reynolds;
}

struct coefficient bend_reynolds(const struct piece_flow *flow, double radius) {
    return fitting_elbow_reynolds(flow->trace, stream_reynolds(flow, flow->far), radius);
}

void bend_square_loss(const struct piece_flow *flow, const struct bend *bend, struct loss *loss) {
    double angle = bend->angle;
    if (!bend->vanes) {
        loss_set(flow, loss, fitting_mitre(flow->trace, angle, bend_aspect(flow->far.size, bend->way)), flow->far,
                 "duct", SOURCE_IDELCHIK_MITRE);
        return;
    }
    bool as_tested = fabs(angle - 90 * DEGREE) < 1e-6;
    loss_set(flow, loss, fitting_vaned_mitre(flow->trace, angle), flow->far, "duct",
             as_tested ? SOURCE_VANED_ELBOW : SOURCE_NEAREST_BEND);
}

/* The coefficient is called `name`.  False: the vanes make it no better than it is `plain`. */
static bool with_vanes(const struct piece_flow *flow, struct loss *loss, double angle, double plain, const char *name) {
    trace_as(flow->trace, "Cvaned");
    struct coefficient vaned = fitting_vaned_mitre(flow->trace, angle);
    trace_as(flow->trace, name);
    TRACE_COEFFICIENT(flow->trace, "The smoother of both", "min(Cplain, Cvaned)", fmin(plain, vaned.value),
                      SOURCE_NEAREST_BEND, trace_number("Cplain", plain), trace_number("Cvaned", vaned.value));
    if (vaned.value < plain)
        loss_set(flow, loss, vaned, flow->far, "duct", SOURCE_NEAREST_BEND);
    return vaned.value < plain;
}

/* Flat oval by the same relation, as the nearest.  Vanes: no relation; never worse than a square elbow
 * with vanes, never better than the smoother of the two. */
void bend_radius_loss(const struct piece_flow *flow, const struct bend *bend, struct loss *loss) {
    struct duct_size size = flow->far.size;
    const char *name = trace_as(flow->trace, "C0");
    struct coefficient elbow =
        fitting_radius_elbow(flow->trace, bend->angle, bend->radius, bend_aspect(size, bend->way));
    struct coefficient factor = bend_reynolds(flow, bend->radius);
    trace_as(flow->trace, bend->vanes ? "Cplain" : name);
    TRACE_COEFFICIENT(flow->trace, "Elbow at that Reynolds number", "C0 x KRe", elbow.value * factor.value,
                      SOURCE_ELBOW_REYNOLDS, trace_number("C0", elbow.value), trace_number("KRe", factor.value));
    elbow.value *= factor.value;
    if (bend->vanes && with_vanes(flow, loss, bend->angle, elbow.value, name))
        return;
    bool nearest = bend->vanes || size.shape == SHAPE_OVAL;
    loss_set(flow, loss, elbow, flow->far, "duct", nearest ? SOURCE_NEAREST_BEND : SOURCE_IDELCHIK_BEND);
    loss_mark_reynolds(loss, factor);
}

/* The correction is for the smooth part; a mitre's loss hardly depends on the Reynolds number (common practice, no
 * source). */
void bend_gored_loss(const struct piece_flow *flow, const struct bend *bend, int pieces, struct loss *loss) {
    struct coefficient factor = bend_reynolds(flow, bend->radius);
    struct coefficient elbow = fitting_gored_elbow(flow->trace, bend->angle, bend->radius, pieces, factor.value);
    loss_set(flow, loss, elbow, flow->far, "duct", SOURCE_GORED_ELBOW);
    loss_mark_reynolds(loss, factor);
}

/* ---- Between two sizes ------------------------------------------------------------------------------------------- */

/* Of an elbow that changes size: the bend is that of its smaller end, where the air is fastest. */
struct ends {
    struct stream fast;
    double radius, length; /* of that bend, over its side; of the arc along the centre line, m */
};

/* The throat is one arc, and the radius counts over the side of the metal at the near end. */
static struct ends ends_of(const struct piece_flow *flow, const struct bend *bend, double lining) {
    double angle = bend->angle, radius = bend->radius;
    double near = bend_side(flow->near.size, bend->way), far = bend_side(flow->far.size, bend->way);
    bool narrows = size_area(flow->far.size) < size_area(flow->near.size);
    double side = narrows ? far : near;
    double throat = (radius - 0.5) * (near + 2 * lining) + lining; /* of the air */
    TRACE(flow->trace, TRACE_LENGTH, "Radius of its throat", "Rt", "(R0 - 0.5) x (W + 2 x lining) + lining", throat,
          SOURCE_NONE, trace_number("R0", radius), trace_of(TRACE_LENGTH, "W", near),
          trace_of(TRACE_LENGTH, "lining", lining));
    TRACE(flow->trace, TRACE_NUMBER, "Radius of the centre line over the smaller end's side", "R", "(Rt + W / 2) / W",
          (throat + side / 2) / side, SOURCE_NONE, trace_of(TRACE_LENGTH, "Rt", throat),
          trace_of(TRACE_LENGTH, "W", side));
    TRACE(flow->trace, TRACE_LENGTH, "Its arc", "L", "a x pi / 180 x (Rt + (W1 + W2) / 4)",
          angle * (throat + (near + far) / 4), SOURCE_NONE, trace_of(TRACE_ANGLE, "a", angle),
          trace_of(TRACE_LENGTH, "Rt", throat), trace_of(TRACE_LENGTH, "W1", near), trace_of(TRACE_LENGTH, "W2", far));
    return (struct ends){
        .fast = narrows ? flow->far : flow->near,
        .radius = (throat + side / 2) / side,
        .length = angle * (throat + (near + far) / 4),
    };
}

/* Nearest relation: the elbow in duct of its smaller end, and the change of size over its arc; a square one has no arc
 * to change in. */
void bend_changing_loss(const struct piece_flow *flow, const struct bend *bend, double lining, bool square,
                        struct loss *loss) {
    struct ends ends = ends_of(flow, bend, lining);
    struct piece_flow fast = *flow;
    struct bend smaller = *bend;
    struct duct_size from = air_from(flow).size, to = air_to(flow).size;
    double length = square ? 0 : ends.length;
    const char *name = trace_as(flow->trace, "Cchange");
    struct coefficient change = change_coefficient(flow->trace, from, to, length);
    trace_as(flow->trace, "Cgrowing");
    double cone = change.value, growing = growing_side(flow->trace, from, to, length);
    change.value = fmax(cone, growing);
    trace_as(flow->trace, "Cbend");
    fast.far = ends.fast;
    smaller.radius = ends.radius;
    if (square)
        bend_square_loss(&fast, &smaller, loss);
    else
        bend_radius_loss(&fast, &smaller, loss);
    trace_as(flow->trace, name);
    loss->reference_name = "smaller end";
    TRACE_COEFFICIENT(flow->trace, "The bend, and its change of size or the side that grows",
                      growing > 0 ? "Cbend + max(Cchange, Cgrowing)" : "Cbend + Cchange",
                      loss->coefficient + change.value, SOURCE_NEAREST_BEND, trace_number("Cbend", loss->coefficient),
                      trace_number("Cchange", cone), trace_number("Cgrowing", growing));
    loss_also(loss, change, SOURCE_NEAREST_BEND);
    loss_add_friction(loss,
                      stream_friction(flow, flow->near, length / 2) + stream_friction(flow, flow->far, length / 2));
}
