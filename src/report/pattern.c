/* One pattern at full size: which is meant, and how several stand beside each other; and the list of parts. */
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "draw/lettering.h"
#include "draw/svg.h"
#include "metal/metal.h"
#include "report/drawings.h"
#include "report/figures.h"
#include "report/route_figures.h"
#include "report/report.h"

/* ---- Which is meant ---------------------------------------------------------------------------------------------- */

/* "A, B and C". */
static const char *letters_of(struct arena *arena, const struct part *part) {
    const char *text = "";
    size_t count = part->blanks.count;
    for (size_t b = 0; b < count; b++)
        text = arena_format(arena, "%s%s%s", text,
                            b == 0           ? ""
                            : b + 1 == count ? " and "
                                             : ", ",
                            part->blanks.at[b].letter);
    return text;
}

static const struct blank *blank_of(const struct part *part, const char *letter) {
    for (size_t b = 0; b < part->blanks.count; b++)
        if (strcasecmp(part->blanks.at[b].letter, letter) == 0)
            return &part->blanks.at[b];
    return NULL;
}

static const struct part *part_of(const struct job *job, unsigned long number) {
    size_t count = job->metal ? job->metal->parts.count : 0;
    return number >= 1 && number <= count ? job->metal->parts.at[number - 1] : NULL;
}

/* Whether a part's title holds the word, in whatever case. */
static bool mentions(const struct part *part, const char *word) {
    size_t length = strlen(word);
    for (const char *at = part->title; *at; at++)
        if (strncasecmp(at, word, length) == 0)
            return true;
    return false;
}

/* More parts than this are not named in a message. */
enum { PARTS_NAMED = 6 };

/* For who wrote a word and not a number: the parts whose titles hold it. */
static const char *parts_like(const struct job *job, const char *word) {
    const char *text = "";
    size_t found = 0;
    for (size_t i = 0; *word && i < job->metal->parts.count; i++) {
        const struct part *part = job->metal->parts.at[i];
        if (!mentions(part, word) || found++ >= PARTS_NAMED)
            continue;
        text = arena_format(job->arena, "%s%s%zu (%s)", text, *text ? ", " : "", part->number, part->title);
    }
    return found > PARTS_NAMED ? arena_format(job->arena, "%s, and %zu more", text, found - PARTS_NAMED) : text;
}

static const char *no_such_part(const struct job *job, const char *words) {
    size_t count = job->metal ? job->metal->parts.count : 0;
    if (!count)
        return "there is nothing to make in this job";
    const char *like = parts_like(job, words);
    if (*like)
        return arena_format(job->arena, "a part is asked for by its number; '%s' may be part %s", words, like);
    if (count == 1)
        return arena_format(job->arena, "there is no part '%s'; the only one is 1", words);
    return arena_format(job->arena, "there is no part '%s'; they are 1 to %zu", words, count);
}

bool report_find_pattern(const struct job *job, const char *words, struct pattern_order *order, const char **why) {
    char *letter = NULL;
    size_t digits = strspn(words, "0123456789");
    unsigned long number = digits ? strtoul(words, &letter, 10) : 0;
    order->blank = NULL;
    order->part = part_of(job, number);
    if (!order->part) {
        *why = no_such_part(job, words);
        return false;
    }
    if (!*letter)
        return true;
    order->blank = blank_of(order->part, letter);
    if (!order->blank)
        *why = arena_format(job->arena, "part %zu has no blank '%s'; it has %s", order->part->number, letter,
                            letters_of(job->arena, order->part));
    return order->blank;
}

/* ---- Writing ----------------------------------------------------------------------------------------------------- */

bool report_pattern(const struct job *job, const struct pattern_order *order, struct output *out) {
    size_t count = order->blank ? 1 : order->part->blanks.count;
    const struct blank *first = order->blank ? order->blank : order->part->blanks.at;
    struct sheet **sheets = ARENA_ARRAY(job->arena, struct sheet *, count + 1);
    for (size_t i = 0; i < count; i++)
        sheets[i] = sheet_lay_out(figure_pattern(job->arena, job, order->part, &first[i]), SHEET_FULL_SIZE);
    return sheet_write_svg(count == 1 ? sheets[0] : sheets_beside(job->arena, sheets, count), out);
}

const char *report_missing_font(void) {
    return lettering_missing();
}

/* ---- The list of parts ------------------------------------------------------------------------------------------- */

static const char *part_line(struct arena *arena, const struct part *part) {
    const char *blanks = part->blanks.count == 1 ? "blank" : "blanks";
    return arena_format(arena, "%4zu  %s: %s %s, %zu wanted\n", part->number, part->title, blanks,
                        letters_of(arena, part), part->uses.count);
}

const char *report_parts(const struct job *job) {
    size_t count = job->metal ? job->metal->parts.count : 0, length = 0;
    const char **lines = ARENA_ARRAY(job->arena, const char *, count + 1);
    for (size_t i = 0; i < count; i++) {
        lines[i] = part_line(job->arena, job->metal->parts.at[i]);
        length += strlen(lines[i]);
    }
    char *text = ARENA_ARRAY(job->arena, char, length + 1), *end = text;
    for (size_t i = 0; i < count; i++)
        end = stpcpy(end, lines[i]);
    return text;
}

/* ---- What stands in the folder ----------------------------------------------------------------------------------- */

static bool is_current(const void *what, size_t number, const char *letter) {
    if (route_has_drawing(what, number, letter))
        return true;
    const struct part *part = part_of(what, number);
    return part && (!*letter || blank_of(part, letter));
}

bool report_may_draw(const struct job *job, struct drawings *drawings) {
    return drawings_have_room(drawings, is_current, job);
}

void report_sweep(const struct job *job, const struct drawings *drawings) {
    drawings_sweep(drawings, is_current, job);
}
