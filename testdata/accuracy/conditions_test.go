package accuracy_test

import (
	"fmt"
	"math"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// pressure is the test pressure of one reading: its own row's, else the column's.
func pressure(g got) source.Stated[quantity.Pressure] {
	if g.reading.Pressure.Known {
		return g.reading.Pressure
	}
	return g.test.Pressure
}

// conditions lists what the reader made of the circumstances of a right
// reading: a wrong or invented one counts, and so does a lost one.
func conditions(c cell, g got) string {
	var out []string
	switch bore := g.test.Bore; {
	case c.BoreAny:
	case c.BoreIn == nil && bore.Known:
		out = append(out, fmt.Sprintf("bore %.3f invented", bore.Value.In()))
	case c.BoreIn != nil && !bore.Known:
		out = append(out, fmt.Sprintf("bore %.3f lost", *c.BoreIn))
	case c.BoreIn != nil && math.Abs(bore.Value.In()-*c.BoreIn) > boreTolIn:
		out = append(out, fmt.Sprintf("bore %.3f, not %.3f", bore.Value.In(), *c.BoreIn))
	}
	if c.Port == "exhaust" && !c.PipeAny {
		want := c.Pipe
		if want == "" {
			want = head.PipeNotStated.String()
		}
		if g.test.Pipe.String() != want {
			out = append(out, fmt.Sprintf("pipe %q, not %q", g.test.Pipe, want))
		}
	}
	if c.Mark != "" && !strings.EqualFold(g.test.PortMark, c.Mark) {
		out = append(out, fmt.Sprintf("port mark %q, not %q", g.test.PortMark, c.Mark))
	}
	if c.Run != "" && g.test.Run != c.Run {
		out = append(out, fmt.Sprintf("run %q, not %q", g.test.Run, c.Run))
	}
	if !strings.Contains(fold(g.test.Entry), c.Entry) {
		out = append(out, fmt.Sprintf("entry %q, not %q", g.test.Entry, c.Entry))
	}
	return strings.Join(out, "; ")
}
