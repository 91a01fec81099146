package flowsheet_test

import (
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"flowshelf/analysis/head"
)

// raw reads one of the fixtures of manometers with questions answered by key.
func raw(t *testing.T, name string, said map[string]string) head.Records {
	t.Helper()
	archive, err := txtar.ParseFile(filepath.Join("testdata/shapes", name+".txt"))
	if err != nil {
		t.Fatal(err)
	}
	path, shop, book := fixture(t, archive)
	return readAnswered(path, book, shop, said)
}

// TestAFlowThroughAnOrificeNamesItsConstants: each flow says by which figures of
// the setup it came about, and where they stand.
func TestAFlowThroughAnOrificeNamesItsConstants(t *testing.T) {
	got := raw(t, "F26-through-orifices", nil)
	if len(got.Tests) != 2 {
		t.Fatalf("%d tests, want 2", len(got.Tests))
	}
	for i, want := range []string{
		`orifice 2.500 of Saltmarsh shop bench: 250 cfm x sqrt(3.375/6 inH2O), calibrated at 28 inH2O (Shop setup.xlsx, sheet "Orifices", cell A6)`,
		`orifice 2.500 of Saltmarsh shop bench: 240 cfm x sqrt(1.5/6 inH2O), calibrated at 28 inH2O (Shop setup.xlsx, sheet "Orifices", cell A7)`,
	} {
		r := got.Tests[i].Readings[2]
		if !slices.Contains(r.Flow.Trace.Steps, want) {
			t.Errorf("steps %q lack %q", r.Flow.Trace.Steps, want)
		}
		// 0.8 inH2O from the calibration's test pressure: sqrt(378.8/379.6) of 406.8.
		if said := strings.Join(r.Flow.Trace.Steps, "; "); !strings.Contains(said, "read at 27.2 inH2O, which may put it off by up to 0.1 %") {
			t.Errorf("steps %q do not say what the test pressure is worth", said)
		}
	}
}

// TestAnswersAboutManometers: what was asked about a raw reading is what makes it a
// flow. 250 cfm at 6 inH2O (14.945 mbar) by the square root of ISO 5167-1.
func TestAnswersAboutManometers(t *testing.T) {
	for name, tt := range map[string]struct {
		fixture, key, answer string
		at                   int
		cfm                  float64
	}{
		"the unit":          {"F26-no-unit", "differential unit", "mbar", 1, 250 * math.Sqrt(3.375*100/249.08891/6)},
		"the test pressure": {"F26-orifice-not-registered", "orifice held", "yes", 4, 250 * math.Sqrt(2.8/6)},
	} {
		said := map[string]string{}
		before := raw(t, tt.fixture, nil)
		if r := before.Tests[0].Readings[tt.at]; r.Status == head.Used || r.Flow.Trace.Answered != "" {
			t.Errorf("%s: before anybody has answered it is %s, %q", name, r.Status, r.Flow.Trace.Answered)
		}
		for _, p := range before.Problems {
			if p.Question != nil && strings.HasPrefix(p.Question.Key, tt.key) {
				said[p.Question.Key] = tt.answer
			}
		}
		if len(said) != 1 {
			t.Fatalf("%s: %d questions of the key %q", name, len(said), tt.key)
		}
		r := raw(t, tt.fixture, said).Tests[0].Readings[tt.at]
		if !r.Flow.Known || math.Abs(r.Flow.Value.CFM()-tt.cfm) > 1e-9 {
			t.Errorf("%s: %v, want %g cfm", name, r.Flow, tt.cfm)
		}
		if !strings.Contains(r.Flow.Trace.Answered, "JT") {
			t.Errorf("%s: the flow does not say who answered: %q", name, r.Flow.Trace.Answered)
		}
	}
}
