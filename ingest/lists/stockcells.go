package lists

import (
	"math"
	"regexp"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
)

// heads reads a count and brings it to heads. A cell may name its own unit.
func (s *stockReader) heads(l line, want role, perSet int) source.Stated[int] {
	cell, c, ok := s.cell(l, want)
	if !ok {
		return source.Stated[int]{}
	}
	count, ok := parse.ReadCount(cell.Text)
	if cell.Kind == decode.Number {
		count, ok = parse.Count{N: int(cell.Num)}, cell.Num == math.Trunc(cell.Num) && math.Abs(cell.Num) < 1e5
	}
	if !ok {
		s.problem(cell, source.Refused, "not-a-count", l.name(), c.title+" is not a whole number", "type a whole number")
		s.drop(cell, "not a count")
		return source.Stated[int]{}
	}
	unit := count.Unit
	if unit == head.BasisNotStated {
		unit = s.onHand
	}
	if unit == head.BasisNotStated {
		return source.Stated[int]{}
	}
	each := unit.Heads(perSet)
	if each == 0 {
		p := s.newProblem(cell, source.Asked, "heads-a-set-unknown", l.name(), "how many heads make a set is not known, so sets cannot be counted in heads", "add the head to the setup")
		p.Question = s.question("heads a set "+plain(l.name()), "How many heads "+l.name()+" make a set?", "1", "2", "4")
		answer, ok := s.askOnce(p)
		if !ok {
			return source.Stated[int]{}
		}
		each = int(answer.Figure)
		s.markAnswered(cell, answer)
	}
	trace := s.trace(cell, "heads")
	if each > 1 {
		trace = trace.Then(unit.String() + "s counted as heads")
	}
	return source.Say(count.N*each+count.Odd, trace)
}

// sets reads sales and brings them to sets.
func (s *stockReader) sets(l line, want role, perSet int) source.Stated[float64] {
	return s.asSets(s.number(l, want, "sets"), perSet)
}

func (s *stockReader) asSets(n source.Stated[float64], perSet int) source.Stated[float64] {
	if !n.Known {
		return n
	}
	heads := s.sold.Heads(perSet)
	if s.sold == head.Set {
		return n
	}
	if heads == 0 || perSet == 0 {
		return source.Stated[float64]{}
	}
	n.Value *= float64(heads) / float64(perSet)
	n.Trace = n.Trace.Then("counted in " + s.sold.String() + ", as sets")
	return n
}

// daysAMonth is the mean month of the Gregorian calendar, 146097 days in 4800
// months.
const daysAMonth = 146097.0 / 4800

// monthsAgo reads the last sale: a date, counted back from the book's date, or
// a number of months.
func (s *stockReader) monthsAgo(l line) source.Stated[float64] {
	cell, _, ok := s.cell(l, "last sale")
	if !ok {
		return source.Stated[float64]{}
	}
	if cell.Kind == decode.Number {
		return s.number(l, "last sale", "months")
	}
	day := s.day(l, "last sale")
	if !day.Known || !s.date.Known {
		return source.Stated[float64]{}
	}
	days := s.date.Value.Sub(day.Value).Hours() / 24
	if days < 0 {
		s.problem(cell, source.Refused, "sale-after-book", l.name(), "the last sale is later than the book's date", "correct the date")
		return source.Stated[float64]{}
	}
	return source.Say(days/daysAMonth, day.Trace.Then("months before the book's date"))
}

// moneyBasis finds how many heads a cost or sell price covers.
func (s *stockReader) moneyBasis(want role) head.Basis {
	c := s.find(want)
	if c == nil {
		return head.BasisNotStated
	}
	if basis, ok := parse.Basis(c.title); ok {
		return basis
	}
	for _, n := range s.notes {
		for _, clause := range clauseEnd.Split(n.text, -1) {
			spoken := role("")
			for _, k := range s.kind.columns {
				if k.role == want && k.titles.MatchString(clause) {
					spoken = k.role
				}
			}
			if basis, ok := parse.Basis(clause); ok && spoken == want {
				s.use(n.cell, "says what a price covers")
				return basis
			}
		}
	}
	return head.BasisNotStated
}

func (s *stockReader) ownFreight(l line) source.Stated[quantity.Money] {
	cell, c, ok := s.cell(l, "freight")
	if !ok {
		return source.Stated[quantity.Money]{}
	}
	if freightWord.MatchString(textOf(cell)) {
		return source.Say(quantity.Zero(s.about.Shop.Currency), s.trace(cell, "a head"))
	}
	if basis, stated := parse.Basis(c.title); !stated || basis != head.Each {
		s.drop(cell, "the book does not say that its freight is for one head")
		return source.Stated[quantity.Money]{}
	}
	return s.ownMoney(l, "freight")
}

func (s *stockReader) leadTime(l line) source.Stated[float64] {
	cell, c, ok := s.cell(l, "lead")
	if !ok {
		return source.Stated[float64]{}
	}
	if cell.Kind == decode.Number && cell.Num >= 0 && leadInWeeks.MatchString(c.title) {
		return source.Say(cell.Num, s.trace(cell, "weeks"))
	}
	if due, ok := s.dueIn(cell); ok {
		return due
	}
	if weeks, ok := parse.Weeks(textOf(cell)); ok && cell.Kind == decode.Text && (hasLetter(cell.Text) || leadInWeeks.MatchString(c.title)) {
		return source.Say(weeks, s.trace(cell, "weeks"))
	}
	s.problem(cell, source.Noted, "lead-time-unknown", l.name(), "this lead time is no number of weeks, so it is taken as unknown", "type weeks, such as 3 wks")
	s.drop(cell, "not a lead time")
	return source.Stated[float64]{}
}

// dueIn reads a lead time that is a date, in weeks from the book's date. A date
// without a year is the next such day.
func (s *stockReader) dueIn(cell decode.Cell) (source.Stated[float64], bool) {
	due, ok := parse.Date(textOf(cell))
	if !ok || due.Ambiguous || !s.date.Known {
		return source.Stated[float64]{}, false
	}
	from, day := s.date.Value, due.Date
	if due.NoYear {
		day = time.Date(from.Year(), day.Month(), day.Day(), 0, 0, 0, 0, time.UTC)
		if day.Before(from) {
			day = day.AddDate(1, 0, 0)
		}
	}
	if day.Before(from) {
		return source.Stated[float64]{}, false
	}
	const daysAWeek = 7
	return source.Say(day.Sub(from).Hours()/24/daysAWeek, s.trace(cell, "weeks").Then("weeks from the book's date to "+day.Format(time.DateOnly))), true
}

var (
	leadInWeeks = regexp.MustCompile(`(?i)\b(weeks?|wks?|wk|wochen)\b`)
	letters     = regexp.MustCompile(`[A-Za-z]`)
)

func hasLetter(text string) bool { return letters.MatchString(text) }
