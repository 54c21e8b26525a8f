/* The document model: what a report says, before it has a page.  One or more parts (the sections of a report), each a
 * list of blocks in an arena; a page writer turns a part into its format.
 *
 * Texts are plain: no mark-up, and what the user wrote stands as written.  Figures are SI values with a use; a writer
 * shows them in the job's system of units, so that no figure is rounded twice.
 */
#ifndef CLEAT_REPORT_DOCUMENT_H
#define CLEAT_REPORT_DOCUMENT_H

#include <stdbool.h>
#include <stddef.h>

#include "base/list.h"
#include "base/measure.h"
#include "base/output.h"
#include "base/source.h"

enum column_kind {
    COLUMN_TEXT,   /* flush left */
    COLUMN_FIGURE, /* a quantity, flush right; its unit stands in the head, or with feet and inches in the cell */
    COLUMN_NUMBER, /* a plain number (a count, a ratio), flush right */
    COLUMN_AMOUNT  /* a text like COLUMN_TEXT, flush right: money, which is exact and comes printed (base/money.h) */
};

struct column {
    const char *head; /* "Airflow"; the unit of a figure is added behind it */
    double by_hand;   /* pt: at least so wide on a page, since something is to be written in it; 0: nothing is */
    enum column_kind kind;
    enum measure_use use; /* COLUMN_FIGURE */
    int decimals;         /* COLUMN_FIGURE: more (or less) than its use has; COLUMN_NUMBER: all of them */
    bool bare;            /* the unit is said in the text above, not in the head: for tables that would grow too wide */
};

/* The kind of its column says which.  Blank: a text of NULL, a figure that is not a number. */
union cell {
    const char *text;
    double figure;
};

struct table {
    struct arena *arena;
    const struct column *columns;
    size_t column_count, row_count, row_room;
    union cell *cells; /* row by row */
};

struct figure; /* draw/figure.h */
struct drawings;

struct fact {
    const char *key, *value;
};

enum block_kind {
    HEADING,   /* text, level 1.. */
    PARAGRAPH, /* text */
    BULLETS,   /* items */
    FACTS,     /* a name and what it is, line by line */
    TABLE,
    CAUTION,    /* text: where the work can hurt someone, or the law has a word */
    REFERENCES, /* sources behind the figures */
    BLANKS,     /* lines to be filled in by hand, named by items */
    DRAWING,    /* a figure of its own file; text: what stands under it */
    NEW_PAGE    /* what follows begins a page of its own; where there are no pages, below a rule */
};

struct block {
    enum block_kind kind;
    int level;
    const char *text;
    LIST(const char *) items;
    LIST(struct fact) facts;
    LIST(const struct source *) sources;
    bool marked; /* REFERENCES: how each is known, a mark says */
    struct table table;
    const struct figure *figure; /* DRAWING */
    const char *file;
};

struct document {
    struct arena *arena; /* of the blocks and their texts */
    struct arena *keep;  /* of what must outlast a long table, whose rows may be written before it is whole */
    enum measure_system system;
    LIST(struct block *) blocks;
    struct drawings *drawings; /* where figures go (report/drawings.h); NULL: nowhere, they are left out */
    void (*hand_on)(struct document *document); /* writes all blocks, and gives an empty `arena`; NULL: no need */
};

enum paper_size { PAPER_LETTER, PAPER_A4 };

/* Of a page upright, in points. */
double paper_width(enum paper_size size);
double paper_height(enum paper_size size);

/* What a page writer is told before the first part. */
struct paper {
    struct arena *arena;   /* as long as the paper is written */
    struct arena *scratch; /* for a moment: whoever uses it clears it */
    struct output *out;
    enum paper_size size;
    const char *title, *reader;           /* "Kiln house", "shop" */
    const char *revision, *date, *author; /* NULL: not given; the date as 2026-04-18 */
    LIST(const char *) headings;          /* of the sections, in order, as far as they are known beforehand */
};

/* A page writer: opened once, handed all parts of a paper in order, and ended when none is to follow. */
struct page_writer {
    void *(*open)(const struct paper *paper); /* its state, from the paper's arena */
    void (*part)(void *state, const struct document *part);
    bool (*end)(void *state);     /* false: memory ran out in a library that does not use the arena */
    void (*release)(void *state); /* gives back what is not the arena's, whole or not; NULL: there is nothing */
};

extern const struct page_writer markdown_writer, pdf_writer;

void document_heading(struct document *document, int level, const char *text);
void document_paragraph(struct document *document, const char *format, ...) __attribute__((format(printf, 2, 3)));
void document_caution(struct document *document, const char *text);

/* These go on with the list before them, or begin one. */
void document_bullet(struct document *document, const char *format, ...) __attribute__((format(printf, 2, 3)));
void document_fact(struct document *document, const char *key, const char *value);
void document_reference(struct document *document, const struct source *source);

/* The same with a mark for how it is known, which `reference_legend` explains, and without what only a checker asks. */
void document_reference_marked(struct document *document, const struct source *source);
extern const char reference_legend[];

/* One source of a block of references. */
const char *reference_text(struct arena *arena, const struct block *block, const struct source *source);
void document_blank(struct document *document, const char *name);

void document_new_page(struct document *document);

/* A figure, which is written to a file of that name beside the paper: "part-7.svg". */
void document_drawing(struct document *document, const struct figure *figure, const char *file, const char *caption);

/* Whether the cells of such a column are texts; the others are figures. */
bool column_is_text(const struct column *column);

/* `columns` must outlive the document. */
struct table *document_table(struct document *document, const struct column *columns, size_t column_count);

/* A new row, all blank; good until the next one.  Fill one cell a column. */
union cell *table_row(struct table *table);

/* The same for a table that may be very long: past TABLE_PART rows it goes on in a new table with the same head, and
 * what came before may have been handed on, with everything in document->arena. */
enum { TABLE_PART = 10000 };
union cell *document_row(struct document *document, struct table **table);

/* Between two things that belong to nothing before them: what was made so far is handed on
 * when it takes much memory. */
void document_relieve(struct document *document);

/* Enough for any figure that figure_print writes. */
enum { FIGURE_ROOM = TAPE_ROOM };

/* The figure of a cell as it is printed, without its unit, and its length; "" for a blank.  Rounds as printf does. */
size_t figure_print(char text[FIGURE_ROOM], const struct column *column, enum measure_system system, double figure);

#endif
