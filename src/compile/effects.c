/* What one step more of each estimated dimension does: the job compiled anew with it, and both held side by side. */
#include "compile/effects.h"

#include <math.h>
#include <string.h>

#include "cost/effect.h"
#include "cost/price.h"
#include "model/names.h"
#include "model/piece.h"
#include "model/variant.h"

/* What the nest of the smallest job costs, counted in runs compiled.  By measurement. */
enum { NEST_RUNS = 80 };

struct asking {
    struct job *job;
    const struct compiler *compiler;
    struct effort left;
    const struct job *before; /* what the changed job is held against */
    struct names warned;      /* what it warns of */
};

/* ---- What is warned of ------------------------------------------------------------------------------------------- */

/* The figures in a message differ with each change, so a warning is recognised by its check and subject. */
static const char *key_of(struct arena *arena, const struct diagnostic *said) {
    return arena_format(arena, "%s %s", said->check, said->subject ? said->subject : said->message);
}

static struct names warned_of(const struct job *job, struct arena *arena) {
    struct names warned = {.arena = arena};
    for (size_t i = 0; i < job->diagnostics->all.count; i++)
        if (diagnostic_is_open(job->diagnostics->all.at[i]))
            names_add(&warned, key_of(arena, job->diagnostics->all.at[i]));
    return warned;
}

static void compare_warnings(const struct asking *asking, const struct job *after, struct effect *effect) {
    for (size_t i = 0; i < after->diagnostics->all.count; i++) {
        const struct diagnostic *said = after->diagnostics->all.at[i];
        if (!diagnostic_is_open(said) || names_find(&asking->warned, key_of(after->arena, said)))
            continue;
        if (effect->warned++ < EFFECT_WARNINGS_NAMED)
            *list_add(asking->job->arena, &effect->warnings) =
                arena_format(asking->job->arena, "%s: %s", said->check, said->message);
    }
}

/* ---- Whose paths ------------------------------------------------------------------------------------------------- */

/* Where in the network a thing is: the section whose air passes it; NULL: in none. */
struct standing {
    size_t unit; /* index in job->units; their count: in none */
    const struct section *section;
};

static const struct run *run_with(const struct job *job, const struct estimate *estimate) {
    for (size_t i = 0; i < job->runs.count; i++)
        if (strcmp(job->runs.at[i]->name, estimate->where) == 0)
            return job->runs.at[i];
    return NULL;
}

static bool has_item_of(const struct section *section, const struct estimate *estimate) {
    for (size_t i = 0; i < section->items.count; i++)
        if (section->items.at[i].role == ITEM_PIECE &&
            section->items.at[i].piece->reading.statement == estimate->statement)
            return true;
    return false;
}

/* A length of duct is added behind what is tapped into it: what it does to the air, it does in the last section that it
 * is in.  What is no piece of the run is of all of it. */
static const struct section *section_of(const struct network *network, const struct run *run,
                                        const struct estimate *estimate) {
    const struct section *found = NULL;
    for (size_t i = 0; i < network->sections.count; i++)
        if (network->sections.at[i]->run == run && has_item_of(network->sections.at[i], estimate))
            found = network->sections.at[i];
    return found ? found : run->first_section;
}

static struct standing standing_of(const struct job *job, const struct estimate *estimate) {
    const struct run *run = run_with(job, estimate);
    for (size_t u = 0; u < job->units.count; u++) {
        const struct air_unit *unit = job->units.at[u];
        if (unit->network && run && run->unit == unit)
            return (struct standing){u, section_of(unit->network, run, estimate)};
        if (unit->network && strcmp(unit->name, estimate->where) == 0)
            return (struct standing){u, NULL};
    }
    return (struct standing){job->units.count, NULL};
}

/* The path with the least left among those whose air passes the section; NULL: there is none. */
static const struct path *tightest(const struct network *network, const struct section *section, struct arena *arena) {
    bool *passes = ARENA_ARRAY(arena, bool, network->sections.count + 1);
    for (size_t i = 0; i < network->sections.count; i++) {
        const struct section *at = network->sections.at[i];
        passes[i] = at == section || (at->parent && passes[at->parent->id]);
    }
    const struct path *tight = NULL;
    struct network_side side = network_side(network, section->run->supply);
    for (size_t i = 0; i < side.count; i++)
        if (passes[side.paths[i].end->id] && (!tight || side.paths[i].surplus < tight->surplus))
            tight = &side.paths[i];
    return tight;
}

/* ---- Side by side ------------------------------------------------------------------------------------------------ */

static void compare_sizes(const struct asking *asking, const struct job *after, struct effect *effect) {
    struct arena *arena = asking->job->arena;
    for (size_t u = 0; u < after->units.count; u++) {
        const struct network *then = asking->before->units.at[u]->network, *now = after->units.at[u]->network;
        for (size_t i = 0; then && now && i < now->ducts.count && i < then->ducts.count; i++) {
            const struct duct *a = then->ducts.at[i], *b = now->ducts.at[i];
            if (size_equal(a->size, b->size) && a->size.shape == b->size.shape)
                continue;
            if (effect->resized++ < EFFECT_SIZES_NAMED)
                *list_add(arena, &effect->sizes) =
                    (struct effect_size){arena_format(arena, "%s", a->run->name), a->size, b->size};
        }
    }
}

static struct effect_left left_of(double before, double after) {
    return (struct effect_left){.left = after, .change = after - before};
}

static void compare_path(const struct asking *asking, const struct standing *standing, const struct network *now,
                         struct effect *effect) {
    const struct network *then = asking->before->units.at[standing->unit]->network;
    const struct path *path = tightest(then, standing->section, asking->compiler->spare);
    if (!path || path == then->governing_supply || path == then->governing_return)
        return;
    bool supply = standing->section->run->supply;
    struct network_side before = network_side(then, supply), after = network_side(now, supply);
    size_t index = (size_t)(path - before.paths);
    if (index >= after.count)
        return;
    const struct path *same = &after.paths[index];
    effect->path = left_of(path->surplus, same->surplus);
    effect->terminal = path->end->terminal->name; /* as the text has it, which outlasts both jobs */
    effect->room = path->end->terminal->room;
}

static void compare_pressure(const struct asking *asking, const struct estimate *estimate, const struct job *after,
                             struct effect *effect) {
    struct standing standing = standing_of(asking->before, estimate);
    if (standing.unit == asking->before->units.count)
        return;
    const struct network *then = asking->before->units.at[standing.unit]->network;
    const struct network *now = after->units.at[standing.unit]->network;
    if (!now)
        return;
    effect->unit = asking->job->units.at[standing.unit];
    effect->governing = left_of(then->surplus, now->surplus);
    effect->falls_short = now->surplus < 0;
    const struct blower_speed *slow = asking->before->units.at[standing.unit]->speed;
    const struct blower_speed *fast = after->units.at[standing.unit]->speed;
    if (slow && fast && slow->name && fast->name && strcmp(slow->name, fast->name) != 0)
        effect->speed = arena_format(asking->job->arena, "%s", fast->name);
    if (standing.section)
        compare_path(asking, &standing, now, effect);
}

/* Why it has no price; NULL: not known. */
static const char *unpriced_of(const struct job *job, struct arena *arena) {
    for (size_t i = 0; job->price && i < job->price->lines.count; i++)
        if (!job->price->lines.at[i].priced)
            return arena_format(arena, "the shop has no price for %s", job->price->lines.at[i].line->item->key);
    for (size_t i = 0; i < job->diagnostics->all.count; i++)
        if (job->diagnostics->all.at[i]->level == DIAGNOSTIC_ERROR)
            return arena_format(arena, "%s", job->diagnostics->all.at[i]->message);
    return NULL;
}

static void compare_price(const struct asking *asking, const struct job *after, struct effect *effect) {
    const struct price *then = asking->before->price, *now = after->price;
    effect->priced = then && now && then->complete && now->complete && !after->diagnostics->error_count;
    if (effect->priced)
        effect->difference = now->build_up.unrounded - then->build_up.unrounded;
    else if (cost_is_priced(asking->job))
        effect->unpriced = unpriced_of(then && then->complete ? after : asking->before, asking->job->arena);
}

/* ---- Asking ------------------------------------------------------------------------------------------------------ */

/* What is wrong but with the price and the budget, which are told by themselves; NULL: nothing. */
static const char *fault_of(const struct job *after, struct arena *arena) {
    for (size_t i = 0; i < after->diagnostics->all.count; i++) {
        const struct diagnostic *said = after->diagnostics->all.at[i];
        if (said->level == DIAGNOSTIC_ERROR && strcmp(said->check, "price") != 0 && strcmp(said->check, "budget") != 0)
            return arena_format(arena, "%s", said->message);
    }
    return NULL;
}

/* Both lose as much again with each step. */
static double steps_to_nothing(const struct effect_left *left) {
    double before = left->left - left->change;
    return left->change < 0 && before >= 0 ? before / -left->change : INFINITY;
}

static void reckon_on(const struct estimate *estimate, struct effect *effect) {
    double steps = steps_to_nothing(&effect->governing);
    if (effect->terminal)
        steps = fmin(steps, steps_to_nothing(&effect->path));
    if (estimate->use == SHOW_RUN && !effect->resized && !effect->speed && steps <= EFFECT_STEPS)
        effect->short_after = steps;
}

static void compare(const struct asking *asking, struct estimate *estimate, const struct job *after) {
    struct effect *effect = estimate->effect;
    effect->fault = fault_of(after, asking->job->arena);
    if (effect->fault)
        return;
    compare_pressure(asking, estimate, after, effect);
    compare_sizes(asking, after, effect);
    reckon_on(estimate, effect);
    if (effect->depth == EFFECT_SIZES)
        return;
    compare_price(asking, after, effect);
    compare_warnings(asking, after, effect);
}

/* False: all that may be spent is. */
static bool spend(struct asking *asking, enum effect_depth *depth) {
    size_t runs = asking->job->runs.count;
    if (*depth == EFFECT_WHOLE && asking->left.whole >= runs + NEST_RUNS) {
        asking->left.whole -= runs + NEST_RUNS;
        return true;
    }
    *depth = EFFECT_SIZES;
    if (asking->left.sizes < runs)
        return false;
    asking->left.sizes -= runs;
    return true;
}

static const struct job *compile(const struct asking *asking, struct variant change, enum effect_depth depth,
                                 struct arena *arena) {
    const struct compiler *compiler = asking->compiler;
    return variants_compile(asking->job, change, depth == EFFECT_WHOLE ? compiler->passes : compiler->sizes, arena);
}

static void ask_all(struct asking *asking, size_t alternate, enum effect_depth deepest) {
    asking->warned = warned_of(asking->before, asking->before->arena);
    const struct alternate *own = alternate ? asking->job->alternates.at[alternate - 1] : NULL;
    for (size_t i = 0; i < asking->job->estimates.count; i++) {
        struct estimate *estimate = asking->job->estimates.at[i];
        enum effect_depth depth = deepest;
        if (estimate->alternate != own || estimate->step == 0 || !spend(asking, &depth))
            continue;
        estimate->effect = ARENA_NEW(asking->job->arena, struct effect);
        estimate->effect->depth = depth;
        struct variant change = {.alternate = alternate, .moved = estimate};
        compare(asking, estimate, compile(asking, change, depth, asking->compiler->spare));
    }
}

static bool has_estimates(const struct job *job, const struct alternate *alternate) {
    for (size_t i = 0; i < job->estimates.count; i++)
        if (job->estimates.at[i]->alternate == alternate && job->estimates.at[i]->step != 0)
            return true;
    return false;
}

static void ask_alternate(struct asking *asking, size_t number) {
    enum effect_depth depth = EFFECT_WHOLE;
    if (!has_estimates(asking->job, asking->job->alternates.at[number - 1]) || !spend(asking, &depth))
        return;
    asking->before = compile(asking, (struct variant){.alternate = number}, depth, asking->compiler->beside);
    ask_all(asking, number, depth);
}

void effects_ask(struct job *job, const struct compiler *compiler) {
    if (job->effects_asked || job->diagnostics->error_count > job->diagnostics->price_error_count)
        return;
    job->effects_asked = true;
    struct asking asking = {.job = job, .compiler = compiler, .left = compiler->effort, .before = job};
    ask_all(&asking, 0, EFFECT_WHOLE);
    for (size_t i = 1; i <= job->alternates.count; i++)
        ask_alternate(&asking, i);
}
