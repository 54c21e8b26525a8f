/* Lengths of the offsets that are told. */
#include "route/offset_choice.h"

#include <math.h>

#include "air/fitting.h"
#include "base/constant.h"
#include "metal/shape_offset.h"
#include "model/lined.h"

/* Each mitre turns by that: half of the usual 45 where there is room, 30 at most where room allows (common practice, no
 * source), else 45, and 60 at last: what is steeper is two elbows, and its loss no longer that of two mitres that stand
 * alone.  The slight one is as long as the gentlest would be. */
static const double turns[OFFSET_GRADES] = {22.5 * DEGREE, 30 * DEGREE, 45 * DEGREE, 60 * DEGREE, 22.5 * DEGREE};
static const double most_turn = 60 * DEGREE;

/* A steeper offset is told only where it goes aside less than half (steepest: a quarter) as far as a gentle one; one
 * outside its loss table, or longer than a sheet of 10 ft, only where there is no other.  Chosen here: no source. */
static const double usual_turn = 30 * DEGREE, steep_turn = 45 * DEGREE, usual_sheet = 10 * FOOT;
enum { STEEP = 2, STEEPEST = 4, LONG = 100, UNKNOWN = 1000 };

/* Steps that it may go farther aside, at most, to come into the table.  Chosen here: no source. */
enum { MORE = 30 };

/* Added to the least length, so that the straight at its ends (offset_collar) is long enough for a joint; a crimp takes
 * more of it. */
static double spare(enum shape shape) {
    return (shape == SHAPE_RECTANGULAR ? 4 : 8) * INCH;
}

/* Rounded up to lengths that one would write: half inches aside and whole inches along, or centimetres. */
static double up_to(double length, double step) {
    return ceil(length / step - 1e-6) * step;
}

static double dearness(const struct offset_choice *choice, double side, double angle, bool unknown) {
    if (unknown)
        return UNKNOWN;
    if (hypot(choice->aside, choice->along) + side > usual_sheet)
        return LONG;
    return angle > steep_turn + 1e-9 ? STEEPEST : angle > usual_turn + 1e-9 ? STEEP : 1;
}

/* What does not depend on how far aside it goes. */
struct choosing {
    double side, aspect; /* m, of the metal in the plane of the offset; of what the air passes, as of a bend */
    double spare, whole; /* m; the step of its length */
};

static struct choosing choosing_of(enum measure_system system, const struct duct *duct, enum way way) {
    bool metric = system == MEASURE_METRIC, across = way_is_level(way);
    struct duct_size metal = duct_metal(duct), clear = duct->size;
    double aspect = across ? clear.height / clear.width : clear.width / clear.height;
    return (struct choosing){
        .side = across ? metal.width : metal.height,
        .aspect = clear.shape == SHAPE_ROUND ? 1 : aspect,
        .spare = spare(clear.shape),
        .whole = metric ? 10 * MILLIMETRE : INCH,
    };
}

static double length_of(const struct choosing *choosing, double aside, double turn) {
    double least = angled_least_length(choosing->side, aside) + choosing->spare;
    return up_to(fmax(angled_length(choosing->side, aside, turn), least), choosing->whole);
}

bool offset_choose(enum measure_system system, const struct duct *duct, enum way way, double aside, int grade,
                   struct offset_choice *choice) {
    struct choosing choosing = choosing_of(system, duct, way);
    double step = system == MEASURE_METRIC ? 10 * MILLIMETRE : 0.5 * INCH, least = up_to(aside, step);
    for (int more = 0; more < MORE; more++) {
        choice->aside = least + more * step;
        choice->along = length_of(&choosing, choice->aside, turns[grade]);
        double angle = angled_offset(choosing.side, choice->aside, choice->along).angle;
        bool unknown = fitting_two_mitres(NULL, angle, choosing.aspect).outside != NULL;
        choice->dear = dearness(choice, choosing.side, angle, unknown);
        if (grade == OFFSET_SLIGHT)
            return unknown && angle <= most_turn;
        if (!unknown)
            return grade == 0 || choice->along < length_of(&choosing, choice->aside, turns[grade - 1]) - 1e-9;
    }
    return false;
}
