# make check and make test are what CI runs; both work on a fresh Debian
# machine with Go.
.PHONY: build check test bench

# The toolchain that go.mod names, whatever the machine's own settings say.
export GOTOOLCHAIN := go1.27.3

build:
	go build -o bin/halfpoint ./cmd/halfpoint

check:
	@unformatted="$$(gofmt -l cmd scoring $(wildcard db migrations api))"; \
	if [ -n "$$unformatted" ]; then echo "not formatted (gofmt -w):"; echo "$$unformatted"; exit 1; fi
	go vet ./...

test:
	@tools/need go postgres
	go test ./...

bench:
	go test -run '^$$' -bench . -benchmem ./scoring/...
