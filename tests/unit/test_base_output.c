/* Files that are whole or not there. */
#define _GNU_SOURCE /* mkdtemp, symlink, O_TMPFILE */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/output.h"

/* A folder of its own for each test; the tests work inside it. */
struct folder {
    char path[64];
    char before[4096];
};

static int setup(void **state) {
    struct folder *folder = calloc(1, sizeof *folder);
    if (!folder || !getcwd(folder->before, sizeof folder->before))
        return -1;
    strcpy(folder->path, "/tmp/cleat-output-XXXXXX");
    *state = folder;
    return mkdtemp(folder->path) && chdir(folder->path) == 0 ? 0 : -1;
}

static int teardown(void **state) {
    struct folder *folder = *state;
    const char *const left[] = {"bid.md", "real/bid.md", "gate"};
    for (size_t i = 0; i < sizeof left / sizeof *left; i++)
        unlink(left[i]);
    rmdir("real");
    rmdir("bid.md");
    int result = chdir(folder->before) == 0 && rmdir(folder->path) == 0 ? 0 : -1; /* nothing else may be there */
    free(folder);
    return result;
}

static void write_file(const char *path, const char *text) {
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fputs(text, file);
    assert_int_equal(fclose(file), 0);
}

static void assert_file(const char *path, const char *text) {
    char bytes[256] = {0};
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    fread(bytes, 1, sizeof bytes - 1, file);
    fclose(file);
    assert_string_equal(bytes, text);
}

static bool has_unnamed_files(void) {
    int descriptor = open(".", O_TMPFILE | O_WRONLY, 0600);
    if (descriptor >= 0)
        close(descriptor);
    return descriptor >= 0 && access("/proc/self/fd", X_OK) == 0;
}

static size_t files_here(void) {
    size_t count = 0;
    DIR *here = opendir(".");
    assert_non_null(here);
    for (const struct dirent *entry; (entry = readdir(here));)
        count += strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0;
    closedir(here);
    return count;
}

static void a_file_appears_only_when_it_is_whole(void **state) {
    (void)state;
    struct output *out = output_open("bid.md");
    assert_non_null(out);
    output_text(out, "# Bid\n");
    output_format(out, "%d %s\n", 140, "cfm");
    output_put(out, "xyz", 2);
    assert_int_equal(access("bid.md", F_OK), -1);
    assert_true(output_commit(out));
    assert_file("bid.md", "# Bid\n140 cfm\nxy");
    assert_int_equal(files_here(), 1);
}

static void an_old_file_stays_until_the_new_one_is_whole(void **state) {
    (void)state;
    write_file("bid.md", "old");
    struct output *out = output_open("bid.md");
    output_text(out, "new");
    assert_file("bid.md", "old");
    assert_true(output_commit(out));
    assert_file("bid.md", "new");
    assert_int_equal(files_here(), 1);
}

static void what_is_abandoned_leaves_no_trace(void **state) {
    (void)state;
    write_file("bid.md", "old");
    struct output *out = output_open("bid.md");
    output_text(out, "new");
    output_abandon(out);
    output_abandon(NULL);
    assert_file("bid.md", "old");
    assert_int_equal(files_here(), 1);
}

/* What a process that is killed in the middle leaves, by kill or by Ctrl-C: the old file, and nothing else. */
static void a_process_that_is_killed_leaves_the_old_file_alone(void **state) {
    (void)state;
    static const int signals[] = {SIGKILL, SIGINT, SIGTERM, SIGHUP};
    if (!has_unnamed_files())
        skip();
    for (size_t i = 0; i < sizeof signals / sizeof *signals; i++) {
        write_file("bid.md", "old");
        pid_t child = fork();
        assert_true(child >= 0);
        if (child == 0) {
            signal(signals[i], SIG_DFL);
            struct output *out = output_open("bid.md");
            output_text(out, "new");
            if (i % 2)
                output_close(out);
            raise(signals[i]);
            _exit(0);
        }
        int status;
        assert_int_equal(waitpid(child, &status, 0), child);
        assert_true(WIFSIGNALED(status));
        assert_file("bid.md", "old");
        assert_int_equal(files_here(), 1);
    }
}

/* Writes more than files may hold (setrlimit, POSIX.1-2008). */
static bool committed_beyond_the_limit(const char *path) {
    struct rlimit before, small;
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &before), 0);
    small = before;
    small.rlim_cur = 8192;
    void (*handler)(int) = signal(SIGXFSZ, SIG_IGN);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &small), 0);
    struct output *out = output_open(path);
    bool opened = out != NULL;
    for (int i = 0; opened && i < 4000; i++)
        output_text(out, "forty bytes of a bid, and then some more");
    bool committed = opened && output_commit(out);
    int fault = errno;
    setrlimit(RLIMIT_FSIZE, &before);
    signal(SIGXFSZ, handler);
    assert_true(opened);
    errno = fault;
    return committed;
}

static void a_write_that_fails_leaves_the_old_file(void **state) {
    (void)state;
    write_file("bid.md", "old");
    assert_false(committed_beyond_the_limit("bid.md"));
    assert_int_equal(errno, EFBIG);
    assert_file("bid.md", "old");
    assert_int_equal(files_here(), 1);
}

static void a_full_disk_is_reported(void **state) {
    (void)state;
    if (access("/dev/full", W_OK) != 0)
        skip();
    struct output *out = output_open("/dev/full"); /* Linux: every write fails with ENOSPC */
    assert_non_null(out);
    output_text(out, "a bid");
    assert_false(output_commit(out));
    assert_int_equal(errno, ENOSPC);
}

static void a_device_is_written_straight(void **state) {
    (void)state;
    struct output *out = output_open("/dev/null");
    assert_non_null(out);
    output_text(out, "a bid");
    assert_true(output_commit(out));
    struct stat null;
    assert_int_equal(stat("/dev/null", &null), 0);
    assert_true(S_ISCHR(null.st_mode));
}

static void a_name_that_cannot_be_taken_leaves_nothing(void **state) {
    (void)state;
    struct output *out = output_open("bid.md");
    assert_non_null(out);
    output_text(out, "new");
    assert_int_equal(mkdir("bid.md", 0755), 0); /* the name is lost in between */
    assert_false(output_commit(out));
    assert_true(errno == EISDIR || errno == EEXIST || errno == ENOTEMPTY);
    assert_int_equal(files_here(), 1);
}

static void a_folder_that_is_not_there_is_reported(void **state) {
    (void)state;
    errno = 0;
    assert_null(output_open("nowhere/bid.md"));
    assert_int_equal(errno, ENOENT);
    write_file("bid.md", "a file");
    assert_null(output_open("bid.md/bid.md"));
    assert_int_equal(errno, ENOTDIR);
    assert_null(output_open("/tmp"));
    assert_int_equal(errno, EISDIR);
}

/* True when the folder refuses us; the administrator is refused nothing and steps down for it. */
static bool refused(const char *path, int *fault) {
    uid_t user = geteuid();
    if (user == 0 && seteuid(65534) != 0)
        return false;
    struct output *out = output_open(path);
    *fault = errno;
    output_abandon(out);
    if (user == 0 && seteuid(0) != 0)
        abort();
    return out == NULL;
}

static void a_folder_that_may_not_be_written_is_reported(void **state) {
    (void)state;
    int fault = 0;
    assert_int_equal(mkdir("real", 0555), 0);
    chmod(".", 0755);
    assert_true(refused("real/bid.md", &fault));
    assert_int_equal(fault, EACCES);
}

static void a_file_that_may_not_be_written_is_not_replaced(void **state) {
    (void)state;
    int fault = 0;
    assert_int_equal(mkdir("real", 0777), 0);
    chmod("real", 0777);
    chmod(".", 0755);
    write_file("real/bid.md", "old");
    chmod("real/bid.md", 0444);
    assert_true(refused("real/bid.md", &fault));
    assert_int_equal(fault, EACCES);
    assert_file("real/bid.md", "old");
}

static void permissions_of_an_old_file_are_kept(void **state) {
    (void)state;
    write_file("bid.md", "old");
    chmod("bid.md", 0640);
    struct output *out = output_open("bid.md");
    output_text(out, "new");
    assert_true(output_commit(out));
    struct stat now;
    assert_int_equal(stat("bid.md", &now), 0);
    assert_int_equal(now.st_mode & 0777, 0640);
}

static void a_new_file_has_the_permissions_of_the_user_s_mask(void **state) {
    (void)state;
    mode_t mask = umask(027);
    struct output *out = output_open("bid.md");
    umask(mask);
    assert_true(output_commit(out));
    struct stat now;
    assert_int_equal(stat("bid.md", &now), 0);
    assert_int_equal(now.st_mode & 0777, 0640);
    assert_int_equal(now.st_size, 0);
}

static void a_link_goes_on_leading_to_its_file(void **state) {
    (void)state;
    assert_int_equal(mkdir("real", 0755), 0);
    write_file("real/bid.md", "old");
    assert_int_equal(symlink("real/bid.md", "gate"), 0);
    struct output *out = output_open("gate");
    output_text(out, "new");
    assert_true(output_commit(out));
    struct stat gate;
    assert_int_equal(lstat("gate", &gate), 0);
    assert_true(S_ISLNK(gate.st_mode));
    assert_file("real/bid.md", "new");
}

static void two_outputs_of_one_name_do_not_mix(void **state) {
    (void)state;
    struct output *first = output_open("bid.md"), *second = output_open("bid.md");
    output_text(first, "first");
    output_text(second, "second");
    assert_true(output_commit(second));
    assert_file("bid.md", "second");
    assert_true(output_commit(first));
    assert_file("bid.md", "first");
}

static void memory_holds_what_was_written(void **state) {
    (void)state;
    struct output *out = output_open_memory();
    output_text(out, "a");
    output_put(out, "\0b", 2);
    output_format(out, "%05.1f", 2.5);
    size_t length = 0;
    char *bytes = output_take_memory(out, &length);
    assert_int_equal(length, 8);
    assert_memory_equal(bytes, "a\0b002.5", 9);
    free(bytes);
    bytes = output_take_memory(output_open_memory(), &length);
    assert_int_equal(length, 0);
    assert_string_equal(bytes, "");
    free(bytes);
    output_abandon(output_open_memory());
    assert_true(output_commit(output_open_memory()));
}

#define IN_FOLDER(test) cmocka_unit_test_setup_teardown(test, setup, teardown)

int main(void) {
    const struct CMUnitTest tests[] = {
        IN_FOLDER(a_file_appears_only_when_it_is_whole),
        IN_FOLDER(an_old_file_stays_until_the_new_one_is_whole),
        IN_FOLDER(what_is_abandoned_leaves_no_trace),
        IN_FOLDER(a_process_that_is_killed_leaves_the_old_file_alone),
        IN_FOLDER(a_write_that_fails_leaves_the_old_file),
        IN_FOLDER(a_full_disk_is_reported),
        IN_FOLDER(a_device_is_written_straight),
        IN_FOLDER(a_name_that_cannot_be_taken_leaves_nothing),
        IN_FOLDER(a_folder_that_is_not_there_is_reported),
        IN_FOLDER(a_folder_that_may_not_be_written_is_reported),
        IN_FOLDER(a_file_that_may_not_be_written_is_not_replaced),
        IN_FOLDER(permissions_of_an_old_file_are_kept),
        IN_FOLDER(a_new_file_has_the_permissions_of_the_user_s_mask),
        IN_FOLDER(a_link_goes_on_leading_to_its_file),
        IN_FOLDER(two_outputs_of_one_name_do_not_mix),
        IN_FOLDER(memory_holds_what_was_written),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
