/* SOURCE_WRAP. */
#include "model/insulation.h"

#include "base/constant.h"

/* A resistance of R-1 in SI: m2 K/W.  From its units. */
static const double r_one = FOOT * FOOT * HOUR * RANKINE / BTU;

static const double thickness_of_r_one = 0.375 * INCH, pressed_to = 0.75;

double insulation_thickness(double resistance) {
    return resistance / r_one * thickness_of_r_one;
}

double insulation_hung(double resistance) {
    return pressed_to * insulation_thickness(resistance);
}
