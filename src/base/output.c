/* Files that are written whole or not at all. */
#define _GNU_SOURCE /* O_TMPFILE; realpath */
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
    char *new_path; /* beside it; NULL: the new file has no name yet, and is gone when the process ends */
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

/* Finds a name not in use in the folder of out->path by what `take` does with it: what that gives, or -1. */
static int take_name(struct output *out, int (*take)(const char *name, int with), int with) {
    size_t folder = folder_length(out->path);
    out->new_path = malloc(folder + NAME_ROOM);
    if (!out->new_path)
        return -1;
    memcpy(out->new_path, out->path, folder);
    for (size_t i = 0; i < NAMES_TRIED; i++) {
        snprintf(out->new_path + folder, NAME_ROOM, ".cleat-%ld-%zu.new", (long)getpid(), out->serial + i);
        int taken = take(out->new_path, with);
        if (taken >= 0 || errno != EEXIST)
            return taken;
    }
    return -1;
}

static int create(const char *name, int mode) {
    return open(name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, (mode_t)mode);
}

/* Where a descriptor of this process is found as a file, on Linux. */
#define OWN_FILES "/proc/self/fd"

static int link_unnamed(const char *name, int descriptor) {
    char own[NAME_ROOM];
    snprintf(own, sizeof own, OWN_FILES "/%d", descriptor);
    return linkat(AT_FDCWD, own, AT_FDCWD, name, AT_SYMLINK_FOLLOW);
}

/* A file without a name, which nothing is left of when the process is killed; -1: the folder,
 * or the system, has none. */
static int create_unnamed(const struct output *out, mode_t mode) {
#ifdef O_TMPFILE
    if (out->one || access(OWN_FILES, X_OK) != 0)
        return -1;
    size_t length = folder_length(out->path);
    char *folder = length > 0 ? strndup(out->path, length) : strdup(".");
    int descriptor = folder ? open(folder, O_TMPFILE | O_WRONLY | O_CLOEXEC, mode) : -1;
    free(folder);
    return descriptor;
#else
    (void)out, (void)mode;
    return -1;
#endif
}

/* A new file in the folder of out->path: its descriptor, or -1.  One of many is closed before it is committed, and has
 * a name from the start. */
static int create_beside(struct output *out, mode_t mode) {
    int descriptor = create_unnamed(out, mode);
    return descriptor >= 0 ? descriptor : take_name(out, create, (int)mode);
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

static void remove_new(const struct output *out) {
    if (out->kind == OUTPUT_RENAMED && out->new_path)
        unlink(out->new_path);
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
    remove_new(out);
    errno = fault;
    return false;
}

static struct output *open_output(const char *path, size_t serial, bool one) {
    struct output *out = calloc(1, sizeof *out);
    if (!out)
        return NULL;
    out->serial = serial;
    out->one = one;
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
    return open_output(path, 0, false);
}

struct output *output_open_one(const char *path, size_t serial) {
    return open_output(path, serial, true);
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

static void rename_new(struct output *out) {
    if (out->file && out->fault == 0 && take_name(out, link_unnamed, fileno(out->file)) < 0) {
        note_fault(out);
        free(out->new_path);
        out->new_path = NULL;
    }
    close_file(out);
    if (out->fault == 0 && rename(out->new_path, out->path) != 0)
        note_fault(out);
    if (out->fault)
        remove_new(out);
}

/* Between its own name and that of the old file nothing that the user sends ends the process. */
static void put_in_place(struct output *out) {
    sigset_t ending, before;
    sigemptyset(&ending);
    sigaddset(&ending, SIGINT);
    sigaddset(&ending, SIGTERM);
    sigaddset(&ending, SIGHUP);
    bool blocked = pthread_sigmask(SIG_BLOCK, &ending, &before) == 0;
    rename_new(out);
    if (blocked)
        pthread_sigmask(SIG_SETMASK, &before, NULL);
    if (out->fault == 0 && !out->one)
        output_sync_folder(out->path);
}

bool output_close(struct output *out) {
    if (out->file && fflush(out->file) != 0)
        note_fault(out);
    if (out->file && out->kind == OUTPUT_RENAMED && !out->one && out->fault == 0 && fsync(fileno(out->file)) != 0)
        note_fault(out);
    if (out->kind != OUTPUT_RENAMED || out->new_path) /* closed, a file without a name is gone */
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
    remove_new(out);
    if (out->kind == OUTPUT_MEMORY)
        free(out->memory);
    release(out);
}
