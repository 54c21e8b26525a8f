/* What is wrong with a statement, in the words of the trade. */
#include <ctype.h>
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

static void hint_example(struct reader *reader, struct diagnostic *diagnostic) {
    bool metric = reader->system == MEASURE_METRIC && reader->form->metric_example;
    say_hint(reader, diagnostic, "for example: %s", metric ? reader->form->metric_example : reader->form->example);
}

/* What was written there, cut between characters when it is long. */
static const char *excerpt(const struct reader *reader, struct span at) {
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

/* A value as it is shown in a message: words in quotes, the rest as written. */
static const char *shown(const struct reader *reader, const struct value *value) {
    if (value->kind == VALUE_WORD)
        return arena_format(reader->diagnostics->arena, "'%s'", excerpt(reader, value->at));
    if (value->kind == VALUE_COMMA)
        return "a comma";
    return excerpt(reader, value->at);
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

/* ---- Quantities -------------------------------------------------------------------------------------------------- */

/* The number alone, as it was written. */
static const char *number_of(const struct reader *reader, const struct value *value) {
    const char *text = excerpt(reader, value->at);
    size_t length = 0;
    while (isdigit((unsigned char)text[length]) || (text[length] && strchr("-./", text[length])))
        length++;
    return arena_copy(reader->diagnostics->arena, text, length);
}

/* The unit that a bare number in a US job was most likely meant in; NULL when there are several. */
static const char *likely_unit(const struct reader *reader, enum measure_kind kind) {
    bool plain =
        kind == MEASURE_FLOW || kind == MEASURE_PRESSURE || kind == MEASURE_FRICTION || kind == MEASURE_VELOCITY;
    const char *blank = strchr(measure_words(kind)->example, ' ');
    return plain && blank && reader->system == MEASURE_US ? blank + 1 : NULL;
}

void say_wrong_measure(struct reader *reader, enum measure_kind kind, const struct value *value,
                       const struct quantity *quantity) {
    const struct measure *measure = quantity->measure ? quantity->measure : reader->shared;
    struct diagnostic *diagnostic =
        say(reader, "unit", value->at, "%s is wanted here, %s is %s", measure_words(kind)->name, shown(reader, value),
            measure_words(measure->kind)->name);
    if (kind == MEASURE_NUMBER)
        hint_example(reader, diagnostic);
    else
        say_hint(reader, diagnostic, "%s is written like %s", measure_words(kind)->name,
                 measure_example(kind, reader->system));
}

void say_no_unit(struct reader *reader, enum measure_kind kind, const struct value *value) {
    const struct measure_words *words = measure_words(kind);
    struct diagnostic *diagnostic = say(reader, "unit", value->at, "%s has no unit: %s is written like %s",
                                        shown(reader, value), words->name, measure_example(kind, reader->system));
    if (likely_unit(reader, kind))
        say_hint(reader, diagnostic, "write %s %s", number_of(reader, value), likely_unit(reader, kind));
    else
        hint_example(reader, diagnostic);
}

const char *feet_run_together(const struct reader *reader, const char *word) {
    size_t length = strlen(word), digits = strspn(word + (length > 2 ? 2 : length), "0123456789-./");
    if (!digits || strncmp(word, "ft", 2) != 0 || (word[2 + digits] && strcmp(word + 2 + digits, "in") != 0))
        return NULL;
    return arena_copy(reader->diagnostics->arena, word + 2, digits);
}

void say_unknown_unit(struct reader *reader, enum measure_kind kind, const struct value *value,
                      const struct value *word) {
    const struct measure_words *words = measure_words(kind);
    struct diagnostic *diagnostic = say(reader, "unit", word->at, "'%s' is not a unit; %s is written like %s",
                                        excerpt(reader, word->at), words->name, measure_example(kind, reader->system));
    const char *nearest = measure_nearest(word->text, kind),
               *inches = kind == MEASURE_LENGTH ? feet_run_together(reader, word->text) : NULL;
    if (inches)
        say_hint(reader, diagnostic, "write %s ft %s in", number_of(reader, value), inches);
    else if (nearest && value->quantity_count == 1)
        say_hint(reader, diagnostic, "write %s %s", number_of(reader, value), nearest);
    else if (nearest)
        say_hint(reader, diagnostic, "write %s", nearest);
}

/* ---- Values ------------------------------------------------------------------------------------------------------ */

/* "'over' wants a length behind it, not 'flat'". */
void say_wrong_value(struct reader *reader, const struct slot *slot, const struct value *key,
                     const struct value *value) {
    struct span at = value && value->kind != VALUE_COMMA ? value->at : key ? key->at : reader->statement->word_at;
    const char *behind = key ? key->text : reader->form->word;
    const char *found = value ? arena_format(reader->diagnostics->arena, ", not %s", shown(reader, value)) : "";
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
        hint_example(reader, diagnostic);
}

void say_missing(struct reader *reader, const struct slot *slot) {
    struct diagnostic *diagnostic = say(reader, "value", reader->statement->word_at, "'%s' does not say %s",
                                        reader->form->word, slot->meaning ? slot->meaning : wanted(reader, slot));
    hint_example(reader, diagnostic);
}

void say_block(struct reader *reader) {
    const struct statement *statement = reader->statement;
    if (statement->has_block) {
        struct span brace = {statement->block_at.text, statement->block_at.begin, statement->block_at.begin + 1};
        struct diagnostic *diagnostic =
            say(reader, "statement", brace, "'%s' takes no block of statements", reader->form->word);
        hint_example(reader, diagnostic);
        return;
    }
    struct diagnostic *diagnostic = say(reader, "statement", statement->word_at,
                                        "'%s' wants what belongs to it in { } behind it", reader->form->word);
    hint_example(reader, diagnostic);
}

/* ---- Commas ------------------------------------------------------------------------------------------------------ */

void say_comma(struct reader *reader, const struct value *comma) {
    struct diagnostic *diagnostic =
        say(reader, "value", comma->at, "nothing stands %s this comma", reader->next == 0 ? "before" : "behind");
    say_hint(reader, diagnostic, "take it away");
}

void say_list_comma(struct reader *reader, const struct value *before, const struct value *value) {
    struct diagnostic *diagnostic =
        say(reader, "value", value->at, "a comma is missing before %s", shown(reader, value));
    say_hint(reader, diagnostic, "write %s, %s", excerpt(reader, before->at), excerpt(reader, value->at));
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

/* A number or size where another kind of number is still wanted, or wanted again in a list. */
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

/* A word near to a choice that is still open, or to a key. */
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
    struct diagnostic *diagnostic =
        say(reader, "value", value->at, "'%s' means nothing in '%s'", excerpt(reader, value->at), reader->form->word);
    say_hint(reader, diagnostic, "write %s", nearest);
    return true;
}

/* 16 ft 6: the inches lack their unit. */
static bool say_no_inches(struct reader *reader, const struct value *value) {
    if (value->kind != VALUE_QUANTITY || value->quantity[0].measure || value == reader->statement->values.at ||
        value[-1].kind != VALUE_QUANTITY)
        return false;
    if (!measure_is(value[-1].quantity[0].measure, "ft"))
        return false;
    struct diagnostic *diagnostic = say(reader, "unit", value->at, "%s behind feet has no unit", shown(reader, value));
    say_hint(reader, diagnostic, "write %s %s in", excerpt(reader, value[-1].at), excerpt(reader, value->at));
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

/* The right thing too late: bare values stay in order. */
static bool say_order(struct reader *reader, const struct value *value) {
    for (size_t i = 0; i < reader->bare; i++) {
        const struct slot *slot = &reader->form->slots[i];
        if (slot->key || reader_argument(reader, slot)->given || !slot_fits(reader, slot, value))
            continue;
        struct diagnostic *diagnostic = say(reader, "value", value->at, "%s stands too far behind in '%s'",
                                            shown(reader, value), reader->form->word);
        hint_example(reader, diagnostic);
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
        say(reader, "value", value->at, "the word '%s' is missing before %s", slot->key, shown(reader, value));
    say_hint(reader, diagnostic, "write %s %s", slot->key, excerpt(reader, value->at));
    return true;
}

/* Something else than what must come. */
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
        say(reader, "value", value->at, "nothing in '%s' takes %s", reader->form->word, shown(reader, value));
    hint_example(reader, diagnostic);
}
