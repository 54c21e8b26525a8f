/* Measures the command as a person runs it: the whole process, from a job on disk to a bid on disk.
 *
 *     bench CLEAT GENERATE FOLDER JOB...
 *
 * Times are the least and the median of several runs, those of the packets the least of the processor; memory is the
 * largest resident set of any of them.
 */
#define _DEFAULT_SOURCE /* wait4: what one child used */
#include <fcntl.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { RUNS = 9, LARGE_RUNS = 3, PATH_LENGTH = 512 };

struct run {
    double seconds, user; /* by the clock, and of the processor */
    long kilobytes;
    int status;
};

static double now(void) {
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + (double)time.tv_nsec * 1e-9;
}

static void become(char *const *words, const char *output) {
    int file = open(output, O_WRONLY | O_CREAT | O_TRUNC, 0644);
    int nothing = open("/dev/null", O_WRONLY);
    if (file < 0 || nothing < 0 || dup2(file, STDOUT_FILENO) < 0 || dup2(nothing, STDERR_FILENO) < 0)
        _exit(126);
    execv(words[0], words);
    _exit(127);
}

/* Runs a command with its standard output in a file. */
static struct run run(char *const *words, const char *output) {
    double start = now();
    pid_t child = fork();
    if (child == 0)
        become(words, output);
    int status;
    struct rusage used;
    if (child < 0 || wait4(child, &status, 0, &used) < 0)
        return (struct run){.status = 126};
    return (struct run){
        .seconds = now() - start,
        .user = (double)used.ru_utime.tv_sec + (double)used.ru_utime.tv_usec * 1e-6,
        .kilobytes = used.ru_maxrss,
        .status = WIFEXITED(status) ? WEXITSTATUS(status) : 128,
    };
}

static int by_time(const void *a, const void *b) {
    const struct run *x = a, *y = b;
    return (x->seconds > y->seconds) - (x->seconds < y->seconds);
}

static long size_of(const char *path) {
    struct stat about;
    return stat(path, &about) == 0 ? (long)about.st_size : 0;
}

/* One line of the table; false when the command failed. */
static bool line(char *cleat, const char *what, char *job, char *bid, long outlets, int count) {
    char *words[] = {cleat, "bid", job, "-o", bid, NULL};
    struct run runs[RUNS] = {0};
    long kilobytes = 0;
    for (int i = 0; i < count; i++) {
        runs[i] = run(words, "/dev/null");
        if (runs[i].status != 0)
            return fprintf(stderr, "bench: %s bid %s: exit status %d\n", cleat, job, runs[i].status), false;
        if (runs[i].kilobytes > kilobytes)
            kilobytes = runs[i].kilobytes;
    }
    qsort(runs, (size_t)count, sizeof runs[0], by_time);
    printf("%-36s %9.1f %9.1f %9.1f", what, runs[0].seconds * 1e3, runs[count / 2].seconds * 1e3,
           (double)kilobytes / 1024);
    if (outlets)
        printf(" %9.2f %9.2f", runs[count / 2].seconds * 1e6 / (double)outlets, (double)kilobytes / (double)outlets);
    else
        printf(" %9s %9s", "", "");
    printf(" %9ld %9ld\n", size_of(job) / 1024, size_of(bid) / 1024);
    fflush(stdout);
    return true;
}

/* `method` is of sizing; NULL: as a job that says nothing. */
static bool generated(char *cleat, char *generate, const char *folder, char *shape, long outlets, char *method) {
    char job[PATH_LENGTH], bid[PATH_LENGTH], number[32], what[64];
    snprintf(job, sizeof job, "%s/%s-%ld.job", folder, shape, outlets);
    snprintf(bid, sizeof bid, "%s/%s-%ld.md", folder, shape, outlets);
    snprintf(number, sizeof number, "%ld", outlets);
    snprintf(what, sizeof what, "%s, %ld outlets%s%s", shape, outlets, method ? ", " : "", method ? method : "");
    char *words[] = {generate, shape, number, method, NULL};
    if (run(words, job).status != 0)
        return fprintf(stderr, "bench: cannot write %s\n", job), false;
    return line(cleat, what, job, bid, outlets, outlets > 1000 ? LARGE_RUNS : RUNS);
}

static bool demo(char *cleat, const char *folder, char *job) {
    const char *slash = strrchr(job, '/');
    char bid[PATH_LENGTH];
    snprintf(bid, sizeof bid, "%s/%s.md", folder, slash ? slash + 1 : job);
    return line(cleat, job, job, bid, 0, RUNS);
}

/* ---- Pages ------------------------------------------------------------------------------------------------------- */

/* Pages of a PDF: each has an object that says so in plain letters. */
static long pages_of(const char *path) {
    FILE *file = fopen(path, "rb");
    static const char mark[] = "/Type /Page %";
    long pages = 0;
    size_t met = 0;
    for (int byte = file ? getc(file) : EOF; byte != EOF; byte = getc(file)) {
        met = byte == mark[met] ? met + 1 : byte == mark[0];
        if (mark[met])
            continue;
        pages++;
        met = 0;
    }
    if (file)
        fclose(file);
    return pages;
}

/* Of all papers that the command has named in `list`. */
static long pages_listed(const char *list) {
    char path[PATH_LENGTH];
    FILE *file = fopen(list, "r");
    long pages = 0;
    while (file && fgets(path, sizeof path, file)) {
        path[strcspn(path, "\n")] = 0;
        pages += pages_of(path);
    }
    if (file)
        fclose(file);
    return pages;
}

/* The packet of one reader, or of all, several times: the median in ms, and its pages. */
static bool press(char *cleat, char *job, char *reader, char *to, const char *list) {
    char *words[] = {cleat, "bid", job, "--for", reader, "--format", "pdf", "-o", to, NULL};
    struct run runs[RUNS];
    for (int i = 0; i < RUNS; i++) {
        runs[i] = run(words, list);
        if (runs[i].status != 0)
            return fprintf(stderr, "bench: %s bid %s --for %s: exit status %d\n", cleat, job, reader, runs[i].status),
                   false;
    }
    qsort(runs, RUNS, sizeof runs[0], by_time);
    double seconds = runs[RUNS / 2].seconds;
    long pages = pages_listed(list);
    printf(" %9.1f %9ld %9.0f", seconds * 1e3, pages, (double)pages / seconds);
    return true;
}

static bool pressed(char *cleat, const char *folder, char *job) {
    char paper[PATH_LENGTH], papers[PATH_LENGTH], list[PATH_LENGTH];
    snprintf(paper, sizeof paper, "%s/bid.pdf", folder);
    snprintf(papers, sizeof papers, "%s/papers", folder);
    snprintf(list, sizeof list, "%s/list.txt", folder);
    printf("%-28s", job);
    bool sound = press(cleat, job, "customer", paper, list) && press(cleat, job, "all", papers, list);
    printf("\n");
    fflush(stdout);
    return sound;
}

/* ---- Every packet of a large job --------------------------------------------------------------------------------- */

/* Processor time and memory of one command: the least and the most of a few runs. */
static bool cell(char *const *words) {
    double least = 0;
    long most = 0;
    for (int i = 0; i < LARGE_RUNS; i++) {
        struct run one = run(words, "/dev/null");
        if (one.status != 0)
            return fprintf(stderr, "bench: %s %s %s: exit status %d\n", words[0], words[1], words[2], one.status),
                   false;
        least = i && least < one.user ? least : one.user;
        most = most > one.kilobytes ? most : one.kilobytes;
    }
    printf(" %7.2f %5ld", least, most / 1024);
    fflush(stdout);
    return true;
}

/* A line of the table: what is said of the job, and each packet of it on pages; the data behind them. */
static bool packets(char *cleat, char *generate, const char *folder, char *shape, char *outlets) {
    static char *const readers[] = {"customer", "field", "shop", "office"};
    char job[PATH_LENGTH], to[PATH_LENGTH];
    snprintf(job, sizeof job, "%s/%s-%s.job", folder, shape, outlets);
    snprintf(to, sizeof to, "%s/packet", folder);
    char *make[] = {generate, shape, outlets, NULL};
    if (run(make, job).status != 0)
        return fprintf(stderr, "bench: cannot write %s\n", job), false;
    printf("%-20s", shape);
    char *check[] = {cleat, "check", job, NULL};
    bool sound = cell(check);
    for (size_t i = 0; i < sizeof readers / sizeof readers[0]; i++) {
        char *words[] = {cleat, "bid", job, "--for", readers[i], "--format", "pdf", "-o", to, NULL};
        sound = cell(words) && sound;
    }
    char *data[] = {cleat, "bid", job, "--format", "json", "-o", to, NULL};
    sound = cell(data) && sound;
    printf("\n");
    return sound;
}

static bool all_packets(char *cleat, char *generate, const char *folder) {
    static char *const shapes[] = {"houses", "office", "trunk"};
    bool sound = true;
    printf("\n%-20s %13s %13s %13s %13s %13s %13s\n", "1000 outlets", "check", "customer", "field", "shop", "office",
           "json");
    printf("%-20s", "");
    for (int i = 0; i < 6; i++)
        printf(" %7s %5s", "user s", "MiB");
    printf("\n");
    for (size_t i = 0; i < sizeof shapes / sizeof shapes[0]; i++)
        sound = packets(cleat, generate, folder, shapes[i], "1000") && sound;
    return sound;
}

int main(int argc, char **argv) {
    if (argc < 4)
        return fprintf(stderr, "usage: bench CLEAT GENERATE FOLDER JOB...\n"), 2;
    char *cleat = argv[1], *generate = argv[2];
    const char *folder = argv[3];
    mkdir(folder, 0755);
    printf("%-36s %9s %9s %9s %9s %9s %9s %9s\n", "from job to bid", "least ms", "median ms", "peak MiB", "us/outlet",
           "KiB/outl.", "job KiB", "bid KiB");
    bool sound = true;
    for (int i = 4; i < argc; i++)
        sound = demo(cleat, folder, argv[i]) && sound;
    for (long outlets = 10; outlets <= 100000; outlets *= 10)
        sound = generated(cleat, generate, folder, "houses", outlets, NULL) && sound;
    for (long outlets = 1000; outlets <= 10000; outlets *= 10)
        sound = generated(cleat, generate, folder, "trunk", outlets, NULL) && sound;
    static char *const methods[] = {"equal-friction", "static-regain", "least-cost"};
    for (size_t i = 0; i < sizeof methods / sizeof methods[0]; i++)
        sound = generated(cleat, generate, folder, "office", 1000, methods[i]) && sound;
    printf("\n%-28s %9s %9s %9s %9s %9s %9s\n", "from job to PDF", "bid ms", "pages", "pages/s", "all ms", "pages",
           "pages/s");
    for (int i = 4; i < argc; i++)
        sound = pressed(cleat, folder, argv[i]) && sound;
    sound = all_packets(cleat, generate, folder) && sound;
    return sound ? 0 : 1;
}
