/* Screws, ties, corners and bolts: so many a connection. */
#include "cost/count.h"
#include "metal/seam.h"
#include "model/piece.h"

/* SOURCE_FASTENERS. */
static const double round_least = 3, round_spacing = 15 * INCH;
static const double slip_margin = 2 * INCH, slip_spacing = 12 * INCH;
static const double wall_least = 4, wall_spacing = 6 * INCH;

/* Screws that fall or strip: common practice, no source. */
static const double dropped = 0.10;

/* Along one side: one within the margin of each corner, the others no farther apart than the spacing. */
static double along_side(double side) {
    return 1 + fmax(1, whole_ones((side - 2 * slip_margin) / slip_spacing));
}

/* Slips are screwed, drives hold by themselves; raw edges are screwed on all four sides. */
static double screws_in_rectangle(enum joint_kind kind, struct duct_size size) {
    const struct connection_rule *rule = metal_connection_rule(kind);
    if (kind == JOINT_FLANGE)
        return 0;
    bool width_slips = metal_slip_pair(size) == PAIR_TOP_BOTTOM;
    double slips = width_slips ? size.width : size.height, others = width_slips ? size.height : size.width;
    bool drives = rule->other_edge == EDGE_TURNED;
    return 2 * along_side(slips) + (drives ? 0 : 2 * along_side(others));
}

static double screws_of(const struct connection *connection) {
    double girth = size_perimeter(connection->size);
    switch (connection->closing) {
    case CLOSED_JOINT:
        if (connection->size.shape == SHAPE_RECTANGULAR)
            return screws_in_rectangle(connection->kind, connection->size);
        return fmax(round_least, whole_ones(girth / round_spacing));
    case CLOSED_BASE:
    case CLOSED_NECK:
    case CLOSED_CANVAS:
        return fmax(wall_least, whole_ones(girth / wall_spacing));
    default:
        return 0;
    }
}

/* One in each strap; of a riser's support two in each angle.  Common practice, no source. */
static const double screws_of_hanger[] = {
    [HANGER_STRAPS] = 2, [HANGER_BAND] = 1, [HANGER_SADDLE] = 0, [HANGER_RISER] = 4};

void count_screws(struct takeoff *takeoff, const struct job *job) {
    double joints = 0, others = 0, straps = 0, angles = 0;
    for (size_t i = 0; i < takeoff->connections.count; i++) {
        const struct connection *connection = &takeoff->connections.at[i];
        *(connection->closing == CLOSED_JOINT ? &joints : &others) += screws_of(connection);
    }
    for (size_t i = 0; i < takeoff->hangers.count; i++)
        *(takeoff->hangers.at[i].kind == HANGER_RISER ? &angles : &straps) +=
            screws_of_hanger[takeoff->hangers.at[i].kind];
    if (!(joints + others + straps + angles > 0))
        return;
    struct bill_line *line = bill_line(takeoff, NULL, takeoff->item->title);
    line->net = joints + others + straps + angles;
    line->wanted = whole_ones(line->net * (1 + dropped));
    line->source = SOURCE_FASTENERS;
    const char *risers = angles > 0 ? arena_format(takeoff->arena, ", %.0f in supports of risers", angles) : "";
    line->basis = arena_format(takeoff->arena,
                               "%.0f in joints: 3 or more a round one, slips every %s; %.0f in taps, caps, necks and "
                               "canvas, every %s; %.0f in straps%s; a tenth for those that drop",
                               joints, words_of_width(takeoff, job, slip_spacing), others,
                               words_of_width(takeoff, job, wall_spacing), straps, risers);
}

static double splices_of(const struct takeoff *takeoff) {
    double count = 0;
    for (size_t i = 0; i < takeoff->splices.count; i++)
        count += (double)takeoff->splices.at[i].count;
    return count;
}

void count_flex_sleeves(struct takeoff *takeoff, const struct job *job) {
    (void)job;
    double count = splices_of(takeoff);
    if (!(count > 0))
        return;
    struct bill_line *line = bill_line(takeoff, NULL, takeoff->item->title);
    line->net = line->wanted = count;
    line->basis = "one at each splice of flexible duct that is longer than what it is sold by";
}

void count_flex_ties(struct takeoff *takeoff, const struct job *job) {
    (void)job;
    double ends = 0, jackets = 0;
    for (size_t i = 0; i < takeoff->connections.count; i++)
        if (takeoff->connections.at[i].closing == CLOSED_FLEX) {
            const struct connection *at = &takeoff->connections.at[i];
            ends++;
            jackets += piece_insulation(at->piece, at->run) > 0;
        }
    for (size_t i = 0; i < takeoff->splices.count; i++) {
        double joined = 2 * (double)takeoff->splices.at[i].count;
        ends += joined;
        jackets += takeoff->splices.at[i].insulation > 0 ? joined : 0;
    }
    if (!(ends > 0))
        return;
    struct bill_line *line = bill_line(takeoff, NULL, takeoff->item->title);
    line->net = line->wanted = ends + jackets;
    line->source = SOURCE_FLEX_TIES;
    const char *more = jackets > 0 ? ", and one more for its jacket where it is insulated" : "";
    line->basis = arena_format(takeoff->arena, "one at each of %s of flexible duct%s%s",
                               words_of_count(takeoff, ends, "end", "ends"),
                               takeoff->splices.count ? ", two of them at each splice" : "", more);
}

static double flanges(const struct takeoff *takeoff) {
    double count = 0;
    for (size_t i = 0; i < takeoff->connections.count; i++)
        count += takeoff->connections.at[i].closing == CLOSED_JOINT && takeoff->connections.at[i].kind == JOINT_FLANGE;
    return count;
}

static void count_of_flanges(struct takeoff *takeoff, double each, const char *how) {
    double joints = flanges(takeoff);
    if (!(joints > 0))
        return;
    struct bill_line *line = bill_line(takeoff, NULL, takeoff->item->title);
    line->net = line->wanted = each * joints;
    line->source = SOURCE_FLANGE_CORNERS;
    line->basis =
        arena_format(takeoff->arena, "%s, %s", words_of_count(takeoff, joints, "flanged joint", "flanged joints"), how);
}

void count_flange_corners(struct takeoff *takeoff, const struct job *job) {
    (void)job;
    count_of_flanges(takeoff, 8, "four corners of each of two ends");
}

void count_flange_bolts(struct takeoff *takeoff, const struct job *job) {
    (void)job;
    count_of_flanges(takeoff, 4, "one in each corner");
}
