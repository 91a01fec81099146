package pricing

import (
	"slices"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/value"
)

// value works out value, cost a cfm, and cost an extra cfm over the base head.
func (s Sheet) value(i int, worth compare.Maybe, all []Outcome) {
	o, row := &all[i], &s.Rows[i]
	if !row.Flow.Known || !o.Usable.Known || o.Usable.Value <= 0 {
		return
	}
	offer := s.offer(i, *o)
	if rate, _, err := offer.PerCFM(); err == nil {
		o.PerCFM = compare.Maybe{Value: float64(rate), Known: true}
	}
	if worth.Known {
		o.Value = compare.Maybe{Value: offer.At(value.Rate(worth.Value)).Value, Known: true}
	}
	base := s.BaseRow()
	switch {
	case base < 0 || !s.Priced(base, all[base]):
	case base == i:
		o.PerExtra = compare.Maybe{Why: Base}
	default:
		rate, ok := offer.PerExtraCFM(s.offer(base, all[base]))
		o.PerExtra = compare.Maybe{Value: float64(rate), Known: ok}
	}
}

// BaseRow is the row of the family's base head, -1 for none.
func (s Sheet) BaseRow() int {
	return slices.IndexFunc(s.Rows, func(r Row) bool { return r.Base && r.Places })
}

// beatenBy names, of the heads that flow as much for as little, the one that
// flows most.
func (s Sheet) beatenBy(i int, all []Outcome) string {
	if !s.Priced(i, all[i]) {
		return ""
	}
	best, mine := -1, s.offer(i, all[i])
	for j := range s.Rows {
		if s.Priced(j, all[j]) && value.Beaten(mine, s.offer(j, all[j])) && (best < 0 || s.Rows[j].Flow.Value > s.Rows[best].Flow.Value) {
			best = j
		}
	}
	if best < 0 {
		return ""
	}
	return s.Rows[best].Label
}

// turns works out the prices and costs at which something turns.
func (s Sheet) turns(i int, t Terms, shelf shelf, r Result) {
	o := &r.Outcomes[i]
	landed := s.landed(i, o.Figures, t)
	o.Tie = s.tie(i, shelf, r)
	switch {
	case !o.Tie.Known || !landed.Valid:
	case shelf.leader() == i:
		o.TieIs = LeadsUpTo
	case o.Tie.Value < o.Landed.Value:
		o.TieIs = BelowCost
	default:
		o.TieIs = AboveCost
	}
	o.CostFirst = s.costFirst(i, t, shelf, *o)
	if lowest := atMargin(landed, t.Minimum); lowest.Valid {
		o.Lowest = is(lowest.Decimal)
	}
	if o.Present.Known && landed.Valid {
		if hold := atMargin(landed, known(decimal.NewFromFloat(o.Present.Value))); hold.Valid {
			o.Hold = is(hold.Decimal)
		}
	}
	s.sameMoney(i, o)
	s.suggest(t, landed, o)
	if o.Tie.Known && o.Lowest.Known {
		o.Room = compare.Maybe{Value: o.Tie.Value - max(o.Lowest.Value, o.Figures[Minimum].Decimal.InexactFloat64()), Known: true}
	}
}

// tie is the sell price that ties the leader; for the leader it is the one at
// which the second draws level.
func (s Sheet) tie(i int, shelf shelf, r Result) compare.Maybe {
	rival := shelf.leader()
	if rival == i {
		rival = shelf.second()
	}
	if !shelf.has(i) || rival < 0 {
		return compare.Maybe{}
	}
	mine := r.Outcomes[i]
	price, err := value.TiePrice(quantity.CFM(s.Rows[i].Flow.Value), quantity.Of(mine.beside(), s.Currency),
		s.offer(rival, r.Outcomes[rival]), value.Rate(r.Worth.Value))
	if err != nil {
		return compare.Maybe{}
	}
	return is(price.Amount)
}

// costFirst is what a head would have to cost, in the money it is bought in, for
// it to tie the leader and leave the target margin; for the leader, to leave it
// at the present price:
//
//	(price (1 - margin)/heads - freight and surcharges)/rate.
func (s Sheet) costFirst(i int, t Terms, shelf shelf, o Outcome) compare.Maybe {
	rate, margin, price := t.Rate(s.Rows[i].Foreign), o.Figures[Margin], o.Tie
	if shelf.leader() == i {
		price = compare.Maybe{Value: o.Figures[Sell].Decimal.InexactFloat64(), Known: true}
	}
	beside := s.beside(i, o.Figures, t)
	if !price.Known || !margin.Valid || !rate.Valid || !rate.Decimal.IsPositive() || !beside.Valid || s.Heads < 1 {
		return compare.Maybe{}
	}
	cost := (price.Value*(1-margin.Decimal.InexactFloat64())/float64(s.Heads) - beside.Decimal.InexactFloat64()) / rate.Decimal.InexactFloat64()
	if cost <= 0 {
		return compare.Maybe{Why: Never}
	}
	return compare.Maybe{Value: cost, Known: true}
}

// sameMoney is how many sets a year leave what the sets of the past twelve
// months left at the figures the sheet starts from.
func (s Sheet) sameMoney(i int, o *Outcome) {
	row := &s.Rows[i]
	if !row.Sold.Known || !o.Earned.Known || !o.PresentMoney.Known {
		return
	}
	if o.Earned.Value <= 0 {
		o.SameMoney = compare.Maybe{Why: Never}
		return
	}
	o.SameMoney = compare.Maybe{Value: row.Sold.Value * o.PresentMoney.Value / o.Earned.Value, Known: true}
}

// suggest is the price at the target margin, and the same raised to what may be
// asked and to the shop's ending.
func (s Sheet) suggest(t Terms, landed decimal.NullDecimal, o *Outcome) {
	target := atMargin(landed, o.Figures[Margin])
	if !target.Valid {
		return
	}
	o.Target = is(target.Decimal)
	least := target.Decimal
	if lowest := atMargin(landed, t.Minimum); lowest.Valid {
		least = decimal.Max(least, lowest.Decimal)
	}
	if o.Figures[Minimum].Valid {
		least = decimal.Max(least, o.Figures[Minimum].Decimal)
	}
	o.Least, o.Suggested = is(least), is(t.Ending.Up(least))
}
