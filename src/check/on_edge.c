/* Duct that comes to lie level on its edge: out of duct that goes up or down, by its left or right. */
#include <math.h>
#include <string.h>

#include "check/checks.h"
#include "model/directions.h"
#include "model/lined.h"
#include "route/route.h"

/* The cosine of half a right angle, nearly: leaned over by less, duct still lies on its side.  Chosen here, no source.
 */
static const double half_over = 0.7;

static bool stands_on_edge(const struct frame *frame, struct duct_size size) {
    return size_known(size) && size.shape != SHAPE_ROUND && fabs(size.width - size.height) > 1e-6 &&
           fabs(frame->up.z) < half_over;
}

/* The nearest of north, east, south, west. */
static const char *compass_word(struct space way) {
    bool east_west = fabs(way.x) >= fabs(way.y);
    return east_west ? axis_word(0, way.x <= 0) : axis_word(1, way.y <= 0);
}

static void say(const struct look *look, const struct placed_piece *from, const struct frame *frame,
                struct duct_size size) {
    const struct run *run = from->run;
    struct diagnostic *said = check_warn(look, from->piece->implied ? run->from.at : from->piece->at, run->name,
                                         "%s goes level on its edge from here, %s high and %s wide: its top looks %s",
                                         check_name(look, run), check_text(look->job, SHOW_SIZE, size.width),
                                         check_text(look->job, SHOW_SIZE, size.height), compass_word(frame->up));
    const struct air_unit *unit = run->unit;
    if (unit && unit->faces && (strcmp(unit->faces, "up") == 0 || strcmp(unit->faces, "down") == 0))
        diagnostic_relate(look->job->diagnostics, said, unit->at,
                          "up and down out of its duct leave it flat: `front` says which way those lead");
}

/* Whether it comes to go level by that piece. */
static bool comes_level(const struct placed_run *placed, const struct placed_piece *piece, bool first) {
    struct space before = first && !route_level(placed->behind) ? placed->behind : piece->near.along;
    return route_level(piece->far.along) && !route_level(before);
}

static void look_at(const struct look *look, const struct placed_run *placed) {
    const struct placed_piece *from = NULL, *all = look->job->route->pieces.at;
    for (size_t i = placed->first; i < placed->first + placed->count && !all[i].free; i++) {
        const struct placed_piece *piece = &all[i];
        struct duct_size size = duct_metal(piece->piece->near);
        if (!route_level(piece->near.along))
            from = NULL; /* duct that goes up or down stands on no edge */
        if (from && piece->piece->length > 0 && stands_on_edge(&piece->near, size)) {
            say(look, from, &piece->near, size);
            return;
        }
        if (!comes_level(placed, piece, i == placed->first))
            continue;
        from = piece;
        look->result->looked_at++;
    }
}

void check_on_edge(const struct look *look) {
    const struct job *job = look->job;
    for (size_t i = 0; job->route && i < job->runs.count; i++) {
        const struct placed_run *placed = route_of(job, job->runs.at[i]);
        if (!placed || check_stands_in(job, placed->run->first_duct))
            continue;
        look_at(look, placed);
    }
}
