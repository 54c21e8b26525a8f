/* Straight duct cut into joints, and what sheet each joint is made of: blanks, their marks, stacks of equal ones. */
#ifndef CLEAT_METAL_JOINTS_H
#define CLEAT_METAL_JOINTS_H

#include "metal/seam.h"
#include "metal/stock.h"

/* ---- Joints along a duct --------------------------------------------------------------------------------------- */

/* Where no joint line may fall: a tap's opening with its margin.  m from the start of the straight duct. */
struct joint_zone {
    double low, high;
};

struct joint {
    double station, length; /* m from the start; finished length */
    bool crossed;           /* the line at its far end falls in a zone: there was no other way */
    bool stub;              /* shorter than 4 in: hardly to be made */
};

struct joint_list {
    LIST(struct joint) joints; /* in order; their lengths add up to the duct */
    size_t crossed, stubs;     /* how many are marked */
};

/* Divides `length` m (over 0) into joints of `greatest` m (over 0) at most: full ones first, the leftover at the far
 * end. A line that would fall within one of `zones` (by `low` ascending, may overlap) is pulled back out of it; a
 * leftover under 12 in (common practice, no source) is shared with the joint before it.  Memory from `arena`. */
struct joint_list metal_joints(struct arena *arena, double length, double greatest, const struct joint_zone *zones,
                               size_t zone_count);

/* ---- Blanks of one joint --------------------------------------------------------------------------------------- */

enum blanking { BLANK_WRAP, BLANK_HALVES, BLANK_SIDES, BLANK_NONE };

enum mark_kind { MARK_POCKET, MARK_BEND, MARK_FLANGE };

/* A line across the blank, along the duct. */
struct brake_mark {
    double at; /* m from the edge that all marks are measured from: the pocket's, where the blank has one */
    enum mark_kind kind;
};

enum { BLANK_MARKS = 5, BLANK_KINDS = 2 };

struct blank {
    double length, girth;                 /* m: along the duct, around it; allowances included */
    int count;                            /* how many a joint */
    struct brake_mark marks[BLANK_MARKS]; /* ascending */
    size_t mark_count;
    double panels[4]; /* m, the finished sides in order from the pocket edge */
    size_t panel_count;
    const struct stock_sheet *sheet; /* the smallest that takes it; NULL: none */
};

struct blank_plan {
    enum blanking way; /* BLANK_NONE: not even one side fits a sheet; the blanks are then of four sides */
    struct blank blanks[BLANK_KINDS];
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
struct blank_plan metal_blanks(const struct straight_joint *joint, enum blanking way);

/* The fewest pieces that the stock's sheets take.  The sheets live as long as `stock`. */
struct blank_plan metal_blank_plan(const struct straight_joint *joint, const struct stock *stock);

const char *blanking_words(enum blanking way); /* "one wrap", "two L's", "four sides", "no sheet is large enough" */

/* ---- Stacks ---------------------------------------------------------------------------------------------------- */

/* How many sheets of `gauge` are marked and notched together where `declared` (shop.stack) of 26 gauge are: as thick a
 * stack, at least 1.  Outside the gauge table: `declared`.  SOURCE_STACK. */
int metal_stack(int declared, int gauge);

/* Equal blanks of one gauge and material, marked together. */
struct blank_batch {
    struct blank blank; /* .count: of the whole batch */
    int gauge;
    enum material material;
    int depth;  /* the deepest stack */
    int stacks; /* how many: all full but the last */
};

struct blank_use {
    struct blank blank; /* .count: how many */
    int gauge;
    enum material material;
};

struct batch_list {
    LIST(struct blank_batch) batches; /* in the order in which each first comes */
};

/* Batches `count` blanks (to a hundredth of a millimetre the same, marks too).  Cost n log n.  Memory from `arena`. */
struct batch_list metal_batches(struct arena *arena, const struct blank_use *uses, size_t count, int declared_stack);

#endif
