/* The work, counted from the same lists as the bill. */
#include "cost/labour_count.h"

#include "cost/count.h"
#include "model/lined.h"
#include "model/piece.h"

/* Rows of the count: kinds of piece, then what is no piece. */
enum { WORK_HANGING, WORK_SPLICING, WORK_SEALING, WORK_WRAPPING, WORK_LINING, WORK_COUNT };
static const struct {
    const char *word, *title;
} works[WORK_COUNT] = {
    [WORK_HANGING] = {"hanger", "Hanger"},   [WORK_SPLICING] = {"splice", "Splice of flexible duct"},
    [WORK_SEALING] = {"sealing", "Sealing"}, [WORK_WRAPPING] = {"wrapping", "Wrapping"},
    [WORK_LINING] = {"lining", "Lining"},
};

struct counting {
    const struct job *job;
    const struct piece_kind *const *kinds; /* of the table, in its order */
    size_t kind_count;
    struct labour_count *cells; /* kinds and works, each by place, within reach and high */
};

static struct labour_count *cell(const struct counting *counting, size_t row, enum location place, bool high) {
    return &counting->cells[(row * LOCATION_COUNT + place) * 2 + high];
}

static struct labour_count *run_cell(const struct counting *counting, size_t row, const struct run *run) {
    return cell(counting, row, run->settings.location, run->settings.location_height > counting->job->shop.reach);
}

static struct labour_count *work_cell(const struct counting *counting, int work, const struct run *run) {
    return run_cell(counting, counting->kind_count + (size_t)work, run);
}

/* There are few kinds. */
static struct labour_count *piece_cell(const struct counting *counting, const struct piece *piece,
                                       const struct run *run) {
    size_t row = 0;
    while (row < counting->kind_count && counting->kinds[row] != piece->kind)
        row++;
    return row < counting->kind_count ? run_cell(counting, row, run) : NULL;
}

/* A change between ends of one size is none: nothing is made of it. */
static bool is_nothing(const struct hung_piece *hung) {
    const struct piece *piece = hung->piece;
    bool changes = piece->near && piece->far && !size_equal(duct_metal(piece->near), duct_metal(piece->far));
    return hung->count + hung->ready == 0 && piece_resizes(piece) && !changes;
}

static void count_piece(const struct counting *counting, const struct hung_piece *hung) {
    struct labour_count *count = piece_cell(counting, hung->piece, hung->run);
    if (!count || is_nothing(hung))
        return;
    count->pieces++;
    count->ready += hung->ready;
    count->length += hung->piece->length;
}

static void count_use(const struct counting *counting, const struct part *part, const struct part_use *use,
                      double seams) {
    struct labour_count *count = piece_cell(counting, use->piece, use->run);
    if (!count)
        return;
    *(part->solid->ports.count > 0 ? &count->parts : &count->inserts) += 1;
    count->area += part->area;
    count->weight += part->weight;
    count->seam += seams;
}

/* A part, and what is done to it where it hangs. */
static void count_part(const struct counting *counting, const struct part *part, const struct part_measure *measure) {
    double surface = measure->surface, seams = measure->seams;
    for (size_t u = 0; u < part->uses.count; u++) {
        const struct run *run = part->uses.at[u].run;
        count_use(counting, part, &part->uses.at[u], seams);
        if (part_is_within(part))
            continue;
        if (run->settings.insulation > 0)
            work_cell(counting, WORK_WRAPPING, run)->area += surface;
        if (part->lining > 0)
            work_cell(counting, WORK_LINING, run)->area += surface;
        if (run->settings.seal >= SEAL_B)
            work_cell(counting, WORK_SEALING, run)->length += seams;
    }
}

static bool in_field(const struct connection *connection) {
    return connection->closing != CLOSED_NECK && connection->closing != CLOSED_FACE &&
           connection->closing != CLOSED_ROD;
}

static void count_connection(const struct counting *counting, const struct connection *connection) {
    struct labour_count *count = piece_cell(counting, connection->piece, connection->run);
    if (count && in_field(connection))
        count->joints++;
    work_cell(counting, WORK_SEALING, connection->run)->length += sealed_of(connection);
}

static void fill(const struct counting *counting) {
    const struct metal *metal = counting->job->metal;
    const struct takeoff *takeoff = counting->job->takeoff;
    for (size_t i = 0; i < takeoff->piece_count; i++)
        count_piece(counting, &takeoff->pieces[i]);
    for (size_t i = 0; i < metal->parts.count; i++)
        count_part(counting, metal->parts.at[i], &takeoff->measures[i]);
    for (size_t i = 0; i < takeoff->connections.count; i++)
        count_connection(counting, &takeoff->connections.at[i]);
    for (size_t i = 0; i < takeoff->hangers.count; i++)
        work_cell(counting, WORK_HANGING, takeoff->hangers.at[i].run)->pieces++;
    for (size_t i = 0; i < takeoff->splices.count; i++)
        work_cell(counting, WORK_SPLICING, takeoff->splices.at[i].run)->pieces += takeoff->splices.at[i].count;
}

static bool is_empty(const struct labour_count *count) {
    return count->pieces == 0 && count->parts == 0 && !(count->length > 0) && !(count->area > 0);
}

size_t labour_times(const struct labour_count *count) {
    size_t lengths = count->parts + count->ready;
    return count->cut && lengths > 0 ? lengths : count->pieces;
}

struct labour_counts labour_count(const struct job *job, struct arena *arena) {
    struct labour_counts counts = {0};
    if (!job->takeoff)
        return counts;
    struct counting counting = {.job = job, .kinds = job->pieces->kinds, .kind_count = job->pieces->count};
    size_t rows = counting.kind_count + WORK_COUNT;
    counting.cells = ARENA_ARRAY(arena, struct labour_count, rows * LOCATION_COUNT * 2);
    fill(&counting);
    for (size_t row = 0; row < rows; row++)
        for (size_t place = 0; place < LOCATION_COUNT * 2; place++) {
            struct labour_count *count = cell(&counting, row, (enum location)(place / 2), place % 2);
            bool piece = row < counting.kind_count;
            count->word = piece ? counting.kinds[row]->form.word : works[row - counting.kind_count].word;
            count->title = piece ? counting.kinds[row]->title : works[row - counting.kind_count].title;
            count->cut = piece && counting.kinds[row]->traits & PIECE_LENGTH;
            count->place = (enum location)(place / 2);
            count->high = place % 2;
            if (!is_empty(count))
                *list_add(arena, &counts.lines) = *count;
        }
    return counts;
}
