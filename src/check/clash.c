/* Runs that meet what is in their way. */
#include <math.h>
#include <string.h>

#include "air/fitting.h"
#include "base/constant.h"
#include "check/checks.h"
#include "model/entries.h"
#include "route/route.h"

/* "9 ft east, 2 ft north, 4 ft up"; of a unit without a position, from its supply collar. */
static const char *place_words(const struct look *look, struct space at) {
    const double figures[3] = {at.x, at.y, at.z};
    static const char *const forth[3] = {"east", "north", "up"}, *const back[3] = {"west", "south", "down"};
    const char *words = "";
    for (int i = 0; i < 3; i++)
        words = arena_format(look->job->arena, "%s%s%s %s", words, i ? ", " : "",
                             check_text(look->job, SHOW_RUN, fabs(figures[i])), figures[i] < 0 ? back[i] : forth[i]);
    return words;
}

static const char *other_words(const struct look *look, const struct clash *clash) {
    return clash->obstacle ? arena_format(look->job->arena, "the %s", clash->obstacle->title)
                           : check_name(look, clash->other);
}

static const char *from_words(const struct clash *clash) {
    return clash->run->unit && clash->run->unit->position_given ? "" : " of the unit's supply collar";
}

/* Less than this is not said as an overlap: they touch. */
static const double touching = 1 * MILLIMETRE;

static struct diagnostic *say(const struct look *look, const struct clash *clash) {
    const char *where = arena_format(look->job->arena, "%s%s", place_words(look, clash->at), from_words(clash));
    const char *other = clash->other == clash->run ? "itself" : other_words(look, clash);
    const char *subject = clash->run->name, *name = check_name(look, clash->run);
    if (clash->overlap < touching)
        return check_warn(look, clash->piece->at, subject,
                          "%s comes within %s of %s at %s: a clearance of %s is asked for", name,
                          check_text_down(look->job, SHOW_SIZE, clash->apart), other, where,
                          check_text(look->job, SHOW_SIZE, clash->clearance));
    return check_warn(look, clash->piece->at, subject, "%s runs into %s at %s: %s overlap", name, other, where,
                      check_text_up(look->job, SHOW_SIZE, clash->overlap));
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

/* What comes with an offset that one should know before it is pasted. */
static const char *with_it(const struct look *look, const struct clash *clash) {
    bool slight = fitting_mitre(NULL, atan2(clash->aside, clash->along), 1).outside != NULL;
    return arena_format(
        look->job->arena, "%s%s",
        slight ? "; so slight a turn lies outside the table of its loss, which is little" : "",
        lacks_hours(look->job) ? "; the shop then needs a line such as `hours offset, shop 0.8 h, field 0.4 h`" : "");
}

static bool stands_in(const struct look *look, const struct piece *piece) {
    return piece && ((piece->near && check_stands_in(look->job, piece->near)) ||
                     (piece->far && check_stands_in(look->job, piece->far)));
}

static void warn(const struct look *look, const struct clash *clash) {
    if (stands_in(look, clash->piece) || stands_in(look, clash->other_piece)) {
        check_pass_over(look, clash->run->name);
        return;
    }
    struct diagnostics *all = look->job->diagnostics;
    struct diagnostic *said = say(look, clash);
    if (clash->moved) {
        diagnostic_hint(all, said, "at %s", check_text(look->job, SHOW_RUN, clash->station));
        diagnostic_relate(all, said, clash->moved->from.station_at, "the tap of %s, put there, clears it%s%s",
                          clash->moved->name, clash->offset ? "; so does " : "", clash->offset ? clash->offset : "");
    }
    if (clash->offset) {
        if (!clash->moved)
            diagnostic_hint(all, said, "%s", clash->offset);
        diagnostic_relate(all, said, clash->before, "the offset clears it when its line stands before this one%s",
                          with_it(look, clash));
    } else if (!clash->moved) {
        diagnostic_hint(all, said, "move one of them: no single offset was found that clears it");
    }
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
                                         check_text_up(look->job, SHOW_SIZE, inside->overlap));
    bool assumed = !unit->return_position_given;
    diagnostic_hint(all, said,
                    assumed ? "`return ... at` says where its return collar stands: that is assumed here"
                            : "move one of them");
    diagnostic_relate(all, said, inside->obstacle->at, "what stands there");
}

void check_clash(struct job *job, const struct check *check, struct check_result *result) {
    struct look look = {job, check, result};
    if (!job->route)
        return;
    for (size_t i = 0; i < job->route->pieces.count; i++)
        result->looked_at += !job->route->pieces.at[i].free && job->route->pieces.at[i].count > 0;
    for (size_t i = 0; i < job->route->clashes.count; i++)
        warn(&look, &job->route->clashes.at[i]);
    for (size_t i = 0; i < job->route->inside.count; i++)
        warn_inside(&look, &job->route->inside.at[i]);
}
