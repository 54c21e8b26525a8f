/* The drawings of every part of the jobs: nothing overlaps, sizes are the blank's, and a sketch shows what is not hidden. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "compiled.h"
#include "draw_bench.h"
#include "near.h"
#include "report/figures.h"

static const char job_text[] =
    "job \"Drawings\"\n"
    "unit U { at closet, cooling 3 ton, airflow 1200 cfm, blower 0.5 in.wg, supply 20 x 8, return 20 x 10 }\n";

/* ---- Solids by hand ---------------------------------------------------------------------------------------------- */

static struct job *bare_job(struct bench *bench) {
    struct job *job = ARENA_NEW(bench->arena, struct job);
    job->arena = bench->arena;
    job->shop.stations = 16;
    return job;
}

/* A box a foot wide and high, two feet long, open at both ends. */
static struct part *box_part(struct bench *bench) {
    struct part *part = ARENA_NEW(bench->arena, struct part);
    *part = (struct part){.number = 3, .title = "Box", .shape = "box", .gauge = 26};
    part->solid = solid_new(bench->arena, 1);
    struct duct_size size = {SHAPE_RECTANGULAR, FOOT, FOOT};
    struct frame near = frame_near, far = frame_moved(&frame_near, 0, 2 * FOOT, 0);
    near.along = space_scale(near.along, -1);
    near.right = space_scale(near.right, -1);
    struct loft loft = {.near = frame_near,
                        .far = far,
                        .from = section_of(size),
                        .to = section_of(size),
                        .wrap = WRAP_ONE,
                        .near_end = {JOIN_PORT, solid_port(part->solid, PORT_USE_DUCT, "toward the unit", &near, size), false},
                        .far_end = {JOIN_PORT, solid_port(part->solid, PORT_USE_DUCT, "away", &far, size), false},
                        .name = "body"};
    solid_loft(part->solid, &loft);
    solid_close(part->solid);
    assert_null(part->solid->fault);
    return part;
}
