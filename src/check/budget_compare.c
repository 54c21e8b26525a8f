/* How changes compare. */
#include "check/budget_compare.h"

bool change_same_thing(const struct change *one, const struct change *other) {
    return one->kind == other->kind && one->duct == other->duct && one->piece == other->piece && one->run == other->run;
}

bool change_contains(const struct change *one, const struct change *other) {
    return change_same_thing(one, other) && one->speed == other->speed && one->step >= other->step &&
           (one->kind != CHANGE_SIZE || size_area(one->size) >= size_area(other->size));
}

bool changes_contain(const struct changes *more, const struct changes *less) {
    for (size_t i = 0; i < less->count; i++) {
        bool found = false;
        for (size_t k = 0; k < more->count && !found; k++)
            found = change_contains(&more->at[k], &less->at[i]);
        if (!found)
            return false;
    }
    return true;
}

static bool are_same_things(const struct changes *one, const struct changes *other) {
    size_t same = 0;
    for (size_t i = 0; i < one->count; i++)
        for (size_t k = 0; k < other->count; k++)
            same += change_same_thing(&one->at[i], &other->at[k]);
    return same == one->count && same == other->count;
}

bool changes_are_alike(const struct changes *one, const struct changes *other) {
    return changes_contain(one, other) || changes_contain(other, one) || are_same_things(one, other);
}

bool changes_share(const struct changes *one, const struct changes *other) {
    for (size_t i = 0; i < one->count; i++)
        for (size_t k = 0; k < other->count; k++)
            if (one->at[i].kind != CHANGE_SIDE && change_same_thing(&one->at[i], &other->at[k]))
                return true;
    return false;
}

static bool has_but_sides(const struct changes *all, const struct changes *some) {
    for (size_t i = 0; i < some->count; i++) {
        bool found = some->at[i].kind == CHANGE_SIDE;
        for (size_t k = 0; k < all->count && !found; k++)
            found = change_contains(&all->at[k], &some->at[i]) && change_contains(&some->at[i], &all->at[k]);
        if (!found)
            return false;
    }
    return true;
}

bool changes_are_same(const struct changes *one, const struct changes *other) {
    return has_but_sides(one, other) && has_but_sides(other, one);
}
