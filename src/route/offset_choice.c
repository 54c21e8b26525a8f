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

/* A steeper one is told where it goes aside less than half, a quarter as far; one that its table does not know, or that
 * is longer than a sheet of 10 ft, where there is no other.  Chosen here: no source. */
static const double usual_turn = 30 * DEGREE, steep_turn = 45 * DEGREE, usual_sheet = 10 * FOOT;
enum { STEEP = 2, STEEPEST = 4, LONG = 100, UNKNOWN = 1000 };

/* It goes aside by so many steps more, at most, to come into the table.  Chosen here: no source. */
enum { MORE = 30 };

/* So much over the least length leaves an offset a straight at its ends (offset_collar) that the shop can make a joint
 * on: a crimp takes more of it. */
static double spare(enum shape shape) {
    return (shape == SHAPE_RECTANGULAR ? 4 : 8) * INCH;
}

/* To lengths that one would write: half inches aside and whole ones on, or centimetres. */
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

bool offset_choose(enum measure_system system, const struct duct *duct, enum way way, double aside, int grade,
                   struct offset_choice *choice) {
    bool metric = system == MEASURE_METRIC, across = way == WAY_LEFT || way == WAY_RIGHT;
    double step = metric ? 10 * MILLIMETRE : 0.5 * INCH, whole = metric ? 10 * MILLIMETRE : INCH;
    struct duct_size metal = duct_metal(duct), clear = duct->size;
    double side = across ? metal.width : metal.height;
    double aspect = across ? clear.height / clear.width : clear.width / clear.height;
    choice->aside = up_to(aside, step);
    for (int more = 0; more < MORE; more++, choice->aside += step) {
        double least = angled_least_length(side, choice->aside) + spare(clear.shape);
        double gentler = grade > 0 ? angled_length(side, choice->aside, turns[grade - 1]) : INFINITY;
        choice->along = up_to(fmax(angled_length(side, choice->aside, turns[grade]), least), whole);
        double angle = angled_offset(side, choice->aside, choice->along).angle;
        bool unknown = fitting_two_mitres(angle, clear.shape == SHAPE_ROUND ? 1 : aspect).outside != NULL;
        choice->dear = dearness(choice, side, angle, unknown);
        if (grade == OFFSET_SLIGHT)
            return unknown && angle <= most_turn;
        if (!unknown)
            return choice->along < up_to(fmax(gentler, least), whole) - 1e-9 || grade == 0;
    }
    return false;
}
