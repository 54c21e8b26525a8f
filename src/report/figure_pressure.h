/* The pressure along the costliest path, as a line that falls from piece to piece. */
#ifndef CLEAT_REPORT_FIGURE_PRESSURE_H
#define CLEAT_REPORT_FIGURE_PRESSURE_H

#include "draw/figure.h"
#include "model/job.h"

struct pressure_step {
    const char *run, *piece;
    double before, behind; /* Pa of total pressure against the room, as the air comes and goes */
    bool rises;            /* the blower, or a gain at a tap */
};

struct pressure_line {
    const struct network *network;
    LIST(struct pressure_step) steps; /* from the return inlet to the supply outlet */
    double low, high;
};

/* Of a network with a known blower and a path.  From `arena`. */
const struct pressure_line *pressure_line_of(struct arena *arena, const struct job *job,
                                             const struct network *network);

/* In how many figures it is drawn, and one of them (from 0). */
size_t pressure_pages(const struct pressure_line *line);
struct figure *figure_pressure(struct arena *arena, const struct job *job, const struct pressure_line *line,
                               size_t page);

#endif
