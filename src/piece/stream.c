/* The air through a piece, and the loss it takes. */
#include <math.h>

#include "piece/common.h"

/* ---- The air ----------------------------------------------------------------------------------------------------- */

bool stream_still(struct stream stream) {
    return !(stream.flow > 0) || !size_known(stream.size);
}

double stream_pressure(const struct air *air, struct stream stream) {
    return stream_still(stream) ? 0 : air_velocity_pressure(air, stream.flow / size_area(stream.size));
}

static double stream_reynolds(const struct air *air, struct stream stream) {
    if (stream_still(stream))
        return 0;
    double velocity = stream.flow / size_area(stream.size);
    return air->density * velocity * size_hydraulic_diameter(stream.size) / air->viscosity;
}

double stream_friction(const struct piece_flow *flow, struct stream stream, double length) {
    if (stream_still(stream) || !(length > 0))
        return 0;
    double diameter = air_equivalent_diameter(stream.size);
    if (flow->spans && flow->spans->count++ < WALL_SPANS)
        flow->spans->at[flow->spans->count - 1] = (struct wall_span){diameter, flow->roughness, length};
    return length * air_friction_rate(flow->air, stream.flow, diameter, flow->roughness);
}

struct stream air_from(const struct piece_flow *flow) {
    return flow->supply ? flow->near : flow->far;
}

struct stream air_to(const struct piece_flow *flow) {
    return flow->supply ? flow->far : flow->near;
}

double bend_side(struct duct_size size, enum way way) {
    return way == WAY_LEFT || way == WAY_RIGHT ? size.width : size.height;
}

double bend_aspect(struct duct_size size, enum way way) {
    if (size.shape == SHAPE_ROUND || !size_known(size))
        return 1;
    return way == WAY_LEFT || way == WAY_RIGHT ? size.height / size.width : size.width / size.height;
}

enum way bend_way(struct duct_size size, enum way way) {
    if (size.shape == SHAPE_ROUND)
        return WAY_LEFT;
    return way == WAY_LEFT || way == WAY_RIGHT ? WAY_LEFT : WAY_UP;
}

const char *bend_ways(struct duct_size size, enum way way) {
    if (size.shape == SHAPE_ROUND)
        return "";
    return way == WAY_LEFT || way == WAY_RIGHT ? ", left or right" : ", up or down";
}

/* ---- The loss ---------------------------------------------------------------------------------------------------- */

void loss_set(struct loss *loss, struct coefficient coefficient, double reference, const char *reference_name,
              enum source_id source) {
    loss->coefficient = coefficient.value;
    loss->reference = reference;
    loss->reference_name = reference_name;
    loss->source = source;
    loss->outside = coefficient.outside;
    loss->pressure += coefficient.value * reference;
}

void loss_also(struct loss *loss, struct coefficient coefficient, enum source_id source) {
    loss->coefficient += coefficient.value;
    loss->pressure += coefficient.value * loss->reference;
    loss->source = source;
    if (!loss->outside)
        loss->outside = coefficient.outside;
}

void loss_add_friction(struct loss *loss, double friction) {
    loss->friction += friction;
    loss->pressure += friction;
}

struct coefficient change_coefficient(struct duct_size from, struct duct_size to, double length) {
    double area = size_area(from), other = size_area(to);
    double angle = fitting_cone_angle(area, other, length);
    return other > area ? fitting_diffuser(area / other, angle) : fitting_contraction(other / area, angle);
}

double growing_side(struct duct_size from, struct duct_size to, double length) {
    double wider = to.width - from.width, higher = to.height - from.height;
    if (!(wider * higher < 0))
        return 0;
    double small = wider > 0 ? from.width : from.height, growth = fmax(wider, higher);
    return fitting_diffuser(small / (small + growth), 2 * atan2(growth, 2 * length)).value;
}

struct coefficient bend_reynolds(const struct piece_flow *flow, double radius) {
    return fitting_elbow_reynolds(stream_reynolds(flow->air, flow->far), radius);
}

void loss_mark_reynolds(struct loss *loss, struct coefficient factor) {
    if (factor.value != 1)
        loss->factor_source = SOURCE_ELBOW_REYNOLDS;
    if (!loss->outside)
        loss->outside = factor.outside;
}

/* Turbulent: as the square of the airflow.  Makers give drops for standard air; in other air
 * they go with its density. */
void loss_drop(const struct piece_flow *flow, struct loss *loss, double pressure, double at, enum source_id source) {
    if (!(flow->far.flow > 0))
        return;
    double rated = at > 0 ? at : flow->design;
    double share = rated > 0 ? flow->far.flow / rated : 1;
    loss->pressure += pressure * share * share * flow->air->density_ratio;
    loss->source = source;
}
