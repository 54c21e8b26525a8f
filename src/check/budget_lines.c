/* Changes as the lines that are written for them, and where. */
#include "check/budget_lines.h"

#include <ctype.h>
#include <string.h>

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
    if (slot->measure != MEASURE_PRESSURE)
        return arena_format(job->arena, "%.1f", argument->number);
    const char *text = check_text_down(job, SHOW_PRESSURE, argument->number);
    return arena_format(job->arena, "%.*s %s", (int)strcspn(text, " "), text,
                        job->system == MEASURE_METRIC ? "Pa" : "in.wg");
}

/* Of the same kind, with one argument another: it is written over, or behind the line. */
static void argument_edit(const struct job *job, const struct change *change, struct line_edit *edit) {
    const struct slot *slots = change->piece->kind->form.slots;
    for (size_t i = 0; i < SLOT_LIMIT && slots[i].kind != SLOT_NONE; i++) {
        const struct argument *old = &change->piece->reading.argument[i], *new = &change->other->reading.argument[i];
        bool flag = slots[i].kind == SLOT_FLAG;
        if (new->given == old->given &&new->number == old->number)
            continue;
        const char *value = flag ? "" : value_words(job, &slots[i], new), *key = slots[i].key ? slots[i].key : "";
        edit->at = old->given ? old->at : edit->at;
        edit->text = old->given ? value : arena_format(job->arena, ", %s%s%s", key, *key && !flag ? " " : "", value);
        return;
    }
}

static bool piece_edit(const struct bench *bench, const struct change *change, struct line_edit *edit) {
    const struct job *job = bench->look->job;
    const struct piece *piece = change->piece, *other = change->other;
    const struct statement *statement = piece->reading.statement;
    if (!statement)
        return false;
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
static bool rate_edit(const struct bench *bench, struct line_edit *edit) {
    static const char word[] = "friction";
    struct span at = bench->look->job->friction_rate_at;
    uint32_t begin = at.begin;
    if (!at.text)
        return false;
    while (begin > 0 && isspace((unsigned char)at.text->bytes[begin - 1]))
        begin--;
    if (begin < sizeof word - 1 || strncmp(at.text->bytes + begin - (sizeof word - 1), word, sizeof word - 1) != 0)
        return false;
    *edit = (struct line_edit){{at.text, begin - (uint32_t)(sizeof word - 1), at.end}, ""};
    return true;
}

bool change_edit(const struct bench *bench, const struct change *change, struct line_edit *edit) {
    switch (change->kind) {
    case CHANGE_SIZE:
        return size_edit(bench, change, edit);
    case CHANGE_PIECE:
        return piece_edit(bench, change, edit);
    case CHANGE_SPEED:
        return speed_edit(bench, change, edit);
    case CHANGE_RATE:
        return rate_edit(bench, edit);
    }
    return false;
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

const char *change_words(const struct bench *bench, const struct change *change) {
    const struct job *job = bench->look->job;
    struct line_edit edit;
    if (!change_edit(bench, change, &edit))
        return "";
    switch (change->kind) {
    case CHANGE_SIZE:
        return size_words(bench, change, &edit);
    case CHANGE_PIECE:
        return arena_format(job->arena, "write '%s' in %s%s", edited(job->arena, change->piece->at, &edit),
                            where_words(job, change->piece), remark(change));
    case CHANGE_SPEED:
        return arena_format(job->arena, "write 'speed \"%s\"' in %s", change->speed->name, bench->network->unit->name);
    case CHANGE_RATE:
        return arena_format(job->arena, "leave out '%.*s'", (int)(edit.at.end - edit.at.begin),
                            edit.at.text->bytes + edit.at.begin);
    }
    return "";
}
