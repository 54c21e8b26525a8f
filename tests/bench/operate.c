/* Measures the operating point alone: open, balanced, and with what dust makes of the filters.
 *
 *     operate JOB...
 *
 * The job is compiled once; the pass is then run again, and the least of several times is what is printed.
 */
#include <stdint.h>
#include <stdio.h>
#include <time.h>

#include "air/operation.h"
#include "base/constant.h"
#include "compile/compile.h"

enum { RUNS = 3 };

/* Of this process: others on the machine do not count. */
static double now(void) {
    struct timespec time;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
    return (double)time.tv_sec + (double)time.tv_nsec * 1e-9;
}

struct worst {
    size_t outlets, unsettled;
    int steps;
    double closure; /* Pa */
};

static void look_at(struct worst *worst, const struct operating_point *point) {
    worst->unsettled += point->outcome == OPERATES_UNSETTLED;
    worst->steps = point->steps > worst->steps ? point->steps : worst->steps;
    worst->closure = point->closure > worst->closure ? point->closure : worst->closure;
}

static struct worst worst_of(const struct job *job) {
    struct worst worst = {0};
    for (size_t i = 0; i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        worst.outlets += network ? network->supply_paths.count : 0;
        if (!network || !network->operation)
            continue;
        look_at(&worst, &network->operation->dampers_open);
        look_at(&worst, &network->operation->balanced);
    }
    return worst;
}

static int measure(const char *path) {
    struct cleat *cleat = cleat_new(NULL);
    if (!cleat || cleat_compile(cleat, path) == CLEAT_IO)
        return fprintf(stderr, "operate: cannot compile %s\n", path), 1;
    struct job *job = (struct job *)(uintptr_t)cleat_job(cleat);
    double least = 1e9;
    for (int i = 0; i < RUNS; i++) {
        double start = now();
        air_operate(job);
        double took = now() - start;
        least = took < least ? took : least;
    }
    struct worst worst = worst_of(job);
    printf("%-28s %9zu outlets %9.1f ms, at most %d steps, closes to %.1e in. w.g., %zu unsettled\n", path,
           worst.outlets, least * 1e3, worst.steps, worst.closure / INCH_OF_WATER, worst.unsettled);
    cleat_free(cleat);
    return 0;
}

int main(int argc, char **argv) {
    int failed = 0;
    for (int i = 1; i < argc; i++)
        failed |= measure(argv[i]);
    return failed;
}
