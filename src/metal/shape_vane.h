/* Turning vanes: single plates rolled to an arc, between two rails in a square elbow, or along the bend of a radius
 * one. */
#ifndef CLEAT_METAL_SHAPE_VANE_H
#define CLEAT_METAL_SHAPE_VANE_H

#include "base/measure.h"
#include "metal/solid.h"

/* Part of a cylinder, all edges free. */
struct vane {
    double radius, sweep, length; /* m, rad, m: of the arc, and across it */
};
HOLDS_DOUBLES(struct vane);
void shape_vane(struct solid *solid, const void *size);

/* The vanes along the mitre of a square elbow: evenly, from the throat's corner to the heel's. */
struct vane_rail {
    double length; /* m, from corner to corner */
    double radius; /* m, of each vane */
    double apart;  /* m, along the rail: from the corner to the first vane, and so on to the other corner */
    size_t count;
};
struct vane_rail vane_rail(double length);

/* Notes where the vanes stand: every mark from the throat's corner, so that one tape lays them all out. */
void note_rail(struct solid *solid, enum measure_system system, struct vane_rail rail);

/* The radii of long vanes that run with the bend of a radius elbow; they part it so that each passage bends as gently
 * as the others (radii in one ratio).  Gives how many: as few as leave no passage wider than its own throat radius, 3
 * at most. */
enum { BEND_VANES = 3 };
size_t bend_vanes(double throat, double width, double radii[BEND_VANES]);

#endif
