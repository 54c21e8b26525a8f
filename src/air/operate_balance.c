/* How the dampers have to stand.  Proportional balance: the costliest path of each side stays open, and every other
 * damper is closed until its path costs as much as that one at the same share of its design airflow.
 */
#include <math.h>

#include "air/fitting.h"
#include "air/operate.h"
#include "base/constant.h"

/* All tolerances of this file are chosen here, no source. */

/* If some terminals cannot be set the balance is repeated: at most so many rounds, until the others are within
 * `alike` of one share. */
enum { ROUNDS_MOST = 12 };
static const double alike = 1e-5;

/* A damper that would take less than this, in coefficients of its blade, is as good as open. */
static const double hardly = 0.005;

/* A terminal without a damper needs none if it takes no more than this over the others' share. */
static const double near_enough = 0.01;

/* A path without a damper is not the costliest if it has more to spare than this share of the costliest's loss. */
static const double spare_rounding = 1e-9;

/* Limits of the search for the share at which the balance begins.  `share_within` and COURSE_ROUNDS: its relative
 * precision and rounds; `share_met` and HALVINGS: likewise of each round's bisection; `takes_least`, Pa, keeps
 * logarithms finite; `shares_apart`: two shares nearer than this, as a logarithm, give no exponent. */
enum { COURSE_ROUNDS = 20, HALVINGS = 60 };
static const double share_within = 1e-6, share_met = 1e-8, takes_least = 1e-6, shares_apart = 1e-6;

/* ---- Airflows ---------------------------------------------------------------------------------------------------- */

void flow_start(struct flow_model *model, double share) {
    const struct network *network = model->network;
    double back = network->return_flow > 0 ? network->supply_flow / network->return_flow : 1;
    for (size_t i = 0; i < model->count; i++) {
        const struct section *section = network->sections.at[i];
        model->flow[i] = section->flow * share * (section->run->supply ? 1 : back);
    }
    flow_sum(model);
}

/* What a system takes at some share of the design.  Its exponent is nearly 2. */
struct course {
    double share, takes, power;
};

/* The share at which the blower gives what the system takes, by bisection. */
static double meets(const struct flow_model *model, double design, const struct course *course) {
    double low = 0, high = course->share, slope;
    while (high < 1e3 &&
           flow_blower(model, high * design, &slope) > course->takes * pow(high / course->share, course->power))
        high *= 2;
    for (int i = 0; i < HALVINGS && high - low > share_met * high; i++) {
        double middle = (low + high) / 2;
        if (flow_blower(model, middle * design, &slope) > course->takes * pow(middle / course->share, course->power))
            low = middle;
        else
            high = middle;
    }
    return (low + high) / 2;
}

/* Each round takes the exponent from the losses of the last two. */
double flow_common_share(struct flow_model *model, struct arena *arena, double share, double within) {
    double *path = ARENA_ARRAY(arena, double, model->count);
    double design = model->network->supply_flow;
    if (model->network->unit->blower.count < 2)
        return 1;
    struct course course = {.power = 2};
    for (int i = 0; i < COURSE_ROUNDS; i++) {
        double slope;
        struct course before = course;
        flow_start(model, share);
        flow_evaluate(model);
        course.share = share;
        course.takes = fmax(flow_unit_drops(model, share * design, &slope) + flow_side(model, true, path).most +
                                flow_side(model, false, path).most,
                            takes_least);
        if (before.share > 0 && fabs(log(share / before.share)) > shares_apart)
            course.power = fmin(fmax(log(course.takes / before.takes) / log(share / before.share), 1), 3);
        share = meets(model, design, &course);
        if (fabs(share - course.share) < within * share)
            break;
    }
    return share;
}

/* ---- One side's dampers ------------------------------------------------------------------------------------------ */

/* A path while it is being balanced. */
struct branch {
    const struct path *path;
    struct damper_setting *setting;
    const struct item *item; /* its damper; NULL: none */
    double declared, wide;   /* the damper's coefficient in the job, and wide open */
    bool free;               /* it cannot be set: it takes what it takes */
};

struct balance_side {
    size_t count;
    struct branch *at;
};

enum { SIDE_SUPPLY_AIR, SIDE_RETURN_AIR, SIDES };

struct balance {
    struct flow_model *model;
    struct arena *arena;
    struct balance_side sides[SIDES];
    double *loss; /* Pa of each path, by section id of its end */
};

static bool is_round(const struct branch *branch) {
    return branch->setting->section->duct->size.shape == SHAPE_ROUND;
}

/* Where the path's damper is: it was found on the way to the unit. */
static void find_damper(struct branch *branch) {
    for (const struct section *at = branch->path->end; at && branch->path->damper; at = at->parent)
        for (size_t i = at->items.count; i-- > 0;)
            if (at->items.at[i].piece == branch->path->damper) {
                branch->setting->section = at;
                branch->item = &at->items.at[i];
                branch->declared = branch->item->loss.coefficient;
                branch->wide = fitting_damper(NULL, 0, is_round(branch)).value;
                branch->setting->declared = branch->declared > branch->wide;
                if (branch->setting->declared)
                    fitting_damper_blade(branch->declared, is_round(branch), &branch->setting->declared_blade);
                return;
            }
}

static struct balance_side side_of(struct arena *arena, const struct path *paths, struct damper_setting *settings,
                                   size_t count) {
    struct balance_side side = {.count = count, .at = ARENA_ARRAY(arena, struct branch, count + 1)};
    for (size_t i = 0; i < count; i++) {
        side.at[i] = (struct branch){.path = &paths[i], .setting = &settings[i]};
        settings[i] = (struct damper_setting){.kind = SETTING_NONE};
        find_damper(&side.at[i]);
    }
    return side;
}

static void set_blade(const struct balance *balance, const struct branch *branch, double coefficient) {
    balance->model->sections[branch->setting->section->id].blade = coefficient - branch->declared;
    branch->setting->coefficient = coefficient;
}

static void open_all(const struct balance *balance) {
    for (int k = 0; k < SIDES; k++)
        for (size_t i = 0; i < balance->sides[k].count; i++) {
            const struct branch *branch = &balance->sides[k].at[i];
            if (branch->item && !branch->free)
                set_blade(balance, branch, branch->wide);
        }
}

/* The costliest of a side's paths that keep to the share. */
static double costliest(const struct balance *balance, const struct balance_side *side) {
    double most = 0;
    for (size_t i = 0; i < side->count; i++)
        if (!side->at[i].free)
            most = fmax(most, balance->loss[side->at[i].path->end->id]);
    return most;
}

static void settle(const struct balance *balance, struct branch *branch, double spare, double most) {
    struct damper_setting *setting = branch->setting;
    if (branch->free) /* it stays as it was left */
        return;
    if (!branch->item) {
        branch->free = spare > spare_rounding * most;
        return;
    }
    const struct flow_model *model = balance->model;
    uint32_t id = setting->section->id;
    double flow = model->flow[id], taken = model->sections[id].per_blade * flow * flow;
    double more = taken > 0 ? fmax(spare, 0) / taken : 0, blade = 0;
    bool reached = fitting_damper_blade(branch->wide + more, is_round(branch), &blade);
    setting->kind = !reached ? SETTING_TOO_FAR : more < hardly ? SETTING_OPEN : SETTING_BLADE;
    setting->blade = blade;
    branch->free = !reached;
    set_blade(balance, branch, reached ? branch->wide + more : fitting_damper(NULL, blade, is_round(branch)).value);
}

/* Computes losses with the dampers wide open at the wanted airflows; each path's damper then takes up what it has to
 * spare. */
static void settle_sides(struct balance *balance) {
    struct flow_model *model = balance->model;
    open_all(balance);
    flow_evaluate(model);
    flow_side(model, true, balance->loss);
    flow_side(model, false, balance->loss);
    for (int k = 0; k < SIDES; k++) {
        const struct balance_side *side = &balance->sides[k];
        double most = costliest(balance, side);
        for (size_t i = 0; i < side->count; i++)
            settle(balance, &side->at[i], most - balance->loss[side->at[i].path->end->id], most);
    }
}

/* ---- Round by round ---------------------------------------------------------------------------------------------- */

/* The share of their design that the terminals with a share to keep take together; `off`: the greatest deviation
 * from it. */
static double common_share(const struct balance *balance, const struct balance_side *side, double *off) {
    double takes = 0, design = 0;
    for (size_t i = 0; i < side->count; i++) {
        const struct section *end = side->at[i].path->end;
        takes += side->at[i].free ? 0 : balance->model->flow[end->id];
        design += side->at[i].free ? 0 : end->flow;
    }
    double share = design > 0 ? takes / design : 0;
    for (size_t i = 0; i < side->count; i++) {
        const struct section *end = side->at[i].path->end;
        if (!side->at[i].free && end->flow > 0)
            *off = fmax(*off, fabs(balance->model->flow[end->id] / end->flow - share));
    }
    return share;
}

/* The terminal that takes least decides what the others can be brought down to, even if it has no damper. */
static void bind_least(const struct balance *balance, const struct balance_side *side) {
    double off = 0, share = common_share(balance, side, &off);
    for (size_t i = 0; i < side->count; i++) {
        struct branch *branch = &side->at[i];
        const struct section *end = branch->path->end;
        if (!branch->item && branch->free && balance->model->flow[end->id] < share * end->flow)
            branch->free = false;
    }
}

/* Gives the supply's share. */
static double want_alike(struct balance *balance, double *off) {
    struct flow_model *model = balance->model;
    double shares[SIDES];
    *off = 0;
    for (int k = 0; k < SIDES; k++) {
        const struct balance_side *side = &balance->sides[k];
        bind_least(balance, side);
        shares[k] = common_share(balance, side, off);
        for (size_t i = 0; i < side->count; i++)
            if (!side->at[i].free)
                model->flow[side->at[i].path->end->id] = shares[k] * side->at[i].path->end->flow;
    }
    return shares[SIDE_SUPPLY_AIR];
}

/* Some terminals cannot be set.  The others share what is left, and their dampers are set for that, round by round. */
static bool repeat(struct balance *balance, struct operation *operation) {
    struct flow_model *model = balance->model;
    double *found = ARENA_ARRAY(balance->arena, double, model->count), off = 0;
    for (int round = 0; round < ROUNDS_MOST; round++) {
        for (size_t i = 0; i < model->count; i++)
            found[i] = model->flow[i];
        operation->share = want_alike(balance, &off);
        if (off <= alike * operation->share || round == ROUNDS_MOST - 1) {
            for (size_t i = 0; i < model->count; i++)
                model->flow[i] = found[i];
            return true;
        }
        flow_sum(model);
        settle_sides(balance);
        if (!flow_settle(model, balance->arena, &operation->balanced))
            return false;
    }
    return true;
}

/* Of what has no damper: whether it needs one. */
static void name_undamped(const struct balance *balance, const struct operation *operation) {
    for (int k = 0; k < SIDES; k++) {
        const struct balance_side *side = &balance->sides[k];
        double off = 0, share = k == SIDE_SUPPLY_AIR ? operation->share : common_share(balance, side, &off);
        for (size_t i = 0; i < side->count; i++) {
            const struct branch *branch = &side->at[i];
            double takes = balance->model->flow[branch->path->end->id], wanted = share * branch->path->end->flow;
            if (!branch->item)
                branch->setting->kind = takes > (1 + near_enough) * wanted ? SETTING_NO_DAMPER : SETTING_OPEN;
        }
    }
}

void flow_balance(struct flow_model *model, struct arena *arena, struct operation *operation) {
    const struct network *network = model->network;
    struct balance balance = {.model = model, .arena = arena};
    balance.loss = ARENA_ARRAY(arena, double, model->count);
    balance.sides[SIDE_SUPPLY_AIR] =
        side_of(arena, network->supply_paths.at, operation->supply_settings, network->supply_paths.count);
    balance.sides[SIDE_RETURN_AIR] =
        side_of(arena, network->return_paths.at, operation->return_settings, network->return_paths.count);
    open_all(&balance);
    double start = network->supply_flow > 0 ? operation->dampers_open.flow / network->supply_flow : 1;
    flow_start(model, flow_common_share(model, arena, start > 0 ? start : 1, share_within));
    settle_sides(&balance);
    bool found = flow_settle(model, arena, &operation->balanced) && repeat(&balance, operation);
    name_undamped(&balance, operation);
    if (found)
        return;
    operation->share = 0;
    for (int k = 0; k < SIDES; k++)
        for (size_t i = 0; i < balance.sides[k].count; i++)
            balance.sides[k].at[i].setting->kind = SETTING_NONE;
}
