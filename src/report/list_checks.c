/* The named checks with their limits and sources, for the terminal. */
#include <string.h>

#include "check/check.h"
#include "report/report.h"

/* A line of text is broken at blanks. */
enum { LINE_WIDTH = 100, KEY_WIDTH = 14 };

struct listing {
    struct arena *arena;
    const char *text;
};

static void put(struct listing *out, const char *text) {
    out->text = arena_format(out->arena, "%s%s", out->text, text);
}

/* "    limit     900 fpm ..." with what does not fit under it. */
static void put_field(struct listing *out, const char *key, const char *text) {
    put(out, arena_format(out->arena, "%*s%-*s", 4, "", KEY_WIDTH - 4, key));
    size_t column = KEY_WIDTH;
    for (const char *word = text; *word;) {
        size_t length = strcspn(word, " ");
        if (column > KEY_WIDTH && column + 1 + length > LINE_WIDTH) {
            put(out, arena_format(out->arena, "\n%*s", KEY_WIDTH, ""));
            column = KEY_WIDTH;
        } else if (column > KEY_WIDTH) {
            put(out, " ");
            column++;
        }
        put(out, arena_format(out->arena, "%.*s", (int)length, word));
        column += length;
        word += length;
        word += strspn(word, " ");
    }
    put(out, "\n");
}

static const char *source_text(struct arena *arena, const struct check *check) {
    if (check->source == SOURCE_NONE)
        return "the job itself, or the source named in the warning";
    const struct source *source = source_of(check->source);
    if (source->known == SOURCE_PRACTICE)
        return source_known_words(source->known);
    return arena_format(arena, "%s (%s)", source->text, source_known_words(source->known));
}

const char *report_checks(struct arena *arena) {
    struct listing out = {.arena = arena, .text = ""};
    size_t count;
    const struct check *all = checks(&count);
    for (size_t i = 0; i < count; i++) {
        put(&out, arena_format(arena, "%s%s\n", i ? "\n" : "", all[i].name));
        put_field(&out, "looks at", all[i].looks_at);
        put_field(&out, "limit", check_limit(&all[i], arena));
        put_field(&out, "source", source_text(arena, &all[i]));
    }
    return out.text;
}
