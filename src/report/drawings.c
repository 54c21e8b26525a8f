/* Drawings as files beside a paper. */
#include "report/drawings.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/output.h"
#include "draw/svg.h"

enum {
    FILE_ROOM = 64 /* of the name of one drawing */,
    WHY_ROOM = 128,
    HEAD_ROOM = 512 /* the mark stands in so much */
};

struct drawings {
    char *folder;          /* path */
    char *link;            /* its last part, as a link has it */
    char *path;            /* of the file being written: room for folder, a slash, and FILE_ROOM */
    bool ready;            /* the folder is there */
    bool made;             /* by this run, and nothing has been committed in it */
    struct output **files; /* written and not committed; NULL where that is done */
    char (*names)[FILE_ROOM]; /* of what was written */
    size_t count, room;
    const char *failed; /* `folder` or `path`, whichever the first fault was at; NULL: there was none */
    char why[WHY_ROOM];
};

#define ENDING "-figures"

/* RFC 3986, section 2.3: what needs no escape in a link. */
static bool is_plain(unsigned char byte) {
    return (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z') || (byte >= '0' && byte <= '9') ||
           strchr("-._~", byte);
}

static void put_link(char *link, const char *name) {
    for (; *name; name++) {
        if (is_plain((unsigned char)*name))
            *link++ = *name;
        else
            link += sprintf(link, "%%%02X", (unsigned char)*name);
    }
    *link = 0;
}

/* "papers/shop.md" gives "papers/shop-figures". */
static void name_folder(struct drawings *drawings, const char *path) {
    const char *slash = strrchr(path, '/'), *name = slash ? slash + 1 : path, *dot = strrchr(name, '.');
    size_t length = dot && dot > name ? (size_t)(dot - path) : strlen(path);
    memcpy(drawings->folder, path, length);
    strcpy(drawings->folder + length, ENDING);
    put_link(drawings->link, drawings->folder + (name - path));
}

struct drawings *drawings_beside(const char *path) {
    struct drawings *drawings = calloc(1, sizeof *drawings);
    size_t room = strlen(path) + sizeof ENDING;
    if (!drawings)
        return NULL;
    drawings->folder = malloc(room);
    drawings->link = malloc(3 * room);
    drawings->path = malloc(room + 1 + FILE_ROOM);
    if (drawings->folder && drawings->link && drawings->path) {
        name_folder(drawings, path);
        return drawings;
    }
    drawings_free(drawings);
    return NULL;
}

void drawings_free(struct drawings *drawings) {
    if (!drawings)
        return;
    for (size_t i = 0; i < drawings->count; i++)
        output_abandon(drawings->files[i]);
    if (drawings->made)
        rmdir(drawings->folder);
    free(drawings->files);
    free(drawings->names);
    free(drawings->folder);
    free(drawings->link);
    free(drawings->path);
    free(drawings);
}

/* ---- Faults ------------------------------------------------------------------------------------------------------ */

/* The first is kept. */
static void fault(struct drawings *drawings, const char *path, const char *why) {
    if (drawings->failed)
        return;
    drawings->failed = path;
    snprintf(drawings->why, sizeof drawings->why, "%s", why);
}

static void system_fault(struct drawings *drawings, const char *path, int number) {
    char why[WHY_ROOM] = "";
    strerror_r(number ? number : EIO, why, sizeof why);
    fault(drawings, path, why);
}

const char *drawings_failed(const struct drawings *drawings, const char **why) {
    *why = drawings->why;
    return drawings->failed;
}

/* ---- Writing ----------------------------------------------------------------------------------------------------- */

static const char *name_path(struct drawings *drawings, const char *file) {
    sprintf(drawings->path, "%s/%.*s", drawings->folder, FILE_ROOM - 1, file);
    return drawings->path;
}

/* One that is there already must be a folder itself, not a link to one: nothing is written or removed through that. */
static bool make_folder(struct drawings *drawings) {
    struct stat there;
    if (drawings->ready)
        return true;
    drawings->made = mkdir(drawings->folder, 0777) == 0;
    if (drawings->made)
        return drawings->ready = true;
    if (errno != EEXIST || lstat(drawings->folder, &there) != 0) {
        system_fault(drawings, drawings->folder, errno);
        return false;
    }
    if (S_ISLNK(there.st_mode))
        fault(drawings, drawings->folder, "it is a link, and drawings are not written or removed through one");
    else if (!S_ISDIR(there.st_mode))
        system_fault(drawings, drawings->folder, ENOTDIR);
    return drawings->ready = !drawings->failed;
}

/* Whether an open file was drawn by this program: a plain file that has the mark.  Closes it. */
static bool is_marked(int descriptor) {
    char head[HEAD_ROOM + 1];
    struct stat file;
    if (descriptor < 0)
        return false;
    ssize_t length = fstat(descriptor, &file) == 0 && S_ISREG(file.st_mode) ? read(descriptor, head, HEAD_ROOM) : -1;
    close(descriptor);
    head[length > 0 ? length : 0] = 0;
    return strstr(head, SVG_MARK);
}

enum { PLAIN_FILE = O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC };

/* False, with a failure kept, when what stands at the path was not drawn. */
static bool may_replace(struct drawings *drawings) {
    struct stat there;
    if (lstat(drawings->path, &there) != 0 || is_marked(open(drawings->path, PLAIN_FILE)))
        return true;
    fault(drawings, drawings->path,
          "a file stands there that was not drawn by cleat; move it away, or give the paper another name");
    return false;
}

/* Room in the list for one more. */
static bool make_room(struct drawings *drawings) {
    if (drawings->count < drawings->room)
        return true;
    size_t room = 2 * drawings->room + 16;
    struct output **files = realloc(drawings->files, room * sizeof *files);
    if (!files)
        return false;
    drawings->files = files;
    char(*names)[FILE_ROOM] = realloc(drawings->names, room * sizeof *names);
    if (!names)
        return false;
    drawings->names = names;
    drawings->room = room;
    return true;
}

/* Under its new name, whole and closed. */
static bool write_file(struct drawings *drawings, const char *file, const struct sheet *sheet) {
    if (!make_folder(drawings) || !may_replace(drawings) || !make_room(drawings))
        return false;
    struct output *out = output_open_one(drawings->path, drawings->count);
    if (!out)
        return false;
    snprintf(drawings->names[drawings->count], FILE_ROOM, "%s", file);
    drawings->files[drawings->count++] = out;
    if (sheet_write_svg(sheet, out))
        return output_close(out);
    errno = ENOMEM;
    return false;
}

/* Laid out before the file is opened: memory may run out in it, and nobody would close the file. */
void drawings_write(struct drawings *drawings, const char *file, const struct figure *figure) {
    if (drawings->failed)
        return;
    const struct sheet *sheet = sheet_lay_out(figure, SHEET_FIT);
    name_path(drawings, file);
    errno = 0;
    if (!write_file(drawings, file, sheet))
        system_fault(drawings, drawings->path, errno);
}

bool drawings_commit(struct drawings *drawings) {
    for (size_t i = 0; i < drawings->count && !drawings->failed; i++) {
        struct output *out = drawings->files[i];
        drawings->files[i] = NULL;
        if (output_commit(out))
            drawings->made = false; /* it holds something now */
        else
            system_fault(drawings, drawings->folder, errno);
    }
    return !drawings->failed;
}

const char *drawings_link(const struct drawings *drawings) {
    return drawings->link;
}

/* ---- Names, and what is left of older papers --------------------------------------------------------------------- */

const char *drawing_file(struct arena *arena, size_t part, const char *letter) {
    return arena_format(arena, "part-%zu%s.svg", part, letter ? letter : "");
}

/* Whether it is a name such as drawings have: a word, a number, perhaps letters (A to Z, then A2 to Z2 and so on). */
static bool is_drawing_name(const char *name) {
    const char *at = name + strspn(name, "abcdefghijklmnopqrstuvwxyz");
    if (at == name || *at++ != '-' || *at < '1' || *at > '9' || strlen(name) >= FILE_ROOM)
        return false;
    at += strspn(at, "0123456789");
    size_t letters = strspn(at, "ABCDEFGHIJKLMNOPQRSTUVWXYZ");
    at += letters;
    if (letters)
        at += strspn(at, "0123456789");
    return strcmp(at, ".svg") == 0;
}

/* The folder itself, not one that a link leads to: NULL when it is not there or no such folder. */
static DIR *open_folder(const struct drawings *drawings) {
    int descriptor = open(drawings->folder, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    DIR *folder = descriptor >= 0 ? fdopendir(descriptor) : NULL;
    if (descriptor >= 0 && !folder)
        close(descriptor);
    return folder;
}

static int by_name(const void *a, const void *b) {
    return strcmp(a, b);
}

static bool is_written(const struct drawings *drawings, const char *name) {
    return drawings->count &&
           bsearch(name, drawings->names, drawings->count, sizeof *drawings->names, by_name);
}

void drawings_sweep(struct drawings *drawings) {
    DIR *folder = open_folder(drawings);
    if (!folder)
        return;
    if (drawings->count)
        qsort(drawings->names, drawings->count, sizeof *drawings->names, by_name);
    for (struct dirent *entry = readdir(folder); entry; entry = readdir(folder)) {
        const char *name = entry->d_name;
        bool stale = is_drawing_name(name) && !is_written(drawings, name) &&
                     is_marked(openat(dirfd(folder), name, PLAIN_FILE));
        if (stale || output_is_leftover(name))
            unlinkat(dirfd(folder), name, 0);
    }
    closedir(folder);
}
