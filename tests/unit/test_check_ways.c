/* Ways out of a budget are tried on the network itself: it is afterwards what it was before, to the byte.  And each
 * that is told, typed in as it is told, is one. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "base/constant.h"
#include "check/budget_ways.h"
#include "price_bench.h"
#include "ways_bench.h"

/* Everything of a network that is no pointer's own. */
struct bytes {
    char *at;
    size_t count;
};

static void put(FILE *out, const void *at, size_t size, size_t count) {
    assert_int_equal(fwrite(at, size, count, out), count);
}

/* All of it but what lies between the members of a size, which a compiler may leave as it was on the stack. */
static void put_item(FILE *out, const struct item *item) {
    struct item plain;
    memcpy(&plain, item, sizeof plain);
    char *size = (char *)&plain.loss.on.size;
    size_t shape = offsetof(struct duct_size, shape) + sizeof plain.loss.on.size.shape;
    memset(size + shape, 0, offsetof(struct duct_size, width) - shape);
    put(out, &plain, sizeof plain, 1);
    put(out, item->piece, sizeof(struct piece), 1);
}

static struct bytes bytes_of(const struct network *network) {
    struct bytes bytes = {NULL, 0};
    FILE *out = open_memstream(&bytes.at, &bytes.count);
    assert_non_null(out);
    for (size_t i = 0; i < network->sections.count; i++) {
        const struct run *run = network->sections.at[i]->run;
        put(out, run, sizeof *run, 1);
        put(out, run->pieces.at, sizeof run->pieces.at[0], run->pieces.count);
    }
    for (size_t i = 0; i < network->unit->speeds.count; i++)
        put(out, network->unit->speeds.at[i].points.at, sizeof(struct blower_point),
            network->unit->speeds.at[i].points.count);
    put(out, network, sizeof *network, 1);
    put(out, network->unit, sizeof *network->unit, 1);
    put(out, network->unit->drops.at, sizeof(struct drop), network->unit->drops.count);
    put(out, network->unit->speeds.at, sizeof(struct blower_speed), network->unit->speeds.count);
    put(out, network->supply_paths.at, sizeof(struct path), network->supply_paths.count);
    put(out, network->return_paths.at, sizeof(struct path), network->return_paths.count);
    for (size_t i = 0; i < network->ducts.count; i++)
        put(out, network->ducts.at[i], sizeof(struct duct), 1);
    for (size_t i = 0; i < network->sections.count; i++) {
        const struct section *section = network->sections.at[i];
        put(out, section, sizeof *section, 1);
        for (size_t k = 0; k < section->items.count; k++)
            put_item(out, &section->items.at[k]);
    }
    fclose(out);
    return bytes;
}

/* A unit of several speeds, a friction rate that is asked for, elbows that could be easier, sizes that could be larger:
 * each kind of way is tried, and there are some of each. */
static struct compiled short_of_pressure(const char *settings, const char *pressure) {
    return compiled_until(
        "sources",
        "job \"Short\" { %s }\n"
        "unit fan { airflow 700 cfm; supply 14 x 10; return 18 x 12; drop \"coil\" 0.05 in.wg\n"
        "speed \"low\"\n"
        "blower \"low\" 600 cfm at %s in.wg, 800 cfm at %s in.wg\n"
        "blower \"high\" 600 cfm at 0.9 in.wg, 800 cfm at 0.8 in.wg\n}\n"
        "run trunk from fan.supply { straight 6 ft; transition over 1 ft; straight 20 ft; elbow 90 left; "
        "straight 20 ft }\n"
        "outlet loft from trunk at 9 ft left { airflow 300 cfm; elbow 90 right; straight 9 ft; "
        "register 12 x 8, 0.05 in.wg at 300 cfm }\n"
        "outlet barn from trunk { airflow 400 cfm; register 14 x 10, 0.06 in.wg at 400 cfm }\n"
        "run back from fan.return { straight 10 ft; elbow 90 up }\n"
        "inlet hall from back { grille 20 x 14, 0.05 in.wg at 700 cfm }\n",
        settings, pressure, pressure);
}

static size_t ways_leave_all_as_it_was(const char *settings, const char *pressure) {
    struct compiled compiled = short_of_pressure(settings, pressure);
    struct job *job = (struct job *)(uintptr_t)compiled.job;
    struct network *network = job->units.count ? job->units.at[0]->network : NULL;
    if (cleat_error_count(compiled.cleat) || !network) {
        cleat_print_diagnostics(compiled.cleat, stderr, false, false);
        fail_msg("not compiled:\n%s", compiled.text);
    }
    if (!(network->surplus < 0))
        fail_msg("%.1f Pa left with %s", network->surplus, settings);
    struct bytes before = bytes_of(network);
    double rate = job->friction_rate;
    bool incomplete = job->incomplete;
    struct look look = {.job = job};
    struct diagnostic *said = diagnose(job->diagnostics, DIAGNOSTIC_NOTE, "budget", network->unit->at, "short");
    budget_ways(&look, network, 1, said);
    struct bytes after = bytes_of(network);
    assert_int_equal(before.count, after.count);
    assert_memory_equal(before.at, after.at, before.count);
    assert_true(job->friction_rate == rate && job->incomplete == incomplete);
    assert_int_equal(cleat_error_count(compiled.cleat), 0);
    size_t told = said->related.count;
    free(before.at);
    free(after.at);
    compiled_free(&compiled);
    return told;
}

static void the_network_is_as_it_was(void **state) {
    (void)state;
    assert_true(ways_leave_all_as_it_was("friction 0.12 in.wg/100ft", "0.24") > 1);
    assert_true(ways_leave_all_as_it_was("friction 0.12 in.wg/100ft; sizing static-regain", "0.18") >= 1);
    assert_true(ways_leave_all_as_it_was("sizing velocity", "0.18") >= 1);
    assert_true(ways_leave_all_as_it_was("sizing least-cost", "0.12") >= 1);
    assert_true(ways_leave_all_as_it_was("altitude 5000 ft", "0.12") >= 1);
}

/* ---- Typed in ---------------------------------------------------------------------------------------------------- */

/* What a reader does: `length` bytes at `begin` give way to `text`. */
struct typing {
    size_t begin, length;
    char *text;
};

enum { LINES = 16 };

struct typed {
    int count;
    struct typing at[LINES];
};

static char *joined(const char *format, ...) __attribute__((format(printf, 1, 2)));

static char *joined(const char *format, ...) {
    char *text = NULL;
    size_t length = 0;
    va_list list;
    va_start(list, format);
    FILE *out = open_memstream(&text, &length);
    assert_non_null(out);
    vfprintf(out, format, list);
    fclose(out);
    va_end(list);
    return text;
}

static char *between(const char *from, const char *to) {
    return strndup(from, (size_t)(to - from));
}

/* The block of the run that is named, behind its brace; its end in `end`. */
static const char *block_of(const char *job, const char *run, const char **end) {
    static const char *const words[] = {"run", "outlet", "inlet"};
    for (size_t i = 0; i < 3; i++) {
        char head[100];
        snprintf(head, sizeof head, "\n%s %s from", words[i], run);
        const char *at = strstr(job, head), *open = at ? strchr(at, '{') : NULL;
        *end = open ? strchr(open, '}') : NULL;
        if (*end)
            return open + 1;
    }
    fail_msg("no run %s", run);
    return NULL;
}

static struct typing type_first(const char *job, const char *line, const char *run) {
    const char *end, *open = block_of(job, run, &end);
    return (struct typing){(size_t)(open - job), 0, joined(" %s;", line)};
}

/* Into the block of the run that is named, in place of its size, or as its first line. */
static struct typing type_size(const char *job, const char *line, const char *run) {
    const char *end, *own = strstr(block_of(job, run, &end), " size ");
    if (own && own < end)
        return (struct typing){(size_t)(own + 1 - job), strcspn(own + 1, ";\n}"), strdup(line)};
    return type_first(job, line, run);
}

/* "...: write 'LINE' in RUN, ...", or "leave out 'LINE'". */
static struct typing type_note(const char *job, const struct diagnostic_related *note) {
    const char *write = strstr(note->message, "write '"), *leave = strstr(note->message, "leave out '");
    assert_true(write || leave);
    const char *begin = strchr(write ? write : leave, '\'') + 1, *end = strchr(begin, '\'');
    char *line = between(begin, end),
         *run = between(end + (write ? 5 : 1), end + (write ? 5 : 1) + strcspn(end + (write ? 5 : 1), ", "));
    struct typing typing = {note->at.begin, note->at.end - note->at.begin, NULL};
    if (leave)
        typing = (struct typing){(size_t)(strstr(job, line) - job), strlen(line), strdup("")};
    else if (strncmp(line, "size ", 5) == 0)
        typing = type_size(job, line, run);
    else if (strncmp(line, "speed ", 6) == 0)
        typing = (struct typing){(size_t)(strstr(job, "\nspeed ") + 1 - job),
                                 strcspn(strstr(job, "\nspeed ") + 1, ";\n}"), strdup(line)};
    else if (strncmp(line, "tap ", 4) == 0 && strncmp(job + typing.begin, "tap", 3) != 0)
        typing = type_first(job, line, run);
    else /* of the head of a run only the side is another */
        typing.text = strdup(strncmp(line, "from ", 5) == 0 ? strrchr(line, ' ') + 1 : line);
    free(line);
    free(run);
    return typing;
}

/* From the end, so that places stay. */
static char *type_all(const char *job, struct typed *typed) {
    char *text = strdup(job);
    for (; typed->count; typed->count--) {
        int last = 0;
        for (int i = 1; i < typed->count; i++)
            if (typed->at[i].begin > typed->at[last].begin)
                last = i;
        struct typing typing = typed->at[last];
        typed->at[last] = typed->at[typed->count - 1];
        char *with = joined("%.*s%s%s", (int)typing.begin, text, typing.text, text + typing.begin + typing.length);
        free(text);
        free(typing.text);
        text = with;
    }
    return text;
}

/* "$1,017.19 more", in hundredths; false: no price is told. */
static bool told_price(const char *told, money *more) {
    const char *at = strchr(told, '$');
    if (!at || strstr(told, "for walls"))
        return false;
    for (*more = 0, at++; *at && *at != ' '; at++)
        if (*at >= '0' && *at <= '9')
            *more = *more * 10 + (*at - '0');
    if (strncmp(at, " less", 5) == 0)
        *more = -*more;
    return true;
}

static void costs_as_told(const struct job *before, const struct job *after, money more, const char *told) {
    assert_non_null(before->price);
    assert_non_null(after->price);
    money difference = after->price->build_up.unrounded - before->price->build_up.unrounded;
    if (difference != more)
        fail_msg("%s\n%lld hundredths more", told, (long long)difference);
}

/* Errors but those of the budget. */
static size_t other_errors(const struct job *job) {
    size_t count = 0;
    for (size_t i = 0; i < job->diagnostics->all.count; i++) {
        const struct diagnostic *said = job->diagnostics->all.at[i];
        count += said->level == DIAGNOSTIC_ERROR && !(said->check && strcmp(said->check, "budget") == 0);
    }
    return count;
}

/* "leaves 0.055 in. w.g.": what is told is what comes of it. */
static void mends(const struct compiled *before, struct typed *typed, const char *told, int *count) {
    money more = 0;
    bool priced = told_price(told, &more);
    char *text = type_all(before->text, typed);
    struct compiled compiled = priced ? compiled_text("%s", text) : compiled_until("operate", "%s", text);
    if (priced)
        costs_as_told(before->job, compiled.job, more, told);
    const struct network *network = compiled_network(&compiled);
    if (other_errors(compiled.job) > other_errors(before->job) || network->surplus < 0)
        fail_msg("%s\n%s\n%.6f Pa left", text, told, network->surplus);
    double spare = strtod(strstr(told, "leaves ") + 7, NULL);
    if (fabs(spare - network->surplus / INCH_OF_WATER) > 0.00051)
        fail_msg("%s\n%s\n%.6f in. w.g. left", text, told, network->surplus / INCH_OF_WATER);
    ++*count;
    compiled_free(&compiled);
    free(text);
}

struct counts {
    int ways, taps, sides; /* with a freer tap, and with one on another side */
};

static void type_ways(const struct compiled *compiled, const struct diagnostic *said, struct counts *counts) {
    for (size_t i = 0; i < said->related.count;) {
        const char *told = said->related.at[i].message;
        struct typed typed = {0};
        if (strncmp(told, "way out", 7) != 0) {
            i++;
            continue;
        }
        do {
            counts->taps += strstr(said->related.at[i].message, "'tap ") != NULL;
            counts->sides += strstr(said->related.at[i].message, "'from ") != NULL;
            typed.at[typed.count++] = type_note(compiled->text, &said->related.at[i++]);
        } while (i < said->related.count && strstr(said->related.at[i].message, "together with: write"));
        mends(compiled, &typed, told, &counts->ways);
    }
}

/* Sized anew in place, as in a large job. */
static void each_way_typed_in_is_one(void **state) {
    (void)state;
    struct counts counts = {0, 0, 0};
    for (uint64_t job_seed = 1; job_seed <= 250; job_seed++) {
        struct compiled compiled = short_job(job_seed);
        struct job *job = (struct job *)(uintptr_t)compiled.job;
        struct look look = {.job = job};
        struct diagnostic *said = diagnose(job->diagnostics, DIAGNOSTIC_NOTE, "budget", job->units.at[0]->at, "short");
        if (job->units.at[0]->network->surplus < 0)
            budget_ways(&look, job->units.at[0]->network, 1, said);
        type_ways(&compiled, said, &counts);
        compiled_free(&compiled);
    }
    print_message("%d ways typed in; %d freer taps, %d on another side\n", counts.ways, counts.taps, counts.sides);
    assert_true(counts.ways > 500 && counts.taps > 50 && counts.sides > 10);
}

/* As a command does it: each was compiled with its lines already; every other job is priced, and what a way takes more
 * is the difference of the two prices. */
static void each_way_of_a_whole_compilation_is_one(void **state) {
    (void)state;
    struct counts counts = {0, 0, 0};
    int priced = 0;
    for (uint64_t job_seed = 1; job_seed <= 6; job_seed++) {
        struct compiled compiled = job_of(job_seed, short_pressure(job_seed), NULL, job_seed % 2 ? BENCH_SHOP : "");
        const struct diagnostic *said = compiled_said(&compiled, "budget", "fan", 0);
        money more;
        for (size_t i = 0; said && i < said->related.count; i++)
            priced += told_price(said->related.at[i].message, &more);
        if (said)
            type_ways(&compiled, said, &counts);
        compiled_free(&compiled);
    }
    print_message("%d ways typed in, %d priced\n", counts.ways, priced);
    assert_true(counts.ways >= 10 && priced >= 3);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_network_is_as_it_was),
        cmocka_unit_test(each_way_typed_in_is_one),
        cmocka_unit_test(each_way_of_a_whole_compilation_is_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
