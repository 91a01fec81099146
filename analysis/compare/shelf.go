package compare

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

// shelf is what the records say on one date, by head and in an order of its
// own: the order in which files were read never shows.
type shelf struct {
	shop     head.Shop
	rules    head.Rules
	date     time.Time
	families map[string][]*bundle // by nameKey of the family, heads in the setup's order, then by name
	strays   []*bundle            // heads that no family claims
	menu     menu
	bench    benchLog
	answers  head.Answers
	repeats  repeats
}

// bundle is everything the records say about one head.
type bundle struct {
	listed     head.Listed
	tests      []*head.Test
	prices     []head.Price
	stock      *head.StockItem // of complete heads, or of bare ones where the book has no others
	bareStock  *head.StockItem
	hands      hands // lines of left and right parts, until they are joined
	dimensions *head.Dimensions
	extras     []head.Extra
	notes      []head.Note
	own        source.Problems // found here
	read       source.Problems // found by whoever read the books
}

// nameKey is the spelling by which names are matched: case and outer blanks do
// not count. Looser matching is the reader's business, and a question.
func nameKey(name string) string { return strings.ToLower(strings.TrimSpace(name)) }

func newShelf(records head.Records, shop head.Shop, date time.Time) *shelf {
	s := &shelf{shop: shop, rules: sound(shop.Rules), date: date, families: make(map[string][]*bundle)}
	s.repeats = newRepeats(records.Tests, date)
	if s.rules.Repeatability == head.DefaultRules().Repeatability && s.repeats.enough() {
		s.rules.Repeatability = s.repeats.limit
	}
	s.menu = newMenu(records.Rework)
	s.bench = newBenchLog(records.Bench)
	s.answers = records.Answers
	s.sortOut(s.bundles(records))
	return s
}

// bundles gathers the records of each head.
func (s *shelf) bundles(records head.Records) map[string]*bundle {
	known := make(map[string]*bundle)
	alias := make(map[string]string)
	for _, l := range s.shop.Heads {
		key := nameKey(l.Name)
		if _, twice := known[key]; twice || key == "" {
			continue
		}
		known[key] = &bundle{listed: l}
		for _, also := range l.Called()[1:] {
			alias[nameKey(also)] = key
		}
	}
	find := func(name string) *bundle {
		key := nameKey(name)
		if known[key] == nil && alias[key] != "" {
			key = alias[key]
		}
		if known[key] == nil {
			known[key] = &bundle{listed: head.Listed{Name: strings.TrimSpace(name)}}
		}
		return known[key]
	}
	s.gatherTests(records.Tests, find)
	s.gatherPrices(records.Prices, find)
	s.gatherStock(records.Stock, find)
	s.gatherFacts(records, find)
	for _, b := range known {
		if joined := b.hands.joined(); joined != nil && (b.stock == nil || compareDates(b.stock.Date, joined.Date) <= 0) {
			b.stock = joined
		}
		s.springsAnswered(b)
		if b.stock == nil {
			b.stock = b.bareStock
		}
	}
	newWaiting(records).ask(records.Problems, find)
	for _, p := range records.Problems {
		if p.Head != "" && p.Severity != source.Asked {
			b := find(p.Head)
			b.read = append(b.read, p)
		}
	}
	return known
}

type finder func(name string) *bundle

func (s *shelf) gatherTests(tests []head.Test, find finder) {
	sorted := make([]*head.Test, len(tests))
	for i := range tests {
		sorted[i] = &tests[i]
	}
	slices.SortStableFunc(sorted, compareTests)
	for _, t := range sorted {
		b := find(t.Head)
		b.tests = append(b.tests, t)
	}
}

func (s *shelf) gatherPrices(prices []head.Price, find finder) {
	sorted := slices.Clone(prices)
	slices.SortStableFunc(sorted, func(a, b head.Price) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.Head, b.Head), cmp.Compare(a.Build, b.Build),
			cmp.Compare(a.Rung, b.Rung), a.Amount.Value.Amount.Cmp(b.Amount.Value.Amount))
	})
	for _, p := range sorted {
		b := find(p.Head)
		b.prices = append(b.prices, p)
	}
}

// gatherStock keeps each head's line in its newest stock book that was written
// by the date of the comparison.
func (s *shelf) gatherStock(items []head.StockItem, find finder) {
	sorted := make([]*head.StockItem, 0, len(items))
	for i := range items {
		if items[i].Status == head.Used && !s.later(items[i].Date) {
			sorted = append(sorted, &items[i])
		}
	}
	slices.SortStableFunc(sorted, func(a, b *head.StockItem) int {
		return cmp.Or(compareDates(b.Date, a.Date), a.At.Compare(b.At), cmp.Compare(a.OnHand.Value, b.OnHand.Value))
	})
	for _, item := range sorted {
		b := find(item.Head)
		if b.hands.take(item) {
			continue
		}
		stands := &b.stock
		if strings.EqualFold(item.Build, bareBuild) {
			stands = &b.bareStock
		}
		switch {
		case *stands == nil:
			*stands = item
		case compareDates((*stands).Date, item.Date) == 0 && (*stands).OnHand.Value != item.OnHand.Value:
			b.own.Add(source.Problem{At: item.At, Also: []source.Ref{(*stands).At}, Severity: source.Noted, Kind: "stock-line-twice",
				Head: b.listed.Name, Family: b.listed.Family, Message: "the head stands twice in stock books of one date; the first line is used"})
		}
	}
}

func (s *shelf) gatherFacts(records head.Records, find finder) {
	for i := range records.Dimensions {
		d := &records.Dimensions[i]
		b := find(d.Head)
		if b.dimensions == nil || compareDimensions(d, b.dimensions) < 0 {
			b.dimensions = d
		}
	}
	extras := slices.Clone(records.Extras)
	slices.SortStableFunc(extras, func(a, b head.Extra) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.Item, b.Item), a.Price.Value.Amount.Cmp(b.Price.Value.Amount))
	})
	for _, e := range extras {
		b := find(e.Head)
		b.extras = append(b.extras, e)
	}
	notes := slices.Clone(records.Notes)
	slices.SortStableFunc(notes, func(a, b head.Note) int {
		return cmp.Or(compareDates(a.Date, b.Date), a.At.Compare(b.At), cmp.Compare(a.Text, b.Text))
	})
	for _, n := range notes {
		b := find(n.Head)
		b.notes = append(b.notes, n)
	}
}

// sortOut puts every head into its family. A head that the setup does not list
// takes the family its price list gives it, when the setup has that family.
func (s *shelf) sortOut(known map[string]*bundle) {
	order := make(map[string]int)
	for i, l := range s.shop.Heads {
		if _, seen := order[nameKey(l.Name)]; !seen {
			order[nameKey(l.Name)] = i + 1
		}
	}
	for _, f := range s.shop.Families {
		s.families[nameKey(f.Name)] = nil
	}
	all := make([]*bundle, 0, len(known))
	for _, b := range known {
		all = append(all, b)
	}
	place := func(b *bundle) int {
		if n := order[nameKey(b.listed.Name)]; n > 0 {
			return n
		}
		return len(order) + 1
	}
	slices.SortFunc(all, func(a, b *bundle) int {
		return cmp.Or(cmp.Compare(place(a), place(b)), cmp.Compare(nameKey(a.listed.Name), nameKey(b.listed.Name)))
	})
	for _, b := range all {
		if nameKey(b.listed.Name) == "" {
			continue // a test that names no head: the reader has asked whose it is
		}
		if b.listed.Family == "" {
			b.listed.Family = b.familyByPrice()
		}
		key := nameKey(b.listed.Family)
		if _, exists := s.families[key]; exists {
			s.families[key] = append(s.families[key], b)
		} else if len(b.tests)+len(b.prices) > 0 || b.stock != nil || b.dimensions != nil {
			s.strays = append(s.strays, b)
		}
	}
}

func (b *bundle) familyByPrice() string {
	for _, p := range b.prices {
		if p.Family != "" {
			return p.Family
		}
	}
	return ""
}

// supplier is the setup's, else the first that a price list names.
func (b *bundle) supplier() string {
	if b.listed.Supplier != "" {
		return b.listed.Supplier
	}
	for _, p := range b.prices {
		if p.Supplier != "" {
			return p.Supplier
		}
	}
	return ""
}

// later reports whether a date is known and after the day of the comparison.
func (s *shelf) later(d source.Stated[time.Time]) bool {
	return d.Known && day(d.Value).After(day(s.date))
}

func day(t time.Time) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
}

// compareDates orders dates, an unknown one first.
func compareDates(a, b source.Stated[time.Time]) int {
	switch {
	case a.Known && b.Known:
		return day(a.Value).Compare(day(b.Value))
	case a.Known:
		return 1
	case b.Known:
		return -1
	}
	return 0
}

// compareDimensions puts measured facts before stated ones.
func compareDimensions(a, b *head.Dimensions) int {
	if a.Measured != b.Measured {
		if a.Measured {
			return -1
		}
		return 1
	}
	return cmp.Or(a.At.Compare(b.At), a.HeadAt.Compare(b.HeadAt))
}

// compareTests orders tests by place, then by what they are.
func compareTests(a, b *head.Test) int {
	if c := cmp.Or(a.At.Compare(b.At), cmp.Compare(a.Head, b.Head), cmp.Compare(a.State, b.State), cmp.Compare(a.Port, b.Port),
		cmp.Compare(a.Class, b.Class), compareDates(a.Date, b.Date), cmp.Compare(a.Bore.Value, b.Bore.Value)); c != 0 {
		return c
	}
	if c := cmp.Or(cmp.Compare(a.Sample, b.Sample), cmp.Compare(a.PortMark, b.PortMark), cmp.Compare(a.Run, b.Run),
		cmp.Compare(a.Pipe, b.Pipe), cmp.Compare(a.Status, b.Status)); c != 0 {
		return c
	}
	return slices.CompareFunc(a.Readings, b.Readings, func(x, y head.Reading) int {
		return cmp.Or(cmp.Compare(x.Lift.Value, y.Lift.Value), cmp.Compare(x.Flow.Value, y.Flow.Value))
	})
}
