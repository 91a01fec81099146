// Package crosscheck holds the numbers of the analysis to other people's: random
// inputs go to Debian's scipy and fluids and to our own functions, and the worst
// difference of each is printed.
//
//	go test ./analysis/crosscheck -run CrossCheck -v
package crosscheck_test

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"slices"
	"testing"
)

// inputs is how many random inputs each function gets.
const inputs = 1000

// Wanted agreement, relative.
const (
	closedForm = 1e-9 // formulas
	iterated   = 1e-6 // integrals, iterations, numeric derivatives
)

// check is one function of ours against one of theirs.
type check struct {
	name    string // of the function in the oracle
	against string
	tol     float64
	// floor is the size below which a difference is absolute.
	floor float64
	// draw returns one random input and our answers to it.
	draw func(r *rand.Rand) (in, out []float64)
}

func checks() []check {
	return slices.Concat(flowChecks(), portChecks(), benchChecks(), tradeChecks())
}

// python is Debian's interpreter, which is the one that has the libraries.
const python = "/usr/bin/python3"

// missing names the package to install when an oracle is not there.
func missing() string {
	if _, err := os.Stat(python); err != nil {
		return "python3"
	}
	for module, pkg := range map[string]string{"scipy": "python3-scipy", "fluids": "python3-fluids"} {
		if exec.Command(python, "-c", "import "+module).Run() != nil {
			return pkg
		}
	}
	return ""
}

func TestCrossCheck(t *testing.T) {
	if pkg := missing(); pkg != "" {
		if os.Getenv("CI") == "true" {
			t.Fatalf("not installed: %s", pkg)
		}
		t.Skipf("not installed: apt-get install %s", pkg)
	}
	questions := map[string][][]float64{}
	ours := map[string][][]float64{}
	for _, c := range checks() {
		r := rand.New(rand.NewPCG(11, uint64(len(c.name))))
		for range inputs {
			in, out := c.draw(r)
			questions[c.name] = append(questions[c.name], in)
			ours[c.name] = append(ours[c.name], out)
		}
	}
	theirs := ask(t, questions)
	for _, c := range checks() {
		worst, at := 0.0, 0
		for i, want := range theirs[c.name] {
			if d := difference(ours[c.name][i], want, c.floor); !(d <= worst) {
				worst, at = d, i
			}
		}
		t.Logf("%-22s %5d inputs, worst %.1e (wanted %.0e) against %s", c.name, len(theirs[c.name]), worst, c.tol, c.against)
		if !(worst <= c.tol) || len(theirs[c.name]) != inputs {
			t.Errorf("%s: input %v\n ours  %v\n theirs %v", c.name, questions[c.name][at], ours[c.name][at], theirs[c.name][at])
		}
	}
}

// ask runs the oracle once for all questions.
func ask(t *testing.T, questions map[string][][]float64) map[string][][]float64 {
	t.Helper()
	stdin, err := json.Marshal(questions)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.CommandContext(t.Context(), python, "oracle.py")
	cmd.Dir = "../../testdata/crosscheck"
	cmd.Env = append(os.Environ(), "PYTHONDONTWRITEBYTECODE=1")
	cmd.Stdin = bytes.NewReader(stdin)
	cmd.Stderr = os.Stderr
	stdout, err := cmd.Output()
	if err != nil {
		t.Fatalf("oracle: %v", err)
	}
	var answers map[string][][]float64
	if err := json.Unmarshal(stdout, &answers); err != nil {
		t.Fatalf("oracle: %v", err)
	}
	return answers
}

// difference is the largest relative difference of two answers, infinite when
// they differ in length.
func difference(got, want []float64, floor float64) float64 {
	if len(got) != len(want) {
		return math.Inf(1)
	}
	worst := 0.0
	for i := range want {
		if got[i] == want[i] {
			continue // zero for zero too
		}
		d := math.Abs(got[i]-want[i]) / math.Max(math.Abs(want[i]), floor)
		if !(d <= worst) {
			worst = d
		}
	}
	return worst
}

// between draws a number from a range.
func between(r *rand.Rand, low, high float64) float64 { return low + (high-low)*r.Float64() }
