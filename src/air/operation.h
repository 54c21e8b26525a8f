/* What will really flow: the blower's curve against both trees as sized. */
#ifndef CLEAT_AIR_OPERATION_H
#define CLEAT_AIR_OPERATION_H

#include "model/job.h"

enum operating_outcome {
    OPERATES,          /* every path closes, inside the blower's points */
    OPERATES_NO_CURVE, /* fewer than two points: the blower is known at no other airflow */
    /* More air than at the last point: the figures are those of that point, and less than will flow. */
    OPERATES_BEYOND,
    /* Less air than at the first point: the figures are those of that point, and more than will flow. */
    OPERATES_SHORT_OF,
    OPERATES_UNSETTLED, /* no airflow was found at which every path closes: there are no figures */
    OPERATES_OUTCOMES
};

/* The airflows with the dampers one way. */
struct operating_point {
    enum operating_outcome outcome;
    double flow; /* m3/s through the unit */
    /* Pa, of the blower at that airflow in the job's air; beyond its points: what the ducts take */
    double pressure;
    double drops;           /* Pa, of it in the unit */
    double supply, back;    /* Pa, total pressure over the room at the supply collar, under it at the return collar */
    const double *sections; /* m3/s by section id, negative backward; NULL: none were found */
    size_t backward;        /* terminals whose air goes backward */
    double closure;         /* Pa, the most by which any path fails to close */
    int steps;              /* of Newton's method */
};

enum setting_kind {
    SETTING_OPEN,      /* needs none: the least favoured path of its side, or as good as that */
    SETTING_BLADE,     /* its damper's blade, by its coefficient */
    SETTING_TOO_FAR,   /* more than any blade takes up: the last that the table has */
    SETTING_NO_DAMPER, /* nothing to set: it takes what it takes */
    SETTING_NONE       /* there is no balance to set it for */
};

/* How a path's damper has to stand for every terminal to have its share. */
struct damper_setting {
    enum setting_kind kind;
    const struct section *section; /* where the damper is; NULL: none */
    bool declared;                 /* the job itself says how it stands: so it is where dampers are open */
    double declared_blade;         /* how, as `blade` */
    double coefficient;            /* of the blade, on the duct's velocity pressure */
    double blade;                  /* rad from wide open */
};

/* Filled by air_operate; in network->operation. */
struct operation {
    struct operating_point dampers_open;   /* as the job has them: wide open where it does not say */
    struct operating_point balanced;       /* every terminal with a damper takes the same share of its design */
    struct operating_point balanced_dirty; /* the same with the filters full of dust; only if `dirty_known` */
    bool dirty_known;                      /* some filter says what it takes then */
    double share;                          /* what those terminals take balanced, of their design; 0: no balance */
    struct damper_setting *supply_settings, *return_settings; /* one a path, in the order of the paths */
};

/* Fills network->operation of every unit that was sized.  A job with errors in it gets none.  Diagnoses nothing: the
 * checks do. */
void air_operate(struct job *job);

/* m3/s that a terminal takes at the point, or gives; 0: none were found. */
double operating_flow(const struct operating_point *point, const struct path *path);

/* How the dampers of a side have to stand, in the order of its paths; NULL without an operation. */
const struct damper_setting *operation_settings(const struct operation *operation, bool supply);

/* As the system will be left: balanced, if that is known. */
const struct operating_point *operation_left(const struct operation *operation);

#endif
