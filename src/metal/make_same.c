/* Equal parts: which have been made already. */
#include <string.h>

#include "base/hash.h"
#include "metal/making.h"
#include "model/built_for.h"
#include "model/lined.h"

/* What makes two parts alike: all that goes into them. */
struct part_key {
    const char *shape;
    struct metal_choice sheet;
    double pressure_class, lining;
    enum material material;
    enum seam_kind seam;
    enum joint_kind joints[JOINT_SIDES]; /* declared; JOINT_COUNT: none is */
    bool seam_own, supply, capped;
    const double *size;
    size_t count;
};

struct known_part {
    struct part_key key;
    struct made made;
    struct known_part *next;
};

/* The grid that sizes are told apart by: a tenth of a micrometre. */
static const double key_grid = 1e-7;

/* The number of a size on the grid.  Sizes are mostly whole 1/32 in, 7937.5 steps: moved by a quarter, none of them
 * lies at the edge of a step, where rounding would part equal ones.  No -0.0: keys are compared as bytes. */
static double grid_step(double size) {
    return round(size / key_grid + 0.25) + 0.0;
}

/* Room that is used again for each order: most are of parts already known. */
static double *room_for(struct making *making, size_t count) {
    if (count > making->size_room) {
        making->size_room = 2 * count;
        making->size = ARENA_ARRAY(making->arena, double, making->size_room);
    }
    return making->size;
}

/* Its `size` is good until the next one. */
static struct part_key key_of(struct making *making, const struct order *order, const struct allowing *allowing) {
    const struct settings *settings = &making->run->settings;
    double pressure = run_built_for(making->run);
    size_t count = order->size_bytes / sizeof(double);
    double *size = room_for(making, count);
    memcpy(size, order->size, count * sizeof(double));
    for (size_t i = 0; i < count; i++)
        size[i] = grid_step(size[i]);
    struct part_key key = {
        .shape = order->shape,
        .sheet = making_sheet(making, order, pressure),
        .pressure_class = metal_class_pressure(metal_class(pressure)),
        .lining = piece_lining(making->piece),
        .material = settings->material,
        .seam = settings->seam_set ? settings->seam : SEAM_COUNT,
        .seam_own = allowing->seam_own,
        .supply = making->run->supply,
        .capped = allowing->capped,
        .size = size,
        .count = count,
    };
    for (int side = 0; side < JOINT_SIDES; side++)
        key.joints[side] = allowing->joints[side]->joint_set ? allowing->joints[side]->joint : JOINT_COUNT;
    return key;
}

static size_t bucket_of(const struct part_key *key) {
    uint64_t hash = hash_bytes(HASH_EMPTY, key->shape, strlen(key->shape));
    return hash_bytes(hash, key->size, key->count * sizeof(double)) % BUCKETS;
}

static bool same_key(const struct part_key *a, const struct part_key *b) {
    return strcmp(a->shape, b->shape) == 0 && a->sheet.gauge == b->sheet.gauge && a->material == b->material &&
           a->sheet.thin == b->sheet.thin && a->sheet.demand.reinforce == b->sheet.demand.reinforce &&
           a->pressure_class == b->pressure_class && a->lining == b->lining && a->seam == b->seam &&
           a->seam_own == b->seam_own && memcmp(a->joints, b->joints, sizeof a->joints) == 0 &&
           a->supply == b->supply && a->capped == b->capped && a->count == b->count &&
           memcmp(a->size, b->size, a->count * sizeof(double)) == 0;
}

const struct made *making_part(struct making *making, const struct order *order) {
    struct allowing allowing = making_allowing(making, order);
    struct part_key key = key_of(making, order, &allowing);
    struct known_part **bucket = &making->known[bucket_of(&key)];
    for (struct known_part *at = *bucket; at; at = at->next)
        if (same_key(&at->key, &key))
            return &at->made;
    struct known_part *known = ARENA_NEW(making->arena, struct known_part);
    known->key = key;
    known->key.size = memcpy(ARENA_ARRAY(making->arena, double, key.count + 1), key.size, key.count * sizeof(double));
    known->next = *bucket;
    *bucket = known;
    known->made = making_lay_out(making, order, &known->key.sheet, &allowing);
    return &known->made;
}
