/* Elbows: I. E. Idelchik, Handbook of Hydraulic Resistance, diagrams 6-1 and 6-5. */
#include "air/fitting.h"

#include <math.h>

#include "air/table.h"
#include "air/trace.h"
#include "base/constant.h"

/* ---- Diagram 6-1: coefficient = A1(angle) B1(r/W) C1(H/W), for Re >= 2e5 and smooth walls ------------------------ */

/* Degrees.  45 and 90 read; the rest from memory: Idelchik. */
static const struct table_point bend_angle[] = {
    {0, 0},     {20, 0.31},  {30, 0.45},  {45, 0.60},  {60, 0.78},  {75, 0.90},
    {90, 1.00}, {110, 1.13}, {130, 1.20}, {150, 1.28}, {180, 1.40},
};

/* 0.5, 1, 1.5 and 2 read, and 0.75 as the straight line between 0.7 and 0.8; the rest from memory: Idelchik. */
static const struct table_point bend_radius[] = {
    {0.5, 1.18}, {0.6, 0.77}, {0.7, 0.51}, {0.8, 0.37}, {0.9, 0.28}, {1, 0.21},  {1.25, 0.19}, {1.5, 0.17}, {2, 0.15},
    {4, 0.11},   {6, 0.09},   {8, 0.07},   {10, 0.07},  {15, 0.06},  {20, 0.05}, {30, 0.04},   {40, 0.03},
};

/* 0.25, 0.5, 1, 2 and 4 read; the rest from memory: Idelchik. */
static const struct table_point bend_aspect[] = {
    {0.25, 1.30}, {0.5, 1.17}, {0.75, 1.09}, {1, 1.00}, {1.5, 0.90}, {2, 0.85},
    {3, 0.85},    {4, 0.90},   {5, 0.95},    {6, 0.98}, {7, 1.00},   {8, 1.00},
};

static const struct table_words bend_angle_words = {"Factor of the turn", "A1", "an angle of", SOURCE_IDELCHIK_BEND},
                                bend_radius_words = {"Factor of the radius over the side that bends", "B1", "R/W",
                                                     SOURCE_IDELCHIK_BEND},
                                bend_aspect_words = {"Factor of the other side over that side", "C1", "H/W",
                                                     SOURCE_IDELCHIK_BEND};

struct coefficient fitting_radius_elbow(struct trace *trace, double angle, double radius, double aspect) {
    bool angle_outside = false, radius_outside = false, aspect_outside = false;
    double of_angle = table_read(TABLE(bend_angle), angle / DEGREE, &angle_outside, trace, &bend_angle_words);
    double of_radius = table_read(TABLE(bend_radius), radius, &radius_outside, trace, &bend_radius_words);
    double of_aspect = table_read(TABLE(bend_aspect), aspect, &aspect_outside, trace, &bend_aspect_words);
    double value = of_angle * of_radius * of_aspect;
    TRACE_COEFFICIENT(trace, "Smooth elbow", "A1 x B1 x C1", value, SOURCE_IDELCHIK_BEND, trace_number("A1", of_angle),
                      trace_number("B1", of_radius), trace_number("C1", of_aspect));
    const char *outside = angle_outside    ? "elbow angle 0 to 180 degrees"
                          : radius_outside ? "elbow radius 0.5 to 40 times the side"
                          : aspect_outside ? "elbow sides 1:4 to 8:1"
                                           : NULL;
    return (struct coefficient){.value = value, .outside = outside};
}

struct coefficient fitting_round_elbow(struct trace *trace, double angle, double radius) {
    return fitting_radius_elbow(trace, angle, radius, 1); /* C1 = 1 for round and square */
}

/* In 1e4, from here on nothing changes. */
#define REYNOLDS_TABLED 20

/* At low Reynolds numbers, in 1e4, elbows lose more: from memory, ASHRAE Handbook, Fundamentals, duct fitting tables,
 * Reynolds number correction of elbows with a radius of 0.75 and over, and of 0.5. */
static const struct table_point easy_reynolds[] = {
    {1, 2.00}, {2, 1.77}, {3, 1.64}, {4, 1.56}, {6, 1.46}, {8, 1.38}, {10, 1.30}, {14, 1.15}, {20, 1.00},
};

static const struct table_point sharp_reynolds[] = {
    {1, 1.40}, {2, 1.26}, {3, 1.19}, {4, 1.14}, {6, 1.09}, {8, 1.06}, {10, 1.04}, {14, 1.00}, {20, 1.00},
};

static const struct table_words reynolds_words = {"Correction for the Reynolds number", "KRe", "Re/10000",
                                                  SOURCE_ELBOW_REYNOLDS},
                                easy_words = {"Correction at a radius of 0.75 and over", "Keasy", "Re/10000",
                                              SOURCE_ELBOW_REYNOLDS},
                                sharp_words = {"Correction at a radius of 0.5", "Ksharp", "Re/10000",
                                               SOURCE_ELBOW_REYNOLDS};

static void trace_reynolds(struct trace *trace, double in_table, double share, double value) {
    bool outside = false;
    if (in_table >= REYNOLDS_TABLED) {
        trace_read(trace, "Correction for the Reynolds number", "KRe", value, SOURCE_ELBOW_REYNOLDS,
                   "in its table from Re/10000 20 on");
        return;
    }
    if (share <= 0 || share >= 1) {
        table_read(share > 0 ? TABLE(easy_reynolds) : TABLE(sharp_reynolds), in_table, &outside, trace,
                   &reynolds_words);
        return;
    }
    double easy = table_read(TABLE(easy_reynolds), in_table, &outside, trace, &easy_words);
    double sharp = table_read(TABLE(sharp_reynolds), in_table, &outside, trace, &sharp_words);
    TRACE(trace, TRACE_NUMBER, "Correction for the Reynolds number, by its radius", "KRe",
          "Ksharp + (Keasy - Ksharp) x (R - 0.5) / (0.75 - 0.5)", value, SOURCE_ELBOW_REYNOLDS,
          trace_number("Ksharp", sharp), trace_number("Keasy", easy), trace_number("R", 0.5 + share * (0.75 - 0.5)));
}

/* Between the two radii a straight line. */
struct coefficient fitting_elbow_reynolds(struct trace *trace, double reynolds, double radius) {
    bool outside = false;
    double in_table = fmin(reynolds / 1e4, REYNOLDS_TABLED);
    double easy = table_at(TABLE(easy_reynolds), in_table, &outside);
    double sharp = table_at(TABLE(sharp_reynolds), in_table, &outside);
    double share = fmin(fmax((radius - 0.5) / (0.75 - 0.5), 0), 1);
    double value = sharp + share * (easy - sharp);
    if (trace)
        trace_reynolds(trace, in_table, share, value);
    return (struct coefficient){.value = value,
                                .outside = outside ? "elbow at a Reynolds number of 10 000 or more" : NULL};
}

/* ---- Diagram 6-5: coefficient = C1(H/W) A(angle) (0.95 sin^2(angle/2) + 2.05 sin^4(angle/2)) --------------------- */

/* Degrees.  30, 45, 60, 90 read; 20, 75 and over 90 from memory: Idelchik. */
static const struct table_point mitre_angle[] = {
    {20, 2.50}, {30, 2.22}, {45, 1.87}, {60, 1.50}, {75, 1.28}, {90, 1.20}, {180, 1.20},
};

/* 0.25, 0.5, 1, 2 and 4 read; the rest from memory: Idelchik. */
static const struct table_point mitre_aspect[] = {
    {0.25, 1.10}, {0.5, 1.07}, {0.75, 1.04}, {1, 1.00}, {1.5, 0.95}, {2, 0.90},
    {3, 0.83},    {4, 0.78},   {5, 0.75},    {6, 0.72}, {7, 0.71},   {8, 0.70},
};

/* J. Weisbach's law of the single mitre, as it stands in diagram 6-5. */
static double weisbach_mitre(double angle) {
    double s = sin(fmin(fmax(angle, 0), 180 * DEGREE) / 2);
    return 0.95 * s * s + 2.05 * s * s * s * s;
}

/* As it stands in a working, of the angle a. */
#define WEISBACH_WORDS "(0.95 x sin(a / 2)^2 + 2.05 x sin(a / 2)^4)"

static const struct table_words mitre_angle_words = {"Factor of the turn", "A", "an angle of", SOURCE_IDELCHIK_MITRE},
                                mitre_aspect_words = {"Factor of the other side over that which bends", "C1", "H/W",
                                                      SOURCE_IDELCHIK_MITRE};

struct coefficient fitting_mitre(struct trace *trace, double angle, double aspect) {
    bool angle_outside = false, aspect_outside = false;
    double of_angle = table_read(TABLE(mitre_angle), angle / DEGREE, &angle_outside, trace, &mitre_angle_words);
    double of_aspect = table_read(TABLE(mitre_aspect), aspect, &aspect_outside, trace, &mitre_aspect_words);
    double value = of_angle * of_aspect * weisbach_mitre(angle);
    TRACE_COEFFICIENT(trace, "Square elbow", "C1 x A x " WEISBACH_WORDS, value, SOURCE_IDELCHIK_MITRE,
                      trace_number("C1", of_aspect), trace_number("A", of_angle), trace_of(TRACE_ANGLE, "a", angle));
    const char *outside = angle_outside    ? "square elbow angle 20 to 180 degrees"
                          : aspect_outside ? "elbow sides 1:4 to 8:1"
                                           : NULL;
    return (struct coefficient){.value = value, .outside = outside};
}

/* The distance between the two is ignored.  For two 90-degree elbows in one plane, there and back, Idelchik gives up
 * to 1.8 times this at 1 to 3 sides apart, and less when nearer (diagram 6-11, from memory); we have nothing for
 * gentle angles. */
struct coefficient fitting_two_mitres(struct trace *trace, double angle, double aspect) {
    const char *name = trace_as(trace, "Cmitre");
    struct coefficient mitre = fitting_mitre(trace, angle, aspect);
    trace_as(trace, name);
    TRACE_COEFFICIENT(trace, "Two of them, one way and back", "2 x Cmitre", 2 * mitre.value, SOURCE_OFFSET_ELBOWS,
                      trace_number("Cmitre", mitre.value));
    mitre.value *= 2;
    return mitre;
}

/* Single-thickness vanes of 2 in radius, 1-1/2 in apart, in a 90 degree elbow: 0.12; from memory: ASHRAE and SMACNA
 * duct manuals.  Other angles by the angle factor of diagram 6-1: the nearest relation. */
struct coefficient fitting_vaned_mitre(struct trace *trace, double angle) {
    const double vaned = 0.12;
    bool outside = false;
    double of_angle = table_read(TABLE(bend_angle), angle / DEGREE, &outside, trace, &bend_angle_words);
    TRACE_COEFFICIENT(trace, "Square elbow with vanes", "C90 x A1", vaned * of_angle, SOURCE_VANED_ELBOW,
                      trace_number("C90", vaned), trace_number("A1", of_angle));
    return (struct coefficient){.value = vaned * of_angle, .outside = outside ? "elbow angle 0 to 180 degrees" : NULL};
}

/* ---- Gored round elbows ------------------------------------------------------------------------------------------ */

/* No relation is at hand.  We take the smooth elbow of diagram 6-1 and add 0.6 of Weisbach's mitre for each of the
 * pieces - 1 seams.  The 0.6 is chosen here, no source: with it, elbows of three to five pieces and a radius of 1 to 2
 * diameters lie within 0.06 of the table of the ASHRAE and SMACNA duct manuals (from memory: 0.33 to 0.42 at 1, 0.19 to
 * 0.33 at 2 diameters). Tighter ones come out high: by 0.12 at 0.75, by 0.42 with three pieces at 0.5 diameter. */
struct coefficient fitting_gored_elbow(struct trace *trace, double angle, double radius, int pieces,
                                       double smooth_factor) {
    const double seam_share = 0.6;
    const char *name = trace_as(trace, "C0");
    struct coefficient elbow = fitting_round_elbow(trace, angle, radius);
    trace_as(trace, name);
    int seams = pieces > 2 ? pieces - 1 : 1;
    double smooth = elbow.value;
    elbow.value = smooth * smooth_factor + seam_share * seams * weisbach_mitre(angle / seams);
    TRACE(trace, TRACE_ANGLE, "Turn of each seam", "a", "turn / seams", angle / seams, SOURCE_NONE,
          trace_of(TRACE_ANGLE, "turn", angle), trace_number("seams", seams));
    TRACE_COEFFICIENT(trace, "With its seams", "C0 x KRe + share x seams x " WEISBACH_WORDS, elbow.value,
                      SOURCE_GORED_ELBOW, trace_number("C0", smooth), trace_number("KRe", smooth_factor),
                      trace_number("share", seam_share), trace_number("seams", seams),
                      trace_of(TRACE_ANGLE, "a", angle / seams));
    return elbow;
}
