/* What is explained, and how its working is put together. */
#include "report/explain.h"

#include <string.h>

#include "air/air.h"
#include "model/called.h"
#include "report/bid.h"
#include "report/packet.h"
#include "report/report.h"

/* ---- The air ----------------------------------------------------------------------------------------------------- */

void explain_air(struct working *working) {
    const struct working_units *units = working->units;
    const struct air *air = &working->job->air;
    work_given(working, "Density", SOURCE_STANDARD_AIR, "rho = %s",
               working_text(working, units->density, air->density));
    work(working, "Over that of standard air", working->job->altitude != 0 ? SOURCE_ATMOSPHERE : SOURCE_STANDARD_AIR,
         working_plain, air->density_ratio, "s = rho / rho0 = %s / %s",
         working_value(working, units->density, air->density),
         working_value(working, units->density, air_state(0).density));
    work(working, "Kinematic viscosity", SOURCE_SUTHERLAND, units->kinematic, air->viscosity / air->density,
         "nu = mu / rho = %s / %s", working_value(working, units->viscosity, air->viscosity),
         working_value(working, units->density, air->density));
}

/* ---- A run ------------------------------------------------------------------------------------------------------- */

/* From its first section to its last. */
static void explain_sections(struct working *working, const struct run *run) {
    size_t count = 0;
    for (const struct section *at = run->last_section; at && at->run == run; at = at->parent)
        count++;
    const struct section **sections = ARENA_ARRAY(working->arena, const struct section *, count + 1);
    for (const struct section *at = run->last_section; at && at->run == run; at = at->parent)
        sections[--count] = at;
    for (size_t i = 0; sections[i]; i++) {
        explain_section(working, sections[i]);
        explain_section_heat(working, sections[i]);
        explain_section_leak(working, sections[i]);
    }
    if (!sections[0])
        document_paragraph(working->document, "It is a face alone: what it takes stands with the run that it sits on.");
}

static void explain_terminal(struct working *working, const struct run *run) {
    const struct network *network = run->unit->network;
    struct network_side side = network_side(network, run->supply);
    for (size_t i = 0; i < side.count; i++) {
        if (side.paths[i].end->terminal != run)
            continue;
        explain_path(working, network, &side.paths[i], i);
        explain_arrival(working, &side.paths[i], i);
    }
}

static void explain_run(struct working *working, const struct run *run) {
    if (run->role != RUN_DUCT)
        explain_airflow(working, run);
    explain_sections(working, run);
    if (run->role != RUN_DUCT)
        explain_terminal(working, run);
}

/* ---- The whole --------------------------------------------------------------------------------------------------- */

static const struct air_unit *unit_named(const struct job *job, const char *name) {
    for (size_t i = 0; i < job->units.count; i++)
        if (strcmp(job->units.at[i]->name, name) == 0 && job->units.at[i]->network)
            return job->units.at[i];
    return NULL;
}

static const struct run *run_named(const struct job *job, const char *name) {
    const struct run *run = job_run_called(job, name);
    return run && run->unit && run->unit->network ? run : NULL;
}

static bool has_run(const struct alternate *alternate, const char *name) {
    for (size_t i = 0; i < alternate->runs.count; i++)
        if (strcmp(alternate->runs.at[i]->name, name) == 0)
            return true;
    return false;
}

size_t report_alternate_of(const struct job *job, const char *name, size_t first) {
    if (unit_named(job, name) || run_named(job, name))
        return 0;
    for (size_t number = first; number <= job->alternates.count; number++)
        if (has_run(job->alternates.at[number - 1], name))
            return number;
    return 0;
}

const char *report_cannot_explain(const struct job *job, const char *name) {
    if (unit_named(job, name) || run_named(job, name) || report_alternate_of(job, name, 1))
        return NULL;
    const char *nearest = job_nearest_name(job, name);
    return nearest ? arena_format(job->arena, "no unit, run, outlet or inlet is called '%s'; did you mean %s?", name,
                                  nearest)
                   : arena_format(job->arena, "no unit, run, outlet or inlet is called '%s'", name);
}

static void explain_alternate(struct document *document, const struct explained *explained) {
    const struct alternate *alternate = explained->alternate, *other = explained->other;
    const char *title = alternate->title ? arena_format(document->keep, " (%s)", alternate->title) : "";
    const char *too = other ? arena_format(document->keep, " Alternate %s has a %s too, which need not be alike.",
                                           other->name, explained->name)
                            : "";
    document_paragraph(document,
                       "%s is of alternate %s%s. What follows is of the job with that alternate: sizes, airflows and "
                       "losses of the job without it may be others.%s",
                       explained->name, alternate->name, title, too);
}

static void write_explanation(const struct job *job, struct document *document, const void *context) {
    const struct explained *explained = context;
    const char *name = explained->name;
    struct working working = {
        .job = job, .document = document, .arena = document->keep, .units = working_units_of(job->system)};
    const struct air_unit *unit = unit_named(job, name);
    const struct run *run = unit ? NULL : run_named(job, name);
    document_heading(document, 1, arena_format(document->keep, "%s: the working for %s", bid_job_title(job), name));
    if (explained->alternate)
        explain_alternate(document, explained);
    document_paragraph(document,
                       "Every figure has six digits, worked from unrounded ones; who works it again comes to it within "
                       "five. Angles are in degrees, also those of sin, cos and atan. A number in brackets names the "
                       "source at the end.");
    explain_air(&working);
    if (unit)
        explain_unit(&working, unit);
    else if (run)
        explain_run(&working, run);
    document_heading(document, 2, "Sources");
    work_sources(&working);
}

bool report_explain(const struct explained *explained, const char *format, struct output *out) {
    const struct page_writer *writer = strcmp(format, "pdf") == 0 ? &pdf_writer : &markdown_writer;
    struct single_paper paper = {.reader = "working", .write = write_explanation, .context = explained};
    return packet_write_single(&paper, explained->job, writer, NULL, out);
}
