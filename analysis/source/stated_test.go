package source_test

import (
	"testing"

	"flowshelf/analysis/source"
)

func TestAsStated(t *testing.T) {
	for _, c := range []struct {
		text, step, want string
	}{
		{"96 mm", "mm / 25.4", "96 mm"},
		{"96", "mm / 25.4 = in", "96 mm"},
		{"18,8", "L/s x 2.118880 = cfm", "18,8 L/s"},
		{"60 mbar", "mbar to inH2O", "60 mbar"},
		{"500 mm H2O", "mmH2O to inH2O", "500 mmH2O"},
		{".433", "", ""},
		{"44/37 mm", "mm / 25.4", ""},
		{"96 x 80 mm", "mm / 25.4", ""},
		{"210", "25 to 28 inH2O, square root", ""},
		{"210", "x 1.05 cfm, as answered", ""},
	} {
		trace := source.Trace{Text: c.text}
		if c.step != "" {
			trace = trace.Then(c.step)
		}
		if got := trace.AsStated(); got != c.want {
			t.Errorf("%q, %q: %q, want %q", c.text, c.step, got, c.want)
		}
	}
}
