# make demo   an invented contest, half flown, in the browser
# make test   every test: Go on a real Postgres, the browser part, a real browser
# make check  format, vet, lint, known vulnerabilities, generated files, types
#             of the browser part
# make bench  the figures for speed
# make release  static programs for Linux in release/, with checksums and what is in them
# make soak   contests while things break: SOAK=10m, SEED=7 for the same faults again
#
# All of them work on a fresh Debian machine with Go and Node: what else is
# missing is installed by apt where it may be, or named in one line.

# The toolchain that go.mod names, whatever the machine's own settings say.
export GOTOOLCHAIN := go1.27.3

TAGS    := nomsgpack
TOOL    := go tool -modfile=tools/go.mod
GO_FILES := $(shell find cmd api db identity migrations ready scoring webui -name node_modules -prune -o -name '*.go' -print)
WEB_FILES := $(shell find webui/src webui/public -type f) webui/index.html webui/vite.config.ts webui/svelte.config.js webui/tsconfig.json docs/accuracy.md

.PHONY: demo test check audit bench soak release build web generate lint

demo: build
	@tools/need postgres
	bin/halfpoint demo --listen 127.0.0.1:8080

test: build
	@tools/need postgres chromium certutil
	go test -tags $(TAGS) -timeout 30m ./...
	cd webui && npm test && npm run e2e

release:
	tools/release release

build: bin/halfpoint

bin/halfpoint: $(GO_FILES) $(wildcard migrations/*.sql) api/openapi.yaml webui/dist/index.html go.mod go.sum
	@tools/need go
	go build -tags $(TAGS) -trimpath -o $@ ./cmd/halfpoint

web: webui/dist/index.html

webui/dist/index.html: webui/node_modules/.package-lock.json $(WEB_FILES)
	cd webui && npm run --silent build
	@touch $@

webui/node_modules/.package-lock.json: webui/package-lock.json
	@tools/need node
	cd webui && npm ci --no-audit --no-fund
	@touch $@

check: web lint audit
	@unformatted="$$($(TOOL) gofumpt -l cmd api db identity migrations ready scoring webui/*.go)"; \
	if [ -n "$$unformatted" ]; then echo "not formatted (gofumpt -w):"; echo "$$unformatted"; exit 1; fi
	go vet -tags $(TAGS) ./...
	go mod tidy -diff
	go generate ./...
	@git diff --exit-code -- api/contract.gen.go || { echo "generated files were out of date: commit what make generate wrote"; exit 1; }
	cd webui && npm run --silent check

lint:
	$(TOOL) golangci-lint run --build-tags $(TAGS) ./...

# Known vulnerabilities in what is called.
audit:
	@tools/audit

generate:
	go generate ./...
	go mod tidy

bench: build
	@tools/need postgres chromium
	go test -tags $(TAGS) -run '^$$' -bench . -benchmem ./scoring/... ./db/... ./api/...
	cd webui && npm run --silent bench

SOAK ?= 5m
SEED ?=

soak: build
	@tools/need postgres
	HALFPOINT_SOAK=$(SOAK) HALFPOINT_SEED=$(SEED) go test -tags $(TAGS) ./cmd/soak -run TestSoak -count 1 -v -timeout 0
