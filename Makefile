# The front door. Needs python3 (3.11 or newer) and make; everything else is fetched into .tools and .venv, nothing outside
# this folder is touched (one exception: as root on Debian or Ubuntu, packages that are missing are installed).

SHELL := /bin/sh
.DEFAULT_GOAL := help
MAKEFLAGS += --no-builtin-rules
.DELETE_ON_ERROR:

PYTHON ?= python3
DEMO ?= demo-workshop
PORT ?= 8484
TESTS ?=
WORKERS ?= auto
CLUBS ?= 2000
SEEDS ?= 200
FIRST ?= 0
REPLAY ?=

UV := .tools/bin/uv
BIN := .venv/bin
LOCK := pyproject.toml uv.lock

export UV_COMPILE_BYTECODE = 1
export UV_PYTHON_DOWNLOADS = never
export UV_PYTHON_PREFERENCE = only-system
export UV_PROJECT_ENVIRONMENT = .venv
unexport VIRTUAL_ENV

# Where the machine has its own list of certificates (a company's proxy, say), uv goes by it, as pip does.
ifneq ($(wildcard /etc/ssl/certs/ca-certificates.crt /etc/pki/tls/certs/ca-bundle.crt /etc/ssl/cert.pem),)
export UV_SYSTEM_CERTS = 1
endif

.PHONY: help run setup test test-fresh check style types layers dependencies verification simulate bench pictures format versions clean

help: ## Show this list
	@awk -F ':.*## ' '/^[a-z-]+:.*## / { printf "make %-14s %s\n", $$1, $$2 }' Makefile

run: .venv/ready-to-run ## Open the bench page on an invented workshop (kept in demo-workshop; PORT=8484, stop with Ctrl-C)
	@$(BIN)/clubwright demo --serve --folder $(DEMO) --port $(PORT)

setup: .venv/ready-to-develop ## Make the environment for working on the code

test: .venv/ready-to-develop .venv/ready-for-postgres .venv/ready-for-browser ## Run every test (TESTS="tests/unit -k length" for some; WORKERS=0: one process)
	@$(BIN)/pytest --numprocesses=$(WORKERS) --maxprocesses=8 --dist=worksteal $(TESTS)

test-fresh: ## The same with examples drawn anew: other seeds than last time, and so other chances to find a fault
	@HYPOTHESIS_PROFILE=fresh $(MAKE) --no-print-directory test

check: style types layers dependencies ## Style, types, import layers, dependencies (make -k check: all, whatever fails)

style: .venv/ready-to-develop
	@$(BIN)/ruff check .
	@$(BIN)/ruff format --check .

types: .venv/ready-to-develop
	@$(BIN)/mypy

layers: .venv/ready-to-develop
	@$(BIN)/lint-imports --no-cache --no-logo

dependencies: .venv/ready-to-develop
	@$(BIN)/deptry src

verification: .venv/ready-to-develop ## Write docs/verification.md anew from the outside checks
	@$(BIN)/pytest tests/published -q --write-verification

simulate: .venv/ready-to-develop ## Play simulated shops against their laws (SEEDS=10000 FIRST=0 for more; REPLAY=FILE for one that failed)
	@OPENBLAS_NUM_THREADS=1 $(BIN)/python tests/simulate/run.py --seeds $(SEEDS) --first $(FIRST) $(if $(REPLAY),--replay $(REPLAY))

bench: .venv/ready-to-develop ## Time the program, then work simulated clubs (CLUBS=200 for a quick look)
	@$(BIN)/python benchmarks/speed.py
	@$(BIN)/python benchmarks/virtual_bench.py --clubs $(CLUBS)

pictures: .venv/ready-to-develop ## Take the pictures of the guide anew from the demo (needs Chromium)
	@$(BIN)/python docs/pictures/make.py

format: .venv/ready-to-develop ## Lay the code out and sort its imports
	@$(BIN)/ruff check --fix --select I .
	@$(BIN)/ruff format .

versions: .venv/ready-to-develop ## Print the versions in use
	@$(UV) --version
	@for tool in python ruff mypy deptry pytest; do printf '%s: ' "$$tool"; $(BIN)/$$tool --version 2>&1 | head -n 1; done

clean: ## Remove the environment, the tools, caches and the demo workshop
	@rm -rf .venv .tools build dist $(DEMO) .pytest_cache .mypy_cache .ruff_cache .hypothesis .import_linter_cache
	@find . -name __pycache__ -type d -prune -exec rm -rf {} +

$(UV): .ci/get-uv
	@.ci/get-uv $(PYTHON)
	@touch -c -h $@

# --inexact: a run leaves what a developer has installed where it is.
.venv/ready-to-run: $(LOCK) | $(UV)
	@echo "Making the environment from uv.lock." >&2
	@$(UV) sync --quiet --locked --no-dev --inexact --python $(PYTHON)
	@touch $@

.venv/ready-to-develop: $(LOCK) | $(UV)
	@echo "Making the environment from uv.lock, with the tools for development." >&2
	@$(UV) sync --quiet --locked --python $(PYTHON)
	@touch $@ .venv/ready-to-run

# PostgreSQL comes with the Python packages. As root it has to run as another user, which `useradd` makes.
.venv/ready-for-postgres: .venv/ready-to-develop
	@if [ "$$(id -u)" = 0 ] && ! command -v useradd >/dev/null; then \
	    echo "Installing passwd, for the user that PostgreSQL runs as." >&2; \
	    apt-get update -qq >/dev/null && apt-get install -qq -y passwd >/dev/null; fi
	@touch $@

# The page is tried in a real browser. On Debian or Ubuntu as root it is installed; elsewhere the tests say what to type.
.venv/ready-for-browser: .venv/ready-to-develop
	@if [ -z "$$CHROMIUM" ] && ! command -v chromium >/dev/null 2>&1 \
	    && [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null; then \
	    echo "Installing chromium, for the tests of the page." >&2; \
	    apt-get update -qq >/dev/null && apt-get install -qq -y chromium >/dev/null; fi
	@touch $@
