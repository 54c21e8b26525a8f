/* What a shop says, by statement. */
#include "model/entries.h"

#include "model/job.h"

struct shop_entry *shop_says(const struct shop *shop, enum says says, size_t *at) {
    while (*at < shop->entries.count) {
        struct shop_entry *entry = shop->entries.at[(*at)++];
        if (entry->says == says && !entry->overridden)
            return entry;
    }
    return NULL;
}
