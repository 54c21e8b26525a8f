/* What is wrong when a statement says one thing twice. */
#include <string.h>

#include "lang/reader.h"

static const char *words_between(const struct reader *reader, size_t begin, size_t end) {
    return arena_copy(reader->diagnostics->arena, reader->statement->at.text->bytes + begin, end - begin);
}

/* Of "hours straight, shop 0.1 h per kg, field 0.3 h per metre", whose `per` is there twice: parted before the last
 * other key, where that is not the first. */
static void hint_two_lines(struct reader *reader, struct diagnostic *diagnostic, const struct value *twice) {
    const struct statement *statement = reader->statement;
    const struct value *first = NULL, *last = NULL;
    for (const struct value *value = statement->values.at; value < twice; value++) {
        if (!value_is(value, VALUE_WORD) || !reader_keyed(reader, value->text) || strcmp(value->text, twice->text) == 0)
            continue;
        first = first ? first : value;
        last = value;
    }
    if (first == last)
        return;
    const struct value *before = value_is(last - 1, VALUE_COMMA) ? last - 2 : last - 1;
    size_t begin = statement->word_at.begin, end = statement->values.at[statement->values.count - 1].at.end;
    say_hint(reader, diagnostic, "write two lines: %s; %s%s", words_between(reader, begin, before->at.end),
             words_between(reader, begin, first->at.begin), words_between(reader, last->at.begin, end));
}

void say_twice(struct reader *reader, const struct slot *slot, const struct value *value) {
    struct diagnostic *diagnostic = say(reader, "value", value->at, "'%s' is given twice", value->text);
    if (!diagnostic)
        return;
    if (reader->form->divides)
        hint_two_lines(reader, diagnostic, value);
    diagnostic_relate(reader->diagnostics, diagnostic, reader_argument(reader, slot)->at, "first given here");
}
