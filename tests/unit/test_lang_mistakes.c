/* A job with many independent mistakes: as many errors, each at its own, and nothing said of what is right. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "compiled.h"

static const char job[] = "job \"Weaving shed\" {\n"
                          "    altitude 1250 cfm\n"                                     /* 2 */
                          "    valid 30 dais\n"                                         /* 3 */
                          "}\n"                                                         /* 4 */
                          "unit AHU \"Air handler\" {\n"                                /* 5 */
                          "    blower 420 cfm at 0.30 in.wg, 1,400 cfm at 0.10 in.wg\n" /* 6 */
                          "    supply 12 x\n"                                           /* 7 */
                          "    return 14 x 10\n"                                        /* 8 */
                          "}\n"                                                         /* 9 */
                          "run trunk from AHU.supply \xE2\x80\x9C"                      /* 10 */
                          "Trunk\xE2\x80\x9D {\n"                                       /* 10 */
                          "    straigt 12 ft\n"                                         /* 11 */
                          "    elbow 90 left, radius\n"                                 /* 12 */
                          "    straight 10 ft straight 3 ft\n"                          /* 13 */
                          "    airflow 60 cfm\n"                                        /* 14 */
                          "    flex 6'\n"                                               /* 15 */
                          "}\n"                                                         /* 16 */
                          "outlet loom from trunk at 4 ft left { airflow 200 cfm; flex 6 ft; boot; register 10 x 6 }\n"
                          "run back from AHU.return { straight 4 ft }\n" /* 18 */
                          "inlet door from back { grille 20 x 14 }\n"    /* 19 */
                          "\"nothing\" of the kind\n";                   /* 20 */

static void one_error_a_mistake(void **state) {
    (void)state;
    static const size_t lines[] = {2, 3, 6, 7, 10, 11, 12, 13, 14, 15, 20};
    size_t count = sizeof lines / sizeof lines[0];
    struct compiled compiled = compiled_text("%s", job);
    const struct diagnostics *all = compiled.job->diagnostics;
    if (all->error_count != count)
        cleat_print_diagnostics(compiled.cleat, stderr, false, false);
    assert_int_equal(all->error_count, count);
    size_t seen = 0;
    for (size_t i = 0; i < all->all.count; i++) {
        const struct diagnostic *diagnostic = all->all.at[i];
        if (diagnostic->level != DIAGNOSTIC_ERROR)
            continue;
        assert_int_equal(text_place(diagnostic->at.text, diagnostic->at.begin).line, lines[seen]);
        seen++;
    }
    compiled_free(&compiled);
}

/* Words of the compiler's own making mean nothing to a mechanic. */
static void no_internal_words(void **state) {
    (void)state;
    static const char *const words[] = {"token",   "node",  "identifier", "END",    "WORD", "unexpected",
                                        "literal", "parse", "syntax",     "lexer",  "NULL", "argument",
                                        "slot",    "keyed", "operand",    "keyword"};
    struct compiled compiled = compiled_text("%s", job);
    const struct diagnostics *all = compiled.job->diagnostics;
    assert_true(all->all.count > 0);
    for (size_t i = 0; i < all->all.count; i++)
        for (size_t w = 0; w < sizeof words / sizeof words[0]; w++) {
            assert_null(strstr(all->all.at[i]->message, words[w]));
            assert_null(all->all.at[i]->hint ? strstr(all->all.at[i]->hint, words[w]) : NULL);
        }
    compiled_free(&compiled);
}

/* Every one of these costs one error, not a trail of them. */
static void one_slip_is_one_error(void **state) {
    (void)state;
    static const char good[] = "job \"Weaving shed\" { revision 1 }\n"
                               "unit AHU {\n"
                               "    blower 420 cfm at 0.30 in.wg, 400 cfm at 0.35 in.wg\n"
                               "    supply 18 x 18\n"
                               "    return 14 x 10\n"
                               "}\n"
                               "run trunk from AHU.supply {\n"
                               "    straight 12 ft\n"
                               "    cap\n"
                               "}\n"
                               "outlet loom from trunk at 4 ft left {\n"
                               "    airflow 400 cfm\n"
                               "    flex 6 ft\n"
                               "    boot\n"
                               "    register 14 x 8\n"
                               "}\n"
                               "run back from AHU.return { straight 4 ft }\n"
                               "inlet door from back { grille 24 x 14 }\n";
    static const struct slip {
        const char *from, *to;
    } slips[] = {
        {"job \"Weaving shed\" {", "job \"Weaving shed {"},
        {"unit AHU {", "unit AHU"},
        {"unit AHU {", "unti AHU {"},
        {"    return 14 x 10\n}", "    return 14 x 10\n"},
        {"run trunk from AHU.supply {", "run trunk frm AHU.supply {"},
        {"run trunk from AHU.supply {", "run trunk from AHU.supply"},
        {"run trunk from AHU.supply {", "run trunk from AHU.suply {"},
        {"run trunk from AHU.supply {", "@ run trunk from AHU.supply {"},
        {"    cap\n}", "    cap\n"},
        {"    cap\n}", "    cap\n}}"},
        {"straight 12 ft\n", "straight 12 ft,\n"},
        {"straight 12 ft\n", "straight 12 cfm\n"},
        {"straight 12 ft\n", "straight\n"},
        {"straight 12 ft\n", "12 ft\n"},
        {"airflow 400 cfm", "airflow 400"},
        {"airflow 400 cfm", "airflow 400 cfn"},
        {"airflow 400 cfm\n    flex", "airflow 400 cfm flex"},
        {"register 14 x 8", "register 14 x"},
        {"from trunk at 4 ft", "from trunk at 4 feat"},
        {"from trunk at", "from trunc at"},
        {"from trunk at", "trunk at"},
        {"grille 24 x 14 }", "grille 24 x 14"},
    };
    for (size_t i = 0; i < sizeof slips / sizeof slips[0]; i++) {
        const char *found = strstr(good, slips[i].from);
        assert_non_null(found);
        struct compiled compiled =
            compiled_text("%.*s%s%s", (int)(found - good), good, slips[i].to, found + strlen(slips[i].from));
        if (compiled.job->diagnostics->error_count != 1) {
            fprintf(stderr, "for %s:\n", slips[i].to);
            cleat_print_diagnostics(compiled.cleat, stderr, false, false);
        }
        assert_int_equal(compiled.job->diagnostics->error_count, 1);
        compiled_free(&compiled);
    }
    struct compiled compiled = compiled_text("%s", good);
    assert_int_equal(compiled.job->diagnostics->error_count, 0);
    compiled_free(&compiled);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_error_a_mistake),
        cmocka_unit_test(no_internal_words),
        cmocka_unit_test(one_slip_is_one_error),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
