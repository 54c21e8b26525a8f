/* The words for sides, legs, materials, seal classes, places, seams, joints and systems of units. */
#include "model/words.h"

#include <math.h>

const char *const side_choices[] = {"left", "right", "top", "bottom", NULL};
const char *const leg_choices[] = {[LEG_LEFT] = "left", [LEG_RIGHT] = "right", [LEG_STRAIGHT] = "straight", NULL};
const char *const seal_choices[] = {"C", "B", "A", NULL};
const char *const system_choices[] = {[MEASURE_US] = "us", [MEASURE_METRIC] = "metric", NULL};
const char *const grain_choices[] = {[GRAIN_ANY] = "any", [GRAIN_LENGTHWISE] = "lengthwise", NULL};
const char *const paper_choices[] = {"letter", "a4", NULL};
const char *const location_choices[] = {
    [LOCATION_CONDITIONED] = "conditioned", [LOCATION_ATTIC] = "attic",       [LOCATION_CRAWL] = "crawl",
    [LOCATION_BASEMENT] = "basement",       [LOCATION_OUTDOORS] = "outdoors", NULL,
};
const char *const seam_words[] = {
    [SEAM_PITTSBURGH] = "pittsburgh", [SEAM_SNAPLOCK] = "snaplock", [SEAM_GROOVED] = "grooved", [SEAM_LAP] = "lap",
    [SEAM_STANDING] = "standing",     [SEAM_COUNT] = NULL,
};
const char *const joint_words[] = {
    [JOINT_SLIP_AND_DRIVE] = "slip-and-drive",
    [JOINT_STANDING_S] = "standing-s",
    [JOINT_FLANGE] = "flange",
    [JOINT_CRIMP] = "crimp",
    [JOINT_RAW] = "raw",
    [JOINT_COUNT] = NULL,
};

/* The usual word of each first, then its other spelling. */
#define MATERIAL_WORDS(X)                                                                                              \
    X("galvanised", MATERIAL_GALVANISED)                                                                               \
    X("aluminium", MATERIAL_ALUMINIUM)                                                                                 \
    X("board", MATERIAL_FIBROUS_BOARD)                                                                                 \
    X("pvc", MATERIAL_PVC)                                                                                             \
    X("galvanized", MATERIAL_GALVANISED)                                                                               \
    X("aluminum", MATERIAL_ALUMINIUM)

const char *const material_choices[] = {
#define X(word, material) word,
    MATERIAL_WORDS(X)
#undef X
        NULL,
};

static const enum material materials_meant[] = {
#define X(word, material) material,
    MATERIAL_WORDS(X)
#undef X
};

enum material material_of_choice(int choice) {
    return materials_meant[choice];
}

const char *material_name(enum material material) {
    int choice = 0;
    while (material_choices[choice + 1] && materials_meant[choice] != material)
        choice++;
    return material_choices[choice];
}

const char *side_name(enum side side) {
    return side == SIDE_NONE ? NULL : side_choices[side - SIDE_LEFT];
}

const char *leg_name(enum leg leg) {
    return leg_choices[leg];
}

const char *seal_name(enum seal_class seal) {
    return seal == SEAL_NONE ? "none" : seal_choices[seal - SEAL_C];
}

const char *location_name(enum location location) {
    return location_choices[location];
}

const char *whereabouts_words(enum location location) {
    static const char *const words[LOCATION_COUNT] = {
        [LOCATION_CONDITIONED] = "the rooms", [LOCATION_ATTIC] = "the attic",   [LOCATION_CRAWL] = "the crawl space",
        [LOCATION_BASEMENT] = "the basement", [LOCATION_OUTDOORS] = "the open",
    };
    return words[location];
}

const char *seam_name(enum seam_kind seam) {
    return seam_words[seam];
}

const char *joint_name(enum joint_kind joint) {
    return joint_words[joint];
}

const char *system_name(enum measure_system system) {
    return system_choices[system];
}

char *insulation_name(struct arena *arena, double resistance) {
    double value = resistance / measure_show(MEASURE_US, SHOW_RESISTANCE)->factor;
    return arena_format(arena, "R-%g", round(value * 10) / 10);
}
