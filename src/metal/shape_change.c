/* Transitions: a tube from one section to another. */
#include "metal/shape_change.h"

static enum wrap wrap_of(struct duct_size near, struct duct_size far) {
    if (near.shape == SHAPE_RECTANGULAR && far.shape == SHAPE_RECTANGULAR)
        return WRAP_SIDES;
    return near.shape == SHAPE_ROUND && far.shape == SHAPE_ROUND ? WRAP_ONE : WRAP_HALVES;
}

void shape_change(struct solid *solid, const void *size) {
    const struct change_shape *shape = size;
    struct duct_size near = shape_duct_size(shape->near), far = shape_duct_size(shape->far);
    struct frame end = frame_rolled(&frame_near, shape->turned), out = frame_turned(&frame_near, PI);
    end.origin = (struct space){shape->right, shape->length, shape->up};
    if (fabs(shape->turned) > 0 && (near.shape != SHAPE_RECTANGULAR || far.shape != SHAPE_RECTANGULAR)) {
        solid_fault(solid, "a turn is for rectangular ends; leave it out, or make both ends rectangular",
                    "only a transition between two rectangular ends can be turned");
        return;
    }
    struct loft loft = {
        .near = frame_near,
        .far = end,
        .from = profile_of(near),
        .to = profile_of(far),
        .wrap = wrap_of(near, far),
        .name = near.shape == SHAPE_ROUND && far.shape == SHAPE_ROUND ? "cone" : "body",
    };
    loft.near_end =
        (struct tube_end){JOIN_PORT, solid_port(solid, PORT_USE_DUCT, "toward the unit", &out, near), false};
    loft.far_end =
        (struct tube_end){JOIN_PORT, solid_port(solid, PORT_USE_DUCT, "away from the unit", &end, far), false};
    solid_loft(solid, &loft);
}
