# cleat: `make` builds, `make bid` compiles the demo job, `make test` runs every test. See DEVELOPERS.md.
CC      ?= gcc
CFLAGS  ?= -O2 -g
STD      = -std=c17 -D_POSIX_C_SOURCE=200809L
WARN     = -Wall -Wextra -Wconversion -Wshadow -Wstrict-prototypes -Wmissing-prototypes -Werror
B       ?= build
INC      = -Isrc -Iinclude -I$(B)
JANSSON := $(shell pkg-config --libs jansson 2>/dev/null || echo -ljansson)
LIBS     = $(JANSSON) -lm

SRC      = $(filter-out src/main/%,$(wildcard src/*/*.c))
OBJ      = $(SRC:src/%.c=$(B)/%.o) $(B)/grammar/scanner.o $(B)/grammar/parser.o
UNIT     = $(patsubst tests/unit/%.c,$(B)/unit/%,$(wildcard tests/unit/test_*.c))

all: $(B)/cleat

$(B)/cleat: $(patsubst src/%.c,$(B)/%.o,$(wildcard src/main/*.c)) $(B)/libcleat.a
	$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ $(LIBS)

$(B)/libcleat.a: $(OBJ)
	@rm -f $@
	ar rcs $@ $^

$(B)/%.o: src/%.c | $(B)/grammar/parser.c
	@mkdir -p $(@D)
	$(CC) $(STD) $(WARN) $(CFLAGS) $(INC) -MMD -c -o $@ $<

$(B)/grammar/parser.c: grammar/job.y
	@mkdir -p $(@D)
	bison -Wall -Wcounterexamples -Werror --defines=$(B)/grammar/parser.h -o $@ $<

$(B)/grammar/scanner.c: grammar/job.l $(B)/grammar/parser.c
	flex --header-file=$(B)/grammar/scanner.h -o $@ $<

# Generated code is compiled with the warnings it was written for.
$(B)/grammar/%.o: $(B)/grammar/%.c $(B)/grammar/scanner.c
	$(CC) $(STD) -Wall -Wextra $(CFLAGS) $(INC) -MMD -c -o $@ $<

$(B)/unit/%: tests/unit/%.c $(B)/libcleat.a
	@mkdir -p $(@D)
	$(CC) $(STD) $(WARN) $(CFLAGS) $(INC) -MMD -o $@ $< $(B)/libcleat.a -lcmocka $(LIBS)

unit: $(UNIT)
	@for t in $(UNIT); do $$t || exit 1; done

clean:
	rm -rf $(B)

.PHONY: all unit clean
-include $(shell find $(B) -name '*.d' 2>/dev/null)
