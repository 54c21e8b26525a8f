/* Figures of the whole system: the tree, the pressure along the costliest path, the blower. */
#include "report/system_figures.h"

#include "report/figure_pressure.h"
#include "report/figure_tree.h"
#include "report/figures.h"

static bool is_drawn(const struct network *network) {
    return network && network->sections.count;
}

static bool has_path(const struct network *network) {
    return is_drawn(network) && network->blower_known && (network->governing_supply || network->governing_return);
}

bool system_has_network(const struct job *job) {
    for (size_t i = 0; i < job->units.count; i++)
        if (is_drawn(job->units.at[i]->network))
            return true;
    return false;
}

bool system_has_path(const struct job *job) {
    for (size_t i = 0; i < job->units.count; i++)
        if (has_path(job->units.at[i]->network))
            return true;
    return false;
}

static const char *file_of(struct document *document, const char *word, size_t *number) {
    return arena_format(document->arena, "%s-%zu.svg", word, ++*number);
}

void system_drawings_note(struct document *document) {
    if (!document->drawings)
        document_paragraph(document, "The drawings are left out here: they are files beside the paper. Write it to a "
                                     "file with -o to have them.");
}

void system_tree(const struct job *job, struct document *document) {
    size_t number = 0;
    document_paragraph(document, "What hangs from what, in the order of hanging, with the size and the design airflow of "
                                 "each run; the path that costs the most pressure is drawn thick.");
    system_drawings_note(document);
    for (size_t i = 0; document->drawings && i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        if (!is_drawn(network))
            continue;
        const struct tree *tree = tree_of(document->keep, network);
        for (size_t page = 0; page < tree_pages(tree); page++) {
            document_relieve(document);
            document_drawing(document, figure_tree(document->arena, job, tree, page),
                             file_of(document, "system", &number),
                             arena_format(document->arena, "What hangs from %s", network->unit->name));
        }
    }
}

void system_pressure(const struct job *job, struct document *document) {
    size_t number = 0;
    for (size_t i = 0; document->drawings && i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        if (!has_path(network))
            continue;
        const struct pressure_line *line = pressure_line_of(document->keep, job, network);
        for (size_t page = 0; page < pressure_pages(line); page++) {
            document_relieve(document);
            document_drawing(document, figure_pressure(document->arena, job, line, page),
                             file_of(document, "pressure", &number),
                             arena_format(document->arena, "Pressure along the costliest path of %s", network->unit->name));
        }
    }
}

void system_blower(const struct job *job, struct document *document) {
    size_t number = 0;
    for (size_t i = 0; document->drawings && i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        if (!has_path(network))
            continue;
        document_relieve(document);
        document_drawing(document, figure_blower(document->arena, job, network), file_of(document, "blower", &number),
                         arena_format(document->arena, "Blower of %s against the system", network->unit->name));
    }
}
