/* The sections of the customer's packet, the bid, each written as one part of a document. */
#ifndef CLEAT_REPORT_BID_H
#define CLEAT_REPORT_BID_H

#include "model/job.h"
#include "report/document.h"

/* ---- The sections ------------------------------------------------------------------------------------------------ */

void bid_title(const struct job *job, struct document *document);
void bid_scope(const struct job *job, struct document *document);
void bid_included(const struct job *job, struct document *document);
void bid_excluded(const struct job *job, struct document *document);
void bid_rests_on(const struct job *job, struct document *document);
void bid_alternates(const struct job *job, struct document *document);
void bid_record(const struct job *job, struct document *document);
void bid_outlets(const struct job *job, struct document *document);
void bid_returns(const struct job *job, struct document *document);
void bid_ducts(const struct job *job, struct document *document);
void bid_budget(const struct job *job, struct document *document);
void bid_losses(const struct job *job, struct document *document);
void bid_heat(const struct job *job, struct document *document);
void bid_sizing(const struct job *job, struct document *document);
void bid_checks(const struct job *job, struct document *document);
void bid_accepted(const struct job *job, struct document *document);
void bid_to_verify(const struct job *job, struct document *document);
void bid_price(const struct job *job, struct document *document);
void bid_validity(const struct job *job, struct document *document);
void bid_terms(const struct job *job, struct document *document);
void bid_checked(const struct job *job, struct document *document);
void bid_safety(const struct job *job, struct document *document);
void bid_acceptance(const struct job *job, struct document *document);
void bid_cautions(const struct job *job, struct document *document);
void bid_basis(const struct job *job, struct document *document);

/* ---- What several sections need ---------------------------------------------------------------------------------- */

/* What a caution is about; its words are in bid_cautions.c. */
enum caution {
    CAUTION_EDGES,
    CAUTION_NOISE,
    CAUTION_HEIGHT,
    CAUTION_HEAT,
    CAUTION_CRAWL,
    CAUTION_POWER,
    CAUTION_ASBESTOS,
    CAUTION_COMBUSTION,
    CAUTION_RETURN,
    CAUTION_FIRE,
    CAUTION_REFRIGERANT,
    CAUTION_FUMES,
    CAUTION_STRUCTURE,
    CAUTION_DRILLING,
    CAUTION_COUNT
};

const char *bid_caution_text(enum caution caution);

/* Puts the caution in place. */
void bid_caution(struct document *document, enum caution caution);

/* Puts those in place that belong to where the runs lie.  False: there are none. */
bool bid_place_cautions(const struct job *job, struct document *document);

/* What every packet begins with: the job's title, whose and where it is, and what stands above the paper. */
const char *bid_job_title(const struct job *job);
void bid_job_facts(const struct job *job, struct document *document);
void bid_deference(struct document *document);

/* How many statements of the job, its alternates among them, have a dimension that is only about. */
size_t bid_estimates(const struct job *job);

/* The statement that it stands in, as it is written, on one line and without comments. */
const char *bid_estimate_words(struct arena *arena, const struct estimate *estimate);

/* Each such statement as it is written, with the first estimate in it. */
typedef void estimate_visitor(void *context, const struct estimate *estimate, const char *words);
void bid_each_estimate(const struct job *job, struct arena *arena, estimate_visitor *visit, void *context);

/* Whether the paper carries a price; and the one line of the first page about it. */
bool bid_is_priced(const struct job *job);
void bid_price_line(const struct job *job, struct document *document);

/* "7 outlets", "1 outlet". */
const char *bid_count(struct document *document, size_t count, const char *what);

/* A figure with its unit, in the job's system. */
const char *bid_figure(const struct document *document, enum measure_use use, double si);

/* An R-value as it is sold: "R-8.0". */
const char *bid_r_value(struct document *document, double si);

/* A heading over what belongs to one unit; none when the job has only one.  What came before may be handed on. */
void bid_unit_heading(const struct job *job, struct document *document, const struct air_unit *unit);

/* "Glaze room", or the outlet's name where it has none. */
const char *bid_room(const struct run *run);

/* How a reader who has not seen the job's file knows it: by its room, its title, or its name. */
const char *bid_plain_name(const struct run *run);

/* How the customer's papers call the runs of a job: by room or title, and by their names besides where two have one
 * room.  From `arena`. */
struct bid_names;
const struct bid_names *bid_names_of(const struct job *job, struct arena *arena);

/* The message with its runs called so, from `arena`. */
const char *bid_message(const struct bid_names *names, struct arena *arena, const struct diagnostic *said);

/* What was accepted, with runs called so; NULL: as the job's file names them. */
void bid_accepted_as(const struct job *job, struct document *document, const struct bid_names *names);

/* "Glaze room (glaze)"; where the two are the same word, once. */
const char *bid_terminal(const struct document *document, const struct run *run);

#endif
