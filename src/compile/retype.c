/* The job compiled anew with other lines in its text. */
#include "compile/retype.h"

#include <string.h>

#include "lang/syntax.h"
#include "model/variant.h"

static bool is_in(const struct text *text, const struct line_edit *edit) {
    return edit->at.text == text && edit->at.begin <= edit->at.end && edit->at.end <= text->length;
}

/* The edit that is next by its place; `done`: those that were. */
static size_t next_of(const struct line_edit *edits, size_t count, const bool *done) {
    size_t next = count;
    for (size_t i = 0; i < count; i++)
        if (!done[i] && (next == count || edits[i].at.begin < edits[next].at.begin))
            next = i;
    return next;
}

/* In the arena; NULL: two edits are at one place. */
static char *edited(struct arena *arena, const struct text *text, const struct line_edit *edits, size_t count,
                    size_t *length) {
    size_t room = text->length, at = 0, end = 0;
    bool *done = ARENA_ARRAY(arena, bool, count + 1);
    for (size_t i = 0; i < count; i++)
        room += strlen(edits[i].text);
    char *bytes = arena_take(arena, room + 1);
    for (size_t i = 0; i < count; i++) {
        size_t next = next_of(edits, count, done);
        const struct line_edit *edit = &edits[next];
        if (edit->at.begin < at)
            return NULL;
        done[next] = true;
        memcpy(bytes + end, text->bytes + at, edit->at.begin - at);
        end += edit->at.begin - at;
        memcpy(bytes + end, edit->text, strlen(edit->text));
        end += strlen(edit->text);
        at = edit->at.end;
    }
    memcpy(bytes + end, text->bytes + at, text->length - at);
    *length = end + text->length - at;
    return bytes;
}

static const struct job *compile(const struct retyper *retyper, const struct job *job, const struct line_edit *edits,
                                 size_t count) {
    const struct retypist *typist = (const struct retypist *)retyper;
    const struct text *text = job->syntax->texts.count ? job->syntax->texts.at[0] : NULL;
    struct arena *arena = typist->compiler.spare;
    for (size_t i = 0; i < count; i++)
        if (!text || !is_in(text, &edits[i]))
            return NULL;
    arena_clear(arena); /* of the one before */
    size_t length = 0;
    char *bytes = text ? edited(arena, text, edits, count, &length) : NULL;
    if (!bytes)
        return NULL;
    struct job *with = variant_new(job, NULL, arena);
    struct syntax *syntax = ARENA_NEW(arena, struct syntax);
    with->syntax = syntax;
    with->trial = true;
    syntax_read_text(syntax, text->name, bytes, length, typist->shop_folder, arena, with->diagnostics);
    typist->compiler.passes(with);
    return with;
}

struct retypist retypist_make(struct compiler compiler, const char *shop_folder) {
    return (struct retypist){.base = {compile}, .compiler = compiler, .shop_folder = shop_folder};
}
