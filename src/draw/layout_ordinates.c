/* Story sticks: marks along one edge, all measured from its one end, their texts spread so
 * that none lies on another. */
#include "draw/layout.h"

#include <math.h>

static const double first_level = 8, level_step = 6; /* pt: where the leaders bend */
static const double jog_least = 6, jog_most = 36;    /* pt: how far out a leader takes to reach its text */
static const double between = 1.5;                   /* pt between two texts */
static const double tick = 4;                        /* pt: what a mark without a text has instead of a leader */

enum { LEVELS_MOST = 400 };

/* One text of a stick. */
struct rung {
    double at;     /* pt from the origin to the mark */
    double spread; /* pt from the origin to the text's middle */
    struct sheet_letters letters;
};

struct stick {
    const struct figure_ordinates *ordinates;
    struct spot origin, along, out; /* on the sheet; unit vectors */
    struct spot reading;            /* the direction of the texts */
    LIST(struct rung) rungs;
    double pitch; /* pt from text to text, at least */
};

static struct spot place(const struct stick *stick, double along, double out) {
    return (struct spot){stick->origin.x + along * stick->along.x + out * stick->out.x,
                         stick->origin.y + along * stick->along.y + out * stick->out.y};
}

static struct stick new_stick(const struct layout *layout, const struct figure_ordinates *ordinates) {
    struct stick stick = {.ordinates = ordinates, .origin = layout_spot(layout, ordinates->origin)};
    double sign = ordinates->back ? -1 : 1;
    bool across = ordinates->side <= FIGURE_BELOW;
    stick.along = across ? (struct spot){sign, 0} : (struct spot){0, -sign};
    stick.reading = across ? (struct spot){0, -1} : (struct spot){1, 0};
    stick.out = ordinates->side == FIGURE_ABOVE   ? (struct spot){0, -1}
                : ordinates->side == FIGURE_BELOW ? (struct spot){0, 1}
                : ordinates->side == FIGURE_LEFT  ? (struct spot){-1, 0}
                                                  : (struct spot){1, 0};
    return stick;
}

/* ---- Texts ------------------------------------------------------------------------------------------------------- */

static void add_rung(struct layout *layout, struct stick *stick, double at, const char *text, enum letter_size size) {
    struct rung *rung = list_add(layout->arena, &stick->rungs);
    rung->at = rung->spread = at;
    rung->letters = letters_of(layout, text, size, 0);
    stick->pitch = fmax(stick->pitch, 2 * rung->letters.box.half_height + between);
}

static void clear_rungs(struct stick *stick) {
    stick->rungs.count = 0;
    stick->pitch = 0;
}

/* All texts, in letters of `size`; false when they have no room beside the edge. */
static bool write_texts(struct layout *layout, struct stick *stick, enum letter_size size) {
    const struct figure_ordinates *ordinates = stick->ordinates;
    clear_rungs(stick);
    add_rung(layout, stick, 0, ordinates->zero, size);
    for (size_t i = 0; i < ordinates->marks.count; i++)
        add_rung(layout, stick, ordinates->marks.at[i].distance * layout->scale, ordinates->marks.at[i].text, size);
    double length = stick->rungs.at[stick->rungs.count - 1].at;
    return (double)stick->rungs.count * stick->pitch <= fmax(layout->room, 1.25 * length);
}

/* Steps for counting: 1, 2, 5, 10, 20, 50 ... */
static size_t next_step(size_t step) {
    size_t unit = 1;
    while (unit * 10 <= step)
        unit *= 10;
    return step / unit == 2 ? unit * 5 : step * 2;
}

/* Too many for their texts: numbers at every so manieth mark, and the texts in the list under the drawing. */
static void write_numbers(struct layout *layout, struct stick *stick) {
    const struct figure_ordinates *ordinates = stick->ordinates;
    double length = ordinates->marks.at[ordinates->marks.count - 1].distance * layout->scale;
    double pitch = stick->pitch, room = fmax(layout->room, 1.25 * length);
    size_t step = 1, shown = ordinates->marks.count;
    while ((double)(shown + 1) * pitch > room) {
        step = next_step(step);
        shown = ordinates->marks.count / step;
    }
    clear_rungs(stick);
    add_rung(layout, stick, 0, ordinates->zero, LETTER_SMALL);
    for (size_t i = 0; i < ordinates->marks.count; i++) {
        const struct figure_mark *mark = &ordinates->marks.at[i];
        *list_add(layout->arena, &layout->list) = arena_format(layout->arena, "mark %zu: %s", i + 1, mark->text);
        if ((i + 1) % step == 0)
            add_rung(layout, stick, mark->distance * layout->scale, arena_format(layout->arena, "%zu", i + 1),
                     LETTER_SMALL);
        else
            layout_line(layout, STROKE_THIN, place(stick, mark->distance * layout->scale, 0),
                        place(stick, mark->distance * layout->scale, tick));
    }
}

/* ---- Spreading --------------------------------------------------------------------------------------------------- */

/* Neighbours that touch, as one. */
struct block {
    size_t first, count;
    double sum; /* of where each text wants the block to begin */
};

static double begin(const struct block *block) {
    return block->sum / (double)block->count;
}

/* Moves each text as little as possible, in the sense of least squares, so that all stand a pitch apart: neighbours
 * that would overlap are pooled, and a pool stands where its members want it on average. */
static void spread(struct layout *layout, struct stick *stick) {
    struct block *blocks = ARENA_ARRAY(layout->arena, struct block, stick->rungs.count);
    size_t count = 0;
    for (size_t i = 0; i < stick->rungs.count; i++) {
        blocks[count] = (struct block){.first = i, .count = 1, .sum = stick->rungs.at[i].at};
        count++;
        while (count > 1) {
            struct block *last = &blocks[count - 1], *previous = last - 1;
            double taken = (double)previous->count * stick->pitch;
            if (begin(previous) + taken <= begin(last))
                break;
            previous->sum += last->sum - (double)last->count * taken;
            previous->count += last->count;
            count--;
        }
    }
    for (size_t b = 0; b < count; b++)
        for (size_t i = 0; i < blocks[b].count; i++)
            stick->rungs.at[blocks[b].first + i].spread = begin(&blocks[b]) + (double)i * stick->pitch;
}

/* ---- Placing ----------------------------------------------------------------------------------------------------- */

static double jog_of(const struct stick *stick) {
    double farthest = 0;
    for (size_t i = 0; i < stick->rungs.count; i++)
        farthest = fmax(farthest, fabs(stick->rungs.at[i].spread - stick->rungs.at[i].at));
    return fmin(fmax(farthest / 2, jog_least), jog_most);
}

static bool texts_free(struct layout *layout, struct stick *stick, double out) {
    bool free = true;
    for (size_t i = 0; i < stick->rungs.count; i++) {
        struct rung *rung = &stick->rungs.at[i];
        rung->letters.box.along = stick->reading;
        rung->letters.box.centre = place(stick, rung->spread, out + 3 * TEXT_MARGIN + rung->letters.box.half_width);
        free = free && layout_is_free(layout, rung->letters.box);
    }
    return free;
}

static void draw(struct layout *layout, const struct stick *stick, double level, double jog) {
    static const double zero_ring = 2.2; /* pt: shows the end that is measured from */
    for (size_t i = 0; i < stick->rungs.count; i++)
        layout_letters(layout, stick->rungs.at[i].letters);
    for (size_t i = 0; i < stick->rungs.count; i++) {
        const struct rung *rung = &stick->rungs.at[i];
        struct spot bend = place(stick, rung->at, level), end = place(stick, rung->spread, level + jog);
        layout_clear_line(layout, place(stick, rung->at, 0), bend);
        layout_clear_line(layout, bend, end);
    }
    layout_ring(layout, stick->origin, zero_ring, SHADE_WHITE);
}

static void lay_stick(struct layout *layout, const struct figure_ordinates *ordinates) {
    struct stick stick = new_stick(layout, ordinates);
    if (!write_texts(layout, &stick, LETTER_PLAIN) && !write_texts(layout, &stick, LETTER_SMALL))
        write_numbers(layout, &stick);
    spread(layout, &stick);
    double jog = jog_of(&stick);
    double low = (layout->low.x - stick.origin.x) * stick.out.x + (layout->low.y - stick.origin.y) * stick.out.y;
    double high = (layout->high.x - stick.origin.x) * stick.out.x + (layout->high.y - stick.origin.y) * stick.out.y;
    double level = fmax(0, fmax(low, high)) + first_level;
    int tried = 0;
    while (!texts_free(layout, &stick, level + jog) && ++tried < LEVELS_MOST)
        level += level_step;
    if (tried < LEVELS_MOST) {
        draw(layout, &stick, level, jog);
        return;
    }
    for (size_t i = 0; i < ordinates->marks.count; i++)
        layout_balloon(layout, ordinates->marks.at[i].text,
                       place(&stick, ordinates->marks.at[i].distance * layout->scale, 0));
}

void layout_ordinates(struct layout *layout) {
    for (size_t i = 0; i < layout->figure->ordinates.count; i++)
        lay_stick(layout, &layout->figure->ordinates.at[i]);
}
