/* What is wrong with a number and its unit. */
#include <ctype.h>
#include <string.h>

#include "lang/reader.h"

/* The number alone, as it was written. */
static const char *number_of(const struct reader *reader, const struct value *value) {
    const char *text = reader_excerpt(reader, value->at);
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
        say(reader, "unit", value->at, "%s is wanted here, %s is %s", measure_words(kind)->name,
            reader_shown(reader, value), measure_words(measure->kind)->name);
    if (kind == MEASURE_NUMBER)
        say_example(reader, diagnostic);
    else
        say_hint(reader, diagnostic, "%s is written like %s", measure_words(kind)->name,
                 measure_example(kind, reader->system));
}

void say_no_unit(struct reader *reader, enum measure_kind kind, const struct value *value) {
    const struct measure_words *words = measure_words(kind);
    struct diagnostic *diagnostic =
        say(reader, "unit", value->at, "%s has no unit: %s is written like %s", reader_shown(reader, value),
            words->name, measure_example(kind, reader->system));
    if (likely_unit(reader, kind))
        say_hint(reader, diagnostic, "write %s %s", number_of(reader, value), likely_unit(reader, kind));
    else
        say_example(reader, diagnostic);
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
    struct diagnostic *diagnostic =
        say(reader, "unit", word->at, "'%s' is not a unit; %s is written like %s", reader_excerpt(reader, word->at),
            words->name, measure_example(kind, reader->system));
    const char *nearest = measure_nearest(word->text, kind),
               *inches = kind == MEASURE_LENGTH ? feet_run_together(reader, word->text) : NULL;
    if (inches)
        say_hint(reader, diagnostic, "write %s ft %s in", number_of(reader, value), inches);
    else if (nearest && value->quantity_count == 1)
        say_hint(reader, diagnostic, "write %s %s", number_of(reader, value), nearest);
    else if (nearest)
        say_hint(reader, diagnostic, "write %s", nearest);
}

bool say_no_inches(struct reader *reader, const struct value *value) {
    if (value->kind != VALUE_QUANTITY || value->quantity[0].measure || value == reader->statement->values.at ||
        value[-1].kind != VALUE_QUANTITY)
        return false;
    if (!measure_is(value[-1].quantity[0].measure, "ft"))
        return false;
    struct diagnostic *diagnostic =
        say(reader, "unit", value->at, "%s behind feet has no unit", reader_shown(reader, value));
    say_hint(reader, diagnostic, "write %s %s in", reader_excerpt(reader, value[-1].at),
             reader_excerpt(reader, value->at));
    return true;
}
