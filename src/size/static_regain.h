/* Sizing so that what the air gives up in speed at a take-off pays its way to the next. */
#ifndef CLEAT_SIZE_STATIC_REGAIN_H
#define CLEAT_SIZE_STATIC_REGAIN_H

#include "size/size.h"

extern const struct sizing_method sizing_static_regain;

#endif
