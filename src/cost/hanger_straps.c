/* What one hanger is of, and how long its straps are. */
#include "cost/hang.h"
#include "model/insulation.h"
#include "model/piece.h"

/* The pair of straps of one hanger, by half the girth of the duct and the spacing.  SOURCE_HANGER_STRAPS. */
enum { STRAP_ROWS = 4, STRAP_SPACINGS = 4 };
static const double strap_spacings[STRAP_SPACINGS] = {4 * FOOT, 5 * FOOT, 8 * FOOT, 10 * FOOT};
static const struct strap_row {
    double half_girth; /* m, at most */
    struct {
        double width;
        int gauge;
    } at[STRAP_SPACINGS];
} strap_rows[STRAP_ROWS] = {
    {30 * INCH, {{1 * INCH, 22}, {1 * INCH, 22}, {1 * INCH, 22}, {1 * INCH, 22}}},
    {72 * INCH, {{1 * INCH, 22}, {1 * INCH, 22}, {1 * INCH, 20}, {1 * INCH, 18}}},
    {96 * INCH, {{1 * INCH, 22}, {1 * INCH, 20}, {1 * INCH, 18}, {1 * INCH, 16}}},
    {120 * INCH, {{1 * INCH, 20}, {1 * INCH, 18}, {1 * INCH, 16}, {1.5 * INCH, 16}}},
};

/* What a strap has beyond the height and the drop: turned under the duct and fastened above, 2 in each; what a band
 * laps over itself.  Common practice, no source. */
static const double strap_ends = 4 * INCH, band_lap = 2 * INCH;

/* ---- One hanger -------------------------------------------------------------------------------------------------- */

static void choose_strap(struct hanger *hanger, double spacing) {
    double half = size_perimeter(hanger->size) / 2;
    int row = 0, column = 0;
    while (row + 1 < STRAP_ROWS && half > strap_rows[row].half_girth + 1e-9)
        row++;
    while (column + 1 < STRAP_SPACINGS && spacing > strap_spacings[column] + 1e-9)
        column++;
    hanger->strap_width = strap_rows[row].at[column].width;
    hanger->strap_gauge = strap_rows[row].at[column].gauge;
}

void hang_metal(struct hanger *hanger, const struct job *job, double spacing) {
    double below = job->shop.hang_below;
    choose_strap(hanger, spacing);
    if (hanger->size.shape == SHAPE_ROUND) {
        hanger->kind = HANGER_BAND;
        hanger->strap = PI * hanger->size.width + band_lap + below + strap_ends / 2;
    } else {
        hanger->kind = HANGER_STRAPS;
        hanger->strap = 2 * (below + hanger->size.height + strap_ends);
    }
}

/* Half round the duct with its insulation, and up on both sides. */
void hang_flex(struct hanger *hanger, const struct piece *piece, const struct job *job) {
    double across = hanger->size.width + 2 * insulation_thickness(piece_insulation(piece, hanger->run));
    hanger->kind = HANGER_SADDLE;
    hanger->strap_width = flex_hanger_width;
    hanger->strap = PI * across / 2 + 2 * (job->shop.hang_below + across / 2) + strap_ends;
}
