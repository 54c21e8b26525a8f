/* How a joint of rectangular duct is parted into blanks, and how many sheets are marked together. */
#include "metal/blanking.h"

#include "metal/gauge.h"

double joint_blank_length(const struct straight_joint *joint) {
    return joint->length + joint->ends[0] + joint->ends[1];
}

int joint_girths(const struct straight_joint *joint, enum wrap wrap, double girths[2]) {
    double w = joint->size.width, h = joint->size.height, off = joint->bend_deduction;
    double lock = joint->seam.pocket + joint->seam.flange;
    switch (wrap) {
    case WRAP_ONE:
        girths[0] = 2 * (w + h) + lock - 3 * off;
        return 1;
    case WRAP_HALVES:
        girths[0] = w + h + lock - off;
        return 1;
    case WRAP_SIDES:
        break;
    }
    girths[0] = w + 2 * joint->seam.pocket;
    girths[1] = h + 2 * joint->seam.flange;
    return 2;
}

static bool fits(const struct straight_joint *joint, enum wrap wrap, const struct stock *stock) {
    double girths[2], length = joint_blank_length(joint);
    int kinds = joint_girths(joint, wrap, girths);
    for (int i = 0; i < kinds; i++)
        if (!stock_for(stock, length, girths[i]))
            return false;
    return true;
}

bool joint_wrap(const struct straight_joint *joint, const struct stock *stock, enum wrap *wrap) {
    static const enum wrap fewest_first[] = {WRAP_ONE, WRAP_HALVES, WRAP_SIDES};
    for (size_t i = 0; i < sizeof fewest_first / sizeof *fewest_first; i++) {
        *wrap = fewest_first[i];
        if (fits(joint, *wrap, stock))
            return true;
    }
    return false;
}

int metal_stack(int declared, int gauge) {
    double thickness = metal_thickness(gauge);
    double sheets = thickness > 0 ? declared * metal_thickness(26) / thickness : declared;
    return sheets < 1 ? 1 : (int)floor(sheets + 1e-9);
}
