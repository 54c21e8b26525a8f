/* Stations: where a rolled blank is set out from, each a line to roll or form along with the places where it ends. */
#ifndef CLEAT_REPORT_FIGURE_STATIONS_H
#define CLEAT_REPORT_FIGURE_STATIONS_H

#include "metal/metal.h"

/* One end of a station's line. */
struct station_end {
    const struct blank_edge *edge; /* the curve that is set out by stations; NULL: the line ends elsewhere */
    struct flat net, cut;          /* on its own line, and on the outline to cut; alike where it has no allowance */
    size_t corner;                 /* where all lines of a panel come together: the corner's number; 0: no such place */
};

struct station {
    size_t number; /* 1, 2, ...; 0: neither end is set out by it.  Stations that share an end have one number */
    struct station_end from, to;
};

typedef LIST(struct station) station_list;

/* Whether an edge is set out by points: a curve, or an arc whose centre cannot be reached with a trammel. */
bool edge_by_points(const struct blank *blank, const struct blank_edge *edge);

/* The stations of all rolled panels, about `whole` of them in a full turn, all on the panel's own rulings, where its
 * curves are exact: evenly spaced round each where some such count is, else as near to that as rulings are.  From
 * `arena`. */
void find_stations(struct arena *arena, const struct solid *solid, const struct blank *blank, int whole,
                   station_list *stations);

/* How far the curves that are set out by them are from the straight lines that join them, at most, m. */
double stations_error(const struct blank *blank, const station_list *stations);

/* Whether every numbered station stands square to the sheet, upright (`*across` false) or level (true). */
bool stations_square(const station_list *stations, bool *across);

#endif
