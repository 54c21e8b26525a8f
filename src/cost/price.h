/* What the job costs and what is asked for it.  Filled by cost_price from job->takeoff, the shop and the job.
 *
 * A job is priced when its shop or the job itself states a rate, a markup or a margin.  Then everything that is counted
 * must have a price and hours: what has none is an error that says what to write, never zero. */
#ifndef CLEAT_COST_PRICE_H
#define CLEAT_COST_PRICE_H

#include "cost/build_up.h"
#include "cost/labour_count.h"
#include "cost/takeoff.h"
#include "cost/unit.h"

/* A line of the take-off at the shop's price. */
struct priced_line {
    const struct bill_line *line;
    bool priced;        /* false: it has no price, which has been diagnosed */
    const char *unit;   /* what one is: "foot", "box of 500" */
    const char *key;    /* the words of the shop that it was priced by */
    double package;     /* SI: how much one holds */
    thousandths bought; /* so many of them, as printed */
    unit_price price;   /* of one */
    money amount;
};

/* Hours for one kind of work in one place. */
struct labour_line {
    struct labour_count count;
    const char *per[LABOUR_KIND_COUNT];    /* "piece", "foot"; NULL: no hours of that kind */
    thousandths amount[LABOUR_KIND_COUNT]; /* so many of these, as printed */
    double each[LABOUR_KIND_COUNT];        /* h for one, before access */
    percentage access;                     /* what field hours become there; SHARE_WHOLE: the same */
    thousandths hours[LABOUR_KIND_COUNT];  /* in hundredths of an hour at the finest, access included */
};

/* What a changed job would cost: the job compiled anew with the change. */
struct what_if {
    const char *title; /* "One foot more of hallside" */
    const char *how;   /* how it was found: "5 ft more at its end, compiled anew, a fifth of the difference" */
    bool known;        /* false: the changed job has errors, or its price no figure */
    money difference;  /* of the prices before rounding, for one */
};

struct price {
    struct currency currency;
    struct terms terms;
    struct sums sums;
    LIST(struct priced_line) lines; /* in the order of the take-off */
    money groups[BILL_GROUP_COUNT];
    LIST(struct labour_line) labour;
    struct build_up build_up;
    bool complete; /* everything has its price; false: errors say what has none */
    /* The job sized by the method that its own is compared with; no title: it is with none (variants.h). */
    struct what_if compared;
    LIST(struct what_if) what_ifs; /* filled when somebody asks (compile/variants.h) */
};

/* Fills job->price.  NULL stays where there is no take-off, and when the job is not priced. */
void cost_price(struct job *job);

/* Whether shop or job state a rate, a markup or a margin. */
bool cost_is_priced(const struct job *job);

/* The mark of the job's money: the job's, the shop's, or what is usual in its system of units: "$", or none in a metric
 * one. */
struct currency cost_currency(const struct job *job);

/* ---- The steps (terms.c, material.c, labour.c) ------------------------------------------------------------------- */

void price_read_terms(struct price *price, struct job *job);
void price_material(struct price *price, struct job *job);
void price_labour(struct price *price, struct job *job);

/* An error of pricing: the price is not complete. */
struct diagnostic *price_error(struct price *price, struct job *job, const char *check, struct span at,
                               const char *format, ...) __attribute__((format(printf, 5, 6)));

/* As a hint a line that states a price, "price strap 0.21 per foot": its form, with "..." for an amount that the shop
 * alone knows. */
void price_hint(const struct job *job, struct diagnostic *error, const char *example);

#endif
