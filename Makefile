# cleat: `make` builds, `make bid` compiles the demo job to its papers, `make test` runs every test.  DEVELOPERS.md tells of the
# rest.  B=DIR builds elsewhere, V=1 shows the commands.
ifeq ($(origin CC),default)
CC       = gcc
endif
CFLAGS  ?= -O2 -g
PREFIX  ?= /usr/local
PYTHON  ?= /usr/bin/python3
B       ?= build
SECONDS ?= 60
DEMO     = jobs/choirhouse.job

STD      = -std=c17 -D_POSIX_C_SOURCE=200809L
WARN     = -Wall -Wextra -Wconversion -Wshadow -Wstrict-prototypes -Wmissing-prototypes -Werror
INC      = -Isrc -Iinclude -I$(B) $(DRAW)
DEFS     = -DCLEAT_SHOP_FOLDER='"$(PREFIX)/share/cleat"'
LIBS     = $(shell pkg-config --libs jansson pangocairo 2>/dev/null || echo -ljansson -lpangocairo-1.0 -lcairo) -lm
# As system headers, whose warnings are not ours.
DRAW    := $(patsubst -I%,-isystem %,$(shell pkg-config --cflags-only-I pangocairo 2>/dev/null))
SAY      = $(if $(V),,@echo "  $@" &&)
COMPILE  = $(SAY) $(CC) $(STD) $(WARN) $(CFLAGS) $(INC)

MAIN     = $(patsubst src/%.c,$(B)/%.o,$(wildcard src/main/*.c))
OBJ      = $(patsubst src/%.c,$(B)/%.o,$(filter-out src/main/%,$(wildcard src/*/*.c))) $(B)/grammar/scanner.o $(B)/grammar/parser.o
UNIT     = $(patsubst tests/unit/%.c,$(B)/unit/%,$(wildcard tests/unit/test_*.c))
FUZZ     = $(patsubst tests/fuzz/%.c,$(B)/fuzz/%,$(wildcard tests/fuzz/fuzz_*.c))
BENCH    = $(patsubst tests/bench/%.c,$(B)/bench/%,$(wildcard tests/bench/*.c))

# A make inside make: with all processors unless the outer one was told how many.
AGAIN    = $(MAKE) --no-print-directory $(if $(filter -j%,$(MAKEFLAGS)),,-j$(shell nproc))
DEPS     = @CC="$(CC)" PYTHON="$(PYTHON)" .ci/deps
RUN      = CC="$(CC)" $(PYTHON) tests/run --build $(B)

all: $(B)/cleat

# ---- For people: each target sees to what it needs, then builds, then does its work -----------------------------------

bid:
	$(DEPS) build
	@$(AGAIN) all
	@$(B)/cleat bid $(DEMO) --for all --format pdf,md -o $(B)/bid/

test:
	$(DEPS) build test
	@$(AGAIN) all unit
	@$(RUN)

# Writes what the tool now says over tests/golden; read the difference before it is committed.
golden:
	$(DEPS) build test
	@$(AGAIN) all
	@$(RUN) --update golden

lint:
	$(DEPS) build test lint
	@.ci/lint $(B)

# The whole suite once more, with every access and every arithmetic step watched.
ASAN = -O1 -g -fno-omit-frame-pointer -fsanitize=address,undefined -fno-sanitize-recover=all
sanitize:
	$(DEPS) build test
	@$(AGAIN) all unit B=$(B)/asan CFLAGS="$(ASAN)"
	@LSAN_OPTIONS=suppressions=$(CURDIR)/tests/leaks.lsan:print_suppressions=0 $(MAKE) --no-print-directory run-tests B=$(B)/asan

VALGRIND = valgrind -q --error-exitcode=99 --leak-check=full --errors-for-leak-kinds=definite,indirect,possible \
           --suppressions=$(CURDIR)/tests/leaks.valgrind
valgrind:
	$(DEPS) build test valgrind
	@$(AGAIN) all unit
	@$(RUN) --wrap "$(VALGRIND)" unit cases

# Splits SECONDS among the fuzz tests.  The corpus is copied, so that what is found stays under $(B).
fuzz:
	$(DEPS) build fuzz
	@$(AGAIN) fuzzers B=$(B)/fuzzing CC=clang CFLAGS="-O1 -g -fno-omit-frame-pointer -fsanitize=fuzzer-no-link,address,undefined"
	@.ci/fuzz $(B)/fuzzing $(SECONDS)

bench:
	$(DEPS) build
	@$(AGAIN) all $(BENCH)
	@$(B)/bench/patterns
	@$(B)/bench/nests
	@$(B)/bench/route
	@$(B)/bench/bench $(B)/cleat $(B)/bench/generate $(B)/bench/jobs jobs/*.job
	@$(B)/bench/operate $(B)/bench/jobs/houses-100000.job $(B)/bench/jobs/trunk-10000.job

coverage:
	$(DEPS) build test coverage
	@$(AGAIN) all unit B=$(B)/coverage CFLAGS="-O0 -g --coverage"
	@$(MAKE) --no-print-directory run-tests B=$(B)/coverage
	@.ci/coverage $(B)/coverage

install: all
	install -d $(DESTDIR)$(PREFIX)/bin $(DESTDIR)$(PREFIX)/lib $(DESTDIR)$(PREFIX)/include/cleat \
	    $(DESTDIR)$(PREFIX)/share/man/man1 $(DESTDIR)$(PREFIX)/share/cleat
	install -m 755 $(B)/cleat $(DESTDIR)$(PREFIX)/bin/cleat
	install -m 644 $(B)/libcleat.a $(DESTDIR)$(PREFIX)/lib/libcleat.a
	install -m 644 include/cleat/cleat.h $(DESTDIR)$(PREFIX)/include/cleat/cleat.h
	sed 's,/usr/local/share/cleat,$(PREFIX)/share/cleat,' docs/cleat.1 > $(DESTDIR)$(PREFIX)/share/man/man1/cleat.1
	install -m 644 jobs/standard.shop $(DESTDIR)$(PREFIX)/share/cleat/standard.shop

clean:
	rm -rf $(B)

# ---- Inner targets ------------------------------------------------------------------------------------------------------

unit: $(UNIT)
benches: $(BENCH)
fuzzers: $(FUZZ)
run-tests:
	@$(RUN)

# ---- Rules --------------------------------------------------------------------------------------------------------------

$(B)/cleat: $(MAIN) $(B)/libcleat.a
	$(SAY) $(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ $(LIBS)

$(B)/libcleat.a: $(OBJ)
	@rm -f $@
	$(SAY) ar rcs $@ $^

$(B)/%.o: src/%.c | $(B)/grammar/scanner.c
	@mkdir -p $(@D)
	$(COMPILE) -MMD -MP -c -o $@ $<

# The command knows where its shop files are installed.
$(B)/main/%.o: src/main/%.c $(B)/prefix
	@mkdir -p $(@D)
	$(COMPILE) $(DEFS) -MMD -MP -c -o $@ $<

# Changes only when PREFIX does.
$(B)/prefix: always
	@mkdir -p $(@D)
	@echo '$(PREFIX)' | cmp -s - $@ || echo '$(PREFIX)' > $@

$(B)/grammar/parser.c: grammar/job.y
	@command -v bison >/dev/null || .ci/deps --only-say build
	@mkdir -p $(@D)
	$(SAY) bison -Wall -Wcounterexamples -Werror --defines=$(B)/grammar/parser.h -o $@ $<

$(B)/grammar/scanner.c: grammar/job.l $(B)/grammar/parser.c
	$(SAY) flex --header-file=$(B)/grammar/scanner.h -o $@ $<

# Generated code is compiled with the warnings it was written for.
$(B)/grammar/%.o: $(B)/grammar/%.c $(B)/grammar/scanner.c
	$(SAY) $(CC) $(STD) -Wall -Wextra $(CFLAGS) $(INC) -MMD -MP -c -o $@ $<

$(B)/unit/%: tests/unit/%.c $(B)/libcleat.a
	@mkdir -p $(@D)
	$(COMPILE) -MMD -MP -o $@ $< $(B)/libcleat.a -lcmocka $(LIBS)

$(B)/fuzz/%: tests/fuzz/%.c $(B)/libcleat.a
	@mkdir -p $(@D)
	$(COMPILE) -fsanitize=fuzzer -MMD -MP -o $@ $< $(B)/libcleat.a $(LIBS)

$(B)/bench/%: tests/bench/%.c $(B)/libcleat.a
	@mkdir -p $(@D)
	$(COMPILE) -MMD -MP -o $@ $< $(B)/libcleat.a $(LIBS)

.PHONY: all bid test golden lint sanitize valgrind fuzz bench coverage install clean unit benches fuzzers run-tests always
.SECONDARY:
-include $(shell find $(B) -name '*.d' 2>/dev/null)
