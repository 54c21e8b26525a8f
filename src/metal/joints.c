/* Where the joint lines of straight duct fall. */
#include "metal/joints.h"

#include <math.h>

#include "base/constant.h"

/* Lines nearer than this are one, m. */
static const double same_line = 1e-7;

/* Common practice, no source (SOURCE_JOINT_LINES): a shorter leftover is shared, a shorter joint is
 * hardly to be made. */
static const double least_leftover = 12 * INCH, least_joint = 4 * INCH;

struct cutter {
    struct arena *arena;
    LIST(struct joint_zone) zones; /* apart from each other, ascending */
    double greatest, last, too_short;
    struct joint_list list;
};

/* Zones that meet are one: no line falls between them. */
static void merge_zones(struct cutter *cutter, const struct joint_zone *zones, size_t count) {
    for (size_t i = 0; i < count; i++) {
        struct joint_zone *last = cutter->zones.count ? &cutter->zones.at[cutter->zones.count - 1] : NULL;
        if (!(zones[i].high - zones[i].low > same_line))
            continue;
        if (last && zones[i].low < last->high - same_line)
            last->high = fmax(last->high, zones[i].high);
        else
            *list_add(cutter->arena, &cutter->zones) = zones[i];
    }
}

/* The zone that a line falls within; its ends are free.  NULL: none. */
static const struct joint_zone *zone_at(const struct cutter *cutter, double line) {
    size_t low = 0, high = cutter->zones.count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (cutter->zones.at[middle].high > line + same_line)
            high = middle;
        else
            low = middle + 1;
    }
    const struct joint_zone *zone = low < cutter->zones.count ? &cutter->zones.at[low] : NULL;
    return zone && zone->low < line - same_line ? zone : NULL;
}

/* Whether a line leaves a workable joint on either side of it, between the lines at `from` and `to`. */
static bool divides(const struct cutter *cutter, double from, double line, double to) {
    double nearer = fmin(line - from, to - line), farther = fmax(line - from, to - line);
    return nearer >= cutter->too_short && farther <= cutter->greatest + same_line && !zone_at(cutter, line);
}

/* Moves the line before `end` to where the last joint and what is left up to `end` are as equal as the zones let them
 * be.  False: it is best where it is. */
static bool share(struct cutter *cutter, double end) {
    if (!cutter->list.joints.count)
        return false;
    struct joint *last = &cutter->list.joints.at[cutter->list.joints.count - 1];
    double from = last->station, middle = (from + end) / 2, now = from + last->length, best = now;
    const struct joint_zone *zone = zone_at(cutter, middle);
    double places[] = {middle, zone ? zone->low : middle, zone ? zone->high : middle};
    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++) {
        bool nearer = fabs(places[i] - middle) < fabs(best - middle) - same_line || best == now;
        bool better = last->crossed || fabs(places[i] - middle) < fabs(now - middle) - same_line;
        if (nearer && better && divides(cutter, from, places[i], end))
            best = places[i];
    }
    if (best == now)
        return false;
    cutter->list.crossed -= last->crossed;
    last->crossed = false;
    last->length = best - from;
    return true;
}

static double cut_so_far(const struct cutter *cutter) {
    size_t count = cutter->list.joints.count;
    return count ? cutter->list.joints.at[count - 1].station + cutter->list.joints.at[count - 1].length : 0;
}

static void add_joint(struct cutter *cutter, double line, bool last) {
    double from = cut_so_far(cutter);
    struct joint joint = {
        .station = from,
        .length = line - from,
        .crossed = !last && zone_at(cutter, line),
        .too_short = line - from < cutter->too_short - same_line,
    };
    cutter->list.crossed += joint.crossed;
    *list_add(cutter->arena, &cutter->list.joints) = joint;
}

/* The next line: a full joint away, or pulled back out of the zone there.  Where that leaves too little, the line
 * before it gives way; where that cannot either, the line falls in the zone. */
static double next_line(struct cutter *cutter) {
    double from = cut_so_far(cutter), full = from + cutter->greatest;
    const struct joint_zone *zone = zone_at(cutter, full);
    if (!zone)
        return full;
    double short_of = fmin(least_leftover, cutter->greatest);
    bool room = zone->low - from >= cutter->too_short;
    if (zone->low - from > same_line && zone->low - from < short_of)
        room |= share(cutter, zone->low);
    return room ? zone->low : full;
}

/* Too long for one joint, which is the last, and not too long for another: halves, with the line between the zones. */
static double halving_line(const struct cutter *cutter, double end) {
    double from = cut_so_far(cutter), middle = (from + end) / 2;
    const struct joint_zone *zone = zone_at(cutter, middle);
    if (zone && zone->low - from >= cutter->too_short && end - zone->low <= cutter->last + same_line)
        return zone->low;
    return zone && end - zone->high >= cutter->too_short ? zone->high : middle;
}

struct joint_list metal_joints(struct arena *arena, double length, double greatest, double last,
                               const struct joint_zone *zones, size_t zone_count) {
    struct cutter cutter = {
        .arena = arena, .greatest = greatest, .last = last, .too_short = fmin(least_joint, greatest / 4)};
    merge_zones(&cutter, zones, zone_count);
    while (length - cut_so_far(&cutter) > last + same_line) {
        bool whole = length - cut_so_far(&cutter) > greatest + same_line;
        add_joint(&cutter, whole ? next_line(&cutter) : halving_line(&cutter, length), false);
    }
    if (length - cut_so_far(&cutter) < fmin(least_leftover, greatest) - same_line)
        share(&cutter, length);
    add_joint(&cutter, length, true);
    return cutter.list;
}
