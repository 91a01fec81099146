package pricing

import (
	"fmt"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/pricing"
	"flowshelf/export/book"
)

// results writes, beside the yellow cells, what follows from them at once.
func (w *writer) results() {
	s := w.main
	money := book.Body.As(w.dollars)
	w.lay(s, w.header, w.firstResult, []live{
		{"Landed a set", 9, "landed", `IF(OR({each}="",{rate}="",{beside}=""),"",{a set}*({each}*{rate}+{beside}))`, money, func(_ int, o pricing.Outcome) book.Value { return quiet(o.Landed) }},
		{"Margin money", 8, "earned", `IF(OR({landed}="",{sell}=""),"",{sell}-{landed})`, money, func(_ int, o pricing.Outcome) book.Value { return quiet(o.Earned) }},
		{"Margin, of the sell price", 8, "margin", `IF(OR({earned}="",N({sell})<=0,N({landed})<=0),"",{earned}/{sell})`, book.Body.As(book.PercentOne), func(_ int, o pricing.Outcome) book.Value { return quiet(o.Margin) }},
		{"Markup, of the landed cost", 8, "markup", `IF(OR({earned}="",N({sell})<=0,N({landed})<=0),"",{earned}/{landed})`, book.Body.As(book.PercentOne), func(_ int, o pricing.Outcome) book.Value { return quiet(o.Markup) }},
		{"Our work costs us", 7.5, "job cost", `IF({puts in}=0,"",{work})`, money, func(_ int, o pricing.Outcome) book.Value { return quiet(whenPutIn(o, o.Work)) }},
		{"Margin money with our work", 8.5, "job earned", `IF(OR({puts in}=0,{earned}="",{work}="",{rework}=""),"",{earned}+{rework}-{work})`, money, func(_ int, o pricing.Outcome) book.Value { return quiet(o.JobEarned) }},
		{"Margin with our work, of all paid", 9, "job margin", `IF(OR({job earned}="",N({sell})+N({rework})<=0,N({landed})+N({work})<=0),"",{job earned}/({sell}+{rework}))`, book.Body.As(book.PercentOne), func(_ int, o pricing.Outcome) book.Value { return quiet(o.JobMargin) }},
		{"Usable cost", 8, "usable", `IF(COUNT({sell},{extras},{springs},{rework})<4,"",{sell}+{extras}+{springs}+{rework})`, money.Strong(), func(_ int, o pricing.Outcome) book.Value { return quiet(o.Usable) }},
		{"Value at the worth", 8, "value", `IF(AND({flow}>0,N({usable})>0,COUNT({worth})=1),{worth}*{flow}-{usable},"")`, money, func(_ int, o pricing.Outcome) book.Value { return quiet(o.Value) }},
		{"Place", 6.5, "place", `IF({counts}=0,"",IF(COUNTIF({group k*},INDEX({group k*},{position}))>1,INDEX({group k*},{position})&"=",INDEX({group k*},{position})))`, book.Body.Strong().To(book.Right), func(_ int, o pricing.Outcome) book.Value { return placeOf(o.Place) }},
		{"Beaten by", 15, "beaten by", `IF({beaten row}>0,INDEX({label*},{beaten row}),"")`, book.Body.Indented(), func(_ int, o pricing.Outcome) book.Value { return book.Text(o.BeatenBy) }},
	})
	w.names["label"] = place{s, w.header + 1, 1, w.n, 0}
	w.flagThin()
	row := w.header + w.n + 2
	for i, r := range w.Rows {
		if r.Aside == "" {
			continue
		}
		s.Say(row, 1, fmt.Sprintf("%s takes no place: %s.", w.Rows[i].Label, r.Aside), book.Note)
		row++
	}
	s.Freeze(w.header, 1)
	s.Print(book.Print{Basis: basis, RepeatFrom: w.header, RepeatTo: w.header, SecondFrom: w.firstResult})
}

// flagThin marks a margin below the minimum.
func (w *writer) flagThin() {
	margins, least := w.names["margin"], w.names["minimum margin"]
	if w.n == 0 {
		return
	}
	first := book.CellName(margins.row, margins.col)
	w.main.MarkWhen(w.main.Area(margins.row, margins.col, margins.row+w.n-1, margins.col),
		fmt.Sprintf(`AND(ISNUMBER(%[1]s),%[1]s<$%[2]s$%[3]d)`, first, book.ColumnName(least.col), least.row),
		book.Style{Bold: true, Ink: book.Accent, Fill: book.Input})
}

// turning writes the prices and costs at which something turns.
func (w *writer) turning() {
	s := w.turn
	header := w.page(s, "Turning points: where something changes",
		"At the figures on the sheet Pricing. Tie: the customer gets the same value at the worth of a cfm as from the leader; inside the noise heads share places before that.",
		"A landed cost above the price that ties is “never”: no price above cost beats the leader. Nothing here sets a price.")
	w.labels(s, header)
	w.names["sold"] = place{s, header + 1, 2, w.n, 0}
	w.title(s, header, 2, "Sets sold in 12 months", 8, book.Body.As(book.Flow))
	for i, r := range w.Rows {
		s.Set(header+1+i, 2, quiet(r.Sold), book.Body.As(book.Flow))
	}
	money, cents := book.Body.As(w.dollars).To(book.Right), book.Body.As(w.cents).To(book.Right)
	w.lay(s, header, 3, []live{
		{"Cost per cfm", 8, "per cfm", `IF(AND({flow}>0,N({usable})>0),{usable}/{flow},"")`, cents, func(_ int, o pricing.Outcome) book.Value { return quiet(o.PerCFM) }},
		{w.extraTitle(), 9, "per extra", w.perExtra(), cents, func(_ int, o pricing.Outcome) book.Value { return shown(o.PerExtra) }},
		{"Sell price that ties the leader", 9, "tie", `IF({counts}=0,"",` + w.tieFrom() + `)`, money, func(_ int, o pricing.Outcome) book.Value { return quiet(o.Tie) }},
		{"That price is", 14, "tie is", fmt.Sprintf(`IF(OR({tie}="",{landed}=""),"",IF({position}=1,"%s",IF({tie}<{landed},"%s","%s")))`, pricing.LeadsUpTo, pricing.BelowCost, pricing.AboveCost), book.Body.Indented(), func(_ int, o pricing.Outcome) book.Value { return book.Text(o.TieIs) }},
		{"Lowest price, at the minimum margin", 10, "lowest", `IF(OR({landed}="",{minimum margin}=""),"",{landed}/(1-{minimum margin}))`, money, func(_ int, o pricing.Outcome) book.Value { return quiet(o.Lowest) }},
		{"Room between that and the tie", 9, "room", `IF(OR({tie}="",{lowest}=""),"",{tie}-MAX({lowest},N({advertised})))`, money, func(_ int, o pricing.Outcome) book.Value { return quiet(o.Room) }},
		{"Cost each for first place at the target margin", 12, "cost first", w.costFirst(), book.Body.As(asBought).To(book.Right), func(_ int, o pricing.Outcome) book.Value { return shown(o.CostFirst) }},
		{"Sell price that holds the margin of the start", 11.5, "hold", `IF(OR({landed}="",{margin before}=""),"",{landed}/(1-{margin before}))`, money, func(_ int, o pricing.Outcome) book.Value { return quiet(o.Hold) }},
		{"Sets a year for the same margin money", 10.5, "same money", fmt.Sprintf(`IF(OR({sold}="",{earned}="",{earned before}=""),"",IF({earned}<=0,"%s",{sold}*{earned before}/{earned}))`, pricing.Never), book.Body.As(book.Tenth).To(book.Right), func(_ int, o pricing.Outcome) book.Value { return shown(o.SameMoney) }},
		{"Sell price at the target margin", 9, "target", `IF(OR({landed}="",{margin aim}=""),"",{landed}/(1-{margin aim}))`, money, func(_ int, o pricing.Outcome) book.Value { return quiet(o.Target) }},
		{"Suggested sell price", 10.5, "suggested", `IF({least}="","",` + raised("{least}") + `)`, money.Strong(), func(_ int, o pricing.Outcome) book.Value { return quiet(o.Suggested) }},
	})
	s.Freeze(header, 1)
	w.paper(s, header)
}

// raised is the formula of a price raised to how prices end. The steps are
// rounded before they are counted: binary fractions of a cent would add one.
func raised(price string) string {
	const steps = `IF(OR({every}=0,ROUND(%[1]s,2)<=0),ROUND(%[1]s,2),ROUND(-INT(-ROUND((ROUND(%[1]s,2)-{at})/{every},6))*{every}+{at},2))`
	return fmt.Sprintf(steps, price)
}

// whenPutIn is a figure of a head that the shop puts something into.
func whenPutIn(o pricing.Outcome, m compare.Maybe) compare.Maybe {
	if !o.PutsIn() {
		return compare.Maybe{}
	}
	return m
}

func (w *writer) extraTitle() string {
	if base := w.BaseRow(); base >= 0 {
		return "Cost per extra cfm over " + w.Rows[base].Label
	}
	return "Cost per extra cfm: no base head"
}

func (w *writer) perExtra() string {
	base := w.BaseRow()
	if base < 0 {
		return `""`
	}
	return fmt.Sprintf(`IF(OR({priced@%[1]d}=0,{flow}<=0,N({usable})<=0),"",IF({number}=%[2]d,"%[3]s",IF({flow}>{flow@%[1]d},({usable}-{usable@%[1]d})/({flow}-{flow@%[1]d}),"")))`, base, base+1, pricing.Base)
}

// tieFrom is the sell price at which the value equals that of the leader, or for
// the leader that of the second.
func (w *writer) tieFrom() string {
	against := func(k int) string {
		return fmt.Sprintf(`INDEX({usable*},{row k@%[1]d})+{worth}*({flow}-INDEX({flow*},{row k@%[1]d}))-({extras}+{springs}+{rework})`, k)
	}
	second := `""`
	if w.n > 1 {
		second = fmt.Sprintf(`IF({placed}<2,"",%s)`, against(1))
	}
	return fmt.Sprintf(`IF({position}=1,%s,%s)`, second, against(0))
}

// costFirst is the cost a head at which the tie price leaves the target margin.
func (w *writer) costFirst() string {
	cost := `((IF({position}=1,{sell},{tie})*(1-{margin aim})/{a set}-{beside})/{rate})`
	return fmt.Sprintf(`IF({counts}=0,"",IF(OR({margin aim}="",{beside}="",N({rate})<=0),"",IF(%[1]s<=0,"%[2]s",%[1]s)))`, cost, pricing.Never)
}
