/* Reading the value of one slot. */
#include <string.h>

#include "base/constant.h"
#include "lang/reader.h"

/* ---- What fits where --------------------------------------------------------------------------------------------- */

int slot_choice(const struct slot *slot, const char *word) {
    for (int i = 0; slot->choices && slot->choices[i]; i++)
        if (strcmp(slot->choices[i], word) == 0)
            return i;
    return -1;
}

bool slot_takes_numbers(const struct slot *slot) {
    return slot->kind == SLOT_QUANTITY || slot->kind == SLOT_SIZE || slot->kind == SLOT_POINT ||
           slot->kind == SLOT_PAIR || slot->kind == SLOT_AMOUNT;
}

enum measure_kind slot_measure(const struct slot *slot) {
    return slot->kind == SLOT_QUANTITY ? slot->measure
           : slot->kind == SLOT_AMOUNT ? MEASURE_NUMBER
           : slot->kind == SLOT_PAIR   ? MEASURE_FLOW
                                       : MEASURE_LENGTH;
}

static bool quantity_fits(const struct reader *reader, enum measure_kind kind, const struct quantity *quantity) {
    const struct measure *measure = quantity->measure ? quantity->measure : reader->shared;
    return !measure || measure->kind == kind;
}

static bool is_shape(const struct value *value) {
    return value_is_word(value, "round") || value_is_word(value, "oval") || value_is_word(value, "rectangular");
}

bool slot_fits(const struct reader *reader, const struct slot *slot, const struct value *value) {
    switch (slot->kind) {
    case SLOT_QUANTITY:
        return value->kind == VALUE_QUANTITY && quantity_fits(reader, slot->measure, &value->quantity[0]);
    case SLOT_AMOUNT:
        return value->kind == VALUE_QUANTITY;
    case SLOT_SIZE:
        return value->kind == VALUE_SIZE ||
               (value->kind == VALUE_QUANTITY && quantity_fits(reader, MEASURE_LENGTH, &value->quantity[0]));
    case SLOT_POINT:
        return value->kind == VALUE_QUANTITY && quantity_fits(reader, MEASURE_LENGTH, &value->quantity[0]);
    case SLOT_PAIR:
        return value->kind == VALUE_QUANTITY && quantity_fits(reader, MEASURE_FLOW, &value->quantity[0]);
    case SLOT_TEXT:
        return value->kind == VALUE_STRING;
    case SLOT_NAME:
    case SLOT_PORT:
        return value->kind == VALUE_WORD;
    case SLOT_CHOICE:
        return value->kind == VALUE_WORD && slot_choice(slot, value->text) >= 0;
    case SLOT_DATE:
        return value->kind == VALUE_DATE;
    case SLOT_ITEM:
        return value->kind == VALUE_WORD || value->kind == VALUE_STRING;
    case SLOT_FLAG:
    case SLOT_NONE:
        break;
    }
    return false;
}

/* ---- Quantities -------------------------------------------------------------------------------------------------- */

/* What a number without a unit means: inches or millimetres, degrees, percent; false where a unit is needed. */
static bool bare_to_si(const struct reader *reader, enum measure_kind kind, double number, double *si) {
    static const double degree = 0.017453292519943295; /* pi / 180 */
    switch (kind) {
    case MEASURE_NUMBER:
        *si = number;
        return true;
    case MEASURE_LENGTH:
        *si = number * (reader->system == MEASURE_METRIC ? MILLIMETRE : INCH);
        return true;
    case MEASURE_ANGLE:
        *si = number * degree;
        return true;
    case MEASURE_PERCENT:
        *si = number / 100;
        return true;
    default:
        return false;
    }
}

/* The word behind a bare number that is meant as its unit: it is no word of this form,
 * and no statement begins with it. */
static const struct value *meant_as_unit(const struct reader *reader, const struct value *value) {
    const struct value *word = value + 1;
    const struct value *end = reader->statement->values.at + reader->statement->values.count;
    if (word >= end || word->kind != VALUE_WORD || reader_keyed(reader, word->text) || is_shape(word))
        return NULL;
    for (size_t i = 0; i < SLOT_LIMIT && reader->form->slots[i].kind; i++) {
        const struct slot *slot = &reader->form->slots[i];
        if (!slot->key && !reader->reading->argument[i].given && slot_fits(reader, slot, word))
            return NULL;
    }
    bool joins = value_is_word(word, "about") || value_is_word(word, "at"); /* a pair has its `at` in the middle */
    return joins || form_named(reader->table, word->text) ? NULL : word;
}

/* The SI value of one number of `value`; false: diagnosed. */
static bool quantity_to_si(struct reader *reader, enum measure_kind kind, const struct value *value, int index,
                           double *si) {
    const struct quantity *quantity = &value->quantity[index];
    const struct measure *measure = quantity->measure ? quantity->measure : reader->shared;
    if (measure && measure->kind != kind) {
        say_wrong_measure(reader, kind, value, quantity);
        return false;
    }
    if (measure) {
        *si = measure_to_si(measure, quantity->number);
        return true;
    }
    const struct value *word = meant_as_unit(reader, value);
    bool bare = bare_to_si(reader, kind, quantity->number, si);
    bool unit = word && (!bare || measure_nearest(word->text, kind) ||
                         (kind == MEASURE_LENGTH && feet_run_together(reader, word->text)));
    if (unit) {
        say_unknown_unit(reader, kind, value, word);
        reader->next += 2; /* the word is done with */
        return false;
    }
    if (!bare)
        say_no_unit(reader, kind, value);
    return bare;
}

/* `4, 5, 6 in`: the unit behind the last of several bare numbers is meant for all, when it is of the right kind. */
static const struct measure *shared_by_list(const struct reader *reader, enum measure_kind kind) {
    for (size_t ahead = 0;; ahead += 2) {
        const struct value *value = reader_value(reader, ahead);
        if (!value_is(value, VALUE_QUANTITY))
            return NULL;
        const struct measure *measure = value->quantity[0].measure;
        bool last = !value_is(reader_value(reader, ahead + 1), VALUE_COMMA) ||
                    !value_is(reader_value(reader, ahead + 2), VALUE_QUANTITY);
        if (measure || last)
            return measure && last && measure->kind == kind ? measure : NULL;
    }
}

/* `18 x 14 in` likewise. */
static const struct measure *shared_by_size(const struct value *value) {
    for (int i = 0; i < value->quantity_count - 1; i++)
        if (value->quantity[i].measure)
            return NULL;
    const struct measure *measure = value->quantity[value->quantity_count - 1].measure;
    return measure && measure->kind == MEASURE_LENGTH ? measure : NULL;
}

static bool read_quantity(struct reader *reader, const struct slot *slot, struct argument *argument) {
    const struct value *value = reader_value(reader, 0);
    if (!quantity_to_si(reader, slot->measure, value, 0, &argument->number))
        return false;
    reader->next++;
    return true;
}

/* Its unit says what it measures; a number without one is a count. */
static bool read_amount(struct reader *reader, struct argument *argument) {
    const struct value *value = reader_value(reader, 0);
    const struct measure *measure = value->quantity[0].measure;
    enum measure_kind kind = measure ? measure->kind : MEASURE_NUMBER;
    if (!quantity_to_si(reader, kind, value, 0, &argument->number))
        return false;
    argument->choice = (int)kind;
    reader->next++;
    return true;
}

static bool read_size(struct reader *reader, struct argument *argument) {
    const struct value *value = reader_value(reader, 0);
    reader->shared = shared_by_size(value);
    argument->count = (unsigned char)(value->quantity_count);
    for (int i = 0; i < value->quantity_count; i++)
        if (!quantity_to_si(reader, MEASURE_LENGTH, value, i, &argument->point[i]))
            return false;
    reader->next++;
    const struct value *shape = reader_value(reader, 0);
    if (is_shape(shape)) {
        argument->text = shape->text;
        argument->at = span_join(argument->at, shape->at);
        reader->next++;
    }
    return true;
}

static bool read_point(struct reader *reader, const struct slot *slot, const struct value *key,
                       struct argument *argument) {
    const struct value *first = reader_value(reader, 0);
    for (size_t i = 0; i < 3; i++) {
        const struct value *value = reader_value(reader, i * 2);
        bool comma = i == 0 || value_is(reader_value(reader, i * 2 - 1), VALUE_COMMA);
        if (!comma || !value_is(value, VALUE_QUANTITY)) {
            say_wrong_value(reader, slot, key, first);
            return false;
        }
        if (!quantity_to_si(reader, MEASURE_LENGTH, value, 0, &argument->point[i]))
            return false;
        argument->at = span_join(argument->at, value->at);
    }
    reader->next += 5;
    return true;
}

/* A flow `at` a pressure. */
static bool read_pair(struct reader *reader, const struct slot *slot, const struct value *key,
                      struct argument *argument) {
    const struct value *flow = reader_value(reader, 0);
    if (!quantity_to_si(reader, MEASURE_FLOW, flow, 0, &argument->number))
        return false;
    const struct value *pressure = reader_value(reader, 2);
    if (!value_is_word(reader_value(reader, 1), "at") || !value_is(pressure, VALUE_QUANTITY)) {
        say_wrong_value(reader, slot, key, flow);
        return false;
    }
    if (!quantity_to_si(reader, MEASURE_PRESSURE, pressure, 0, &argument->second)) {
        reader->next += 3;
        return false;
    }
    argument->at = span_join(flow->at, pressure->at);
    reader->next += 3;
    return true;
}

/* ---- Words and text ---------------------------------------------------------------------------------------------- */

/* A name has letters, digits, _ and -. */
static bool read_name(struct reader *reader, const struct value *value, struct argument *argument) {
    const char *odd = strpbrk(value->text, "./");
    if (odd) {
        say(reader, "value", value->at, "a name has no '%c' in it", *odd);
        return false;
    }
    argument->text = value->text;
    reader->next++;
    return true;
}

static bool read_port(struct reader *reader, const struct value *value, struct argument *argument) {
    const char *dot = strchr(value->text, '.');
    if (strchr(value->text, '/') || (dot && strchr(dot + 1, '.'))) {
        struct diagnostic *diagnostic =
            say(reader, "value", value->at, "a duct hangs from a run, or from one of its ends behind a single dot");
        say_hint(reader, diagnostic, "write it like AHU.supply, plenum.left or kilnside");
        return false;
    }
    struct arena *arena = reader->diagnostics->arena;
    argument->text = dot ? arena_copy(arena, value->text, (size_t)(dot - value->text)) : value->text;
    argument->leg = dot ? dot + 1 : NULL;
    reader->next++;
    return true;
}

static int two_digits(const char *text) {
    return (text[0] - '0') * 10 + (text[1] - '0');
}

/* The scanner has seen to it that the form is YYYY-MM-DD; the Gregorian calendar has the days. */
static bool is_date(const char *text) {
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    int year = two_digits(text) * 100 + two_digits(text + 2), month = two_digits(text + 5), day = two_digits(text + 8);
    if (month < 1 || month > 12 || day < 1)
        return false;
    bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    return day <= days[month - 1] + (month == 2 && leap);
}

static bool read_date(struct reader *reader, const struct value *value, struct argument *argument) {
    argument->text = value->text;
    if (!reader->statement->faulty && !is_date(value->text)) {
        struct diagnostic *diagnostic = say(reader, "value", value->at, "there is no day %s", value->text);
        say_hint(reader, diagnostic, "a date is written year-month-day, like 2026-04-18");
        return false;
    }
    reader->next++;
    return true;
}

/* ---- Slots ------------------------------------------------------------------------------------------------------- */

static bool read_one(struct reader *reader, const struct slot *slot, const struct value *key,
                     struct argument *argument) {
    const struct value *value = reader_value(reader, 0);
    argument->at = value->at;
    argument->about = value > reader->statement->values.at && value_is_word(value - 1, "about");
    switch (slot->kind) {
    case SLOT_QUANTITY:
        return read_quantity(reader, slot, argument);
    case SLOT_AMOUNT:
        return read_amount(reader, argument);
    case SLOT_SIZE:
        return read_size(reader, argument);
    case SLOT_POINT:
        return read_point(reader, slot, key, argument);
    case SLOT_PAIR:
        return read_pair(reader, slot, key, argument);
    case SLOT_NAME:
        return read_name(reader, value, argument);
    case SLOT_PORT:
        return read_port(reader, value, argument);
    case SLOT_DATE:
        return read_date(reader, value, argument);
    case SLOT_CHOICE:
        argument->choice = slot_choice(slot, value->text);
        break;
    default:
        argument->text = value->text;
        break;
    }
    reader->next++;
    return true;
}

/* Takes `about` and one member. */
static bool read_member(struct reader *reader, const struct slot *slot, const struct value *key,
                        struct argument *argument) {
    const struct value *value = reader_value(reader, 0);
    if (value_is_word(value, "about") && reader_value(reader, 1) && reader_value(reader, 1)->quantity_count) {
        reader->next++;
        value = reader_value(reader, 0);
    }
    bool number = value_is(value, VALUE_QUANTITY) && slot_takes_numbers(slot); /* its measure is checked later */
    if (!value || (!number && !slot_fits(reader, slot, value))) {
        say_wrong_value(reader, slot, key, value);
        return false;
    }
    if (!read_one(reader, slot, key, argument))
        return false;
    argument->given = true;
    return true;
}

/* Whether the list goes on behind the next value, a comma. */
static bool list_goes_on(const struct reader *reader, const struct slot *slot) {
    const struct value *value = reader_value(reader, 1);
    if (!value_is(reader_value(reader, 0), VALUE_COMMA) || !value)
        return false;
    if (value_is_word(value, "about"))
        return true;
    return slot_fits(reader, slot, value) && !(value->kind == VALUE_WORD && reader_keyed(reader, value->text));
}

static bool read_list(struct reader *reader, const struct slot *slot, const struct value *key,
                      struct argument *argument) {
    while (list_goes_on(reader, slot)) {
        reader->next++;
        struct argument *member = ARENA_NEW(reader->diagnostics->arena, struct argument);
        if (!read_member(reader, slot, key, member))
            return false;
        argument->next = member;
        argument = member;
    }
    const struct value *value = reader_value(reader, 0);
    if (value && value->kind != VALUE_COMMA && value->kind != VALUE_WORD && slot_fits(reader, slot, value)) {
        say_list_comma(reader, value - 1, value);
        return false;
    }
    return true;
}

bool slot_read(struct reader *reader, const struct slot *slot, const struct value *key) {
    struct argument *argument = reader_argument(reader, slot);
    bool several = slot->kind == SLOT_POINT || (slot->kind == SLOT_QUANTITY && (slot->use & SLOT_LIST));
    reader->shared = several ? shared_by_list(reader, slot_measure(slot)) : NULL;
    bool well = read_member(reader, slot, key, argument) &&
                (!(slot->use & SLOT_LIST) || read_list(reader, slot, key, argument));
    reader->shared = NULL;
    return well;
}
