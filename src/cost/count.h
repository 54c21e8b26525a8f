/* What the files that count share: the list of connections, lines of the bill, and the words of their bases. */
#ifndef CLEAT_COST_COUNT_H
#define CLEAT_COST_COUNT_H

#include "cost/takeoff.h"

/* ---- Passes before the table: each fills its list of the take-off ------------------------------------------------ */

void list_connections(struct takeoff *takeoff, const struct job *job); /* connections.c */
void hang_ducts(struct takeoff *takeoff, const struct job *job);       /* hangers.c */

/* Of flexible duct, m: hangers.c. */
extern const double flex_hanger_width;

/* ---- The items: one function a row of the table ------------------------------------------------------------------ */

void count_sheets(struct takeoff *takeoff, const struct job *job);
void count_loose_sheet(struct takeoff *takeoff, const struct job *job);

void count_bought(struct takeoff *takeoff, const struct job *job); /* what pieces say they are bought as */

void count_straps(struct takeoff *takeoff, const struct job *job);
void count_riser_supports(struct takeoff *takeoff, const struct job *job);
void count_webbing(struct takeoff *takeoff, const struct job *job);
void count_hanger_fasteners(struct takeoff *takeoff, const struct job *job);

void count_screws(struct takeoff *takeoff, const struct job *job);
void count_flex_sleeves(struct takeoff *takeoff, const struct job *job);
void count_flex_ties(struct takeoff *takeoff, const struct job *job);
void count_flange_corners(struct takeoff *takeoff, const struct job *job);
void count_flange_bolts(struct takeoff *takeoff, const struct job *job);

void count_sealant(struct takeoff *takeoff, const struct job *job);
void count_tape(struct takeoff *takeoff, const struct job *job);
void count_gasket(struct takeoff *takeoff, const struct job *job);

void count_wrap(struct takeoff *takeoff, const struct job *job);
void count_liner(struct takeoff *takeoff, const struct job *job);
void count_liner_pins(struct takeoff *takeoff, const struct job *job);
void count_liner_adhesive(struct takeoff *takeoff, const struct job *job);

/* ---- Lines ------------------------------------------------------------------------------------------------------- */

/* The line of the item at hand with that key (NULL: none), which is begun with a title when there is none yet; both
 * must last. */
struct bill_line *bill_line(struct takeoff *takeoff, const char *key, const char *title);

/* Whole ones: no fewer than `count`, what is lost on the way included; a billionth over is none. */
double whole_ones(double count);

/* "240 ft", "73.2 m": rounded to a tenth, for bases. */
const char *words_of_length(const struct takeoff *takeoff, const struct job *job, double length);
/* "2 in", "51 mm": a small one, in the job's unit of small lengths, to the millimetre. */
const char *words_of_width(const struct takeoff *takeoff, const struct job *job, double length);
const char *words_of_area(const struct takeoff *takeoff, const struct job *job, double area);

/* "1 hanger", "14 hangers". */
const char *words_of_count(const struct takeoff *takeoff, double count, const char *one, const char *many);

/* m of a connection that is brushed with sealant, as its run's seal class asks. */
double sealed_of(const struct connection *connection);

/* ---- Parts ------------------------------------------------------------------------------------------------------- */

/* A piece at its place, with the parts made for it. */
struct hung_piece {
    const struct run *run;
    const struct piece *piece;
    const struct hung_part *parts; /* in hanging order */
    size_t count;
    size_t ready; /* parts that are not of sheet metal, but bought */
};

/* Every piece of every run, as they are hung; gives how many. */
size_t pieces_as_hung(struct arena *arena, const struct metal *metal, const struct hung_piece **list);

/* What each part of the job measures. */
const struct part_measure *parts_measured(struct arena *arena, const struct metal *metal);

#endif
