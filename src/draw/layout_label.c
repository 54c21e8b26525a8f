/* Labels: each on the nearest free place, with a leader when that is not beside what it names. */
#include "draw/layout.h"

#include <math.h>
#include <string.h>

#include "base/constant.h"

static const double wrap = 150; /* pt: longer labels are broken into lines */

/* Where a label is tried: so far from its place, the first few without a leader. */
static const double rings[] = {2.5, 5, 8, 13, 19, 26, 34, 44, 56, 70, 90, 115, 145};
enum { RINGS = sizeof rings / sizeof *rings, RINGS_BESIDE = 3, DIRECTIONS = 16 };

/* Beside a place, with the wish that a direction fulfils. */
static const struct {
    enum toward toward;
    double x, y;
} beside[] = {
    {TOWARD_HERE, 0, 0},      {TOWARD_RIGHT, 1, 0},    {TOWARD_UP, 0, -1},
    {TOWARD_LEFT, -1, 0},     {TOWARD_DOWN, 0, 1},     {TOWARD_CORNERS, 1, -1},
    {TOWARD_CORNERS, -1, -1}, {TOWARD_CORNERS, -1, 1}, {TOWARD_CORNERS, 1, 1},
};
enum { BESIDE = sizeof beside / sizeof *beside };

/* The box `away` from `at`: (1, 0) has its left side there, (1, -1) its corner. */
static struct sheet_box box_at(struct sheet_box box, struct spot at, struct spot direction, double away) {
    box.centre =
        (struct spot){at.x + direction.x * (away + box.half_width), at.y + direction.y * (away + box.half_height)};
    return box;
}

/* ---- At a place -------------------------------------------------------------------------------------------------- */

/* On the place itself a text covers the very place that others keep free for its leader. */
static bool is_free(struct layout *layout, struct sheet_box box, enum toward toward) {
    if (toward != TOWARD_HERE)
        return layout_is_free(layout, box);
    return !obstacles_meet_box(layout->obstacles, box_grown(box, TEXT_MARGIN), OBSTACLE_LINE | OBSTACLE_TEXT);
}

/* Balloons are small and may stand anywhere; a text that is longer than the whole has to. */
static bool is_within(const struct layout *layout, struct sheet_box box) {
    return 2 * box.half_width > layout->right - layout->left ||
           (box.centre.x - box.half_width >= layout->left && box.centre.x + box.half_width <= layout->right);
}

static bool try_beside(struct layout *layout, struct sheet_letters *letters, struct spot at, unsigned toward) {
    for (int ring = 0; ring < RINGS_BESIDE; ring++)
        for (int i = 0; i < BESIDE; i++) {
            struct sheet_box box = box_at(letters->box, at, (struct spot){beside[i].x, beside[i].y}, rings[ring]);
            if ((beside[i].toward & toward) && is_within(layout, box) && is_free(layout, box, beside[i].toward)) {
                letters->box = box;
                return true;
            }
        }
    return false;
}

/* A direction of the compass, stretched so that the greater part of it is 1. */
static struct spot direction_of(int i) {
    double angle = 2 * PI * i / DIRECTIONS, x = cos(angle), y = -sin(angle), most = fmax(fabs(x), fabs(y));
    return (struct spot){x / most, y / most};
}

/* Where a leader from `at` ends: a little off an upright box, or at the ring of a balloon. */
static struct spot leader_end(struct sheet_box box, struct spot at, bool balloon) {
    double apart = hypot(at.x - box.centre.x, at.y - box.centre.y);
    if (balloon)
        return (struct spot){box.centre.x + box.half_width * (at.x - box.centre.x) / apart,
                             box.centre.y + box.half_width * (at.y - box.centre.y) / apart};
    double half_width = box.half_width + 2 * TEXT_MARGIN, half_height = box.half_height + 2 * TEXT_MARGIN;
    return (struct spot){fmin(fmax(at.x, box.centre.x - half_width), box.centre.x + half_width),
                         fmin(fmax(at.y, box.centre.y - half_height), box.centre.y + half_height)};
}

/* A place with a leader, and what that costs: how far off it is, and what its leader passes. */
struct led {
    struct sheet_box box;
    struct spot at;
    double cost; /* pt */
};

/* So much farther off a label had better stand than have its leader pass a line more; the edge of what it names is
 * passed by each.  By look. */
static const double passing = 12; /* pt */

static void try_ring(struct layout *layout, struct sheet_box box, struct spot at, double away, struct led *best) {
    for (int i = 0; i < DIRECTIONS; i++) {
        struct sheet_box tried = box_at(box, at, direction_of(i), away);
        struct spot end = leader_end(tried, at, false);
        if (!is_within(layout, tried) || !layout_is_free(layout, box_grown(tried, 2 * TEXT_MARGIN)) ||
            obstacles_meet_line(layout->obstacles, at, end))
            continue;
        size_t passed = obstacles_lines_passed(layout->obstacles, at, end);
        double cost = away + (passed > 1 ? passing * (double)(passed - 1) : 0);
        if (cost < best->cost)
            *best = (struct led){tried, at, cost};
    }
}

/* The best from `at`, where that is better than what is found already. */
static void find_led(struct layout *layout, struct sheet_box box, struct spot at, struct led *best) {
    for (int ring = RINGS_BESIDE; ring < RINGS && rings[ring] < best->cost; ring++)
        try_ring(layout, box, at, rings[ring], best);
}

static void draw_dot(struct layout *layout, struct spot at) {
    static const double radius = 1.1; /* pt */
    struct sheet_box around = {.centre = at, .along = {1, 0}, .half_width = radius, .half_height = radius};
    if (!obstacles_meet_box(layout->obstacles, around, OBSTACLE_TEXT))
        layout_ring(layout, at, radius, SHADE_INK);
}

static void draw_leader(struct layout *layout, struct spot at, struct spot end) {
    layout_clear_line(layout, at, end);
    draw_dot(layout, at);
}

/* With a leader to one of the places. */
static bool lay_led(struct layout *layout, struct sheet_letters letters, const struct spot *places, size_t count) {
    struct led best = {.cost = INFINITY};
    for (size_t i = 0; i < count; i++)
        find_led(layout, letters.box, places[i], &best);
    if (isinf(best.cost))
        return false;
    letters.box = best.box;
    layout_letters(layout, letters);
    draw_leader(layout, best.at, leader_end(best.box, best.at, false));
    return true;
}

static bool lay_near(struct layout *layout, struct sheet_letters letters, struct spot at, unsigned toward) {
    if (try_beside(layout, &letters, at, toward) || try_beside(layout, &letters, at, ~(unsigned)TOWARD_HERE)) {
        layout_letters(layout, letters);
        if (toward & TOWARD_DOT)
            draw_dot(layout, at);
        return true;
    }
    return lay_led(layout, letters, &at, 1);
}

/* ---- Texts that have their place --------------------------------------------------------------------------------- */

/* Of `text` what fits the room, with dots behind it; never the half of a letter. */
static struct sheet_letters letters_cut(struct layout *layout, const char *text, enum letter_size size, double room) {
    struct sheet_letters letters = letters_of(layout, text, size, 0);
    size_t fits = 0, over = strlen(text);
    if (room <= 0 || 2 * letters.box.half_width <= room)
        return letters;
    while (over - fits > 1) {
        size_t middle = fits + (over - fits) / 2, end = middle;
        while (end > fits && ((unsigned char)text[end] & 0xC0) == 0x80)
            end--;
        const char *cut = arena_format(layout->arena, "%.*s…", (int)end, text);
        bool small = end > fits && 2 * letters_of(layout, cut, size, 0).box.half_width <= room;
        if (small)
            fits = end;
        else
            over = middle;
    }
    return letters_of(layout, arena_format(layout->arena, "%.*s…", (int)fits, text), size, 0);
}

static void lay_text(struct layout *layout, const struct figure_label *label) {
    struct sheet_letters letters = letters_cut(layout, label->text, label->size, label->room * layout->scale);
    letters.box.centre = layout_spot(layout, label->from);
    if (label->toward & TOWARD_RIGHT)
        letters.box.centre.x += letters.box.half_width;
    if (label->toward & TOWARD_LEFT)
        letters.box.centre.x -= letters.box.half_width;
    layout_letters(layout, letters);
}

/* ---- Bands ------------------------------------------------------------------------------------------------------- */

/* Level, at the right or left of a band that goes up more than aside. */
static bool lay_abreast(struct layout *layout, struct sheet_letters letters, struct spot from, struct spot to,
                        double half) {
    double aside = fabs(to.x - from.x), up = fabs(to.y - from.y);
    if (up < fmax(0.99 * aside, 2 * letters.box.half_height))
        return false;
    double away = (half * hypot(aside, up) + letters.box.half_height * aside) / up;
    for (size_t i = 0; i < LAYOUT_SHARES; i++)
        for (int side = 1; side >= -1; side -= 2) {
            struct sheet_box box = box_at(letters.box, layout_share(from, to, i), (struct spot){side, 0},
                                          away + LAYOUT_CLEAR + TEXT_MARGIN);
            if (is_within(layout, box) && layout_is_free(layout, box)) {
                letters.box = box;
                layout_letters(layout, letters);
                return true;
            }
        }
    return false;
}

/* In it or beside it, no longer than it is: else it would seem to name what lies behind its end, and has a leader. */
static bool lay_band(struct layout *layout, const struct figure_label *label, struct spot from, struct spot to) {
    double half = label->half * layout->scale;
    struct sheet_letters letters = letters_of(layout, label->text, label->size, 0);
    if (lay_abreast(layout, letters, from, to, half) || layout_off(layout, letters, from, to, 0) ||
        layout_along(layout, letters, from, to) ||
        layout_off(layout, letters, from, to, half + letters.box.half_height + LAYOUT_CLEAR))
        return true;
    struct spot places[LAYOUT_SHARES];
    for (size_t i = 0; i < LAYOUT_SHARES; i++)
        places[i] = layout_share(from, to, i);
    return lay_led(layout, letters_of(layout, label->text, label->size, wrap), places, LAYOUT_SHARES);
}

/* ---- Letters ----------------------------------------------------------------------------------------------------- */

/* The letter that stands, or would stand, for `text`: "a" ... "z", "a1" ... */
static const char *letter_for(struct layout *layout, const char *text) {
    size_t at = 0;
    while (at < layout->told.count && strcmp(layout->told.at[at], text) != 0)
        at++;
    char letter = (char)('a' + at % 26);
    return at < 26 ? arena_format(layout->arena, "%c", letter) : arena_format(layout->arena, "%c%zu", letter, at / 26);
}

/* Explains the letter in the list under the drawing, once. */
static void tell(struct layout *layout, const char *letter, const char *text) {
    for (size_t i = 0; i < layout->told.count; i++)
        if (strcmp(layout->told.at[i], text) == 0)
            return;
    *list_add(layout->arena, &layout->told) = text;
    *list_add(layout->arena, &layout->list) = arena_format(layout->arena, "%s: %s", letter, text);
}

/* ---- Balloons ---------------------------------------------------------------------------------------------------- */

/* The directions that a balloon's leader may take, and how far each is known to meet no text. */
struct leaders {
    struct spot clear[DIRECTIONS];
    bool blocked[DIRECTIONS]; /* a text stands in the way of all that is farther out */
};

/* A ring of balloons, `away` from its place.  Each direction's leader lies in that of the ring before it.  Over texts a
 * leader is broken: `over` allows that. */
static bool try_balloons(struct layout *layout, struct sheet_box *ring, struct spot at, double away, bool over,
                         struct leaders *leaders) {
    for (int i = 0; i < DIRECTIONS; i++) {
        if (leaders->blocked[i])
            continue;
        struct sheet_box tried = box_at(*ring, at, direction_of(i), away);
        struct spot end = leader_end(tried, at, true);
        leaders->blocked[i] = !over && obstacles_meet_line(layout->obstacles, leaders->clear[i], end);
        leaders->clear[i] = end;
        if (!leaders->blocked[i] && layout_is_free(layout, box_grown(tried, 2 * TEXT_MARGIN))) {
            *ring = tried;
            return true;
        }
    }
    return false;
}

static bool find_balloon(struct layout *layout, struct sheet_box *ring, struct spot at, bool over) {
    static const double farther = 1.25; /* from ring to ring */
    struct leaders leaders = {0};
    struct spot low, high;
    layout_bounds(layout, &low, &high);
    for (int i = 0; i < DIRECTIONS; i++)
        leaders.clear[i] = at;
    double farthest = high.x - low.x + high.y - low.y + rings[RINGS - 1];
    double away = rings[RINGS_BESIDE];
    while (away < farthest && !try_balloons(layout, ring, at, away, over, &leaders))
        away *= farther;
    return away < farthest;
}

void layout_balloon(struct layout *layout, const char *text, struct spot at) {
    static const double radius = 7; /* pt */
    const char *letter = letter_for(layout, text);
    struct sheet_letters letters = letters_of(layout, letter, LETTER_SMALL, 0);
    struct sheet_box ring = letters.box;
    ring.half_width = ring.half_height = fmax(radius, letters.box.half_width + 2);
    if (!find_balloon(layout, &ring, at, false) && !find_balloon(layout, &ring, at, true)) {
        *list_add(layout->arena, &layout->list) = text;
        return;
    }
    letters.box.centre = ring.centre;
    layout_letters(layout, letters);
    layout_ring(layout, ring.centre, ring.half_width, SHADE_NONE);
    draw_leader(layout, at, leader_end(ring, at, true));
    tell(layout, letter, text);
}

/* ---- All --------------------------------------------------------------------------------------------------------- */

static bool is_line(const struct figure_label *label) {
    return label->from.x != label->to.x || label->from.y != label->to.y;
}

static bool is_fixed(const struct figure_label *label) {
    return label->toward & TOWARD_FIXED;
}

/* Where a leader to this label would begin. */
static struct spot place_of(const struct layout *layout, const struct figure_label *label) {
    struct spot middle = {(label->from.x + label->to.x) / 2, (label->from.y + label->to.y) / 2};
    return layout_spot(layout, middle);
}

static void lay_label(struct layout *layout, const struct figure_label *label) {
    const char *text = label->text;
    struct spot from = layout_spot(layout, label->from), to = layout_spot(layout, label->to);
    if (label->half > 0) {
        if (!lay_band(layout, label, from, to))
            layout_balloon(layout, text, place_of(layout, label));
        return;
    }
    if (layout_along(layout, letters_of(layout, text, label->size, 0), from, to))
        return;
    struct sheet_letters whole = letters_of(layout, text, label->size, 0);
    if (label->briefly && !is_line(label) && try_beside(layout, &whole, from, ~0U)) {
        layout_letters(layout, whole);
        return;
    }
    if (label->briefly) {
        const char *letter = letter_for(layout, text);
        tell(layout, letter, text);
        text = letter;
        if (layout_along(layout, letters_of(layout, text, label->size, 0), from, to))
            return;
    }
    struct sheet_letters letters = letters_of(layout, text, label->size, wrap);
    if (!lay_near(layout, letters, place_of(layout, label), label->toward))
        layout_balloon(layout, text, place_of(layout, label));
}

/* A radius is named along its line, or near its arc. */
static void lay_radius_text(struct layout *layout, const struct figure_radius *radius) {
    struct spot centre = layout_spot(layout, radius->centre), on = layout_spot(layout, radius->on);
    struct sheet_letters letters = letters_of(layout, radius->text, LETTER_PLAIN, 0);
    if (radius->located && layout_along(layout, letters, centre, on))
        return;
    if (!lay_near(layout, letters_of(layout, radius->text, LETTER_PLAIN, wrap), on, 0))
        layout_balloon(layout, radius->text, on);
}

static void keep_place(struct layout *layout, struct spot place) {
    static const double half = 0.8; /* pt: less than any label keeps from its own place */
    struct sheet_box box = {.centre = place, .along = {1, 0}, .half_width = half, .half_height = half};
    obstacles_add_box(layout->obstacles, box, OBSTACLE_PLACE);
}

void layout_labels(struct layout *layout) {
    const struct figure *figure = layout->figure;
    for (size_t i = 0; i < figure->labels.count; i++) {
        if (is_fixed(&figure->labels.at[i]))
            lay_text(layout, &figure->labels.at[i]);
        else
            keep_place(layout, place_of(layout, &figure->labels.at[i]));
    }
    for (size_t i = 0; i < figure->radii.count; i++)
        lay_radius_text(layout, &figure->radii.at[i]);
    for (int lines = 1; lines >= 0; lines--) /* along a line there are fewer places to choose from */
        for (size_t i = 0; i < figure->labels.count && !layout_outgrown(layout); i++)
            if (is_line(&figure->labels.at[i]) == lines && !is_fixed(&figure->labels.at[i]))
                lay_label(layout, &figure->labels.at[i]);
}
