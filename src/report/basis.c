/* Which sources the papers name. */
#include "report/basis.h"

#include "cost/takeoff.h"
#include "metal/joints.h"
#include "metal/metal.h"
#include "metal/nest.h"
#include "metal/seam.h"

static void mark(bool used[SOURCE_COUNT], const enum source_id *ids, size_t count) {
    for (size_t i = 0; i < count; i++)
        used[ids[i]] = true;
}

#define MARK(used, ids) mark(used, ids, sizeof(ids) / sizeof(ids)[0])

static void mark_part(const struct part *part, bool used[SOURCE_COUNT]) {
    used[part->gauge_source] = true;
    used[SOURCE_CROSS_BREAK] |= part->cross_break;
    used[SOURCE_ALUMINIUM] |= part->material == MATERIAL_ALUMINIUM;
    used[SOURCE_JOINT_LINES] |= part->finished_length > 0;
    for (enum seam_kind kind = 0; kind < SEAM_COUNT; kind++)
        if (part->seamed[kind])
            used[metal_seam_rule(kind)->source] = true;
    for (int end = 0; end < 2; end++)
        if (part->joined[end])
            used[metal_connection_rule(part->joints[end])->source] = true;
}

static void mark_metal(const struct job *job, bool used[SOURCE_COUNT]) {
    static const enum source_id always[] = {SOURCE_GAUGES,     SOURCE_CORNER_NOTCH,  SOURCE_STACK,
                                            SOURCE_SHEAR_CUTS, SOURCE_DUAL_FEASIBLE, SOURCE_RUIN_AND_RECREATE};
    if (!job->metal || !job->metal->parts.count)
        return;
    MARK(used, always);
    for (size_t i = 0; i < job->metal->parts.count; i++)
        mark_part(job->metal->parts.at[i], used);
    used[SOURCE_OFFCUT_KEPT] |= job->metal->nest && job->metal->nest->keep_assumed;
    used[SOURCE_STRIP_GAUGE] |= job->metal->strips.count > 0;
}

static void mark_takeoff(const struct job *job, bool used[SOURCE_COUNT]) {
    for (size_t i = 0; job->takeoff && i < job->takeoff->lines.count; i++)
        used[job->takeoff->lines.at[i].source] = true;
}

static void mark_field(bool used[SOURCE_COUNT]) {
    static const enum source_id always[] = {SOURCE_STATIC_PRESSURE, SOURCE_DAMPER_BLADE,  SOURCE_HANGERS,
                                            SOURCE_RISERS,          SOURCE_HANGER_STRAPS, SOURCE_FLEX_HANGERS,
                                            SOURCE_SEAL_CLASSES,    SOURCE_LEAKAGE,       SOURCE_LEAKAGE_TEST};
    MARK(used, always);
}

void basis_mark(const struct job *job, unsigned sets, bool used[SOURCE_COUNT]) {
    for (enum source_id id = SOURCE_NONE + 1; (sets & BASIS_AIR) && id < SOURCE_COUNT; id++)
        used[id] |= job->source_used[id];
    if (sets & BASIS_METAL)
        mark_metal(job, used);
    if (sets & BASIS_TAKEOFF)
        mark_takeoff(job, used);
    if (sets & BASIS_FIELD)
        mark_field(used);
    used[SOURCE_NONE] = false;
}

void basis_list(const struct job *job, unsigned sets, struct document *document) {
    bool used[SOURCE_COUNT] = {false};
    basis_mark(job, sets, used);
    for (enum source_id id = SOURCE_NONE + 1; id < SOURCE_COUNT; id++)
        if (used[id])
            document_reference(document, source_of(id));
}
