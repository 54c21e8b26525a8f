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

void make_face(const struct piece *piece, struct making *making) {
    struct arena *arena = making_scratch(making);
    const char *word = piece->kind->form.word;
    const char *size = piece_size_figures(piece, FACE_SIZE, making_job(making)->system, arena);
    make_bought(making, &(struct purchase){
                            .item = word,
                            .key = size ? arena_format(arena, "%s %s", word, size) : NULL,
                            .title = made_words(piece, making),
                        });
}
