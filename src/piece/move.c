/* Far ends that stand aside of the near one: what says so, in four slots, and what it costs. */
#include <math.h>

#include "piece/bend.h"
#include "piece/common.h"

static const struct sense move_sense = {
    .low = MORE_THAN_NOTHING,
    .high = 100 * FOOT, /* as of an offset: common practice, no source */
    .expected = "an end moved by more than 0, 100 ft (30 m) at most",
};

/* Both ways of one axis, the first of them in `slot`: only one may be given. */
static bool one_way(struct piece *piece, struct diagnostics *diagnostics, int slot, const char *hint) {
    if (!piece_given(piece, slot) || !piece_given(piece, slot + 1))
        return true;
    const struct slot *slots = piece->kind->form.slots;
    piece_error(piece, diagnostics, piece_argument(piece, slot + 1)->at, hint,
                "an end does not move %s and %s at once: expected one or the other", slots[slot].key,
                slots[slot + 1].key);
    return false;
}

bool piece_move_sensible(struct piece *piece, struct diagnostics *diagnostics, int first, const char *hint) {
    struct sense sense = move_sense;
    sense.hint = hint;
    for (int way = WAY_LEFT; way <= WAY_DOWN; way++)
        if (!piece_sensible(piece, diagnostics, first + way, &sense))
            return false;
    return one_way(piece, diagnostics, first + WAY_LEFT, hint) && one_way(piece, diagnostics, first + WAY_UP, hint);
}

const struct argument *piece_move_given(const struct piece *piece, int first, enum way from, enum way to) {
    for (int way = (int)from; way <= (int)to; way++)
        if (piece_given(piece, first + way))
            return piece_argument(piece, first + way);
    return NULL;
}

struct move piece_move(const struct piece *piece, int first) {
    return (struct move){
        .right = piece_number(piece, first + WAY_RIGHT, 0) - piece_number(piece, first + WAY_LEFT, 0),
        .up = piece_number(piece, first + WAY_UP, 0) - piece_number(piece, first + WAY_DOWN, 0),
    };
}

const char *piece_move_words(const struct piece *piece, int first, enum measure_system system, struct arena *arena) {
    const char *words = "";
    for (int way = WAY_LEFT; way <= WAY_DOWN; way++)
        if (piece_given(piece, first + way))
            words = arena_format(arena, "%s%s %s %s", words, *words ? " and" : ", moved",
                                 measure_text(arena, system, SHOW_CUT, piece_number(piece, first + way, 0)),
                                 way_words[way]);
    return words;
}

const char *piece_move_line(const struct piece *piece, int first, enum measure_system system, struct arena *arena) {
    const char *line = "";
    for (int way = WAY_LEFT; way <= WAY_DOWN; way++)
        if (piece_given(piece, first + way))
            line = arena_format(arena, "%s, %s %s", line, way_words[way],
                                measure_text(arena, system, SHOW_CUT, piece_number(piece, first + way, 0)));
    return line;
}

/* The table of the mitre ends at 20 degrees; below, its factor stays as it is there and Weisbach's law goes to 0, which
 * is near enough for what is the nearest relation only, so that nothing is said of it. */
struct coefficient move_coefficient(struct trace *trace, struct move move, double length, struct duct_size size) {
    bool across = fabs(move.right) >= fabs(move.up);
    double aside = hypot(move.right, move.up);
    if (!(aside > 0))
        return (struct coefficient){0};
    TRACE(trace, TRACE_LENGTH, "How far its end is aside", "s", "sqrt(across^2 + up^2)", aside, SOURCE_NONE,
          trace_of(TRACE_LENGTH, "across", fabs(move.right)), trace_of(TRACE_LENGTH, "up", fabs(move.up)));
    double angle = atan2(aside, length);
    TRACE(trace, TRACE_ANGLE, "Angle of the step aside", "a", "atan(s / L)", angle, SOURCE_NONE,
          trace_of(TRACE_LENGTH, "s", aside), trace_of(TRACE_LENGTH, "L", length));
    double value = fitting_two_mitres(trace, angle, bend_aspect(size, across ? WAY_LEFT : WAY_UP)).value;
    return (struct coefficient){.value = value};
}
