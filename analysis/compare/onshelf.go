package compare

import (
	"slices"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/pricelist"
	"flowshelf/analysis/quantity"
)

// OnShelf is what the records say of one head on a date, whether or not it could
// be ranked.
type OnShelf struct {
	Listed     head.Listed
	Family     head.Family // zero for a head that no family claims
	Cost       pricelist.Cost
	Stock      *head.StockItem // nil when no stock book in force names it
	StockWaits string          // why its newest stock line is not used, "" when it is
	Dimensions *head.Dimensions
	Extras     []head.Extra
	Notes      []head.Note
	Prices     []head.Price // in force, to come, and those that wait for an answer
	Tests      []*head.Test // not dated later than the date
}

// Shelf lists every head that the setup or a record names, in the setup's order
// and then by name, with the facts that a comparison on the date would use.
func Shelf(records head.Records, shop head.Shop, date time.Time) []OnShelf {
	s := newShelf(records, shop, date)
	var out []OnShelf
	for _, setup := range shop.Families {
		for _, b := range s.families[nameKey(setup.Name)] {
			out = append(out, s.onShelf(b, setup))
		}
	}
	for _, b := range s.strays {
		out = append(out, s.onShelf(b, head.Family{}))
	}
	waits := s.stockWaiting(records.Stock)
	for i := range out {
		out[i].StockWaits = waits[nameKey(out[i].Listed.Name)]
	}
	return out
}

func (s *shelf) onShelf(b *bundle, setup head.Family) OnShelf {
	h := OnShelf{
		Listed: b.listed, Family: setup, Stock: b.stock, Dimensions: b.dimensions,
		Extras: b.extras, Notes: b.notes, Prices: b.prices,
		Cost: pricelist.Find(s.priceQuestion(b, setup)),
	}
	h.Tests = slices.DeleteFunc(slices.Clone(b.tests), func(t *head.Test) bool { return s.later(t.Date) })
	return h
}

// priceQuestion is what the price lists are asked about a head.
func (s *shelf) priceQuestion(b *bundle, setup head.Family) pricelist.Question {
	return pricelist.Question{
		Head: b.listed, Heads: setup.HeadsPerSet, Lift: setup.RangeTo, Prices: b.prices, Stock: b.stock,
		Shop: s.shop, On: s.date, Default: s.rules.DefaultFreight, Answers: s.answers,
	}
}

// stockWaiting says, by name, why a head's line in the newest stock books is not
// used: less than nothing on hand, a unit that is not stated.
func (s *shelf) stockWaiting(items []head.StockItem) map[string]string {
	newest := make(map[string]head.StockItem)
	for _, item := range items {
		if s.later(item.Date) {
			continue
		}
		key := nameKey(item.Head)
		if old, seen := newest[key]; !seen || compareDates(item.Date, old.Date) > 0 ||
			compareDates(item.Date, old.Date) == 0 && item.At.Compare(old.At) < 0 {
			newest[key] = item
		}
	}
	out := make(map[string]string)
	for key, item := range newest {
		if item.Status != head.Used {
			out[key] = item.Why
		}
	}
	return out
}

// Standings returns the places of offers at a tie level, with their ties, as All
// gives them. It takes the offers in any order.
func Standings(offers []Standing, level float64) []Place {
	order := make([]int, len(offers))
	entries := make([]Entry, len(offers))
	for i := range offers {
		order[i], entries[i] = i, offers[i].entry()
	}
	slices.SortStableFunc(order, func(i, j int) int { return byValue(entries[i], entries[j]) })
	sorted := make([]Entry, len(order))
	worth := 0.0
	for k, i := range order {
		sorted[k], worth = entries[i], offers[i].Worth
	}
	f := &family{shelf: &shelf{rules: head.Rules{TieUntil: level}}}
	places := make([]Place, len(offers))
	first := 0
	for group, end := range tieGroups(rivals(sorted, worth), f.tieLevel()) {
		for k := first; k < end; k++ {
			places[order[k]] = Place{Number: first + 1, Shared: end-first > 1, Group: group + 1, TiedWith: tiedWith(sorted[first:end], k-first)}
		}
		first = end
	}
	return places
}

// Standing is what a place rests on: working average and its uncertainty in cfm,
// the usable cost a set, the worth of a cfm, and how the curve came to the
// reference bore.
type Standing struct {
	Label    string
	Working  float64
	WorkingU float64
	Usable   quantity.Money
	Worth    float64
	BoreHow  BoreHow
}

func (s Standing) entry() Entry {
	return Entry{
		Label: s.Label, Value: known(s.Worth*s.Working - s.Usable.Float()), ValueU: s.Worth * s.WorkingU,
		Intake: &PortResult{Working: known(s.Working), WorkingU: s.WorkingU, BoreHow: s.BoreHow},
	}
}
