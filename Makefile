# Two commands do everything on a fresh machine with Rust, Python 3.10+ and make:
#   make demo   the comparison of thinning ratios, its chart and its notebook
#   make test   every check

SHELL := /bin/bash
.SHELLFLAGS := -eu -o pipefail -c
.DELETE_ON_ERROR:

PYTHON ?= $(shell for p in python3 python3.13 python3.12 python3.11 python3.10 python; do \
	command -v $$p >/dev/null 2>&1 && $$p -c 'import sys; sys.exit(sys.version_info < (3, 10))' 2>/dev/null && { command -v $$p; break; }; done)
VENV := .venv
PY := $(VENV)/bin/python
MATURIN := PIP_QUIET=1 VIRTUAL_ENV=$(CURDIR)/$(VENV) $(VENV)/bin/maturin
SOURCES := Cargo.toml pyproject.toml $(shell find src data python -name '*.rs' -o -name '*.toml' -o -name '*.csv' -o -path 'python/mistcoat/*.py')

.PHONY: demo test check-tools rust-test python-test lint stubs bench clean help

help:
	@sed -n '2,4p' Makefile | cut -c3-

check-tools:
	@command -v cargo >/dev/null 2>&1 || { echo "mistcoat needs Rust 1.88 or newer: install it with rustup (https://rustup.rs), then run this again."; exit 1; }
	@have=$$(rustc --version | cut -d' ' -f2); oldest=$$(printf '%s\n' 1.88.0 "$$have" | sort -V | head -n1); \
		[ "$$oldest" = 1.88.0 ] || { echo "mistcoat needs Rust 1.88 or newer, this is $$have: run 'rustup update stable', then run this again."; exit 1; }
	@[ -n "$(PYTHON)" ] || { echo "mistcoat needs Python 3.10 or newer: install it (https://www.python.org or your system's packages), then run this again."; exit 1; }
	@"$(PYTHON)" -c 'import venv, ensurepip' 2>/dev/null || { echo "this Python has no venv module: install your system's python3-venv package, then run this again."; exit 1; }

$(VENV)/base: pyproject.toml | check-tools
	"$(PYTHON)" -m venv $(VENV)
	$(PY) -m pip install -q --disable-pip-version-check -U 'pip>=25.1'
	$(PY) -m pip install -q --disable-pip-version-check 'maturin>=1.16,<2'
	$(PY) -m pip install -q --disable-pip-version-check --group demo 'numpy>=1.24'
	@touch $@

$(VENV)/dev: $(VENV)/base
	$(PY) -m pip install -q --disable-pip-version-check --group dev
	@touch $@

# The extension is built with optimisation, so that what the demo and the tests see is what users get.
$(VENV)/built: $(VENV)/base $(SOURCES)
	$(PY) -m pip uninstall -q -y mistcoat >/dev/null 2>&1 || true
	$(MATURIN) develop -q --release
	@touch $@

demo: $(VENV)/built
	@mkdir -p out
	@$(PY) -m mistcoat demo --out out --lessons notebooks

rust-test: | check-tools
	cargo fmt --all --check
	cargo clippy --all-targets -- -D warnings # benches are checked here, and built only by `make bench`
	cargo test -q
	cargo test -q --all-features
	RUSTDOCFLAGS="-D warnings" cargo doc -q --no-deps --all-features

lint: $(VENV)/dev $(VENV)/built
	PYO3_PYTHON=$(CURDIR)/$(PY) cargo clippy -p mistcoat-python --all-targets -- -D warnings
	$(VENV)/bin/ruff check .
	$(VENV)/bin/ruff format --check .
	$(VENV)/bin/mypy
	$(VENV)/bin/python -m mypy.stubtest mistcoat._core --allowlist tests/python/stubtest-allow.txt

# The committed stub must be what the binary says of itself.
stubs: $(VENV)/dev
	@mkdir -p target/stubs
	$(MATURIN) generate-stubs --features stubs --out target/stubs
	@if [ "$${UPDATE:-}" = 1 ]; then cp target/stubs/mistcoat/_core.pyi python/mistcoat/_core.pyi; \
		else diff -u python/mistcoat/_core.pyi target/stubs/mistcoat/_core.pyi || { echo "the stub is stale: run 'make stubs UPDATE=1' and commit it"; exit 1; }; fi

python-test: $(VENV)/dev $(VENV)/built
	$(PY) -m pytest

test: rust-test stubs lint python-test

bench: $(VENV)/dev $(VENV)/built
	cargo bench
	$(PY) benches/peers.py
	$(PY) benches/film_peer.py
	$(PY) benches/film_columns.py
	$(PY) benches/spray_peer.py
	$(PY) benches/window_peer.py

clean:
	rm -rf target $(VENV) out python/mistcoat/*.so
