/* What stands out round a duct, and other rules of the route. */
#include "base/constant.h"
#include "metal/seam.h"
#include "model/insulation.h"
#include "model/piece.h"
#include "route/hull.h"
#include "route/route.h"

const double route_slack = 0.125 * INCH;

double route_cabinet(void) {
    return 4 * FOOT;
}

/* One that rises or falls by less of its length is level.  Chosen here: no source. */
static const double greatest_rise = 0.1;

bool route_level(struct space along) {
    return fabs(along.z) <= greatest_rise;
}

/* How far the joints of a kind stand out from the duct: m.  Common practice, no source. */
static double route_joint(enum joint_kind joint) {
    static const double stands_out[JOINT_COUNT] = {
        [JOINT_SLIP_AND_DRIVE] = 0.5 * INCH,
        [JOINT_STANDING_S] = 1 * INCH,
        [JOINT_FLANGE] = 1.375 * INCH,
        [JOINT_CRIMP] = 0.125 * INCH,
        [JOINT_RAW] = 0,
    };
    return stands_out[joint];
}

static double insulation_around(const struct run *run, const struct piece *piece) {
    if (piece && piece->kind->traits & PIECE_FLEXIBLE) /* nobody presses it: its jacket holds it as it comes */
        return insulation_thickness(piece_insulation(piece, run));
    return insulation_hung(run->settings.insulation);
}

double route_around(const struct run *run, const struct piece *piece, struct duct_size size) {
    return fmax(insulation_around(run, piece), route_joint(metal_joint_used(&run->settings, size)));
}

double stretch_lowest(const struct stretch *stretch) {
    struct hull hull = hull_of_stretch(stretch);
    return hull_support(&hull, (struct space){0, 0, -1}).z;
}

double route_headroom(const struct placed_run *placed) {
    const struct settings *settings = &placed->run->settings;
    return settings->headroom > 0 && placed->positioned ? settings->floor + settings->headroom : -INFINITY;
}

/* Its stretches lie together; those of an offset that the job does not have belong to the piece behind it. */
const struct stretch *route_lowest(const struct route *route, const struct placed_run *placed, double *level) {
    const struct stretch *lowest = NULL;
    size_t end = placed->first + placed->count;
    size_t k = placed->first < end ? route->pieces.at[placed->first].first : 0;
    for (; k < route->stretches.count && route->stretches.at[k].piece < end; k++) {
        const struct stretch *stretch = &route->stretches.at[k];
        double low = stretch_lowest(stretch);
        if (route->pieces.at[stretch->piece].free || (lowest && low >= *level))
            continue;
        lowest = stretch;
        *level = low;
    }
    return lowest;
}

struct space route_face(const struct placed_run *placed) {
    return placed->end.origin;
}
