/* Sizing by one friction rate for the whole system. */
#ifndef CLEAT_SIZE_EQUAL_FRICTION_H
#define CLEAT_SIZE_EQUAL_FRICTION_H

#include "size/size.h"

extern const struct sizing_method sizing_equal_friction;

#endif
