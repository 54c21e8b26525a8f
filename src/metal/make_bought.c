/* What is bought, and strips cut to length: counted by what they are. */
#include <stdlib.h>
#include <string.h>

#include "metal/making.h"

/* Looked for one by one: there are as many as the job has kinds and sizes of bought things, tens at most. */
static struct bought *bought_of(struct making *making, const struct purchase *purchase) {
    struct metal *metal = making->metal;
    for (size_t i = 0; i < metal->bought.count; i++)
        if (strcmp(metal->bought.at[i].title, purchase->title) == 0 &&
            strcmp(metal->bought.at[i].item, purchase->item) == 0)
            return &metal->bought.at[i];
    struct bought *bought = list_add(making->arena, &metal->bought);
    bought->title = making_kept(making, purchase->title);
    bought->item = purchase->item;
    bought->key = making_kept(making, purchase->key);
    return bought;
}

void make_bought(struct making *making, const struct purchase *purchase) {
    struct bought *bought = bought_of(making, purchase);
    bought->count++;
    bought->length += purchase->length;
    *list_add(making->arena, &bought->pieces) = making->piece;
    *list_add(making->arena, &bought->lengths) = purchase->length;
}

void make_hardware(struct making *making, const struct purchase *purchase) {
    bought_of(making, purchase)->count++;
}

bool strips_alike(const struct made_strip *a, const struct made_strip *b) {
    return strcmp(a->name, b->name) == 0 && fabs(a->width - b->width) < SAME_SIZE &&
           fabs(a->apart - b->apart) < SAME_SIZE && a->gauge == b->gauge && a->material == b->material;
}

void make_strip(struct making *making, const struct made_strip *asked) {
    struct metal *metal = making->metal;
    struct made_strip strip = *asked;
    strip.material = making->run->settings.material;
    /* As many as there are sizes of duct: tens, however long the job. */
    for (size_t i = 0; i < metal->strips.count; i++) {
        struct made_strip *known = &metal->strips.at[i];
        if (strips_alike(known, &strip) && fabs(known->length - strip.length) < SAME_SIZE) {
            known->count += strip.count;
            return;
        }
    }
    *list_add(making->arena, &metal->strips) = strip;
}

static int by_strip(const void *left, const void *right) {
    const struct made_strip *a = left, *b = right;
    int names = strcmp(a->name, b->name);
    if (names)
        return names;
    if (a->width != b->width)
        return a->width > b->width ? -1 : 1;
    if (a->apart != b->apart)
        return a->apart > b->apart ? -1 : 1;
    if (a->gauge != b->gauge)
        return a->gauge < b->gauge ? -1 : 1;
    if (a->material != b->material)
        return a->material < b->material ? -1 : 1;
    return (a->length < b->length) - (a->length > b->length);
}

void making_sort_strips(struct metal *metal) {
    if (metal->strips.count)
        qsort(metal->strips.at, metal->strips.count, sizeof *metal->strips.at, by_strip);
}
