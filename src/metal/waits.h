/* What is not to be cut before an estimate of the job has been measured at the place. */
#ifndef CLEAT_METAL_WAITS_H
#define CLEAT_METAL_WAITS_H

#include "metal/metal.h"

/* What rests on the estimates of one statement. */
struct waits {
    bool made;                      /* they are of this job: not of an alternate that it is compiled without */
    LIST(const struct run *) whole; /* every part of these */
    LIST(size_t) parts;             /* and these, by number, once each, in hanging order */
    LIST(size_t) openings;          /* likewise, and these, which the opening of a tap is cut into; not of `whole` */
};

/* Fills estimate->waits, and `about` of each use of a part.  Everything of job->metal but that is there. */
void metal_waits(struct job *job);

#endif
