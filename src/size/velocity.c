/* Sizing by velocity alone. */
#include "size/velocity.h"

#include "size/limits.h"
#include "size/tree.h"

static void velocity(struct job *job, struct network *network, const struct catalogue *catalogue,
                     struct diagnostics *said) {
    struct tree tree = tree_make(job, network, catalogue, velocity_target);
    tree.said = said;
    tree_size(&tree, 0);
    tree_explain(&tree, 0);
}

const struct sizing_method sizing_velocity = {
    .name = "velocity",
    .words = "Every duct is the smallest standard size in which the air moves no faster than the velocity recommended "
             "for its kind of run.",
    .size = velocity,
};
