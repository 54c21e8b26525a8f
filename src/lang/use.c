/* Reading the job and the files it uses. */
#define _XOPEN_SOURCE 700 /* realpath */
#include "lang/use.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/hash.h"

/* ---- Bytes ------------------------------------------------------------------------------------------------------- */

/* Reads at most `room` bytes; -1 on failure. */
static ssize_t read_up_to(int file, char *bytes, size_t room) {
    size_t length = 0;
    while (length < room) {
        ssize_t got = read(file, bytes + length, room - length);
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0)
            return -1;
        if (got == 0)
            break;
        length += (size_t)got;
    }
    return (ssize_t)length;
}

/* The bytes of the file at `path`, one more than the limit at most; NULL with errno set when it cannot be read. */
static char *read_file(struct arena *arena, const char *path, bool only_regular, size_t *length) {
    struct stat status;
    if (stat(path, &status) != 0)
        return NULL;
    bool regular = S_ISREG(status.st_mode);
    if (S_ISDIR(status.st_mode) || (only_regular && !regular)) {
        errno = S_ISDIR(status.st_mode) ? EISDIR : EINVAL;
        return NULL;
    }
    size_t room = TEXT_LIMIT + 1;
    if (regular && status.st_size < TEXT_LIMIT)
        room = (size_t)status.st_size + 1;
    char *bytes = arena_take(arena, room); /* before the file is open: this may not return */
    int file = open(path, O_RDONLY | O_CLOEXEC);
    if (file < 0)
        return NULL;
    ssize_t got = read_up_to(file, bytes, room);
    int error = errno;
    close(file);
    errno = error;
    *length = got < 0 ? 0 : (size_t)got;
    return got < 0 ? NULL : bytes;
}

/* ---- Is it text? ------------------------------------------------------------------------------------------------- */

/* Writes _ over every byte that is not valid, so that what follows need not mind; gives how many there were. */
static size_t mask_bad_bytes(char *bytes, size_t length, size_t *first) {
    size_t count = 0;
    for (size_t i = 0; (i += text_first_bad_byte(bytes + i, length - i)) < length; i++) {
        if (count++ == 0)
            *first = i;
        bytes[i] = '_';
    }
    return count;
}

static void diagnose_bad_byte(struct use *use, const struct text *text, size_t offset, unsigned char byte) {
    struct span at = {.text = text, .begin = (uint32_t)offset, .end = (uint32_t)offset + 1};
    if (byte == 0) {
        diagnose(use->diagnostics, DIAGNOSTIC_ERROR, "text", at, "there is a NUL byte in the text");
        return;
    }
    struct diagnostic *diagnostic = diagnose(use->diagnostics, DIAGNOSTIC_ERROR, "text", at,
                                             "the byte %02X here is not UTF-8 text", (unsigned)byte);
    diagnostic_hint(use->diagnostics, diagnostic, "save the file in the encoding UTF-8");
}

static void check_lines(struct use *use, const struct text *text) {
    for (size_t line = 1; line <= text->line_count; line++) {
        size_t length;
        const char *bytes = text_line(text, line, &length);
        if (length <= LINE_LIMIT)
            continue;
        uint32_t begin = (uint32_t)(bytes - text->bytes);
        diagnose(use->diagnostics, DIAGNOSTIC_ERROR, "text", (struct span){text, begin, begin + 1},
                 "this line has %zu bytes: a line has at most %d", length, LINE_LIMIT);
        return;
    }
}

/* More than one bad byte in so many: this is no text. */
enum { TEXT_BAD_SHARE = 16 };

/* Takes the bytes as a text; NULL when they are none, which has been diagnosed. */
static const struct text *take_text(struct use *use, const char *name, const char *bytes, size_t length) {
    bool too_long = length > TEXT_LIMIT;
    size_t first = 0;
    char *copy = arena_copy(use->arena, bytes, too_long ? 0 : length);
    size_t bad = too_long ? 0 : mask_bad_bytes(copy, length, &first);
    const struct text *text = text_new(use->arena, name, copy, too_long ? 0 : length);
    *list_add(use->arena, &use->syntax->texts) = text;
    if (too_long) {
        diagnose(use->diagnostics, DIAGNOSTIC_ERROR, "text", (struct span){text, 0, 0},
                 "this file is too large: a file has at most %d MiB", TEXT_LIMIT / (1024 * 1024));
        return NULL;
    }
    if (bad) {
        diagnose_bad_byte(use, text, first, (unsigned char)bytes[first]);
        if (bad > length / TEXT_BAD_SHARE)
            return NULL;
    }
    check_lines(use, text);
    return text;
}

/* ---- Paths ------------------------------------------------------------------------------------------------------- */

/* `path` with all links followed, or NULL when there is no such file. */
static const char *follow(struct arena *arena, const char *path) {
    char found[PATH_MAX];
    return path && realpath(path, found) ? arena_copy(arena, found, strlen(found)) : NULL;
}

/* The folder that `path` lies in. */
static const char *folder_of(struct arena *arena, const char *path) {
    const char *slash = strrchr(path, '/');
    if (!slash)
        return ".";
    return slash == path ? "/" : arena_copy(arena, path, (size_t)(slash - path));
}

static bool lies_in(const char *path, const char *folder) {
    if (!folder)
        return false;
    size_t length = strlen(folder);
    if (length == 1)
        return true; /* the folder is / */
    return strncmp(path, folder, length) == 0 && path[length] == '/';
}

static struct diagnostic *use_error(struct use *use, struct span at, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

static struct diagnostic *use_error(struct use *use, struct span at, const char *format, ...) {
    va_list list;
    va_start(list, format);
    const char *message = arena_format_list(use->arena, format, list);
    va_end(list);
    return diagnose(use->diagnostics, DIAGNOSTIC_ERROR, "use", at, "%s", message);
}

/* The file that `name` means in the file of `chain`, links followed; NULL when there is
 * none, which has been diagnosed. */
static const char *locate(struct use *use, const struct use_chain *chain, const struct text *text, const char *name,
                          struct span at) {
    if (name[0] == '/' || name[0] == 0 || strlen(name) >= PATH_MAX) {
        struct diagnostic *diagnostic = use_error(use, at, "a file to use is named by its place beside this one");
        diagnostic_hint(use->diagnostics, diagnostic, "write use \"standard.shop\"");
        return NULL;
    }
    const char *here = folder_of(use->arena, chain->path ? chain->path : text->name);
    const char *path = follow(use->arena, arena_format(use->arena, "%s/%s", here, name));
    if (!path && use->shop_folder)
        path = follow(use->arena, arena_format(use->arena, "%s/%s", use->shop_folder, name));
    if (!path) {
        struct diagnostic *diagnostic = use_error(use, at, "there is no file \"%s\" beside this one%s", name,
                                                  use->shop_folder ? " or in the shop folder" : "");
        diagnostic_hint(use->diagnostics, diagnostic, "copy it into the folder of this file, or take the line away");
        return NULL;
    }
    if (!lies_in(path, use->job_folder) && !lies_in(path, use->shop_folder)) {
        struct diagnostic *diagnostic = use_error(use, at, "\"%s\" lies outside the folder of the job", name);
        diagnostic_hint(use->diagnostics, diagnostic, "copy it into the folder of the job");
        return NULL;
    }
    return path;
}

/* ---- What was read ----------------------------------------------------------------------------------------------- */

static bool is_known(struct use *use, const char *path) {
    uint64_t hash = hash_bytes(HASH_EMPTY, path, strlen(path));
    for (size_t i = 0; i < use->known.count; i++)
        if (use->known.at[i].hash == hash && strcmp(use->known.at[i].path, path) == 0)
            return true;
    *list_add(use->arena, &use->known) = (struct use_known){.path = path, .hash = hash};
    return false;
}

/* Whether `path` is being read already: the files use each other in a circle. */
static bool is_loop(struct use *use, const struct use_chain *chain, const char *path, struct span at) {
    const struct use_chain *first = chain;
    while (first && !(first->path && strcmp(first->path, path) == 0))
        first = first->by;
    if (!first)
        return false;
    struct diagnostic *diagnostic =
        use_error(use, at, first == chain ? "this file uses itself" : "these files use each other in a circle");
    for (const struct use_chain *link = chain; link != first; link = link->by)
        diagnostic_relate(use->diagnostics, diagnostic, link->at, "%s is used here", at.text->name), at = link->at;
    diagnostic_hint(use->diagnostics, diagnostic, "take away one `use` of the circle");
    return true;
}

/* ---- Reading ----------------------------------------------------------------------------------------------------- */

static void add_text(struct use *use, const struct use_chain *chain, const struct text *text);

/* A `use` as the form wants it; any other is left for the form to diagnose. */
static bool is_use(const struct statement *statement) {
    return strcmp(statement->word, "use") == 0 && !statement->faulty && !statement->has_block &&
           statement->values.count == 1 && statement->values.at[0].kind == VALUE_STRING;
}

/* What the file is called in messages: a path that leads to it from where the job's own does, so that an editor finds
 * it; one that lies elsewhere by its whole path. */
static const char *name_of(struct use *use, const char *path) {
    if (!lies_in(path, use->job_folder))
        return path;
    size_t length = strlen(use->job_folder);
    return arena_format(use->arena, "%s%s", use->prefix, path + length + (length > 1));
}

/* errno in words, in memory of the arena: strerror's own is shared by all threads. */
static const char *error_words(struct arena *arena) {
    char words[128] = "";
    strerror_r(errno, words, sizeof words);
    return arena_copy(arena, words, strlen(words));
}

static void add_used(struct use *use, const struct use_chain *chain, const struct text *text,
                     const struct value *value) {
    const char *path = locate(use, chain, text, value->text, value->at);
    if (!path || is_loop(use, chain, path, value->at))
        return;
    if (chain->depth == USE_LIMIT) {
        use_error(use, value->at, "files use files more than %d deep", USE_LIMIT);
        return;
    }
    if (is_known(use, path))
        return;
    size_t length;
    const char *bytes = read_file(use->arena, path, true, &length);
    if (!bytes) {
        use_error(use, value->at, "\"%s\" cannot be read: %s", value->text,
                  errno == EINVAL ? "it is not a file" : error_words(use->arena));
        return;
    }
    struct use_chain link = {.by = chain, .at = value->at, .path = path, .depth = chain->depth + 1};
    const struct text *used = take_text(use, name_of(use, path), bytes, length);
    if (used)
        add_text(use, &link, used);
}

/* Adds the statements of `text`, with what it uses in the place of each `use`. */
static void add_text(struct use *use, const struct use_chain *chain, const struct text *text) {
    struct syntax own = {0};
    syntax_parse(&own, text, use->arena, use->diagnostics);
    for (size_t i = 0; i < own.statements.count; i++) {
        struct statement *statement = own.statements.at[i];
        if (is_use(statement))
            add_used(use, chain, text, &statement->values.at[0]);
        else
            *list_add(use->arena, &use->syntax->statements) = statement;
    }
}

static void read_job(struct use *use, const char *name, const char *bytes, size_t length) {
    struct use_chain job = {.path = follow(use->arena, name)};
    const char *slash = strrchr(name, '/');
    use->prefix = slash ? arena_copy(use->arena, name, (size_t)(slash + 1 - name)) : "";
    use->job_folder = follow(use->arena, folder_of(use->arena, job.path ? job.path : name));
    if (job.path)
        is_known(use, job.path);
    const struct text *text = take_text(use, name, bytes, length);
    if (text)
        add_text(use, &job, text);
}

bool syntax_read(struct syntax *syntax, const char *path, const char *shop_folder, struct arena *arena,
                 struct diagnostics *diagnostics, const char **cannot) {
    struct use use = {.syntax = syntax, .arena = arena, .diagnostics = diagnostics};
    use.shop_folder = follow(arena, shop_folder);
    size_t length;
    const char *bytes = read_file(arena, path, false, &length);
    if (!bytes) {
        *cannot = error_words(arena);
        return false;
    }
    read_job(&use, path, bytes, length);
    return true;
}

void syntax_read_text(struct syntax *syntax, const char *name, const char *bytes, size_t length,
                      const char *shop_folder, struct arena *arena, struct diagnostics *diagnostics) {
    struct use use = {.syntax = syntax, .arena = arena, .diagnostics = diagnostics};
    use.shop_folder = follow(arena, shop_folder);
    read_job(&use, name, bytes, length);
}
