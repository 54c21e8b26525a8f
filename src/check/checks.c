/* The table of the named checks. */
#include "check/checks.h"

#include <string.h>

#include "cost/price.h"
#include "model/model.h"

/* ---- Checks that an earlier pass has made: here they are only counted -------------------------------------------- */

static void count_by_unit(const struct look *look) {
    const struct job *job = look->job;
    for (size_t i = 0; i < job->units.count; i++)
        look->result->looked_at += job->units.at[i]->network != NULL;
    look->result->warned = diagnostics_warned(job->diagnostics, look->check->name);
}

static void count_by_run(const struct look *look) {
    look->result->looked_at = look->job->runs.count;
    look->result->warned = diagnostics_warned(look->job->diagnostics, look->check->name);
}

static void count_by_terminal(const struct look *look) {
    const struct job *job = look->job;
    for (size_t i = 0; i < job->runs.count; i++)
        look->result->looked_at += job->runs.at[i]->role != RUN_DUCT;
    look->result->warned = diagnostics_warned(job->diagnostics, look->check->name);
}

static void count_by_duct(const struct look *look) {
    const struct job *job = look->job;
    for (size_t i = 0; i < job->units.count; i++)
        look->result->looked_at += job->units.at[i]->network ? job->units.at[i]->network->ducts.count : 0;
    look->result->warned = diagnostics_warned(job->diagnostics, look->check->name);
}

/* The job itself, where it was priced with the other method. */
static void count_priced(const struct look *look) {
    const struct job *job = look->job;
    look->result->looked_at = job->price && job->price->compared.known;
    look->result->warned = diagnostics_warned(job->diagnostics, look->check->name);
}

static const char *airflow_limit(struct arena *arena) {
    return arena_format(arena, "the two agree within %g %%", AIRFLOW_TOLERANCE * 100);
}

/* In the order of the manual. */
static const struct check table[] = {
    {
        .name = "dead-end",
        .looks_at = "runs that lead nowhere",
        .limit = "every run ends in an outlet, an inlet or a cap",
        .run = count_by_run,
    },

    {
        .name = "register",
        .looks_at = "outlets without a register, inlets without a grille or filter",
        .limit = "one face, at least, for every outlet and inlet",
        .run = count_by_terminal,
    },

    {
        .name = "supply-return",
        .looks_at = "whether the air that leaves each unit comes back to it",
        .figures = airflow_limit,
        .source = SOURCE_SUPPLY_RETURN,
        .run = count_by_unit,
    },

    {
        .name = "airflow-sum",
        .looks_at = "whether each unit's airflow is that of its outlets",
        .figures = airflow_limit,
        .source = SOURCE_SUPPLY_RETURN,
        .run = count_by_unit,
    },

    {
        .name = "blower-rise",
        .looks_at = "whether each blower's pressure falls as it moves more air",
        .limit = "pressure falls from each point to the next",
        .source = SOURCE_BLOWER_CURVE,
        .run = count_by_unit,
    },

    {
        .name = "size",
        .looks_at = "ducts that a limit keeps smaller than the friction rate asks",
        .limit = "what `limit`, `aspect` and the standard sizes allow",
        .source = SOURCE_STANDARD_SIZES,
        .run = count_by_duct,
    },

    {
        .name = "velocity",
        .looks_at = "air velocity in trunks and branches, supply and return, and at register faces",
        .figures = velocity_limits,
        .source = SOURCE_VELOCITY_GUIDE,
        .run = check_velocity,
    },

    {
        .name = "friction",
        .looks_at = "friction of each run, and the rate it was all sized for",
        .figures = friction_limits,
        .source = SOURCE_FRICTION_RANGE,
        .run = check_friction,
    },

    {
        .name = "aspect",
        .looks_at = "long side over short side of rectangular and oval duct",
        .limit = "the shop's `aspect`; 4 to 1 where it says nothing",
        .source = SOURCE_ASPECT_RATIO,
        .run = check_aspect,
    },

    {
        .name = "tonnage",
        .looks_at = "airflow for the cooling capacity of each unit",
        .figures = tonnage_limit,
        .source = SOURCE_CFM_PER_TON,
        .run = check_tonnage,
    },

    {
        .name = "budget",
        .looks_at = "blower pressure against the costliest path of each unit",
        .limit = "what the blower gives at the design airflow",
        .source = SOURCE_BLOWER_CURVE,
        .run = check_budget,
    },

    {
        .name = "operating-point",
        .looks_at = "whether each unit is within the points of its blower, filters clean or full of dust",
        .limit = "the first and the last point of the blower",
        .source = SOURCE_OPERATING_POINT,
        .run = check_operating,
    },

    {
        .name = "airflow-short",
        .looks_at = "outlets that will take less than 90 % of their design, dampers set",
        .figures = short_limit,
        .source = SOURCE_AIRFLOW_SHORT,
        .run = check_airflow_short,
    },

    {
        .name = "unbalanced",
        .looks_at = "outlets and inlets that would take too much air and have no damper of their own",
        .figures = unbalanced_limit,
        .source = SOURCE_BALANCE,
        .run = check_unbalanced,
    },

    {
        .name = "flex-length",
        .looks_at = "length of flexible duct in each run",
        .figures = flex_length_limit,
        .source = SOURCE_FLEX_LENGTH,
        .run = check_flex_length,
    },

    {
        .name = "tap-fit",
        .looks_at = "taps without room: across the side they are cut into, along the duct, beside each other",
        .figures = tap_fit_limit,
        .source = SOURCE_TAP_FIT,
        .run = check_tap_fit,
    },

    {
        .name = "transition",
        .looks_at = "transitions that are steep or twisted, or change nothing",
        .figures = transition_limit,
        .source = SOURCE_TAPER,
        .run = check_transition,
    },

    {
        .name = "boot",
        .looks_at = "registers and grilles on duct of another size, with no boot between",
        .figures = boot_limit,
        .source = SOURCE_NOMINAL_FACE,
        .run = check_boot,
    },

    {
        .name = "table-range",
        .looks_at = "pieces that lie outside the table their loss is read from",
        .limit = "the ends of the table",
        .run = check_table_range,
    },

    {
        .name = "gauge",
        .looks_at = "sheet that is thinner than its size and pressure ask, or wants reinforcement",
        .limit = "the gauge that the table for its size, shape and pressure asks",
        .run = check_gauge,
    },

    {
        .name = "stock",
        .looks_at = "blanks that no sheet of the shop's stock is large enough for",
        .limit = "the largest sheet of its gauge",
        .source = SOURCE_STOCK_SHEET,
        .run = check_stock,
    },

    {
        .name = "seam",
        .looks_at = "seams and joints beyond their pressure, their sheet or their shape",
        .limit = "what each seam and joint is made for",
        .run = check_seam,
    },

    {
        .name = "return-area",
        .looks_at = "air velocity at return grilles and filters",
        .figures = return_area_limit,
        .source = SOURCE_RETURN_AREA,
        .run = check_return_area,
    },

    {
        .name = "condensation",
        .looks_at = "the outside of supply duct, where the job tells how moist the air around it is",
        .limit = "the dew point of that air",
        .source = SOURCE_DEW_POINT,
        .run = check_condensation,
    },

    {
        .name = "insulation",
        .looks_at = "duct with less insulation than is asked where it runs",
        .figures = insulation_limit,
        .source = SOURCE_INSULATION,
        .run = check_insulation,
    },

    {
        .name = "leakage",
        .looks_at = "what the ducts of each unit leak by their seal class, surface and pressure",
        .figures = leakage_limit,
        .source = SOURCE_LEAKAGE,
        .run = check_leakage,
    },

    {
        .name = "clash",
        .looks_at = "runs that meet obstacles or each other, or come nearer than their clearance",
        .limit = "the run's `clearance`, from the outside of the duct",
        .source = SOURCE_DUCT_OUTSIDE,
        .run = check_clash,
    },

    {
        .name = "on-edge",
        .looks_at = "duct that comes to go level on its edge, out of duct that goes up or down",
        .limit = "its width lies level",
        .run = check_on_edge,
    },

    {
        .name = "headroom",
        .looks_at = "runs that hang lower than the headroom asked for",
        .limit = "the run's or job's `headroom`",
        .source = SOURCE_DUCT_OUTSIDE,
        .run = check_headroom,
    },

    {
        .name = "short-cycle",
        .looks_at = "outlets so near a return inlet of their unit that their air goes straight back",
        .figures = short_cycle_limit,
        .source = SOURCE_SHORT_CYCLE,
        .run = check_short_cycle,
    },

    {
        .name = "currency",
        .looks_at = "whether the price says in what money it is",
        .limit = "the job or its shop names the currency of a price",
        .run = check_currency,
    },

    {
        .name = "least-cost",
        .looks_at = "whether a job that asks for least-cost sizing is the cheaper for it",
        .limit = "the price of the same job sized by equal-friction",
        .run = count_priced,
    },
};

enum { CHECK_COUNT = sizeof table / sizeof table[0] };

const struct check *checks(size_t *count) {
    *count = CHECK_COUNT;
    return table;
}

const struct check *check_named(const char *name) {
    for (size_t i = 0; i < CHECK_COUNT; i++)
        if (strcmp(table[i].name, name) == 0)
            return &table[i];
    return NULL;
}

const char *check_limit(const struct check *check, struct arena *arena) {
    return check->figures ? check->figures(arena) : check->limit;
}

void check_job(struct job *job) {
    for (size_t i = 0; i < CHECK_COUNT && !job->incomplete; i++) {
        struct check_result *result = list_add(job->arena, &job->checks);
        result->name = table[i].name;
        table[i].run(&(struct look){.job = job, .check = &table[i], .result = result});
        if (result->looked_at && table[i].source != SOURCE_NONE)
            job->source_used[table[i].source] = true;
    }
    accept_warnings(job);
}
