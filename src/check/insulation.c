/* Ducts with less insulation than is asked where they run. */
#include "air/heat.h"
#include "check/checks.h"
#include "model/words.h"

/* R-6 in metric units is 1.06: what is short by less than a fiftieth is short by rounding.
 * Chosen here, no source. */
static const double close_enough = 0.98;

/* The least that any piece of a run has; under 0: none of them has a wall. */
static double least_of(const struct run *run) {
    const struct heat *heat = run->unit && run->unit->network ? run->unit->network->heat : NULL;
    double least = -1;
    for (const struct section *at = run->last_section; heat && at && at->run == run; at = at->parent) {
        double value = heat->sections[at->id].insulation;
        if (value >= 0 && (least < 0 || value < least))
            least = value;
    }
    return least;
}

/* What a run has and what is asked of it. */
struct cover {
    double has, asked; /* m2 K/W; `has` under 0: it has no wall */
    bool cited;
};

static bool is_short(const struct cover *cover) {
    return cover->has >= 0 && cover->has < cover->asked * close_enough;
}

/* Whether it is flexible duct that comes with less, whatever the run says. */
static bool is_flex_short(const struct run *run, double asked) {
    for (size_t i = 0; i < run->pieces.count; i++) {
        const struct piece *piece = run->pieces.at[i];
        double own = piece->kind->insulation ? piece->kind->insulation(piece) : -1;
        if (own >= 0 && own < asked * close_enough)
            return true;
    }
    return false;
}

static void warn(const struct look *look, const struct run *run, const struct cover *cover) {
    struct arena *arena = look->job->arena;
    const char *least = insulation_name(arena, cover->asked);
    struct diagnostic *said =
        check_warn(look, run->at, run->name, "%s has %s around it in %s; %s asks for %s there", check_name(look, run),
                   cover->has > 0 ? insulation_name(arena, cover->has) : "no insulation",
                   whereabouts_words(run->settings.location), cover->cited ? "the energy code" : "the job", least);
    if (is_flex_short(run, cover->asked))
        diagnostic_hint(look->job->diagnostics, said, "write %s behind the length of its flexible duct", least);
    else
        diagnostic_hint(look->job->diagnostics, said, "insulation %s", least);
}

/* What hangs from a run and is as short as that is not told again: the run's warning stands for it. */
void check_insulation(const struct look *look) {
    const struct job *job = look->job;
    struct cover *covers = ARENA_ARRAY(job->arena, struct cover, job->runs.count + 1);
    for (size_t i = 0; i < job->runs.count; i++) {
        const struct run *run = job->runs.at[i];
        struct cover *cover = &covers[run->id];
        cover->has = least_of(run);
        cover->asked = heat_least_insulation(&run->settings, &cover->cited);
        look->result->looked_at += cover->has >= 0 && cover->asked > 0;
    }
    for (size_t i = 0; i < job->runs.count; i++) {
        const struct run *run = job->runs.at[i];
        const struct cover *parent = run->parent ? &covers[run->parent->id] : NULL;
        bool told = parent && is_short(parent) && parent->has <= covers[run->id].has &&
                    run->parent->settings.location == run->settings.location;
        if (is_short(&covers[run->id]) && !told)
            warn(look, run, &covers[run->id]);
    }
}

const char *insulation_limit(struct arena *arena) {
    struct settings place = {0};
    const char *words = "the R-value that the place declares; else";
    int count = 0;
    for (int i = 0; i < LOCATION_COUNT; i++) {
        bool cited;
        place.location = (enum location)i;
        double least = heat_least_insulation(&place, &cited);
        if (least > 0)
            words = arena_format(arena, "%s%s %s in %s", words, count++ ? "," : "", insulation_name(arena, least),
                                 whereabouts_words(place.location));
    }
    return words;
}
