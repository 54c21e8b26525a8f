/* The words for seams and connections. */
#include "model/seam.h"

#include <stddef.h>

const char *const seam_words[] = {[SEAM_PITTSBURGH] = "pittsburgh", [SEAM_SNAPLOCK] = "snaplock",
                                  [SEAM_GROOVED] = "grooved",       [SEAM_LAP] = "lap",
                                  [SEAM_STANDING] = "standing",     [SEAM_COUNT] = NULL};

const char *const joint_words[] = {[JOINT_SLIP_AND_DRIVE] = "slip-and-drive",
                                   [JOINT_STANDING_S] = "standing-s",
                                   [JOINT_FLANGE] = "flange",
                                   [JOINT_CRIMP] = "crimp",
                                   [JOINT_RAW] = "raw",
                                   [JOINT_COUNT] = NULL};
