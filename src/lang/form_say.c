/* What is wrong with a statement, in the words of the trade. */
#include <string.h>

#include "lang/reader.h"

/* Longer excerpts of the text are cut. */
enum { EXCERPT_LIMIT = 40 };

struct diagnostic *say(struct reader *reader, const char *check, struct span at, const char *format, ...) {
    if (reader->reading->faulty)
        return NULL;
    reader->reading->faulty = true;
    va_list list;
    va_start(list, format);
    const char *message = arena_format_list(reader->diagnostics->arena, format, list);
    va_end(list);
    return diagnose(reader->diagnostics, DIAGNOSTIC_ERROR, check, at, "%s", message);
}

void say_hint(struct reader *reader, struct diagnostic *diagnostic, const char *format, ...) {
    if (!diagnostic)
        return;
    va_list list;
    va_start(list, format);
    diagnostic->hint = arena_format_list(reader->diagnostics->arena, format, list);
    va_end(list);
}

void say_example(struct reader *reader, struct diagnostic *diagnostic) {
    bool metric = reader->system == MEASURE_METRIC && reader->form->metric_example;
    say_hint(reader, diagnostic, "for example: %s", metric ? reader->form->metric_example : reader->form->example);
}

const char *reader_excerpt(const struct reader *reader, struct span at) {
    size_t length = at.end - at.begin;
    const char *bytes = at.text->bytes + at.begin;
    struct arena *arena = reader->diagnostics->arena;
    if (length <= EXCERPT_LIMIT)
        return arena_copy(arena, bytes, length);
    length = EXCERPT_LIMIT;
    while (length > 0 && ((unsigned char)bytes[length] & 0xC0) == 0x80)
        length--;
    return arena_format(arena, "%.*s...", (int)length, bytes);
}

const char *reader_shown(const struct reader *reader, const struct value *value) {
    if (value->kind == VALUE_WORD)
        return arena_format(reader->diagnostics->arena, "'%s'", reader_excerpt(reader, value->at));
    if (value->kind == VALUE_COMMA)
        return "a comma";
    return reader_excerpt(reader, value->at);
}

/* "left, right, up or down". */
static const char *choices_of(const struct reader *reader, const struct slot *slot) {
    struct arena *arena = reader->diagnostics->arena;
    const char *list = slot->choices[0];
    for (size_t i = 1; slot->choices[i]; i++)
        list = arena_format(arena, "%s%s%s", list, slot->choices[i + 1] ? ", " : " or ", slot->choices[i]);
    return list;
}

/* What a slot wants, so that it completes "... is wanted here". */
static const char *wanted(const struct reader *reader, const struct slot *slot) {
    switch (slot->kind) {
    case SLOT_QUANTITY:
        return measure_words(slot->measure)->name;
    case SLOT_AMOUNT:
        return "a number or a measure";
    case SLOT_SIZE:
        return "a size";
    case SLOT_TEXT:
        return "text in quotes";
    case SLOT_NAME:
        return "a name";
    case SLOT_PORT:
        return "a run or a collar";
    case SLOT_CHOICE:
        return choices_of(reader, slot);
    case SLOT_DATE:
        return "a date";
    case SLOT_POINT:
        return "a point of three lengths";
    case SLOT_PAIR:
        return "an airflow at a pressure";
    case SLOT_ITEM:
        return "a word";
    case SLOT_FLAG:
    case SLOT_NONE:
        break;
    }
    return slot->key;
}

/* The nearest of a slot's choices, or NULL. */
static const char *nearest_choice(const struct slot *slot, const char *word) {
    size_t count = 0;
    while (slot->choices[count])
        count++;
    return text_nearest(word, slot->choices, count);
}

/* ---- Values ------------------------------------------------------------------------------------------------------ */

/* "'over' wants a length behind it, not 'flat'". */
void say_wrong_value(struct reader *reader, const struct slot *slot, const struct value *key,
                     const struct value *value) {
    struct span at = value && value->kind != VALUE_COMMA ? value->at : key ? key->at : reader->statement->word_at;
    const char *behind = key ? key->text : reader->form->word;
    const char *found = value ? arena_format(reader->diagnostics->arena, ", not %s", reader_shown(reader, value)) : "";
    if (slot->kind == SLOT_POINT || slot->kind == SLOT_PAIR)
        found = "";
    struct diagnostic *diagnostic =
        say(reader, "value", at, "'%s' wants %s behind it%s", behind, wanted(reader, slot), found);
    bool word = value_is(value, VALUE_WORD);
    const char *nearest = slot->kind == SLOT_CHOICE && word ? nearest_choice(slot, value->text) : NULL;
    if (nearest)
        say_hint(reader, diagnostic, "write %s", nearest);
    else if (slot->kind == SLOT_TEXT && word)
        say_hint(reader, diagnostic, "put it in quotes: \"%s\"", value->text);
    else
        say_example(reader, diagnostic);
}

void say_missing(struct reader *reader, const struct slot *slot) {
    struct diagnostic *diagnostic = say(reader, "value", reader->statement->word_at, "'%s' does not say %s",
                                        reader->form->word, slot->meaning ? slot->meaning : wanted(reader, slot));
    say_example(reader, diagnostic);
}

void say_block(struct reader *reader) {
    const struct statement *statement = reader->statement;
    if (statement->has_block) {
        struct span brace = {statement->block_at.text, statement->block_at.begin, statement->block_at.begin + 1};
        struct diagnostic *diagnostic =
            say(reader, "statement", brace, "'%s' takes no block of statements", reader->form->word);
        say_example(reader, diagnostic);
        return;
    }
    struct diagnostic *diagnostic = say(reader, "statement", statement->word_at,
                                        "'%s' wants what belongs to it in { } behind it", reader->form->word);
    say_example(reader, diagnostic);
}

/* ---- Commas ------------------------------------------------------------------------------------------------------ */

void say_comma(struct reader *reader, const struct value *comma) {
    struct diagnostic *diagnostic =
        say(reader, "value", comma->at, "nothing stands %s this comma", reader->next == 0 ? "before" : "behind");
    say_hint(reader, diagnostic, "take it away");
}

void say_list_comma(struct reader *reader, const struct value *before, const struct value *value) {
    struct diagnostic *diagnostic =
        say(reader, "value", value->at, "a comma is missing before %s", reader_shown(reader, value));
    say_hint(reader, diagnostic, "write %s, %s", reader_excerpt(reader, before->at), reader_excerpt(reader, value->at));
}

/* A comma at the end of a line makes the next line part of the statement. */
static bool say_line_goes_on(struct reader *reader, const struct value *value) {
    if (value == reader->statement->values.at || value[-1].kind != VALUE_COMMA)
        return false;
    struct span comma = value[-1].at;
    if (!memchr(comma.text->bytes + comma.end, '\n', value->at.begin - comma.end) || value->kind != VALUE_WORD ||
        !form_named(reader->table, value->text))
        return false;
    struct diagnostic *diagnostic =
        say(reader, "value", comma, "with this comma at its end, the line goes on to '%s'", value->text);
    say_hint(reader, diagnostic, "take the comma away");
    return true;
}

/* ---- A value that nothing takes ---------------------------------------------------------------------------------- */

static const struct slot *each_slot(const struct reader *reader, const struct slot *slot) {
    slot = slot ? slot + 1 : reader->form->slots;
    return slot < reader->form->slots + SLOT_LIMIT && slot->kind ? slot : NULL;
}

/* A number or size where a slot still takes a number of another kind, or takes more in a list. */
static bool say_other_number(struct reader *reader, const struct value *value) {
    if (value->quantity_count == 0)
        return false;
    for (const struct slot *slot = NULL; (slot = each_slot(reader, slot));) {
        bool again = (slot->use & SLOT_LIST) && value > reader->statement->values.at && value[-1].kind == VALUE_COMMA;
        if (slot->key || !slot_takes_numbers(slot) || (reader_argument(reader, slot)->given && !again))
            continue;
        if (value->kind == VALUE_QUANTITY && value->quantity[0].measure &&
            value->quantity[0].measure->kind != slot_measure(slot)) {
            say_wrong_measure(reader, slot_measure(slot), value, &value->quantity[0]);
            return true;
        }
        if (value->kind == VALUE_SIZE && slot->kind != SLOT_SIZE) {
            say_wrong_value(reader, slot, NULL, value);
            return true;
        }
    }
    return false;
}

/* A word spelled nearly like a choice or a key that is not given yet. */
static bool say_nearest_word(struct reader *reader, const struct value *value) {
    const char *keys[SLOT_LIMIT];
    size_t count = 0;
    if (value->kind != VALUE_WORD)
        return false;
    for (const struct slot *slot = NULL; (slot = each_slot(reader, slot));) {
        if (reader_argument(reader, slot)->given)
            continue;
        if (slot->key) {
            keys[count++] = slot->key;
        } else if (slot->kind == SLOT_CHOICE && nearest_choice(slot, value->text)) {
            say_wrong_value(reader, slot, NULL, value);
            return true;
        }
    }
    const char *nearest = text_nearest(value->text, keys, count);
    if (!nearest)
        return false;
    struct diagnostic *diagnostic = say(reader, "value", value->at, "'%s' means nothing in '%s'",
                                        reader_excerpt(reader, value->at), reader->form->word);
    say_hint(reader, diagnostic, "write %s", nearest);
    return true;
}

/* The word of another statement, for which a new line was forgotten. */
static bool say_new_line(struct reader *reader, const struct value *value) {
    if (value->kind != VALUE_WORD || !form_named(reader->table, value->text))
        return false;
    struct diagnostic *diagnostic = say(reader, "value", value->at, "'%s' begins a statement of its own", value->text);
    say_hint(reader, diagnostic, "start a new line before %s", value->text);
    return true;
}

/* A second choice from the same few words. */
static bool say_second_choice(struct reader *reader, const struct value *value) {
    for (const struct slot *slot = NULL; (slot = each_slot(reader, slot));) {
        if (slot->key || slot->kind != SLOT_CHOICE || value->kind != VALUE_WORD || slot_choice(slot, value->text) < 0 ||
            !reader_argument(reader, slot)->given)
            continue;
        struct argument *first = reader_argument(reader, slot);
        struct diagnostic *diagnostic = say(reader, "value", value->at, "only one of %s goes with '%s'",
                                            choices_of(reader, slot), reader->form->word);
        if (diagnostic)
            diagnostic_relate(reader->diagnostics, diagnostic, first->at, "'%s' is given here",
                              slot->choices[first->choice]);
        return true;
    }
    return false;
}

/* A value that fits a slot already passed: bare values stay in order. */
static bool say_order(struct reader *reader, const struct value *value) {
    for (size_t i = 0; i < reader->bare; i++) {
        const struct slot *slot = &reader->form->slots[i];
        if (slot->key || reader_argument(reader, slot)->given || !slot_fits(reader, slot, value))
            continue;
        struct diagnostic *diagnostic = say(reader, "value", value->at, "%s stands too far behind in '%s'",
                                            reader_shown(reader, value), reader->form->word);
        say_example(reader, diagnostic);
        return true;
    }
    return false;
}

/* The keyed slot that `value` is meant for: the only one, or the only one that is required; NULL when it cannot be
 * told. */
static const struct slot *meant_slot(const struct reader *reader, const struct value *value, bool required) {
    const struct slot *found = NULL;
    for (const struct slot *slot = NULL; (slot = each_slot(reader, slot));) {
        bool loose = slot->kind == SLOT_NAME || slot->kind == SLOT_PORT || slot->kind == SLOT_ITEM; /* fit any word */
        if (!slot->key || reader_argument(reader, slot)->given || !slot_fits(reader, slot, value))
            continue;
        if ((required || loose) && !(slot->use & SLOT_REQUIRED))
            continue;
        if (found)
            return NULL;
        found = slot;
    }
    return found;
}

/* A value that lacks the word before it. */
static bool say_key(struct reader *reader, const struct value *value) {
    const struct slot *slot = meant_slot(reader, value, true);
    if (!slot)
        slot = meant_slot(reader, value, false);
    if (!slot)
        return false;
    struct diagnostic *diagnostic =
        say(reader, "value", value->at, "the word '%s' is missing before %s", slot->key, reader_shown(reader, value));
    say_hint(reader, diagnostic, "write %s %s", slot->key, reader_excerpt(reader, value->at));
    return true;
}

/* A required slot that was not given, in whose place this value stands. */
static bool say_not_required(struct reader *reader, const struct value *value) {
    for (const struct slot *slot = NULL; (slot = each_slot(reader, slot));) {
        if (slot->key || !(slot->use & SLOT_REQUIRED) || reader_argument(reader, slot)->given)
            continue;
        say_wrong_value(reader, slot, NULL, value);
        return true;
    }
    return false;
}

void say_leftover(struct reader *reader, const struct value *value) {
    if (reader->reading->faulty)
        return;
    if (say_line_goes_on(reader, value) || say_new_line(reader, value) || say_no_inches(reader, value) ||
        say_other_number(reader, value) || say_nearest_word(reader, value) || say_second_choice(reader, value) ||
        say_order(reader, value) || say_key(reader, value) || say_not_required(reader, value))
        return;
    struct diagnostic *diagnostic =
        say(reader, "value", value->at, "nothing in '%s' takes %s", reader->form->word, reader_shown(reader, value));
    say_example(reader, diagnostic);
}
