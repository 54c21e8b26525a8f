/* What sheet a joint of rectangular duct is made of: blanks, their marks, stacks of equal ones. */
#ifndef CLEAT_METAL_JOINT_BLANK_H
#define CLEAT_METAL_JOINT_BLANK_H

#include "metal/seam.h"
#include "metal/stock.h"

/* ---- Blanks of one joint --------------------------------------------------------------------------------------- */

enum blanking { BLANK_WRAP, BLANK_HALVES, BLANK_SIDES, BLANK_NONE };

enum mark_kind { MARK_POCKET, MARK_BEND, MARK_FLANGE };

/* A line across the blank, along the duct. */
struct brake_mark {
    double at; /* m from the edge that all marks are measured from: the pocket's, where the blank has one */
    enum mark_kind kind;
};

enum { JOINT_MARKS = 5, JOINT_BLANKS = 2 };

struct joint_blank {
    double length, girth;                 /* m: along the duct, around it; allowances included */
    int count;                            /* how many a joint */
    struct brake_mark marks[JOINT_MARKS]; /* ascending */
    size_t mark_count;
    double panels[4]; /* m, the finished sides in order from the pocket edge */
    size_t panel_count;
    const struct stock_sheet *sheet; /* the smallest that takes it; NULL: none */
};

struct joint_plan {
    enum blanking way; /* BLANK_NONE: not even one side fits a sheet; the blanks are then of four sides */
    struct joint_blank blanks[JOINT_BLANKS];
    size_t count;
};

/* A joint of rectangular duct. */
struct straight_joint {
    struct duct_size size;
    double length;  /* m, finished */
    double ends[2]; /* m, what each end takes: the greater of its sides */
    struct edge_allowance seam;
    double bend_deduction; /* m off for each 90-degree bend; 0: none */
};

/* The blanks of `joint` when it is cut `way` (not BLANK_NONE).  Girths: one wrap 2(W+H)+p+f; two L's W+H+p+f each; four
 * sides W+2p twice and H+2f twice.  Arithmetic; `sheet` is left NULL. */
struct joint_plan joint_blanks(const struct straight_joint *joint, enum blanking way);

/* The fewest pieces that the stock's sheets take.  The sheets live as long as `stock`. */
struct joint_plan joint_plan_of(const struct straight_joint *joint, const struct stock *stock);

const char *blanking_words(enum blanking way); /* "one wrap", "two L's", "four sides", "no sheet is large enough" */

/* ---- Stacks ---------------------------------------------------------------------------------------------------- */

/* How many sheets of `gauge` are marked and notched together where `declared` (shop.stack) of 26 gauge are: as thick a
 * stack, at least 1.  Outside the gauge table: `declared`.  SOURCE_STACK. */
int metal_stack(int declared, int gauge);

/* Equal blanks of one gauge and material, marked together. */
struct joint_batch {
    struct joint_blank blank; /* .count: of the whole batch */
    int gauge;
    enum material material;
    int depth;  /* the deepest stack */
    int stacks; /* how many: all full but the last */
};

struct joint_use {
    struct joint_blank blank; /* .count: how many */
    int gauge;
    enum material material;
};

struct batch_list {
    LIST(struct joint_batch) batches; /* in the order in which each first comes */
};

/* Batches `count` blanks (to a hundredth of a millimetre the same, marks too).  Cost n log n.  Memory from `arena`. */
struct batch_list joint_batches(struct arena *arena, const struct joint_use *uses, size_t count, int declared_stack);

#endif
