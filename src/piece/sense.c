/* What a piece was given, and whether it makes sense. */
#include <math.h>
#include <string.h>

#include "piece/common.h"

/* No side of a duct, face or box in a building is longer; as for ducts elsewhere: common practice, no source. */
static const double longest_side = 20 * FOOT;

void piece_error(struct piece *piece, struct diagnostics *diagnostics, struct span at, const char *hint,
                 const char *format, ...) {
    va_list list;
    va_start(list, format);
    const char *message = arena_format_list(diagnostics->arena, format, list);
    va_end(list);
    struct diagnostic *error = diagnose(diagnostics, DIAGNOSTIC_ERROR, "piece", at, "%s", message);
    if (hint)
        diagnostic_hint(diagnostics, error, "%s", hint);
    piece->reading.faulty = true;
}

const struct argument *piece_argument(const struct piece *piece, int slot) {
    static const struct argument nothing = {0};
    return piece->reading.argument ? &piece->reading.argument[slot] : &nothing;
}

bool piece_given(const struct piece *piece, int slot) {
    return piece_argument(piece, slot)->given;
}

double piece_number(const struct piece *piece, int slot, double otherwise) {
    return piece_given(piece, slot) ? piece_argument(piece, slot)->number : otherwise;
}

int piece_choice(const struct piece *piece, int slot, int otherwise) {
    return piece_given(piece, slot) ? piece_argument(piece, slot)->choice : otherwise;
}

static const char *written(struct arena *arena, struct span at) {
    return at.text ? arena_format(arena, "%.*s", (int)(at.end - at.begin), at.text->bytes + at.begin) : "";
}

const char *piece_written(const struct piece *piece, int slot, struct arena *arena) {
    return written(arena, piece_argument(piece, slot)->at);
}

bool piece_sensible(struct piece *piece, struct diagnostics *diagnostics, int slot, const struct sense *sense) {
    const struct argument *argument = piece_argument(piece, slot);
    /* A limit still holds for a figure that lost its last digit on the way to SI. */
    double slack = 1e-9 * fmax(1, fabs(sense->high));
    if (!argument->given || (argument->number >= sense->low - slack && argument->number <= sense->high + slack))
        return true;
    piece_error(piece, diagnostics, argument->at, sense->hint, "expected %s, not '%s'", sense->expected,
                written(diagnostics->arena, argument->at));
    return false;
}

bool piece_whole(struct piece *piece, struct diagnostics *diagnostics, int slot, const struct sense *sense) {
    const struct argument *argument = piece_argument(piece, slot);
    if (!piece_sensible(piece, diagnostics, slot, sense))
        return false;
    if (!argument->given || argument->number == floor(argument->number))
        return true;
    piece_error(piece, diagnostics, argument->at, sense->hint, "expected a whole number: %s, not '%s'", sense->expected,
                written(diagnostics->arena, argument->at));
    return false;
}

bool piece_size_sensible(struct piece *piece, struct diagnostics *diagnostics, int slot, int dimensions,
                         const char *hint) {
    const struct argument *argument = piece_argument(piece, slot);
    if (!argument->given)
        return true;
    bool round = argument->text && strcmp(argument->text, "round") == 0;
    if (argument->count > dimensions || (argument->text && round != (argument->count == 1))) {
        piece_error(piece, diagnostics, argument->at, hint,
                    "this size has %d dimensions: expected a width and a height, or one diameter", argument->count);
        return false;
    }
    for (int i = 0; i < argument->count; i++)
        if (!(argument->point[i] >= MORE_THAN_NOTHING && argument->point[i] <= longest_side)) {
            piece_error(piece, diagnostics, argument->at, hint, "expected sides of more than 0, 20 ft (6.1 m) at most");
            return false;
        }
    return true;
}

struct duct_size piece_size(const struct piece *piece, int slot) {
    const struct argument *argument = piece_argument(piece, slot);
    struct duct_size size = {0};
    if (!argument->given)
        return size;
    size.width = argument->point[0];
    size.height = argument->count > 1 ? argument->point[1] : argument->point[0];
    size.shape = argument->count == 1 ? SHAPE_ROUND : SHAPE_RECTANGULAR;
    if (argument->count > 1 && argument->text && strcmp(argument->text, "oval") == 0)
        size.shape = SHAPE_OVAL;
    return size;
}

const char *piece_figure(struct arena *arena, double number) {
    return arena_format(arena, "%.6g", number);
}

const char *piece_size_figures(const struct piece *piece, int slot, enum measure_system system, struct arena *arena) {
    const struct argument *size = piece_argument(piece, slot);
    if (!size->given)
        return NULL;
    if (size->count < 3)
        return size_figures(arena, system, piece_size(piece, slot));
    const char *side[3];
    for (int i = 0; i < 3; i++)
        side[i] = piece_figure(arena, size->point[i] / measure_show(system, SHOW_SIZE)->factor);
    return arena_format(arena, "%s x %s x %s", side[0], side[1], side[2]);
}

const char *piece_size_words(const struct piece *piece, int slot, enum measure_system system, struct arena *arena) {
    const struct argument *size = piece_argument(piece, slot);
    if (!size->given)
        return NULL;
    if (size->count < 3)
        return size_text(arena, system, piece_size(piece, slot));
    return arena_format(arena, "%s %s", piece_size_figures(piece, slot, system, arena),
                        measure_show(system, SHOW_SIZE)->unit);
}
