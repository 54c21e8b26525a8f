/* Where taps may stand along a run. */
#ifndef CLEAT_MODEL_TAPS_H
#define CLEAT_MODEL_TAPS_H

#include "model/piece.h"

/* Stations nearer than this are the same place, m. */
#define SAME_STATION 1e-5

/* Whether runs may be tapped into this piece. */
bool piece_takes_taps(const struct piece *piece);

/* What a run at `port` (PORT_TAP) is cut into: a size of the piece there, or `duct`, the size of the duct it leaves. */
struct duct_size tapped_size(const struct port *port, struct duct_size duct);

/* Top or bottom. */
bool side_is_flat(enum side side);

/* What a tapped run of size `run` takes of the side that it is cut into, m: across the parent, and along it. */
double tap_across(enum side side, struct duct_size run);
double tap_along(enum side side, struct duct_size run);

/* Metal that has to be left beside an opening, to hold the tap's collar, m.  Common practice, no source. */
extern const double tap_edge;

/* What an opening on `side` of a duct can be cut into, m.  The ends of a flat oval are half round: a tap there is as on
 * a round duct of its height, and on its flat sides the ends are no part of what is flat. */
double tap_wall(struct duct_size duct, enum side side);

/* Another side of what a tapped run is cut into, on which it has room across and stands on no other tap: one a quarter
 * round, top or left first.  False: there is none, or the run has no flexible duct, and would lead elsewhere from
 * there.
 */
bool tap_side_with_room(const struct run *tapped, enum side *side);

/* Whether the duct is the first of a run with a tap. */
bool duct_is_tapped(const struct duct *duct);

/* The wall that the tap of a run of size `run` needs, its edges among it; and the wall that it has, were the duct that
 * it leaves of size `duct` (of a box there, the box's).  m, of the metal. */
double tap_needs(const struct run *tapped, struct duct_size run);
double tap_has(const struct run *tapped, struct duct_size duct);

/* Whether the hole of a sized run's tap is wider than the wall that it is cut into: then nothing can hold it, whoever
 * chose the sizes. */
bool tap_is_wider(const struct run *tapped);

/* Whether a run with a tap, of size `run`, has more area than what it is cut into, were the duct that it leaves of size
 * `duct`: no table of taps knows such a one. */
bool tap_is_larger(const struct run *tapped, struct duct_size run, struct duct_size duct);

/* Whether a run with a tap, of size `run`, has room across the wall of what it hangs from, were that duct of size
 * `duct`. */
bool tap_has_width(const struct run *tapped, struct duct_size run, struct duct_size duct);

/* How much larger than the run that it begins the hole of a tap is; nothing for what is no tap or says nothing. */
struct tap_opening tap_opening_of(const struct piece *tap, struct duct_size run);

/* How far the opening of a tap goes from its station along the parent, m; of what has no size yet, only what the tap
 * adds. */
struct tap_reach {
    double toward, away; /* the unit */
};
struct tap_reach tap_reach_of(const struct run *tapped);

/* The metal between two openings on one side of their parent, m; less than 0: they overlap.  `station` is that of the
 * one farther from the unit. */
double taps_apart(double station, struct tap_reach reach, double before, struct tap_reach before_reach);

/* Straight duct without a fitting in it, or a box: what one opening may be cut into.  All 0 before the first. */
struct tappable {
    double low, high; /* stations, m */
    bool takes;       /* false: a fitting, which takes no taps */
    size_t next;      /* index of the piece behind it */
};

/* The next one of a run, from piece `tappable->next` on; false: there is none. */
bool tappable_next(const struct run *run, struct tappable *tappable);

/* The one that `into` is part of, from `tappable` on: of taps in the order of their stations all pieces are looked at
 * once.  NULL: leaves it as it is. */
void tappable_find(const struct run *run, const struct piece *into, struct tappable *tappable);

/* Whether an opening at that station lies in it. */
bool tappable_holds(const struct tappable *tappable, double station, struct tap_reach reach);

/* Whether a tap at `station` stands in `piece`, its ends included. */
bool tap_in_piece(const struct piece *piece, double station);

#endif
