/* Blanks that no sheet of the shop's stock is large enough for. */
#include "check/checks.h"
#include "metal/metal.h"
#include "model/words.h"

static void warn_large(const struct look *look, const struct part *part, const struct blank *blank,
                       const struct run *run) {
    struct diagnostic *said =
        check_warn(look, run->at, run->name, "blank %zu%s, %s, in %s is %s x %s: no sheet of the shop is so large",
                   part->number, blank->letter, part->title, check_name(look, run),
                   check_text(look->job, SHOW_CUT, blank->width), check_text(look->job, SHOW_CUT, blank->height));
    bool plain = part->material == MATERIAL_GALVANISED;
    diagnostic_hint(look->job->diagnostics, said, "stock 60 x 144, %s%sgauge %d, or a smaller or shorter piece",
                    plain ? "" : material_name(part->material), plain ? "" : ", ", part->gauge);
}

/* The first of a part that is too large, in the first run that it is for. */
static void look_at_part(const struct look *look, const struct part *part, const struct stock *stock) {
    for (size_t b = 0; b < part->blanks.count; b++) {
        const struct blank *blank = &part->blanks.at[b];
        look->result->looked_at += blank->quantity;
        if (stock_for(stock, blank->width, blank->height))
            continue;
        warn_large(look, part, blank, part->uses.at[0].run);
        return;
    }
}

void check_stock(const struct look *look) {
    const struct job *job = look->job;
    struct stock stock = {0};
    int gauge = -1; /* of `stock`, as is: */
    enum material material = MATERIAL_GALVANISED;
    for (size_t i = 0; job->metal && i < job->metal->parts.count; i++) {
        const struct part *part = job->metal->parts.at[i];
        if (part->gauge != gauge || part->material != material)
            stock = metal_stock(job->arena, &job->shop, material = part->material, gauge = part->gauge);
        if (part->uses.count)
            look_at_part(look, part, &stock);
    }
}
