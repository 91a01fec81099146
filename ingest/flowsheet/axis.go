package flowsheet

import (
	"cmp"
	"math"
	"regexp"
	"slices"
	"strings"

	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// axis is a run of lifts down one column of a plane.
type axis struct {
	plane   layout.Plane
	col     int
	entries []entry
	label   decode.Cell // "Lift", "Hub mm"; Empty when there is none
	sure    evidence
}

// entry is one lift of an axis.
type entry struct {
	row      int
	cell     decode.Cell
	text     parse.LiftText
	answered string // who told it, where the sheet does not
}

// evidence says how sure it is that a run of numbers is a list of lifts.
type evidence uint8

const (
	noLifts   evidence = iota
	stepped            // 1 2 3 4 without a word: needs ports and flows beside it
	regular            // 100 200 300 without a word: needs ports beside it
	inchLike           // .1 .2 .3 stored as numbers: needs ports beside it
	spelled            // .100, L.200, @.300
	labelled           // the word lift stands over it
	certainly          // both
)

func (a axis) first() int { return a.entries[0].row }
func (a axis) last() int  { return a.entries[len(a.entries)-1].row }

// axes finds every run of lifts on a plane, the surest first.
func axes(plane layout.Plane) []axis {
	var out []axis
	for _, column := range plane.Columns() {
		out = append(out, runs(plane, column)...)
	}
	slices.SortStableFunc(out, func(a, b axis) int {
		return cmp.Or(cmp.Compare(b.sure, a.sure), cmp.Compare(a.first(), b.first()), cmp.Compare(a.col, b.col))
	})
	return out
}

// runs parts one column into runs of figures that rise or fall all the way. A
// repeated header and one blank row do not end a run.
func runs(plane layout.Plane, column []decode.Cell) []axis {
	var out []axis
	var run []entry
	var before []decode.Cell // cells of the column above the run
	_, col := plane.Place(column[0])
	finish := func() {
		if a, ok := newAxis(plane, col, run, before); ok {
			out = append(out, a)
		} else if len(out) > 0 && a.repeats(out[len(out)-1]) {
			a.sure = out[len(out)-1].sure // the same lifts again, for the other port
			out = append(out, a)
		}
		run = nil
	}
	for i, c := range column {
		row, _ := plane.Place(c)
		text, ok := liftOf(c)
		switch {
		case ok && len(run) > 0 && (follows(run, row, text) || underLabel(before) && once(run, row, text)):
			run = append(run, entry{row: row, cell: c, text: text})
		case ok && !text.Ditto:
			finish()
			before, run = column[:i], []entry{{row: row, cell: c, text: text}}
		case len(run) > 0 && (repeats(c, before) || unitsOnly(c)):
			continue // a header repeated on the next printed page
		case len(run) > 0:
			finish()
		}
	}
	finish()
	return out
}

// liftOf reads a cell as a lift.
func liftOf(c decode.Cell) (parse.LiftText, bool) {
	switch c.Kind {
	case decode.Number:
		x, ok := parse.Fifteen(c.Num)
		l := parse.LiftText{Value: x, Spelled: c.Format == ".000" || c.Format == ".###"}
		return l, ok && x >= 0 && x <= 1500
	case decode.Text:
		if l, ok := parse.Lift(c.Text); ok {
			return l, l.Unit != parse.LiftInches || l.Value <= highestIn // "1.940 in" is the size of a valve
		}
		return liftInWords(c.Text)
	default:
		return parse.LiftText{}, false
	}
}

// follows reports whether the next figure carries a run on: in one direction,
// with at most a few rows between, and with the same words beside it.
func follows(run []entry, row int, next parse.LiftText) bool {
	last := run[len(run)-1]
	if row-last.row > 4 {
		return false
	}
	if next.Ditto {
		return row == last.row+1
	}
	if !strings.EqualFold(next.Rest, last.text.Rest) || apart(last.text, next) {
		return false
	}
	was := lastOf(run)
	step := compare(was, next)
	if step == 0 {
		return false
	}
	course := compare(run[0].text, was)
	return course == 0 || step == course
}

// once reports whether the next figure is the last one of a list again, right
// below it and for the first time: a lift that was typed twice. A list of many
// such pairs holds something else beside the lifts.
func once(run []entry, row int, next parse.LiftText) bool {
	last := run[len(run)-1]
	if next.Ditto || row != last.row+1 || last.text.Ditto || compare(last.text, next) != 0 || !strings.EqualFold(next.Rest, last.text.Rest) {
		return false
	}
	for i := 1; i < len(run); i++ {
		if !run[i].text.Ditto && compare(run[i-1].text, run[i].text) == 0 {
			return false
		}
	}
	return true
}

// underLabel reports whether the last word over a run names a column of lifts.
func underLabel(before []decode.Cell) bool {
	for i := len(before) - 1; i >= 0; i-- {
		if !unitsOnly(before[i]) {
			return isLiftLabel(before[i])
		}
	}
	return false
}

// lastOf returns the last lift of a run that is no ditto mark.
func lastOf(run []entry) parse.LiftText {
	for i := len(run) - 1; i > 0; i-- {
		if !run[i].text.Ditto {
			return run[i].text
		}
	}
	return run[0].text
}

// highestMM and highestIn are more than any valve opens, in millimetres and in
// inches.
const (
	highestMM = 30
	highestIn = 1.25
)

// apart reports whether a figure cannot stand in one list with millimetres that
// say so: a reading does.
func apart(a, b parse.LiftText) bool {
	bare := func(l parse.LiftText) bool { return l.Unit == parse.LiftNotStated && l.Value > highestMM }
	return a.Unit == parse.LiftMM && bare(b) || b.Unit == parse.LiftMM && bare(a)
}

// compare tells which of two lifts of one list is the higher. Bare figures from
// 1 to 30 are compared as they stand: 18 and 20 are millimetres beside one
// another, though 20 alone could be thousandths.
func compare(a, b parse.LiftText) int {
	metric := func(l parse.LiftText) bool {
		return l.Unit == parse.LiftNotStated && l.Value >= 1 && l.Value <= highestMM
	}
	if metric(a) && metric(b) {
		return cmp.Compare(a.Value, b.Value)
	}
	return cmp.Compare(roughly(a), roughly(b))
}

// roughly puts a lift on one scale with its neighbours, so that L100 and .200
// follow one another. It decides no unit.
func roughly(l parse.LiftText) float64 {
	switch {
	case l.Unit == parse.LiftThou, l.Unit == parse.LiftNotStated && l.Value >= 20:
		return l.Value / 1000
	case l.Unit == parse.LiftMM:
		return l.Value / 25.4
	default:
		return l.Value
	}
}

func repeats(c decode.Cell, before []decode.Cell) bool {
	return c.Kind == decode.Text && slices.ContainsFunc(before, func(b decode.Cell) bool { return b.Text == c.Text && isLiftLabel(b) })
}

var unitText = regexp.MustCompile(`(?i)^\(?\s*(in|inch|inches|pouces?|pollici|pulgadas?|pulg|zoll|mm|thou|thousandths|0?\.001(?:"|in)?|")\.?\s*\)?$`)

// bareUnit is a unit that names a column of lifts by itself; "in" may be the
// intake.
var bareUnit = regexp.MustCompile(`(?i)^\(?\s*(mm|thou)\.?\s*\)?$`)

func unitsOnly(c decode.Cell) bool {
	return c.Kind == decode.Text && unitText.MatchString(strings.TrimSpace(c.Text))
}

// isLiftLabel reports whether a cell names a column of lifts.
func isLiftLabel(c decode.Cell) bool {
	if c.Kind != decode.Text || len(c.Text) > 40 {
		return false
	}
	if _, isLift := liftOf(c); isLift {
		return false // ".300 Lift" is one
	}
	text := strings.TrimSpace(c.Text)
	if text == "L" || text == "@" {
		return true
	}
	if namesFlowOfPort(text) {
		return false
	}
	if _, both := twoWays(text); both {
		return true
	}
	tokens := words.Tokens(text)
	lift := false
	for _, hit := range words.FlowSheet().Find(tokens) {
		switch hit.Role {
		case words.Lift, words.LiftOverDiameter, words.Opening:
			lift = true
		case words.Maximum, words.Minimum, words.Peak, words.Average, words.Total, words.Note, words.Head:
			return false // "max lift" is a fact of the springs, "lift at peak" one of the curve
		default:
		}
	}
	return lift && len(tokens) <= 6
}

// newAxis judges a run. The label is the nearest word above it, with at most a
// row of units between.
func newAxis(plane layout.Plane, col int, run []entry, before []decode.Cell) (axis, bool) {
	if len(run) < 2 {
		return axis{}, false
	}
	a := axis{plane: plane, col: col, entries: run, label: decode.Cell{Kind: decode.Empty}}
	unit := decode.Cell{Kind: decode.Empty}
	for i := len(before) - 1; i >= 0; i-- {
		row, _ := plane.Place(before[i])
		if run[0].row-row > 3 {
			break
		}
		if isLiftLabel(before[i]) {
			a.label = before[i]
			break
		}
		if over := plane.At(row, col-1); plane.Swapped && col > 1 && isHeadLabel(before[i]) && isLiftLabel(over) {
			a.label = over // "Lift" over "Head", which is the caption of the column
			break
		}
		if onlyMarks(before[i]) {
			continue // a dash in the row of units
		}
		if !unitsOnly(before[i]) {
			break
		}
		unit = before[i]
	}
	if openEnded.MatchString(a.label.Text) && a.unlabelled().judge() == noLifts {
		return axis{}, false // the flows of a port that is open
	}
	a.sure = a.judge()
	if a.sure < spelled && a.underPort() {
		return axis{}, false // 25 50 75 under "Int" are flows
	}
	if a.label.Blank() && bareUnit.MatchString(strings.TrimSpace(unit.Text)) && len(run) >= 3 {
		a.label, a.sure = unit, max(a.sure, spelled) // "mm" and no other word
	}
	return a, a.sure > noLifts
}

func (a axis) judge() evidence {
	spelledOut, values := 0, make([]float64, 0, len(a.entries))
	for _, e := range a.entries {
		if e.text.Spelled {
			spelledOut++
		}
		if !e.text.Ditto {
			values = append(values, e.text.Value)
		}
	}
	written := 2*spelledOut >= len(a.entries) && len(a.entries) >= 3
	switch {
	case saysOpening(a.label):
		return spelled
	case !a.label.Blank() && (written || inches(values)):
		return certainly
	case !a.label.Blank() && (len(values) >= 3 || len(strings.TrimSpace(a.label.Text)) > 1):
		return labelled // a lone "L" before two figures is no list
	case len(a.entries) < 3:
		return noLifts
	case written:
		return spelled
	case inches(values):
		return inchLike
	case hundreds(values):
		return regular
	case stepsOfMM(values):
		return stepped
	default:
		return noLifts
	}
}

// inches reports whether unlabelled figures look like lifts in inches: .02 to
// 1.2 in steps of five thousandths.
func inches(values []float64) bool {
	whole := true
	for _, v := range values {
		if v < 0 || v > 1.2 || math.Abs(v*200-math.Round(v*200)) > 1e-6 {
			return false
		}
		whole = whole && v == math.Trunc(v)
	}
	return !whole
}

// stepsOfMM reports whether unlabelled figures look like lifts in millimetres: at
// least four equal steps of half a millimetre to 2.5 mm from near the seat on.
func stepsOfMM(values []float64) bool {
	if len(values) < fewestPoints {
		return false
	}
	sorted := slices.Clone(values)
	slices.Sort(sorted)
	step := sorted[1] - sorted[0]
	for i := 1; i < len(sorted); i++ {
		if last := i == len(sorted)-1; math.Abs(sorted[i]-sorted[i-1]-step) > 1e-6 && !last {
			return false
		}
	}
	return step >= 0.5 && step <= 2.5 && math.Mod(step*2, 1) == 0 && sorted[0] <= 3 && sorted[len(sorted)-1] <= 20
}

// hundreds reports whether unlabelled figures look like lifts in thousandths:
// whole multiples of 25 from 25 to 1000.
func hundreds(values []float64) bool {
	for _, v := range values {
		if v < 25 || v > 1000 || math.Mod(v, 25) != 0 {
			return false
		}
	}
	return true
}
