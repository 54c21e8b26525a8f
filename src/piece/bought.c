/* What is bought, and what things are called in the shop. */
#include "metal/metal.h"
#include "model/item_words.h"
#include "piece/common.h"

const char *made_words(const struct piece *piece, struct making *making) {
    return piece_words(piece, making_job(making)->system, making_scratch(making));
}

const char *made_words_sized(const struct piece *piece, struct making *making, struct duct_size size) {
    struct arena *arena = making_scratch(making);
    return arena_format(arena, "%s, %s", made_words(piece, making), size_text(arena, making_job(making)->system, size));
}

void make_as_bought(const struct piece *piece, struct making *making) {
    make_bought(making, made_words(piece, making), 0);
}
