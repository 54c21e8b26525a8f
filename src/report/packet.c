/* The table of packets, and how one is written, section by section. */
#include "report/packet.h"

#include <setjmp.h>
#include <string.h>

/* The table: ROW(reader) for each packet, packet_READER being its sections. */
#define PACKETS(ROW)                                                                                                   \
    ROW(customer)                                                                                                      \
    ROW(shop)                                                                                                          \
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

/* A section on its way to the page.  It has its own memory, and gives some of it back in the middle of a long table, so
 * that a very long packet needs no more than a short one. */
struct section_writing {
    struct document document; /* first, so that a document is its section */
    document_writer *writer;
    const struct arena_source *memory;
    struct output *out;
    jmp_buf out_of_memory;
};

static struct arena *new_arena(struct section_writing *writing) {
    struct arena *arena = arena_new(writing->memory);
    if (!arena)
        longjmp(writing->out_of_memory, 1);
    arena_on_failure(arena, &writing->out_of_memory);
    return arena;
}

static void hand_on(struct document *document) {
    struct section_writing *writing = (struct section_writing *)document;
    writing->writer(document, writing->out);
    arena_free(document->arena);
    document->arena = NULL;
    memset(&document->blocks, 0, sizeof document->blocks);
    document->arena = new_arena(writing);
}

/* In a function of its own, so that `writing` lies in its caller and keeps its values over the jump. */
static bool fill_section(struct section_writing *writing, const struct job *job, const struct packet_section *section) {
    if (setjmp(writing->out_of_memory))
        return false;
    writing->document.keep = new_arena(writing);
    writing->document.arena = new_arena(writing);
    if (section->heading)
        document_heading(&writing->document, 2, section->heading);
    section->write(job, &writing->document);
    writing->writer(&writing->document, writing->out);
    return true;
}

static bool write_section(const struct job *job, const struct packet_section *section, document_writer *writer,
                          struct drawings *drawings, const struct arena_source *memory, struct output *out) {
    struct section_writing writing = {
        .document = {.system = job->system, .hand_on = hand_on, .drawings = drawings},
        .writer = writer,
        .memory = memory,
        .out = out,
    };
    bool whole = fill_section(&writing, job, section);
    arena_free(writing.document.arena);
    arena_free(writing.document.keep);
    return whole;
}

bool packet_write(const struct packet *packet, const struct job *job, document_writer *writer,
                  struct drawings *drawings, const struct arena_source *memory, struct output *out) {
    for (size_t i = 0; i < packet->section_count; i++) {
        const struct packet_section *section = &packet->sections[i];
        if (section->wanted && !section->wanted(job))
            continue;
        if (!write_section(job, section, writer, drawings, memory, out))
            return false;
    }
    return true;
}
