/* Files that a job uses: where they are looked for, that each is read once, and what is refused. */
#include "lang_bench.h"

#include <sys/stat.h>
#include <unistd.h>

/* A folder of its own for each test: ROOT/job holds the job, ROOT/shops is the shop folder, ROOT/outside is neither. */
struct folders {
    char root[64];
    char job[96], shops[96];
    struct bench *bench;
};

static struct folders folders_new(void) {
    struct folders folders = {.root = "/tmp/cleat-use-XXXXXX"};
    assert_non_null(mkdtemp(folders.root));
    static const char *const names[] = {"job", "job/parts", "shops", "outside"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        char path[128];
        snprintf(path, sizeof path, "%s/%s", folders.root, names[i]);
        assert_int_equal(mkdir(path, 0700), 0);
    }
    snprintf(folders.job, sizeof folders.job, "%s/job/main.job", folders.root);
    snprintf(folders.shops, sizeof folders.shops, "%s/shops", folders.root);
    return folders;
}

static void put(const struct folders *folders, const char *name, const char *text) {
    char path[160];
    snprintf(path, sizeof path, "%s/%s", folders->root, name);
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fputs(text, file);
    assert_int_equal(fclose(file), 0);
}

static void read_job(struct folders *folders) {
    const char *cannot = NULL;
    folders->bench = bench_new();
    assert_true(syntax_read(&folders->bench->syntax, folders->job, folders->shops, folders->bench->arena,
                            &folders->bench->diagnostics, &cannot));
}

static void folders_free(struct folders *folders) {
    char command[96];
    snprintf(command, sizeof command, "rm -r '%s'", folders->root);
    assert_int_equal(system(command), 0);
    if (folders->bench)
        bench_free(folders->bench);
}

static void assert_read(struct folders *folders, const char *tree) {
    read_job(folders);
    if (folders->bench->diagnostics.all.count)
        diagnostics_print(stderr, &folders->bench->diagnostics, false);
    assert_int_equal(folders->bench->diagnostics.all.count, 0);
    assert_string_equal(bench_tree(folders->bench), tree);
    folders_free(folders);
}

static void assert_refused(struct folders *folders, const char *at, const char *message, const char *hint) {
    read_job(folders);
    assert_one_error(folders->bench, &(struct expected){"", "use", at, message, hint});
    folders_free(folders);
}

/* A file of the job's folder is named as the job is: by a path that opens it from here. */
static void assert_beside(const struct folders *folders, const char *name, const char *beside) {
    char path[300];
    snprintf(path, sizeof path, "%s/job/%s", folders->root, beside);
    assert_string_equal(name, path);
    assert_int_equal(access(name, R_OK), 0);
}

static void what_is_used_takes_the_place_of_use(void **state) {
    (void)state;
    struct folders folders = folders_new();
    put(&folders, "job/main.job", "a\nuse \"parts/b.shop\"\nd\n");
    put(&folders, "job/parts/b.shop", "b1\nuse \"c.shop\"\nb2\n");
    put(&folders, "job/parts/c.shop", "c\n");
    read_job(&folders);
    assert_string_equal(bench_tree(folders.bench), "a; b1; c; b2; d");
    assert_int_equal(folders.bench->syntax.texts.count, 3);
    assert_string_equal(folders.bench->syntax.texts.at[0]->name, folders.job);
    assert_beside(&folders, folders.bench->syntax.texts.at[1]->name, "parts/b.shop");
    assert_beside(&folders, folders.bench->syntax.texts.at[2]->name, "parts/c.shop");
    folders_free(&folders);
}

static void the_shop_folder_is_tried_second(void **state) {
    (void)state;
    struct folders folders = folders_new();
    put(&folders, "job/main.job", "use \"one.shop\"\nuse \"two.shop\"\n");
    put(&folders, "job/one.shop", "beside\n");
    put(&folders, "shops/one.shop", "installed\n");
    put(&folders, "shops/two.shop", "two\nuse \"three.shop\"\n");
    put(&folders, "shops/three.shop", "three\n");
    assert_read(&folders, "beside; two; three");
}

static void a_file_is_read_once(void **state) {
    (void)state;
    struct folders folders = folders_new();
    put(&folders, "job/main.job", "use \"a.shop\"\nuse \"./a.shop\"\nuse \"b.shop\"\n");
    put(&folders, "job/a.shop", "a\n");
    put(&folders, "job/b.shop", "use \"parts/../a.shop\"\nb\n");
    assert_read(&folders, "a; b");
}

static void a_step_up_is_allowed_within_the_folder_of_the_job(void **state) {
    (void)state;
    struct folders folders = folders_new();
    put(&folders, "job/main.job", "use \"parts/b.shop\"\n");
    put(&folders, "job/parts/b.shop", "use \"../c.shop\"\n");
    put(&folders, "job/c.shop", "c\n");
    assert_read(&folders, "c");
}

static void nothing_outside_is_read(void **state) {
    (void)state;
    struct folders folders = folders_new();
    put(&folders, "outside/x.shop", "x\n");
    put(&folders, "job/main.job", "use \"../outside/x.shop\"\n");
    assert_refused(&folders, "\"../outside/x.shop\"", "\"../outside/x.shop\" lies outside the folder of the job",
                   "copy it into the folder of the job");
}

static void nothing_outside_is_read_by_a_link(void **state) {
    (void)state;
    struct folders folders = folders_new();
    char from[128], to[128];
    snprintf(from, sizeof from, "%s/outside/x.shop", folders.root);
    snprintf(to, sizeof to, "%s/job/x.shop", folders.root);
    put(&folders, "outside/x.shop", "x\n");
    assert_int_equal(symlink(from, to), 0);
    put(&folders, "job/main.job", "use \"x.shop\"\n");
    assert_refused(&folders, "\"x.shop\"", "\"x.shop\" lies outside the folder of the job",
                   "copy it into the folder of the job");
}

/* ROOT/job is not a part of ROOT/jobs, though its name begins like it. */
static void a_folder_with_a_longer_name_is_outside(void **state) {
    (void)state;
    struct folders folders = folders_new();
    char path[128];
    snprintf(path, sizeof path, "%s/jobs", folders.root);
    assert_int_equal(mkdir(path, 0700), 0);
    put(&folders, "jobs/x.shop", "x\n");
    put(&folders, "job/main.job", "use \"../jobs/x.shop\"\n");
    assert_refused(&folders, "\"../jobs/x.shop\"", "\"../jobs/x.shop\" lies outside the folder of the job",
                   "copy it into the folder of the job");
}

static void no_absolute_paths(void **state) {
    (void)state;
    struct folders folders = folders_new();
    put(&folders, "job/main.job", "use \"/etc/passwd\"\n");
    assert_refused(&folders, "\"/etc/passwd\"", "a file to use is named by its place beside this one",
                   "write use \"standard.shop\"");
}

static void a_file_that_is_not_there(void **state) {
    (void)state;
    struct folders folders = folders_new();
    put(&folders, "job/main.job", "use \"no.shop\"\n");
    assert_refused(&folders, "\"no.shop\"", "there is no file \"no.shop\" beside this one or in the shop folder",
                   "copy it into the folder of this file, or take the line away");
}

static void a_folder_is_not_a_file(void **state) {
    (void)state;
    struct folders folders = folders_new();
    put(&folders, "job/main.job", "use \"parts\"\n");
    assert_refused(&folders, "\"parts\"", "\"parts\" cannot be read: Is a directory", NULL);
}

/* Opening a pipe that nobody writes to would wait for ever. */
static void a_pipe_is_not_a_file(void **state) {
    (void)state;
    struct folders folders = folders_new();
    char path[128];
    snprintf(path, sizeof path, "%s/job/pipe", folders.root);
    assert_int_equal(mkfifo(path, 0600), 0);
    put(&folders, "job/main.job", "use \"pipe\"\n");
    assert_refused(&folders, "\"pipe\"", "\"pipe\" cannot be read: it is not a file", NULL);
}

static void a_file_that_uses_itself(void **state) {
    (void)state;
    struct folders folders = folders_new();
    put(&folders, "job/main.job", "use \"main.job\"\n");
    assert_refused(&folders, "\"main.job\"", "this file uses itself", "take away one `use` of the circle");
}

static void a_circle_is_shown(void **state) {
    (void)state;
    struct folders folders = folders_new();
    put(&folders, "job/main.job", "use \"a.shop\"\nend\n");
    put(&folders, "job/a.shop", "a\nuse \"b.shop\"\n");
    put(&folders, "job/b.shop", "use \"c.shop\"\n");
    put(&folders, "job/c.shop", "c\nuse \"a.shop\"\n");
    read_job(&folders);
    struct bench *bench = folders.bench;
    assert_one_error(bench, &(struct expected){"", "use", "\"a.shop\"", "these files use each other in a circle",
                                               "take away one `use` of the circle"});
    const struct diagnostic *diagnostic = bench->diagnostics.all.at[0];
    assert_beside(&folders, diagnostic->at.text->name, "c.shop");
    assert_int_equal(diagnostic->related.count, 2);
    assert_non_null(strstr(diagnostic->related.at[0].message, "/c.shop is used here"));
    assert_beside(&folders, diagnostic->related.at[0].at.text->name, "b.shop");
    assert_non_null(strstr(diagnostic->related.at[1].message, "/b.shop is used here"));
    assert_beside(&folders, diagnostic->related.at[1].at.text->name, "a.shop");
    assert_string_equal(bench_tree(bench), "a; c; end");
    folders_free(&folders);
}

static void files_nest_16_deep(void **state) {
    (void)state;
    for (int over = 0; over < 2; over++) {
        struct folders folders = folders_new();
        put(&folders, "job/main.job", "use \"1.shop\"\n");
        for (int i = 1; i <= USE_LIMIT + over; i++) {
            char name[40], text[40];
            snprintf(name, sizeof name, "job/%d.shop", i);
            snprintf(text, sizeof text, "use \"%d.shop\"\n", i + 1);
            put(&folders, name, i == USE_LIMIT + over ? "last\n" : text);
        }
        if (over)
            assert_refused(&folders, "\"17.shop\"", "files use files more than 16 deep", NULL);
        else
            assert_read(&folders, "last");
    }
}

static void a_use_that_is_not_one_is_left_for_its_form(void **state) {
    (void)state;
    struct folders folders = folders_new();
    put(&folders, "job/main.job", "use 3\nuse\nuse \"x\" { }\njob \"a\" { use \"b.shop\" }\n");
    assert_read(&folders, "use 3; use; use <x> { }; job <a> { use <b.shop> }");
}

static void a_fault_in_a_used_file_is_shown_there(void **state) {
    (void)state;
    struct folders folders = folders_new();
    put(&folders, "job/main.job", "use \"a.shop\"\nb\n");
    put(&folders, "job/a.shop", "ok\n@ a\n");
    read_job(&folders);
    assert_one_error(folders.bench, &(struct expected){"", "syntax", "@", "'@' has no meaning here", NULL});
    assert_beside(&folders, folders.bench->diagnostics.all.at[0]->at.text->name, "a.shop");
    folders_free(&folders);
}

static void a_job_that_is_not_there(void **state) {
    (void)state;
    struct bench *bench = bench_new();
    const char *cannot = NULL;
    assert_false(syntax_read(&bench->syntax, "/nowhere/at/all.job", NULL, bench->arena, &bench->diagnostics, &cannot));
    assert_string_equal(cannot, "No such file or directory");
    assert_false(syntax_read(&bench->syntax, "/", NULL, bench->arena, &bench->diagnostics, &cannot));
    assert_string_equal(cannot, "Is a directory");
    assert_int_equal(bench->diagnostics.all.count, 0);
    bench_free(bench);
}

static void a_job_in_memory_uses_files_beside_its_name(void **state) {
    (void)state;
    struct folders folders = folders_new();
    put(&folders, "job/a.shop", "a\n");
    folders.bench = bench_new();
    syntax_read_text(&folders.bench->syntax, folders.job, "use \"a.shop\"; b", 15, NULL, folders.bench->arena,
                     &folders.bench->diagnostics);
    assert_int_equal(folders.bench->diagnostics.all.count, 0);
    assert_string_equal(bench_tree(folders.bench), "a; b");
    folders_free(&folders);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_used_takes_the_place_of_use),
        cmocka_unit_test(the_shop_folder_is_tried_second),
        cmocka_unit_test(a_file_is_read_once),
        cmocka_unit_test(a_step_up_is_allowed_within_the_folder_of_the_job),
        cmocka_unit_test(nothing_outside_is_read),
        cmocka_unit_test(nothing_outside_is_read_by_a_link),
        cmocka_unit_test(a_folder_with_a_longer_name_is_outside),
        cmocka_unit_test(no_absolute_paths),
        cmocka_unit_test(a_file_that_is_not_there),
        cmocka_unit_test(a_folder_is_not_a_file),
        cmocka_unit_test(a_pipe_is_not_a_file),
        cmocka_unit_test(a_file_that_uses_itself),
        cmocka_unit_test(a_circle_is_shown),
        cmocka_unit_test(files_nest_16_deep),
        cmocka_unit_test(a_use_that_is_not_one_is_left_for_its_form),
        cmocka_unit_test(a_fault_in_a_used_file_is_shown_there),
        cmocka_unit_test(a_job_that_is_not_there),
        cmocka_unit_test(a_job_in_memory_uses_files_beside_its_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
