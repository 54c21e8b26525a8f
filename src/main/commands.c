/* What can be asked for: a row each of the table at the end. */
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "main/command.h"

/* Where `make install` puts standard.shop. */
#ifndef CLEAT_SHOP_FOLDER
#define CLEAT_SHOP_FOLDER "/usr/local/share/cleat"
#endif

int usage_error(const char *message, const char *what) {
    fprintf(stderr, "cleat: %s%s%s\n", message, what ? ": " : "", what ? what : "");
    fprintf(stderr, "hint: `cleat --help` shows the commands and a smallest job\n");
    return CLEAT_USAGE;
}

static int say_problem(const struct cleat *cleat, int status) {
    const char *problem = cleat_problem(cleat);
    if (problem)
        fprintf(stderr, "cleat: %s\n", problem);
    return status;
}

/* Compiles the job and prints what there is to say about it. */
static struct cleat *compile(const struct options *options, int *status) {
    struct cleat *cleat = cleat_new(CLEAT_SHOP_FOLDER);
    if (!cleat) {
        fprintf(stderr, "cleat: there is not enough memory\n");
        *status = CLEAT_IO;
        return NULL;
    }
    *status = (int)cleat_compile(cleat, options->job);
    if (*status == CLEAT_IO)
        say_problem(cleat, *status);
    cleat_print_diagnostics(cleat, stderr, isatty(STDERR_FILENO) != 0, options->json_diagnostics);
    return cleat;
}

static int print(const char *text) {
    fputs(text, stdout);
    if (fflush(stdout) == 0 && !ferror(stdout))
        return CLEAT_OK;
    perror("cleat: cannot write standard output");
    return CLEAT_IO;
}

static int check(const struct options *options) {
    if (options->output || options->format || options->reader)
        return usage_error("`check` writes no file; use `bid` with -o, --for or --format", NULL);
    int status;
    struct cleat *cleat = compile(options, &status);
    if (cleat && status == CLEAT_OK)
        status = print(cleat_summary(cleat));
    cleat_free(cleat);
    return status;
}

static const char *format_for(const struct options *options, const char *output) {
    if (options->format)
        return options->format;
    return strcmp(output, "-") == 0 ? "md" : cleat_format_of(output);
}

static bool among(const char *name, const char *const *names, size_t count) {
    for (size_t i = 0; i < count; i++)
        if (strcmp(names[i], name) == 0)
            return true;
    return false;
}

void print_names(FILE *out, const char *before, const char *const *names, size_t count) {
    for (size_t i = 0; i < count; i++)
        fprintf(out, "%s%s%s", i == 0 ? "" : i + 1 == count ? " or " : ", ", before, names[i]);
}

/* "there is no such format: frob; write md, json or csv". */
static int unknown(const char *what, const char *name, const char *const *names, size_t count) {
    fprintf(stderr, "cleat: there is no such %s: %s\nhint: write ", what, name);
    print_names(stderr, "", names, count);
    fputs("\n", stderr);
    return CLEAT_USAGE;
}

static int no_format(const char *output) {
    size_t count;
    const char *const *names = cleat_formats(&count);
    fprintf(stderr, "cleat: cannot tell the format from the file's extension: %s\nhint: call it ", output);
    print_names(stderr, ".", names, count);
    fputs(", or give --format\n", stderr);
    return CLEAT_USAGE;
}

/* CLEAT_OK, or wrong usage, already said. */
static int check_names(const struct options *options, const char *format) {
    size_t count;
    const char *const *names = cleat_readers(&count);
    if (options->reader && !among(options->reader, names, count))
        return unknown("reader", options->reader, names, count);
    names = cleat_formats(&count);
    return among(format, names, count) ? CLEAT_OK : unknown("format", format, names, count);
}

/* Says how the writing went; `nothing` is what to say when a job with errors is not written, NULL: it is. */
static int end_writing(const struct cleat *cleat, int status, const char *output, const char *nothing) {
    say_problem(cleat, status);
    if (status == CLEAT_ERRORS && nothing)
        fprintf(stderr, "%s: the job has errors\n", nothing);
    if ((status == CLEAT_OK || (status == CLEAT_ERRORS && !nothing)) && strcmp(output, "-") != 0)
        printf("%s\n", output);
    return status;
}

/* ---- All packets ------------------------------------------------------------------------------------------------- */

enum { LIST_ROOM = 256, PATH_ROOM = 4096 };

/* Whether some packet comes in the format. */
static bool comes(const char *format) {
    size_t count;
    const char *const *readers = cleat_readers(&count);
    for (size_t i = 0; i < count; i++)
        if (cleat_has(readers[i], format))
            return true;
    return false;
}

/* Takes "pdf,md" apart into `formats`; gives how many, 0 for wrong usage, already said. */
static size_t read_formats(char *list, const char *formats[LIST_ROOM]) {
    size_t count = 0, known;
    const char *const *names = cleat_formats(&known);
    char *rest;
    for (char *name = strtok_r(list, ",", &rest); name; name = strtok_r(NULL, ",", &rest)) {
        if (!among(name, names, known)) {
            unknown("format", name, names, known);
            return 0;
        }
        if (!comes(name)) {
            usage_error("the same for every reader, so not for all; leave --for out", name);
            return 0;
        }
        formats[count++] = name;
    }
    if (!count)
        usage_error("which formats", "--format pdf,md");
    return count;
}

static int write_one(struct cleat *cleat, const char *reader, const char *format, const char *folder) {
    char path[PATH_ROOM];
    size_t length = strlen(folder);
    const char *slash = length && folder[length - 1] == '/' ? "" : "/";
    if (snprintf(path, sizeof path, "%s%s%s.%s", folder, slash, reader, format) >= (int)sizeof path)
        return usage_error("the folder's name is too long", folder);
    return end_writing(cleat, (int)cleat_write(cleat, reader, format, path), path, NULL);
}

static int write_all(struct cleat *cleat, const char *const *formats, size_t format_count, const char *folder) {
    size_t reader_count;
    const char *const *readers = cleat_readers(&reader_count);
    if (mkdir(folder, 0777) != 0 && errno != EEXIST) {
        fprintf(stderr, "cleat: cannot make the folder %s: %s\n", folder, strerror(errno));
        return CLEAT_IO;
    }
    const int fine = cleat_error_count(cleat) ? CLEAT_ERRORS : CLEAT_OK;
    int status = fine;
    for (size_t i = 0; i < reader_count && status == fine; i++)
        for (size_t j = 0; j < format_count && status == fine; j++)
            if (cleat_has(readers[i], formats[j]) && cleat_writes(cleat, readers[i], formats[j]))
                status = write_one(cleat, readers[i], formats[j], folder);
    return status;
}

/* Each packet into the folder that -o names: customer.pdf, shop.pdf, ... */
static int bid_all(const struct options *options) {
    char list[LIST_ROOM];
    const char *formats[LIST_ROOM];
    if (!options->output || strcmp(options->output, "-") == 0)
        return usage_error("which folder; --for all writes several files: give it with -o", NULL);
    if (snprintf(list, sizeof list, "%s", options->format ? options->format : "pdf") >= (int)sizeof list)
        return usage_error("too many formats", options->format);
    size_t count = read_formats(list, formats);
    if (!count)
        return CLEAT_USAGE;
    int status;
    struct cleat *cleat = compile(options, &status);
    if (cleat && status == CLEAT_ERRORS)
        fprintf(stderr, cleat_is_faulty(cleat) ? "no bid was written: the job has errors\n"
                                               : "what tells a price was not written: the job has errors\n");
    if (cleat && (status == CLEAT_OK || (status == CLEAT_ERRORS && !cleat_is_faulty(cleat))))
        status = write_all(cleat, formats, count, options->output);
    cleat_free(cleat);
    return status;
}

static int bid(const struct options *options) {
    if (options->reader && strcmp(options->reader, "all") == 0)
        return bid_all(options);
    const char *output = options->output ? options->output : "-";
    const char *format = format_for(options, output);
    if (!format)
        return no_format(output);
    int status = check_names(options, format);
    if (status != CLEAT_OK)
        return status;
    struct cleat *cleat = compile(options, &status);
    if (cleat && status != CLEAT_IO) {
        status = (int)cleat_write(cleat, options->reader, format, output);
        end_writing(cleat, status, output, cleat_writes(cleat, options->reader, format) ? NULL : "no bid was written");
    }
    cleat_free(cleat);
    return status;
}

static int list_parts(const struct options *options) {
    if (options->output)
        return usage_error("which part; without one `pattern` lists the parts and writes no file", NULL);
    int status;
    struct cleat *cleat = compile(options, &status);
    if (cleat && status != CLEAT_IO) {
        int printed = print(cleat_parts(cleat));
        status = printed == CLEAT_OK ? status : printed;
    }
    cleat_free(cleat);
    return status;
}

static int pattern(const struct options *options) {
    if (options->format || options->reader)
        return usage_error("a pattern is SVG, or PDF when the file is called so, and for the shop", NULL);
    if (!options->name)
        return list_parts(options);
    const char *output = options->output ? options->output : "-";
    int status;
    struct cleat *cleat = compile(options, &status);
    if (cleat && status != CLEAT_IO) {
        status = (int)cleat_write_pattern(cleat, options->name, output);
        end_writing(cleat, status, output, cleat_is_faulty(cleat) ? "no pattern was written" : NULL);
    }
    cleat_free(cleat);
    return status;
}

static int explain(const struct options *options) {
    const char *output = options->output ? options->output : "-";
    const char *format = format_for(options, output);
    if (options->reader)
        return usage_error("the working is the same for every reader; leave --for out", NULL);
    if (!format)
        return usage_error("cannot tell the format from the file's extension; use .md, .pdf or --format", output);
    int status;
    struct cleat *cleat = compile(options, &status);
    if (cleat && status != CLEAT_IO) {
        status = (int)cleat_write_working(cleat, options->name, format, output);
        end_writing(cleat, status, output, "nothing was explained");
    }
    cleat_free(cleat);
    return status;
}

static int list_checks(const struct options *options) {
    if (options->output || options->format || options->reader)
        return usage_error("`checks` writes no file and takes no options", NULL);
    struct cleat *cleat = cleat_new(CLEAT_SHOP_FOLDER);
    int status = cleat ? print(cleat_checks(cleat)) : CLEAT_IO;
    cleat_free(cleat);
    return status;
}

const struct command commands[] = {
    {
        .name = "check",
        .usage = "cleat check JOB",
        .words = "reads a job and says what is wrong with it",
        .least = 1,
        .most = 1,
        .run = check,
    },
    {
        .name = "bid",
        .usage = "cleat bid JOB [-o FILE]",
        .words = "compiles a job to the customer's bid, or with --for to another reader's packet",
        .least = 1,
        .most = 1,
        .run = bid,
    },
    {
        .name = "pattern",
        .usage = "cleat pattern JOB [PART]",
        .words = "writes the pattern of one part at full size, or lists the parts",
        .least = 1,
        .most = 2,
        .run = pattern,
    },
    {
        .name = "explain",
        .usage = "cleat explain JOB NAME",
        .words = "writes the working for one run, outlet, inlet or unit, every equation with its figures",
        .least = 2,
        .most = 2,
        .run = explain,
    },
    {
        .name = "checks",
        .usage = "cleat checks",
        .words = "lists the named checks, with their limits and sources",
        .run = list_checks,
    },
};
const size_t command_count = sizeof commands / sizeof commands[0];
