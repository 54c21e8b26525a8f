/* The air through a piece, and the loss it takes. */
#include <math.h>

#include "piece/common.h"

/* ---- The air --------------------------------------------------------------------------------------------- */

bool stream_still(struct stream stream) {
    return !(stream.flow > 0) || !size_known(stream.size);
}

double stream_pressure(const struct air *air, struct stream stream) {
    return stream_still(stream) ? 0 : air_velocity_pressure(air, stream.flow / size_area(stream.size));
}

double stream_friction(const struct piece_flow *flow, struct stream stream, double length) {
    if (stream_still(stream) || !(length > 0))
        return 0;
    return length * air_friction_rate(flow->air, stream.flow, air_equivalent_diameter(stream.size), flow->roughness);
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

/* ---- The loss -------------------------------------------------------------------------------------------- */

void loss_set(struct loss *loss, struct coefficient coefficient, double reference, const char *reference_name,
              enum source_id source) {
    loss->coefficient = coefficient.value;
    loss->reference = reference;
    loss->reference_name = reference_name;
    loss->source = source;
    loss->outside = coefficient.outside;
    loss->pressure += coefficient.value * reference;
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

/* Turbulent: as the square of the airflow. */
void loss_drop(struct loss *loss, double pressure, double flow, double actual_flow, enum source_id source) {
    if (!(actual_flow > 0))
        return;
    double share = flow > 0 ? actual_flow / flow : 1;
    loss->pressure += pressure * share * share;
    loss->source = source;
}
