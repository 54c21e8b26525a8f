/* The working of a loss. */
#include "air/trace.h"

void trace_add(struct trace *trace, struct trace_step step, const struct trace_symbol *symbols, size_t count) {
    step.symbols = ARENA_ARRAY(trace->arena, struct trace_symbol, count);
    step.symbol_count = count;
    for (size_t i = 0; i < count; i++)
        step.symbols[i] = symbols[i];
    *list_add(trace->arena, &trace->steps) = step;
}

void trace_read(struct trace *trace, const char *what, const char *name, double value, enum source_id source,
                const char *words) {
    if (!trace)
        return;
    struct trace_step step = {.what = what, .name = name, .result = value, .source = source, .words = words};
    *list_add(trace->arena, &trace->steps) = step;
}

void trace_held(struct trace *trace, const char *name, double value, double held) {
    if (trace && value != held)
        trace_read(trace, "Held to the range of the relation", name, held, SOURCE_NONE,
                   arena_format(trace->arena, "for %.6g", value));
}
