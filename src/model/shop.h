/* The shop: its stock of sizes, how it makes and hangs duct, and what it says of prices. */
#ifndef CLEAT_MODEL_SHOP_H
#define CLEAT_MODEL_SHOP_H

#include "base/list.h"
#include "base/measure.h"
#include "lang/form.h"
#include "model/entries.h"
#include "model/settings.h"

/* A statement of a shop block that is kept as it was read: what the pricing and the metal look up by its words. */
struct shop_entry {
    struct reading reading;
    enum says says;  /* model/entries.h */
    bool overridden; /* a later entry for the same thing replaced it: for the pass that prices */
    bool of_job;     /* it stands in the job's own block, and goes before what a shop says of the same */
};

/* What a seam takes of the sheet, as the shop has said: m. */
struct shop_seam {
    enum seam_kind kind;
    double pocket, flange;
    bool pocket_given, flange_given;
    struct span at;
};

/* What a joint between pieces takes of each end, as the shop has said: m. */
struct shop_connection {
    enum joint_kind kind;
    double end;
    bool end_given;
    struct span at;
};

struct shop {
    const char *name;
    struct span at;
    LIST(const char *) contacts;     /* lines of an address, a telephone: as they are to stand on the papers */
    const char *licence;             /* its number or words, or NULL */
    LIST(const char *) terms;        /* of payment and the like, where the job gives none */
    LIST(double) round_sizes;        /* standard diameters, m, ascending */
    LIST(double) widths;             /* standard sides of rectangular duct (and widths of oval), m, ascending */
    LIST(double) oval_heights;       /* standard lesser sides of oval duct, m, ascending */
    bool sizes_assumed[SHAPE_COUNT]; /* the tool's own list was used */
    double joint_length;          /* greatest length of the blank of a straight joint, what its ends take included, m */
    LIST(struct shop_seam) seams; /* one a kind at most: the latest that was said */
    LIST(struct shop_connection) connections; /* likewise */
    int stack;                                /* sheets of 26 gauge that are marked and notched together */
    int stations;                             /* ordinates round a curved edge of a round pattern; a multiple of 4 */
    double notch;     /* of the corners of end allowances, m; 0: as deep and wide as the seam and the connection ask */
    double offcut[2]; /* an offcut at least that large, either way round, is kept, m; 0: the shop did not say */
    bool grain;       /* the longer side of a blank lies along the sheet */
    double bend_deduction; /* taken off per 90-degree bend, m; 0: none */
    double hang_every;     /* greatest distance between the hangers of duct, m */
    double hang_below;     /* how far under what it hangs from its top is, m */
    bool hang_below_set;
    struct settings settings;
    bool trunk_shape_set, runout_shape_set;
    enum shape trunk_shape;  /* default of a run that starts at a unit or a split */
    enum shape runout_shape; /* default of what hangs from a tap or the end of a run */
    double aspect_limit;     /* long over short side */
    double flex_stretch;     /* installed length over extended length, default */
    LIST(struct shop_entry *) entries;
    enum measure_system system; /* that of the job: its usual allowances are whole millimetres in a metric one */
    const char *currency;       /* the mark of its money; NULL: not said */
    double reach;               /* m above the floor from which work is high; 10 ft when not said */
};

#endif
