/* The formats of the papers: one row each. */
#ifndef CLEAT_REPORT_FORMATS_H
#define CLEAT_REPORT_FORMATS_H

#include "base/output.h"
#include "model/job.h"
#include "report/packet.h"

struct report_format {
    const char *const *extensions;              /* of file names, without the dot; NULL-terminated */
    bool everything;                            /* holds all that is known, whoever reads it */
    bool shows_errors;                          /* can be written for a job with errors */
    bool drawn;                                 /* figures stand in files beside it */
    bool typeset;                               /* fonts are needed */
    bool whole;                                 /* everything, whoever reads it */
    bool (*takes)(const struct packet *packet); /* NULL: every packet */
    bool (*write)(const struct job *job, const struct packet *packet, struct drawings *drawings,
                  const struct arena_source *memory, struct output *out);
};

/* Everything as data (docs/json.md).  False when memory ran out. */
bool json_write_job(const struct job *job, bool discreet, const struct arena_source *memory, struct output *out);

#endif
