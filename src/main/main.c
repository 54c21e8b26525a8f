/* The command: a thin shell on the library.  Here what stands on its command line is read. */
#include <getopt.h>
#include <stdio.h>
#include <string.h>

#include "main/command.h"

static const char more_help[] =
    "\n"
    "A job file is plain text. The smallest one that works:\n"
    "\n"
    "    job \"Garden studio\"\n"
    "    unit fan { blower 400 cfm at 0.30 in.wg; cooling 1 ton; supply 12 x 12; return 14 x 10 }\n"
    "    run trunk from fan.supply { straight 12 ft; cap }\n"
    "    outlet desk from trunk at 8 ft left { airflow 200 cfm; damper; flex 6 ft; boot; register 12 x 6 }\n"
    "    outlet sofa from trunk at 10 ft right { airflow 200 cfm; damper; flex 6 ft; boot; register 12 x 6 }\n"
    "    run back from fan.return { straight 4 ft }\n"
    "    inlet hall from back { boot; grille 20 x 14 }\n"
    "\n"
    "Write it to studio.job, then:\n"
    "\n"
    "    cleat check studio.job                 what is wrong with it, if anything\n"
    "    cleat bid studio.job -o studio.md      the bid: sizes, pressure budget, checks, cautions\n"
    "    cleat bid studio.job -o studio.pdf     the same on pages to print\n"
    "    cleat bid studio.job --for all -o papers/      every packet, as PDF\n"
    "    cleat bid studio.job -o studio.json    every figure behind it\n"
    "    cleat bid studio.job --for shop -o shop.md     what the shop needs: cut list, patterns, marks, strips\n"
    "    cleat bid studio.job --for shop -o cuts.csv    the cut list alone\n"
    "    cleat bid studio.job --for field -o field.md   what is hung, tested and balanced, with sheets to fill in\n"
    "    cleat bid studio.job --for office -o office.md the take-off, hours and the build-up to the price\n"
    "    cleat pattern studio.job               the parts that are made, by number\n"
    "    cleat pattern studio.job 2A -o 2A.svg  blank A of part 2 at full size\n"
    "    cleat pattern studio.job 2A -o 2A.pdf  the same over pages, to be taped together\n"
    "    cleat explain studio.job desk          how every figure of that outlet comes about\n"
    "    cleat checks                           what is checked, against which limits\n";

static const char exit_help[] =
    "        --diagnostics text|json    how errors and warnings are printed\n"
    "        --help, --version\n"
    "\n"
    "Exit status: 0 clean or warnings only, 1 errors in the job, 2 wrong usage, 3 cannot read or write.\n"
    "The whole language is in docs/language.md; `man cleat` has the rest.\n";

/* The options, with the names of the library's tables. */
static void print_options(FILE *out) {
    size_t readers, formats;
    const char *const *reader = cleat_readers(&readers), *const *format = cleat_formats(&formats);
    fputs("\nOptions:\n"
          "    -o, --output FILE      where to write; - is standard output (the default)\n"
          "        --for READER       whose packet to write: ",
          out);
    print_names(out, "", reader, readers);
    fprintf(out,
            ";\n"
            "                           %s without it; all writes every packet into the folder FILE,\n"
            "                           each in the formats of --format (pdf; or pdf,md)\n"
            "        --format FORMAT    ",
            reader[0]);
    print_names(out, "", format, formats);
    fputs("; without it the extension of FILE decides\n", out);
    fputs(exit_help, out);
}

static int help(FILE *out, int status) {
    fputs("cleat compiles a duct job, written as plain text, to its bid: duct sizes, static-pressure budget, "
          "schedules; and to what the shop cuts.\n\n",
          out);
    for (size_t i = 0; i < command_count; i++)
        fprintf(out, "    %-28s %s\n", commands[i].usage, commands[i].words);
    fputs(more_help, out);
    print_options(out);
    return status;
}

enum option_code { OPTION_FORMAT = 256, OPTION_FOR, OPTION_DIAGNOSTICS, OPTION_HELP, OPTION_VERSION };

static const struct option long_options[] = {
    {"output", required_argument, NULL, 'o'},
    {"for", required_argument, NULL, OPTION_FOR},
    {"format", required_argument, NULL, OPTION_FORMAT},
    {"diagnostics", required_argument, NULL, OPTION_DIAGNOSTICS},
    {"help", no_argument, NULL, OPTION_HELP},
    {"version", no_argument, NULL, OPTION_VERSION},
    {NULL, 0, NULL, 0},
};

/* What the command line asks for instead of a command: 0 nothing, else an enum option_code; -1 wrong usage, already
 * said. */
static int read_options(int argc, char **argv, struct options *options) {
    int code;
    while ((code = getopt_long(argc, argv, "o:", long_options, NULL)) != -1) {
        switch (code) {
        case 'o':
            options->output = optarg;
            break;
        case OPTION_FORMAT:
            options->format = optarg;
            break;
        case OPTION_FOR:
            options->reader = optarg;
            break;
        case OPTION_DIAGNOSTICS:
            options->json_diagnostics = strcmp(optarg, "json") == 0;
            if (!options->json_diagnostics && strcmp(optarg, "text") != 0) {
                usage_error("--diagnostics is text or json, not", optarg);
                return -1;
            }
            break;
        case OPTION_HELP:
        case OPTION_VERSION:
            return code;
        default:
            fprintf(stderr, "hint: `cleat --help` shows the options\n");
            return -1;
        }
    }
    return 0;
}

static int run_command(int argc, char **argv, struct options *options) {
    if (optind >= argc) {
        return help(stderr, CLEAT_USAGE);
    }
    const char *name = argv[optind];
    if (strcmp(name, "help") == 0)
        return help(stdout, CLEAT_OK);
    for (size_t i = 0; i < command_count; i++) {
        if (strcmp(commands[i].name, name) != 0)
            continue;
        int words = argc - optind - 1;
        if (words < commands[i].least)
            return usage_error(words < 1 ? "which job file" : "which run, outlet, inlet or unit", commands[i].usage);
        if (words > commands[i].most)
            return usage_error(commands[i].most ? "one job at a time; what is this" : "it takes nothing; what is this",
                               argv[optind + commands[i].most + 1]);
        options->job = words > 0 ? argv[optind + 1] : NULL;
        options->name = argc - optind > 2 ? argv[optind + 2] : NULL;
        return commands[i].run(options);
    }
    return usage_error("there is no command of that name", name);
}

int main(int argc, char **argv) {
    static char name[] = "cleat"; /* what getopt's own messages begin with */
    struct options options = {0};
    if (argc > 0)
        argv[0] = name;
    switch (read_options(argc, argv, &options)) {
    case 0:
        return run_command(argc, argv, &options);
    case OPTION_HELP:
        return help(stdout, CLEAT_OK);
    case OPTION_VERSION:
        printf("cleat %s\n", CLEAT_VERSION);
        return CLEAT_OK;
    default:
        return CLEAT_USAGE;
    }
}
