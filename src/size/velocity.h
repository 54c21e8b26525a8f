/* Sizing by a target velocity for each kind of run. */
#ifndef CLEAT_SIZE_VELOCITY_H
#define CLEAT_SIZE_VELOCITY_H

#include "size/size.h"

extern const struct sizing_method sizing_velocity;

#endif
