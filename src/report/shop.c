/* The shop's packet: its table of sections, its first page, and what several sections need. */
#include "report/shop.h"

#include <string.h>

#include "model/words.h"
#include "report/bid.h"
#include "report/packet.h"

static bool has_parts(const struct job *job) {
    return job->metal && job->metal->parts.count;
}

static bool has_strips(const struct job *job) {
    return job->metal && job->metal->strips.count;
}

static bool has_nest(const struct job *job) {
    return job->metal && job->metal->nest;
}

static bool has_bought(const struct job *job) {
    return job->metal && (job->metal->bought.count || shop_is_lined(job));
}

static bool has_estimates(const struct job *job) {
    if (!has_parts(job))
        return false;
    for (size_t i = 0; i < job->metal->parts.count; i++)
        if (shop_measured_first(job->metal->parts.at[i]))
            return true;
    return false;
}

static bool has_straight(const struct job *job) {
    if (!has_parts(job))
        return false;
    for (size_t i = 0; i < job->metal->parts.count; i++)
        if (job->metal->parts.at[i]->finished_length > 0)
            return true;
    return false;
}

static const struct packet_section sections[] = {
    {.write = shop_title},
    {.heading = "Cautions", .write = shop_cautions},
    {.heading = "To be measured before cutting", .write = shop_measure_first, .wanted = has_estimates},
    {.heading = "What is to be made", .write = shop_parts, .wanted = has_parts},
    {.heading = "Where each part goes", .write = shop_places, .wanted = has_parts},
    {.heading = "Cut list", .write = shop_cuts, .wanted = has_parts},
    {.heading = "Sheets and cuts", .write = shop_nest, .wanted = has_nest},
    {.heading = "Marks of straight joints", .write = shop_marks, .wanted = has_straight},
    {.heading = "Patterns", .write = shop_patterns, .wanted = has_parts},
    {.heading = "Seams", .write = shop_seams, .wanted = has_parts},
    {.heading = "Joints in hanging order", .write = shop_joints, .wanted = has_parts},
    {.heading = "Strips", .write = shop_strips, .wanted = has_strips},
    {.heading = "Liner", .write = shop_liner, .wanted = shop_is_lined},
    {.heading = "Bought", .write = shop_bought, .wanted = has_bought},
    {.heading = "Weight", .write = shop_weight, .wanted = has_parts},
    {.heading = "Basis", .write = shop_basis, .wanted = has_parts},
};

const struct packet packet_shop = {
    .words = "what is made: cut list, sheets and cuts, patterns, marks, seams, strips",
    .sections = sections,
    .section_count = sizeof sections / sizeof sections[0],
    .csv = shop_cuts_csv,
    .drawn = true,
};

/* ---- The first page ---------------------------------------------------------------------------------------------- */

void shop_title(const struct job *job, struct document *document) {
    document_heading(document, 1, arena_format(document->arena, "%s: for the shop", bid_job_title(job)));
    bid_job_facts(job, document);
    if (job->shop.name)
        document_fact(document, "Shop", job->shop.name);
    bid_deference(document);
    if (!has_parts(job))
        document_paragraph(document, "There is nothing to make in this job.");
    else if (!document->drawings)
        document_paragraph(document, "The drawings are left out here: they are files beside the paper. Write it to a "
                                     "file with -o to have them.");
}

void shop_cautions(const struct job *job, struct document *document) {
    (void)job;
    bid_caution(document, CAUTION_EDGES);
    bid_caution(document, CAUTION_NOISE);
    bid_caution(document, CAUTION_FUMES);
}

/* ---- What several sections need ---------------------------------------------------------------------------------- */

struct sheet_kind shop_sheet_of(const struct part *part) {
    return (struct sheet_kind){.gauge = part->gauge, .material = part->material};
}

bool shop_is_of(const struct part *part, struct sheet_kind kind) {
    return part->gauge == kind.gauge && part->material == kind.material;
}

static bool listed(const sheet_kind_list *kinds, struct sheet_kind kind) {
    for (size_t i = 0; i < kinds->count; i++)
        if (kinds->at[i].gauge == kind.gauge && kinds->at[i].material == kind.material)
            return true;
    return false;
}

/* Materials in the order of their enum, in each the lowest number, the heaviest sheet, first. */
static bool comes_before(struct sheet_kind one, struct sheet_kind other) {
    return one.material != other.material ? one.material < other.material : one.gauge < other.gauge;
}

/* There are as many kinds as gauges and materials, so that each part may be held against all of them. */
void shop_sheets(const struct job *job, struct arena *arena, sheet_kind_list *kinds) {
    for (size_t i = 0; i < job->metal->parts.count; i++) {
        struct sheet_kind kind = shop_sheet_of(job->metal->parts.at[i]);
        if (listed(kinds, kind))
            continue;
        *list_add(arena, kinds) = kind;
        for (size_t k = kinds->count - 1; k && comes_before(kind, kinds->at[k - 1]); k--) {
            kinds->at[k] = kinds->at[k - 1];
            kinds->at[k - 1] = kind;
        }
    }
}

const char *shop_sheet_words(struct arena *arena, struct sheet_kind kind) {
    if (!kind.gauge)
        return material_name(kind.material);
    return arena_format(arena, "%d ga %s", kind.gauge, material_name(kind.material));
}

const char *shop_blank_name(struct arena *arena, const struct part *part, const struct blank *blank) {
    return arena_format(arena, "%zu%s", part->number, blank->letter);
}

const char *shop_strip_name(struct arena *arena, const struct job *job, const struct made_strip *strip) {
    return arena_format(arena, "s%td", strip - job->metal->strips.at + 1);
}

const char *shop_marks_from(const struct blank *blank) {
    if (blank->marks_upward)
        return blank->marks_from_right ? "upper" : "lower";
    return blank->marks_from_right ? "right" : "left";
}

const char *shop_length(const struct document *document, double si) {
    return measure_text(document->arena, document->system, SHOW_CUT, si);
}

const char *shop_place(const struct document *document, const struct part_use *use) {
    return arena_format(document->arena, "%s at %s", use->run->name,
                        measure_text(document->arena, document->system, SHOW_RUN, use->station));
}

bool shop_measured_first(const struct part *part) {
    for (size_t i = 0; i < part->uses.count; i++)
        if (part->uses.at[i].about)
            return true;
    return false;
}
