/* How the sizes were chosen, what was checked, and what was accepted. */
#include "report/bid.h"

#include <math.h>
#include <string.h>

#include "check/check.h"
#include "model/called.h"
#include "size/limits.h"
#include "size/size.h"
#include "size/wall_cost.h"

/* ---- Sizing ------------------------------------------------------------------------------------------------------ */

/* "1.3 %"; what there is to be gained is never said to be less than it is. */
static const char *gap_words(struct document *document, const struct network *network) {
    double cost = network->walls_cost, gap = cost > 0 ? (cost - network->search.bound) / cost : 0;
    if (!(gap > 1e-9))
        return "nothing: no other of the sizes weighed are cheaper";
    return arena_format(document->arena, "at most %.1f %%", ceil(gap * 1000 - 1e-6) / 10);
}

/* Money is the shop's own matter and stands in no bid; the area and the weight of sheet may. */
static void search_facts(struct document *document, const struct network *network) {
    const struct size_search *search = &network->search;
    const char *sizes = arena_format(document->arena, "%zu, of all ducts together", search->sizes);
    if (search->left_out > 0)
        sizes = arena_format(document->arena, "%s; %zu more that are dear for what they carry were left out", sizes,
                             search->left_out);
    document_fact(document, "Sizes weighed", sizes);
    document_fact(document, "Walls of duct that were counted", bid_figure(document, SHOW_AREA, network->walls_area));
    document_fact(document, "What other sizes could save", gap_words(document, network));
    document_fact(document, "Pressures taken as one",
                  search->resolution > 0
                      ? arena_format(document->arena, "those less than %s apart, where there were too many",
                                     bid_figure(document, SHOW_PRESSURE, search->resolution))
                      : "none");
}

static void unit_sizing(struct document *document, const struct network *network) {
    if (network->friction_rate > 0)
        document_fact(document, "Friction rate", bid_figure(document, SHOW_FRICTION, network->friction_rate));
    if (network->friction_rate > 0 && network->rate_note)
        document_fact(document, "What set it", network->rate_note);
    if (network->regain > 0)
        document_fact(
            document, "Taken to come back as static pressure",
            arena_format(document->arena, "%.0f %% of the velocity pressure given up", 100 * network->regain));
    if (network->velocity_share > 0)
        document_fact(document, "Share of the velocity limits",
                      arena_format(document->arena, "%.0f %%", 100 * network->velocity_share));
    if (network->search.made)
        search_facts(document, network);
    document_fact(document, "All sizes and losses were worked out",
                  arena_format(document->arena, network->rounds == 1 ? "once" : "%d times", network->rounds));
}

/* "19, as the shop declares": each shape's list is the shop's own or the common one. */
static const char *sizes_words(const struct job *job, struct document *document, enum shape shape, size_t count) {
    return arena_format(document->arena, "%zu, %s", count,
                        job->shop.sizes_assumed[shape] ? "the common list (the shop declares none)"
                                                       : "as the shop declares");
}

static bool has_oval(const struct job *job) {
    for (size_t i = 0; i < job->runs.count; i++)
        if (job->runs.at[i]->settings.shape == SHAPE_OVAL)
            return true;
    return false;
}

static void shop_facts(const struct job *job, struct document *document) {
    const struct shop *shop = &job->shop;
    if (shop->aspect_limit > 0)
        document_fact(document, "Rectangular duct",
                      arena_format(document->arena, "long side at most %g times the short one", shop->aspect_limit));
    document_fact(document, "Standard diameters of round duct",
                  sizes_words(job, document, SHAPE_ROUND, shop->round_sizes.count));
    document_fact(document, "Standard sides of rectangular duct",
                  sizes_words(job, document, SHAPE_RECTANGULAR, shop->widths.count));
    if (has_oval(job))
        document_fact(document, "Standard lesser sides of oval duct",
                      sizes_words(job, document, SHAPE_OVAL, shop->oval_heights.count));
}

enum { GUIDE_USE, GUIDE_RECOMMENDED, GUIDE_LIMIT, GUIDE_COLUMNS };

static const struct column guide_columns[GUIDE_COLUMNS] = {
    [GUIDE_USE] = {.head = "Velocity of air in"},
    [GUIDE_RECOMMENDED] = {.head = "Recommended", .kind = COLUMN_FIGURE, .use = SHOW_VELOCITY},
    [GUIDE_LIMIT] = {.head = "At most", .kind = COLUMN_FIGURE, .use = SHOW_VELOCITY},
};

static bool has_own_limit(const struct job *job) {
    for (size_t i = 0; i < job->runs.count; i++)
        if (job->runs.at[i]->settings.limit_velocity > 0)
            return true;
    return false;
}

static void velocity_guides(const struct job *job, struct document *document) {
    struct table *table = document_table(document, guide_columns, GUIDE_COLUMNS);
    for (enum duct_use use = 0; use < DUCT_USE_COUNT; use++) {
        const struct velocity_guide *guide = duct_guide(use);
        union cell *cells = table_row(table);
        cells[GUIDE_USE].text = guide->name;
        cells[GUIDE_RECOMMENDED].figure = guide->recommended;
        cells[GUIDE_LIMIT].figure = guide->limit;
    }
    if (has_own_limit(job))
        document_paragraph(document, "The limit that the job gives a run goes before these.");
}

static bool makes_search(const struct job *job) {
    for (size_t i = 0; i < job->units.count; i++)
        if (job->units.at[i]->network && job->units.at[i]->network->search.made)
            return true;
    return false;
}

void bid_sizing(const struct job *job, struct document *document) {
    const struct sizing_method *method = sizing_method_used(job);
    if (method)
        document_paragraph(document, "%s", method->words);
    if (makes_search(job))
        document_paragraph(document, "%s", wall_cost_words(job));
    for (size_t i = 0; i < job->units.count; i++) {
        if (!job->units.at[i]->network)
            continue;
        bid_unit_heading(job, document, job->units.at[i]);
        unit_sizing(document, job->units.at[i]->network);
    }
    if (job->units.count > 1)
        document_paragraph(document, "For all units:");
    shop_facts(job, document);
    velocity_guides(job, document);
}

/* ---- Checks ------------------------------------------------------------------------------------------------------ */

enum { CHECK_NAME, CHECK_LOOKS_AT, CHECK_LOOKED, CHECK_WARNED, CHECK_ACCEPTED, CHECK_COLUMNS };

static const struct column check_columns[CHECK_COLUMNS] = {
    [CHECK_NAME] = {.head = "Check"},
    [CHECK_LOOKS_AT] = {.head = "What it looks at"},
    [CHECK_LOOKED] = {.head = "Looked at", .kind = COLUMN_NUMBER},
    [CHECK_WARNED] = {.head = "Warnings", .kind = COLUMN_NUMBER},
    [CHECK_ACCEPTED] = {.head = "Accepted", .kind = COLUMN_NUMBER},
};

static const char *looks_at(const char *name) {
    size_t count;
    const struct check *all = checks(&count);
    for (size_t i = 0; i < count; i++)
        if (strcmp(all[i].name, name) == 0)
            return all[i].looks_at;
    return NULL;
}

/* Warnings about `accept` lines are for the writer of the job, not for the customer. */
static bool is_open_warning(const struct diagnostic *diagnostic) {
    return diagnostic->level == DIAGNOSTIC_WARNING && !diagnostic->accepted_because &&
           strcmp(diagnostic->check, "accept") != 0;
}

static void warnings(const struct job *job, struct document *document) {
    const struct diagnostics *all = job->diagnostics;
    const struct bid_names *names = bid_names_of(job, document->keep);
    size_t open = 0;
    for (size_t i = 0; i < all->all.count; i++) {
        const struct diagnostic *diagnostic = all->all.at[i];
        if (!is_open_warning(diagnostic))
            continue;
        if (!open++)
            document_paragraph(document, "Open warnings:");
        document_bullet(document, "%s: %s", diagnostic->check, bid_message(names, document->arena, diagnostic));
    }
    if (!open)
        document_paragraph(document, "No warnings are open.");
    if (all->dropped)
        document_paragraph(document, "%zu more messages are not listed.", all->dropped);
}

void bid_checks(const struct job *job, struct document *document) {
    if (job->checks.count) {
        struct table *table = document_table(document, check_columns, CHECK_COLUMNS);
        for (size_t i = 0; i < job->checks.count; i++) {
            const struct check_result *result = &job->checks.at[i];
            union cell *cells = table_row(table);
            cells[CHECK_NAME].text = result->name;
            cells[CHECK_LOOKS_AT].text = looks_at(result->name);
            cells[CHECK_LOOKED].figure = (double)result->looked_at;
            cells[CHECK_WARNED].figure = (double)result->warned;
            cells[CHECK_ACCEPTED].figure = (double)result->accepted;
        }
    }
    warnings(job, document);
}

/* ---- Accepted deviations ----------------------------------------------------------------------------------------- */

void bid_accepted_as(const struct job *job, struct document *document, const struct bid_names *names) {
    const struct diagnostics *all = job->diagnostics;
    bool any = false;
    for (size_t i = 0; i < all->all.count; i++) {
        const struct diagnostic *diagnostic = all->all.at[i];
        if (!diagnostic->accepted_because)
            continue;
        const struct run *run = job_run_called(job, diagnostic->subject);
        document_fact(
            document,
            arena_format(document->arena, "%s, %s", run ? bid_plain_name(run) : diagnostic->subject, diagnostic->check),
            arena_format(document->arena, "%s. Accepted because: %s",
                         names ? bid_message(names, document->arena, diagnostic) : diagnostic->message,
                         diagnostic->accepted_because));
        any = true;
    }
    if (!any)
        document_paragraph(document, "None: nothing that was to be accepted was found.");
}

void bid_accepted(const struct job *job, struct document *document) {
    bid_accepted_as(job, document, bid_names_of(job, document->keep));
}
