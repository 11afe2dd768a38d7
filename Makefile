# Every target makes the virtual environment it needs; Python 3.11 or later is enough.
PYTHON ?= python3
BIN := .venv/bin
# Tests run on every processor; what finishes early takes over from the other.
SPREAD := -n auto --dist worksteal

.PHONY: demo run test lint bench soak pictures pins clean

# Runtime only: what a lifter needs.
.venv/run: requirements/run.txt pyproject.toml
	test -x $(BIN)/python || $(PYTHON) -m venv .venv
	$(BIN)/python -m pip install --quiet --require-hashes -r requirements/run.txt
	$(BIN)/python -m pip install --quiet --no-deps -e .
	touch $@

# Runtime, tests and linters.
.venv/dev: requirements/dev.txt pyproject.toml
	test -x $(BIN)/python || $(PYTHON) -m venv .venv
	$(BIN)/python -m pip install --quiet --require-hashes -r requirements/dev.txt
	$(BIN)/python -m pip install --quiet --no-deps -e .
	touch $@ .venv/run

# A made-up lifter with a year of history in a temporary place.
demo: .venv/run
	$(BIN)/pennate demo

# Your own data.
run: .venv/run
	$(BIN)/pennate serve

# All tests; looks for a Chromium first and says which tests it skips without one.
test: .venv/dev
	@sh tests/find_chromium.sh
	$(BIN)/python -m pytest $(SPREAD)

# Style, types and the direction of imports.
lint: .venv/dev
	$(BIN)/ruff format --check .
	$(BIN)/ruff check .
	$(BIN)/mypy
	$(BIN)/lint-imports

# Measurements: accuracy and speed, written to bench/.
bench: .venv/dev
	$(BIN)/python -m bench

# Long versions of the random-fault and cut-session tests.
soak: .venv/dev
	PENNATE_SOAK=1 $(BIN)/python -m pytest $(SPREAD)

# The pictures of the README, made from the demo.
pictures: .venv/dev
	$(BIN)/python docs/make_pictures.py

# Recompile the pinned requirements; hashes, no addresses.
pins: .venv/dev
	$(BIN)/python -m pip install --quiet uv
	$(BIN)/uv pip compile --quiet --universal --generate-hashes --no-header --no-annotate --python-version 3.11 pyproject.toml -o requirements/run.txt
	$(BIN)/uv pip compile --quiet --universal --generate-hashes --no-header --no-annotate --python-version 3.11 --extra dev pyproject.toml -o requirements/dev.txt

clean:
	rm -rf .venv .mypy_cache .ruff_cache .pytest_cache .hypothesis
