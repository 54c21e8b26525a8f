/* The seams along a piece and the connections at its ends, as the language names them. */
#ifndef CLEAT_MODEL_SEAM_H
#define CLEAT_MODEL_SEAM_H

enum seam_kind { SEAM_PITTSBURGH, SEAM_SNAPLOCK, SEAM_GROOVED, SEAM_LAP, SEAM_STANDING, SEAM_COUNT };
enum joint_kind { JOINT_SLIP_AND_DRIVE, JOINT_STANDING_S, JOINT_FLANGE, JOINT_CRIMP, JOINT_RAW, JOINT_COUNT };

/* In the order of the enums, NULL-terminated. */
extern const char *const seam_words[];
extern const char *const joint_words[];

#endif
