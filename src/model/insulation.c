/* SOURCE_WRAP. */
#include "model/insulation.h"

#include "base/constant.h"

static const double thickness_of_r_one = 0.375 * INCH, pressed_to = 0.75;

double insulation_thickness(double resistance) {
    return resistance / R_VALUE * thickness_of_r_one;
}

double insulation_hung(double resistance) {
    return pressed_to * insulation_thickness(resistance);
}
