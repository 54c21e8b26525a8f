/* Offsets: two elbows of one angle that bring the duct aside. */
#include "piece/offset.h"

#include "model/lined.h"
#include "piece/bend.h"
#include "piece/common.h"
#include "piece/kinds.h"

#include <math.h>

enum { DISTANCE, WAY, OVER, STYLE };
enum style { ANGLED, OGEE };

static const char *const style_words[] = {"angled", "ogee", NULL};
static const char example[] = "offset 8 in left over 24 in, ogee";

static const struct sense distance_sense = {
    .low = MORE_THAN_NOTHING,
    .high = 100 * FOOT, /* common practice, no source */
    .expected = "an offset of more than 0, 100 ft (30 m) at most",
    .hint = example,
};

static const struct sense over_sense = OVER_SENSE(example);

static const char *line(struct arena *arena, const char *aside, enum way way, const char *along) {
    return arena_format(arena, "offset %s %s over %s", aside, way_words[way], along);
}

/* The line as the job has it, with another length. */
static const char *line_over(const struct piece *piece, struct arena *arena, const char *length) {
    bool ogee = piece_choice(piece, STYLE, ANGLED) == OGEE;
    enum way way = (enum way)piece_choice(piece, WAY, WAY_LEFT);
    return arena_format(arena, "%s%s", line(arena, piece_written(piece, DISTANCE, arena), way, length),
                        ogee ? ", ogee" : "");
}

static void prepare(struct piece *piece, struct diagnostics *diagnostics) {
    if (!piece_sensible(piece, diagnostics, DISTANCE, &distance_sense) ||
        !piece_sensible(piece, diagnostics, OVER, &over_sense))
        return;
    piece->length = piece_number(piece, OVER, 0);
    /* Two equal arcs turn no more than 90 degrees each. */
    if (piece_choice(piece, STYLE, ANGLED) == OGEE && piece_number(piece, DISTANCE, 0) > piece->length)
        piece_error(piece, diagnostics, piece_argument(piece, OVER)->at,
                    line_over(piece, diagnostics->arena, piece_written(piece, DISTANCE, diagnostics->arena)),
                    "an ogee goes aside no farther than it is long");
}

/* What is made: of the metal, which a lining leaves smaller inside. */
static struct offset_bend bend_of(const struct piece *piece, struct duct_size metal) {
    double aside = piece_number(piece, DISTANCE, 0), along = piece_number(piece, OVER, 0);
    double side = bend_side(metal, (enum way)piece_choice(piece, WAY, WAY_LEFT));
    return piece_choice(piece, STYLE, ANGLED) == OGEE ? ogee_offset(side, aside, along)
                                                      : angled_offset(side, aside, along);
}

/* How far it goes aside, and along between the straights at its ends. */
static double bend_aside(const struct offset_bend *bend) {
    return bend->radius > 0 ? 2 * bend->radius * (1 - cos(bend->angle)) : bend->between * sin(bend->angle);
}

static double bend_along(const struct offset_bend *bend) {
    return bend->radius > 0 ? 2 * bend->radius * sin(bend->angle) : bend->between * cos(bend->angle);
}

const char *offset_line(struct arena *arena, enum measure_system system, const struct offset_told *told) {
    return line(arena, measure_text(arena, system, SHOW_LINE, told->aside), told->way,
                measure_text(arena, system, SHOW_LINE, told->along));
}

void angled_offset_loss(const struct piece_flow *flow, enum way way, const struct offset_bend *bend,
                        struct loss *loss) {
    double aside = bend_aside(bend), along = bend_along(bend);
    TRACE(flow->trace, TRACE_LENGTH, "Along it from mitre to mitre, on the middle line", "L", "over - 2 x e", along,
          SOURCE_NONE, trace_of(TRACE_LENGTH, "over", along + 2 * bend->end), trace_of(TRACE_LENGTH, "e", bend->end));
    TRACE(flow->trace, TRACE_ANGLE, "Angle of each mitre, as it is cut", "a", "atan(s / L)", bend->angle, SOURCE_NONE,
          trace_of(TRACE_LENGTH, "s", aside), trace_of(TRACE_LENGTH, "L", along));
    struct coefficient mitres = fitting_two_mitres(flow->trace, bend->angle, bend_aspect(flow->far.size, way));
    loss_set(flow, loss, mitres, flow->far, "duct", SOURCE_OFFSET_ELBOWS);
    TRACE(flow->trace, TRACE_LENGTH, "Its way", "Lway", "2 x e + sqrt(s^2 + L^2)", offset_centre_line(bend),
          SOURCE_NONE, trace_of(TRACE_LENGTH, "e", bend->end), trace_of(TRACE_LENGTH, "s", aside),
          trace_of(TRACE_LENGTH, "L", along));
    loss_add_friction(loss, stream_friction(flow, flow->far, offset_centre_line(bend)));
}

static void trace_arcs(struct trace *trace, const struct offset_bend *bend) {
    double aside = bend_aside(bend), along = bend_along(bend);
    TRACE(trace, TRACE_LENGTH, "Along it between its collars", "L", "over - 2 x e", along, SOURCE_NONE,
          trace_of(TRACE_LENGTH, "over", along + 2 * bend->end), trace_of(TRACE_LENGTH, "e", bend->end));
    TRACE(trace, TRACE_ANGLE, "Turn of each arc", "a", "2 x atan(s / L)", bend->angle, SOURCE_NONE,
          trace_of(TRACE_LENGTH, "s", aside), trace_of(TRACE_LENGTH, "L", along));
    TRACE(trace, TRACE_LENGTH, "Radius of its centre line", "R", "(L^2 + s^2) / (4 x s)", bend->radius, SOURCE_NONE,
          trace_of(TRACE_LENGTH, "L", along), trace_of(TRACE_LENGTH, "s", aside));
}

/* One arc, as an elbow of its angle and radius; a round one is of gores, as a round elbow is, and `factor` is in it. */
static struct coefficient arc_coefficient(const struct piece_flow *flow, const struct offset_bend *bend, enum way way,
                                          double factor) {
    struct duct_size size = flow->far.size;
    double ratio = bend->radius / bend_side(size, way);
    if (size.shape == SHAPE_ROUND)
        return fitting_gored_elbow(flow->trace, bend->angle, ratio, ogee_mitres(bend->angle) + 1, factor);
    const char *name = trace_as(flow->trace, "C0");
    struct coefficient arc = fitting_radius_elbow(flow->trace, bend->angle, ratio, bend_aspect(size, way));
    trace_as(flow->trace, name);
    TRACE_COEFFICIENT(flow->trace, "One arc", "C0 x KRe", arc.value * factor, SOURCE_OFFSET_ELBOWS,
                      trace_number("C0", arc.value), trace_number("KRe", factor));
    arc.value *= factor;
    return arc;
}

static void ogee_loss(const struct piece_flow *flow, struct loss *loss, const struct offset_bend *bend, enum way way) {
    trace_arcs(flow->trace, bend);
    struct coefficient factor = bend_reynolds(flow, bend->radius / bend_side(flow->far.size, way));
    const char *name = trace_as(flow->trace, "Carc");
    struct coefficient arc = arc_coefficient(flow, bend, way, factor.value);
    trace_as(flow->trace, name);
    TRACE_COEFFICIENT(flow->trace, "Two arcs", "2 x Carc", 2 * arc.value, SOURCE_OFFSET_ELBOWS,
                      trace_number("Carc", arc.value));
    arc.value *= 2;
    loss_set(flow, loss, arc, flow->far, "duct", SOURCE_OFFSET_ELBOWS);
    loss_mark_reynolds(loss, factor);
    TRACE(flow->trace, TRACE_LENGTH, "Its way", "Lway", "2 x e + 2 x R x a x pi / 180", offset_centre_line(bend),
          SOURCE_NONE, trace_of(TRACE_LENGTH, "e", bend->end), trace_of(TRACE_LENGTH, "R", bend->radius),
          trace_of(TRACE_ANGLE, "a", bend->angle));
    loss_add_friction(loss, stream_friction(flow, flow->far, offset_centre_line(bend)));
}

static void loss(const struct piece_flow *flow, struct loss *loss) {
    const struct piece *piece = flow->piece;
    enum way way = (enum way)piece_choice(piece, WAY, WAY_LEFT);
    if (stream_still(flow->far) || !(piece_number(piece, DISTANCE, 0) > 0) || !(piece_number(piece, OVER, 0) > 0))
        return;
    struct offset_bend bend = bend_of(piece, size_around(flow->far.size, piece_lining(piece)));
    if (bend.radius > 0)
        ogee_loss(flow, loss, &bend, way);
    else
        angled_offset_loss(flow, way, &bend, loss);
}

static const char *describe(const struct piece *piece, enum measure_system system, struct arena *arena) {
    const char *unit = measure_show(system, SHOW_SIZE)->unit;
    double distance = piece_number(piece, DISTANCE, 0) / measure_show(system, SHOW_SIZE)->factor;
    return arena_format(arena, "Offset, %s %s %s, %s", piece_figure(arena, distance), unit,
                        way_words[piece_choice(piece, WAY, WAY_LEFT)], style_words[piece_choice(piece, STYLE, ANGLED)]);
}

/* "Ogee offset, 14 x 8 in, 6 in aside over 24 in, left or right". */
static const char *part_title(const struct making *making, const struct offset *offset, struct duct_size size,
                              const char *style) {
    struct arena *arena = making_scratch(making);
    enum measure_system system = making_job(making)->system;
    return arena_format(arena, "%s offset, %s, %s aside over %s%s", style, size_text(arena, system, size),
                        measure_text(arena, system, SHOW_CUT, offset->aside),
                        measure_text(arena, system, SHOW_CUT, offset->along),
                        bend_ways(size, (enum way)(int)offset->way));
}

/* ---- What can be made -------------------------------------------------------------------------------------------- */

/* A blank that is longer than two of the longest sheets sold, 12 ft, is neither cut nor pieced: chosen here.  Beyond
 * one the check `stock` warns. */
static const double longest_blank = 24 * FOOT;

/* A hint goes no farther than a sheet does that every shop has: 10 ft. */
static const double usual_sheet = 10 * FOOT;

/* Two elbows of the usual radius and straight duct between, which go as far aside: each R (1 - cos a) + c sin a, its
 * collars c of 2 in included.  NULL: there is no room between them. */
static const char *two_elbows(const struct piece *piece, const struct making *making, double side) {
    static const double angles[] = {90, 45, 30, 15};
    static const enum way back[] = {
        [WAY_LEFT] = WAY_RIGHT, [WAY_RIGHT] = WAY_LEFT, [WAY_UP] = WAY_DOWN, [WAY_DOWN] = WAY_UP};
    double aside = piece_number(piece, DISTANCE, 0), along = piece_number(piece, OVER, 0), collar = 2 * INCH;
    double radius = (piece->far->size.shape == SHAPE_ROUND ? 1.5 : 1.0) * side;
    enum way way = (enum way)piece_choice(piece, WAY, WAY_LEFT);
    struct arena *arena = making_scratch(making);
    for (size_t i = aside > along ? 0 : 1; i < sizeof angles / sizeof *angles; i++) {
        double angle = angles[i] * DEGREE;
        double between = (aside - 2 * radius * (1 - cos(angle)) - 2 * collar * sin(angle)) / sin(angle);
        if (between < collar)
            continue;
        const char *length = measure_text(arena, making_job(making)->system, SHOW_RUN, between);
        return arena_format(arena, "elbow %.0f %s; straight %s; elbow %.0f %s", angles[i], way_words[way], length,
                            angles[i], way_words[back[way]]);
    }
    return NULL;
}

/* As far aside, in a length that does: at 45 degrees where the step is more than the duct is wide. */
static const char *sound_line(const struct piece *piece, const struct making *making, double side, double least) {
    double aside = piece_number(piece, DISTANCE, 0);
    bool ogee = piece_choice(piece, STYLE, ANGLED) == OGEE;
    double spare = piece->far->size.shape == SHAPE_OVAL ? 8 * INCH : 0; /* its ends are to take a collar */
    double length = aside > side && !ogee ? aside + side * tan(22.5 * DEGREE) : least + spare;
    if (hypot(aside, length) + side > usual_sheet) {
        const char *elbows = two_elbows(piece, making, side);
        if (elbows)
            return elbows;
    }
    struct arena *arena = making_scratch(making);
    return line_over(piece, arena, enough_length(arena, making_job(making)->system, length));
}

static void make(const struct piece *piece, struct making *making) {
    if (!piece->far || !size_known(piece->far->size))
        return;
    struct duct_size size = duct_metal(piece->far);
    enum way hung = (enum way)piece_choice(piece, WAY, WAY_LEFT);
    bool ogee = piece_choice(piece, STYLE, ANGLED) == OGEE;
    double side = bend_side(size, hung), aside = piece_number(piece, DISTANCE, 0), along = piece_number(piece, OVER, 0);
    struct offset offset = {
        .duct = shape_duct_of(size),
        .way = bend_way(size, hung),
        .aside = aside,
        .along = along,
        .collar = bend_of(piece, size).collar,
    };
    if (hypot(aside, along) > longest_blank) {
        make_fault(making, two_elbows(piece, making, side),
                   "no sheet is nearly so long: two elbows with straight duct between go as far aside");
        return;
    }
    make_part(making, &(struct order){
                          .line = sound_line(piece, making, side,
                                             ogee ? ogee_least_length(side, aside) : angled_least_length(side, aside)),
                          .title = part_title(making, &offset, size, ogee ? "Ogee" : "Angled"),
                          .shape = ogee ? "ogee offset" : "angled offset",
                          .build = ogee ? shape_ogee_offset : shape_angled_offset,
                          .size = &offset,
                          .size_bytes = sizeof offset,
                          .near = size,
                          .far = size,
                          .station = piece->station,
                          .length = along,
                          .note = arena_format(making_scratch(making), "hung to go %s", way_words[hung]),
                      });
}

static void place(const struct piece *piece, struct motion *motion) {
    struct offset_bend bend = bend_of(piece, motion_size(motion));
    motion_step(motion, (enum way)piece_choice(piece, WAY, WAY_LEFT), &bend);
}

const struct piece_kind piece_offset = {
    .form =
        {
            .word = "offset",
            .places = IN_ANY_RUN,
            .slots =
                {
                    [DISTANCE] = {.kind = SLOT_QUANTITY,
                                  .use = SLOT_REQUIRED,
                                  .measure = MEASURE_LENGTH,
                                  .meaning = "how far it goes aside"},
                    [WAY] = {.kind = SLOT_CHOICE,
                             .use = SLOT_REQUIRED,
                             .choices = way_words,
                             .meaning = "which way it goes: left, right, up or down"},
                    [OVER] = {.kind = SLOT_QUANTITY,
                              .key = "over",
                              .use = SLOT_REQUIRED,
                              .measure = MEASURE_LENGTH,
                              .meaning = "the length it does so in"},
                    [STYLE] = {.kind = SLOT_CHOICE, .choices = style_words, .meaning = "angled or ogee"},
                },
            .meaning = "a step aside, with two corners (angled, when it says nothing) or two arcs (ogee)",
            .example = example,
        },
    .title = "Offset",
    .prepare = prepare,
    .loss = loss,
    .describe = describe,
    .make = make,
    .place = place,
};
