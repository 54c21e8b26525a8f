/* Files that are written whole or not at all. */
#define _XOPEN_SOURCE 700 /* realpath */
#include "base/output.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { NAMES_TRIED = 1000, NAME_ROOM = 64 };

enum output_kind {
    OUTPUT_RENAMED,  /* a new file beside the name, renamed at the end */
    OUTPUT_STRAIGHT, /* a device or a pipe: there is nothing to rename */
    OUTPUT_STANDARD,
    OUTPUT_MEMORY
};

struct output {
    enum output_kind kind;
    FILE *file;
    char *path;     /* what is written; of a symbolic link, the file it leads to */
    char *new_path; /* beside it */
    size_t serial;  /* in the new name, unless that is taken */
    bool one;       /* of several: it is not synced by itself */
    char *memory;
    size_t memory_length;
    int fault; /* errno of the first failure; 0: none */
};

/* ---- Opening ----------------------------------------------------------------------------------------------------- */

static void note_fault(struct output *out) {
    if (out->fault == 0)
        out->fault = errno ? errno : EIO;
}

static void release(struct output *out) {
    free(out->path);
    free(out->new_path);
    free(out);
}

/* "folder/name" gives "folder/", "name" gives "". */
static size_t folder_length(const char *path) {
    const char *slash = strrchr(path, '/');
    return slash ? (size_t)(slash - path) + 1 : 0;
}

/* Creates a file of a name not in use in the folder of out->path: its descriptor, or -1. */
static int create_beside(struct output *out, mode_t mode) {
    size_t folder = folder_length(out->path);
    out->new_path = malloc(folder + NAME_ROOM);
    if (!out->new_path)
        return -1;
    memcpy(out->new_path, out->path, folder);
    for (size_t i = 0; i < NAMES_TRIED; i++) {
        snprintf(out->new_path + folder, NAME_ROOM, ".cleat-%ld-%zu.new", (long)getpid(), out->serial + i);
        int descriptor = open(out->new_path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode);
        if (descriptor >= 0 || errno != EEXIST)
            return descriptor;
    }
    return -1;
}

/* A file already there keeps its permissions, and one that may not be written is refused. */
static int open_over(struct output *out, const struct stat *old) {
    if (faccessat(AT_FDCWD, out->path, W_OK, AT_EACCESS) != 0)
        return -1;
    if (!S_ISREG(old->st_mode)) {
        out->kind = OUTPUT_STRAIGHT;
        return open(out->path, O_WRONLY | O_CLOEXEC);
    }
    char *target = realpath(out->path, NULL);
    if (!target)
        return -1;
    free(out->path);
    out->path = target;
    int descriptor = create_beside(out, S_IRUSR | S_IWUSR);
    if (descriptor >= 0 && fchmod(descriptor, old->st_mode & 0777) != 0)
        note_fault(out);
    return descriptor;
}

static int open_file(struct output *out) {
    struct stat old;
    if (stat(out->path, &old) == 0)
        return open_over(out, &old);
    if (errno != ENOENT)
        return -1;
    return create_beside(out, 0666); /* less the user's mask */
}

static bool open_named(struct output *out, const char *path) {
    out->path = strdup(path);
    if (!out->path)
        return false;
    int descriptor = open_file(out);
    if (descriptor < 0)
        return false;
    out->file = fdopen(descriptor, "w");
    if (out->file)
        return true;
    int fault = errno;
    close(descriptor);
    if (out->kind == OUTPUT_RENAMED)
        unlink(out->new_path);
    errno = fault;
    return false;
}

static struct output *open_output(const char *path, size_t serial) {
    struct output *out = calloc(1, sizeof *out);
    if (!out)
        return NULL;
    out->serial = serial;
    if (strcmp(path, "-") == 0) {
        out->kind = OUTPUT_STANDARD;
        out->file = stdout;
        return out;
    }
    out->kind = OUTPUT_RENAMED;
    if (open_named(out, path))
        return out;
    int fault = errno;
    release(out);
    errno = fault;
    return NULL;
}

struct output *output_open(const char *path) {
    return open_output(path, 0);
}

struct output *output_open_one(const char *path, size_t serial) {
    struct output *out = open_output(path, serial);
    if (out)
        out->one = true;
    return out;
}

struct output *output_open_memory(void) {
    struct output *out = calloc(1, sizeof *out);
    if (!out)
        return NULL;
    out->kind = OUTPUT_MEMORY;
    out->file = open_memstream(&out->memory, &out->memory_length);
    if (out->file)
        return out;
    release(out);
    return NULL;
}

/* ---- Writing ----------------------------------------------------------------------------------------------------- */

void output_put(struct output *out, const char *bytes, size_t length) {
    if (length > 0 && fwrite(bytes, 1, length, out->file) != length)
        note_fault(out);
}

void output_text(struct output *out, const char *text) {
    output_put(out, text, strlen(text));
}

void output_format(struct output *out, const char *format, ...) {
    va_list list;
    va_start(list, format);
    if (vfprintf(out->file, format, list) < 0)
        note_fault(out);
    va_end(list);
}

/* ---- Ending ------------------------------------------------------------------------------------------------------ */

static void close_file(struct output *out) {
    if (out->file && out->kind != OUTPUT_STANDARD && fclose(out->file) != 0)
        note_fault(out);
    out->file = NULL;
}

/* The file itself is whole by now, so that a folder which cannot be synced is no failure. */
void output_sync_folder(const char *path) {
    size_t length = folder_length(path);
    char *folder = length > 0 ? strndup(path, length) : strdup(".");
    if (!folder)
        return;
    int descriptor = open(folder, O_RDONLY | O_CLOEXEC);
    if (descriptor >= 0) {
        fsync(descriptor);
        close(descriptor);
    }
    free(folder);
}

static void put_in_place(struct output *out) {
    if (out->fault == 0 && rename(out->new_path, out->path) != 0)
        note_fault(out);
    if (out->fault)
        unlink(out->new_path);
    else if (!out->one)
        output_sync_folder(out->path);
}

bool output_close(struct output *out) {
    if (out->file && fflush(out->file) != 0)
        note_fault(out);
    if (out->file && out->kind == OUTPUT_RENAMED && !out->one && out->fault == 0 && fsync(fileno(out->file)) != 0)
        note_fault(out);
    close_file(out);
    if (out->fault)
        errno = out->fault;
    return out->fault == 0;
}

bool output_commit(struct output *out) {
    output_close(out);
    if (out->kind == OUTPUT_RENAMED)
        put_in_place(out);
    if (out->kind == OUTPUT_MEMORY)
        free(out->memory);
    int fault = out->fault;
    release(out);
    if (fault)
        errno = fault;
    return fault == 0;
}

char *output_take_memory(struct output *out, size_t *length) {
    close_file(out);
    char *memory = out->memory;
    *length = out->memory_length;
    if (out->fault) {
        free(memory);
        memory = NULL;
        *length = 0;
    }
    release(out);
    return memory;
}

/* ".cleat-PID-N.new" */
bool output_is_leftover(const char *name) {
    static const char begins[] = ".cleat-";
    if (strncmp(name, begins, sizeof begins - 1) != 0)
        return false;
    char *end;
    long process = strtol(name + sizeof begins - 1, &end, 10);
    if (process <= 0 || process > INT_MAX || *end != '-' || end[1] < '0' || end[1] > '9')
        return false;
    strtoul(end + 1, &end, 10);
    if (strcmp(end, ".new") != 0)
        return false;
    return process == getpid() || (kill((pid_t)process, 0) != 0 && errno == ESRCH);
}

void output_abandon(struct output *out) {
    if (!out)
        return;
    close_file(out);
    if (out->kind == OUTPUT_RENAMED)
        unlink(out->new_path);
    if (out->kind == OUTPUT_MEMORY)
        free(out->memory);
    release(out);
}
