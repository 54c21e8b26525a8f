/* The route of large jobs: every piece placed, then held against every obstacle and every other run.
 *
 *     route
 *
 * Units stand on a grid, each with a trunk that turns and has rigid runouts; obstacles are strewn over the same ground,
 * a tenth as many as there are pieces.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "compile/compile.h"
#include "route/route.h"

enum { RUNOUTS = 14, PIECES = 8 + 4 * RUNOUTS + 3, TIMES = 5 };

static double now(void) {
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + (double)time.tv_nsec * 1e-9;
}

static unsigned long long state = 88172645463325252ULL;

static double between(double low, double high) {
    state ^= state << 13;
    state ^= state >> 7;
    state ^= state << 17;
    return low + (high - low) * ((double)(state >> 11) / 9007199254740992.0);
}

static void put_unit(FILE *out, int i, double x, double y) {
    fprintf(out,
            "unit u%d { blower 1500 cfm at 1 in.wg, 1300 cfm at 1.2 in.wg; at %.1f ft, %.1f ft, 9 ft; faces east }\n",
            i, x, y);
    fprintf(out,
            "run t%d from u%d.supply { size 20 x 12; straight 30 ft; elbow 90 left; straight 10 ft; offset 10 in up "
            "over 30 in; "
            "straight 10 ft; elbow 45 right; straight 6 ft; cap }\n",
            i, i);
    for (int k = 0; k < RUNOUTS; k++)
        fprintf(out,
                "outlet o%d_%d from t%d at %d ft %s { airflow 100 cfm; size 6; tap; straight %d ft; elbow 90 down; "
                "register 6 x 6 }\n",
                i, k, i, 2 + 4 * (k / 2), k % 2 ? "left" : "right", 3 + k % 5);
    fprintf(out, "run r%d from u%d.return { size 20 x 12; straight 4 ft }\ninlet i%d from r%d { grille 24 x 18 }\n", i,
            i, i, i);
}

static char *job_of(int units, int obstacles) {
    char *text = NULL;
    size_t length = 0;
    int across = 1;
    while (across * across < units)
        across++;
    FILE *out = open_memstream(&text, &length);
    if (!out)
        abort();
    fprintf(out, "job \"Large\"\n");
    for (int i = 0; i < units; i++)
        put_unit(out, i, 80 * (i % across), 70 * (double)(i / across));
    for (int i = 0; i < obstacles; i++) {
        double x = between(-20, 80 * across), y = between(-20, 70 * across), z = between(0, 16);
        fprintf(out, "obstacle \"thing\" from %.2f ft, %.2f ft, %.2f ft to %.2f ft, %.2f ft, %.2f ft\n", x, y, z,
                x + between(0.3, 6), y + between(0.3, 6), z + between(0.3, 2));
    }
    fclose(out);
    return text;
}

static void line(int pieces) {
    int units = (pieces + PIECES - 1) / PIECES;
    char *text = job_of(units, pieces / 10);
    struct cleat *cleat = cleat_new(NULL);
    if (!cleat || cleat_compile_text(cleat, "large.job", text, strlen(text)) != CLEAT_OK) {
        cleat_print_diagnostics(cleat, stderr, false, false);
        exit(1);
    }
    const struct job *job = cleat_job(cleat);
    double lay = 1e9, clash = 1e9, clear = 1e9;
    struct route *route = NULL;
    for (int i = 0; i < TIMES; i++) {
        double start = now();
        route = route_lay(job->arena, job);
        double laid = now();
        route_clashes(job->arena, job, route);
        double found = now();
        route_clear(job, route);
        double cleared = now();
        lay = laid - start < lay ? laid - start : lay;
        clash = found - laid < clash ? found - laid : clash;
        clear = cleared - found < clear ? cleared - found : clear;
    }
    printf("%8zu %10zu %9zu %8zu %8zu %9.2f %9.2f %9.2f %9.3f\n", route->pieces.count, route->stretches.count,
           job->obstacles.count, route->pairs, route->clashes.count, lay * 1e3, clash * 1e3, clear * 1e3,
           (lay + clash) * 1e6 / (double)route->pieces.count);
    cleat_free(cleat);
    free(text);
}

int main(void) {
    printf("%8s %10s %9s %8s %8s %9s %9s %9s %9s\n", "pieces", "stretches", "obstacles", "pairs", "clashes", "lay ms",
           "clash ms", "offset ms", "us/piece");
    for (int pieces = 1250; pieces <= 40000; pieces *= 2)
        line(pieces);
    return 0;
}
