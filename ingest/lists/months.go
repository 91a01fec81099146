package lists

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"time"

	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
)

const monthsAYear = 12

// soldIn is a column of the sales of one month.
type soldIn struct {
	column *titled
	month  parse.Month
}

func isMonth(title string) bool {
	_, ok := parse.ReadMonth(title)
	return ok
}

// months returns the columns of sales by month, in order of time where they name
// their years.
func (s *stockReader) months() []soldIn {
	var out []soldIn
	for i := range s.columns {
		if c := &s.columns[i]; c.role == "month" && len(c.cells) > 0 {
			m, _ := parse.ReadMonth(titleOf(c.cells[0]))
			out = append(out, soldIn{c, m})
		}
	}
	slices.SortStableFunc(out, func(a, b soldIn) int { return cmpDated(a.month, b.month) })
	return out
}

// cmpDated leaves months without a year where they stand.
func cmpDated(a, b parse.Month) int {
	if a.Year == 0 || b.Year == 0 {
		return 0
	}
	return a.Compare(b)
}

// trailing chooses the twelve months up to the book's date, once for the book.
// It says what is wrong when the columns do not hold them.
func (s *stockReader) trailing() {
	all := s.months()
	if len(all) == 0 {
		return
	}
	chosen, why := lastTwelve(all, s.date)
	if why != "" {
		p := s.newProblem(all[0].column.cells[0], source.Noted, "months-missing", "", "sales of twelve months are not known: "+why, "")
		p.Found = ""
		s.records.Problems.Add(p)
		return
	}
	s.twelve = chosen
}

// lastTwelve picks the twelve whole months before the date; where the columns do
// not reach back so far, those that end with the date's own month. Months without
// a year are taken as they are if there are twelve different ones.
func lastTwelve(all []soldIn, date source.Stated[time.Time]) (chosen []soldIn, why string) {
	seen := make(map[parse.Month]soldIn)
	dated := 0
	for _, m := range all {
		if _, twice := seen[m.month]; twice {
			return nil, m.month.String() + " stands twice"
		}
		seen[m.month] = m
		if m.month.Year > 0 {
			dated++
		}
	}
	switch {
	case dated == 0 && len(all) == monthsAYear:
		return all, ""
	case dated == 0:
		return nil, fmt.Sprintf("there are %d months, and their years are not written", len(all))
	case dated < len(all):
		return nil, "some of the months do not name their year"
	}
	ends := []parse.Month{all[len(all)-1].month}
	if date.Known {
		own := parse.MonthOf(date.Value)
		ends = []parse.Month{own.Add(-1), own}
		if own.End().Equal(date.Value) {
			slices.Reverse(ends)
		}
	}
	for _, end := range ends {
		if window := twelveTo(end, seen); window != nil {
			return window, ""
		}
	}
	return nil, "not every month of the twelve up to " + ends[0].String() + " has a column"
}

func twelveTo(end parse.Month, columns map[parse.Month]soldIn) []soldIn {
	var out []soldIn
	for back := monthsAYear - 1; back >= 0; back-- {
		c, ok := columns[end.Add(-back)]
		if !ok {
			return nil
		}
		out = append(out, c)
	}
	return out
}

// twelveMonths adds up a line's sales of the chosen months. Returns count
// against. A blank month is no zero unless somebody has said so; totals on the
// sheet are compared and not added in.
func (s *stockReader) twelveMonths(l line, perSet int) source.Stated[float64] {
	sum, months := source.Stated[float64]{}, 0
	for _, m := range s.twelve {
		x, ok := s.soldIn(l, m)
		if !ok {
			continue
		}
		if months++; months == 1 {
			sum = x
			sum.Trace = sum.Trace.Then(fmt.Sprintf("sum of the twelve months from %s to %s", s.twelve[0].month, s.twelve[monthsAYear-1].month))
		} else {
			sum.Value += x.Value
			sum.Trace.Answered = firstOf(sum.Trace.Answered, x.Trace.Answered)
		}
	}
	if months != monthsAYear {
		s.dropTotals(l)
		return source.Stated[float64]{}
	}
	if totals := s.dropTotals(l); len(s.months()) == monthsAYear {
		s.compareTotals(l, totals, sum.Value)
	}
	return s.asSets(sum, perSet)
}

func (s *stockReader) soldIn(l line, m soldIn) (source.Stated[float64], bool) {
	if _, filled := l.cells[m.column.place]; !filled {
		return s.blankMonth(l, m)
	}
	cell, ok := s.value(l, m.column)
	if !ok {
		return source.Stated[float64]{}, false
	}
	x, ok := s.plainNumber(cell, m.column)
	if !ok {
		s.notANumber(l, cell, m.column)
		return source.Stated[float64]{}, false
	}
	return source.Say(x, s.trace(cell, "sets")), true
}

// blankMonth asks, once for whoever keeps the book, what a blank month means.
func (s *stockReader) blankMonth(l line, m soldIn) (source.Stated[float64], bool) {
	p := s.newProblem(l.key, source.Asked, "blank-month", l.name(), m.column.title+" is blank, and a blank is not nothing sold: the twelve months are not added up",
		"type 0 where none was sold, or answer the question")
	p.Found = ""
	p.Question = s.question("blank month", "Does a blank month mean that none was sold?", "none was sold", "it is not known")
	p.Question.Changes = "what was sold in twelve months"
	answer, ok := s.askOnce(p)
	if !ok || !answer.Is("none was sold") {
		return source.Stated[float64]{}, false
	}
	return source.Say(0.0, answer.Trace("sets")), true
}

// dropTotals sets the line's totals and averages aside and returns the totals.
func (s *stockReader) dropTotals(l line) []decode.Cell {
	var out []decode.Cell
	for _, c := range s.columns {
		cell, ok := l.cells[c.place]
		if c.role != "total" || !ok {
			continue
		}
		s.drop(cell, "totals are computed here")
		if cell.Kind == decode.Number && totalTitle.MatchString(c.title) {
			out = append(out, cell)
		}
	}
	return out
}

// compareTotals notes a total that is not the sum of its months.
func (s *stockReader) compareTotals(l line, totals []decode.Cell, sum float64) {
	const rounded = 0.5
	for _, cell := range totals {
		if math.Abs(cell.Num-sum) > rounded {
			s.problem(cell, source.Noted, "total-differs", l.name(), fmt.Sprintf("the months add up to %g; ours is used", sum), "")
		}
	}
}

var totalTitle = regexp.MustCompile(`(?i)^(total|sum|gesamt|summe|totale)\b`)

// titleOf returns a title's text; a date is the month it lies in.
func titleOf(c decode.Cell) string {
	if c.Kind == decode.Date {
		if day, ok := parse.Serial(c.Num); ok {
			return parse.MonthOf(day).String()
		}
	}
	return strings.TrimSpace(parse.Squeeze(c.Text))
}
