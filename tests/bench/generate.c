/* Writes a job of a given number of outlets, for measuring.  The same number gives the same job.
 *
 *     generate houses 1000     units of ten outlets each: a split plenum, two trunks with transitions and taps, a
 * return generate trunk 1000      one unit, one trunk, all outlets tapped into it one behind another generate office
 * 1000     one unit, a main with a branch every ten feet, each with 25 outlets; both change size on the way
 *
 * A third word is the sizing method.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { HOUSE_OUTLETS = 10, TRUNK_TAPS = 5, STRAIGHT_FEET = 5000, BRANCH_OUTLETS = 25 };

static const double house_airflow = 1000, tap_airflow = 20; /* cfm */

static const char *sizing; /* NULL: as a job that says nothing */

static void job(const char *title) {
    printf("job \"%s\" { date 2026-01-05; altitude 640 ft; pressure-class 1 in.wg%s%s }\n", title,
           sizing ? "; sizing " : "", sizing ? sizing : "");
}

static void unit(long id, double airflow) {
    printf("unit u%ld \"Air handler\" {\n", id);
    printf("    airflow %.0f cfm; cooling %.2f ton\n", airflow, airflow / 400);
    printf("    blower %.0f cfm at 0.60 in.wg, %.0f cfm at 1.2 in.wg, %.0f cfm at 2.4 in.wg\n", airflow * 1.2, airflow,
           airflow * 0.8);
    printf("    drop \"coil\" 0.20 in.wg at %.0f cfm\n", airflow);
    printf("}\n");
}

static void outlet(long unit_id, long id, const char *trunk, double station, double airflow) {
    printf("outlet o%ld_%ld from %s%ld at %.2f ft %s {\n", unit_id, id, trunk, unit_id, station,
           id % 2 ? "left" : "right");
    printf("    room \"Room %ld\"; airflow %.0f cfm; tap %s; damper volume; flex %ld ft; boot; register 12 x 6\n}\n",
           id, airflow, id % 3 ? "conical" : "shoe", 5 + id % 4);
}

static void back(long id, double airflow) {
    printf("run back%ld from u%ld.return { straight 6 ft; elbow 90 up, radius 1.0; straight 3 ft }\n", id, id);
    printf("inlet in%ld from back%ld { boot; filter 30 x %.0f x 1, 0.10 in.wg at %.0f cfm }\n", id, id,
           airflow / 300 / 30 * 144 + 1, airflow);
}

/* A trunk of five taps with a transition behind the second and the fourth. */
static void house_trunk(long id, const char *name, const char *leg, long first) {
    printf("run %s%ld from plenum%ld.%s {\n", name, id, id, leg);
    printf("    limit height 10 in\n    transition over 2 ft, flat top\n    straight 10 ft\n    transition over 1 ft, "
           "flat top\n"
           "    straight 8 ft\n    elbow 90 %s, radius 1.0\n    transition to 6 x 10 over 1 ft, flat top\n    straight "
           "5 ft\n    cap\n}\n",
           leg);
    static const double stations[TRUNK_TAPS] = {5, 9, 16, 19, 25};
    for (long i = 0; i < TRUNK_TAPS; i++)
        outlet(id, first + i, name, stations[i], house_airflow / HOUSE_OUTLETS);
}

static void house(long id) {
    unit(id, house_airflow);
    printf("run plenum%ld from u%ld.supply { connector 4 in; straight 2 ft; split wye over 2 ft }\n", id, id);
    house_trunk(id, "left", "left", 0);
    house_trunk(id, "right", "right", TRUNK_TAPS);
    back(id, house_airflow);
}

static void houses(long outlets) {
    job("Many houses");
    for (long id = 0; id < outlets / HOUSE_OUTLETS; id++)
        house(id);
}

/* Taps a foot apart.  No standard duct carries so much air, so the trunk's size is given. */
static void trunk(long outlets) {
    job("One long trunk");
    unit(0, tap_airflow * (double)outlets);
    printf("run main0 from u0.supply {\n    size 240 x 240\n");
    for (long feet = 0; feet <= outlets; feet += STRAIGHT_FEET)
        printf("    straight %d ft\n", STRAIGHT_FEET);
    printf("    cap\n}\n");
    for (long id = 0; id < outlets; id++)
        outlet(0, id, "main", 1.0 + (double)id, tap_airflow);
    printf("run back0 from u0.return { size 240 x 240; straight 3 ft }\n");
    printf("inlet in0 from back0 { grille 240 x 240, 0.03 in.wg }\n");
}

/* Straight duct and a change of size, so many times. */
static void stretches(long count, int feet, const char *change) {
    for (long i = 0; i < count; i++)
        printf("    straight %d ft%s\n", feet, i + 1 < count ? change : "\n    cap");
    printf("}\n");
}

/* A change of size behind every second branch of the main, and behind every fifth outlet of a branch. */
static void office(long outlets) {
    long branches = (outlets + BRANCH_OUTLETS - 1) / BRANCH_OUTLETS;
    job("An office floor");
    unit(0, tap_airflow * (double)outlets);
    printf("run main0 from u0.supply {\n");
    stretches((branches + 1) / 2, 20, "\n    transition over 4 ft, flat top");
    for (long branch = 0; branch < branches; branch++) {
        double station = (double)(branch / 2) * 24 + (branch % 2 ? 15 : 5);
        printf("run branch%ld from main0 at %.0f ft %s {\n    shape rectangular\n", branch, station,
               branch % 2 ? "left" : "right");
        stretches(BRANCH_OUTLETS / 5, 20, "\n    transition over 2 ft, flat top");
        for (long i = 0; i < BRANCH_OUTLETS && branch * BRANCH_OUTLETS + i < outlets; i++)
            outlet(branch, i, "branch", 2.0 + (double)(i / 5 * 22 + i % 5 * 4), tap_airflow);
    }
    printf("run back0 from u0.return { straight 3 ft }\n");
    printf("inlet in0 from back0 { grille 120 x 80, 0.03 in.wg }\n");
}

int main(int argc, char **argv) {
    long outlets = argc == 3 || argc == 4 ? strtol(argv[2], NULL, 10) : 0;
    sizing = argc == 4 ? argv[3] : NULL;
    if (outlets > 0 && strcmp(argv[1], "houses") == 0)
        houses(outlets);
    else if (outlets > 0 && strcmp(argv[1], "trunk") == 0)
        trunk(outlets);
    else if (outlets > 0 && strcmp(argv[1], "office") == 0)
        office(outlets);
    else
        return fprintf(stderr, "usage: generate houses|trunk|office OUTLETS [METHOD]\n"), 2;
    return fflush(stdout) == 0 && !ferror(stdout) ? 0 : 1;
}
