/* Wrap by the outside of the duct, lining by its inside. */
#include "cost/count.h"
#include "model/insulation.h"
#include "model/words.h"

/* SOURCE_WRAP. */
static const double lap = 2 * INCH;
static const double corners_round = 5, corners_flat = 4; /* times the thickness, added to the girth */

/* SOURCE_LINER. */
static const double pin_margin = 3 * INCH, pins_across = 12 * INCH, pins_along = 18 * INCH;
static const double adhesive_area = 100 * FOOT * FOOT; /* a gallon */

/* Lost in cutting round fittings: common practice, no source. */
static const double cut = 0.10;

/* Wrap over bare girth, at the larger of a part's ends. */
static double girth_grows(const struct part *part, double thickness) {
    double girth = 0, grows = 1;
    for (size_t i = 0; i < part->solid->ports.count; i++) {
        struct duct_size size = part->solid->ports.at[i].size;
        double of = size_perimeter(size);
        if (!(of > girth))
            continue;
        girth = of;
        grows = 1 + (lap + (size.shape == SHAPE_ROUND ? corners_round : corners_flat) * thickness) / of;
    }
    return grows;
}

/* What is wrapped to one R-value, or lined to one thickness: a job has few of them. */
struct cover {
    double value;       /* m2 K/W, or m */
    double net, wanted; /* m2 */
    double pins;
};
typedef LIST(struct cover) cover_list;

static struct cover *cover_of(struct takeoff *takeoff, cover_list *covers, double value) {
    for (size_t i = 0; i < covers->count; i++)
        if (fabs(covers->at[i].value - value) < 1e-6)
            return &covers->at[i];
    struct cover *cover = list_add(takeoff->arena, covers);
    cover->value = value;
    return cover;
}

static void list_wraps(struct takeoff *takeoff, const struct metal *metal, cover_list *covers) {
    for (size_t p = 0; p < metal->parts.count; p++) {
        const struct part *part = metal->parts.at[p];
        double area = takeoff->measures[p].surface;
        for (size_t u = 0; u < part->uses.count && area > 0; u++) {
            double value = part->uses.at[u].run->settings.insulation;
            if (!(value > 0))
                continue;
            struct cover *cover = cover_of(takeoff, covers, value);
            cover->net += area;
            cover->wanted += area * girth_grows(part, insulation_thickness(value)) * (1 + cut);
        }
    }
}

void count_wrap(struct takeoff *takeoff, const struct job *job) {
    cover_list covers = {0};
    list_wraps(takeoff, job->metal, &covers);
    for (size_t i = 0; i < covers.count; i++) {
        const struct cover *cover = &covers.at[i];
        const char *name = insulation_name(takeoff->arena, cover->value);
        struct bill_line *line = bill_line(takeoff, arena_format(takeoff->arena, "duct_wrap %s", name),
                                           arena_format(takeoff->arena, "Duct wrap, %s", name));
        line->net = cover->net;
        line->wanted = cover->wanted;
        line->source = SOURCE_WRAP;
        const char *thick = words_of_width(takeoff, job, insulation_thickness(cover->value));
        line->basis = arena_format(takeoff->arena,
                                   "%s of duct; its girth grows by a lap of %s and by what wrap %s thick takes at its "
                                   "corners, pressed to three quarters; a tenth lost in cutting",
                                   words_of_area(takeoff, job, cover->net), words_of_width(takeoff, job, lap), thick);
    }
}

/* ---- Lining ------------------------------------------------------------------------------------------------------ */

/* Rows of pins from margin to margin. */
static double rows_of(double side, double apart) {
    return 1 + fmax(0, whole_ones((side - 2 * pin_margin) / apart));
}

/* Of a panel as a rectangle as long as its longest edge. */
static double pins_in(const struct solid_panel *panel) {
    double longest = 0;
    for (size_t e = 0; e < panel->edges.count; e++)
        longest = fmax(longest, edge_length(&panel->edges.at[e]));
    return longest > 0 ? rows_of(longest, pins_along) * rows_of(panel_area(panel) / longest, pins_across) : 0;
}

static double pins_of(const struct part *part) {
    double pins = 0;
    for (size_t p = 0; p < part->solid->panels.count; p++)
        pins += pins_in(&part->solid->panels.at[p]);
    return pins;
}

static void list_linings(struct takeoff *takeoff, const struct metal *metal, cover_list *covers) {
    for (size_t p = 0; p < metal->parts.count; p++) {
        const struct part *part = metal->parts.at[p];
        double area = takeoff->measures[p].surface, pins = area > 0 ? pins_of(part) : 0;
        if (!(part->lining > 0) || !(area > 0))
            continue;
        struct cover *cover = cover_of(takeoff, covers, part->lining);
        cover->net += area * (double)part->uses.count;
        cover->pins += pins * (double)part->uses.count;
    }
}

void count_liner(struct takeoff *takeoff, const struct job *job) {
    cover_list covers = {0};
    list_linings(takeoff, job->metal, &covers);
    for (size_t i = 0; i < covers.count; i++) {
        const struct cover *cover = &covers.at[i];
        const char *figure = measure_figure(takeoff->arena, job->system, SHOW_SIZE, cover->value);
        const char *thick = measure_text(takeoff->arena, job->system, SHOW_SIZE, cover->value);
        struct bill_line *line = bill_line(takeoff, arena_format(takeoff->arena, "duct_liner %s", figure),
                                           arena_format(takeoff->arena, "Duct liner, %s", thick));
        line->net = cover->net;
        line->wanted = cover->net * (1 + cut);
        line->source = SOURCE_LINER;
        line->basis = arena_format(takeoff->arena, "the inside of %s of duct; a tenth lost in cutting",
                                   words_of_area(takeoff, job, cover->net));
    }
}

/* Of all linings together: area and pins. */
static struct cover all_linings(struct takeoff *takeoff, const struct metal *metal) {
    cover_list covers = {0};
    struct cover all = {0};
    list_linings(takeoff, metal, &covers);
    for (size_t i = 0; i < covers.count; i++) {
        all.net += covers.at[i].net;
        all.pins += covers.at[i].pins;
    }
    return all;
}

void count_liner_pins(struct takeoff *takeoff, const struct job *job) {
    struct cover all = all_linings(takeoff, job->metal);
    if (!(all.pins > 0))
        return;
    struct bill_line *line = bill_line(takeoff, NULL, takeoff->item->title);
    line->net = line->wanted = all.pins;
    line->source = SOURCE_LINER;
    line->basis = arena_format(takeoff->arena, "within %s of the edges of each panel, %s apart across it and %s along",
                               words_of_width(takeoff, job, pin_margin), words_of_width(takeoff, job, pins_across),
                               words_of_width(takeoff, job, pins_along));
}

void count_liner_adhesive(struct takeoff *takeoff, const struct job *job) {
    struct cover all = all_linings(takeoff, job->metal);
    if (!(all.net > 0))
        return;
    struct bill_line *line = bill_line(takeoff, NULL, takeoff->item->title);
    line->net = line->wanted = all.net / adhesive_area * GALLON;
    line->source = SOURCE_LINER;
    bool metric = job->system == MEASURE_METRIC;
    double can = metric ? LITRE : GALLON;
    line->basis = arena_format(takeoff->arena, "%s of lining, %s a %s", words_of_area(takeoff, job, all.net),
                               words_of_area(takeoff, job, adhesive_area / GALLON * can), metric ? "litre" : "gallon");
}
