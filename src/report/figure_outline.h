/* What a convex body covers of a drawing, from its corners; and the parts of a line that others cover. */
#ifndef CLEAT_REPORT_FIGURE_OUTLINE_H
#define CLEAT_REPORT_FIGURE_OUTLINE_H

#include "draw/figure.h"

enum { OUTLINE_CORNERS = 48 };

/* A corner of one of a body's two ends as seen. */
struct seen_corner {
    struct spot at;
    int end; /* 0 near, 1 far */
};

/* Once it is enclosed: convex, anticlockwise. */
struct outline {
    struct seen_corner corners[OUTLINE_CORNERS];
    size_t count;
};

void outline_add(struct outline *outline, struct spot at, int end);
/* Leaves the corners of the convex hull; under 3 of them when all lie on one line. */
void outline_enclose(struct outline *outline);

/* A part of a line, as shares of it. */
struct line_part {
    double from, to;
};

/* The part of a line that lies in an outline; none: to is not over from. */
struct line_part outline_covers(const struct outline *outline, struct spot a, struct spot b);

#endif
