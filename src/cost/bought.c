/* What the pieces say they are bought as. */
#include <string.h>

#include "cost/count.h"

/* What the job alone knows is priced by its own name. */
static bool by_its_name(const char *item) {
    return strcmp(item, "other") == 0 || strcmp(item, "ready_made") == 0;
}

/* Whether it is counted under the item at hand. */
static bool is_of(const struct bought *bought, const struct bill_item *item) {
    return strcmp(bought->item, item->key) == 0;
}

void count_bought(struct takeoff *takeoff, const struct job *job) {
    bool length = takeoff->item->measure == BILL_LENGTH;
    for (size_t i = 0; i < job->metal->bought.count; i++) {
        const struct bought *bought = &job->metal->bought.at[i];
        if (!is_of(bought, takeoff->item))
            continue;
        const char *key = bought->key ? bought->key : by_its_name(bought->item) ? bought->title : NULL;
        struct bill_line *line = bill_line(takeoff, key, bought->title);
        line->net += length ? bought->length : (double)bought->count;
        line->wanted = line->net;
        line->basis =
            length ? words_of_count(takeoff, (double)bought->count, "piece", "pieces") : "as the job lists them";
    }
}
