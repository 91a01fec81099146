package review

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/history"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// Hole is a step in price that nothing worth buying fills.
type Hole struct {
	Family           string
	From, To         string // labels
	FromCost, ToCost quantity.Money
	FromFlow, ToFlow float64 // cfm, working averages
	Beaten           []string
	Words            string
}

// wideStep is how much dearer the next head worth buying may be before there is
// a gap on the shelf. Common practice, no source.
const wideStep = 0.5

// holes looks for steps between the heads that are the best buy for some worth
// of a cfm.
func (m *month) holes() []Hole {
	var out []Hole
	for i := range m.Families {
		c := &m.Families[i]
		best := slices.DeleteFunc(entriesOf(c), func(s standing) bool { return s.list != history.Ranked || s.BestBuy == nil })
		slices.SortStableFunc(best, func(a, b standing) int { return a.Cost.Usable.Value.Amount.Cmp(b.Cost.Usable.Value.Amount) })
		for k := 1; k < len(best); k++ {
			if h, ok := m.hole(c, best[k-1].Entry, best[k].Entry); ok {
				out = append(out, h)
			}
		}
	}
	return out
}

func (m *month) hole(c *compare.Comparison, low, high *compare.Entry) (Hole, bool) {
	from, to := low.Cost.Usable.Value, high.Cost.Usable.Value
	if to.Float() <= from.Float()*(1+wideStep) {
		return Hole{}, false
	}
	h := Hole{Family: c.Family.Name, From: low.Label, To: high.Label, FromCost: from, ToCost: to,
		FromFlow: low.Intake.Working.Value, ToFlow: high.Intake.Working.Value}
	for i := range c.Ranked {
		if cost := c.Ranked[i].Cost.Usable.Value.Amount; cost.GreaterThan(from.Amount) && cost.LessThan(to.Amount) {
			h.Beaten = append(h.Beaten, c.Ranked[i].Label)
		}
	}
	asked := 0
	for _, e := range m.Records.Enquiries {
		if e.Family == c.Family.Name && e.Budget.Known && e.Budget.Value.Amount.GreaterThan(from.Amount) && e.Budget.Value.Amount.LessThan(to.Amount) {
			asked++
		}
	}
	h.Words = fmt.Sprintf("nothing worth buying between %s (%s, %.0f cfm) and %s (%s, %.0f cfm)", Cash(from), low.Label, h.FromFlow, Cash(to), high.Label, h.ToFlow)
	if len(h.Beaten) > 0 {
		h.Words += "; beaten in between: " + list(h.Beaten)
	}
	if asked > 0 {
		h.Words += fmt.Sprintf("; %s in the folder with a budget in between", counted(asked, "enquiry", "enquiries"))
	}
	return h, true
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// Quadrant is one field of the picture of value against movement.
type Quadrant struct {
	Name, Advice string
	Heads        []QuadrantHead
}

// QuadrantHead is a head in a field, with why its value is called so.
type QuadrantHead struct {
	Head, Family, Value, Movement string
	Cash                          source.Stated[quantity.Money]
	Months                        compare.Maybe // of supply
	Behind                        compare.Maybe // value behind the family's leader, money a set
}

// grid puts every head in stock by value and movement. Good value is a tie with
// the family's leader, or the best buy for some worth of a cfm.
func (m *month) grid(stock []Health) []Quadrant {
	out := []Quadrant{
		{Name: "good value, moving", Advice: "never run out"},
		{Name: "good value, slow", Advice: "do not reorder yet; show it to people: the counter may not know"},
		{Name: "poor value, moving", Advice: "why? price, habit, or it fits something else"},
		{Name: "poor value, slow", Advice: "stop buying; clear out what is dead"},
		{Name: "value not proven", Advice: "test it before buying more; clear out what is dead"},
	}
	for i := range stock {
		h := &stock[i]
		moving := h.Class == Mover || h.Class == Steady || h.Class == Order && h.Sold12.Value > 0
		q := QuadrantHead{Head: h.Head, Family: h.Family, Cash: h.Cash, Movement: fmt.Sprintf("%s; %s months", h.Class, h.MonthsWords())}
		if h.Class == Order {
			q.Movement = "special order; " + plain(h.Sold12.Value) + " sets a year"
		}
		q.Months, q.Behind = h.Months, compare.Maybe{Why: "no place"}
		if s, ok := m.ranked(h.Head); ok && s.Value.Known {
			q.Behind = known(s.family.Ranked[0].Value.Value - s.Value.Value)
		}
		quality, words := m.quality(h.Head)
		q.Value = words
		at := unproven
		switch {
		case quality == unknownValue:
		case quality == goodValue && moving:
			at = goodMoving
		case quality == goodValue:
			at = goodSlow
		case moving:
			at = poorMoving
		default:
			at = poorSlow
		}
		out[at].Heads = append(out[at].Heads, q)
	}
	return out
}

// The fields of the grid, in its order.
const (
	goodMoving = iota
	goodSlow
	poorMoving
	poorSlow
	unproven
)

// quality is what a head is as a buy.
type quality uint8

const (
	unknownValue quality = iota
	goodValue
	poorValue
)

// quality judges a head by its best state as delivered; not known when it has no
// place.
func (m *month) quality(name string) (quality, string) {
	s, ok := m.ranked(name)
	if !ok {
		return unknownValue, m.noPlace(name)
	}
	leader := &s.family.Ranked[0]
	switch worth := s.family.Worth; {
	case !worth.Known:
		return unknownValue, "no value: what a cfm is worth is not set"
	case s.Label == leader.Label:
		return goodValue, "the family's best buy"
	case s.Place.Group == 1:
		return goodValue, "tied with " + leader.Label
	case s.BestBuy != nil:
		return goodValue, fmt.Sprintf("best buy while a cfm is worth %s; at %s %s beats it", m.interval(*s.BestBuy), m.amountCents(worth.PerCFM), leader.Label)
	}
	words := "not the best buy at any worth of a cfm"
	if len(s.BeatenBy) > 0 {
		words = "beaten by " + list(s.BeatenBy)
	}
	if s.IsBase {
		words += "; the base head: it stays"
	}
	return poorValue, words
}

func (m *month) interval(i compare.Interval) string {
	switch {
	case i.To < 0 && i.From <= 0:
		return "anything"
	case i.To < 0:
		return "more than " + m.amountCents(i.From)
	case i.From <= 0:
		return "less than " + m.amountCents(i.To)
	}
	return m.amountCents(i.From) + " to " + m.amountCents(i.To)
}

func (m *month) amountCents(x float64) string {
	if m.currency == "USD" {
		return fmt.Sprintf("$%.2f", x)
	}
	return fmt.Sprintf("%.2f %s", x, m.currency)
}

// Source is one book that the review rests on.
type Source struct{ File, What, Dated string }

// MonthBefore is what the kept month is used for.
const MonthBefore = "the month before"

// sources lists the books behind the figures.
func (m *month) sources() []Source {
	seen := make(map[string]*Source)
	var out []*Source
	add := func(file, what, dated string) {
		if file == "" {
			return
		}
		key := file + what
		if seen[key] == nil {
			seen[key] = &Source{File: file, What: what, Dated: dated}
			out = append(out, seen[key])
		}
	}
	for i := range m.heads {
		h := &m.heads[i]
		if h.Stock != nil {
			add(h.Stock.At.File, "stock", dayWords(h.Stock.Date))
		}
		add(h.Cost.List, "landed cost", dayWords(h.Cost.ValidFrom))
		add(h.Cost.Sell.Trace.At.File, "sell prices", "")
		for _, t := range h.Tests {
			add(t.At.File, "flow tests", dayWords(t.Date))
		}
	}
	for _, b := range m.Records.Bench {
		add(b.At.File, "bench log", "")
	}
	slices.SortStableFunc(out, func(a, b *Source) int {
		return cmp.Or(strings.Compare(a.File, b.File), strings.Compare(a.What, b.What))
	})
	list := make([]Source, 0, len(out)+1)
	for _, s := range out {
		list = append(list, *s)
	}
	if m.before != nil {
		list = append(list, Source{File: history.FileName(history.Month(m.before.Date)), What: MonthBefore, Dated: m.before.Date.Format("2006-01-02")})
	}
	return list
}
