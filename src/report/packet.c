/* The table of packets, and how one is written, section by section. */
#include "report/packet.h"

#include <setjmp.h>
#include <string.h>

static const struct packet *const packets[] = {&packet_customer, &packet_shop};
enum { PACKET_COUNT = sizeof packets / sizeof packets[0] };

/* The readers alone, for those who list them; in the order of the table. */
static const char *const readers[PACKET_COUNT] = {"customer", "shop"};

const char *const *packet_readers(size_t *count) {
    *count = PACKET_COUNT;
    return readers;
}

const struct packet *packet_for(const char *reader) {
    if (!reader)
        return packets[0];
    for (size_t i = 0; i < PACKET_COUNT; i++)
        if (strcmp(packets[i]->reader, reader) == 0)
            return packets[i];
    return NULL;
}

/* A section on its way to the page.  It has its own memory, and gives some of it back in the middle of a long table, so
 * that a very long packet needs no more than a short one. */
struct part {
    struct document document; /* first, so that a document is its part */
    document_writer *writer;
    const struct arena_source *memory;
    struct output *out;
    jmp_buf out_of_memory;
};

static struct arena *new_arena(struct part *part) {
    struct arena *arena = arena_new(part->memory);
    if (!arena)
        longjmp(part->out_of_memory, 1);
    arena_on_failure(arena, &part->out_of_memory);
    return arena;
}

static void hand_on(struct document *document) {
    struct part *part = (struct part *)document;
    part->writer(document, part->out);
    arena_free(document->arena);
    document->arena = NULL;
    memset(&document->blocks, 0, sizeof document->blocks);
    document->arena = new_arena(part);
}

/* In a function of its own, so that `part` lies in its caller and keeps its values over the jump. */
static bool fill_part(struct part *part, const struct job *job, const struct packet_section *section) {
    if (setjmp(part->out_of_memory))
        return false;
    part->document.keep = new_arena(part);
    part->document.arena = new_arena(part);
    if (section->heading)
        document_heading(&part->document, 2, section->heading);
    section->write(job, &part->document);
    part->writer(&part->document, part->out);
    return true;
}

static bool write_section(const struct job *job, const struct packet_section *section, document_writer *writer,
                          struct drawings *drawings, const struct arena_source *memory, struct output *out) {
    struct part part = {
        .document = {.system = job->system, .hand_on = hand_on, .drawings = drawings},
        .writer = writer,
        .memory = memory,
        .out = out,
    };
    bool whole = fill_part(&part, job, section);
    arena_free(part.document.arena);
    arena_free(part.document.keep);
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
