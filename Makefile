# Two commands matter: `make demo` runs the whole way on the demo job, `make test` proves the tool. Both set up what they need.
VENV := .venv
BIN := $(VENV)/bin
READY := $(VENV)/.ready

.PHONY: help setup demo test lint types layers pytest bench lock clean

help:
	@echo "make demo   set up, run the demo job from the tape to the bound book; says where the results are"
	@echo "make test   set up, run every check"
	@echo "make bench  measure against the named references"

setup: $(READY)

$(READY): requirements.lock pyproject.toml tools/setup.sh
	@bash tools/setup.sh $(VENV)
	@touch $(READY)

demo: $(READY)
	@PATH="$(CURDIR)/$(BIN):$$PATH" bash tools/demo.sh

test: lint types layers pytest

lint: $(READY)
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .

types: $(READY)
	$(BIN)/mypy

layers: $(READY)
	$(BIN)/lint-imports --no-cache

pytest: $(READY)
	@bash tools/setup_tests.sh
	$(BIN)/pytest

bench: $(READY)
	$(BIN)/python -m bench

# Renew the pinned versions after changing pyproject.toml (needs the network; names no host).
lock: $(READY)
	$(BIN)/pip install -q uv
	$(BIN)/uv pip compile pyproject.toml --extra dev --universal --python-version 3.11 --generate-hashes \
	  --no-emit-index-url --no-header --quiet -o requirements.lock

clean:
	rm -rf $(VENV) out .pytest_cache .mypy_cache .ruff_cache .hypothesis
