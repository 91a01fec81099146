package pricing

import (
	"github.com/shopspring/decimal"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/value"
)

// Words in place of a figure that there is none of.
const (
	Never = "never"
	Base  = "base"
)

// What a tie price is worth to the shop.
const (
	LeadsUpTo = "leads up to it"
	BelowCost = "never: below cost"
	AboveCost = "above cost"
)

// Result is what a sheet comes to.
type Result struct {
	Terms     Terms         // in effect
	Worth     compare.Maybe // of a cfm, in effect
	GoingRate compare.Maybe // of the shelf at the usable costs in effect
	Outcomes  []Outcome     // one a row
	Order     []int         // the rows that take places, the highest value first
	Groups    []int         // for each of these the position, from 1, of the first of its tie group
}

// Outcome is what one row comes to, money a set in the shop's currency. A Maybe
// that is not known shows its Why, which may be nothing.
type Outcome struct {
	Figures   Figures       // in effect
	Untyped   Figures       // what would be in effect had nobody typed over this row
	Beside    compare.Maybe // freight and surcharges a head, in the shop's money
	Landed    compare.Maybe
	Earned    compare.Maybe // margin in money: sell - landed
	Margin    compare.Maybe // of the sell price
	Markup    compare.Maybe // of the landed cost
	Work      compare.Maybe // what the shop's own parts and work cost it
	JobEarned compare.Maybe // margin in money with them: earned + rework - work
	JobMargin compare.Maybe // of sell + rework
	Usable    compare.Maybe // sell + extras + springs + rework
	Value     compare.Maybe // worth x working average - usable
	PerCFM    compare.Maybe
	PerExtra  compare.Maybe // over the base head
	ValueU    float64       // its standard uncertainty, of a row that takes a place
	Undecided float64       // a difference below it decides nothing
	Position  int           // from the top by value, 0 for a row that takes no place
	Place     Standing
	Without   []int  // Groups as they were without this row
	BeatenBy  string // the best flowing of the heads that flow as much for as little

	Tie          compare.Maybe // sell price at which the value equals the leader's; for the leader, up to which it leads
	TieIs        string
	CostFirst    compare.Maybe // cost a head, in the money it is bought in, that leaves the target margin at the tie price
	Present      compare.Maybe // margin before anybody typed, of the sell price
	PresentMoney compare.Maybe // the same in money
	Hold         compare.Maybe // sell price that leaves the present margin
	SameMoney    compare.Maybe // sets a year that leave the margin money of the past year
	Lowest       compare.Maybe // price at the minimum margin
	Room         compare.Maybe // from the higher of it and the minimum advertised price up to the tie price
	Target       compare.Maybe // price at the target margin
	Least        compare.Maybe // the highest of it, the lowest and the minimum advertised
	Suggested    compare.Maybe // the same raised to the shop's ending
	Strip        []Step
}

// Work works the sheet out.
func (s Sheet) Work() Result {
	terms := s.terms()
	r := Result{Terms: terms, Outcomes: make([]Outcome, len(s.Rows))}
	for i := range s.Rows {
		s.cost(i, terms, r.Outcomes)
	}
	r.GoingRate = s.goingRate(r.Outcomes)
	r.Worth = r.GoingRate
	if terms.Worth.Valid {
		r.Worth = is(terms.Worth.Decimal)
	}
	for i := range s.Rows {
		s.value(i, r.Worth, r.Outcomes)
	}
	shelf := s.shelf(r)
	shelf.standings(r.Outcomes)
	r.Groups = shelf.groups()
	for _, v := range shelf.rivals {
		r.Order = append(r.Order, v.row)
	}
	for i := range s.Rows {
		o := &r.Outcomes[i]
		o.BeatenBy = s.beatenBy(i, r.Outcomes)
		s.turns(i, terms, shelf, r)
		o.Strip = s.strip(i, shelf, *o)
		if shelf.has(i) {
			o.Without = shelf.without(i)
		}
	}
	return r
}

// terms are those in effect.
func (s Sheet) terms() Terms {
	t := Terms{
		Worth: either(s.Typed.Worth, s.Start.Worth), Margin: either(s.Typed.Margin, s.Start.Margin),
		Minimum: either(s.Typed.Minimum, s.Start.Minimum), Labour: either(s.Typed.Labour, s.Start.Labour), Ending: s.Start.Ending,
	}
	if s.Typed.Ending != "" {
		t.Ending = s.Typed.Ending
	}
	for _, rate := range s.Start.Rates {
		t.Rates = append(t.Rates, Rate{rate.Currency, either(s.Typed.Rate(rate.Currency), rate.Value)})
	}
	return t
}

// Rate is that of a currency, not valid when there is none; "" is the shop's own.
func (t Terms) Rate(currency string) decimal.NullDecimal {
	if currency == "" {
		return known(decimal.NewFromInt(1))
	}
	for _, r := range t.Rates {
		if r.Currency == currency {
			return r.Value
		}
	}
	return decimal.NullDecimal{}
}

func is(d decimal.Decimal) compare.Maybe {
	return compare.Maybe{Value: d.InexactFloat64(), Known: true}
}

// goingRate is the Theil-Sen slope of usable cost on working average over the
// heads that take places and carry no rework of ours; see value.GoingRate.
func (s Sheet) goingRate(outcomes []Outcome) compare.Maybe {
	var offers []value.Offer
	for i := range s.Rows {
		if o := outcomes[i]; s.AsDelivered(i, o) {
			offers = append(offers, s.offer(i, o))
		}
	}
	rate, ok, err := value.GoingRate(offers)
	if err != nil || !ok {
		return compare.Maybe{}
	}
	return compare.Maybe{Value: float64(rate), Known: true}
}

// Priced reports whether a row has what a place needs beside a worth.
func (s Sheet) Priced(i int, o Outcome) bool {
	return s.Rows[i].Places && s.Rows[i].Flow.Known && o.Usable.Known && o.Usable.Value > 0
}

// AsDelivered reports whether a row counts for the going rate: priced, and
// without rework.
func (s Sheet) AsDelivered(i int, o Outcome) bool {
	return s.Priced(i, o) && o.Figures[Rework].Decimal.IsZero()
}

func (s Sheet) offer(i int, o Outcome) value.Offer {
	return value.Offer{
		Name: s.Rows[i].Label, Cost: quantity.Of(o.usable(), s.Currency),
		Flow: quantity.CFM(s.Rows[i].Flow.Value), U: quantity.CFM(s.Rows[i].FlowU),
	}
}

// usable is the exact sum behind Usable.
func (o Outcome) usable() decimal.Decimal { return o.Figures[Sell].Decimal.Add(o.beside()) }

// beside is what a customer pays beside the sell price.
func (o Outcome) beside() decimal.Decimal {
	return o.Figures[Extras].Decimal.Add(o.Figures[Springs].Decimal).Add(o.Figures[Rework].Decimal)
}
