/* Seams and joints used beyond what they hold: pressure, gauge, material; and those declared that fit nothing. */
#include "check/checks.h"
#include "metal/metal.h"
#include "model/built_for.h"

/* What is the matter with a seam or joint, in a part of a run; the first of them is said, once a run. */
struct looking {
    const struct look *look;
    bool *warned;               /* by run */
    bool *seam_met, *joint_met; /* by run: what it declares is made there */
    bool *made;                 /* by run: it has parts at all */
};

static void warn_pressure(const struct looking *looking, const struct run *run, const char *title, double limit) {
    if (looking->warned[run->id] || !check_over(run_built_for(run), limit))
        return;
    looking->warned[run->id] = true;
    struct diagnostic *said =
        check_warn(looking->look, run->at, run->name, "%s in %s holds to %s; the duct is built for %s", title,
                   check_name(looking->look, run), check_text(looking->look->job, SHOW_PRESSURE, limit),
                   check_text(looking->look->job, SHOW_PRESSURE, run_built_for(run)));
    diagnostic_hint(looking->look->job->diagnostics, said, "choose another, or a lower pressure-class");
}

static void warn_seam(const struct looking *looking, const struct part *part, const struct run *run,
                      enum seam_kind kind) {
    const struct seam_rule *rule = metal_seam_rule(kind);
    warn_pressure(looking, run, rule->title, rule->pressure_limit);
    if (looking->warned[run->id])
        return;
    struct diagnostic *said = NULL;
    if (part->material == MATERIAL_ALUMINIUM && !rule->aluminium)
        said = check_warn(looking->look, run->at, run->name, "%s in %s does not hold in aluminium", rule->title,
                          check_name(looking->look, run));
    else if (part->gauge < rule->heaviest || part->gauge > rule->lightest)
        said = check_warn(looking->look, run->at, run->name, "%s in %s is made of %d to %d gauge; %s is of %d gauge",
                          rule->title, check_name(looking->look, run), rule->heaviest, rule->lightest, part->title,
                          part->gauge);
    if (!said)
        return;
    looking->warned[run->id] = true;
    diagnostic_hint(looking->look->job->diagnostics, said, "choose another seam");
}

/* Of an end, the side that has drives. */
static void warn_drive(const struct looking *looking, const struct part *part, const struct run *run, int end) {
    double side = 0;
    for (size_t i = end ? 1 : 0; i < (end ? part->solid->ports.count : 1); i++)
        side = fmax(side, metal_drive_side(part->joints[end], part->solid->ports.at[i].size));
    if (looking->warned[run->id] || !check_over(side, metal_longest_drive))
        return;
    looking->warned[run->id] = true;
    struct diagnostic *said =
        check_warn(looking->look, run->at, run->name, "the drives in %s close sides of %s: they hold on %s at most",
                   check_name(looking->look, run), check_text(looking->look->job, SHOW_SIZE, side),
                   check_text(looking->look->job, SHOW_SIZE, metal_longest_drive));
    diagnostic_hint(looking->look->job->diagnostics, said, "joint flange");
}

/* What is declared is made, too, where its S is the standing one. */
static bool meets(enum joint_kind made, enum joint_kind declared) {
    return made == declared || (made == JOINT_STANDING_S && declared == JOINT_SLIP_AND_DRIVE);
}

static void look_at_use(const struct looking *looking, const struct part *part, const struct run *run) {
    looking->made[run->id] = true;
    looking->seam_met[run->id] |= part->seamed[run->own.seam];
    for (int end = 0; end < 2; end++)
        if (part->joined[end]) {
            const struct connection_rule *rule = metal_connection_rule(part->joints[end]);
            looking->joint_met[run->id] |= meets(part->joints[end], run->own.joint);
            warn_pressure(looking, run, rule->title, rule->pressure_limit);
            warn_drive(looking, part, run, end);
        }
    for (enum seam_kind kind = 0; kind < SEAM_COUNT; kind++)
        if (part->seamed[kind])
            warn_seam(looking, part, run, kind);
}

static void warn_unused(const struct looking *looking, const struct run *run) {
    bool seam = run->own.seam_set && !looking->seam_met[run->id];
    bool joint = run->own.joint_set && !looking->joint_met[run->id];
    if (!looking->made[run->id] || looking->warned[run->id] || (!seam && !joint))
        return;
    struct diagnostic *said = check_warn(
        looking->look, run->at, run->name, "nothing in %s takes the %s that it declares: %s does not fit its duct",
        check_name(looking->look, run), seam ? "seam" : "joint",
        seam ? metal_seam_rule(run->own.seam)->title : metal_connection_rule(run->own.joint)->title);
    diagnostic_hint(looking->look->job->diagnostics, said, "take it out, or declare one that fits");
}

/* Once a run. */
void check_seam(const struct look *look) {
    const struct job *job = look->job;
    size_t count = job->runs.count + 1;
    struct looking looking = {
        .look = look,
        .warned = ARENA_ARRAY(job->arena, bool, count),
        .seam_met = ARENA_ARRAY(job->arena, bool, count),
        .joint_met = ARENA_ARRAY(job->arena, bool, count),
        .made = ARENA_ARRAY(job->arena, bool, count),
    };
    for (size_t i = 0; job->metal && i < job->metal->parts.count; i++) {
        const struct part *part = job->metal->parts.at[i];
        look->result->looked_at++;
        for (size_t u = 0; u < part->uses.count; u++)
            look_at_use(&looking, part, part->uses.at[u].run);
    }
    for (size_t i = 0; i < job->runs.count; i++)
        warn_unused(&looking, job->runs.at[i]);
}
