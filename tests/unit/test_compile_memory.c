/* Memory that runs out at any moment: the compile says so, and an older bid stays whole. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/arena.h"
#include "compile/compile.h"
#include "ration.h"

static char *read_whole(const char *path) {
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    char *bytes = calloc(1, 1 << 20);
    assert_non_null(bytes);
    size_t length = fread(bytes, 1, (1 << 20) - 1, file);
    assert_true(length > 0);
    fclose(file);
    return bytes;
}

/* A job of `outlets` outlets on one trunk, long enough to need many blocks of the arena. */
static char *job_text(int outlets) {
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    assert_non_null(out);
    fprintf(out, "job \"Long shed\"\nunit fan { blower %d cfm at 2 in.wg; supply 40 x 30; return 40 x 30 }\n",
            outlets * 20);
    fprintf(out, "run trunk from fan.supply { straight %d ft }\n", outlets + 2);
    for (int i = 0; i < outlets; i++)
        fprintf(out, "outlet o%d from trunk at %d ft left { airflow 20 cfm; flex 6 ft; boot; register 10 x 4 }\n", i,
                i + 1);
    fprintf(out, "run back from fan.return { straight 4 ft }\ninlet hall from back { grille 60 x 40 }\n");
    fclose(out);
    return text;
}

/* The folder of drawings beside the bid holds whole drawings only, numbered from 1. */
static void remove_drawings(const char *folder) {
    char path[96];
    int count = 0;
    do
        snprintf(path, sizeof path, "%s/bid-figures/plan-%d.svg", folder, ++count);
    while (unlink(path) == 0);
    assert_true(count > 1);
    snprintf(path, sizeof path, "%s/bid-figures", folder);
    assert_int_equal(rmdir(path), 0);
}

static void out_of_memory_is_said_and_the_old_bid_stays(void **state) {
    (void)state;
    char folder[] = "/tmp/cleat-memory-XXXXXX";
    assert_non_null(mkdtemp(folder));
    char path[64];
    snprintf(path, sizeof path, "%s/bid.md", folder);
    FILE *old = fopen(path, "w");
    assert_non_null(old);
    fputs("the bid of yesterday\n", old);
    fclose(old);

    char *text = job_text(400);
    size_t failures = 0;
    bool done = false;
    for (size_t blocks = 1; !done; blocks++) {
        assert_true(blocks < 10000);
        size_t left = blocks;
        struct arena_source source = ration_of(&left);
        struct cleat *cleat = cleat_new_from(&source, NULL);
        if (!cleat)
            continue;
        enum cleat_status status = cleat_compile_text(cleat, "shed.job", text, strlen(text));
        if (status != CLEAT_IO)
            status = cleat_write(cleat, NULL, "md", path);
        done = status != CLEAT_IO;
        char *now = read_whole(path);
        if (!done) {
            failures++;
            assert_non_null(cleat_problem(cleat));
            assert_non_null(strstr(cleat_problem(cleat), "memory"));
            assert_string_equal(now, "the bid of yesterday\n");
        } else {
            assert_string_not_equal(now, "the bid of yesterday\n");
        }
        free(now);
        cleat_free(cleat);
    }
    assert_true(failures >= 3);
    free(text);
    assert_int_equal(unlink(path), 0);
    remove_drawings(folder);
    assert_int_equal(rmdir(folder), 0); /* and nothing half-written lies beside it */
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(out_of_memory_is_said_and_the_old_bid_stays),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
