/* What the pieces say they are bought as. */
#include <string.h>

#include "cost/count.h"

static bool is_known(const char *key) {
    size_t count;
    const struct bill_item *items = bill_items(&count);
    for (size_t i = 0; i < count; i++)
        if (strcmp(items[i].key, key) == 0)
            return true;
    return false;
}

/* Whether it is counted under the item at hand.  What has no row of its own is `other`: nothing that is bought is lost. */
static bool is_of(const struct bought *bought, const struct bill_item *item) {
    return strcmp(bought->item, item->key) == 0 || (strcmp(item->key, "other") == 0 && !is_known(bought->item));
}

/* What the job alone knows is priced by its own name. */
static bool by_its_name(const struct bill_item *item) {
    return strcmp(item->key, "other") == 0 || strcmp(item->key, "ready_made") == 0;
}

void count_bought(struct takeoff *takeoff, const struct job *job) {
    bool length = takeoff->item->measure == BILL_LENGTH;
    for (size_t i = 0; i < job->metal->bought.count; i++) {
        const struct bought *bought = &job->metal->bought.at[i];
        if (!is_of(bought, takeoff->item))
            continue;
        const char *key = by_its_name(takeoff->item) ? bought->title : bought->key;
        struct bill_line *line = bill_line(takeoff, key, bought->title);
        line->net += length ? bought->length : (double)bought->count;
        line->wanted = line->net;
        line->basis =
            length ? words_of_count(takeoff, (double)bought->count, "piece", "pieces") : "as the job lists them";
    }
}
