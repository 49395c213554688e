# Two commands: `make pack` builds the packs of all jobs, `make test` proves the program. Both install what they need.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin

.PHONY: pack test long bench locks

pack: $(VENV)/pack.done
	@$(BIN)/doorpost build jobs --out packs; code=$$?; if [ $$code -le 1 ]; then exit 0; else exit $$code; fi

test: $(VENV)/test.done
	$(BIN)/python -m pytest -m "not long and not alone" -n auto --maxprocesses 4 --dist loadfile
	$(BIN)/python -m pytest -m "alone and not long"

long: $(VENV)/test.done
	$(BIN)/python -m pytest -m long

bench: $(VENV)/test.done
	$(BIN)/python tests/bench/bench.py

$(VENV)/pack.done: .ci/pack.lock pyproject.toml
	test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --require-hashes -r .ci/pack.lock
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation -e .
	touch $@

$(VENV)/test.done: $(VENV)/pack.done .ci/test.lock .ci/wheels.lock tests/browser/package-lock.json tests/editor/package-lock.json
	sh tests/browser/install.sh
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --require-hashes -r .ci/test.lock
	$(BIN)/python -m pip download --quiet --disable-pip-version-check --no-deps --require-hashes -r .ci/wheels.lock --dest $(VENV)/wheels
	cd tests/browser && npm ci --silent --no-audit --no-fund --ignore-scripts
	cd tests/editor && npm ci --silent --no-audit --no-fund --ignore-scripts
	touch $@

# Pinned versions with hashes, from what pyproject.toml allows.
locks:
	$(BIN)/python -m pip install --quiet pip-tools
	$(BIN)/pip-compile --quiet --generate-hashes --allow-unsafe --no-emit-index-url --no-emit-trusted-host --no-emit-find-links --strip-extras --output-file .ci/pack.lock pyproject.toml .ci/build.in
	$(BIN)/pip-compile --quiet --generate-hashes --allow-unsafe --no-emit-index-url --no-emit-trusted-host --no-emit-find-links --strip-extras --extra test --output-file .ci/test.lock pyproject.toml .ci/build.in
