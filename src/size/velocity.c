/* Sizing by velocity alone. */
#include "size/velocity.h"

#include "size/limits.h"
#include "size/sizing.h"

static void velocity(struct job *job, struct network *network, const struct catalogue *catalogue,
                     struct diagnostics *said) {
    struct sizing sizing = sizing_make(job, network, catalogue, velocity_target);
    sizing.said = said;
    sizing_size(&sizing, 0);
    sizing_explain(&sizing, 0);
}

const struct sizing_method sizing_velocity = {
    .name = "velocity",
    .words = "Every duct is the smallest standard size in which the air moves no faster than the velocity recommended "
             "for its kind of run.",
    .size = velocity,
};
