/* Drawings as files beside a paper. */
#include "report/drawings.h"

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/output.h"
#include "draw/svg.h"

enum { FILE_ROOM = 64 }; /* of the name of one drawing */

struct drawings {
    char *folder; /* path */
    char *link;   /* its last part, as a link has it */
    char *path;   /* of the file being written: room for folder, a slash, and FILE_ROOM */
    bool made;    /* the folder */
    int fault;    /* errno of the first failure; 0: none */
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

/* "papers/shop.md" gives "papers/shop-drawings". */
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
    free(drawings->folder);
    free(drawings->link);
    free(drawings->path);
    free(drawings);
}

/* ---- Writing ----------------------------------------------------------------------------------------------------- */

static bool make_folder(struct drawings *drawings) {
    if (!drawings->made && mkdir(drawings->folder, 0777) != 0 && errno != EEXIST)
        return false;
    drawings->made = true;
    return true;
}

static bool write_file(struct drawings *drawings, const struct sheet *sheet) {
    struct output *out = make_folder(drawings) ? output_open(drawings->path) : NULL;
    if (!out)
        return false;
    if (sheet_write_svg(sheet, out))
        return output_commit(out);
    output_abandon(out);
    errno = ENOMEM;
    return false;
}

/* Laid out before the file is opened: memory may run out in it, and nobody would close the file. */
void drawings_write(struct drawings *drawings, const char *file, const struct figure *figure) {
    if (drawings->fault)
        return;
    const struct sheet *sheet = sheet_lay_out(figure, SHEET_FIT);
    sprintf(drawings->path, "%s/%.*s", drawings->folder, FILE_ROOM - 1, file);
    errno = 0;
    if (!write_file(drawings, sheet))
        drawings->fault = errno ? errno : EIO;
}

const char *drawings_link(const struct drawings *drawings) {
    return drawings->link;
}

const char *drawings_failed(const struct drawings *drawings, int *fault) {
    *fault = drawings->fault;
    return drawings->fault ? drawings->path : NULL;
}

/* ---- Names, and what is left of older papers --------------------------------------------------------------------- */

const char *drawing_file(struct arena *arena, size_t part, const char *letter) {
    return arena_format(arena, "part-%zu%s.svg", part, letter ? letter : "");
}

/* Takes a name such as drawing_file gives apart; `letter` gets "" for a sketch.  False: it is another's. */
static bool read_name(const char *name, size_t *part, char letter[FILE_ROOM]) {
    if (strlen(name) >= FILE_ROOM || strncmp(name, "part-", 5) != 0 || name[5] < '1' || name[5] > '9')
        return false;
    char *behind;
    *part = strtoul(name + 5, &behind, 10);
    size_t letters = strspn(behind, "ABCDEFGHIJKLMNOPQRSTUVWXYZ");
    memcpy(letter, behind, letters);
    letter[letters] = 0;
    return strcmp(behind + letters, ".svg") == 0;
}

void drawings_sweep(const struct drawings *drawings, bool (*current)(const void *what, size_t part, const char *letter),
                    const void *what) {
    DIR *folder = opendir(drawings->folder);
    if (!folder)
        return;
    size_t part;
    char letter[FILE_ROOM];
    for (struct dirent *entry = readdir(folder); entry; entry = readdir(folder))
        if (read_name(entry->d_name, &part, letter) && !current(what, part, letter))
            unlinkat(dirfd(folder), entry->d_name, 0);
    closedir(folder);
    rmdir(drawings->folder);
}
