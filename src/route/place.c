/* The place of every piece, from the units outward. */
#include <math.h>
#include <string.h>

#include "base/constant.h"
#include "metal/shape_offset.h"
#include "model/lined.h"
#include "model/piece.h"
#include "model/taps.h"
#include "route/motion.h"

struct laying {
    struct arena *arena;
    const struct job *job;
    struct route *route;
    const struct detour *detour;
    LIST(const struct run *) waiting; /* placed, but what hangs from them is not */
};

/* ---- Where a unit's runs begin ----------------------------------------------------------------------------------- */

static const struct space headings[] = {
    [COMPASS_NORTH] = {0, 1, 0}, [COMPASS_EAST] = {1, 0, 0}, [COMPASS_SOUTH] = {0, -1, 0},
    [COMPASS_WEST] = {-1, 0, 0}, [COMPASS_UP] = {0, 0, 1},   [COMPASS_DOWN] = {0, 0, -1},
};

/* NULL: as `usual`. */
static struct space heading_of(const char *word, struct space usual) {
    for (size_t i = 0; word && compass_words[i]; i++)
        if (strcmp(compass_words[i], word) == 0)
            return headings[i];
    return usual;
}

/* The axes of a duct that goes that way: its top up; of one that goes up or down as one sees it who stands before the
 * unit and looks along it, so that its top is toward him where it goes up, and away from him where it goes down. */
static struct frame heading_frame(const struct air_unit *unit, struct space along) {
    struct space front = heading_of(unit->front, (struct space){-1, 0, 0}), up = {0, 0, 1};
    if (fabs(along.z) > 0.5)
        up = space_scale(front, along.z);
    const struct space none = {0}; /* added, it leaves no zero with a sign */
    return (struct frame){
        .right = space_add(space_cross(along, up), none), .along = space_add(along, none), .up = space_add(up, none)};
}

static struct space supply_heading(const struct air_unit *unit) {
    return heading_of(unit->faces, (struct space){1, 0, 0});
}

static struct frame supply_frame(const struct air_unit *unit) {
    struct frame frame = heading_frame(unit, supply_heading(unit));
    if (unit->position_given)
        frame.origin = (struct space){unit->position[0], unit->position[1], unit->position[2]};
    return frame;
}

static struct frame return_frame(const struct air_unit *unit) {
    struct frame supply = supply_frame(unit);
    struct space behind = space_scale(supply.along, -1);
    struct frame frame = heading_frame(unit, heading_of(unit->return_faces, behind));
    frame.origin = frame_point(&supply, 0, -route_cabinet(), 0);
    if (unit->return_position_given)
        frame.origin = (struct space){unit->return_position[0], unit->return_position[1], unit->return_position[2]};
    return frame;
}

/* ---- Its top up -------------------------------------------------------------------------------------------------- */

/* Leaned over by more than 135 degrees it came out upside down, by less it stands on its edge: halfway between.  Chosen
 * here, no source. */
static const double upside_down = 0.75 * PI;

/* Duct that turns level, out of duct that went `before`, has its top up again.  Its axes are rolled half round where
 * they came out upside down; round or square duct is rolled by whatever it takes.  Other duct on its edge stays so: its
 * width and height are those of its sides. */
static struct frame topped(const struct frame *frame, struct space before, struct duct_size size) {
    if (!route_level(frame->along) || route_level(before))
        return *frame;
    double lean = atan2(frame->right.z, frame->up.z), half = round(lean / PI), quarters = round(lean / (PI / 2));
    bool square = size_known(size) && fabs(size.width - size.height) < 1e-6;
    double roll = !square                     ? (fabs(lean) > upside_down ? half * PI : 0)
                  : size.shape == SHAPE_ROUND ? lean
                                              : quarters * PI / 2;
    return frame_rolled(frame, roll);
}

/* ---- A run ------------------------------------------------------------------------------------------------------- */

static struct placed_run *placed_run(const struct laying *laying, const struct run *run) {
    return &laying->route->runs[run->id];
}

static struct duct_size first_size(const struct run *run) {
    return duct_metal(run->first_duct);
}

static void place_piece(struct laying *laying, struct motion *motion, const struct piece *piece, double less) {
    struct route *route = laying->route;
    size_t index = route->pieces.count, first = route->stretches.count;
    *list_add(laying->arena, &route->pieces) = (struct placed_piece){
        .piece = piece, .run = motion->run->run, .near = motion->at, .begins = motion->way, .first = first};
    motion->piece = piece;
    motion->start = motion->at;
    if (piece->near && size_known(piece->near->size))
        motion->size = duct_metal(piece->near);
    if (piece->kind->place)
        piece->kind->place(piece, motion);
    else
        motion_on(motion, piece->length - less);
    if (piece->far && size_known(piece->far->size))
        motion->size = duct_metal(piece->far);
    bool first_of_tap = piece->kind->traits & PIECE_TAP;
    motion->at = topped(&motion->at, first_of_tap ? motion->run->behind : motion->start.along, motion->size);
    struct placed_piece *placed = &route->pieces.at[index];
    placed->far = motion->at;
    placed->ends = motion->way;
    placed->count = route->stretches.count - first;
    placed->free = motion->free;
    placed->positioned = motion->run->positioned;
}

/* An offset that the job does not have is no piece: its stretches count as the next piece's. */
static void place_detour(struct motion *motion, const struct detour *detour) {
    motion->piece = NULL;
    enum way way = detour->right > 0 ? WAY_RIGHT : detour->right < 0 ? WAY_LEFT : detour->up > 0 ? WAY_UP : WAY_DOWN;
    double aside = fmax(fabs(detour->right), fabs(detour->up));
    double side = way_is_level(way) ? motion->size.width : motion->size.height;
    struct offset_bend bend = angled_offset(side, aside, detour->along);
    motion_step(motion, way, &bend);
}

static bool covers(struct duct_size face, struct duct_size duct) {
    return face.width > duct.width - 1e-6 && face.height > duct.height - 1e-6;
}

/* Turned where only that covers the end of the duct: a filter of 20 x 24 before duct of 24 x 20. */
static struct duct_size face_as_hung(struct duct_size face, struct duct_size duct) {
    struct duct_size turned = {face.shape, face.height, face.width};
    bool known = size_known(face) && size_known(duct);
    return known && !covers(face, duct) && covers(turned, duct) ? turned : face;
}

/* `from` gives the unit, whether it has a position, the way of the duct that the run leaves, and whether the run begins
 * free. */
static void lay_run(struct laying *laying, const struct run *run, struct frame begin, struct placed_run from) {
    if (run->alternate || run->faulty)
        return;
    struct placed_run *placed = placed_run(laying, run);
    const struct detour *detour = laying->detour && laying->detour->run == run ? laying->detour : NULL;
    *placed = (struct placed_run){
        .run = run, .begin = begin, .behind = from.behind, .positioned = from.positioned, .unit = from.unit};
    placed->first = laying->route->pieces.count;
    if (run->face)
        placed->face = run->face->kind->face(run->face);
    struct motion motion = {.arena = laying->arena,
                            .job = laying->job,
                            .route = laying->route,
                            .run = placed,
                            .at = begin,
                            .size = first_size(run),
                            .free = from.free};
    if (run->connect)
        place_piece(laying, &motion, run->connect, 0);
    for (size_t i = 0; i < run->pieces.count; i++) {
        bool at_detour = detour && detour->before == i;
        if (at_detour && !(detour->less > 0)) {
            size_t before = laying->route->stretches.count;
            motion.size = run->pieces.at[i]->near ? duct_metal(run->pieces.at[i]->near) : motion.size;
            place_detour(&motion, detour);
            for (size_t k = before; k < laying->route->stretches.count; k++)
                laying->route->stretches.at[k].piece++;
        }
        place_piece(laying, &motion, run->pieces.at[i], at_detour ? detour->less : 0);
    }
    placed->count = laying->route->pieces.count - placed->first;
    placed->end = motion.at;
    placed->free = motion.free;
    placed->length = motion.way;
    placed->face = face_as_hung(placed->face, motion.size);
    *list_add(laying->arena, &laying->waiting) = run;
}

/* ---- What hangs from it ------------------------------------------------------------------------------------------ */

static enum way way_of_side(enum side side) {
    return side == SIDE_LEFT ? WAY_LEFT : side == SIDE_RIGHT ? WAY_RIGHT : side == SIDE_TOP ? WAY_UP : WAY_DOWN;
}

/* The axes of what is tapped in on a side, `out` of the parent's middle line: as an elbow that way leaves them. */
static struct frame side_frame(const struct frame *at, enum side side, double out) {
    static const struct {
        struct space right, along, up; /* in the parent's axes: right, along, up */
    } sides[] = {
        [WAY_LEFT] = {{0, 1, 0}, {-1, 0, 0}, {0, 0, 1}},
        [WAY_RIGHT] = {{0, -1, 0}, {1, 0, 0}, {0, 0, 1}},
        [WAY_UP] = {{1, 0, 0}, {0, 0, 1}, {0, -1, 0}},
        [WAY_DOWN] = {{1, 0, 0}, {0, 0, -1}, {0, 1, 0}},
    };
    const struct space *right = &sides[way_of_side(side)].right, *along = &sides[way_of_side(side)].along,
                       *up = &sides[way_of_side(side)].up;
    struct frame frame = {
        .right = frame_way(at, right->x, right->y, right->z),
        .along = frame_way(at, along->x, along->y, along->z),
        .up = frame_way(at, up->x, up->y, up->z),
    };
    frame.origin = space_add(at->origin, space_scale(frame.along, out));
    return frame;
}

/* How much a detour adds to the job's station of a piece. */
static double shift_at(const struct laying *laying, const struct run *run, size_t piece) {
    const struct detour *detour = laying->detour;
    return detour && detour->run == run && piece >= detour->before ? detour->along : 0;
}

/* The piece that holds a station, from `from` on.  Stations count the length of a detour: behind it another piece may
 * hold them. */
static size_t piece_at(const struct laying *laying, const struct run *run, size_t from, double station) {
    size_t best = run->pieces.count;
    for (size_t i = from; i < run->pieces.count; i++) {
        double begins = run->pieces.at[i]->station + shift_at(laying, run, i);
        if (begins > station)
            break;
        if (run->pieces.at[i]->length > 0)
            best = i;
    }
    return best;
}

static void lay_tap(struct laying *laying, const struct placed_run *parent, const struct run *tapped, size_t *from) {
    const struct run *run = parent->run;
    const struct port *port = &tapped->from;
    size_t index = *from;
    if (laying->detour && laying->detour->run == run)
        index = piece_at(laying, run, *from, port->station);
    else
        while (index < run->pieces.count && run->pieces.at[index] != port->into)
            index++;
    if (index >= run->pieces.count)
        return;
    *from = index; /* taps are in the order of their stations */
    const struct placed_piece *into = &laying->route->pieces.at[parent->first + index + (run->connect != NULL ? 1 : 0)];
    double along = port->station - into->piece->station - shift_at(laying, run, index);
    struct frame at = frame_moved(&into->near, 0, along, 0);
    struct duct_size size = tapped_metal(port, into->piece->near ? duct_metal(into->piece->near) : first_size(run));
    bool flat = port->side == SIDE_LEFT || port->side == SIDE_RIGHT;
    double station = into->begins + along;
    struct placed_run begins = *parent;
    begins.free = into->free;
    begins.behind = into->near.along;
    lay_run(laying, tapped, side_frame(&at, port->side, (flat ? size.width : size.height) / 2), begins);
    placed_run(laying, tapped)->tap_station = station;
}

static void lay_leg(struct laying *laying, const struct placed_run *parent, const struct run *leg,
                    const struct frame *begin) {
    const struct placed_piece *split = &laying->route->pieces.at[parent->first + parent->count - 1];
    struct placed_run begins = *parent;
    begins.behind = split->near.along;
    lay_run(laying, leg, topped(begin, begins.behind, first_size(leg)), begins);
}

static void lay_children(struct laying *laying, const struct run *run) {
    struct placed_run *placed = placed_run(laying, run);
    size_t from = 0;
    for (size_t i = 0; i < run->taps.count; i++)
        if (!run->taps.at[i]->faulty && run->taps.at[i]->from.into && !run->taps.at[i]->alternate)
            lay_tap(laying, placed, run->taps.at[i], &from);
    for (int leg = 0; leg < LEG_COUNT; leg++)
        if (run->legs[leg] && placed->has_leg[leg])
            lay_leg(laying, placed, run->legs[leg], &placed->legs[leg]);
    struct placed_run ends = *placed;
    ends.behind = (struct space){0};
    if (run->end)
        lay_run(laying, run->end, placed->end, ends);
}

static struct laying begin_laying(struct arena *arena, const struct job *job, const struct detour *detour) {
    struct laying laying = {.arena = arena, .job = job, .detour = detour};
    laying.route = ARENA_NEW(arena, struct route);
    laying.route->runs = ARENA_ARRAY(arena, struct placed_run, job->runs.count + 1);
    return laying;
}

static void lay_waiting(struct laying *laying) {
    for (size_t i = 0; i < laying->waiting.count; i++)
        lay_children(laying, laying->waiting.at[i]);
}

/* Every piece is placed once, and most fill one stretch. */
static void reserve_pieces(struct laying *laying) {
    size_t pieces = 1;
    for (size_t i = 0; i < laying->job->runs.count; i++)
        pieces += laying->job->runs.at[i]->pieces.count;
    list_reserve(laying->arena, &laying->route->pieces, pieces);
    list_reserve(laying->arena, &laying->route->stretches, pieces);
}

struct route *route_lay(struct arena *arena, const struct job *job) {
    struct laying laying = begin_laying(arena, job, NULL);
    reserve_pieces(&laying);
    for (size_t i = 0; i < job->units.count; i++) {
        const struct air_unit *unit = job->units.at[i];
        if (unit->faulty || !unit->network)
            continue;
        struct placed_run from = {.positioned = unit->position_given, .unit = i};
        if (unit->supply_run)
            lay_run(&laying, unit->supply_run, supply_frame(unit), from);
        if (unit->return_run)
            lay_run(&laying, unit->return_run, return_frame(unit), from);
    }
    lay_waiting(&laying);
    return laying.route;
}

struct route *route_lay_again(struct arena *arena, const struct job *job, const struct route *route,
                              const struct detour *detour) {
    struct laying laying = begin_laying(arena, job, detour);
    const struct placed_run *was = &route->runs[detour->run->id];
    struct placed_run from = *was;
    from.free = false; /* a run that is free from its beginning has no clash */
    laying.route->cabinets.at = route->cabinets.at;
    laying.route->cabinets.count = route->cabinets.count;
    struct frame begin = was->begin;
    begin.origin = space_add(begin.origin, detour->shift);
    lay_run(&laying, detour->run, begin, from);
    placed_run(&laying, detour->run)->tap_station = was->tap_station + detour->on;
    lay_waiting(&laying);
    return laying.route;
}

/* Nearer to plumb than this goes up or down: the cosine of 2.5 degrees.  Chosen here, no source. */
static const double plumb = 0.999;

static bool is_upright(const struct placed_piece *placed) {
    return !placed->free && fabs(placed->near.along.z) > plumb && fabs(placed->far.along.z) > plumb &&
           space_dot(placed->near.along, placed->far.along) > plumb;
}

static void mark_upright(const struct job *job, const struct route *route) {
    for (size_t r = 0; r < job->runs.count; r++) {
        const struct run *run = job->runs.at[r];
        size_t first = route->runs[r].first + (run->connect != NULL ? 1 : 0);
        for (size_t i = 0; route->runs[r].run && i < run->pieces.count; i++)
            run->pieces.at[i]->upright = is_upright(&route->pieces.at[first + i]);
    }
}

void route_place(struct job *job) {
    if (job->incomplete)
        return;
    job->route = route_lay(job->arena, job);
    mark_upright(job, job->route);
    route_cabinets(job->arena, job, job->route);
    route_clashes(job->arena, job, job->route);
    route_clear(job, job->route);
}

const struct placed_run *route_of(const struct job *job, const struct run *run) {
    if (!job->route || run->alternate || !job->route->runs[run->id].run)
        return NULL;
    return &job->route->runs[run->id];
}
