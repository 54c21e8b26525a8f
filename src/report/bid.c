/* The table of sections of the customer's bid. */
#include "report/bid.h"

#include <setjmp.h>
#include <string.h>
#include <strings.h>

struct bid_section {
    const char *heading; /* NULL: it writes its own, or none */
    void (*write)(const struct job *job, struct document *document);
    bool (*wanted)(const struct job *job); /* NULL: always */
};

static bool has_alternates(const struct job *job) {
    return job->alternates.count > 0;
}

static bool has_acceptances(const struct job *job) {
    return job->acceptances.count > 0;
}

static const struct bid_section sections[] = {
    {.write = bid_title},
    {.heading = "Scope of work", .write = bid_scope},
    {.heading = "Included", .write = bid_included},
    {.heading = "Not included", .write = bid_excluded},
    {.heading = "Alternates", .write = bid_alternates, .wanted = has_alternates},
    {.heading = "Supply outlets", .write = bid_outlets},
    {.heading = "Return inlets", .write = bid_returns},
    {.heading = "Ducts", .write = bid_ducts},
    {.heading = "Pressure budget", .write = bid_budget},
    {.heading = "Pressure losses of every run", .write = bid_losses},
    {.heading = "How the sizes were chosen", .write = bid_sizing},
    {.heading = "Checks", .write = bid_checks},
    {.heading = "Accepted deviations", .write = bid_accepted, .wanted = has_acceptances},
    {.heading = "To be measured before work begins", .write = bid_to_verify},
    {.heading = "Cautions", .write = bid_cautions},
    {.heading = "Basis of calculation", .write = bid_basis},
    {.heading = "Validity", .write = bid_validity},
    {.heading = "Acceptance", .write = bid_acceptance},
};

/* A section on its way to the page.  It has its own memory, and gives some of it back in the middle of a long table, so
 * that a very long bid needs no more than a short one. */
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
static bool fill_part(struct part *part, const struct job *job, const struct bid_section *section) {
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

static bool write_section(const struct job *job, const struct bid_section *section, document_writer *writer,
                          const struct arena_source *memory, struct output *out) {
    struct part part = {
        .document = {.system = job->system, .hand_on = hand_on},
        .writer = writer,
        .memory = memory,
        .out = out,
    };
    bool whole = fill_part(&part, job, section);
    arena_free(part.document.arena);
    arena_free(part.document.keep);
    return whole;
}

bool bid_write(const struct job *job, document_writer *writer, const struct arena_source *memory, struct output *out) {
    for (size_t i = 0; i < sizeof sections / sizeof sections[0]; i++) {
        if (sections[i].wanted && !sections[i].wanted(job))
            continue;
        if (!write_section(job, &sections[i], writer, memory, out))
            return false;
    }
    return true;
}

const char *bid_count(struct document *document, size_t count, const char *what) {
    return arena_format(document->arena, "%zu %s%s", count, what, count == 1 ? "" : "s");
}

const char *bid_figure(const struct document *document, enum measure_use use, double si) {
    return measure_text(document->arena, document->system, use, si);
}

/* When what has been made takes more bytes than this, it is handed on before the next unit. */
enum { BYTES_KEPT = 1 << 22 };

void bid_unit_heading(const struct job *job, struct document *document, const struct air_unit *unit) {
    if (job->units.count < 2)
        return;
    if (arena_used(document->arena) > BYTES_KEPT && document->hand_on)
        document->hand_on(document);
    document_heading(document, 3,
                     unit->title ? arena_format(document->arena, "%s (%s)", unit->title, unit->name) : unit->name);
}

const char *bid_room(const struct run *run) {
    return run->room && *run->room ? run->room : run->name;
}

const char *bid_terminal(const struct document *document, const struct run *run) {
    const char *room = bid_room(run);
    return strcasecmp(room, run->name) == 0 ? room : arena_format(document->arena, "%s (%s)", room, run->name);
}
