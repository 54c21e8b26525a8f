/* Words for pieces, items and sizes. */
#include "model/item_words.h"

#include "model/words.h"

const char *piece_words(const struct piece *piece, enum measure_system system, struct arena *arena) {
    const struct piece_kind *kind = piece->kind;
    bool readable = kind->describe && !piece->reading.faulty;
    const char *words = readable ? kind->describe(piece, system, arena) : kind->title;
    return piece->implied ? arena_format(arena, "%s (assumed)", words) : words;
}

/* Which leg of the split that ends its parent this run hangs from. */
static const char *leg_of(const struct run *run) {
    return run->from.kind == PORT_LEG ? leg_name(run->from.leg) : "its";
}

bool item_is_nothing(const struct item *item) {
    const struct piece *piece = item->piece;
    return item->role == ITEM_CONNECT && piece && piece->near && piece->far &&
           size_equal(piece->near->size, piece->far->size);
}

const char *item_words(const struct section *section, const struct item *item, enum measure_system system,
                       struct arena *arena) {
    switch (item->role) {
    case ITEM_PAST:
        return item->tapped ? arena_format(arena, "Past the tap of %s", item->tapped->name) : "Past a tap";
    case ITEM_LEG:
        return arena_format(arena, "%s: %s leg", item->piece ? piece_words(item->piece, system, arena) : "Split",
                            leg_of(section->run));
    case ITEM_CONNECT:
        if (item_is_nothing(item))
            return "Plain connection";
        break;
    case ITEM_BRANCH:
        if (section->run->parent)
            return arena_format(arena, "%s, off %s", item->piece ? piece_words(item->piece, system, arena) : "Tap",
                                section->run->parent->name);
        break;
    case ITEM_PIECE:
        break;
    }
    return item->piece ? piece_words(item->piece, system, arena) : "Duct";
}

const char *item_role_name(enum item_role role) {
    static const char *const names[] = {
        [ITEM_PIECE] = "piece", [ITEM_BRANCH] = "branch",   [ITEM_PAST] = "past",
        [ITEM_LEG] = "leg",     [ITEM_CONNECT] = "connect",
    };
    return names[role];
}

/* How a size came about, for people and for data. */
static const struct {
    const char *words, *name;
} reasons[] = {
    [SIZE_UNSET] = {"not sized", "unset"},
    [SIZE_CHOSEN] = {"chosen", "chosen"},
    [SIZE_DECLARED] = {"given", "declared"},
    [SIZE_COLLAR] = {"unit's collar", "collar"},
    [SIZE_SPLIT] = {"split's share", "split"},
    [SIZE_FRICTION] = {"friction rate", "friction"},
    [SIZE_VELOCITY] = {"velocity limit", "velocity"},
    [SIZE_HEIGHT_KEPT] = {"height kept", "height"},
    [SIZE_TAP] = {"room for taps", "tap"},
    [SIZE_WALL] = {"what it is cut into", "wall"},
    [SIZE_REGAIN] = {"static regain", "regain"},
    [SIZE_COST] = {"least cost", "cost"},
    [SIZE_SMALLEST] = {"smallest size", "smallest"},
    [SIZE_LIMITED] = {"largest that fits", "limited"},
};

const char *size_reason_words(enum size_reason reason) {
    return reasons[reason].words;
}

const char *size_reason_name(enum size_reason reason) {
    return reasons[reason].name;
}

const char *source_name(enum source_id id) {
    static const char *const names[SOURCE_COUNT] = {
#define X(name) [SOURCE_##name] = #name,
        SOURCE_IDS(X)
#undef X
    };
    return names[id];
}
