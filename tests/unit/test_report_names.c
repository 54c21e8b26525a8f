/* Who has not seen the job's file reads rooms and titles; who has reads the names in it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <ctype.h>

#include "compiled.h"
#include "report/report.h"

static char *paper(const struct compiled *job, const char *reader) {
    struct output *out = output_open_memory();
    size_t length;
    assert_true(report_write(job->job, reader, "md", NULL, out));
    char *text = output_take_memory(out, &length);
    for (char *at = text; *at; at++)
        if (*at == '\n' && at[1] == ' ' && at[2] == ' ') { /* a bullet that goes on */
            memmove(at, at + 2, strlen(at + 2) + 1);
            *at = ' ';
        }
    return text;
}

/* Two registers of the study are too small for their air, as is the filter; the trunk has a title, the spur none. */
static struct compiled small_faces(void) {
    return compiled_text(
        "shop \"S\" {}\njob \"Names\" { date 2026-01-05 }\n"
        "unit fan { blower 900 cfm at 0.8 in.wg; supply 14 x 12; return 16 x 14 }\n"
        "run trunk \"Trunk under the hall\" from fan.supply { limit velocity 300 fpm; straight 12 ft; cap }\n"
        "run spur from trunk at 10 ft left { size 6; straight 3 ft }\n"
        "outlet desk from trunk at 4 ft left { room \"Study\"; airflow 300 cfm; damper; boot; register "
        "6 x 4 }\n"
        "outlet couch from trunk at 8 ft right { room \"Study\"; airflow 300 cfm; damper; boot; "
        "register 6 x 4 }\n"
        "outlet landing from spur { room \"Landing\"; airflow 300 cfm; damper; boot; register 6 x 4 }\n"
        "run back from fan.return { straight 4 ft }\n"
        "inlet floor from back { room \"Landing\"; boot; filter 12 x 10 x 1 }\n"
        "accept return-area on floor because \"it is changed each month\"\n");
}

static void has(const char *paper, const char *words, bool wanted) {
    if ((strstr(paper, words) != NULL) != wanted)
        fail_msg("\"%s\" is %sin:\n%s", words, wanted ? "not " : "", paper);
}

static void the_customer_reads_rooms_and_the_office_names(void **state) {
    (void)state;
    struct compiled job = small_faces();
    char *bid = paper(&job, NULL), *office = paper(&job, "office");
    static const struct {
        const char *plain, *named;
    } words[] = {
        {"at the face of Study (desk):", "at the face of desk:"},
        {"at the face of Study (couch):", "at the face of couch:"},
        {"at the face of Landing:", "at the face of landing:"},
        {"at the face of Landing (return):", "at the face of floor:"},
    };
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        has(bid, words[i].plain, true);
        has(bid, words[i].named, false);
        has(office, words[i].named, true);
        has(office, words[i].plain, false);
    }
    has(bid, "in Trunk under the hall:", true);
    has(office, "in trunk:", true);
    has(bid, "in spur:", true); /* it has no other name */
    free(bid);
    free(office);
    compiled_free(&job);
}

/* Whether a name stands in the message as a word of its own that is not known to be one. */
static bool is_missed(const struct diagnostic *said, const char *name) {
    size_t length = strlen(name);
    for (const char *at = strstr(said->message, name); at; at = strstr(at + 1, name)) {
        size_t begin = (size_t)(at - said->message);
        bool word = (!begin || !(isalnum((unsigned char)at[-1]) || at[-1] == '_')) &&
                    !(isalnum((unsigned char)at[length]) || at[length] == '_');
        bool known = !word;
        for (size_t i = 0; i < said->names.count; i++)
            known |= said->names.at[i].begin == begin && said->names.at[i].end == begin + length;
        if (!known)
            return true;
    }
    return false;
}

/* No check has forgotten to say that a name is one: held against all warnings of jobs that have many. */
static void a_warning_knows_the_names_in_it(void **state) {
    (void)state;
    static const char *const paths[] = {"tests/golden/kinds.job", "jobs/choirhouse.job", "jobs/cooperage.job",
                                        "jobs/fieldstation.job"};
    size_t names = 0;
    for (size_t p = 0; p < sizeof paths / sizeof paths[0]; p++) {
        struct cleat *cleat = cleat_new(NULL);
        assert_int_not_equal(cleat_compile(cleat, paths[p]), CLEAT_IO);
        const struct job *job = cleat_job(cleat);
        for (size_t i = 0; i < job->diagnostics->all.count; i++) {
            const struct diagnostic *said = job->diagnostics->all.at[i];
            if (said->level != DIAGNOSTIC_WARNING || strcmp(said->check, "accept") == 0)
                continue;
            names += said->names.count;
            for (size_t r = 0; r < job->runs.count; r++)
                if (job->runs.at[r]->role != RUN_DUCT && is_missed(said, job->runs.at[r]->name))
                    fail_msg("%s: '%s' in \"%s\"", said->check, job->runs.at[r]->name, said->message);
        }
        cleat_free(cleat);
    }
    assert_true(names > 20);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_customer_reads_rooms_and_the_office_names),
        cmocka_unit_test(a_warning_knows_the_names_in_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
