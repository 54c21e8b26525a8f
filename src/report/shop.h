/* The sections of the shop's packet, each written as one part of a document. */
#ifndef CLEAT_REPORT_SHOP_H
#define CLEAT_REPORT_SHOP_H

#include "metal/metal.h"
#include "report/document.h"

void shop_title(const struct job *job, struct document *document);
void shop_cautions(const struct job *job, struct document *document);
void shop_measure_first(const struct job *job, struct document *document);
void shop_parts(const struct job *job, struct document *document);
void shop_places(const struct job *job, struct document *document);
void shop_cuts(const struct job *job, struct document *document);
void shop_marks(const struct job *job, struct document *document);
void shop_patterns(const struct job *job, struct document *document);
void shop_nest(const struct job *job, struct document *document);
void shop_seams(const struct job *job, struct document *document);
void shop_joints(const struct job *job, struct document *document);
void shop_strips(const struct job *job, struct document *document);
void shop_bought(const struct job *job, struct document *document);
void shop_liner(const struct job *job, struct document *document);
void shop_weight(const struct job *job, struct document *document);
void shop_basis(const struct job *job, struct document *document);

/* The cut list as comma-separated values. */
void shop_cuts_csv(const struct job *job, struct output *out);

/* ---- What several sections need ---------------------------------------------------------------------------------- */

/* One kind of sheet. */
struct sheet_kind {
    int gauge; /* 0: of no gauge */
    enum material material;
};
typedef LIST(struct sheet_kind) sheet_kind_list;

/* All kinds that the job's parts are of, the heaviest gauge first. */
void shop_sheets(const struct job *job, struct arena *arena, sheet_kind_list *kinds);
bool shop_is_of(const struct part *part, struct sheet_kind kind);

/* "26 ga galvanised". */
const char *shop_sheet_words(struct arena *arena, struct sheet_kind kind);
struct sheet_kind shop_sheet_of(const struct part *part);

/* "7B". */
const char *shop_blank_name(struct arena *arena, const struct part *part, const struct blank *blank);

/* "s3": the third in the list of strips. */
const char *shop_strip_name(struct arena *arena, const struct job *job, const struct made_strip *strip);

/* Of what lies on a sheet: "7B" or "s3". */
struct nest_piece;
const char *shop_nest_name(struct arena *arena, const struct job *job, const struct nest_piece *piece);

/* The edge that its marks are counted from: "left", "right", "lower", "upper". */
const char *shop_marks_from(const struct blank *blank);

/* "9-1/4 in". */
const char *shop_length(const struct document *document, double si);

/* "trunk at 3 ft". */
const char *shop_place(const struct document *document, const struct part_use *use);

/* Whether any part is lined; how, "lined, 2 in: 16 x 12 in clear", or NULL; and m2 that are lined so thick. */
bool shop_is_lined(const struct job *job);
const char *shop_lined_words(struct arena *arena, enum measure_system system, const struct part *part);
double shop_liner_area(const struct job *job, double thickness);

bool shop_measured_first(const struct part *part); /* some use rests on an estimate */

#endif
