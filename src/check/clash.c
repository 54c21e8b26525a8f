/* Runs that meet what is in their way. */
#include <math.h>
#include <string.h>

#include "base/constant.h"
#include "check/checks.h"
#include "model/directions.h"
#include "model/entries.h"
#include "model/lined.h"
#include "piece/offset.h"
#include "route/hull.h"
#include "route/route.h"
#include "size/size.h"

/* "9 ft east, 2 ft north, 4 ft up"; of a unit without a position, from its supply collar. */
static const char *place_words(const struct look *look, struct space at) {
    const double figures[3] = {at.x, at.y, at.z};
    const char *words = "";
    for (int i = 0; i < 3; i++)
        words = arena_format(look->job->arena, "%s%s%s %s", words, i ? ", " : "",
                             check_text(look->job, SHOW_RUN, fabs(figures[i])), axis_word(i, figures[i] < 0));
    return words;
}

static const char *other_words(const struct look *look, const struct clash *clash) {
    return clash->obstacle ? arena_format(look->job->arena, "the %s", clash->obstacle->title)
                           : check_name(look, clash->other);
}

static const char *from_words(const struct clash *clash) {
    return clash->run->unit && clash->run->unit->position_given ? "" : " of the unit's supply collar";
}

/* Less than this is not said as an overlap: they touch.  Chosen here, no source: no rule on a site tells it. */
static const double touching = 1 * MILLIMETRE;

static struct diagnostic *say(const struct look *look, const struct clash *clash) {
    const char *where = arena_format(look->job->arena, "%s%s", place_words(look, clash->at), from_words(clash));
    const char *other = clash->other == clash->run ? "itself" : other_words(look, clash);
    const char *subject = clash->run->name, *name = check_name(look, clash->run);
    if (clash->overlap < touching)
        return check_warn(look, clash->piece->at, subject,
                          "%s comes within %s of %s at %s: a clearance of %s is asked for", name,
                          check_text_down(look->job, SHOW_LINE, clash->apart), other, where,
                          check_text(look->job, SHOW_LINE, clash->clearance));
    return check_warn(look, clash->piece->at, subject, "%s runs into %s at %s: %s overlap", name, other, where,
                      check_text_up(look->job, SHOW_LINE, clash->overlap));
}

/* The shop prices work, and has no hours for an offset. */
static bool lacks_hours(const struct job *job) {
    bool priced = false;
    for (size_t i = 0; i < job->shop.entries.count; i++) {
        const struct reading *reading = &job->shop.entries.at[i]->reading;
        if (strcmp(reading->form->word, "hours") != 0)
            continue;
        priced = true;
        if (strcmp(reading->argument[HOURS_ITEM].text, "offset") == 0)
            return false;
    }
    return priced;
}

/* The section that a piece would stand in that is put before this one. */
static const struct section *section_before(const struct piece *piece) {
    const struct network *network = piece->run->unit ? piece->run->unit->network : NULL;
    const struct section *found = NULL;
    for (size_t i = 0; network && i < network->sections.count; i++) {
        const struct section *section = network->sections.at[i];
        if (section->duct == piece->near && section->run == piece->run &&
            section->station <= piece->station + SAME_STATION)
            found = section;
    }
    return found ? found : piece->run->first_section;
}

/* What the air will lose in the offset. */
static struct loss loss_of(const struct job *job, const struct clash *clash) {
    const struct duct *duct = clash->before->near;
    const struct section *section = section_before(clash->before);
    struct loss loss = {0};
    if (!duct || !section || !(section->flow > 0) || !size_known(duct->size))
        return loss;
    struct duct_size metal = duct_metal(duct);
    bool across = way_is_level(clash->offset.way);
    struct stream stream = {duct->size, section->flow};
    struct piece_flow flow = {
        .air = &job->air,
        .supply = clash->before->run->supply,
        .roughness = duct->roughness,
        .near = stream,
        .far = stream,
    };
    struct offset_bend bend =
        angled_offset(across ? metal.width : metal.height, clash->offset.aside, clash->offset.along);
    angled_offset_loss(&flow, clash->offset.way, &bend, &loss);
    return loss;
}

/* What is left of the blower's pressure on the costliest path through a section, Pa. */
static double left_over(const struct look *look, const struct section *through) {
    const struct network *network = through->run->unit->network;
    bool *behind = ARENA_ARRAY(look->job->arena, bool, network->sections.count + 1);
    for (size_t i = 0; i < network->sections.count; i++) {
        const struct section *section = network->sections.at[i];
        behind[section->id] = section == through || (section->parent && behind[section->parent->id]);
    }
    double least = INFINITY;
    for (size_t i = 0; i < network->supply_paths.count; i++)
        if (behind[network->supply_paths.at[i].end->id])
            least = fmin(least, network->supply_paths.at[i].surplus);
    for (size_t i = 0; i < network->return_paths.count; i++)
        if (behind[network->return_paths.at[i].end->id])
            least = fmin(least, network->return_paths.at[i].surplus);
    return least;
}

/* Sizes follow the blower: what takes more than is left of it changes them, and some methods look at every loss. */
static const char *sized_anew(const struct look *look, const struct clash *clash, double loss) {
    const struct job *job = look->job;
    const struct section *section = section_before(clash->before);
    const struct sizing_method *method = sizing_method_used(job);
    bool known = section && section->run->unit->network->blower_known;
    double left = known ? left_over(look, section) : INFINITY;
    bool follows = method && method->meets_budget && !(job->friction_rate > 0);
    if (loss > left)
        return arena_format(job->arena, ", more than the %s left over there%s",
                            check_text_down(job, SHOW_PRESSURE, fmax(left, 0)),
                            follows ? ": ducts are then sized anew, and what depends on sizes is checked anew" : "");
    return method && method->follows_losses ? ": ducts may then be sized anew" : "";
}

/* What comes with an offset that one should know before it is pasted. */
static const char *with_it(const struct look *look, const struct clash *clash) {
    struct loss loss = loss_of(look->job, clash);
    struct arena *arena = look->job->arena;
    const char *cost = "", *outside = "";
    if (loss.outside)
        outside = arena_format(arena, ", an estimate (the end of the range: %s)", loss.outside);
    if (loss.pressure > SHOWN_AS_NOTHING)
        cost = arena_format(arena, "; it costs %s%s%s", check_text(look->job, SHOW_PRESSURE, loss.pressure), outside,
                            sized_anew(look, clash, loss.pressure));
    return arena_format(
        arena, "%s%s%s", cost,
        clash->before->near && clash->before->near->leg_start ? "; the leg is then sized anew" : "",
        lacks_hours(look->job) ? "; the shop then needs a line such as `hours offset, shop 0.8 h, field 0.4 h`" : "");
}

/* Whether other words stand before it on its line. */
static bool is_within_a_line(struct span at) {
    size_t i = at.begin;
    while (i > 0 && (at.text->bytes[i - 1] == ' ' || at.text->bytes[i - 1] == '\t'))
        i--;
    return i > 0 && at.text->bytes[i - 1] != '\n';
}

/* As it is to be typed: alone on its line, or with a semicolon before the piece behind it. */
static const char *typed(const struct look *look, const struct clash *clash) {
    const char *line = offset_line(look->job->arena, look->job->system, &clash->offset);
    return is_within_a_line(clash->before->at) ? arena_format(look->job->arena, "%s;", line) : line;
}

static bool stands_in(const struct look *look, const struct piece *piece) {
    return piece && ((piece->near && check_stands_in(look->job, piece->near)) ||
                     (piece->far && check_stands_in(look->job, piece->far)));
}

/* The hint that a clash has before its offset; NULL: none. */
static const char *hint_before_offset(const struct look *look, const struct clash *clash) {
    struct arena *arena = look->job->arena;
    if (clash->shortened)
        return arena_format(arena, "%s %s", clash->shortened->kind->form.word,
                            check_text(look->job, SHOW_RUN, clash->length));
    return clash->moved ? arena_format(arena, "at %s", check_text(look->job, SHOW_RUN, clash->station)) : NULL;
}

/* The clash that an offset is told for which clears `clash` too. */
static const struct clash *told_with(const struct look *look, const struct clash *clash) {
    const struct route *route = look->job->route;
    for (size_t i = 0; i < route->clashes.count; i++) {
        const struct clash *other = &route->clashes.at[i];
        if (other->run == clash->with && other->before == clash->before && !other->with)
            return other;
    }
    return NULL;
}

static void tell_offset_of_other(const struct look *look, const struct clash *clash, struct diagnostic *said) {
    const struct clash *other = told_with(look, clash);
    const char *hint = other && clash->keeps ? hint_before_offset(look, other) : NULL;
    const char *lacks = hint ? arena_format(look->job->arena, "; its other hint, `%s`, does not", hint) : "";
    diagnostic_relate(look->job->diagnostics, said, clash->before->at,
                      "the offset that is told for %s here, `%s`, clears this too%s", clash->with->name,
                      typed(look, clash), lacks);
}

static void tell_offset(const struct look *look, const struct clash *clash, struct diagnostic *said) {
    struct diagnostics *all = look->job->diagnostics;
    if (clash->with) {
        tell_offset_of_other(look, clash, said);
        return;
    }
    if (!clash->moved && !clash->shortened)
        diagnostic_hint(all, said, "%s", typed(look, clash));
    diagnostic_relate(all, said, clash->before->at, "the offset clears it when %s%s",
                      is_within_a_line(clash->before->at) ? "it is typed in this line, before this piece"
                                                          : "its line stands before this one",
                      with_it(look, clash));
}

/* A straight made shorter, or a tap put elsewhere. */
static void tell_before_offset(const struct look *look, const struct clash *clash, struct diagnostic *said) {
    struct diagnostics *all = look->job->diagnostics;
    const char *so_does = clash->offset.found ? arena_format(look->job->arena, "; so does %s", typed(look, clash)) : "";
    diagnostic_hint(all, said, "%s", hint_before_offset(look, clash));
    if (clash->shortened)
        diagnostic_relate(all, said, clash->shortened->at, "this piece, so long, ends before it%s%s",
                          clash->shortened->run->role == RUN_DUCT
                              ? ""
                              : arena_format(look->job->arena, ", and what %s ends in comes %s nearer",
                                             clash->shortened->run->name,
                                             check_text(look->job, SHOW_RUN, clash->shortened->length - clash->length)),
                          so_does);
    else
        diagnostic_relate(all, said, clash->moved->from.station_at, "the tap of %s, put there, clears it%s",
                          clash->moved->name, so_does);
}

static void warn(const struct look *look, const struct clash *clash) {
    if (stands_in(look, clash->piece) || stands_in(look, clash->other_piece))
        return;
    struct diagnostics *all = look->job->diagnostics;
    struct diagnostic *said = say(look, clash);
    bool before = clash->shortened || clash->moved;
    if (before)
        tell_before_offset(look, clash, said);
    if (clash->offset.found)
        tell_offset(look, clash, said);
    else if (!before)
        diagnostic_hint(all, said, "move one of them: no single offset was found that clears it");
    if (clash->obstacle)
        diagnostic_relate(all, said, clash->obstacle->at, "what is in the way");
    else if (clash->other != clash->run)
        diagnostic_relate(all, said, clash->other_piece->at, "what it meets");
}

static void warn_inside(const struct look *look, const struct inside *inside) {
    struct diagnostics *all = look->job->diagnostics;
    const struct air_unit *unit = inside->unit;
    struct diagnostic *said = check_warn(look, unit->at, unit->name,
                                         "the %s stands in %s, as that is drawn between its collars, at %s: %s overlap",
                                         inside->obstacle->title, unit->name, place_words(look, inside->at),
                                         check_text_up(look->job, SHOW_LINE, inside->overlap));
    bool assumed = !unit->return_position_given;
    diagnostic_hint(all, said,
                    assumed ? "`return ... at` says where its return collar stands: that is assumed here"
                            : "move one of them");
    diagnostic_relate(all, said, inside->obstacle->at, "what stands there");
}

/* ---- Collars ----------------------------------------------------------------------------------------------------- */

/* The mouth of a collar: a slice of its duct, 1 in thick.  Chosen here, no source: about what a joint takes. */
static struct hull mouth_of(const struct placed_run *placed, struct duct_size collar) {
    struct duct_size size = size_known(collar) ? collar : duct_metal(placed->run->first_duct);
    const double half = 0.5 * INCH;
    struct stretch slice = {.near = frame_moved(&placed->begin, 0, -half, 0),
                            .far = frame_moved(&placed->begin, 0, half, 0),
                            .from = size,
                            .to = size};
    return hull_of_stretch(&slice);
}

/* A return collar that the job puts where the supply collar is. */
static bool collars_meet(const struct job *job, const struct air_unit *unit) {
    const struct placed_run *supply = unit->supply_run ? route_of(job, unit->supply_run) : NULL;
    const struct placed_run *back = unit->return_run ? route_of(job, unit->return_run) : NULL;
    if (!unit->return_position_given || !supply || !back)
        return false;
    struct hull one = mouth_of(supply, unit->supply), other = mouth_of(back, unit->return_);
    return hull_overlap(&one, &other) > route_slack;
}

static void look_at_collars(const struct look *look, const struct air_unit *unit) {
    if (unit->faulty || !collars_meet(look->job, unit))
        return;
    struct diagnostics *all = look->job->diagnostics;
    struct diagnostic *said =
        diagnose(all, DIAGNOSTIC_ERROR, look->check->name, unit->return_position_at,
                 "the return collar of %s is where its supply collar is: both cannot be there", unit->name);
    said->subject = unit->name;
    diagnostic_relate(all, said, size_known(unit->supply) ? unit->supply_at : unit->at,
                      "its supply collar: `at` says where the middle of it is");
    diagnostic_hint(all, said, "behind `return ... at` goes the middle of the return collar; left out, it is opposite");
}

/* What comes of collars that are in each other is no news. */
static bool comes_of_collars(const struct look *look, const struct clash *clash) {
    const struct run *other = clash->other;
    return other && clash->run->unit && clash->run->unit == other->unit && clash->run->supply != other->supply &&
           collars_meet(look->job, other->unit);
}

void check_clash(const struct look *look) {
    const struct job *job = look->job;
    if (!job->route)
        return;
    for (size_t i = 0; i < job->route->pieces.count; i++)
        look->result->looked_at += !job->route->pieces.at[i].free && job->route->pieces.at[i].count > 0;
    for (size_t i = 0; i < job->units.count; i++)
        look_at_collars(look, job->units.at[i]);
    for (size_t i = 0; i < job->route->clashes.count; i++)
        if (!comes_of_collars(look, &job->route->clashes.at[i]))
            warn(look, &job->route->clashes.at[i]);
    for (size_t i = 0; i < job->route->inside.count; i++)
        warn_inside(look, &job->route->inside.at[i]);
}
