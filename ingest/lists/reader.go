package lists

import (
	"fmt"
	"regexp"
	"strings"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
)

// reader reads the lines of one table into records. Whatever cell it looks at
// and uses is claimed as used; account claims the rest with a reason.
type reader struct {
	*table
	about    layout.Context
	marks    map[int]parse.Mark
	asked    map[string]int    // position in Problems of each question, by its key
	answered map[[2]int]string // who answered a question about a cell, by its row and column
	records  head.Records
}

func newReader(t *table, about layout.Context) *reader {
	r := &reader{table: t, about: about, marks: make(map[int]parse.Mark), asked: make(map[string]int), answered: make(map[[2]int]string)}
	for i := range t.columns {
		c := &t.columns[i]
		r.marks[c.place] = parse.DecideMark(r.texts(c.place))
		r.leaveHidden(c)
	}
	return r
}

// leaveHidden does not read a hidden column, and asks about it, once.
func (r *reader) leaveHidden(c *titled) {
	if c.role == "" || c.role == r.kind.needs[0] || len(c.cells) == 0 || !r.hidden(c.cells[0]) || r.page.Sheet.HiddenRows[c.cells[0].Row] {
		return
	}
	p := r.newProblem(c.cells[0], source.Asked, "hidden-column", "", "the column “"+c.title+"” is hidden, so it is not read", "show it if it is to be used")
	p.Question = r.question("hidden column "+c.title, "Is the hidden column “"+c.title+"” to be used?", useIt, leaveOut)
	answer, ok := r.askOnce(p)
	if !ok || !answer.Is("yes") {
		c.role = ""
		return
	}
	for _, l := range r.lines {
		r.markAnswered(l.cells[c.place], answer)
	}
}

// texts returns the cells of a column that are text, for what must be decided
// by all of them together.
func (r *reader) texts(place int) []string {
	var out []string
	for _, l := range r.lines {
		if c, ok := l.cells[place]; ok && c.Kind == decode.Text {
			out = append(out, c.Text)
		}
	}
	return out
}

func (r *reader) ref(c decode.Cell) source.Ref { return r.page.Ref(c) }

func (r *reader) use(c decode.Cell, as string) {
	r.page.Claim(c.Row, c.Col, layout.Claim{By: r.kind.name, Used: true, Why: as})
}

func (r *reader) drop(c decode.Cell, why string) {
	r.page.Claim(c.Row, c.Col, layout.Claim{By: r.kind.name, Why: why})
}

// account claims every cell of the table that reading has not used.
func (r *reader) account() {
	for _, c := range r.columns {
		for _, cell := range c.cells {
			if c.role == "" {
				r.drop(cell, "a column that is not read")
			} else {
				r.use(cell, "title")
			}
		}
	}
	for _, s := range r.sections {
		r.use(s.cell, "section")
	}
	for _, a := range r.aside {
		r.drop(a.cell, a.why)
	}
	for _, l := range r.lines {
		for _, c := range r.columns {
			if cell, ok := l.cells[c.place]; ok {
				r.drop(cell, "nothing of this row is taken from the column “"+c.title+"”")
			}
		}
	}
}

// find returns the column of a role, nil when the table has none.
func (r *reader) find(want role) *titled {
	for i := range r.columns {
		if r.columns[i].role == want {
			return &r.columns[i]
		}
	}
	return nil
}

// cell returns the value of a line in the column of a role and claims it. A
// stored error and a formula without a result are missing values and a problem.
func (r *reader) cell(l line, want role) (decode.Cell, *titled, bool) {
	c := r.find(want)
	if c == nil {
		return decode.Cell{}, nil, false
	}
	cell, ok := r.value(l, c)
	return cell, c, ok
}

func (r *reader) value(l line, c *titled) (decode.Cell, bool) {
	cell, ok := l.cells[c.place]
	if !ok {
		return cell, false
	}
	switch {
	case cell.Kind == decode.Failed:
		r.problem(cell, source.Refused, "failed-formula", l.name(), "this cell holds an error instead of a value",
			"correct the formula or type the value")
		r.drop(cell, "an error value")
		return cell, false
	case cell.Formula != "" && !cell.Stored:
		r.problem(cell, source.Refused, "formula-without-result", l.name(), "this formula was saved without its result",
			"open the book in a spreadsheet program and save it once")
		r.drop(cell, "a formula without a result")
		return cell, false
	case cell.Kind == decode.Text && noValue.MatchString(parse.Squeeze(cell.Text)):
		r.drop(cell, "no value")
		return cell, false
	}
	r.use(cell, string(c.role))
	return cell, true
}

// noValue are the marks people type where there is nothing to say.
var noValue = regexp.MustCompile(`(?i)^(-+|–|—|n/?a|n\.a\.?|x|\?+|none|"|tbd)$`)

// words returns the text of a cell, "" when there is none.
func (r *reader) words(l line, want role) string {
	cell, _, ok := r.cell(l, want)
	if !ok {
		return ""
	}
	return parse.Squeeze(textOf(cell))
}

// head claims the key cell and returns the head's name as written.
func (r *reader) head(l line) (string, source.Ref) {
	r.use(l.key, string(r.kind.needs[0]))
	return l.name(), r.ref(l.key)
}

// doubt says why a whole line must not be used before somebody has looked at
// it: hidden or struck through.
func (r *reader) doubt(l line) (head.Status, string) {
	for _, c := range r.columns {
		cell, ok := l.cells[c.place]
		switch {
		case !ok || c.role == "":
		case r.hidden(cell):
			return r.askLine(l, cell, "hidden-line", "Are the hidden lines to be used?", "this line is hidden")
		case cell.Struck:
			return r.askLine(l, cell, "struck-through", "Are the struck-through lines still to be used?", "part of this line is struck through")
		}
	}
	return head.Used, ""
}

func (r *reader) askLine(l line, cell decode.Cell, kind, question, why string) (head.Status, string) {
	p := r.newProblem(cell, source.Asked, kind, l.name(), why+", so it is not used", "")
	p.Question = r.questionHere(kind, question, useIt, leaveOut)
	answer, ok := r.askOnce(p)
	if ok {
		for _, c := range l.cells {
			r.markAnswered(c, answer)
		}
	}
	return decide(answer, ok, why)
}

func (r *reader) newProblem(c decode.Cell, s source.Severity, kind, headName, message, hint string) source.Problem {
	return source.Problem{At: r.ref(c), Severity: s, Kind: kind, Head: headName, Found: textOf(c), Message: message, Hint: hint}
}

func (r *reader) problem(c decode.Cell, s source.Severity, kind, headName, message, hint string) {
	r.records.Problems.Add(r.newProblem(c, s, kind, headName, message, hint))
}

func (r *reader) trace(c decode.Cell, unit string) source.Trace {
	return source.Trace{At: r.ref(c), Text: textOf(c), Unit: unit, Answered: r.answered[[2]int{c.Row, c.Col}]}
}

// number reads a bare number and complains about anything else.
func (r *reader) number(l line, want role, unit string) source.Stated[float64] {
	cell, c, ok := r.cell(l, want)
	if !ok {
		return source.Stated[float64]{}
	}
	if x, ok := r.plainNumber(cell, c); ok {
		return source.Say(x, r.trace(cell, unit))
	}
	r.notANumber(l, cell, c)
	return source.Stated[float64]{}
}

func (r *reader) notANumber(l line, cell decode.Cell, c *titled) {
	r.problem(cell, source.Refused, "not-a-number", l.name(), fmt.Sprintf("%s is not a number", c.title), "type a plain number")
	r.drop(cell, "not a number")
}

func (r *reader) plainNumber(cell decode.Cell, c *titled) (float64, bool) {
	if cell.Kind == decode.Number {
		return cell.Num, true
	}
	if cell.Kind != decode.Text {
		return 0, false
	}
	mark := r.marks[c.place]
	if mark == parse.MarkUnknown && strings.Count(cell.Text, ".") == 1 {
		mark = parse.PointMark
	}
	d, ok := parse.Decimal(trailingUnit.ReplaceAllString(parse.Squeeze(cell.Text), ""), mark)
	return d.InexactFloat64(), ok
}

// trailingUnit is a unit that repeats what the title says.
var trailingUnit = regexp.MustCompile(`(?i)\s*(cfm|rpm|lbs?|cc|in²|in2|sq ?in|hours?|hrs?|h|months?|mo)\.?$`)

// day reads a date. One that can be read two ways is asked about and stays
// unknown.
func (r *reader) day(l line, want role) source.Stated[time.Time] {
	cell, c, ok := r.cell(l, want)
	if !ok {
		return source.Stated[time.Time]{}
	}
	if cell.Kind == decode.Date {
		if d, ok := parse.Serial(cell.Num); ok {
			return source.Say(d, r.trace(cell, ""))
		}
	}
	written, ok := parse.Date(textOf(cell))
	d := written.In(parse.DateOrder(r.texts(c.place)))
	trace := r.trace(cell, "")
	if written.Ambiguous && !d.Ambiguous {
		trace = trace.Then("day and month as the column's other dates have them: " + d.Date.Format(time.DateOnly))
	}
	switch {
	case cell.Kind != decode.Text || !ok:
		r.problem(cell, source.Refused, "not-a-date", l.name(), "this is not a date", "type a date such as 2026-03-16")
	case d.Ambiguous || d.NoYear:
		if answer, ok := r.askOnce(r.whichDay(cell, d, l.name())); ok {
			return dayAnswered(answer, d, trace)
		}
	default:
		return source.Say(d.Date, trace)
	}
	return source.Stated[time.Time]{}
}
