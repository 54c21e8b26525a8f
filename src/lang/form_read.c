/* Reading a statement against its form. */
#include <string.h>

#include "lang/reader.h"

const struct value *reader_value(const struct reader *reader, size_t ahead) {
    size_t i = reader->next + ahead;
    return i < reader->statement->values.count ? &reader->statement->values.at[i] : NULL;
}

bool value_is(const struct value *value, enum value_kind kind) {
    return value && value->kind == kind;
}

bool value_is_word(const struct value *value, const char *word) {
    return value_is(value, VALUE_WORD) && strcmp(value->text, word) == 0;
}

const struct slot *reader_keyed(const struct reader *reader, const char *word) {
    for (const struct slot *slot = reader->form->slots; slot < reader->form->slots + SLOT_LIMIT && slot->kind; slot++)
        if (slot->key && strcmp(slot->key, word) == 0)
            return slot;
    return NULL;
}

struct argument *reader_argument(const struct reader *reader, const struct slot *slot) {
    return &reader->reading->argument[slot - reader->form->slots];
}

/* The first bare slot, of those not yet behind us, that takes `value`. */
static const struct slot *bare_slot(const struct reader *reader, const struct value *value) {
    for (size_t i = reader->bare; i < SLOT_LIMIT && reader->form->slots[i].kind; i++) {
        const struct slot *slot = &reader->form->slots[i];
        if (!slot->key && slot_fits(reader, slot, value))
            return slot;
    }
    return NULL;
}

/* A flag stands alone; any other key has its value behind it. */
static bool read_keyed(struct reader *reader, const struct slot *slot, const struct value *key) {
    struct argument *argument = reader_argument(reader, slot);
    if (argument->given) {
        say_twice(reader, slot, key);
        return false;
    }
    reader->next++;
    if (slot->kind != SLOT_FLAG)
        return slot_read(reader, slot, key);
    argument->given = true;
    argument->at = key->at;
    return true;
}

static bool read_bare(struct reader *reader, const struct value *value) {
    /* `about` before a number belongs to it */
    const struct value *meant = value;
    if (value_is_word(value, "about") && reader_value(reader, 1) && reader_value(reader, 1)->quantity_count)
        meant = reader_value(reader, 1);
    const struct slot *slot = bare_slot(reader, meant);
    if (!slot) {
        say_leftover(reader, meant);
        return false;
    }
    if (!slot_read(reader, slot, NULL))
        return false;
    reader->bare = (size_t)(slot - reader->form->slots) + 1;
    return true;
}

/* Commas stand between things, never first, last or in pairs. */
static void read_comma(struct reader *reader, const struct value *comma) {
    const struct value *behind = reader_value(reader, 1);
    if (reader->next == 0 || !behind || behind->kind == VALUE_COMMA)
        say_comma(reader, comma);
    reader->next++;
}

static void read_values(struct reader *reader) {
    const struct value *value;
    while ((value = reader_value(reader, 0))) {
        if (value->kind == VALUE_COMMA) {
            read_comma(reader, value);
            continue;
        }
        size_t before = reader->next;
        const struct slot *keyed = value->kind == VALUE_WORD ? reader_keyed(reader, value->text) : NULL;
        bool well = keyed ? read_keyed(reader, keyed, value) : read_bare(reader, value);
        if (!well && reader->next == before)
            reader->next++; /* what follows is still read, so that names are known, but no more is said */
    }
}

static void check_required(struct reader *reader) {
    for (const struct slot *slot = reader->form->slots; slot < reader->form->slots + SLOT_LIMIT && slot->kind; slot++)
        if ((slot->use & SLOT_REQUIRED) && !reader_argument(reader, slot)->given)
            say_missing(reader, slot);
}

static void check_block(struct reader *reader) {
    bool has = reader->statement->has_block;
    if (has ? reader->form->block == BLOCK_NONE : reader->form->block == BLOCK_REQUIRED)
        say_block(reader);
}

/* Only as many as the form has slots: a large job has a million statements. */
static struct argument *arguments_of(const struct form *form, struct arena *arena) {
    size_t count = 0;
    while (count < SLOT_LIMIT && form->slots[count].kind)
        count++;
    return ARENA_ARRAY(arena, struct argument, count ? count : 1);
}

void form_read(struct reading *reading, const struct form *form, const struct statement *statement,
               enum measure_system system, const struct form_table *table, struct diagnostics *diagnostics) {
    bool misspelt = strcmp(form->word, statement->word) != 0; /* form_find has said so */
    *reading = (struct reading){.form = form, .statement = statement, .faulty = statement->faulty || misspelt};
    reading->argument = arguments_of(form, diagnostics->arena);
    struct reader reader = {
        .reading = reading,
        .form = form,
        .statement = statement,
        .table = table,
        .system = system,
        .diagnostics = diagnostics,
    };
    read_values(&reader);
    check_required(&reader);
    check_block(&reader);
}
