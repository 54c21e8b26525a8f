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

static bool make_folder(struct drawings *drawings) {
    if (drawings->ready)
        return true;
    drawings->made = mkdir(drawings->folder, 0777) == 0;
    drawings->ready = drawings->made || errno == EEXIST;
    return drawings->ready;
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
    drawings->room = room;
    return true;
}

/* Under its new name, whole and closed. */
static bool write_file(struct drawings *drawings, const struct sheet *sheet) {
    if (!make_room(drawings) || !make_folder(drawings))
        return false;
    struct output *out = output_open_one(drawings->path, drawings->count);
    if (!out)
        return false;
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
    if (!write_file(drawings, sheet))
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

/* "view-3.svg": a drawing of other than a part, whose word stands for its letter. */
static bool read_other(const char *name, size_t *number, char word[FILE_ROOM]) {
    static const char *const words[] = {"plan", "elevation", "view"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        size_t length = strlen(words[i]);
        char *behind;
        if (strncmp(name, words[i], length) != 0 || name[length] != '-' || name[length + 1] < '1' ||
            name[length + 1] > '9')
            continue;
        *number = strtoul(name + length + 1, &behind, 10);
        strcpy(word, words[i]);
        return strcmp(behind, ".svg") == 0;
    }
    return false;
}

/* Takes a name such as drawing_file gives apart; `letter` gets "" for a sketch.  The letters of a part's blanks are A
 * to Z, then A2 to Z2 and so on.  False: it is another's. */
static bool read_name(const char *name, size_t *part, char letter[FILE_ROOM]) {
    if (strlen(name) >= FILE_ROOM)
        return false;
    if (strncmp(name, "part-", 5) != 0 || name[5] < '1' || name[5] > '9')
        return read_other(name, part, letter);
    char *behind;
    *part = strtoul(name + 5, &behind, 10);
    size_t length = strspn(behind, "ABCDEFGHIJKLMNOPQRSTUVWXYZ");
    if (length)
        length += strspn(behind + length, "0123456789");
    memcpy(letter, behind, length);
    letter[length] = 0;
    return strcmp(behind + length, ".svg") == 0;
}

/* The folder itself, not one that a link leads to: NULL, with errno set, when it is not there or no such folder. */
static DIR *open_folder(const struct drawings *drawings) {
    int descriptor = open(drawings->folder, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    DIR *folder = descriptor >= 0 ? fdopendir(descriptor) : NULL;
    if (descriptor >= 0 && !folder)
        close(descriptor);
    return folder;
}

/* Whether that file was drawn by this program: a plain file that has the mark. */
static bool is_marked(DIR *folder, const char *name) {
    char head[HEAD_ROOM + 1];
    struct stat file;
    int descriptor = openat(dirfd(folder), name, O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
    if (descriptor < 0)
        return false;
    ssize_t length = fstat(descriptor, &file) == 0 && S_ISREG(file.st_mode) ? read(descriptor, head, HEAD_ROOM) : -1;
    close(descriptor);
    head[length > 0 ? length : 0] = 0;
    return strstr(head, SVG_MARK);
}

/* Of what stands where the folder belongs and could not be opened as one. */
static void folder_fault(struct drawings *drawings, int number) {
    struct stat there;
    if (number == ENOENT)
        return;
    if (lstat(drawings->folder, &there) == 0 && S_ISLNK(there.st_mode))
        fault(drawings, drawings->folder, "it is a link, and drawings are not written or removed through one");
    else
        system_fault(drawings, drawings->folder, number);
}

bool drawings_have_room(struct drawings *drawings, drawing_test *current, const void *what) {
    DIR *folder = open_folder(drawings);
    if (!folder)
        folder_fault(drawings, errno);
    size_t part;
    char letter[FILE_ROOM];
    for (struct dirent *entry = folder ? readdir(folder) : NULL; entry && !drawings->failed; entry = readdir(folder))
        if (read_name(entry->d_name, &part, letter) && current(what, part, letter) && !is_marked(folder, entry->d_name))
            fault(drawings, name_path(drawings, entry->d_name),
                  "a file stands there that was not drawn by cleat; move it away, or give the paper another name");
    if (folder)
        closedir(folder);
    return !drawings->failed;
}

void drawings_sweep(const struct drawings *drawings, drawing_test *current, const void *what) {
    DIR *folder = open_folder(drawings);
    if (!folder)
        return;
    size_t part;
    char letter[FILE_ROOM];
    for (struct dirent *entry = readdir(folder); entry; entry = readdir(folder)) {
        const char *name = entry->d_name;
        bool stale = read_name(name, &part, letter) && !current(what, part, letter) && is_marked(folder, name);
        if (stale || output_is_leftover(name))
            unlinkat(dirfd(folder), name, 0);
    }
    closedir(folder);
}
