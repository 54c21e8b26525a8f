/* Packets: what each reader of the papers is handed.  One row a packet, and in it one row a section. */
#ifndef CLEAT_REPORT_PACKET_H
#define CLEAT_REPORT_PACKET_H

#include "model/job.h"
#include "report/document.h"

struct packet_section {
    const char *heading; /* NULL: it writes its own, or none */
    void (*write)(const struct job *job, struct document *document);
    bool (*wanted)(const struct job *job); /* NULL: always */
};

struct packet {
    const char *words; /* what is in it */
    const struct packet_section *sections;
    size_t section_count;
    void (*csv)(const struct job *job,
                struct output *out); /* the one table of it that other programs take; NULL: none */
    bool drawn;                      /* it has figures, in a folder beside it */
    bool tells_price;                /* it is not written while the price is wanting */
    bool asks_what_ifs;              /* it shows what one foot or one outlet more costs */
    bool asks_effects;               /* it shows what one step more of an estimate does */
};

extern const struct packet packet_customer; /* bid.c */
extern const struct packet packet_shop;     /* shop.c */
extern const struct packet packet_field;    /* field.c */
extern const struct packet packet_office;   /* office.c */

/* The readers, the first being who a packet is for when nobody says; and the packet of one (NULL: that first). NULL:
 * there is no such reader. */
const char *const *packet_readers(size_t *count);
const struct packet *packet_for(const char *reader);

/* The paper that the job's pages are laid out for. */
enum paper_size packet_paper(const struct job *job);

/* Writes all sections through `writer`, the figures into `drawings` (NULL: they are left out).  Takes its own memory,
 * section by section, from `memory` (NULL: malloc and free).  False when there is none left. */
bool packet_write(const struct packet *packet, const struct job *job, const struct page_writer *writer,
                  struct drawings *drawings, const struct arena_source *memory, struct output *out);

/* A paper that is one document and no packet. */
struct single_paper {
    const char *reader; /* what stands in the head of its pages: "working" */
    void (*write)(const struct job *job, struct document *document, const void *context);
    const void *context;
};

bool packet_write_single(const struct single_paper *single, const struct job *job, const struct page_writer *writer,
                         const struct arena_source *memory, struct output *out);

#endif
