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

double stream_friction(const struct piece_flow *flow, struct stream stream, double length) {
    if (stream_still(stream) || !(length > 0))
        return 0;
    double diameter = air_equivalent_diameter(stream.size);
    if (flow->spans && flow->spans->count++ < WALL_SPANS)
        flow->spans->at[flow->spans->count - 1] = (struct wall_span){diameter, flow->roughness, length};
    double pressure = length * air_friction_rate(flow->air, stream.flow, diameter, flow->roughness);
    if (flow->trace)
        *list_add(flow->trace->arena, &flow->trace->rubbings) =
            (struct trace_rubbing){stream, flow->roughness, 1, length, pressure};
    return pressure;
}

void stream_shares(struct trace *trace, struct stream branch, struct stream common) {
    double area = size_area(branch.size), whole = size_area(common.size);
    TRACE(trace, TRACE_NUMBER, "Share of all the air", "q", "Qb / Qall", branch.flow / common.flow, SOURCE_NONE,
          trace_of(TRACE_FLOW, "Qb", branch.flow), trace_of(TRACE_FLOW, "Qall", common.flow));
    TRACE(trace, TRACE_NUMBER, "Its area over that of all the air", "f", "Ab / Aall", area / whole, SOURCE_NONE,
          trace_of(TRACE_AREA, "Ab", area), trace_of(TRACE_AREA, "Aall", whole));
}

struct stream air_from(const struct piece_flow *flow) {
    return flow->supply ? flow->near : flow->far;
}

struct stream air_to(const struct piece_flow *flow) {
    return flow->supply ? flow->far : flow->near;
}

/* ---- The loss ---------------------------------------------------------------------------------------------------- */

void loss_set(const struct piece_flow *flow, struct loss *loss, struct coefficient coefficient, struct stream on,
              const char *reference_name, enum source_id source) {
    loss->coefficient = coefficient.value;
    loss->reference = stream_pressure(flow->air, on);
    loss->on = on;
    loss->reference_name = reference_name;
    loss->source = source;
    loss->outside = coefficient.outside;
    loss->pressure += coefficient.value * loss->reference;
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

struct coefficient change_coefficient(struct trace *trace, struct duct_size from, struct duct_size to, double length) {
    double area = size_area(from), other = size_area(to), ratio = fmin(area, other) / fmax(area, other);
    double angle = fitting_cone_angle(trace, area, other, length);
    TRACE(trace, TRACE_NUMBER, "Smaller area over the larger", "n", "A1 / A2", ratio, SOURCE_NONE,
          trace_of(TRACE_AREA, "A1", fmin(area, other)), trace_of(TRACE_AREA, "A2", fmax(area, other)));
    return other > area ? fitting_diffuser(trace, ratio, angle) : fitting_contraction(trace, ratio, angle);
}

double growing_side(struct trace *trace, struct duct_size from, struct duct_size to, double length) {
    double wider = to.width - from.width, higher = to.height - from.height;
    if (!(wider * higher < 0))
        return 0;
    double small = wider > 0 ? from.width : from.height, growth = fmax(wider, higher);
    double ratio = small / (small + growth), angle = 2 * atan2(growth, 2 * length);
    TRACE(trace, TRACE_NUMBER, "The side that grows, before over behind", "n", "s / (s + g)", ratio, SOURCE_NONE,
          trace_of(TRACE_LENGTH, "s", small), trace_of(TRACE_LENGTH, "g", growth));
    if (length > 0)
        TRACE(trace, TRACE_ANGLE, "Angle it opens by", "d", "2 x atan(g / (2 x L))", angle, SOURCE_NONE,
              trace_of(TRACE_LENGTH, "g", growth), trace_of(TRACE_LENGTH, "L", length));
    return fitting_diffuser(trace, ratio, angle).value;
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
    double drop = pressure * share * share * flow->air->density_ratio;
    loss->pressure += drop;
    loss->source = source;
    TRACE(flow->trace, TRACE_PRESSURE, source == SOURCE_ASSUMED_DROP ? "Its drop, assumed" : "Its drop", "h",
          "p x (Q / Q0)^2 x s", drop, source, trace_of(TRACE_PRESSURE, "p", pressure),
          trace_of(TRACE_FLOW, "Q", flow->far.flow), trace_of(TRACE_FLOW, "Q0", rated > 0 ? rated : flow->far.flow),
          trace_number("s", flow->air->density_ratio));
}
