/* What a tapped run asks of the wall that it is cut into. */
#include "model/lined.h"
#include "model/taps.h"
#include "piece/common.h"

/* A base that is longer one way than the other is square on, whatever the run's shape: a shoe's. */
struct wall_opening tap_wall_opening(const struct run *tapped, double start) {
    const struct port *port = &tapped->from;
    struct duct_size size = duct_metal(tapped->first_duct);
    struct tap_opening more = tap_opening_of(tapped->pieces.at[0], size);
    double across = tap_across(port->side, size) + more.across;
    double along = tap_along(port->side, size) + more.upstream + more.downstream;
    bool flat = port->side == SIDE_TOP || port->side == SIDE_BOTTOM;
    bool even = more.upstream == more.downstream;
    return (struct wall_opening){
        .side = (double)port->side,
        .station = port->station - start + (more.downstream - more.upstream) / 2,
        .tap = tap_size_of(tapped),
        .section = {(double)(even ? size.shape : SHAPE_RECTANGULAR), flat ? across : along, flat ? along : across},
    };
}
