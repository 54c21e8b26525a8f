/* From a text to its syntax tree. */
#include <ctype.h>
#include <string.h>

#include "lang/scan.h"

#include "grammar/parser.h"
#include "grammar/scanner.h"

/* Where the text in quotes or the remark that begins at `i` ends, or `i` when neither does. */
static size_t skip_unread(const char *bytes, size_t length, size_t i) {
    char end = bytes[i];
    bool mark = end == '"' && i > 0 && isdigit((unsigned char)bytes[i - 1]); /* of inches */
    if (mark || (end != '"' && end != '#'))
        return i;
    for (i++; i < length && bytes[i] != '\n'; i++) {
        if (end == '"' && bytes[i] == '\\' && i + 1 < length && bytes[i + 1] != '\n')
            i++;
        else if (end == '"' && bytes[i] == '"')
            break;
    }
    return i;
}

/* What is missing when the braces do not come out even. */
static enum missing missing_braces(const struct text *text) {
    size_t open = 0, close = 0;
    for (size_t i = 0; i < text->length; i++) {
        i = skip_unread(text->bytes, text->length, i);
        if (i < text->length) {
            open += text->bytes[i] == '{';
            close += text->bytes[i] == '}';
        }
    }
    return open > close ? MISSING_CLOSE : open < close ? MISSING_OPEN : MISSING_NOTHING;
}

void syntax_parse(struct syntax *syntax, const struct text *text, struct arena *arena,
                  struct diagnostics *diagnostics) {
    struct scan *scan = ARENA_NEW(arena, struct scan);
    *scan = (struct scan){.text = text, .arena = arena, .diagnostics = diagnostics, .missing = missing_braces(text)};
    size_t mark = text->length >= 3 && memcmp(text->bytes, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0; /* byte order mark */
    scan->last = (struct span){.text = text, .begin = (uint32_t)mark, .end = (uint32_t)mark};

    void *scanner = NULL;
    job_lex_init_extra(scan, &scanner);
    /* flex marks the end of each match in the text while it looks at it, and puts back what was there. */
    job__scan_buffer((char *)text->bytes + mark, text->length - mark + 2, scanner);
    job_parse(scanner, scan);

    if (scan->result)
        for (size_t i = 0; i < scan->result->list.count; i++)
            *list_add(arena, &syntax->statements) = scan->result->list.at[i];
}
