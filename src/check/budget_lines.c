/* Changes as the lines that are written for them, and where. */
#include "check/budget_lines.h"

#include <ctype.h>
#include <string.h>

#include "model/words.h"

/* ---- Places in the text ------------------------------------------------------------------------------------------ */

static struct span behind(struct span at) {
    return (struct span){at.text, at.end, at.end};
}

/* Right behind the brace that opens the block of what is named at `at`. */
static bool block_of(struct span at, struct span *inside) {
    const struct text *text = at.text;
    bool quoted = false, comment = false;
    for (uint32_t i = at.end; text && i < text->length; i++) {
        char byte = text->bytes[i];
        if (byte == '\n')
            comment = false;
        else if (byte == '"' && !comment)
            quoted = !quoted;
        else if (byte == '#' && !quoted)
            comment = true;
        else if (byte == '{' && !quoted && !comment) {
            *inside = (struct span){text, i + 1, i + 1};
            return true;
        }
    }
    return false;
}

bool budget_statement(struct span at, const char *word, struct span *statement) {
    size_t length = strlen(word);
    uint32_t begin = at.begin;
    if (!at.text)
        return false;
    while (begin > 0 && isspace((unsigned char)at.text->bytes[begin - 1]))
        begin--;
    if (begin < length || strncmp(at.text->bytes + begin - length, word, length) != 0)
        return false;
    *statement = (struct span){at.text, begin - (uint32_t)length, at.end};
    return true;
}

/* The text of `at` with an edit in it made. */
static const char *edited(struct arena *arena, struct span at, const struct line_edit *edit) {
    const char *bytes = at.text->bytes;
    return arena_format(arena, "%.*s%s%.*s", (int)(edit->at.begin - at.begin), bytes + at.begin, edit->text,
                        (int)(at.end - edit->at.end), bytes + edit->at.end);
}

/* ---- A size ------------------------------------------------------------------------------------------------------ */

static const char *figures_of(const struct bench *bench, const struct change *change) {
    return size_figures(bench->look->job->arena, bench->look->job->system, change->size);
}

/* The piece that the duct begins behind; NULL: it begins with its run. */
static const struct piece *begins_behind(const struct duct *duct) {
    for (size_t i = 0; i < duct->run->pieces.count; i++) {
        const struct piece *piece = duct->run->pieces.at[i];
        if (piece->far == duct && piece->near != duct && piece_resizes(piece))
            return piece;
    }
    return NULL;
}

/* In the line of the piece; false: it says no size. */
static bool size_in_piece(const struct bench *bench, const struct change *change, const struct piece *piece,
                          struct line_edit *edit) {
    const struct slot *slots = piece->kind->form.slots;
    const char *figures = figures_of(bench, change);
    for (size_t i = 0; piece->reading.statement && i < SLOT_LIMIT && slots[i].kind != SLOT_NONE; i++) {
        const struct argument *argument = &piece->reading.argument[i];
        if (slots[i].kind != SLOT_SIZE || !slots[i].key)
            continue;
        *edit = argument->given
                    ? (struct line_edit){argument->at, figures}
                    : (struct line_edit){behind(piece->reading.statement->word_at),
                                         arena_format(bench->look->job->arena, " %s %s", slots[i].key, figures)};
        return true;
    }
    return false;
}

/* Whether the run's own `size` is that of the duct. */
static bool size_is_of(const struct duct *duct, const struct piece *piece) {
    const struct run *run = duct->run;
    if (!size_known(run->own.size) || !run->own.size_at.text)
        return false;
    return duct == run->first_duct ? !piece || duct->reason == SIZE_DECLARED
                                   : run->connect && run->connect->far == duct;
}

static bool size_edit(const struct bench *bench, const struct change *change, struct line_edit *edit) {
    const struct duct *duct = change->duct;
    const struct piece *piece = begins_behind(duct);
    struct span inside;
    if (size_is_of(duct, piece)) {
        *edit = (struct line_edit){duct->run->own.size_at, figures_of(bench, change)};
        return true;
    }
    if (piece)
        return size_in_piece(bench, change, piece, edit);
    if (!block_of(duct->run->at, &inside))
        return false;
    *edit = (struct line_edit){inside, arena_format(bench->look->job->arena, " size %s;", figures_of(bench, change))};
    return true;
}

/* ---- A piece ----------------------------------------------------------------------------------------------------- */

/* "1.5", "0.021 in.wg": as it is written.  A pressure is rounded down, since it is not to be passed. */
static const char *value_words(const struct job *job, const struct slot *slot, const struct argument *argument) {
    if (slot->kind == SLOT_FLAG)
        return "";
    if (slot->kind == SLOT_CHOICE)
        return slot->choices[argument->choice];
    if (slot->measure != MEASURE_PRESSURE)
        return arena_format(job->arena, "%.1f", argument->number);
    const char *text = check_text_down(job, SHOW_PRESSURE, argument->number);
    return arena_format(job->arena, "%.*s %s", (int)strcspn(text, " "), text,
                        job->system == MEASURE_METRIC ? "Pa" : "in.wg");
}

/* What stands before the value of a slot: the first of a form that has no key goes on from the word. */
static const char *before_value(struct arena *arena, const struct slot *slot, bool first) {
    if (!slot->key)
        return first ? " " : ", ";
    return arena_format(arena, ", %s%s", slot->key, slot->kind == SLOT_FLAG ? "" : " ");
}

/* Of the same kind, with one argument another: it is written over, or behind the line. */
static void argument_edit(const struct job *job, const struct change *change, struct line_edit *edit) {
    const struct slot *slots = change->piece->kind->form.slots;
    for (size_t i = 0; i < SLOT_LIMIT && slots[i].kind != SLOT_NONE; i++) {
        const struct argument *old = &change->piece->reading.argument[i], *new = &change->other->reading.argument[i];
        if (new->given == old->given &&new->number == old->number &&new->choice == old->choice)
            continue;
        const char *value = value_words(job, &slots[i], new);
        edit->at = old->given ? old->at : edit->at;
        edit->text =
            old->given ? value : arena_format(job->arena, "%s%s", before_value(job->arena, &slots[i], i == 0), value);
        return;
    }
}

/* "tap conical": the line of a piece that has none. */
static const char *implied_line(const struct job *job, const struct change *change) {
    struct line_edit edit = {.text = ""};
    argument_edit(job, change, &edit);
    return arena_format(job->arena, "%s%s", change->other->kind->form.word, edit.text);
}

static bool implied_edit(const struct bench *bench, const struct change *change, struct line_edit *edit) {
    const struct job *job = bench->look->job;
    edit->text = arena_format(job->arena, " %s;", implied_line(job, change));
    return (change->piece->kind->traits & PIECE_TAP) && block_of(change->piece->run->at, &edit->at);
}

static bool piece_edit(const struct bench *bench, const struct change *change, struct line_edit *edit) {
    const struct job *job = bench->look->job;
    const struct piece *piece = change->piece, *other = change->other;
    const struct statement *statement = piece->reading.statement;
    if (!statement)
        return implied_edit(bench, change, edit);
    *edit = (struct line_edit){behind(statement->at), ""};
    if (piece->kind == other->kind) {
        argument_edit(job, change, edit);
        return true;
    }
    struct span length = piece->reading.argument[piece->kind->length_slot].at;
    edit->at = statement->at;
    edit->text = arena_format(job->arena, "%s %.*s", other->kind->form.word, (int)(length.end - length.begin),
                              length.text->bytes + length.begin);
    return true;
}

/* ---- Of the unit and the job ------------------------------------------------------------------------------------- */

static bool speed_edit(const struct bench *bench, const struct change *change, struct line_edit *edit) {
    struct arena *arena = bench->look->job->arena;
    const struct air_unit *unit = bench->network->unit;
    edit->text = arena_format(arena, "\"%s\"", change->speed->name);
    edit->at = unit->speed_at;
    if (edit->at.text)
        return true;
    edit->text = arena_format(arena, " speed %s;", edit->text);
    return block_of(unit->at, &edit->at);
}

/* The whole statement: its word stands before what it says. */
static bool rate_edit(const struct bench *bench, const struct change *change, struct line_edit *edit) {
    (void)change;
    edit->text = "";
    return budget_statement(bench->look->job->friction_rate_at, "friction", &edit->at);
}

static bool side_edit(const struct bench *bench, const struct change *change, struct line_edit *edit) {
    (void)bench;
    *edit = (struct line_edit){change->at, side_choices[change->side - SIDE_LEFT]};
    return true;
}

/* ---- In words ---------------------------------------------------------------------------------------------------- */

/* "trunk at 12 ft": what stands at the beginning of its run needs no more. */
static const char *where_words(const struct job *job, const struct piece *piece) {
    const struct run *run = piece->run;
    if (!(piece->station > 0) || (piece->kind->traits & PIECE_ENDS_RUN))
        return run->name;
    return arena_format(job->arena, "%s at %s", run->name, check_text(job, SHOW_RUN, piece->station));
}

static const char *size_words(const struct bench *bench, const struct change *change, const struct line_edit *edit) {
    const struct job *job = bench->look->job;
    const struct duct *duct = change->duct;
    const struct piece *piece = begins_behind(duct);
    const char *now = check_size_text(job, bench->sizes[duct->id]);
    if (piece && !size_is_of(duct, piece))
        return arena_format(job->arena, "write '%s' in %s, in place of %s", edited(job->arena, piece->at, edit),
                            where_words(job, piece), now);
    return arena_format(job->arena, "write 'size %s' in %s, in place of %s%s", figures_of(bench, change),
                        duct->run->name, now, bench_on_collar(duct) ? " (a change of size goes on the collar)" : "");
}

static const char *remark(const struct change *change) {
    if (change->is_face)
        return ", one that takes no more than that";
    return change->piece->kind == change->other->kind ? "" : ", pipe in place of flexible duct";
}

static const char *piece_words(const struct bench *bench, const struct change *change, const struct line_edit *edit) {
    const struct job *job = bench->look->job;
    const struct piece *piece = change->piece;
    const char *line = piece->reading.statement ? edited(job->arena, piece->at, edit) : implied_line(job, change);
    return arena_format(job->arena, "write '%s' in %s%s", line, where_words(job, piece), remark(change));
}

static const char *speed_words(const struct bench *bench, const struct change *change, const struct line_edit *edit) {
    struct arena *arena = bench->look->job->arena;
    const struct air_unit *unit = bench->network->unit;
    bool instead = unit->speed_at.text && bench->speed && bench->speed->name;
    (void)edit;
    return arena_format(arena, "write 'speed \"%s\"' in %s%s", change->speed->name, unit->name,
                        instead ? arena_format(arena, ", in place of \"%s\"", bench->speed->name) : "");
}

static const char *side_words(const struct bench *bench, const struct change *change, const struct line_edit *edit) {
    const struct job *job = bench->look->job;
    const struct port *from = &change->run->from;
    const char *line = arena_format(job->arena, "%.*s %s", (int)(edit->at.begin - from->at.begin - 1),
                                    from->at.text->bytes + from->at.begin, edit->text);
    return arena_format(job->arena, "write 'from %s' in %s, in place of %s: on its own side the tap has no room", line,
                        change->run->name, side_choices[change->own_side - SIDE_LEFT]);
}

static const char *rate_words(const struct bench *bench, const struct change *change, const struct line_edit *edit) {
    (void)change;
    return arena_format(bench->look->job->arena, "leave out '%.*s'", (int)(edit->at.end - edit->at.begin),
                        edit->at.text->bytes + edit->at.begin);
}

/* ---- The kinds --------------------------------------------------------------------------------------------------- */

static const struct {
    bool (*edit)(const struct bench *bench, const struct change *change, struct line_edit *edit);
    const char *(*words)(const struct bench *bench, const struct change *change, const struct line_edit *edit);
} kinds[CHANGE_KINDS] = {
    [CHANGE_SIZE] = {size_edit, size_words},    [CHANGE_PIECE] = {piece_edit, piece_words},
    [CHANGE_SPEED] = {speed_edit, speed_words}, [CHANGE_SIDE] = {side_edit, side_words},
    [CHANGE_RATE] = {rate_edit, rate_words},
};

bool change_edit(const struct bench *bench, const struct change *change, struct line_edit *edit) {
    return kinds[change->kind].edit(bench, change, edit);
}

const char *change_words(const struct bench *bench, const struct change *change) {
    struct line_edit edit;
    return change_edit(bench, change, &edit) ? kinds[change->kind].words(bench, change, &edit) : "";
}
