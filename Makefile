# flowshelf. `make demo` and `make test` are all that most people need.

BIN      := bin/flowshelf
TOOLS    := $(CURDIR)/.tools
LINT     := $(shell command -v golangci-lint 2>/dev/null || echo $(TOOLS)/golangci-lint)
TESTER   := $(shell command -v gotestsum 2>/dev/null || echo $(TOOLS)/gotestsum)
# The go command leaves testdata out of ./...; the measure of reading and the
# faults of a shared folder stand there.
PACKAGES := ./... ./testdata/accuracy ./testdata/faults
PYTHON   ?= /usr/bin/python3

LINT_VERSION   := v2.15.0
TESTER_VERSION := v1.13.0

.PHONY: all build demo test lint check bench crosscheck cover tools fmt vet clean accuracy faults soak figures

all: build

build:
	go build -o $(BIN) ./cmd/flowshelf

## demo: build, then run February and March on a scratch copy of the demo folder ($TMPDIR, or /tmp)
demo: build
	@testdata/demo.sh $(BIN)

## test: every check; installs what they need with apt-get where it may
test: tools $(TESTER)
	@.ci/gotest $(TESTER) -timeout 20m $(PACKAGES)

## lint: golangci-lint, from PATH or built into .tools
lint: $(LINT)
	$(LINT) run --allow-parallel-runners

## check: everything that must hold before a change is handed over
check: fmt vet lint test

fmt:
	@out=$$(gofmt -l .); test -z "$$out" || { echo "gofmt wants to change:"; echo "$$out"; exit 1; }

vet:
	go vet $(PACKAGES)
	GOOS=windows go vet $(PACKAGES)

## bench: speed and memory, ours and our peers'
bench: tools build
	go test -run '^$$' -bench . -benchmem ./...
	$(PYTHON) testdata/bench-src/readers.py

## crosscheck: our figures against other people's programs on random input
crosscheck: tools
	go test -count=1 -v -run CrossCheck ./analysis/...

## accuracy: how flow sheets with known truth are read, SHEETS=2000
SHEETS ?= 2000
accuracy: tools
	go test ./testdata/accuracy -count=1 -timeout 2h -v -accuracy.n $(SHEETS)

## faults: what may happen to a shared folder, done to the real program; a line a fault
faults:
	go test ./testdata/faults -count=1 -timeout 4h -run 'TestFaults|TestServiceUnderSystemd|TestUnderWine' -v -full

## soak: drops, edits, renames, deletions and kills at random, for SOAK=1h
SOAK ?= 1h
soak:
	go test ./testdata/faults -count=1 -timeout 24h -run TestSoak -v -soak $(SOAK)

## figures: how fast, how much memory, with 1,000 to 10,000 workbooks
figures:
	go test ./testdata/faults -count=1 -timeout 4h -run '^$$' -bench . -benchtime 3x

## cover: how much of each package its tests reach
cover:
	@mkdir -p bin
	go test -coverpkg ./... -coverprofile bin/cover.out ./...
	go tool cover -func bin/cover.out | tail -1

tools:
	@.ci/tools

$(TOOLS)/golangci-lint:
	GOBIN=$(TOOLS) go install github.com/golangci/golangci-lint/v2/cmd/golangci-lint@$(LINT_VERSION)

$(TOOLS)/gotestsum:
	GOBIN=$(TOOLS) go install gotest.tools/gotestsum@$(TESTER_VERSION)

clean:
	rm -rf bin .tools
