/* One side of a network. */
#include "model/model.h"

struct network_side network_side(const struct network *network, bool supply) {
    if (supply)
        return (struct network_side){
            .paths = network->supply_paths.at,
            .count = network->supply_paths.count,
            .governing = network->governing_supply,
            .flow = network->supply_flow,
        };
    return (struct network_side){
        .paths = network->return_paths.at,
        .count = network->return_paths.count,
        .governing = network->governing_return,
        .flow = network->return_flow,
    };
}
