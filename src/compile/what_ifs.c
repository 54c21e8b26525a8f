/* What one foot or one outlet more costs, and the job sized by another method: differences of two prices. */
#include "base/constant.h"
#include "compile/variants.h"
#include "cost/price.h"
#include "model/model.h"
#include "size/size.h"

/* ---- What one more costs ----------------------------------------------------------------------------------------- */

/* Kinds of run of which one foot more is asked. */
struct kind_of_run {
    const char *words; /* "supply trunk" */
    enum run_role role;
    bool supply, flexible;
};

static const struct kind_of_run kinds_of_run[] = {
    {.words = "supply trunk", .role = RUN_DUCT, .supply = true},
    {.words = "return trunk", .role = RUN_DUCT},
    {.words = "runout of hard duct", .role = RUN_OUTLET, .supply = true},
    {.words = "runout of flexible duct", .role = RUN_OUTLET, .supply = true, .flexible = true},
    {.words = "return inlet's duct", .role = RUN_INLET},
};

/* What of a run is duct of that kind, m. */
static double length_of(const struct run *run, bool flexible) {
    const unsigned looked_at = PIECE_LENGTH | PIECE_FLEXIBLE;
    double length = 0;
    for (size_t i = 0; i < run->pieces.count; i++)
        if ((run->pieces.at[i]->kind->traits & looked_at) == (flexible ? looked_at : PIECE_LENGTH))
            length += run->pieces.at[i]->length;
    return length;
}

static const struct run *longest_of(const struct job *job, const struct kind_of_run *kind) {
    const struct run *longest = NULL;
    double most = 0;
    for (size_t i = 0; i < job->runs.count; i++) {
        const struct run *run = job->runs.at[i];
        double length = run->role == kind->role && run->supply == kind->supply ? length_of(run, kind->flexible) : 0;
        if (length > most) {
            most = length;
            longest = run;
        }
    }
    return longest;
}

/* The price before rounding of a job without errors; false: it has none. */
static bool price_of(const struct job *job, money *price) {
    if (job->diagnostics->error_count || !job->price || !job->price->complete)
        return false;
    *price = job->price->build_up.unrounded;
    return true;
}

/* The run is made so many units longer, to even out whole packages; one unit costs that part of the difference. */
enum { LONGER_FEET = 10, LONGER_METRES = 3 };

static void ask_length(struct job *job, const struct kind_of_run *kind, const struct compiler *compiler) {
    const struct run *run = longest_of(job, kind);
    if (!run)
        return;
    bool metric = job->system == MEASURE_METRIC;
    int units = metric ? LONGER_METRES : LONGER_FEET;
    struct variant change = {.longer = run->name, .flexible = kind->flexible, .by = units * (metric ? 1 : FOOT)};
    struct what_if *what_if = list_add(job->arena, &job->price->what_ifs);
    what_if->title =
        arena_format(job->arena, "One %s more of a %s, as %s", metric ? "metre" : "foot", kind->words, run->name);
    what_if->how = arena_format(job->arena, "%s made %d %s longer at its end; that difference, divided by %d",
                                run->name, units, metric ? "m" : "ft", units);
    money base = job->price->build_up.unrounded, changed = 0;
    what_if->known = price_of(variants_with(job, change, compiler), &changed);
    if (what_if->known)
        what_if->difference = money_share(changed - base, SHARE_WHOLE / units);
}

static void ask_outlet(struct job *job, const struct compiler *compiler) {
    const struct run *outlet = NULL;
    for (size_t i = 0; i < job->runs.count; i++)
        if (job->runs.at[i]->role == RUN_OUTLET && !run_bears(job->runs.at[i]))
            outlet = job->runs.at[i];
    if (!outlet)
        return;
    struct what_if *what_if = list_add(job->arena, &job->price->what_ifs);
    what_if->title = arena_format(job->arena, "One outlet more, like %s", outlet->name);
    what_if->how = arena_format(job->arena, "the job without %s is so much less", outlet->name);
    money changed = 0;
    what_if->known = price_of(variants_with(job, (struct variant){.without = outlet->name}, compiler), &changed);
    if (what_if->known)
        what_if->difference = job->price->build_up.unrounded - changed;
}

/* ---- Whether the cheapest walls make the cheapest job ------------------------------------------------------------ */

static void warn_cheaper(struct job *job, const char *own, const char *other, money less) {
    struct diagnostic *said = diagnose(
        job->diagnostics, DIAGNOSTIC_WARNING, "least-cost", job->sizing_at,
        "sized by %s the job is %s cheaper: %s has the least of walls, and whole sheets and boxes make up for it",
        other, money_text(job->arena, &job->price->currency, less), own);
    diagnostic_hint(job->diagnostics, said, "sizing %s", other);
    said->subject = job->units.at[0]->name;
}

void variants_compared(struct job *job, const struct compiler *compiler) {
    const struct sizing_method *method = sizing_method_used(job), *other = method ? method->compared : NULL;
    money own_price = 0, other_price = 0;
    if (!other || !job->units.count || !price_of(job, &own_price))
        return;
    struct what_if *what_if = &job->price->compared;
    what_if->title = arena_format(job->arena, "Sized by %s in place of %s", other->name, method->name);
    what_if->known = price_of(variants_with(job, (struct variant){.sizing = other->name}, compiler), &other_price);
    what_if->difference = what_if->known ? other_price - own_price : 0;
    bool cheaper = what_if->known && other_price < own_price;
    what_if->how = !what_if->known ? "the job compiled anew so"
                   : cheaper       ? "the job compiled anew so: it is the cheaper one"
                             : arena_format(job->arena, "the job compiled anew so: %s is no dearer", method->name);
    if (cheaper)
        warn_cheaper(job, method->name, other->name, own_price - other_price);
}

void variants_what_ifs(struct job *job, const struct compiler *compiler) {
    if (job->diagnostics->error_count || !job->price || job->price->what_ifs.count)
        return;
    if (job->price->compared.title)
        *list_add(job->arena, &job->price->what_ifs) = job->price->compared;
    for (size_t i = 0; i < sizeof kinds_of_run / sizeof kinds_of_run[0]; i++)
        ask_length(job, &kinds_of_run[i], compiler);
    ask_outlet(job, compiler);
}
