/* Sizing for the least cost of the ducts' walls within the blower's pressure. */
#ifndef CLEAT_SIZE_LEAST_COST_H
#define CLEAT_SIZE_LEAST_COST_H

#include "size/size.h"

extern const struct sizing_method sizing_least_cost;

#endif
