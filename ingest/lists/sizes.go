package lists

import (
	"fmt"
	"regexp"
	"strings"

	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
)

var (
	inTitle      = regexp.MustCompile(`(?i)(,|\(|\s)in\.?(\)|\s|$|,)|\binch(es)?\b|"`)
	mmTitle      = regexp.MustCompile(`(?i)\bmm\b`)
	inchesSaid   = regexp.MustCompile(`(?i)\binches\b.*\bunless\b.*\bmm\b|\ball\b.*\binches\b|^\s*(dimensions in )?inches\.?\s*$`)
	millsSaid    = regexp.MustCompile(`(?i)\b(all|dimensions|maße|masse)\b.*\bmm\b|^\s*mm\.?\s*$`)
	percentValue = regexp.MustCompile(`^(\d{2}(?:\.\d+)?)\s*%$`)
)

// length reads one size. The words are the trade's way of writing it where that
// is a fraction or metric.
func (r *reader) length(l line, want role, can measure) (source.Stated[quantity.Length], string) {
	cell, c, ok := r.cell(l, want)
	if !ok {
		return source.Stated[quantity.Length]{}, ""
	}
	switch cell.Kind {
	case decode.Date:
		return r.fromDate(l, cell, can)
	case decode.Number:
		return r.settle(l, cell, c, parse.Size{Value: cell.Num}, can), ""
	case decode.Text:
		if size, ok := parse.ReadSize(cell.Text, r.sizeMark(c)); ok {
			return r.settle(l, cell, c, size, can), size.Words
		}
	default:
	}
	r.notASize(l, cell, c)
	return source.Stated[quantity.Length]{}, ""
}

// sizeMark is the column's decimal mark; a size is never in the thousands.
func (r *reader) sizeMark(c *titled) parse.Mark {
	if mark := r.marks[c.place]; mark != parse.MarkUnknown {
		return mark
	}
	for _, text := range r.texts(c.place) {
		if strings.Contains(text, ",") && !strings.Contains(text, ".") {
			return parse.CommaMark
		}
	}
	return parse.PointMark
}

func (r *reader) notASize(l line, cell decode.Cell, c *titled) {
	r.problem(cell, source.Refused, "not-a-size", l.name(), fmt.Sprintf("%s is not a size", c.title), "type inches such as 2.020, or one with mm behind it")
	r.drop(cell, "not a size")
}

// settle gives a size its unit: written beside it, over the column, in a note,
// or the only one that makes it possible.
func (r *reader) settle(l line, cell decode.Cell, c *titled, size parse.Size, can measure) source.Stated[quantity.Length] {
	step := ""
	if size.Unit == "" {
		size.Unit, step = r.unit(c, size.Value, can)
	}
	length, ok := size.In()
	if !ok {
		size.Unit = r.askUnit(l, cell, c, "size-unit-not-stated", "inches or mm", "in", "mm")
		length, ok = size.In()
	}
	from, to := can.span()
	switch {
	case !ok:
		r.drop(cell, "its unit is not stated")
		return source.Stated[quantity.Length]{}
	case !can.holds(length):
		r.problem(cell, source.Refused, "impossible-size", l.name(),
			fmt.Sprintf("%s cannot be %.3f in", c.title, length.In()), fmt.Sprintf("it is ordinarily between %g and %g in", from, to))
		r.drop(cell, "an impossible size")
		return source.Stated[quantity.Length]{}
	}
	trace := r.trace(cell, size.Unit)
	if step != "" {
		trace = trace.Then(step)
	}
	if size.Unit == "mm" {
		trace = trace.Then("mm / 25.4")
	}
	return source.Say(length, trace)
}

// askUnit asks for the unit of a column; "" until somebody has said it.
func (r *reader) askUnit(l line, cell decode.Cell, c *titled, kind, either string, units ...string) string {
	p := r.newProblem(cell, source.Asked, kind, l.name(), c.title+" can be "+either, "write the unit into the title")
	p.Question = r.question("unit of "+c.title, "In which unit is "+c.title+"?", units...)
	answer, ok := r.askOnce(p)
	if ok {
		r.markAnswered(cell, answer)
	}
	return answer.Choice
}

func (r *reader) unit(c *titled, value float64, can measure) (unit, step string) {
	switch {
	case mmTitle.MatchString(c.title):
		return "mm", ""
	case inTitle.MatchString(c.title):
		return "in", ""
	}
	for _, n := range r.notes {
		if inchesSaid.MatchString(n.text) {
			r.use(n.cell, "states the unit")
			return "in", ""
		}
		if millsSaid.MatchString(n.text) {
			r.use(n.cell, "states the unit")
			return "mm", ""
		}
	}
	inches, mm := 0, 0
	sizes := r.bareSizes(c)
	if len(sizes) == 0 {
		sizes = []float64{value} // a size out of a title
	}
	for _, x := range sizes {
		if can.holds(quantity.Inches(x)) {
			inches++
		}
		if can.holds(quantity.Millimetres(x)) {
			mm++
		}
	}
	switch {
	case inches > mm:
		return "in", "inches: the column is impossible in mm"
	case mm > inches:
		return "mm", "mm: the column is impossible in inches"
	}
	return "", ""
}

// bareSizes returns the sizes of a column that nobody wrote a unit to: one unit
// holds for all of them.
func (r *reader) bareSizes(c *titled) []float64 {
	var out []float64
	for _, l := range r.lines {
		cell, ok := l.cells[c.place]
		switch {
		case !ok:
		case cell.Kind == decode.Number:
			out = append(out, cell.Num)
		case cell.Kind == decode.Text:
			if size, ok := parse.ReadSize(cell.Text, parse.MarkUnknown); ok && size.Unit == "" {
				out = append(out, size.Value)
			}
			if first, second, ok := parse.Pair(cell.Text, parse.MarkUnknown); ok && first.Unit == "" && second.Unit == "" {
				out = append(out, first.Value, second.Value)
			}
		}
	}
	return out
}

// fromDate undoes a fraction that the spreadsheet took for a date.
func (r *reader) fromDate(l line, cell decode.Cell, can measure) (source.Stated[quantity.Length], string) {
	day, ok := parse.Serial(cell.Num)
	var fits []string
	if ok {
		for _, text := range parse.FractionFromDate(day) {
			if x, ok := parse.Fraction(text); ok && can.holds(quantity.Inches(x)) {
				fits = append(fits, text)
			}
		}
	}
	if len(fits) != 1 {
		p := r.newProblem(cell, source.Asked, "size-is-a-date", l.name(), "the spreadsheet holds a date where a size should be", "type the size as text, such as '11/32")
		p.Question = r.questionHere("size "+l.name()+" "+textOf(cell), "Which size, in inches, was meant?", fits...)
		p.Question.Wants, p.Question.Unit = source.AFigure, "in"
		answer, ok := r.askOnce(p)
		if !ok {
			r.drop(cell, "a date in place of a size")
			return source.Stated[quantity.Length]{}, ""
		}
		x, isFraction := parse.Fraction(answer.Choice)
		if !isFraction {
			x = answer.Figure
		}
		return source.Say(quantity.Inches(x), answer.Trace("in")), answer.Text
	}
	x, _ := parse.Fraction(fits[0])
	r.problem(cell, source.Noted, "fraction-from-date", l.name(), "the spreadsheet made a date of it; read as "+fits[0], "type it as text, such as '"+fits[0])
	return source.Say(quantity.Inches(x), r.trace(cell, "in").Then("stored as a date, read as "+fits[0])), fits[0]
}

// pair reads "2.02/1.60" into intake and exhaust.
func (r *reader) pair(l line, want role, can measure) (intake, exhaust source.Stated[quantity.Length]) {
	cell, c, ok := r.cell(l, want)
	if !ok {
		return intake, exhaust
	}
	first, second, ok := parse.Pair(cell.Text, r.sizeMark(c))
	if cell.Kind != decode.Text || !ok {
		r.notASize(l, cell, c)
		return intake, exhaust
	}
	return r.settle(l, cell, c, first, can), r.settle(l, cell, c, second, can)
}
