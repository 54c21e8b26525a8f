/* All statements that are not pieces, in the order of the manual. */
#include "model/build.h"

struct form_table model_forms(struct arena *arena) {
    const struct row_list *const lists[] = {&rows_file, &rows_job, &rows_shop, &rows_price, &rows_unit, &rows_settings};
    LIST(const struct form *) forms = {0};
    for (size_t l = 0; l < sizeof lists / sizeof lists[0]; l++)
        for (size_t i = 0; i < lists[l]->count; i++)
            *list_add(arena, &forms) = &lists[l]->at[i].form;
    return (struct form_table){.forms = forms.at, .count = forms.count};
}
