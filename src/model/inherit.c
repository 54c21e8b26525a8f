/* What a run inherits. */
#include "model/inherit.h"

/* How the metal is made up. */
static void inherit_making(struct settings *into, const struct settings *from) {
    if (!(into->pressure_class > 0))
        into->pressure_class = from->pressure_class;
    if (!into->seam_set) {
        into->seam_set = from->seam_set;
        into->seam = from->seam;
    }
    if (!into->joint_set) {
        into->joint_set = from->joint_set;
        into->joint = from->joint;
    }
}

/* Where it may be. */
static void inherit_room(struct settings *into, const struct settings *from) {
    if (!into->location_set) {
        into->location_set = from->location_set;
        into->location = from->location;
        into->location_temperature = from->location_temperature;
        into->location_winter = from->location_winter;
        into->location_humidity = from->location_humidity;
        into->location_dew_point = from->location_dew_point;
        into->location_minimum_set = from->location_minimum_set;
        into->location_minimum = from->location_minimum;
        into->location_height = from->location_height;
    }
    if (!into->clearance_set) {
        into->clearance_set = from->clearance_set;
        into->clearance = from->clearance;
    }
    if (!into->headroom_set) {
        into->headroom_set = from->headroom_set;
        into->headroom = from->headroom;
        into->floor = from->floor;
    }
}

/* What passes along any kind of connection. */
static void inherit_fabric(struct settings *into, const struct settings *from) {
    if (!into->material_set && from->material_set) {
        into->material_set = true;
        into->material = from->material;
    }
    if (!into->gauge)
        into->gauge = from->gauge;
    if (!into->insulation_set) {
        into->insulation_set = from->insulation_set;
        into->insulation = from->insulation;
    }
    if (!into->lining_set) {
        into->lining_set = from->lining_set;
        into->lining = from->lining;
    }
    if (!into->seal_set) {
        into->seal_set = from->seal_set;
        into->seal = from->seal;
    }
    inherit_making(into, from);
    inherit_room(into, from);
}

static void inherit_shape(struct settings *into, const struct settings *from) {
    if (into->shape_set || !from->shape_set)
        return;
    into->shape_set = true;
    into->shape = from->shape;
}

static void inherit_space(struct settings *into, const struct settings *from) {
    if (!(into->limit_height > 0))
        into->limit_height = from->limit_height;
    if (!(into->limit_width > 0))
        into->limit_width = from->limit_width;
    if (!into->limit_at.text)
        into->limit_at = from->limit_at;
}

/* From the job or the shop: everything. */
static void inherit_all(struct settings *into, const struct settings *from) {
    inherit_fabric(into, from);
    inherit_shape(into, from);
    inherit_space(into, from);
    if (!(into->limit_velocity > 0))
        into->limit_velocity = from->limit_velocity;
}

/* Whether any piece of the run has `trait`. */
static bool has_trait(const struct run *run, unsigned trait) {
    for (size_t i = 0; i < run->pieces.count; i++)
        if (run->pieces.at[i]->kind->traits & trait)
            return true;
    return false;
}

/* The shape of a run that goes as it began: on a collar that it says nothing against it is the collar's. */
static enum shape shape_throughout(const struct run *run) {
    const struct air_unit *unit = run->from.unit;
    if (run->from.kind != PORT_UNIT || !unit || run->own.shape_set)
        return run->settings.shape;
    struct duct_size collar = run->from.supply ? unit->supply : unit->return_;
    return size_known(collar) ? collar.shape : run->settings.shape;
}

/* The shape of a run at its end: that behind its last change of size. */
static enum shape shape_at_end(const struct run *run) {
    for (size_t i = run->pieces.count; i-- > 0;) {
        const struct piece *piece = run->pieces.at[i];
        if (!piece_resizes(piece))
            continue;
        struct duct_size to = piece->kind->resize ? piece->kind->resize(piece) : (struct duct_size){0};
        return size_known(to) ? to.shape : run->settings.shape;
    }
    return shape_throughout(run);
}

/* The shape of a run that nobody gave one. */
static enum shape default_shape(const struct run *run, const struct shop *shop) {
    switch (run->from.kind) {
    case PORT_TAP:
        return shop->runout_shape;
    case PORT_END:
        return shape_at_end(run->from.run);
    default:
        return shop->trunk_shape;
    }
}

void settings_inherit(struct run *run, const struct job *job) {
    struct settings *settings = &run->settings;
    const struct run *parent = run->from.run;
    bool same_space = run->from.kind == PORT_END || run->from.kind == PORT_LEG;
    *settings = run->own;
    /* Flexible duct is round unless the run says otherwise. */
    if (!settings->shape_set && has_trait(run, PIECE_FLEXIBLE)) {
        settings->shape_set = true;
        settings->shape = SHAPE_ROUND;
    }
    /* Nor is it lined: common practice, no source. */
    if (!settings->lining_set && has_trait(run, PIECE_FLEXIBLE))
        settings->lining_set = true;
    if (parent)
        inherit_fabric(settings, &parent->settings);
    if (parent && same_space) {
        inherit_shape(settings, &parent->settings);
        inherit_space(settings, &parent->settings);
    }
    inherit_all(settings, &job->settings);
    inherit_all(settings, &job->shop.settings);
    settings->stretch = job->shop.flex_stretch;
    if (!settings->shape_set)
        settings->shape = default_shape(run, &job->shop);
}
