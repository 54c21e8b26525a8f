/* Any bytes, as a job: compiled with all passes, told of on paper and as data, and written for every reader in every
 * format (what is the same for all of them, once). */
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "cleat/cleat.h"

/* Larger jobs have so many drawings that a second would not be enough to lay them all out. */
enum { DRAWN_SIZE = 500 };

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    FILE *nowhere = fopen("/dev/null", "w");
    struct cleat *cleat = cleat_new(NULL);
    if (cleat && nowhere) {
        cleat_compile_text(cleat, "fuzz.job", (const char *)data, size);
        cleat_print_diagnostics(cleat, nowhere, true, false);
        cleat_print_diagnostics(cleat, nowhere, false, true);
        size_t count, readers;
        const char *const *formats = cleat_formats(&count);
        const char *const *reader = cleat_readers(&readers);
        for (size_t r = 0; r < readers; r++)
            for (size_t i = 0; i < count; i++)
                if (r == 0 ||
                    (cleat_has(reader[r], formats[i]) && (size < DRAWN_SIZE || strcmp(formats[i], "pdf") != 0)))
                    cleat_write(cleat, reader[r], formats[i], "/dev/null");
        cleat_write_pattern(cleat, "1", "/dev/null");
        fputs(cleat_parts(cleat), nowhere);
        fputs(cleat_summary(cleat), nowhere);
    }
    cleat_free(cleat);
    if (nowhere)
        fclose(nowhere);
    return 0;
}
