/* What leaks out of ducts, and into them, by their seal class, surface and pressure; and what a test may find. */
#ifndef CLEAT_AIR_LEAKAGE_H
#define CLEAT_AIR_LEAKAGE_H

#include "air/air.h"

struct leakage_section {
    double surface;       /* m2 */
    double leakage_class; /* cfm per 100 ft2 at 1 in. w.g., as tables give it; the mean by surface */
    double lost[2];       /* Pa of total pressure lost between the unit and where its wall begins, and where it ends */
    double static_pressure; /* Pa halfway between, at the design airflow; under 0 on the return side */
    double leaks;           /* m3/s at that pressure */
};

/* One figure for a leakage test of all ducts of a unit. */
struct leakage_test {
    double pressure; /* Pa */
    double allowed;  /* m3/s */
};

/* At most two: at the pressure of residential codes, and at that which the ducts are built for. */
enum { LEAKAGE_TESTS = 2 };

struct leakage {
    struct leakage_section *sections; /* by the id of the section */
    double surface;                   /* m2 of all */
    double supply, back;              /* m3/s that leaks on each side */
    double outside;                   /* m3/s of both that leaks outside the rooms */
    double share, limit;              /* of both, of the unit's airflow; and what it may be */
    bool limit_assumed;
    double sealed_share; /* what the share would be were all of it of class A */
    double built_for;    /* Pa, the least that any duct of the unit is (run_built_for) */
    size_t tests;        /* none asks for more than that */
    struct leakage_test test[LEAKAGE_TESTS];
};

/* The class of duct of that kind: cfm per 100 ft2 at 1 in. w.g.; `seal` is not SEAL_NONE. */
double leakage_class(enum shape shape, enum seal_class seal);
double leakage_class_of(const struct section *section, const struct piece *piece, enum seal_class seal);

/* The row of the table that the class is from: "round duct, seal A". */
const char *leakage_class_words(const struct section *section, const struct piece *piece, struct arena *arena);

/* The seal class of a run; C where it says none, as seal_connection (cost/sealing.c) counts its sealant. */
enum seal_class leakage_seal(const struct run *run);

/* SOURCE_LEAKAGE. */
#define LEAKAGE_EXPONENT 0.65

/* Q = CL P^0.65 for every hundred square feet: m3/s through `surface` m2 at `pressure` Pa. */
double leakage_flow(double leakage_class, double surface, double pressure);

/* The share of the airflow that may leak where the job says nothing. */
double leakage_usual_limit(void);

/* Fills network->leakage of every unit.  After air_start_up; O(items). */
void leakage_fill(struct job *job);

#endif
