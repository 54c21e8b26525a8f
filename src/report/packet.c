/* The table of packets, and how one is written, section by section. */
#include "report/packet.h"

#include <setjmp.h>
#include <string.h>

#include "report/bid.h"

/* The table: ROW(reader) for each packet, packet_READER being its sections. */
#define PACKETS(ROW)                                                                                                   \
    ROW(customer)                                                                                                      \
    ROW(shop)                                                                                                          \
    ROW(field)                                                                                                         \
    ROW(office)

#define PACKET(reader) &packet_##reader,
#define READER(reader) #reader,
static const struct packet *const packets[] = {PACKETS(PACKET)};
static const char *const readers[] = {PACKETS(READER)};
enum { PACKET_COUNT = sizeof packets / sizeof packets[0] };

const char *const *packet_readers(size_t *count) {
    *count = PACKET_COUNT;
    return readers;
}

const struct packet *packet_for(const char *reader) {
    if (!reader)
        return packets[0];
    for (size_t i = 0; i < PACKET_COUNT; i++)
        if (strcmp(readers[i], reader) == 0)
            return packets[i];
    return NULL;
}

/* Who that packet is for. */
static const char *packet_reader(const struct packet *packet) {
    for (size_t i = 0; i < PACKET_COUNT; i++)
        if (packets[i] == packet)
            return readers[i];
    return readers[0];
}

/* A packet on its way to the page.  Each section has its own memory, and gives some of it back in the middle of a long
 * table, so that a very long packet needs no more than a short one. */
struct packet_writing {
    struct document document; /* of the section; first, so that a document is its packet's */
    struct paper paper;
    const struct page_writer *writer;
    void *state; /* the writer's; NULL: it is not open */
    const struct arena_source *memory;
    jmp_buf out_of_memory;
};

static struct arena *new_arena(struct packet_writing *writing) {
    struct arena *arena = arena_new(writing->memory);
    if (!arena)
        longjmp(writing->out_of_memory, 1);
    arena_on_failure(arena, &writing->out_of_memory);
    return arena;
}

static void hand_on(struct document *document) {
    struct packet_writing *writing = (struct packet_writing *)document;
    writing->writer->part(writing->state, document);
    arena_free(document->arena);
    document->arena = NULL;
    memset(&document->blocks, 0, sizeof document->blocks);
    document->arena = new_arena(writing);
}

static bool is_wanted(const struct packet_section *section, const struct job *job) {
    return !section->wanted || section->wanted(job);
}

enum paper_size packet_paper(const struct job *job) {
    if (job->paper == PAPER_OF_SYSTEM)
        return job->system == MEASURE_METRIC ? PAPER_A4 : PAPER_LETTER;
    return job->paper == PAPER_IS_A4 ? PAPER_A4 : PAPER_LETTER;
}

static void open_paper(struct packet_writing *writing, const struct packet *packet, const struct job *job) {
    struct paper *paper = &writing->paper;
    paper->arena = new_arena(writing);
    paper->scratch = new_arena(writing);
    for (size_t i = 0; i < packet->section_count; i++)
        if (packet->sections[i].heading && is_wanted(&packet->sections[i], job))
            *list_add(paper->arena, &paper->headings) = packet->sections[i].heading;
    writing->state = writing->writer->open(paper);
}

static void free_section(struct packet_writing *writing) {
    arena_free(writing->document.arena);
    arena_free(writing->document.keep);
    writing->document.arena = writing->document.keep = NULL;
    memset(&writing->document.blocks, 0, sizeof writing->document.blocks);
}

static void write_section(struct packet_writing *writing, const struct job *job, const struct packet_section *section) {
    struct document *document = &writing->document;
    document->keep = new_arena(writing);
    document->arena = new_arena(writing);
    if (section->heading)
        document_heading(document, 2, section->heading);
    section->write(job, document);
    writing->writer->part(writing->state, document);
    free_section(writing);
}

/* In a function of its own, so that `writing` lies in its caller and keeps its values over the jump. */
static bool write_sections(struct packet_writing *writing, const struct packet *packet, const struct job *job) {
    if (setjmp(writing->out_of_memory))
        return false;
    open_paper(writing, packet, job);
    for (size_t i = 0; i < packet->section_count; i++)
        if (is_wanted(&packet->sections[i], job))
            write_section(writing, job, &packet->sections[i]);
    return writing->writer->end(writing->state);
}

/* Likewise. */
static bool write_one_document(struct packet_writing *writing, const struct single_paper *single,
                               const struct job *job) {
    if (setjmp(writing->out_of_memory))
        return false;
    struct document *document = &writing->document;
    writing->paper.arena = new_arena(writing);
    writing->paper.scratch = new_arena(writing);
    writing->state = writing->writer->open(&writing->paper);
    document->keep = new_arena(writing);
    document->arena = new_arena(writing);
    single->write(job, document, single->context);
    writing->writer->part(writing->state, document);
    free_section(writing);
    return writing->writer->end(writing->state);
}

static void begin_writing(struct packet_writing *writing, const struct job *job, const char *reader,
                          struct output *out) {
    writing->document.system = job->system;
    writing->document.hand_on = hand_on;
    writing->paper.out = out;
    writing->paper.size = packet_paper(job);
    writing->paper.title = bid_job_title(job);
    writing->paper.reader = reader;
    writing->paper.revision = job->revision;
    writing->paper.date = job->date;
    writing->paper.author = job->shop.name;
}

static void end_writing(struct packet_writing *writing) {
    free_section(writing);
    if (writing->state && writing->writer->release)
        writing->writer->release(writing->state);
    arena_free(writing->paper.arena);
    arena_free(writing->paper.scratch);
}

bool packet_write(const struct packet *packet, const struct job *job, const struct page_writer *writer,
                  struct drawings *drawings, const struct arena_source *memory, struct output *out) {
    struct packet_writing writing = {.document = {.drawings = drawings}, .writer = writer, .memory = memory};
    begin_writing(&writing, job, packet_reader(packet), out);
    bool whole = write_sections(&writing, packet, job);
    end_writing(&writing);
    return whole;
}

bool packet_write_single(const struct single_paper *single, const struct job *job, const struct page_writer *writer,
                         const struct arena_source *memory, struct output *out) {
    struct packet_writing writing = {.writer = writer, .memory = memory};
    begin_writing(&writing, job, single->reader, out);
    bool whole = write_one_document(&writing, single, job);
    end_writing(&writing);
    return whole;
}
