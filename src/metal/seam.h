/* Seams along a piece and connections at its ends: what they take of the sheet, what they fit, and the strips that
 * close them.  The shop's own figures go before the table's. */
#ifndef CLEAT_METAL_SEAM_H
#define CLEAT_METAL_SEAM_H

#include "metal/blank.h"
#include "model/job.h"

enum { FIT_RECTANGULAR = 1 << SHAPE_RECTANGULAR, FIT_ROUND = 1 << SHAPE_ROUND, FIT_OVAL = 1 << SHAPE_OVAL };

/* ---- Seams ------------------------------------------------------------------------------------------------------- */

/* What a seam takes of its two edges, m. */
struct edge_allowance {
    double pocket; /* beyond the seam line on the edge that is folded into the lock */
    double flange; /* on the edge that goes into it */
    enum allowance_turn pocket_turn, flange_turn;
    bool declared;         /* by the shop, one or both */
    enum source_id source; /* of what the shop did not say */
};

struct seam_rule {
    const char *title;     /* "Pittsburgh lock" */
    double pocket, flange; /* m, by default */
    enum allowance_turn pocket_turn, flange_turn;
    unsigned shapes;        /* FIT_... */
    double pressure_limit;  /* Pa; infinite: none known */
    int heaviest, lightest; /* gauges that it can be made of */
    bool aluminium;         /* it holds in aluminium */
    enum source_id source;
};

const struct seam_rule *metal_seam_rule(enum seam_kind kind);
struct edge_allowance metal_seam(const struct shop *shop, enum seam_kind kind);

/* The seam that the settings name where it fits `shape`; else the default: rectangular pittsburgh, round and oval
 * grooved, and lapped on a round piece made of gores or rings (`fitting`). */
enum seam_kind metal_seam_used(const struct settings *settings, enum shape shape, bool fitting);

/* ---- Connections ------------------------------------------------------------------------------------------------- */

enum end_edge { EDGE_RAW, EDGE_TURNED, EDGE_FLANGED, EDGE_CRIMPED };
enum notch_shape { NOTCH_NONE, NOTCH_SQUARE, NOTCH_VEE };

/* Of a rectangle: the sides that are `width` long, those that are `height` long. */
enum side_pair { PAIR_TOP_BOTTOM, PAIR_LEFT_RIGHT };

/* What an end is at one pair of sides. */
struct end_side {
    enum end_edge edge; /* raw: stays a lip; turned: a hem folded back 180 degrees; flanged: rolled outward */
    double allowance;   /* m, beyond the end of the finished piece */
};

/* What a connection takes of one end of a piece. */
struct end_allowance {
    struct end_side sides[2]; /* by enum side_pair; round and oval: both the same */
    enum side_pair slip;      /* which pair gets the slips: the longer one, a square's top and bottom */
    double clearance;         /* m: how far a hem stops short of the corner */
    bool declared;            /* by the shop */
    enum source_id source;
};

/* Cut out of the end allowance at a corner of the blank (a bend line or a seam line), both sides of it. */
struct notch {
    enum notch_shape shape;
    double depth;    /* m, along the duct from the edge of the blank */
    double width[2]; /* m, from the corner line along the end, by the pair whose panel it is cut from */
};

/* A fold along a strip: its distance from one edge of it, m, and by how much it is folded, rad;
 * > 0 up, toward the eye. */
struct strip_fold {
    double at, angle;
};
enum { STRIP_FOLDS = 5 };

/* What a strip is, for a side of any length. */
struct strip_rule {
    const char *title; /* "S slip", "drive"; "standing S"; NULL: there is none */
    double longer;     /* m, than its side; shorter: negative */
    double width;      /* m, before it is folded */
    double tab;        /* m of each end that is folded over, round the corner of the duct */
    size_t fold_count;
    struct strip_fold folds[STRIP_FOLDS]; /* from one edge to the other */
};

/* A strip that closes a connection. */
struct joint_strip {
    const struct strip_rule *rule;
    enum side_pair pair; /* the sides it goes on */
    int count;           /* a connection */
    double length;       /* m, as cut */
};

enum { STRIP_KINDS = 2 };
struct strip_set {
    struct joint_strip at[STRIP_KINDS];
    size_t count; /* 0: the connection has no strips */
    bool fits;    /* false: a side is too short for its strip */
};

struct connection_rule {
    const char *title;                   /* "Slip and drive" */
    double end;                          /* m, of each end that takes it */
    bool one_end;                        /* only the end toward which the air goes: the lap of a crimp */
    enum end_edge slip_edge, other_edge; /* of the pair that gets the slips; of the other */
    unsigned shapes;
    double pressure_limit;                 /* Pa; infinite: none known */
    double longest_side;                   /* m, that it is used on; infinite: any */
    const struct strip_rule *slip, *other; /* on the pair that gets the slips; on the other; NULL: none */
    enum source_id source;
};

const struct connection_rule *metal_connection_rule(enum joint_kind kind);

/* A usual allowance as the shop marks it out: of a metric one in whole millimetres (common practice, no source). */
double metal_usual(const struct shop *shop, double length);

/* What one end of a duct of `size` takes.  `male`: the end that goes into the next piece (only a crimp tells the two
 * apart: the other end takes nothing).  m. */
struct end_allowance metal_connection(const struct shop *shop, enum joint_kind kind, struct duct_size size, bool male);

/* How far the end reaches beyond the finished piece, m: the greater of its sides. */
double metal_end_depth(const struct end_allowance *end);

/* The finished length, m, of a joint whose blank is `blank` m long: less what its two ends take. */
double metal_finished(const struct shop *shop, enum joint_kind kind, double blank);

/* The longer pair; of a square the top and bottom. */
enum side_pair metal_slip_pair(struct duct_size size);

/* The notch at a corner between panels of the two pairs; `declared` (shop.notch) over 0: its depth and width instead,
 * m; it is never cut deeper than the end takes. */
struct notch metal_notch(const struct end_allowance *end, double declared);

/* The strips of one connection. */
struct strip_set metal_strips(enum joint_kind kind, struct duct_size size);

/* The side that such a connection closes by a drive, m; 0: it has none. */
double metal_drive_side(enum joint_kind kind, struct duct_size size);
/* The longest that one holds on, m. */
extern const double metal_longest_drive;

/* The connection that the settings name where it fits the shape; else the default: rectangular slip-and-drive, round
 * and oval crimp.  Slip-and-drive is standing-s where a side is over 20 in, declared or not. */
enum joint_kind metal_joint_used(const struct settings *settings, struct duct_size size);

#endif
