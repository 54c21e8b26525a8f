/* What several kinds of piece need. */
#ifndef CLEAT_PIECE_COMMON_H
#define CLEAT_PIECE_COMMON_H

#include "air/air.h"
#include "air/fitting.h"
#include "air/trace.h"
#include "base/constant.h"
#include "metal/metal.h"
#include "metal/shape.h"
#include "metal/shape_straight.h"
#include "route/motion.h"

enum { IN_ANY_RUN = IN_RUN | IN_OUTLET | IN_INLET };

/* ---- Sense of what was written ----------------------------------------------------------------------------------- */

/* What a figure must lie within, SI, and how that is said: "a turn of 1 to 180 degrees". */
struct sense {
    double low, high;
    const char *expected;
    const char *hint; /* a line that can be typed in */
};

/* The `low` of a figure that must be more than zero: a hundredth of a millimetre. */
#define MORE_THAN_NOTHING 1e-5

/* An error about `at`; marks the reading as faulty. */
void piece_error(struct piece *piece, struct diagnostics *diagnostics, struct span at, const char *hint,
                 const char *format, ...) __attribute__((format(printf, 5, 6)));

/* A length along the run: more than nothing, 100 ft at most; `line` can be typed in. */
#define OVER_SENSE(line)                                                                                               \
    {                                                                                                                  \
        .low = MORE_THAN_NOTHING, .high = 100 * FOOT, /* common practice, no source */                                 \
            .expected = "a length of more than 0, 100 ft (30 m) at most", .hint = (line)                               \
    }

/* Diagnoses the figure in `slot` when it is given and lies outside `sense`. */
bool piece_sensible(struct piece *piece, struct diagnostics *diagnostics, int slot, const struct sense *sense);

/* The same, and that it is a whole number. */
bool piece_whole(struct piece *piece, struct diagnostics *diagnostics, int slot, const struct sense *sense);

/* Diagnoses the size in `slot` when it is given and is no duct, face or box of `dimensions` dimensions or fewer. */
bool piece_size_sensible(struct piece *piece, struct diagnostics *diagnostics, int slot, int dimensions,
                         const char *hint);

/* ---- A far end that is moved aside (move.c) ---------------------------------------------------------------------- */

/* Of the centre of the far end, m, as you look along the duct away from the unit. */
struct move {
    double right, up;
};

/* Four slots from `first` on, in the order of enum way. */
#define MOVE_SLOT(word)                                                                                                \
    { .kind = SLOT_QUANTITY, .key = (word), .measure = MEASURE_LENGTH, .meaning = "how far the far end is moved " word }
#define MOVE_SLOTS(first)                                                                                              \
    [(first) + WAY_LEFT] = MOVE_SLOT("left"), [(first) + WAY_RIGHT] = MOVE_SLOT("right"),                              \
               [(first) + WAY_UP] = MOVE_SLOT("up"), [(first) + WAY_DOWN] = MOVE_SLOT("down")

/* Diagnoses lengths that make no sense, and two ways along one axis. */
bool piece_move_sensible(struct piece *piece, struct diagnostics *diagnostics, int first, const char *hint);
/* The first that is given of the ways from `from` to `to`; NULL: none. */
const struct argument *piece_move_given(const struct piece *piece, int first, enum way from, enum way to);
struct move piece_move(const struct piece *piece, int first);
/* ", moved 4 in left and 2 in up"; "" when it is not moved. */
const char *piece_move_words(const struct piece *piece, int first, enum measure_system system, struct arena *arena);
/* The same as it is written in a line: ", left 4 in, up 2 in". */
const char *piece_move_line(const struct piece *piece, int first, enum measure_system system, struct arena *arena);

/* A moved end: its step aside counts as two mitres of the angle that its sides lean by, the nearest relation, though no
 * end is cut at an angle.  On the duct's velocity pressure, in a duct of `size`; 0 when it is not moved. */
struct coefficient move_coefficient(struct trace *trace, struct move move, double length, struct duct_size size);

/* ---- What was written -------------------------------------------------------------------------------------------- */

/* Never NULL: an implied piece was given nothing. */
const struct argument *piece_argument(const struct piece *piece, int slot);
bool piece_given(const struct piece *piece, int slot);
double piece_number(const struct piece *piece, int slot, double otherwise);
int piece_choice(const struct piece *piece, int slot, int otherwise);
/* The size in `slot`; unknown when not given. */
struct duct_size piece_size(const struct piece *piece, int slot);
/* The size in `slot` with all of its dimensions: "20 x 25 x 1 in"; NULL when not given. */
const char *piece_size_words(const struct piece *piece, int slot, enum measure_system system, struct arena *arena);
/* Likewise without the unit: "20 x 25 x 1". */
const char *piece_size_figures(const struct piece *piece, int slot, enum measure_system system, struct arena *arena);
/* What the job says in `slot`, as it says it: "40 in"; "" when not given. */
const char *piece_written(const struct piece *piece, int slot, struct arena *arena);
/* A number as people write it: "90", "1.5". */
const char *piece_figure(struct arena *arena, double number);

/* ---- The air ----------------------------------------------------------------------------------------------------- */

/* Nothing to compute with: no air, or no size yet. */
bool stream_still(struct stream stream);
double stream_pressure(const struct air *air, struct stream stream); /* velocity pressure, Pa; 0 when still */
double stream_friction(const struct piece_flow *flow, struct stream stream, double length); /* Pa along `length` */
struct stream air_from(const struct piece_flow *flow); /* the end that the air comes in by */
struct stream air_to(const struct piece_flow *flow);

/* Tells the trace what share of all the air and of its area a branch has: q and f. */
void stream_shares(struct trace *trace, struct stream branch, struct stream common);

/* ---- The metal --------------------------------------------------------------------------------------------------- */

/* What a bought thing is called: the words of its schedule, without a length. */
const char *made_words(const struct piece *piece, struct making *making);
/* The same, of the duct that it sits in: "Damper, fire, 8 in round". */
const char *made_words_sized(const struct piece *piece, struct making *making, struct duct_size size);
/* `make` of a register, grille or filter, which a shop prices by the word of its kind. */
void make_face(const struct piece *piece, struct making *making);

/* The face that stands at the end of a run, or of what hangs from its end; unknown when there is none. */
struct duct_size run_face(const struct run *run);

/* What a tapped run, with its size known and its section, begins with. */
struct tap_size tap_size_of(const struct run *tapped);
/* The opening of a tapped run in its parent, whose wall begins at `start`, m along the parent. */
struct wall_opening tap_wall_opening(const struct run *tapped, double start);

/* ---- The loss ---------------------------------------------------------------------------------------------------- */

/* Adds the coefficient on the velocity pressure of that stream to the loss; the last call says what it is on. */
void loss_set(const struct piece_flow *flow, struct loss *loss, struct coefficient coefficient, struct stream on,
              const char *reference_name, enum source_id source);
/* Adds another coefficient on the same reference. */
void loss_also(struct loss *loss, struct coefficient coefficient, enum source_id source);
void loss_add_friction(struct loss *loss, double friction);

/* A change of size by the cone between ends of the same areas, `length` long; on the smaller end. */
struct coefficient change_coefficient(struct trace *trace, struct duct_size from, struct duct_size to, double length);

/* Where one side grows as the other shrinks, the ends' areas hide what the air meets: nearest relation, a diffuser of
 * the side that grows alone.  On the smaller end; 0 where the sides do not go opposite ways. */
double growing_side(struct trace *trace, struct duct_size from, struct duct_size to, double length);

/* Marks the loss, already set, as one with that factor in its coefficient. */
void loss_mark_reynolds(struct loss *loss, struct coefficient factor);

/* A device with a drop: `pressure` Pa in standard air, at `at` m3/s when over 0, else at the design airflow. */
void loss_drop(const struct piece_flow *flow, struct loss *loss, double pressure, double at, enum source_id source);

/* ---- Faces: registers, grilles and filters have the same slots --------------------------------------------------- */

enum face_slot { FACE_SIZE, FACE_PRESSURE, FACE_FLOW };
#define FACE_SLOTS(of_size)                                                                                            \
    [FACE_SIZE] = {.kind = SLOT_SIZE, .use = SLOT_REQUIRED, .meaning = (of_size)},                                     \
    [FACE_PRESSURE] = {.kind = SLOT_QUANTITY, .measure = MEASURE_PRESSURE, .meaning = "the drop it takes"},            \
    [FACE_FLOW] = {.kind = SLOT_QUANTITY,                                                                              \
                   .key = "at",                                                                                        \
                   .measure = MEASURE_FLOW,                                                                            \
                   .meaning = "the airflow at which it takes so much"}
struct duct_size face_size(const struct piece *piece);
void face_loss(const struct piece_flow *flow, struct loss *loss, double assumed);
/* "Register 10 x 6 in". */
const char *face_describe(const struct piece *piece, enum measure_system system, struct arena *arena);
void face_prepare(struct piece *piece, struct diagnostics *diagnostics, int dimensions);

#endif
