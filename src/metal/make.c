/* What the shop makes for a job: every piece says what it is made of, and equal parts are laid out once. */
#include <stdlib.h>
#include <string.h>

#include "metal/allow.h"
#include "base/hash.h"
#include "metal/gauge.h"
#include "metal/blanking.h"
#include "metal/metal.h"

/* ---- The pass at one piece --------------------------------------------------------------------------------------- */

/* What makes two parts alike: all that goes into them. */
struct part_key {
    const char *shape;
    struct metal_choice sheet;
    double pressure_class;
    enum material material;
    enum seam_kind seam;
    enum joint_kind joints[JOINT_SIDES]; /* declared; JOINT_COUNT: none is */
    bool seam_own, supply, capped;
    const double *size;
    size_t count;
};

struct known_part {
    struct part_key key;
    struct part *part;
    const char *fault, *hint; /* it cannot be made; part is NULL */
    struct known_part *next;
};

enum { BUCKETS = 1 << 12 };

struct making {
    struct job *job;
    struct arena *arena;
    struct metal *metal;
    const struct run *run;
    const struct piece *piece;
    const struct piece *behind; /* the next of its run; NULL: none */
    double *size;               /* the size of the order at hand, on the grid of same_size */
    size_t size_room;
    struct stock *stock[GAUGE_LIGHTEST + 1]; /* by gauge, once asked for */
    struct known_part *known[BUCKETS];
    LIST(struct run *) waiting;
};

struct arena *making_scratch(const struct making *making) {
    return making->job->scratch;
}

/* A text from the scratch arena that is to stay; NULL stays NULL. */
static const char *kept(const struct making *making, const char *text) {
    return text ? arena_copy(making->arena, text, strlen(text)) : NULL;
}

const struct job *making_job(const struct making *making) {
    return making->job;
}

const struct run *making_run(const struct making *making) {
    return making->run;
}

void make_fault(struct making *making, const char *hint, const char *why) {
    const struct piece *piece = making->piece;
    struct span at = piece->at.text ? piece->at : making->run->at;
    struct diagnostic *said =
        diagnose(making->job->diagnostics, DIAGNOSTIC_ERROR, "fitting", at, "this cannot be made: %s", why);
    if (hint)
        diagnostic_hint(making->job->diagnostics, said, "%s", hint);
}

/* ---- The sheet it is made of ------------------------------------------------------------------------------------- */

double metal_pressure(const struct run *run) {
    if (run->settings.pressure_class > 0)
        return run->settings.pressure_class;
    double highest = 0;
    /* At whichever speed it may be set to one day. */
    for (size_t k = 0; k < run->unit->speeds.count; k++)
        for (size_t i = 0; i < run->unit->speeds.at[k].points.count; i++)
            highest = fmax(highest, run->unit->speeds.at[k].points.at[i].pressure);
    return highest;
}

int making_gauge(const struct making *making, struct duct_size size) {
    return metal_choose(&making->job->shop, &making->run->settings, size, metal_pressure(making->run)).gauge;
}

const struct stock *making_stock(struct making *making, struct duct_size size) {
    int gauge = making_gauge(making, size);
    int row = gauge > 0 && gauge <= GAUGE_LIGHTEST ? gauge : 0;
    if (!making->stock[row]) {
        making->stock[row] = ARENA_NEW(making->arena, struct stock);
        *making->stock[row] = metal_stock(making->arena, &making->job->shop, row);
    }
    return making->stock[row];
}

/* The heavier of what its two ends ask: each may be thin for the one gauge, or want reinforcement. */
static struct metal_choice choose_sheet(const struct making *making, const struct order *order, double pressure) {
    const struct settings *settings = &making->run->settings;
    struct metal_choice near = metal_choose(&making->job->shop, settings, order->near, pressure);
    struct metal_choice far = metal_choose(&making->job->shop, settings, order->far, pressure);
    if (!near.gauge || !far.gauge)
        return near.gauge ? near : far;
    struct metal_choice both = far.gauge < near.gauge ? far : near;
    both.demand = far.demand.gauge < near.demand.gauge ? far.demand : near.demand;
    both.demand.reinforce = near.demand.reinforce || far.demand.reinforce;
    both.thin = near.thin || far.thin;
    return both;
}

/* ---- The runs it joins ------------------------------------------------------------------------------------------- */

/* A joint of straight duct ends its piece where no other comes behind it. */
static bool ends_run(const struct making *making, const struct order *order) {
    const struct run *run = making->run;
    const struct piece *piece = making->piece;
    if (piece != (run->pieces.count ? run->pieces.at[run->pieces.count - 1] : run->connect))
        return false;
    return !(order->finished_length > 0) ||
           order->station + order->length >= piece->station + piece->length - SAME_POINT;
}

static bool is_capped(const struct making *making, const struct order *order) {
    const struct piece *piece = making->piece;
    bool last_joint =
        !(order->finished_length > 0) || order->station + order->length >= piece->station + piece->length - SAME_POINT;
    return last_joint && making->behind && making->behind->kind->traits & PIECE_IMPLIED_CAP;
}

/* Behind a tee's body a change may stand, of the same run, before the straight leg begins. */
static bool leg_begins(const struct run *leg, const struct order *order) {
    return leg->connect || !leg->first_duct || strcmp(order->shape, "tee with a collar") != 0 ||
           size_equal(leg->first_duct->size, order->near);
}

static struct allowing allowing_for(const struct making *making, const struct order *order) {
    const struct run *run = making->run;
    struct allowing allowing = {
        .shop = &making->job->shop,
        .settings = &run->settings,
        .capped = is_capped(making, order),
        .seam_own = run->own.seam_set,
        .supply = run->supply,
    };
    for (int side = 0; side < JOINT_SIDES; side++)
        allowing.joints[side] = &run->settings;
    if (!ends_run(making, order))
        return allowing;
    const struct run *behind = run->split ? run->legs[LEG_STRAIGHT] : run->end;
    if (behind)
        allowing.joints[JOINT_BEHIND] = &behind->settings;
    for (int leg = 0; leg < LEG_COUNT; leg++)
        if (run->legs[leg] && (leg != LEG_STRAIGHT || leg_begins(run->legs[leg], order)))
            allowing.joints[JOINT_LEGS + leg] = &run->legs[leg]->settings;
    return allowing;
}

/* ---- Equal parts ------------------------------------------------------------------------------------------------- */

/* The grid that sizes are told apart by: a tenth of a micrometre. */
static const double same_size = 1e-7;

/* The number of a size on the grid.  Sizes are mostly whole 1/32 in, 7937.5 steps: moved by a quarter, none of them
 * lies at the edge of a step, where rounding would part equal ones.  No -0.0: keys are compared as bytes. */
static double grid_step(double size) {
    return round(size / same_size + 0.25) + 0.0;
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
    double pressure = metal_pressure(making->run);
    size_t count = order->size_bytes / sizeof(double);
    double *size = room_for(making, count);
    memcpy(size, order->size, count * sizeof(double));
    for (size_t i = 0; i < count; i++)
        size[i] = grid_step(size[i]);
    struct part_key key = {
        .shape = order->shape,
        .sheet = choose_sheet(making, order, pressure),
        .pressure_class = metal_class_pressure(metal_class(pressure)),
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
    return (size_t)(hash_bytes(hash, key->size, key->count * sizeof(double)) % BUCKETS);
}

static bool same_key(const struct part_key *a, const struct part_key *b) {
    return strcmp(a->shape, b->shape) == 0 && a->sheet.gauge == b->sheet.gauge && a->material == b->material &&
           a->sheet.thin == b->sheet.thin && a->sheet.demand.reinforce == b->sheet.demand.reinforce &&
           a->pressure_class == b->pressure_class && a->seam == b->seam && a->seam_own == b->seam_own &&
           memcmp(a->joints, b->joints, sizeof a->joints) == 0 && a->supply == b->supply && a->capped == b->capped &&
           a->count == b->count && memcmp(a->size, b->size, a->count * sizeof(double)) == 0;
}

/* ---- Laying one out ---------------------------------------------------------------------------------------------- */

/* Each rebuild divides curves half as fine again, until their chords are near enough. */
enum { REBUILDS = 12 };

static struct solid *build(const struct making *making, const struct order *order) {
    double fineness = 1;
    struct solid *solid = NULL;
    for (int i = 0; i < REBUILDS; i++) {
        solid = solid_new(making->arena, fineness);
        solid->system = making->job->system;
        order->build(solid, order->size);
        if (!solid->fault)
            solid_close(solid);
        if (solid->fault || solid_chord_error(solid) <= CHORD_LIMIT)
            return solid;
        fineness *= 1.5;
    }
    solid_fault(solid, NULL, "drawn %g times finer, its curves are still off by more than 1/64 in", fineness / 1.5);
    return solid;
}

/* Sides that would drum: flat panels, by their lesser side. */
static bool drums(const struct part *part) {
    for (size_t i = 0; i < part->solid->panels.count; i++) {
        const struct solid_panel *panel = &part->solid->panels.at[i];
        if (panel->kind != PANEL_PLANE)
            continue;
        double length = 0;
        for (size_t e = 0; e < panel->edges.count; e++)
            length = fmax(length, edge_length(&panel->edges.at[e]));
        double width = panel_area(panel) / length;
        if (metal_cross_break(width, length, part->gauge))
            return true;
    }
    return false;
}

static void weigh(struct part *part) {
    double openings = 0;
    for (size_t b = 0; b < part->blanks.count; b++)
        part->area += part->blanks.at[b].cut_area * (double)part->blanks.at[b].quantity;
    for (size_t p = 0; p < part->solid->panels.count; p++)
        for (size_t i = 0; i < part->solid->panels.at[p].openings.count; i++)
            openings += opening_area(&part->solid->panels.at[p].openings.at[i]);
    part->weight = (part->area - openings) * metal_weight(part->gauge, part->material);
}

/* Without ends to be turned there are no notches for them, and less that runs into each other; NULL: it has none. */
static const char *without_ends(const struct blank *blank) {
    for (size_t i = 0; i < blank->edges.count; i++)
        if (blank->edges.at[i].join == JOIN_PORT && blank->edges.at[i].allowance > 0 &&
            blank->edges.at[i].kind != ALLOW_FACE)
            return "joint raw";
    return NULL;
}

/* Blanks with their allowances; NULL when one does not fit, and *why says which. */
static bool lay_out(const struct making *making, struct part *part, const struct allowing *allowing, const char **why) {
    solid_blanks(part->solid, making->job->shop.bend_deduction, &part->blanks);
    part_connections(part, allowing);
    if (!part_allow(part, allowing, why))
        return false;
    for (size_t b = 0; b < part->blanks.count; b++) {
        if (!blank_cut(&part->blanks.at[b], making->arena, why)) {
            part->solid->hint = without_ends(&part->blanks.at[b]);
            return false;
        }
        blank_settle(&part->blanks.at[b]);
        blank_mark(&part->blanks.at[b], making->arena);
    }
    blanks_batch(&part->blanks, making->arena);
    return true;
}

static void fill_part(const struct making *making, struct part *part, const struct order *order,
                      const struct part_key *key) {
    part->title = kept(making, order->title);
    part->shape = order->shape;
    part->material = key->material;
    part->gauge = key->sheet.gauge;
    part->gauge_source = key->sheet.declared ? SOURCE_NONE : key->sheet.demand.source;
    part->gauge_thin = key->sheet.thin;
    part->reinforce = key->sheet.demand.reinforce;
    part->gauge_needed = key->sheet.demand.gauge;
    part->pressure_class = key->pressure_class;
    part->finished_length = order->finished_length;
    part->stack = (size_t)metal_stack(making->job->shop.stack, part->gauge);
}

static void new_part(struct making *making, struct known_part *known, const struct order *order,
                     const struct allowing *allowing) {
    struct solid *solid = build(making, order);
    if (solid->fault) {
        known->fault = solid->fault;
        known->hint = solid->hint;
        return;
    }
    struct part *part = ARENA_NEW(making->arena, struct part);
    part->solid = solid;
    fill_part(making, part, order, &known->key);
    if (!lay_out(making, part, allowing, &known->fault)) {
        known->hint = solid->hint;
        return;
    }
    part->cross_break = drums(part);
    weigh(part);
    known->part = part;
    *list_add(making->arena, &making->metal->parts) = part;
    part->number = making->metal->parts.count;
    making->metal->chord_error = fmax(making->metal->chord_error, solid_chord_error(solid));
}

static struct known_part *find(struct making *making, const struct order *order) {
    struct allowing allowing = allowing_for(making, order);
    struct part_key key = key_of(making, order, &allowing);
    struct known_part **bucket = &making->known[bucket_of(&key)];
    for (struct known_part *at = *bucket; at; at = at->next)
        if (same_key(&at->key, &key))
            return at;
    struct known_part *known = ARENA_NEW(making->arena, struct known_part);
    known->key = key;
    known->key.size = memcpy(ARENA_ARRAY(making->arena, double, key.count + 1), key.size, key.count * sizeof(double));
    known->next = *bucket;
    *bucket = known;
    new_part(making, known, order, &allowing);
    return known;
}

/* ---- What the pieces call ---------------------------------------------------------------------------------------- */

static void add_use(const struct making *making, struct part *part, const struct order *order) {
    *list_add(making->arena, &part->uses) = (struct part_use){
        .hung = ++making->metal->pieces,
        .run = making->run,
        .piece = making->piece,
        .station = order->station,
        .length = order->length,
        .about = order->about,
        .note = kept(making, order->note),
    };
    making->metal->area += part->area;
    making->metal->weight += part->weight;
}

/* The strips that close the connection at the part's near end. */
static void add_cleats(struct making *making, const struct part *part) {
    if (!part->joined[0])
        return;
    struct strip_set strips = metal_strips(part->joints[0], part->solid->ports.at[0].size);
    for (size_t i = 0; i < strips.count; i++) {
        const struct joint_strip *strip = &strips.at[i];
        make_strip(making, &(struct made_strip){.name = strip->rule->title,
                                                .length = strip->length,
                                                .width = strip->rule->width,
                                                .rule = strip->rule,
                                                 .gauge = part->gauge,
                                                .count = (size_t)strip->count});
    }
}

void make_part(struct making *making, const struct order *order) {
    if (!(metal_weight(24, making->run->settings.material) > 0)) {
        const char *title = arena_format(making->job->scratch, "%s, not of sheet metal", order->title);
        *list_add(making->arena, &making->metal->ready) = making->piece;
        make_bought(making, &(struct purchase){.item = order->ready ? order->ready : "ready_made", .title = title});
        return;
    }
    struct known_part *known = find(making, order);
    if (!known->part) {
        make_fault(making, known->hint, known->fault);
        return;
    }
    add_use(making, known->part, order);
    add_cleats(making, known->part);
}

static struct bought *bought_of(struct making *making, const struct purchase *purchase) {
    struct metal *metal = making->metal;
    for (size_t i = 0; i < metal->bought.count; i++)
        if (strcmp(metal->bought.at[i].title, purchase->title) == 0 &&
            strcmp(metal->bought.at[i].item, purchase->item) == 0)
            return &metal->bought.at[i];
    struct bought *bought = list_add(making->arena, &metal->bought);
    bought->title = kept(making, purchase->title);
    bought->item = purchase->item;
    bought->key = kept(making, purchase->key);
    return bought;
}

void make_bought(struct making *making, const struct purchase *purchase) {
    struct bought *bought = bought_of(making, purchase);
    bought->count++;
    bought->length += purchase->length;
    *list_add(making->arena, &bought->pieces) = making->piece;
}

void make_hardware(struct making *making, const struct purchase *purchase) {
    bought_of(making, purchase)->count++;
}

bool strips_alike(const struct made_strip *a, const struct made_strip *b) {
    return strcmp(a->name, b->name) == 0 && fabs(a->width - b->width) < same_size &&
           fabs(a->apart - b->apart) < same_size && a->gauge == b->gauge && a->material == b->material;
}

void make_strip(struct making *making, const struct made_strip *asked) {
    struct metal *metal = making->metal;
    struct made_strip strip = *asked;
    strip.material = making->run->settings.material;
    for (size_t i = 0; i < metal->strips.count; i++) {
        struct made_strip *known = &metal->strips.at[i];
        if (strips_alike(known, &strip) && fabs(known->length - strip.length) < same_size) {
            known->count += strip.count;
            return;
        }
    }
    *list_add(making->arena, &metal->strips) = strip;
}

/* ---- The way through the job: as it is hung ---------------------------------------------------------------------- */

static void make_piece(struct making *making, const struct piece *piece) {
    making->piece = piece;
    if (piece->kind->make)
        piece->kind->make(piece, making);
    arena_clear(making->job->scratch);
}

static void wait_for(struct making *making, struct run *run) {
    if (run && !run->faulty)
        *list_add(making->arena, &making->waiting) = run;
}

/* What hangs from the run: pushed so that what goes on is made first, then the taps in their order. */
static void push_hanging(struct making *making, const struct run *run) {
    for (size_t i = run->taps.count; i-- > 0;)
        wait_for(making, run->taps.at[i]);
    for (int leg = LEG_COUNT; leg-- > 0;)
        wait_for(making, run->legs[leg]);
    wait_for(making, run->end);
}

static void make_run(struct making *making, struct run *run) {
    making->run = run;
    making->behind = NULL;
    *list_add(making->arena, &making->metal->runs) = run;
    if (run->connect)
        make_piece(making, run->connect);
    for (size_t i = 0; i < run->pieces.count; i++) {
        making->behind = i + 1 < run->pieces.count ? run->pieces.at[i + 1] : NULL;
        make_piece(making, run->pieces.at[i]);
    }
    push_hanging(making, run);
}

static void make_tree(struct making *making, struct run *root) {
    wait_for(making, root);
    while (making->waiting.count)
        make_run(making, making->waiting.at[--making->waiting.count]);
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

void metal_make(struct job *job) {
    if (job->incomplete)
        return;
    struct making *making = ARENA_NEW(job->arena, struct making);
    making->job = job;
    making->arena = job->arena;
    making->metal = job->metal = ARENA_NEW(job->arena, struct metal);
    for (size_t i = 0; i < job->units.count; i++) {
        if (!job->units.at[i]->network)
            continue;
        make_tree(making, job->units.at[i]->supply_run);
        make_tree(making, job->units.at[i]->return_run);
    }
    if (job->metal->strips.count)
        qsort(job->metal->strips.at, job->metal->strips.count, sizeof *job->metal->strips.at, by_strip);
}
