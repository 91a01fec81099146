package pricing

import (
	"github.com/shopspring/decimal"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/value"
)

// cost works out what depends on the row's own figures alone. The sell price
// that the shop has not set is landed/(1 - target margin), raised to how prices end.
func (s Sheet) cost(i int, t Terms, all []Outcome) {
	row, o := &s.Rows[i], &all[i]
	for _, in := range Inputs() {
		switch {
		case s.Follows(i, in):
			o.Untyped[in] = all[row.First].Figures[in]
		case in == Margin:
			o.Untyped[in] = t.Margin
		default:
			o.Untyped[in] = row.Start[in]
		}
		o.Figures[in] = either(row.Typed[in], o.Untyped[in])
	}
	landed := s.landed(i, o.Figures, t)
	if beside := s.beside(i, o.Figures, t); beside.Valid {
		o.Beside = is(beside.Decimal)
	}
	if s.Proposes(i) {
		price := atMargin(landed, o.Figures[Margin])
		price.Decimal = t.Ending.Up(price.Decimal)
		o.Untyped[Sell], o.Figures[Sell] = price, either(row.Typed[Sell], price)
	}
	if landed.Valid {
		o.Landed = is(landed.Decimal)
	}
	if landed.Valid && o.Figures[Sell].Valid {
		o.Earned, o.Margin, o.Markup = earned(o.Figures[Sell].Decimal, landed.Decimal)
	}
	o.job(t, landed)
	o.Usable = usable(o.Figures)
	o.Present, o.PresentMoney = s.present(i)
}

// Proposes reports whether a row's sell price is, unless typed over, worked out
// from the target margin.
func (s Sheet) Proposes(i int) bool { return s.Rows[i].Proposed && s.Rows[i].First == i }

// landed is heads a set x (cost x rate + beside).
func (s Sheet) landed(i int, f Figures, t Terms) decimal.NullDecimal {
	rate, beside := t.Rate(s.Rows[i].Foreign), s.beside(i, f, t)
	if !f[Each].Valid || !rate.Valid || !beside.Valid {
		return decimal.NullDecimal{}
	}
	each := f[Each].Decimal.Mul(rate.Decimal).Add(beside.Decimal)
	return known(each.Mul(decimal.NewFromInt(int64(s.Heads))))
}

// beside is what a head costs beside its price: freight x its rate + surcharges
// in other money x theirs. A freight nobody states is none.
func (s Sheet) beside(i int, f Figures, t Terms) decimal.NullDecimal {
	row, sum := &s.Rows[i], decimal.Zero
	for _, part := range []struct {
		amount   decimal.NullDecimal
		currency string
	}{{f[Freight], row.Carried}, {row.Surcharge.Each, row.Surcharge.Currency}} {
		rate := t.Rate(part.currency)
		switch {
		case !part.amount.Valid:
		case !rate.Valid:
			return rate
		default:
			sum = sum.Add(part.amount.Decimal.Mul(rate.Decimal))
		}
	}
	return known(sum)
}

// PutsIn reports whether the shop puts parts or work into the heads.
func (o *Outcome) PutsIn() bool {
	f := o.Figures
	return !f[Rework].Decimal.IsZero() || !f[Hours].Decimal.IsZero() || !f[Parts].Decimal.IsZero()
}

// job works out what the shop's own parts and work cost it, hours x labour rate +
// parts, and what is left of everything that is paid to the shop.
func (o *Outcome) job(t Terms, landed decimal.NullDecimal) {
	f := o.Figures
	if !f[Hours].Valid || !f[Parts].Valid || !t.Labour.Valid && !f[Hours].Decimal.IsZero() {
		return
	}
	work := f[Hours].Decimal.Mul(t.Labour.Decimal).Add(f[Parts].Decimal)
	o.Work = is(work)
	if o.PutsIn() && landed.Valid && f[Sell].Valid && f[Rework].Valid {
		o.JobEarned, o.JobMargin, _ = earned(f[Sell].Decimal.Add(f[Rework].Decimal), landed.Decimal.Add(work))
	}
}

// earned is what is left of the sell price, and that as a share of the price
// and of the cost, where both are positive.
func earned(sell, landed decimal.Decimal) (amount, margin, markup compare.Maybe) {
	amount = is(sell.Sub(landed))
	e, err := value.Earn(quantity.Of(sell, ""), quantity.Of(landed, ""))
	if err != nil {
		return amount, compare.Maybe{}, compare.Maybe{}
	}
	return amount, compare.Maybe{Value: e.Margin, Known: true}, compare.Maybe{Value: e.Markup, Known: true}
}

func usable(f Figures) compare.Maybe {
	sum := decimal.Zero
	for _, in := range []Input{Sell, Extras, Springs, Rework} {
		if !f[in].Valid {
			return compare.Maybe{}
		}
		sum = sum.Add(f[in].Decimal)
	}
	return is(sum)
}

// present is the margin of the figures the sheet starts from, as a share and a
// set.
func (s Sheet) present(i int) (share, amount compare.Maybe) {
	c := &s.Rows[i].Cost
	if !c.Sell.Known || !c.Landed.Known {
		return compare.Maybe{}, compare.Maybe{}
	}
	amount, share, _ = earned(c.Sell.Value.Amount, c.Landed.Value.Amount)
	return share, amount
}

// atMargin is cost/(1 - margin), not valid for a margin of all or more.
func atMargin(cost, margin decimal.NullDecimal) decimal.NullDecimal {
	keep := decimal.NewFromInt(1).Sub(margin.Decimal)
	if !cost.Valid || !margin.Valid || !keep.IsPositive() {
		return decimal.NullDecimal{}
	}
	return known(cost.Decimal.Div(keep))
}
