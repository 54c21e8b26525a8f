/* The work behind the rules of the scanner and the parser. */
#include "lang/scan.h"

#include <ctype.h>
#include <string.h>

#include "base/hash.h"
#include "grammar/parser.h"

struct diagnostic *scan_fault(struct scan *scan, struct span at, const char *format, ...) {
    if (scan->faulty)
        return NULL;
    scan->faulty = true;
    va_list list;
    va_start(list, format);
    const char *message = arena_format_list(scan->arena, format, list);
    va_end(list);
    return diagnose(scan->diagnostics, DIAGNOSTIC_ERROR, "syntax", at, "%s", message);
}

void scan_hint(struct scan *scan, struct diagnostic *diagnostic, const char *text) {
    if (diagnostic)
        diagnostic_hint(scan->diagnostics, diagnostic, "%s", text);
}

const char *scan_matched(const struct scan *scan, size_t *length) {
    *length = scan->at.end - scan->at.begin;
    return scan->text->bytes + scan->at.begin;
}

struct span scan_place(struct scan *scan, const char *match, size_t length) {
    uint32_t begin = (uint32_t)(match - scan->text->bytes);
    return scan->at = (struct span){.text = scan->text, .begin = begin, .end = begin + (uint32_t)length};
}

struct span scan_join(const struct scan *scan, const struct span *parts, int count) {
    if (count > 0)
        return span_join(parts[0], parts[count - 1]);
    return (struct span){.text = scan->text, .begin = scan->last.end, .end = scan->last.end};
}

/* ---- Lines and braces -------------------------------------------------------------------------------------------- */

static bool starts_statement(int kind) {
    return kind == 0 || kind == END || kind == OPEN || kind == CLOSE || kind == UNCLOSED;
}

/* How many bytes of blank stand before `offset` on its line; 0 also when anything else does. */
static uint32_t indent_at(const struct scan *scan, uint32_t offset) {
    uint32_t begin = offset;
    while (begin > 0 && (scan->text->bytes[begin - 1] == ' ' || scan->text->bytes[begin - 1] == '\t'))
        begin--;
    return begin == 0 || scan->text->bytes[begin - 1] == '\n' ? offset - begin : 0;
}

static bool begins_line(const struct scan *scan, uint32_t offset) {
    uint32_t begin = offset - indent_at(scan, offset);
    return begin == 0 || scan->text->bytes[begin - 1] == '\n';
}

int scan_take(struct scan *scan, int kind) {
    scan->behind = kind;
    scan->before = scan->last;
    scan->last = scan->at;
    scan->measured = false;
    return kind;
}

static int push(struct scan *scan, struct span at) {
    scan->open[scan->depth++] = (struct brace){.at = at, .indent = scan->indent};
    return scan_take(scan, OPEN);
}

/* Where a { is missing, judged by the line behind it: it stands further in than the statement does, and no comma
 * joins them. */
static bool lacks_open(const struct scan *scan, char next) {
    if (scan->missing != MISSING_OPEN || starts_statement(scan->behind) || scan->depth == NESTING_LIMIT)
        return false;
    return next != '{' && next != '}' && next != 0 && next != '#' && indent_at(scan, scan->at.end) > scan->indent;
}

bool scan_newline(struct scan *scan, struct span *at, char next) {
    bool open = lacks_open(scan, next);
    scan->at.end = scan->at.begin + 1;
    *at = scan->at;
    if (scan->behind == COMMA)
        return false; /* the line goes on */
    if (next == '{' && !starts_statement(scan->behind))
        return false; /* the block of the statement */
    if (open) {
        scan_hint(scan, scan_fault(scan, scan->last, "the lines below stand further in, but no { opens a block here"),
                  "put { at the end of this line");
        push(scan, *at);
    } else {
        scan_take(scan, END);
    }
    return true;
}

/* Blocks deeper than allowed become part of the deepest one. */
int scan_open(struct scan *scan) {
    if (scan->depth < NESTING_LIMIT)
        return push(scan, scan->at);
    if (scan->too_deep++ == 0)
        scan_fault(scan, scan->at, "blocks stand in blocks more than %d deep", NESTING_LIMIT);
    return scan_take(scan, END);
}

/* Where a } is one too many, judged by the lines behind it: it ends a line, and they stand further in than what it
 * closes. */
static bool closes_early(const struct scan *scan, char next) {
    if (scan->missing != MISSING_OPEN || scan->depth == 0 || begins_line(scan, scan->at.begin))
        return false;
    const struct brace *open = &scan->open[scan->depth - 1];
    const char *bytes = scan->text->bytes, *below = bytes + scan->at.end;
    if (next == ' ' || next == '\t' || next == '\r') { /* else it is a newline, or the line goes on */
        below++;
        below += strspn(below, " \t\r");
        next = *below;
    }
    if (next != '\n' || !memchr(bytes + open->at.end, '\n', scan->at.begin - open->at.end))
        return false;
    below++;
    below += strspn(below, " \t\r\n");
    return *below && *below != '}' && indent_at(scan, (uint32_t)(below - bytes)) > open->indent;
}

int scan_close(struct scan *scan, char next) {
    if (scan->too_deep > 0) {
        scan->too_deep--;
        return scan_take(scan, END);
    }
    if (closes_early(scan, next)) {
        scan_hint(scan, scan_fault(scan, scan->at, "this } closes the block, but the lines below stand further in"),
                  "take it away");
        return scan_take(scan, END);
    }
    if (scan->depth == 0) {
        scan_hint(scan, scan_fault(scan, scan->at, "this } closes nothing"),
                  "take it away, or look for a { that is missing above");
        return scan_take(scan, END);
    }
    scan->depth--;
    return scan_take(scan, CLOSE);
}

static int unclosed(struct scan *scan, bool at_end) {
    struct brace *open = &scan->open[--scan->depth];
    if (scan->swallowed > open->at.begin) /* its } is in a text without an end, which has been diagnosed */
        return scan_take(scan, UNCLOSED);
    struct diagnostic *diagnostic =
        diagnose(scan->diagnostics, DIAGNOSTIC_ERROR, "syntax", open->at, "this { is never closed");
    diagnostic_hint(scan->diagnostics, diagnostic, "close the block with }");
    if (!at_end)
        diagnostic_relate(scan->diagnostics, diagnostic, scan->at, "a } is missing before this");
    return scan_take(scan, UNCLOSED);
}

int scan_end(struct scan *scan) {
    return scan->depth > 0 ? unclosed(scan, true) : 0;
}

/* ---- Words ------------------------------------------------------------------------------------------------------- */

static bool is_times(const struct scan *scan, const char *word, size_t length) {
    if (scan->behind != NUMBER && scan->behind != UNIT)
        return false;
    if (word[0] != 'x' && word[0] != 'X')
        return false;
    return length == 1 || isdigit((unsigned char)word[1]) || (word[1] == '.' && isdigit((unsigned char)word[2]));
}

/* Whether the first word of a line stands as far out as the statement whose block is open, though what came before
 * stood further in, or on the line of the block's { itself: then the block's } is missing. */
static bool lacks_close(struct scan *scan) {
    if (scan->missing != MISSING_CLOSE || scan->depth == 0)
        return false;
    struct brace *open = &scan->open[scan->depth - 1];
    if (!begins_line(scan, scan->at.begin)) {
        if (open->inner == 0)
            open->inner = UINT32_MAX;
        return false;
    }
    uint32_t indent = indent_at(scan, scan->at.begin);
    if (open->inner == 0)
        open->inner = indent;
    return indent <= open->indent && open->inner > open->indent;
}

size_t scan_word_length(struct scan *scan) {
    size_t length;
    const char *word = scan_matched(scan, &length);
    if (is_times(scan, word, length))
        return 1;
    if (starts_statement(scan->behind) && lacks_close(scan))
        return 0;
    return length;
}

/* The word as text.  The same few come again and again, so one that was met lately is not copied again. */
static const char *kept_word(struct scan *scan, const char *word, size_t length) {
    const char **kept = &scan->words[hash_bytes(HASH_EMPTY, word, length) % WORDS_KEPT];
    if (!*kept || strncmp(*kept, word, length) != 0 || (*kept)[length])
        *kept = arena_copy(scan->arena, word, length);
    return *kept;
}

static void start_statement(struct scan *scan) {
    if (scan->missing != MISSING_NOTHING && begins_line(scan, scan->at.begin))
        scan->indent = indent_at(scan, scan->at.begin);
}

int scan_word(struct scan *scan, const char **text, const struct measure **measure) {
    size_t length;
    const char *word = scan_matched(scan, &length);
    if (length == 0)
        return unclosed(scan, false);
    if (is_times(scan, word, length))
        return scan_take(scan, TIMES);
    if (scan->behind == NUMBER && !scan->measured && (*measure = measure_find(word, length)))
        return scan_take(scan, UNIT);
    if (starts_statement(scan->behind))
        start_statement(scan);
    if (length > WORD_LIMIT) {
        scan_fault(scan, scan->at, "a name this long cannot be told from the next: at most %d letters", WORD_LIMIT);
        length = WORD_LIMIT;
    }
    *text = kept_word(scan, word, length);
    return scan_take(scan, WORD);
}

bool scan_times(struct scan *scan) {
    if (is_times(scan, "x", 1)) {
        scan_take(scan, TIMES);
        return true;
    }
    scan_stray(scan);
    return false;
}

/* ---- Text in quotes ---------------------------------------------------------------------------------------------- */

/* Feet and inches by their marks, right behind a number.  False: it is something else. */
static bool is_mark(const struct scan *scan) {
    return scan->behind == NUMBER && scan->last.end == scan->at.begin;
}

static void diagnose_mark(struct scan *scan, const char *marks, const char *unit) {
    struct diagnostic *diagnostic =
        scan_fault(scan, span_join(scan->last, scan->at), "%s are written with their unit, not with a mark", marks);
    if (diagnostic)
        diagnostic_hint(scan->diagnostics, diagnostic, "write %.*s %s", (int)(scan->last.end - scan->last.begin),
                        scan->text->bytes + scan->last.begin, unit);
}

/* Takes \" and \\ for what they mean; the place of any other escape is noted in `bad`. */
static char *unescape(struct scan *scan, const char *bytes, size_t length, size_t *bad) {
    char *text = arena_copy(scan->arena, bytes, length);
    size_t end = 0;
    for (size_t i = 0; i < length; i++) {
        if (bytes[i] == '\\' && i + 1 < length) {
            i++;
            if (bytes[i] != '"' && bytes[i] != '\\' && *bad == length)
                *bad = i - 1;
        }
        text[end++] = bytes[i];
    }
    text[end] = 0;
    return text;
}

static void unended(struct scan *scan, const char *bytes, size_t length) {
    scan_hint(scan, scan_fault(scan, scan->at, "this text does not end on its line"), "put \" at its end");
    if (memchr(bytes, '}', length))
        scan->swallowed = scan->at.begin;
}

bool scan_string(struct scan *scan, const char **text, bool closed) {
    size_t length;
    const char *bytes = scan_matched(scan, &length);
    if (is_mark(scan)) {
        scan->at.end = scan->at.begin + 1;
        diagnose_mark(scan, "inches", "in");
        return false;
    }
    if (!closed)
        while (length > 1 && (bytes[length - 1] == '\r' || bytes[length - 1] == ' '))
            length--;
    scan->at.end = scan->at.begin + (uint32_t)length;
    size_t inside = length - (closed ? 2 : 1);
    size_t bad = inside;
    *text = unescape(scan, bytes + 1, inside, &bad);
    if (!closed)
        unended(scan, bytes, length);
    if (bad < inside) {
        uint32_t begin = scan->at.begin + 1 + (uint32_t)bad;
        scan_hint(
            scan,
            scan_fault(scan, (struct span){scan->text, begin, begin + 2}, "a \\ in text goes only before \" or \\"),
            "write \\\\ for a single \\");
    }
    scan_take(scan, STRING);
    return true;
}

/* ---- What does not belong ---------------------------------------------------------------------------------------- */

/* Characters that word processors and habit put in place of others. */
static const struct lookalike {
    const char *bytes;
    const char *message, *hint;
} lookalikes[] = {
    {"\xE2\x80\x9C", "curly quotes are not read", "write straight ones: \"like this\""},
    {"\xE2\x80\x9D", "curly quotes are not read", "write straight ones: \"like this\""},
    {"\xE2\x80\x98", "curly quotes are not read", "write straight ones: \"like this\""},
    {"\xE2\x80\x99", "curly quotes are not read", "write straight ones: \"like this\""},
    {"\xE2\x80\x93", "a long dash is not read", "write -"},
    {"\xE2\x80\x94", "a long dash is not read", "write -"},
    {"\xC2\xBD", "fractions are written with a slash", "write 1/2"},
    {"\xC2\xBC", "fractions are written with a slash", "write 1/4"},
    {"\xC2\xBE", "fractions are written with a slash", "write 3/4"},
    {"'", "text goes in double quotes", "write \"like this\""},
    {".", "a full stop does not fit here", "take it away"},
    {":", "a colon does not fit here", "take it away"},
    {"=", "'=' does not fit here", "take it away: the value stands right behind its word"},
    {"$", "money is written without its sign", "write only the number"},
    {"/", "'/' does not fit here", "a remark begins with #"},
    {"(", "brackets are not used here", "a block stands in { }"},
    {"[", "brackets are not used here", "a block stands in { }"},
};

static bool is_utf8(const char *bytes, size_t length) {
    return text_first_bad_byte(bytes, length) == length;
}

void scan_stray(struct scan *scan) {
    size_t length;
    const char *bytes = scan_matched(scan, &length);
    if (*bytes == '\'' && is_mark(scan)) {
        diagnose_mark(scan, "feet", "ft");
        return;
    }
    for (size_t i = 0; i < sizeof lookalikes / sizeof lookalikes[0]; i++)
        if (strncmp(bytes, lookalikes[i].bytes, strlen(lookalikes[i].bytes)) == 0) {
            scan_hint(scan, scan_fault(scan, scan->at, "%s", lookalikes[i].message), lookalikes[i].hint);
            return;
        }
    if (is_utf8(bytes, length) && (unsigned char)*bytes >= ' ' && *bytes != 0x7F)
        scan_fault(scan, scan->at, "'%.*s' has no meaning here", (int)length, bytes);
    else
        scan_fault(scan, scan->at, "a character that cannot be shown (code %02X) stands here",
                   (unsigned)(unsigned char)*bytes);
}

void scan_misplaced(struct scan *scan, struct span at, bool wants_number) {
    if (wants_number)
        scan_hint(
            scan,
            scan_fault(scan, scan->behind == TIMES ? scan->last : scan->before, "a number is missing behind this x"),
            "write a size like 18 x 14");
    else if (scan->behind == TIMES)
        scan_fault(scan, at, "a size has at most three numbers, like 20 x 25 x 1");
    else if (scan->behind == OPEN)
        scan_hint(scan, scan_fault(scan, at, "this { does not stand behind a statement"),
                  "write what the block belongs to before it");
    else if (scan->behind == COMMA)
        scan_hint(scan, scan_fault(scan, at, "a statement cannot begin with a comma"),
                  "a line that goes on ends in its comma");
    else
        scan_hint(scan, scan_fault(scan, at, "a statement begins with a word"), "write it like straight 16 ft");
}
