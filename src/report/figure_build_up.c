/* What the price is made of: a bar for each step, where the one before it ends. */
#include "report/figure_page.h"
#include "report/office.h"

/* The field of the bars, pt; titles stand on its left, amounts on its right. */
static const double left = 150, right = 400, amounts = 470, top = 6;

/* Costs are lighter the further they are from the work; what is kept is black. */
static enum shade shade_of(enum step_kind kind) {
    switch (kind) {
    case STEP_MATERIAL:
    case STEP_TAX_MATERIAL:
        return SHADE_MIDDLE;
    case STEP_PROFIT:
    case STEP_SUBCONTRACT_MARKUP:
        return SHADE_INK;
    case STEP_LABOUR:
    case STEP_TAX_LABOUR:
    case STEP_BURDEN:
        return SHADE_LIGHT;
    default:
        return SHADE_WHITE;
    }
}

static double at(money sum, money whole) {
    return left + (right - left) * (double)sum / (double)whole;
}

static void draw_bar(struct figure *figure, enum step_kind kind, double from, double to, double y) {
    double half = PAGE_ROW * 0.36;
    const struct spot corners[] = {diagram_spot(from, y - half), diagram_spot(to, y - half), diagram_spot(to, y + half),
                                   diagram_spot(from, y + half)};
    figure_polygon(figure, STROKE_NET, shade_of(kind), corners, 4);
}

static void draw_step(struct figure *figure, const struct job *job, const struct step *step, money sum, double y) {
    const struct price *price = job->price;
    money end = money_add(sum, step->amount);
    bool falls = step->amount < 0;
    draw_bar(figure, step->kind, at(falls ? end : sum, price->build_up.total),
             at(falls ? sum : end, price->build_up.total), y);
    diagram_text(figure, step->title, left - 8, y, TOWARD_LEFT, left - 8);
    diagram_text(figure, money_figure(figure->arena, step->amount, true), amounts, y, TOWARD_LEFT, 0);
}

static void draw_sum(struct figure *figure, const struct job *job, const struct step *step, double y) {
    diagram_text(figure, step->title, left - 8, y, TOWARD_LEFT, left - 8);
    diagram_line(figure, STROKE_NET, left, y, at(step->amount, job->price->build_up.total), y);
    diagram_text(figure, money_text(figure->arena, &job->price->currency, step->amount), amounts, y, TOWARD_LEFT, 0);
}

struct figure *figure_build_up(struct arena *arena, const struct job *job) {
    const struct build_up *up = &job->price->build_up;
    struct figure *figure =
        diagram_new(arena, "What the price is made of", "each bar begins where the one above it ends");
    double y = top;
    money sum = 0;
    size_t shown = 0;
    for (size_t i = 0; i < up->steps.count && shown < PAGE_ROWS && up->total > 0; i++) {
        const struct step *step = &up->steps.at[i];
        bool subtotal = step_is_subtotal(step->kind);
        y += PAGE_ROW;
        shown++;
        if (subtotal)
            draw_sum(figure, job, step, y);
        else
            draw_step(figure, job, step, sum, y);
        if (!subtotal)
            sum = money_add(sum, step->amount);
    }
    diagram_line(figure, STROKE_NET, left, top, left, y + PAGE_ROW / 2);
    if (shown < up->steps.count)
        figure_note(figure, arena_format(arena, "%zu more steps have no room here.", up->steps.count - shown));
    figure_note(figure,
                "Grey: material and its tax. Light grey: labour, with burden. White: other cost. Black: profit.");
    return figure;
}
