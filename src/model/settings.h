/* Settings: on the job, a shop, a run; inherited by what hangs from it (model/inherit.h). */
#ifndef CLEAT_MODEL_SETTINGS_H
#define CLEAT_MODEL_SETTINGS_H

#include <stdbool.h>

#include "base/text.h"
#include "model/shape.h"

/* A run takes each setting from the first that has it: its own words, the run it hangs from, the job, the shop, the
 * tool. From the run it hangs from it takes material, gauge, insulation, lining, seal, pressure class, seam, joint,
 * place, clearance and headroom.  A leg or plain end also takes the shape (when somebody said it) and the height and
 * width limits, since the space is the same; a tapped run does not.  A size and a velocity limit belong to the run that
 * states them. */

enum material { MATERIAL_GALVANISED, MATERIAL_ALUMINIUM, MATERIAL_FIBROUS_BOARD, MATERIAL_PVC, MATERIAL_COUNT };
enum location {
    LOCATION_CONDITIONED,
    LOCATION_ATTIC,
    LOCATION_CRAWL,
    LOCATION_BASEMENT,
    LOCATION_OUTDOORS,
    LOCATION_COUNT
};
enum seal_class { SEAL_NONE, SEAL_C, SEAL_B, SEAL_A };
enum seam_kind { SEAM_PITTSBURGH, SEAM_SNAPLOCK, SEAM_GROOVED, SEAM_LAP, SEAM_STANDING, SEAM_COUNT };
enum joint_kind { JOINT_SLIP_AND_DRIVE, JOINT_STANDING_S, JOINT_FLANGE, JOINT_CRIMP, JOINT_RAW, JOINT_COUNT };

struct settings {
    bool shape_set;
    enum shape shape;
    struct duct_size size; /* fixed by the job when known */
    struct span size_at;
    double limit_height, limit_width, limit_velocity; /* 0: no limit */
    struct span limit_at;
    bool material_set;
    enum material material;
    int gauge; /* 0: by the gauge table (metal_choose) */
    bool insulation_set, lining_set;
    double insulation; /* R-value, m2 K/W; 0: none */
    double lining;     /* thickness, m; 0: none */
    bool seal_set;
    enum seal_class seal;
    double pressure_class;    /* static pressure that the duct is built for, Pa; 0: not said */
    bool seam_set, joint_set; /* false: as the shape asks */
    enum seam_kind seam;      /* lengthwise */
    enum joint_kind joint;    /* between pieces */
    bool location_set, location_minimum_set;
    enum location location;
    double location_temperature, location_winter; /* K, in summer and in winter; 0: not given */
    double location_humidity;                     /* relative, of the air there in summer; 0: not given */
    double location_dew_point;                    /* K, likewise; 0: not given */
    double location_minimum; /* m2 K/W that duct there is to be insulated with at least; when location_minimum_set */
    double location_height;  /* m above the floor that one works from; 0: not given */
    bool clearance_set, headroom_set;
    double clearance;       /* what the outside of the duct keeps from everything else, m; 0: it may touch */
    double headroom, floor; /* what stays free under it, m, over a floor at that height; 0: nothing is asked */
    double stretch;         /* of flexible duct that does not say: installed over extended length; from the shop */
};

#endif
