/* Where a blank lies: turned so that its box is small, moved to the corner; and which blanks are alike. */
#include <stdlib.h>

#include "metal/blank.h"

/* ---- A motion of the plane --------------------------------------------------------------------------------------- */

struct motion {
    double cosine, sine;
    struct flat shift;
    bool over; /* turned over first (y to -y) */
};

static struct flat moved(const struct motion *motion, struct flat point) {
    if (motion->over)
        point.y = -point.y;
    return (struct flat){point.x * motion->cosine - point.y * motion->sine + motion->shift.x,
                         point.x * motion->sine + point.y * motion->cosine + motion->shift.y};
}

static void move_points(const struct motion *motion, struct flat *points, size_t count) {
    for (size_t i = 0; i < count; i++)
        points[i] = moved(motion, points[i]);
}

static void move_blank(struct blank *blank, const struct motion *motion) {
    for (size_t i = 0; i < blank->panels.count; i++) {
        blank->panels.at[i].origin = moved(motion, blank->panels.at[i].origin);
        blank->panels.at[i].turn += atan2(motion->sine, motion->cosine);
    }
    for (size_t i = 0; i < blank->edges.count; i++) {
        move_points(motion, blank->edges.at[i].points, blank->edges.at[i].count);
        move_points(motion, &blank->edges.at[i].centre, 1);
    }
    for (size_t i = 0; i < blank->bends.count; i++) {
        move_points(motion, &blank->bends.at[i].from, 1);
        move_points(motion, &blank->bends.at[i].to, 1);
    }
    for (size_t i = 0; i < blank->openings.count; i++) {
        move_points(motion, blank->openings.at[i].points, blank->openings.at[i].count);
        move_points(motion, &blank->openings.at[i].middle, 1);
    }
    for (size_t i = 0; i < blank->rulings.count; i++) {
        move_points(motion, &blank->rulings.at[i].from, 1);
        move_points(motion, &blank->rulings.at[i].to, 1);
    }
    for (size_t i = 0; i < blank->reliefs.count; i++) {
        move_points(motion, &blank->reliefs.at[i].from, 1);
        move_points(motion, &blank->reliefs.at[i].to, 1);
    }
    move_points(motion, blank->cut, blank->cut_count);
}

/* ---- Settling ---------------------------------------------------------------------------------------------------- */

struct box {
    struct flat low, high;
};

static struct box box_of(const struct blank *blank, struct flat way) {
    struct motion motion = {.cosine = way.x, .sine = -way.y};
    struct box box = {{INFINITY, INFINITY}, {-INFINITY, -INFINITY}};
    for (size_t i = 0; i < blank->cut_count; i++) {
        struct flat at = moved(&motion, blank->cut[i]);
        /* Comparisons: fmin and fmax are calls, and this is the busiest loop of all. */
        box.low.x = at.x < box.low.x ? at.x : box.low.x;
        box.low.y = at.y < box.low.y ? at.y : box.low.y;
        box.high.x = at.x > box.high.x ? at.x : box.high.x;
        box.high.y = at.y > box.high.y ? at.y : box.high.y;
    }
    return box;
}

static double box_area(struct box box) {
    return (box.high.x - box.low.x) * (box.high.y - box.low.y);
}

/* A box is smallest along one of the edges, as a rule; of a curve, along the chord of its ends. */
static struct flat best_way(const struct blank *blank) {
    struct flat best = {1, 0};
    double least = box_area(box_of(blank, best));
    for (size_t i = 0; i < blank->edges.count; i++) {
        const struct blank_edge *edge = &blank->edges.at[i];
        struct flat way = flat_unit(flat_sub(edge->points[edge->count - 1], edge->points[0]));
        if (flat_length(way) < 0.5)
            continue;
        double area = box_area(box_of(blank, way));
        if (area < least * (1 - 1e-6)) {
            least = area;
            best = way;
        }
    }
    return best;
}

void blank_settle(struct blank *blank) {
    struct flat way = best_way(blank);
    struct box box = box_of(blank, way);
    if (box.high.y - box.low.y > (box.high.x - box.low.x) * (1 + 1e-9)) {
        way = flat_right(way);
        box = box_of(blank, way);
    }
    struct motion motion = {.cosine = way.x, .sine = -way.y, .shift = {-box.low.x, -box.low.y}};
    move_blank(blank, &motion);
    blank->width = box.high.x - box.low.x;
    blank->height = box.high.y - box.low.y;
}

/* ---- Marks ------------------------------------------------------------------------------------------------------- */

static int by_place(const void *left, const void *right) {
    const struct blank_mark *a = left, *b = right;
    if (a->at != b->at)
        return a->at < b->at ? -1 : 1;
    return (a->kind > b->kind) - (a->kind < b->kind);
}

static bool lies_along(struct flat a, struct flat b, bool upward) {
    struct flat way = flat_unit(flat_sub(b, a));
    return fabs(upward ? way.y : way.x) < 1e-9;
}

static bool bends_along(const struct blank *blank, bool upward) {
    for (size_t i = 0; i < blank->bends.count; i++)
        if (!lies_along(blank->bends.at[i].from, blank->bends.at[i].to, upward))
            return false;
    return true;
}

/* Marks from the left or lower edge; and whether the pocket is at the other. */
static void find_marks(struct blank *blank, struct arena *arena) {
    bool upward = blank->marks_upward;
    double width = upward ? blank->height : blank->width;
    for (size_t i = 0; i < blank->bends.count; i++)
        *list_add(arena, &blank->marks) = (struct blank_mark){
            .at = upward ? blank->bends.at[i].from.y : blank->bends.at[i].from.x,
            .kind = LINE_BEND,
            .angle = blank->bends.at[i].angle,
        };
    for (size_t i = 0; i < blank->edges.count; i++) {
        const struct blank_edge *edge = &blank->edges.at[i];
        if (edge->join != JOIN_SEAM || edge->shape != EDGE_LINE || !(edge->allowance > 0) ||
            !lies_along(edge->points[0], edge->points[edge->count - 1], upward))
            continue;
        double at = upward ? edge->points[0].y : edge->points[0].x;
        *list_add(arena, &blank->marks) = (struct blank_mark){.at = at, .kind = LINE_SEAM};
        if (edge->kind == ALLOW_POCKET && at > width / 2)
            blank->marks_from_right = true;
    }
    for (size_t i = 0; i < blank->marks.count && blank->marks_from_right; i++)
        blank->marks.at[i].at = width - blank->marks.at[i].at;
}

/* Lines that lie on each other are one. */
static void merge_marks(struct blank *blank) {
    size_t kept = 0;
    for (size_t i = 0; i < blank->marks.count; i++)
        if (!kept || blank->marks.at[i].at - blank->marks.at[kept - 1].at > SAME_POINT)
            blank->marks.at[kept++] = blank->marks.at[i];
    blank->marks.count = kept;
}

void blank_mark(struct blank *blank, struct arena *arena) {
    bool across = bends_along(blank, false), up = bends_along(blank, true);
    if (!across && !up)
        return;
    blank->marks_upward = !across;
    find_marks(blank, arena);
    if (!blank->bends.count && !blank->marks.count) { /* only seams, and those lie along the other way */
        blank->marks_upward = true;
        find_marks(blank, arena);
    }
    if (blank->marks.count)
        qsort(blank->marks.at, blank->marks.count, sizeof *blank->marks.at, by_place);
    merge_marks(blank);
}

/* ---- Alike ------------------------------------------------------------------------------------------------------- */

/* Blanks that differ by less can be cut by one pattern: a hundredth of a millimetre. */
static const double alike = 1e-5;

static bool same_point(struct flat a, struct flat b) {
    return fabs(a.x - b.x) <= alike && fabs(a.y - b.y) <= alike;
}

static struct flat cut_point(const struct blank *blank, size_t i, bool back) {
    return blank->cut[back ? (2 * blank->cut_count - i) % blank->cut_count : i % blank->cut_count];
}

/* The motion that brings points 0 and 1 of `one` onto point `from` of `other` and the next
 * (or, over, the one before). */
static struct motion motion_onto(const struct blank *one, const struct blank *other, size_t from, bool over) {
    struct flat a = one->cut[0], b = one->cut[1];
    struct flat c = cut_point(other, from, false);
    struct flat d = over ? cut_point(other, from + other->cut_count - 1, false) : cut_point(other, from + 1, false);
    if (over) {
        a.y = -a.y;
        b.y = -b.y;
    }
    struct flat own = flat_sub(b, a), way = flat_unit(flat_sub(d, c));
    double length = flat_length(own);
    struct motion motion = {.over = over};
    motion.cosine = flat_dot(own, way) / length;
    motion.sine = flat_cross(own, way) / length;
    motion.shift =
        flat_sub(c, (struct flat){a.x * motion.cosine - a.y * motion.sine, a.x * motion.sine + a.y * motion.cosine});
    return motion;
}

static bool cut_matches(const struct blank *one, const struct blank *other, size_t from, const struct motion *motion) {
    size_t count = one->cut_count;
    for (size_t i = 0; i < count; i++) {
        size_t at = motion->over ? from + count - i : from + i;
        if (!same_point(moved(motion, one->cut[i]), other->cut[at % count]))
            return false;
    }
    return true;
}

static bool bends_match(const struct blank *one, const struct blank *other, const struct motion *motion) {
    for (size_t i = 0; i < one->bends.count; i++) {
        struct flat a = moved(motion, one->bends.at[i].from), b = moved(motion, one->bends.at[i].to);
        bool found = false;
        for (size_t j = 0; j < other->bends.count && !found; j++) {
            const struct blank_bend *bend = &other->bends.at[j];
            bool here = (same_point(a, bend->from) && same_point(b, bend->to)) ||
                        (same_point(a, bend->to) && same_point(b, bend->from));
            found = here && fabs(bend->angle - one->bends.at[i].angle) < 1e-6;
        }
        if (!found)
            return false;
    }
    return true;
}

/* Loops are alike when their points are, in order, from some point on; turned over, in the other order. */
static bool loops_match(const struct blank_opening *a, const struct blank_opening *b, const struct motion *motion) {
    size_t count = a->count;
    for (size_t from = 0; from < count; from++) {
        size_t i = 0;
        for (; i < count; i++) {
            size_t at = motion->over ? from + count - i : from + i;
            if (!same_point(moved(motion, a->points[i]), b->points[at % count]))
                break;
        }
        if (i == count)
            return true;
    }
    return false;
}

static bool openings_match(const struct blank *one, const struct blank *other, const struct motion *motion) {
    for (size_t i = 0; i < one->openings.count; i++) {
        const struct blank_opening *a = &one->openings.at[i];
        bool found = false;
        for (size_t j = 0; j < other->openings.count && !found; j++) {
            const struct blank_opening *b = &other->openings.at[j];
            bool circles = a->round && b->round && fabs(a->radius - b->radius) <= alike &&
                           same_point(moved(motion, a->middle), b->middle);
            found = circles || (a->count == b->count && loops_match(a, b, motion));
        }
        if (!found)
            return false;
    }
    return true;
}

/* Seams and ends lie on the same edges: they are told by their allowances, and those show in the cut outline, but not
 * which of two equal ones is which. */
static bool edges_match(const struct blank *one, const struct blank *other, const struct motion *motion) {
    for (size_t i = 0; i < one->edges.count; i++) {
        const struct blank_edge *a = &one->edges.at[i];
        struct flat first = moved(motion, a->points[0]), last = moved(motion, a->points[a->count - 1]);
        bool found = false;
        for (size_t j = 0; j < other->edges.count && !found; j++) {
            const struct blank_edge *b = &other->edges.at[j];
            struct flat begin = b->points[motion->over ? b->count - 1 : 0],
                        end = b->points[motion->over ? 0 : b->count - 1];
            found = a->kind == b->kind && same_point(first, begin) && same_point(last, end);
        }
        if (!found)
            return false;
    }
    return true;
}

static bool lies_on(const struct blank *one, const struct blank *other, bool over) {
    if (one->cut_count != other->cut_count || one->bends.count != other->bends.count ||
        one->openings.count != other->openings.count || one->edges.count != other->edges.count ||
        fabs(one->cut_area - other->cut_area) > alike * (one->width + one->height))
        return false;
    for (size_t from = 0; from < other->cut_count; from++) {
        struct motion motion = motion_onto(one, other, from, over);
        if (cut_matches(one, other, from, &motion) && bends_match(one, other, &motion) &&
            openings_match(one, other, &motion) && edges_match(one, other, &motion))
            return true;
    }
    return false;
}

/* "A" to "Z", then "A2" and so on. */
static const char *letter_of(size_t i, struct arena *arena) {
    char letter = (char)('A' + i % 26);
    return i < 26 ? arena_format(arena, "%c", letter) : arena_format(arena, "%c%zu", letter, i / 26 + 1);
}

void blanks_batch(blank_list *blanks, struct arena *arena) {
    size_t kept = 0;
    for (size_t i = 0; i < blanks->count; i++) {
        size_t same = 0;
        bool over = false;
        for (; same < kept; same++) {
            if (lies_on(&blanks->at[i], &blanks->at[same], false))
                break;
            over = lies_on(&blanks->at[i], &blanks->at[same], true);
            if (over)
                break;
        }
        if (same == kept) {
            blanks->at[kept++] = blanks->at[i];
            continue;
        }
        blanks->at[same].quantity += blanks->at[i].quantity;
        blanks->at[same].opposite += over;
    }
    blanks->count = kept;
    for (size_t i = 0; i < kept; i++)
        blanks->at[i].letter = letter_of(i, arena);
}
