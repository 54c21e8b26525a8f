/* Straps, webbing and what fastens both to the building. */
#include "cost/count.h"

/* Lost in cutting straps from their coil: common practice, no source. */
static const double strap_waste = 0.05;

static const char *strap_key(const struct takeoff *takeoff, const struct job *job, const struct hanger *hanger) {
    double width = job->system == MEASURE_METRIC ? round(hanger->strap_width / MILLIMETRE) : hanger->strap_width / INCH;
    return arena_format(takeoff->arena, "hanger_strap %g x %d", width, hanger->strap_gauge);
}

static const char *strap_title(const struct takeoff *takeoff, const struct job *job, const struct hanger *hanger) {
    return arena_format(takeoff->arena, "Hanger strap, %s wide, %d ga",
                        words_of_width(takeoff, job, hanger->strap_width), hanger->strap_gauge);
}

/* Straps of one width and gauge have one line: there are few of them. */
struct strap_line {
    double width;
    int gauge;
    struct hanger of;
    double count, length;
};
typedef LIST(struct strap_line) strap_lines;

static struct strap_line *strap_line(struct takeoff *takeoff, strap_lines *lines, const struct hanger *hanger) {
    for (size_t i = 0; i < lines->count; i++)
        if (lines->at[i].gauge == hanger->strap_gauge && fabs(lines->at[i].width - hanger->strap_width) < 1e-6)
            return &lines->at[i];
    struct strap_line *line = list_add(takeoff->arena, lines);
    *line = (struct strap_line){.width = hanger->strap_width, .gauge = hanger->strap_gauge, .of = *hanger};
    return line;
}

void count_straps(struct takeoff *takeoff, const struct job *job) {
    strap_lines lines = {0};
    for (size_t i = 0; i < takeoff->hangers.count; i++) {
        const struct hanger *hanger = &takeoff->hangers.at[i];
        if (hanger->kind != HANGER_STRAPS && hanger->kind != HANGER_BAND)
            continue;
        struct strap_line *line = strap_line(takeoff, &lines, hanger);
        line->count++;
        line->length += hanger->strap;
    }
    const char *every = words_of_length(takeoff, job, job->shop.hang_every);
    const char *below = words_of_width(takeoff, job, job->shop.hang_below);
    for (size_t i = 0; i < lines.count; i++) {
        const struct strap_line *of = &lines.at[i];
        struct bill_line *line =
            bill_line(takeoff, strap_key(takeoff, job, &of->of), strap_title(takeoff, job, &of->of));
        line->net = of->length;
        line->wanted = line->net * (1 + strap_waste);
        line->source = SOURCE_HANGER_STRAPS;
        line->basis = arena_format(takeoff->arena,
                                   "%s, at most %s apart and near each elbow and branch, the duct %s below what bears "
                                   "it; 5 %% lost in cutting",
                                   words_of_count(takeoff, of->count, "hanger", "hangers"), every, below);
    }
}

void count_webbing(struct takeoff *takeoff, const struct job *job) {
    double count = 0, length = 0;
    for (size_t i = 0; i < takeoff->hangers.count; i++)
        if (takeoff->hangers.at[i].kind == HANGER_SADDLE) {
            count++;
            length += takeoff->hangers.at[i].strap;
        }
    if (!(count > 0))
        return;
    struct bill_line *line = bill_line(takeoff, NULL, takeoff->item->title);
    line->net = length;
    line->wanted = length * (1 + strap_waste);
    line->source = SOURCE_FLEX_HANGERS;
    line->basis = arena_format(takeoff->arena, "%s, at most %s apart, %s wide at least; 5 %% lost in cutting",
                               words_of_count(takeoff, count, "support", "supports"),
                               words_of_length(takeoff, job, hanging_rules_of(job).flexible),
                               words_of_width(takeoff, job, flex_hanger_width));
}

static double supports_of(const struct takeoff *takeoff) {
    double count = 0;
    for (size_t i = 0; i < takeoff->hangers.count; i++)
        count += takeoff->hangers.at[i].kind == HANGER_RISER;
    return count;
}

void count_riser_supports(struct takeoff *takeoff, const struct job *job) {
    double count = supports_of(takeoff);
    if (!(count > 0))
        return;
    struct bill_line *line = bill_line(takeoff, NULL, takeoff->item->title);
    line->net = line->wanted = count;
    line->source = SOURCE_RISERS;
    line->basis = arena_format(takeoff->arena,
                               "one for at most %s of upright duct longer than %s: angles on two sides of it, on a "
                               "floor or a frame",
                               words_of_length(takeoff, job, hanging_rules_of(job).riser),
                               words_of_length(takeoff, job, hanging_rules_of(job).riser_borne));
}

/* One at the upper end of each strap; of a saddle both ends go up.  A riser's support has one in each angle.  A face is
 * held at its four corners.  Common practice, no source. */
void count_hanger_fasteners(struct takeoff *takeoff, const struct job *job) {
    (void)job;
    double straps = 0, faces = 0, angles = 2 * supports_of(takeoff);
    for (size_t i = 0; i < takeoff->hangers.count; i++)
        straps += takeoff->hangers.at[i].kind == HANGER_BAND ? 1 : takeoff->hangers.at[i].kind == HANGER_RISER ? 0 : 2;
    for (size_t i = 0; i < takeoff->connections.count; i++)
        faces += takeoff->connections.at[i].closing == CLOSED_FACE;
    if (!(straps + angles + faces > 0))
        return;
    struct bill_line *line = bill_line(takeoff, NULL, takeoff->item->title);
    const char *risers =
        angles > 0 ? arena_format(takeoff->arena, "; one in each angle of a riser's supports, %.0f", angles) : "";
    line->net = line->wanted = straps + angles + 4 * faces;
    line->basis =
        arena_format(takeoff->arena, "one at each upper end of a strap, %.0f%s; four at each face of a boot or box, %s",
                     straps, risers, words_of_count(takeoff, faces, "face", "faces"));
}

const char *hanger_reason_words(enum hanger_reason reason) {
    static const char *const words[] = {
        [HUNG_APART] = "spacing",
        [HUNG_TURN] = "near an elbow",
        [HUNG_BRANCH] = "near a branch",
        [HUNG_START] = "behind a flexible piece",
        [HUNG_END] = "near an end",
        [HUNG_ALONE] = "the only one",
        [HUNG_RISER] = "its share of a riser",
    };
    return words[reason];
}
