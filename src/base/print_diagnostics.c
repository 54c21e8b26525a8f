/* Diagnostics for people: the place, one sentence, the line with the span underlined, what can be done. */
#include "base/diagnostics.h"

#include <string.h>

#include "base/width.h"

enum { TERMINAL_WIDTH = 80, CUT_WIDTH = 3 }; /* columns; the dots where a line is cut */

/* ANSI X3.64 / ECMA-48 "select graphic rendition", only when colour is asked for. */
#define PLAIN "\033[0m"
#define BOLD "\033[1m"
#define GREEN "\033[1;32m"

struct level_words {
    const char *name;
    const char *paint;
};

static const struct level_words level_words[] = {
    [DIAGNOSTIC_NOTE] = {.name = "note", .paint = "\033[1;36m"},
    [DIAGNOSTIC_WARNING] = {.name = "warning", .paint = "\033[1;35m"},
    [DIAGNOSTIC_ERROR] = {.name = "error", .paint = "\033[1;31m"},
};

/* ---- Characters on a terminal ------------------------------------------------------------------------------------ */

/* Control characters, marks that turn the writing direction, and bytes that are no characters: a file must not be
 * able to steer the terminal, or to make a line look like another. */
static bool unprintable(uint32_t character) {
    return character < 0x20 || (character >= 0x7F && character < 0xA0) ||
           (character >= 0x200E && character <= 0x200F) || (character >= 0x2028 && character <= 0x202E) ||
           (character >= 0x2066 && character <= 0x2069) || character == TEXT_NOT_A_CHARACTER;
}

/* One character as it is shown: itself, or a stand-in of one column. */
struct shown {
    const char *bytes;
    size_t length; /* bytes to print */
    size_t step;   /* bytes in the text */
    size_t columns;
};

static struct shown shown_at(const char *bytes, size_t length) {
    uint32_t character;
    size_t step = text_character(bytes, length, &character);
    if (character == '\t')
        return (struct shown){.bytes = " ", .length = 1, .step = step, .columns = 1};
    if (unprintable(character))
        return (struct shown){.bytes = "?", .length = 1, .step = step, .columns = 1};
    return (struct shown){.bytes = bytes, .length = step, .step = step, .columns = character_columns(character)};
}

static size_t columns_in(const char *bytes, size_t length) {
    size_t columns = 0;
    for (size_t i = 0; i < length;) {
        struct shown shown = shown_at(bytes + i, length - i);
        columns += shown.columns;
        i += shown.step;
    }
    return columns;
}

/* Words of ours that may quote the job's. */
static void print_words(FILE *out, const char *words) {
    size_t length = strlen(words);
    for (size_t i = 0; i < length;) {
        struct shown shown = shown_at(words + i, length - i);
        fwrite(shown.bytes, 1, shown.length, out);
        i += shown.step;
    }
}

static void paint(FILE *out, bool colour, const char *code) {
    if (colour)
        fputs(code, out);
}

/* ---- The line of the text ---------------------------------------------------------------------------------------- */

/* Columns of a line, from 0: the marked ones and those that are shown. */
struct view {
    size_t begin, end; /* marked; at least one column */
    size_t low, high;  /* shown */
    bool cut_left, cut_right;
};

/* Chooses what is shown of a line `total` columns wide where `room` columns fit: all, or a part with the span in its
 * middle, or of a span that is too wide its start. */
static struct view choose_view(size_t total, size_t begin, size_t end, size_t room) {
    struct view view = {.begin = begin, .end = end, .high = total > end ? total : end};
    size_t width = view.high;
    if (width <= room)
        return view;
    size_t most = room - 2 * CUT_WIDTH;
    size_t shown_end = end - begin > most ? begin + most : end;
    size_t middle = begin + (shown_end - begin) / 2;
    size_t from = middle > room / 2 ? middle - room / 2 : 0;
    if (from > width - room)
        from = width - room;
    view.cut_left = from > 0;
    view.cut_right = from + room < width;
    view.low = from + (view.cut_left ? CUT_WIDTH : 0);
    view.high = from + room - (view.cut_right ? CUT_WIDTH : 0);
    return view;
}

static void print_line(FILE *out, const struct view *view, const char *line, size_t length) {
    if (view->cut_left)
        fputs("...", out);
    size_t column = 0;
    for (size_t i = 0; i < length && column <= view->high;) {
        struct shown shown = shown_at(line + i, length - i);
        if (column >= view->low && column + shown.columns <= view->high)
            fwrite(shown.bytes, 1, shown.length, out);
        else if (shown.columns == 2 && (column + 1 == view->low || column + 1 == view->high))
            fputc(' ', out); /* half of a wide character shows */
        column += shown.columns;
        i += shown.step;
    }
    if (view->cut_right)
        fputs("...", out);
    fputc('\n', out);
}

static void print_mark(FILE *out, const struct view *view, bool colour) {
    for (size_t column = view->cut_left ? view->low - CUT_WIDTH : 0; column < view->begin; column++)
        fputc(' ', out);
    paint(out, colour, GREEN);
    fputc('^', out);
    for (size_t column = view->begin + 1; column < view->end && column < view->high; column++)
        fputc('~', out);
    paint(out, colour, PLAIN);
    fputc('\n', out);
}

static void print_snippet(FILE *out, struct span at, struct place place, bool colour) {
    size_t length;
    const char *line = text_line(at.text, place.line, &length);
    size_t line_begin = (size_t)(line - at.text->bytes);
    size_t begin = at.begin - line_begin, end = at.end > at.begin ? at.end - line_begin : begin;
    begin = begin > length ? length : begin; /* at the newline itself */
    end = end > length ? length : end;       /* over several lines: the first */
    size_t begin_column = columns_in(line, begin), end_column = columns_in(line, end);
    if (end_column <= begin_column)
        end_column = begin_column + 1;
    int gutter = fprintf(out, "   %zu", place.line);
    size_t room = (size_t)(TERMINAL_WIDTH - gutter - 3);
    struct view view = choose_view(columns_in(line, length), begin_column, end_column, room);
    fputs(" | ", out);
    print_line(out, &view, line, length);
    fprintf(out, "%*s | ", gutter, "");
    print_mark(out, &view, colour);
}

/* ---- One diagnostic ---------------------------------------------------------------------------------------------- */

static void print_head(FILE *out, enum diagnostic_level level, struct span at, struct place place, const char *message,
                       bool colour) {
    if (at.text) {
        paint(out, colour, BOLD);
        print_words(out, at.text->name);
        fprintf(out, ":%zu:%zu: ", place.line, place.column);
        paint(out, colour, PLAIN);
    }
    paint(out, colour, level_words[level].paint);
    fprintf(out, "%s: ", level_words[level].name);
    paint(out, colour, PLAIN);
    print_words(out, message);
}

static struct place place_of(struct span at) {
    return at.text ? text_place(at.text, at.begin) : (struct place){0, 0};
}

void diagnostic_print(FILE *out, const struct diagnostic *diagnostic, bool colour) {
    struct place place = place_of(diagnostic->at);
    print_head(out, diagnostic->level, diagnostic->at, place, diagnostic->message, colour);
    fprintf(out, " [%s]\n", diagnostic->check);
    if (diagnostic->at.text)
        print_snippet(out, diagnostic->at, place, colour);
    if (diagnostic->hint) {
        fputs("   hint: ", out);
        print_words(out, diagnostic->hint);
        fputc('\n', out);
    }
    for (size_t i = 0; i < diagnostic->related.count; i++) {
        const struct diagnostic_related *related = &diagnostic->related.at[i];
        place = place_of(related->at);
        print_head(out, DIAGNOSTIC_NOTE, related->at, place, related->message, colour);
        fputc('\n', out);
        if (related->at.text)
            print_snippet(out, related->at, place, colour);
    }
}

/* ---- All of them ------------------------------------------------------------------------------------------------- */

/* "2 errors" with a comma before it when something stands there already. */
static void print_count(FILE *out, bool *something, size_t count, const char *words, bool plural) {
    if (count == 0)
        return;
    fprintf(out, "%s%zu %s%s", *something ? ", " : "", count, words, plural && count != 1 ? "s" : "");
    *something = true;
}

/* How many of each level are printed.  Gives how many are not. */
static size_t share_page(const struct diagnostics *all, size_t printed[DIAGNOSTIC_ERROR + 1]) {
    size_t room = DIAGNOSTICS_PRINTED, left = 0;
    for (size_t i = 0; i < all->all.count; i++)
        if (!all->all.at[i]->accepted_because)
            printed[all->all.at[i]->level]++;
    for (int level = DIAGNOSTIC_ERROR; level >= DIAGNOSTIC_NOTE; level--) {
        size_t more = printed[level] > room ? printed[level] - room : 0;
        printed[level] -= more;
        room -= printed[level];
        left += more;
    }
    return left;
}

void diagnostics_print(FILE *out, const struct diagnostics *all, bool colour) {
    size_t accepted = 0, printed[DIAGNOSTIC_ERROR + 1] = {0};
    size_t left = share_page(all, printed);
    for (size_t i = 0; i < all->all.count; i++) {
        const struct diagnostic *diagnostic = all->all.at[i];
        if (diagnostic->accepted_because)
            accepted++;
        else if (printed[diagnostic->level] && printed[diagnostic->level]--)
            diagnostic_print(out, diagnostic, colour);
    }
    bool something = false;
    print_count(out, &something, all->error_count, "error", true);
    print_count(out, &something, all->warning_count, "warning", true);
    print_count(out, &something, accepted, "accepted", false);
    print_count(out, &something, all->dropped + left, "not shown", false);
    if (something)
        fputc('\n', out);
}
