/* Runs, outlets and inlets with their pieces; alternates. */
#include "model/build.h"

/* Where a run says that it hangs; what that means is found by model_resolve. */
static void read_port(struct build *build, struct run *run, const struct reading *reading) {
    const struct argument *from = &reading->argument[RUN_FROM], *at = &reading->argument[RUN_AT];
    const struct argument *side = &reading->argument[RUN_SIDE];
    struct port *port = &run->from;
    /* The port of a faulty statement is ignored: it may not be what was meant. */
    port->name = from->given && !reading->faulty ? from->text : NULL;
    port->leg_name = from->given ? from->leg : NULL;
    port->at = from->given ? from->at : run->at;
    if (side->given) {
        port->side = (enum side)(SIDE_LEFT + side->choice);
        port->side_at = side->at;
    }
    if (at->given) {
        port->kind = PORT_TAP;
        port->station = at->number;
        port->station_about = at->about;
        port->station_at = at->at;
        build_within(build, at->at, at->number, &range_run);
    } else if (side->given && !reading->faulty) {
        struct diagnostic *error =
            build_error(build, "port", side->at, "a side is only for a tap: expected how far along '%s' it is",
                        from->given ? from->text : "the run");
        diagnostic_hint(build->job->diagnostics, error, "at 6 ft %s",
                        reading->form->slots[RUN_SIDE].choices[side->choice]);
    }
}

static void take_any_run(struct build *build, const struct reading *reading, enum run_role role,
                         enum form_place place) {
    struct run *run = ARENA_NEW(build->job->arena, struct run);
    const struct argument *name = &reading->argument[RUN_NAME];
    bool *outer = build->faulty;
    run->role = role;
    run->faulty = reading->faulty;
    run->name = name->given ? name->text : "";
    run->at = name->given ? name->at : reading->statement->word_at;
    run->alternate = build->alternate;
    run->title = reading->argument[RUN_TITLE].text;
    build->faulty = &run->faulty;
    read_port(build, run, reading);
    build->faulty = outer;
    build_block(build, reading->statement, place, run, &run->own, &run->faulty);
    if (!name->given)
        return;
    if (run->alternate) {
        run->id = (uint32_t)run->alternate->runs.count;
        *list_add(build->job->arena, &run->alternate->runs) = run;
    } else {
        run->id = (uint32_t)build->job->runs.count;
        *list_add(build->job->arena, &build->job->runs) = run;
    }
}

void take_run(struct build *build, const struct reading *reading) {
    take_any_run(build, reading, RUN_DUCT, IN_RUN);
}

void take_outlet(struct build *build, const struct reading *reading) {
    take_any_run(build, reading, RUN_OUTLET, IN_OUTLET);
}

void take_inlet(struct build *build, const struct reading *reading) {
    take_any_run(build, reading, RUN_INLET, IN_INLET);
}

void take_alternate(struct build *build, const struct reading *reading) {
    struct alternate *alternate = ARENA_NEW(build->job->arena, struct alternate);
    const struct argument *name = &reading->argument[NAMED_NAME];
    alternate->name = name->given ? name->text : "";
    alternate->title = reading->argument[NAMED_TITLE].text;
    alternate->at = name->given ? name->at : reading->statement->word_at;
    build->alternate = alternate;
    build_block(build, reading->statement, IN_ALTERNATE, alternate, NULL, NULL);
    build->alternate = NULL;
    if (name->given)
        *list_add(build->job->arena, &build->job->alternates) = alternate;
}

void take_without(struct build *build, const struct reading *reading) {
    for (const struct argument *a = &reading->argument[0]; a && a->given; a = a->next)
        *list_add(build->job->arena, &build->alternate->without) = (struct left_out){.name = a->text, .at = a->at};
}

void take_airflow(struct build *build, const struct reading *reading) {
    struct run *run = build->thing;
    const struct argument *flow = &reading->argument[0];
    if (!build_within(build, flow->at, flow->number, &range_airflow))
        return;
    if (run->load > 0) {
        struct diagnostic *error =
            build_error(build, "airflow", flow->at, "'%s' has an airflow and a load: expected one of them", run->name);
        diagnostic_relate(build->job->diagnostics, error, run->load_at, "the load is given here");
        return;
    }
    run->airflow = flow->number;
    run->airflow_given = true;
    run->airflow_at = flow->at;
}

void take_load(struct build *build, const struct reading *reading) {
    struct run *run = build->thing;
    const struct argument *load = &reading->argument[0];
    if (!build_within(build, load->at, load->number, &range_power))
        return;
    if (run->airflow_given) {
        struct diagnostic *error =
            build_error(build, "airflow", load->at, "'%s' has an airflow and a load: expected one of them", run->name);
        diagnostic_relate(build->job->diagnostics, error, run->airflow_at, "the airflow is given here");
        return;
    }
    run->load = load->number;
    run->load_at = load->at;
}

void take_piece(struct build *build, const struct piece_kind *kind, const struct statement *statement) {
    struct run *run = build->thing;
    struct piece *piece = ARENA_NEW(build->job->arena, struct piece);
    piece->system = build->job->system;
    piece->kind = kind;
    piece->at = statement->at;
    piece->run = run;
    build_read(build, &piece->reading, &kind->form, statement);
    if (!piece->reading.faulty && kind->prepare)
        kind->prepare(piece, build->job->diagnostics);
    if (!piece->reading.faulty && !build_within(build, piece->at, piece->length, &range_run))
        piece->reading.faulty = true;
    if (piece->reading.faulty)
        run->faulty = true;
    *list_add(build->job->arena, &run->pieces) = piece;
}
