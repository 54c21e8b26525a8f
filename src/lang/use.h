/* Where `use "x.shop"` finds its file.
 *
 * The path is relative to the file that says `use`.  What it leads to, links followed, must lie in the folder of the
 * job or below it, or in the shop folder or below that.  When nothing is found there, the shop folder itself is tried.
 * A file is read once, where it is first used.
 */
#ifndef CLEAT_LANG_USE_H
#define CLEAT_LANG_USE_H

#include "lang/syntax.h"

/* A file being read, and the `use` that led to it. */
struct use_chain {
    const struct use_chain *by; /* the file that uses this one; NULL: this is the job */
    struct span at;             /* the `use`, in that file */
    const char *path;           /* links followed; NULL: the job is in memory only */
    size_t depth;               /* 0: the job */
};

struct use_known {
    const char *path; /* links followed */
    uint64_t hash;
};

struct use {
    struct syntax *syntax;
    struct arena *arena;
    struct diagnostics *diagnostics;
    const char *job_folder, *shop_folder; /* links followed; NULL: none */
    const char *prefix;                   /* the job's folder as its path has it, with the slash: "jobs/", or "" */
    LIST(struct use_known) known;         /* every file read so far */
};

#endif
