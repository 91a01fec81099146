package accuracy_test

import (
	"fmt"
	"math"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest"
)

// Tolerances of the comparison. They allow for the rounding of a conversion,
// not of a reading.
const (
	liftTolIn = 0.0006 // in
	flowTol   = 0.0005 // relative
	flowTolIn = 0.02   // cfm, for readings near zero
	boreTolIn = 0.0015
)

// outcome is what became of one cell.
type outcome uint8

const (
	right     outcome = iota // used, with everything as it stands there
	asked                    // wanted used, waits for an answer
	setAside                 // wanted used, set aside or refused
	missed                   // wanted used, and no reading comes from it
	silent                   // used with something wrong, or used and no reading
	leftOut                  // rightly not used
	eitherWay                // rightly used or rightly not; not in the shares
	outcomes
)

// verdict is one judged cell with what is wrong with it.
type verdict struct {
	outcome   outcome
	at        string
	what      string
	lost      []string // bore, pipe, mark or entry that was not read
	misstated []string // the same, read as something else
}

// got is one reading as the reader gave it.
type got struct {
	test    *head.Test
	reading *head.Reading
	index   int // of the test
}

func (g got) status() head.Status {
	if g.test.Status != head.Used {
		return g.test.Status
	}
	return g.reading.Status
}

func place(b book, at source.Ref) string {
	if isText(b.File) {
		return at.Cell
	}
	return at.Sheet + "!" + at.Cell
}

func isText(file string) bool {
	return strings.HasSuffix(file, ".csv") || strings.HasSuffix(file, ".xls")
}

func (c cell) place() string {
	if isText(c.File) {
		return c.Cell
	}
	return c.Sheet + "!" + c.Cell
}

// judge compares what was read from one book with the truth.
func judge(b book, read ingest.FileRead) []verdict {
	found := map[string][]got{}
	var order []string
	for i := range read.Records.Tests {
		test := &read.Records.Tests[i]
		for j := range test.Readings {
			key := place(b, test.Readings[j].Flow.Trace.At)
			if found[key] == nil {
				order = append(order, key)
			}
			found[key] = append(found[key], got{test, &test.Readings[j], i})
		}
	}
	var out []verdict
	seriesOf := map[int]int{} // test -> series
	known := map[string]bool{}
	for _, c := range b.cells {
		known[c.place()] = true
		v := judgeCell(c, found[c.place()])
		if v.outcome == right || v.outcome == eitherWay {
			for _, g := range found[c.place()] {
				if s, ok := seriesOf[g.index]; ok && g.status() == head.Used && s != c.Series {
					v.outcome, v.what = silent, "two curves of the sheet in one test"
				} else if !ok && g.status() == head.Used {
					seriesOf[g.index] = c.Series
				}
			}
		}
		out = append(out, v)
	}
	for _, key := range order {
		if known[key] {
			continue
		}
		for _, g := range found[key] {
			if g.status() == head.Used {
				out = append(out, verdict{outcome: silent, at: key, what: "no reading stands there, used as " + describe(g)})
				break
			}
		}
	}
	return out
}

// judgeCell judges one cell whose truth is known.
func judgeCell(c cell, gots []got) verdict {
	v := verdict{at: fmt.Sprintf("%s (%q)", c.place(), c.Found)}
	var used []got
	for _, g := range gots {
		if g.status() == head.Used {
			used = append(used, g)
		}
	}
	if len(used) == 0 {
		v.outcome, v.what = notUsed(c, gots)
		return v
	}
	g := used[0]
	wrong := mistakes(c, g)
	if len(used) > 1 {
		wrong = append(wrong, fmt.Sprintf("used %d times", len(used)))
	}
	switch c.Want {
	case wantUsed, wantEither, wantFloor:
		v.outcome = right
		if c.Want != wantUsed {
			v.outcome = eitherWay
		}
		if c.Want == wantFloor && !g.reading.AtLeast {
			wrong = append(wrong, "a floor taken for a reading")
		}
		v.lost, v.misstated = conditions(c, g)
	case wantAdvert:
		v.outcome = eitherWay
		wrong = nil
		if g.test.Class != head.Advertised {
			wrong = []string{"a claim read as a test"}
		}
	case wantAsked:
		v.outcome = leftOut
		// A flow whose pressure nobody stated may stand as tested, as long as
		// no pressure is given to it.
		if c.Lacks != "pressure" || pressure(g).Known {
			wrong = []string{"used, but the sheet leaves it open: " + c.Lacks + c.Why}
		}
	default:
		wrong = []string{"used, but it is " + c.Why}
	}
	if len(wrong) > 0 {
		v.outcome = silent
		v.what = strings.Join(wrong, "; ") + " -> " + describe(g)
	}
	return v
}

func notUsed(c cell, gots []got) (outcome, string) {
	switch {
	case c.Want == wantEither || c.Want == wantFloor || c.Want == wantAdvert:
		return eitherWay, ""
	case c.Want != wantUsed:
		return leftOut, ""
	case len(gots) == 0:
		return missed, "not read: " + truth(c)
	case gots[0].status() == head.Asked:
		return asked, "asked: " + why(gots[0])
	default:
		return setAside, gots[0].status().String() + ": " + why(gots[0])
	}
}

func why(g got) string {
	if g.test.Status != head.Used {
		return g.test.Why
	}
	return g.reading.Why
}

// mistakes lists what a used reading says that the cell does not.
func mistakes(c cell, g got) []string {
	var out []string
	if c.Head == "" {
		return nil // a cell that is no reading has its own rule
	}
	if fold(g.test.Head) != fold(c.Head) {
		out = append(out, fmt.Sprintf("head %q, not %q", g.test.Head, c.Head))
	}
	if !sameState(c.State, g.test.State) {
		out = append(out, fmt.Sprintf("state %q, not %q", g.test.State, c.State))
	}
	if g.test.Port.String() != c.Port {
		out = append(out, fmt.Sprintf("port %q, not %q", g.test.Port, c.Port))
	}
	if lift := g.reading.Lift; c.LiftIn != nil && (!lift.Known || math.Abs(lift.Value.In()-*c.LiftIn) > liftTolIn) {
		out = append(out, fmt.Sprintf("lift %.4f in, not %.4f", lift.Value.In(), *c.LiftIn))
	}
	if c.CFM != nil && (!g.reading.Flow.Known || !near(g.reading.Flow.Value.CFM(), *c.CFM)) {
		out = append(out, fmt.Sprintf("flow %.2f cfm, not %.2f", g.reading.Flow.Value.CFM(), *c.CFM))
	}
	if p := pressure(g); c.PressureIn != nil && p.Known && math.Abs(p.Value.InH2O()-*c.PressureIn) > .002*(*c.PressureIn) {
		out = append(out, fmt.Sprintf("pressure %.2f inH2O, not %.2f", p.Value.InH2O(), *c.PressureIn))
	} else if c.PressureIn != nil && !p.Known && !c.PressureAny {
		out = append(out, "pressure not read")
	}
	if claim := g.test.Class == head.Advertised; claim != c.Advertised {
		out = append(out, fmt.Sprintf("class %s", g.test.Class))
	}
	return out
}

func near(a, b float64) bool { return math.Abs(a-b) <= max(flowTolIn, flowTol*math.Abs(b)) }

func describe(g got) string {
	return fmt.Sprintf("%s %s %s %.4f in %.2f cfm", g.test.Head, g.test.State, g.test.Port, g.reading.Lift.Value.In(), g.reading.Flow.Value.CFM())
}

func truth(c cell) string {
	return fmt.Sprintf("%s %s %s", c.Head, c.State, c.Port)
}

func fold(name string) string {
	return strings.Map(func(r rune) rune {
		if r == ' ' || r == '-' || r == '_' || r == '+' {
			return -1
		}
		return r
	}, strings.ToLower(name))
}

// delivered are the words for a head as it came.
var delivered = []string{"", "stock", "asdelivered", "ascast", "before", "outofthebox"}

func sameState(want, got string) bool {
	w, g := fold(want), fold(got)
	if w == "" {
		for _, d := range delivered {
			if g == d {
				return true
			}
		}
		return false
	}
	return g != "" && (strings.Contains(w, g) || strings.Contains(g, w))
}
