package flowsheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// column is what the cells of a series hold before lifts and units are known.
type column struct {
	cells []parse.ReadingText
	set   []head.Reading // status, remark, doubts; the flow is filled in later
}

// column reads the cells of a series one by one. Nothing is dropped: what is
// no reading is kept with its word and its reason.
func (b *builder) column(s *series, out *head.Test) column {
	headName := out.Head
	how := b.digits(s, headName)
	if s.percent {
		s.values = withoutPercentSigns(s.values)
	}
	col := column{make([]parse.ReadingText, len(s.values)), make([]head.Reading, len(s.values))}
	for i, c := range s.values {
		col.cells[i], col.set[i] = b.cell(c, how, headName)
		if s.hidden[i] && !c.Blank() {
			b.hiddenRow(s, i, &col.set[i], out)
		}
	}
	return col
}

// demote sets a reading's status unless a worse one stands.
func demote(r *head.Reading, status head.Status, why string) {
	if r.Status >= status && r.Status != head.Used {
		return
	}
	r.Status, r.Why = status, why
}

// cell reads one cell.
func (b *builder) cell(c decode.Cell, how digits, headName string) (parse.ReadingText, head.Reading) {
	at := b.page.Ref(c)
	var text parse.ReadingText
	var out head.Reading
	switch {
	case c.Formula != "" && !c.Stored:
		b.p.refuse(at, kindNoResult, headName, "="+c.Formula, "the formula has no stored result", "open the book, let it calculate, save it and drop it again")
		return text, head.Reading{Status: head.Refused, Why: "formula without a stored result"}
	case c.Blank():
		return parse.ReadingText{Missing: true}, head.Reading{Status: head.SetAside, Why: "blank"}
	case c.Kind == decode.Failed:
		b.p.setAside(at, kindErrorCell, headName, c.Text, "the cell holds an error, so the reading is missing")
		return parse.ReadingText{Missing: true, Remark: c.Text}, head.Reading{Status: head.SetAside, Why: "error " + c.Text, Remark: c.Text}
	case c.Kind == decode.Number:
		x, ok := parse.Fifteen(c.Num)
		text = parse.ReadingText{Value: x, Known: ok}
	case c.Kind == decode.Text:
		if text = how.read(c.Text); text.EitherMark {
			return text, head.Reading{Status: head.Asked, Why: text.Unsure} // the column is asked about
		}
	case c.Kind == decode.Date:
		text = parse.ReadingText{Unsure: "the spreadsheet shows it as a date"}
	default:
		text = parse.ReadingText{Unsure: "this is not a number"}
	}
	out = b.judge(c, &text, headName)
	if kind, _ := parse.Formula(c.Formula); kind == parse.Linked {
		b.p.note(at, kindLinked, headName, c.Text, "the value comes from another workbook and may be years old")
	}
	if c.Struck {
		answer, ok := b.p.ask(at, kindStruck, headName, cellText(c), "the reading is struck through", source.Question{
			Key: key("struck", oneCell(headName, at, cellText(c))), Text: "Does the reading that is struck through count?",
			Choices: []string{"no, it is superseded", "yes"}, Evidence: "struck through", Changes: "the curve at this lift"})
		decide(&out, answer, ok, "yes", "struck through")
	}
	return text, out
}

// judge turns what a cell says into the status of its reading.
func (b *builder) judge(c decode.Cell, text *parse.ReadingText, headName string) head.Reading {
	at := b.page.Ref(c)
	r := head.Reading{Remark: text.Remark, AtLeast: text.AtLeast, Doubted: text.Doubted}
	if text.About {
		r.Remark = strings.TrimSpace("about " + r.Remark)
	}
	switch {
	case text.Missing:
		r.Status, r.Why = head.SetAside, fmt.Sprintf("not flowed (%q)", text.Remark)
	case text.Either != [2]float64{}:
		b.twoNumbers(c, text, &r, headName)
	case text.Unsure != "":
		b.unsure(c, text, &r, headName)
	case text.Value < 0:
		r.Status, r.Why = head.Refused, "a flow below zero"
		b.p.refuse(at, kindNegative, headName, cellText(c), "a flow cannot be below zero", "check the cell")
	case text.AtMost:
		r.Status, r.Why = head.SetAside, "an upper bound, not a reading"
		b.p.setAside(at, kindOffScale, headName, c.Text, "this is an upper bound, not a reading")
	case text.AtLeast:
		b.p.note(at, kindOffScale, headName, c.Text, "off the scale: the flow is at least this")
	case text.Doubted:
		b.p.note(at, kindDoubted, headName, c.Text, "the tester put a question mark to this reading")
	case text.Band != [2]float64{}:
		r.Remark = strings.TrimSpace(fmt.Sprintf("%s to %s, middle taken %s", parse.Digits(text.Band[0]), parse.Digits(text.Band[1]), r.Remark))
		b.p.note(at, kindRangeOfValues, headName, c.Text, "a range of values: the middle is taken")
	}
	return r
}

// zeros sets aside zero flows above .050 lift, which are missing readings; a
// form printed with zeros is no test.
func (b *builder) zeros(s *series, col *column, headName string) {
	for i, r := range col.set {
		if r.Status != head.Used || col.cells[i].Value != 0 || !col.cells[i].Known {
			continue
		}
		if s.lifts[i].Known && s.lifts[i].Value.In() <= 0.050 {
			continue
		}
		col.set[i].Status, col.set[i].Why = head.SetAside, "zero above .050 lift is a missing reading"
		b.p.setAside(b.page.Ref(s.values[i]), kindZeroReading, headName, cellText(s.values[i]), "a flow of zero above .050 lift is taken as missing")
	}
}

// footnotes binds the marks behind readings to their notes. A note that states
// a condition of its own makes the reading one of another test.
func (b *builder) footnotes(s *series, col *column, headName string) {
	for i, c := range col.cells {
		if c.Mark == "" {
			continue
		}
		at := b.page.Ref(s.values[i])
		n, ok := b.footnote(c.Mark)
		if !ok {
			answer, ok := b.p.ask(at, kindFootnote, headName, s.values[i].Text, "the mark "+c.Mark+" has no footnote", source.Question{
				Key: key("footnote", b.sender, at.File, at.Sheet, c.Mark), Text: "What does the mark " + c.Mark + " mean?",
				Choices: []string{"nothing, use the reading", "do not use the reading"}, Changes: "the readings with this mark"})
			decide(&col.set[i], answer, ok, "nothing", "its footnote "+c.Mark+" is missing")
			continue
		}
		col.set[i].Remark = strings.TrimSpace(col.set[i].Remark + " " + n.text)
		f := newFacts()
		for _, st := range n.statements {
			f = f.beside(st.facts)
		}
		_, against := warns(n.text)
		if len(f.bore)+len(f.pressure)+len(f.bare)+len(f.pipe)+len(f.entry)+len(f.over) > 0 || f.is(words.After) || against || followsWork(n.text) {
			answer, ok := b.p.ask(at, kindFootnoteTells, headName, s.values[i].Text, "the footnote states a condition for this reading only: "+n.text, source.Question{
				Key: key("footnote", b.sender, n.text), Text: "Does a reading marked " + c.Mark + " (" + n.text + ") belong to this curve?",
				Choices: []string{"yes", "no"}, Evidence: n.text, Changes: "the curve at this lift"})
			decide(&col.set[i], answer, ok, "yes", "its footnote states another condition: "+n.text)
		}
	}
}

func (b *builder) footnote(mark string) (footnote, bool) {
	i := slices.IndexFunc(b.around.footnotes, func(n footnote) bool { return n.mark == mark })
	if i < 0 {
		return footnote{}, false
	}
	return b.around.footnotes[i], true
}

// converted looks for one conversion hidden in the formulas of a column. The
// flows then are at what the conversion leads to, and are not converted again.
func (b *builder) converted(s *series, col *column) (factor float64, all bool) {
	n, readings := 0, 0
	for i, c := range s.values {
		if !col.cells[i].Known {
			continue
		}
		readings++
		kind, f := parse.Formula(c.Formula)
		if kind != parse.Multiplied {
			continue
		}
		if n > 0 && math.Abs(f-factor) > 1e-9 {
			return math.NaN(), false
		}
		factor = f
		n++
	}
	return factor, n > 0 && n == readings
}

// flowOf is a reading as a flow with its trace.
func (b *builder) flowOf(c decode.Cell, x float64, unit source.Stated[parse.FlowUnit]) (source.Stated[quantity.Flow], bool) {
	q, step, ok := unit.Value.Flow(x)
	if !ok {
		return source.Stated[quantity.Flow]{Trace: b.r.trace(b.page, c)}, false
	}
	trace := b.r.trace(b.page, c)
	trace.Unit = unit.Value.String()
	if step != "" {
		trace = trace.Then(step)
	}
	return source.Say(q, trace), true
}
