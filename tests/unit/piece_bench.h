/* A piece from a line of a job, in duct and air that a test sets.  Include it behind cmocka.h. */
#ifndef TESTS_UNIT_PIECE_BENCH_H
#define TESTS_UNIT_PIECE_BENCH_H

#include <stdlib.h>
#include <string.h>

#include "air/air.h"
#include "lang/syntax.h"
#include "near.h"
#include "piece/kinds.h"

#define DEGREE (3.14159265358979323846 / 180)
#define INCH 0.0254
#define FOOT 0.3048
#define CFM (FOOT * FOOT * FOOT / 60)
#define INCH_OF_WATER 248.84

struct piece_bench {
    struct arena *arena;
    jmp_buf no_memory;
    struct diagnostics diagnostics;
    struct air air;
    struct run run;
};

static inline int piece_bench_set_up(void **state) {
    struct piece_bench *bench = calloc(1, sizeof *bench);
    if (!bench)
        return 1;
    bench->arena = arena_new(NULL);
    if (setjmp(bench->no_memory))
        return 1;
    arena_on_failure(bench->arena, &bench->no_memory);
    bench->diagnostics.arena = bench->arena;
    bench->air = air_state(0);
    *state = bench;
    return 0;
}

static inline int piece_bench_tear_down(void **state) {
    struct piece_bench *bench = *state;
    arena_free(bench->arena);
    free(bench);
    return 0;
}

static inline const struct piece_kind *kind_named(const char *word) {
    const struct piece_table *table = piece_kinds();
    for (size_t i = 0; i < table->count; i++)
        if (strcmp(table->kinds[i]->form.word, word) == 0)
            return table->kinds[i];
    fail_msg("no kind '%s'", word);
    return NULL;
}

static inline struct form_table kind_forms(struct arena *arena) {
    const struct piece_table *table = piece_kinds();
    const struct form **forms = ARENA_ARRAY(arena, const struct form *, table->count);
    for (size_t i = 0; i < table->count; i++)
        forms[i] = &table->kinds[i]->form;
    return (struct form_table){.forms = forms, .count = table->count};
}

/* The piece that `line` declares, read and prepared; what is wrong with it is in the diagnostics. */
static inline struct piece *piece_from(struct piece_bench *bench, const char *line) {
    struct syntax *syntax = ARENA_NEW(bench->arena, struct syntax);
    struct form_table forms = kind_forms(bench->arena);
    syntax_parse(syntax, text_new(bench->arena, "line.job", line, strlen(line)), bench->arena, &bench->diagnostics);
    assert_int_equal(syntax->statements.count, 1);
    const struct statement *statement = syntax->statements.at[0];
    struct piece *piece = ARENA_NEW(bench->arena, struct piece);
    piece->kind = kind_named(statement->word);
    piece->run = &bench->run;
    piece->at = statement->at;
    form_read(&piece->reading, &piece->kind->form, statement, MEASURE_US, &forms, &bench->diagnostics);
    if (!piece->reading.faulty && piece->kind->prepare)
        piece->kind->prepare(piece, &bench->diagnostics);
    return piece;
}

/* The same of a line that has nothing wrong with it. */
static inline struct piece *sound_piece(struct piece_bench *bench, const char *line) {
    struct piece *piece = piece_from(bench, line);
    if (bench->diagnostics.all.count)
        fail_msg("%s: %s", line, bench->diagnostics.all.at[0]->message);
    assert_false(piece->reading.faulty);
    return piece;
}

static inline struct stream rectangular(double width, double height, double cfm) {
    return (struct stream){.size = {SHAPE_RECTANGULAR, width * INCH, height * INCH}, .flow = cfm * CFM};
}

static inline struct stream round_duct(double diameter, double cfm) {
    return (struct stream){.size = {SHAPE_ROUND, diameter * INCH, diameter * INCH}, .flow = cfm * CFM};
}

static inline struct stream oval(double width, double height, double cfm) {
    return (struct stream){.size = {SHAPE_OVAL, width * INCH, height * INCH}, .flow = cfm * CFM};
}

/* A piece passed through, in galvanised duct. */
static inline struct piece_flow flow_through(const struct piece_bench *bench, const struct piece *piece, bool supply,
                                             struct stream near, struct stream far) {
    return (struct piece_flow){.piece = piece,
                               .air = &bench->air,
                               .role = ITEM_PIECE,
                               .supply = supply,
                               .roughness = air_roughness(MATERIAL_GALVANISED),
                               .near = near,
                               .far = far};
}

static inline struct loss loss_of(const struct piece_flow *flow) {
    struct loss loss = {0};
    if (flow->piece->kind->loss)
        flow->piece->kind->loss(flow, &loss);
    return loss;
}

static inline struct loss loss_in(const struct piece_bench *bench, const struct piece *piece, bool supply,
                                  struct stream near, struct stream far) {
    struct piece_flow flow = flow_through(bench, piece, supply, near, far);
    return loss_of(&flow);
}

/* Velocity pressure of a stream, Pa, worked out here: rho (Q / A)^2 / 2. */
static inline double pressure_of(const struct piece_bench *bench, struct stream stream) {
    double velocity = stream.flow / size_area(stream.size);
    return bench->air.density * velocity * velocity / 2;
}

/* Friction along `length` m, Pa. */
static inline double friction_of(const struct piece_bench *bench, struct stream stream, double length) {
    return length * air_friction_rate(&bench->air, stream.flow, air_equivalent_diameter(stream.size),
                                      air_roughness(MATERIAL_GALVANISED));
}

#endif
