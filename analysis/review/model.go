package review

import (
	"flowshelf/analysis/compare"
	"flowshelf/analysis/history"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/value"
)

// driver is one of the things a place rests on.
type driver uint8

// The drivers. listing is whether an entry is ranked at all.
const (
	flow driver = iota
	sell
	extras
	springs
	rework
	listing
	worth // of the family: its entry has no label
	ties
)

// atom is one driver of one entry that differs between two months.
type atom struct {
	label string // "" for the family's own drivers
	driver
}

// shelfModel is what the places of one family rest on, in two months. Every
// place can be worked out again with any of the differences undone.
type shelfModel struct {
	labels        []string
	before, after map[string]*history.Place
	worths        [2]float64 // 0: the going rate of the shelf
	levels        [2]float64
}

// side is one of the two months.
type side int

const (
	old side = iota
	now
)

// picker says from which month a driver is taken.
type picker func(atom) side

// mixed returns the places with every driver taken from the month that pick
// says, by label.
func (s *shelfModel) mixed(pick picker) map[string]compare.Place {
	var offers []compare.Standing
	var delivered []value.Offer
	for _, label := range s.labels {
		o, asDelivered, ranked := s.offer(label, pick)
		if !ranked {
			continue
		}
		offers = append(offers, o)
		if asDelivered {
			delivered = append(delivered, value.Offer{Name: label, Cost: o.Usable, Flow: quantity.CFM(o.Working), U: quantity.CFM(o.WorkingU)})
		}
	}
	cfm := s.worths[pick(atom{driver: worth})]
	if rate, ok, err := value.GoingRate(delivered); cfm == 0 && ok && err == nil {
		cfm = float64(rate) // the shelf's own rate, where the shop has set none
	}
	if cfm == 0 {
		return nil
	}
	for i := range offers {
		offers[i].Worth = cfm
	}
	out := make(map[string]compare.Place, len(offers))
	for i, p := range compare.Standings(offers, s.levels[pick(atom{driver: ties})]) {
		out[offers[i].Label] = p
	}
	return out
}

// offer puts one entry together from two months. An entry that one of them did
// not rank comes and goes as a whole.
func (s *shelfModel) offer(label string, pick picker) (o compare.Standing, asDelivered, ranked bool) {
	sides := [2]*history.Place{s.before[label], s.after[label]}
	from := func(d driver) *history.Place { return sides[pick(atom{label, d})] }
	if !canRank(sides[old]) || !canRank(sides[now]) {
		p := from(listing)
		if !canRank(p) {
			return o, false, false
		}
		from = func(driver) *history.Place { return p }
	}
	p := from(flow)
	o = compare.Standing{Label: label, Working: p.Working.Value, WorkingU: p.WorkingU.Value, BoreHow: boreHow(p.BoreHow)}
	o.Usable = from(sell).Sell.Value
	for _, part := range []quantity.Money{from(extras).Extras.Value, from(springs).Springs.Value, from(rework).Rework.Value} {
		o.Usable, _ = o.Usable.Add(part)
	}
	return o, !from(rework).Rework.Known, true
}

// canRank reports whether a kept place has what a rank needs.
func canRank(p *history.Place) bool {
	return p != nil && p.Standing == history.Ranked && p.Working.Known && p.Sell.Known
}

func boreHow(words string) compare.BoreHow {
	for b := compare.TestedAtReference; b < compare.BoreUnknown; b++ {
		if b.String() == words {
			return b
		}
	}
	return compare.BoreUnknown
}
