/* The reader: each statement's form is found and read, then its row or its kind of piece takes what was read. */
#include "base/constant.h"
#include "model/build.h"

#include <math.h>
#include <stdarg.h>
#include <string.h>

#include "model/estimate.h"
#include "model/variant.h"

/* ---- Faults ------------------------------------------------------------------------------------------------------ */

static void build_fault(struct build *build) {
    if (build->faulty)
        *build->faulty = true;
}

struct diagnostic *build_error(struct build *build, const char *check, struct span at, const char *format, ...) {
    va_list list;
    va_start(list, format);
    const char *message = arena_format_list(build->job->arena, format, list);
    va_end(list);
    build_fault(build);
    return diagnose(build->job->diagnostics, DIAGNOSTIC_ERROR, check, at, "%s", message);
}

/* ---- Values ------------------------------------------------------------------------------------------------------ */

/* A limit as it is shown, with its unit. */
static const char *limit_text(const struct build *build, double value, const struct range *range) {
    if (range->show == MEASURE_USE_COUNT)
        return arena_format(build->job->arena, "%.8g%s", value / range->factor, range->unit);
    const struct measure_show *show = measure_show(build->job->system, range->show);
    double eighths = value / (INCH / 8);
    if (show->by_tape && fabs(eighths - round(eighths)) < 1e-6) /* "5 in", not 0.41666667 ft */
        return measure_text(build->job->arena, build->job->system, range->show, value);
    return arena_format(build->job->arena, "%.8g %s", (value - show->offset) / show->factor, show->unit);
}

bool build_within(struct build *build, struct span at, double value, const struct range *range) {
    /* Written so that a value that is not a number is outside. */
    if (value <= range->high && (range->above ? value > range->low : value >= range->low))
        return true;
    struct diagnostic *error =
        build_error(build, "value", at, "%s of %s is out of range: expected %s %s, at most %s", range->what,
                    limit_text(build, value, range), range->above ? "more than" : "at least",
                    limit_text(build, range->low, range), limit_text(build, range->high, range));
    if (range->hint && value <= range->low)
        diagnostic_hint(build->job->diagnostics, error, "%s", range->hint);
    return false;
}

bool build_whole(struct build *build, const struct argument *argument, const char *what, int low, int high,
                 int *value) {
    if (argument->number >= low && argument->number <= high && argument->number == floor(argument->number)) {
        *value = (int)argument->number;
        return true;
    }
    build_error(build, "value", argument->at, "%s must be a whole number from %d to %d", what, low, high);
    return false;
}

/* The shape that a size's word names, or that its count of dimensions means.  False: no such shape. */
static bool shape_of_size(const struct argument *argument, enum shape *shape) {
    *shape = argument->count == 1 ? SHAPE_ROUND : SHAPE_RECTANGULAR;
    if (!argument->text)
        return true;
    for (int i = 0; i < SHAPE_COUNT; i++)
        if (strcmp(argument->text, shape_choices[i]) == 0) {
            *shape = (enum shape)i;
            return (argument->count == 1) == (*shape == SHAPE_ROUND);
        }
    return false;
}

bool build_size(struct build *build, const struct argument *argument, struct duct_size *size) {
    enum shape shape;
    if (argument->count > 2 || !shape_of_size(argument, &shape)) {
        struct diagnostic *error =
            build_error(build, "value", argument->at, "expected a width and a height, or one diameter for round duct");
        diagnostic_hint(build->job->diagnostics, error, "%s",
                        build->system == MEASURE_METRIC ? "350 x 200, or 200 round, or 350 x 200 oval"
                                                        : "14 x 8, or 8 round, or 14 x 8 oval");
        return false;
    }
    for (int i = 0; i < argument->count; i++)
        if (!build_within(build, argument->at, argument->point[i], &range_side))
            return false;
    double height = argument->count > 1 ? argument->point[1] : argument->point[0];
    *size = (struct duct_size){.shape = shape, .width = argument->point[0], .height = height};
    return true;
}

static const struct row *row_of(const struct reading *reading) {
    return (const struct row *)(const void *)reading->form;
}

static void *member_of(const struct build *build, const struct row *row, size_t offset) {
    char *whole = row->setting ? (char *)build->settings : (char *)build->thing;
    return whole + offset;
}

static void keep_place(const struct build *build, const struct row *row, struct span at) {
    if (row->at_offset)
        *(struct span *)member_of(build, row, row->at_offset) = at;
}

void take_text(struct build *build, const struct reading *reading) {
    const struct row *row = row_of(reading);
    *(const char **)member_of(build, row, row->offset) = reading->argument[0].text;
    keep_place(build, row, reading->argument[0].at);
}

void take_number(struct build *build, const struct reading *reading) {
    const struct row *row = row_of(reading);
    const struct argument *value = &reading->argument[0];
    if (!build_within(build, value->at, value->number, row->range))
        return;
    *(double *)member_of(build, row, row->offset) = value->number;
    keep_place(build, row, value->at);
}

/* ---- Statements -------------------------------------------------------------------------------------------------- */

/* Rejects figures that are not finite or too great to compute with. */
static bool figures_sane(struct build *build, const struct reading *reading) {
    const double most = 1e15;
    for (size_t i = 0; i < SLOT_LIMIT && reading->form->slots[i].kind != SLOT_NONE; i++)
        for (const struct argument *a = &reading->argument[i]; a && a->given; a = a->next) {
            const double figures[] = {a->number, a->second, a->point[0], a->point[1], a->point[2]};
            for (size_t f = 0; f < sizeof figures / sizeof figures[0]; f++)
                if (!(fabs(figures[f]) <= most)) {
                    build_error(build, "value", a->at, "this number is too great to mean anything");
                    return false;
                }
        }
    return true;
}

void build_read(struct build *build, struct reading *reading, const struct form *form,
                const struct statement *statement) {
    form_read(reading, form, statement, build->system, &build->table, build->job->diagnostics);
    if (!reading->faulty && !figures_sane(build, reading))
        reading->faulty = true;
    if (reading->faulty)
        build_fault(build);
    else
        estimates_take(build, reading);
}

/* A single statement that stands twice: an error, but in a shop the later one holds, and that is noted. */
static void note_repeat(struct build *build, const struct row *row, size_t index, const struct statement *statement) {
    struct seen *seen = &build->seen[index];
    if (row->repeats)
        return;
    if (seen->block == build->block) {
        struct diagnostics *all = build->job->diagnostics;
        if (build->place == IN_SHOP) {
            struct diagnostic *note = diagnose(all, DIAGNOSTIC_NOTE, "override", statement->at,
                                               "this '%s' overrides an earlier one", statement->word);
            diagnostic_relate(all, note, seen->at, "overridden here");
        } else {
            struct diagnostic *error =
                build_error(build, "repeat", statement->at, "'%s' is given twice", statement->word);
            diagnostic_relate(all, error, seen->at, "first given here");
            diagnostic_hint(all, error, "leave out one of them%s",
                            row->form.word && strcmp(row->form.word, "size") == 0
                                ? "; where the size changes along the run, write: transition over 24 in"
                                : "");
        }
    }
    *seen = (struct seen){.block = build->block, .at = statement->at};
}

static size_t index_of(const struct form_table *table, const struct form *form) {
    size_t i = 0;
    while (i < table->count && table->forms[i] != form)
        i++;
    return i;
}

static void take_row(struct build *build, const struct row *row, size_t index, const struct statement *statement) {
    struct reading reading = {0};
    build_read(build, &reading, &row->form, statement);
    if (!reading.faulty)
        note_repeat(build, row, index, statement);
    /* A faulty statement with a block is taken all the same, so that its block is read and its name is known. */
    if (!reading.faulty || row->form.block != BLOCK_NONE)
        row->take(build, &reading);
}

static void take_known(struct build *build, const struct statement *statement, const struct form *form) {
    size_t index = index_of(&build->table, form);
    if (index < build->statement_count)
        take_row(build, (const struct row *)(const void *)form, index, statement);
    else
        take_piece(build, build->pieces->kinds[index - build->statement_count], statement);
}

/* What a statement declares; a job or a settings block has no name but its word or title. */
static const char *declared_name(const struct statement *statement) {
    return statement->values.count && statement->values.at[0].text ? statement->values.at[0].text : statement->word;
}

static void take_statement(struct build *build, const struct statement *statement) {
    const struct form *form = form_find(&build->table, statement, build->place, build->job->diagnostics);
    if (!form) {
        build_fault(build);
        return;
    }
    const char *outer = build->where;
    if (statement->has_block || !outer)
        build->where = declared_name(statement);
    take_known(build, statement, form);
    build->where = outer;
}

void build_block(struct build *build, const struct statement *statement, enum form_place place, void *thing,
                 struct settings *settings, bool *faulty) {
    enum form_place outer_place = build->place;
    unsigned outer_block = build->block;
    void *outer_thing = build->thing;
    struct settings *outer_settings = build->settings;
    bool *outer_faulty = build->faulty;

    build->place = place;
    build->block = place == IN_SHOP ? 1 : ++build->blocks; /* all shops are one block, where the later overrides */
    build->thing = thing;
    build->settings = settings;
    build->faulty = faulty;
    for (size_t i = 0; i < statement->block.count; i++)
        take_statement(build, statement->block.at[i]);

    build->place = outer_place;
    build->block = outer_block;
    build->thing = outer_thing;
    build->settings = outer_settings;
    build->faulty = outer_faulty;
}

/* ---- The whole --------------------------------------------------------------------------------------------------- */

/* The units that a block asks for, known before its other statements are read.  False: it says nothing. */
bool build_units(const struct statement *block, enum measure_system *system) {
    for (size_t i = 0; i < block->block.count; i++) {
        const struct statement *s = block->block.at[i];
        if (strcmp(s->word, "units") == 0 && s->values.count == 1 && s->values.at[0].kind == VALUE_WORD) {
            *system = strcmp(s->values.at[0].text, "metric") == 0 ? MEASURE_METRIC : MEASURE_US;
            return true;
        }
    }
    return false;
}

static void find_units(struct build *build) {
    struct job *job = build->job;
    for (size_t i = 0; i < job->syntax->statements.count; i++) {
        const struct statement *s = job->syntax->statements.at[i];
        if (strcmp(s->word, "job") != 0)
            continue;
        build->file = s->at.text;
        if (build_units(s, &job->system))
            break;
    }
    build->system = job->system;
}

static void string_forms(struct build *build) {
    struct arena *arena = build->job->arena;
    struct form_table statements = model_forms(arena);
    build->statement_count = statements.count;
    build->table.count = statements.count + build->pieces->count;
    const struct form **forms = ARENA_ARRAY(arena, const struct form *, build->table.count);
    for (size_t i = 0; i < statements.count; i++)
        forms[i] = statements.forms[i];
    for (size_t i = 0; i < build->pieces->count; i++)
        forms[statements.count + i] = &build->pieces->kinds[i]->form;
    build->table.forms = forms;
    build->seen = ARENA_ARRAY(arena, struct seen, build->table.count);
}

/* Only if there are no errors: what seems to be missing may be in a statement that could not be read. */
static void require_job(struct job *job) {
    if (job->title || job->diagnostics->error_count)
        return;
    struct span start = {.text = job->syntax->texts.count ? job->syntax->texts.at[0] : NULL};
    struct diagnostic *error =
        diagnose(job->diagnostics, DIAGNOSTIC_ERROR, "job", start, "there is no 'job': expected its title and terms");
    diagnostic_hint(job->diagnostics, error, "job \"Millrace pottery studio\" { customer \"Millrace Potters\" }");
}

void model_build(struct job *job, const struct piece_table *pieces) {
    struct build build = {.job = job, .pieces = pieces, .place = IN_FILE, .blocks = 1, .thing = job};
    build.settings = &job->settings;
    build.entries.arena = job->arena;
    find_units(&build);
    string_forms(&build);
    for (size_t i = 0; i < job->syntax->statements.count; i++)
        take_statement(&build, job->syntax->statements.at[i]);
    variant_apply(job);
    shop_defaults(job);
    job->shop.system = job->system;
    require_job(job);
}
