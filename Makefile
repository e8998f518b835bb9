# Settings first, then rules; `make help` lists the targets, and with each of them go
#   SANITIZE=1  the address and undefined-behaviour sanitizers     BUILD=DIR  another folder
#   ONLY=PART   of the script tests, those whose path holds PART   V=1  show whole commands
BUILD = build
PREFIX = /usr/local
CC = gcc
CFLAGS =
LDFLAGS =
FUZZ_SECONDS = 20

FLAVOUR = $(if $(SANITIZE),sanitize,release)
OUT = $(BUILD)/$(FLAVOUR)
# Nobody asks `errno` about a root, so that it is one instruction.
FLAGS_release = -O3 -g -fno-math-errno
FLAGS_sanitize = -O1 -g -fno-omit-frame-pointer -fsanitize=address,undefined \
  -fno-sanitize-recover=all
FLAGS_fuzz = -O1 -g -fno-omit-frame-pointer -fsanitize=fuzzer-no-link,address
# The same sums on every machine: no product and sum in one rounding.
STANDARD = -std=c11 -D_POSIX_C_SOURCE=200809L -ffp-contract=off
WARNINGS = -Wall -Wextra -Wshadow -Wconversion -Wstrict-prototypes -Wmissing-prototypes \
  -Wvla -Wformat=2 -Wcast-qual -Wpointer-arith -Wwrite-strings -Wundef -Werror

# Asked once, and only when something is compiled: `make deps` runs before they are there.
pkg = $(or $(shell pkg-config $1),$(error pkg-config $1: run `make deps` first))
LIB_FLAGS = $(eval LIB_FLAGS := $$(call pkg,--cflags lua5.4 lua5.4-lpeg jansson))$(LIB_FLAGS)
LIBS = $(eval LIBS := $$(call within,$$(call pkg,--libs lua5.4 lua5.4-lpeg jansson)) -lm)$(LIBS)
# Small libraries become part of the program, where they come as archives too: to load them
# takes longer than much of a run. Lua is taken whole, for the modules that call it.
archive = $(filter /%,$(shell $(CC) -print-file-name=lib$1.a))
whole = $(if $(filter lua5.4,$1),-Wl$(comma)--whole-archive $2 -Wl$(comma)--no-whole-archive,$2)
within = $(foreach lib,$1,$(call whole,$(lib:-l%=%),$(or $(call archive,$(lib:-l%=%)),$(lib))))
comma = ,
TEST_LIBS = $(eval TEST_LIBS := $$(call pkg,--libs cmocka))$(TEST_LIBS)
ICAL_LIBS = $(eval ICAL_LIBS := $$(call pkg,--libs libical))$(ICAL_LIBS)
MAP_FLAGS = $(eval MAP_FLAGS := $$(patsubst -I%,-isystem%,$$(call pkg,--cflags gdal geos proj)))$(MAP_FLAGS)
MAP_LIBS = $(eval MAP_LIBS := $$(call pkg,--libs gdal geos proj))$(MAP_LIBS)
COMPILE = $(CC) $(STANDARD) $(WARNINGS) $(FLAGS_$(FLAVOUR)) $(CFLAGS) -Isrc $(LIB_FLAGS)
# With its functions open to its modules.
LINK = $(CC) $(FLAGS_$(FLAVOUR)) $(LDFLAGS) -Wl,--as-needed -rdynamic
# As many at once as there are processors, unless `make -j` has said.
JOBS = $(if $(findstring jobserver,$(MAKEFLAGS)),,-j$(shell nproc))
Q = $(if $(V),,@echo "  $@" &&)

made = $(patsubst %.c,$(OUT)/%$2,$(sort $(wildcard $1)))
# What stands on the libraries of maps is a module, which few runs load.
MAPS = $(call made,src/ground/*_geos.c src/ground/*_proj.c src/ground/*_gdal.c src/bind/maps*.c,.o)
ROOMS = $(filter-out $(MAPS),$(call made,src/*/*.c,.o)) $(OUT)/builtin_list.o \
  $(OUT)/needs_list.o
PARTS = $(ROOMS) $(OUT)/prepared_list.o
UNITS = $(call made,tests/unit/*/test_*.c)
BENCHES = $(call made,tests/bench/bench_*.c)
# Measures what it is given: projects in Patterson's form.
RCPSP = $(OUT)/tests/bench/rcpsp
FUZZERS = $(call made,tests/fuzz/fuzz_*.c)
HEADERS = $(patsubst %,$(OUT)/%.ok,$(sort $(wildcard src/*/*.h)))
BUILTINS := $(shell find stdlib prescriptions src/*/ -name '*.lua' -o -name '*.rx' | \
  LC_ALL=C sort)

all: $(OUT)/spinney $(OUT)/spinney-maps.so ## build spinney (build/release/spinney)

$(OUT)/spinney: $(OUT)/src/main.o $(PARTS)
	$(Q) $(LINK) $^ $(LIBS) -o $@
$(OUT)/spinney-maps.so: $(MAPS)
	$(Q) $(LINK) -shared $^ $(MAP_LIBS) -o $@
$(MAPS): CFLAGS += -fPIC $(MAP_FLAGS)
$(OUT)/%.o: %.c Makefile
	@mkdir -p $(@D)
	$(Q) $(COMPILE) -MMD -MP -c $< -o $@

# The vocabulary and the book of prescriptions, as one C file. The list of their names is
# rewritten only when it changes, so that a file taken away is noticed too.
$(OUT)/builtin_list.txt: FORCE
	@mkdir -p $(@D)
	@printf '%s\n' $(BUILTINS) | cmp -s - $@ || printf '%s\n' $(BUILTINS) > $@
$(OUT)/builtin_list.c: src/embed.lua $(OUT)/builtin_list.txt $(BUILTINS)
	$(Q) lua5.4 src/embed.lua $(OUT)/builtin_list.txt $@ $(if $(SANITIZE),names)
# Its scripts as they are read by spinney's own reader, which ends the build at a slip.
$(OUT)/prepare: $(OUT)/src/prepare.o $(ROOMS)
	$(Q) $(LINK) $^ $(LIBS) -o $@
$(OUT)/prepared_list.c: $(OUT)/prepare
	$(Q) $< $@
# What the library of maps stands on, the last first (bind/module.h).
$(OUT)/needs_list.c: src/needs.lua Makefile
	@mkdir -p $(@D)
	$(Q) LC_ALL=C readelf -d $(shell $(CC) -print-file-name=libgdal.so) | lua5.4 src/needs.lua $@
$(OUT)/%_list.o: $(OUT)/%_list.c Makefile
	$(Q) $(COMPILE) -MMD -MP -c $< -o $@

$(UNITS): $(OUT)/%: $(OUT)/%.o $(PARTS)
	$(Q) $(LINK) $(filter %.o,$^) $(TEST_LIBS) $(LIBS) $(MORE_LIBS) -o $@
# The tests of a module's parts have them within.
MAP_UNITS = $(filter $(OUT)/tests/unit/maps/%,$(UNITS))
$(MAP_UNITS): $(MAPS)
$(OUT)/tests/unit/bind/test_module: $(OUT)/spinney-maps.so
$(MAP_UNITS) $(OUT)/tests/fuzz/fuzz_map: MORE_LIBS = $(MAP_LIBS)
$(MAP_UNITS:%=%.o) $(OUT)/tests/fuzz/fuzz_map.o: CFLAGS += $(MAP_FLAGS)
$(OUT)/tests/fuzz/fuzz_map: $(MAPS)
# Calendars are read back by a library, and by a program of it that tests of the papers use.
ICAL_READER = $(OUT)/tests/cli/ical_reader
$(OUT)/tests/unit/page/test_ical: MORE_LIBS = $(ICAL_LIBS)
$(ICAL_READER): $(OUT)/%: $(OUT)/%.o
	$(Q) $(LINK) $^ $(ICAL_LIBS) -o $@
$(BENCHES) $(RCPSP): $(OUT)/%: $(OUT)/%.o $(PARTS)
	$(Q) $(LINK) $^ $(LIBS) -o $@
$(FUZZERS): $(OUT)/%: $(OUT)/%.o $(PARTS)
	$(Q) $(LINK) -fsanitize=fuzzer $^ $(LIBS) $(MORE_LIBS) -o $@
# Open stands, which are not ours to keep: without R they are missing, and the tests that
# want them say so.
OPEN_DATA = $(abspath $(BUILD))/data
OPEN_TESTS = $(foreach test,$(UNITS),$(if $(findstring /test_open_,$(test)),$(test)))
$(OPEN_DATA)/trees.csv: tests/data/export.R
	$(Q) Rscript --vanilla $< $(@D) || true
$(OPEN_TESTS): | $(OPEN_DATA)/trees.csv
$(OPEN_TESTS:%=%.o): CFLAGS += -DOPEN_DATA='"$(OPEN_DATA)"'
# Nor is a second library's opinion of areas, which wants npm.
$(OPEN_DATA)/geodesic.txt: tests/data/geodesic.js
	$(Q) mkdir -p $(@D) && npm install --silent --no-audit --no-fund --prefix $(@D) \
	  geographiclib-geodesic@2.1.1 && node $< $(@D) || true
INDEPENDENT = $(filter %/test_frame_independent,$(MAP_UNITS))
$(INDEPENDENT): | $(OPEN_DATA)/geodesic.txt
$(INDEPENDENT:%=%.o): CFLAGS += -DOPEN_DATA='"$(OPEN_DATA)"'
# Nor is the schema of GPX.
GPX_SCHEMA = $(OPEN_DATA)/gpx-1.1.xsd
$(GPX_SCHEMA): tests/data/gpx-schema
	$(Q) $< $@ || true
GPX_TEST = $(filter %/test_gpx,$(UNITS))
$(GPX_TEST): | $(GPX_SCHEMA)
$(GPX_TEST:%=%.o): CFLAGS += -DGPX_SCHEMA='"$(GPX_SCHEMA)"'
# Nor are the readers of GeoJSON that read what we write.
READERS = $(OPEN_DATA)/readers/node_modules/.package-lock.json
$(READERS): tests/data/geojson.js
	$(Q) mkdir -p $(OPEN_DATA)/readers && npm install --silent --no-audit --no-fund \
	  --prefix $(OPEN_DATA)/readers geojson-validation@1.0.2 @turf/area@7.2.0 \
	  @turf/boolean-clockwise@7.2.0 && touch $@ || true
$(filter %_gdal.h.ok %_geos.h.ok,$(HEADERS)): CFLAGS += $(MAP_FLAGS)
# Every header compiles alone, and a second time does nothing.
$(OUT)/%.h.ok: %.h Makefile
	@mkdir -p $(@D)
	$(Q) printf '#include "%s"\n' $(<:src/%=%) $(<:src/%=%) | \
	  $(COMPILE) -fsyntax-only -MMD -MP -MT $@ -MF $@.d -x c - && touch $@

lint: $(HEADERS) ## what can be said of the text alone, and the test runner's own tests
	lua5.4 tests/rooms.lua
	luacheck -q --no-color src stdlib tests
	lua5.4 tests/runner/self.lua

check: all $(UNITS) $(ICAL_READER) $(READERS) $(GPX_SCHEMA) $(if $(SANITIZE),,lint) ## unit tests and script tests of this flavour
	@status=0; tests/units $(UNITS) || status=1; \
	for part in cli rules help published; do \
	  lua5.4 tests/$$part.lua $(OUT) || status=1; done; \
	lua5.4 tests/run.lua $(OUT) $(ONLY) && exit $$status

test: deps ## install what is missing, check the release build, then the sanitizers
	$(MAKE) $(JOBS) check
	$(MAKE) $(JOBS) check SANITIZE=1

demo: ## install what is missing, build, print the plan of Quill Creek
	.ci/deps build
	$(MAKE) $(JOBS) all
	@# 1: the plan has a stop, which is for its reader, not for make.
	$(OUT)/spinney run examples/quill-creek/plan.rx || [ $$? -eq 1 ]

deps: ## install the libraries and tools that are missing
	.ci/deps build test

accept: all ## take what the script tests print now as what they should print
	lua5.4 tests/run.lua $(OUT) --accept $(ONLY)

published: all ## show what was published beside what a script computes, row by row
	lua5.4 tests/published.lua $(OUT) --rows $(ONLY)

cover: $(OPEN_TESTS) ## show how often the interval of a cruise holds the truth
	@for test in $^; do $$test 2>&1 | grep -v '^\[ *\(RUN\|OK\)'; done

bench: all $(BENCHES) $(RCPSP) ## measure speed and print the ratios
	tests/bench/run $(OUT) $(BENCHES)

fuzz: ## throw odd input at the readers, FUZZ_SECONDS each
	.ci/deps build fuzz
	$(MAKE) $(JOBS) FLAVOUR=fuzz CC=clang fuzzers
fuzzers: $(FUZZERS)
	tests/fuzz/run $(FUZZ_SECONDS) $(FUZZERS)

install: all ## copy spinney to DESTDIR, PREFIX, bin, and its module to lib/spinney
	install -d $(DESTDIR)$(PREFIX)/bin
	install -m 755 $(OUT)/spinney $(DESTDIR)$(PREFIX)/bin/spinney
	install -d $(DESTDIR)$(PREFIX)/lib/spinney
	install -m 755 $(OUT)/spinney-maps.so $(DESTDIR)$(PREFIX)/lib/spinney/spinney-maps.so

clean: ## remove the build folder
	rm -rf $(BUILD)

help: ## list the targets
	@sed -n 's/^\([a-z]*\):.*## /  make \1	/p' Makefile

.PHONY: all lint check test demo deps accept published cover bench fuzz fuzzers install clean help FORCE
.SECONDARY:
-include $(shell find $(OUT) -name '*.d' 2>/dev/null)
