//go:build unix

package faults_test

import (
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"
)

var full = flag.Bool("full", false, "as many trials as the figures in the documentation stand for")

// scaled picks the number of trials.
func scaled(reduced, all int) int {
	if *full {
		return all
	}
	return reduced
}

// binary is the program under test; it is built when none is given.
var binary string

func TestMain(m *testing.M) {
	flag.StringVar(&binary, "binary", "", "the flowshelf to test (default: built from here)")
	flag.Parse()
	code, err := build(m)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		code = 1
	}
	os.Exit(code)
}

func build(m *testing.M) (int, error) {
	if binary != "" {
		return m.Run(), nil
	}
	dir, err := os.MkdirTemp("", "faults-")
	if err != nil {
		return 1, err
	}
	defer os.RemoveAll(dir)
	if err := os.Chmod(dir, 0o755); err != nil { // other users run it too
		return 1, err
	}
	binary = filepath.Join(dir, "flowshelf")
	cmd := exec.Command("go", "build", "-o", binary, "flowshelf/cmd/flowshelf")
	cmd.Stderr = os.Stderr
	if err := cmd.Run(); err != nil {
		return 1, err
	}
	return m.Run(), nil
}

// fault is one line of the table.
type fault struct {
	number int
	name   string
	do     func(t *testing.T) tally
}

func faults() []fault {
	return []fault{
		{1, "partial copies", partialCopies},
		{2, "silent corruption", silentCorruption},
		{3, "editors' saves", editorsSaves},
		{4, "no events", noEvents},
		{5, "overflow and races", overflow},
		{6, "kill -9", kills},
		{7, "full disk", fullDisk},
		{8, "read-only", readOnly},
		{9, "folder lost", folderLost},
		{10, "target held", both(targetHeld, heldOverSMB)},
		{11, "two instances", twoInstances},
		{12, "poison", poison},
		{13, "identity", identity},
		{14, "loops", loops},
		{15, "hostile paths and texts", hostile},
	}
}

// both does a fault in two ways, each of which has to come out well.
func both(first, second func(*testing.T) tally) func(*testing.T) tally {
	return func(t *testing.T) tally {
		a, b := first(t), second(t)
		return tally{trials: a.trials + b.trials, lost: a.lost + b.lost, short: a.short + b.short, invalid: a.invalid + b.invalid,
			seconds: max(a.seconds, b.seconds), note: a.note + "; " + b.note}
	}
}

func TestFaults(t *testing.T) {
	for _, f := range faults() {
		t.Run(fmt.Sprintf("%02d %s", f.number, f.name), func(t *testing.T) {
			start := time.Now()
			got := f.do(t)
			fmt.Printf("%2d %-24s trials %5d  L = %d  short %d  invalid %d  recovery %5.1f s  (%.0f s) %s\n",
				f.number, f.name, got.trials, got.lost, got.short, got.invalid, got.seconds, time.Since(start).Seconds(), got.note)
			if got.lost+got.short+got.invalid != 0 {
				t.Errorf("lost %d, short %d, invalid %d; each has to be 0", got.lost, got.short, got.invalid)
			}
		})
	}
}
