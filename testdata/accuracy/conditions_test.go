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
	if own := g.reading.Pressure(); own.Known {
		return own
	}
	return g.test.Pressure
}

// conditions lists what became of the circumstances of a right reading. A
// circumstance that the sheet states may be lost, which makes a head ranked with
// a flag; one that the sheet does not state, or states otherwise, is misstated,
// which nobody notices.
func conditions(c cell, g got) (lost, misstated []string) {
	say := func(gone bool, format string, args ...any) {
		text := fmt.Sprintf(format, args...)
		if gone {
			lost = append(lost, text)
		} else {
			misstated = append(misstated, text)
		}
	}
	switch bore := g.test.Bore; {
	case c.BoreAny:
	case c.BoreIn == nil && bore.Known:
		say(false, "bore %.3f invented", bore.Value.In())
	case c.BoreIn != nil && !bore.Known:
		say(true, "bore %.3f lost", *c.BoreIn)
	case c.BoreIn != nil && math.Abs(bore.Value.In()-*c.BoreIn) > boreTolIn:
		say(false, "bore %.3f, not %.3f", bore.Value.In(), *c.BoreIn)
	}
	if c.Port == "exhaust" && !c.PipeAny {
		want := c.Pipe
		if want == "" {
			want = head.PipeNotStated.String()
		}
		if g.test.Pipe.String() != want {
			say(g.test.Pipe == head.PipeNotStated, "pipe %q, not %q", g.test.Pipe, want)
		}
	}
	if c.Mark != "" && !strings.EqualFold(g.test.PortMark, c.Mark) {
		say(g.test.PortMark == "", "port mark %q, not %q", g.test.PortMark, c.Mark)
	}
	if c.Run != "" && g.test.Run != c.Run {
		say(g.test.Run == "", "run %q, not %q", g.test.Run, c.Run)
	}
	if !strings.Contains(fold(g.test.Entry), c.Entry) {
		say(g.test.Entry == "", "entry %q, not %q", g.test.Entry, c.Entry)
	}
	return lost, misstated
}
