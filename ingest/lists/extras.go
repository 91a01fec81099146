package lists

import (
	"regexp"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
)

func extrasList() kind {
	return kind{
		name: "extras",
		columns: []column{
			{role: key, titles: regexp.MustCompile(`(?i)^(heads?|our name|casting|kopf)$`)},
			{role: "item", titles: regexp.MustCompile(`(?i)^(items?|extras?|what|needs|also needs|part|teil)$`)},
			{role: "when", titles: regexp.MustCompile(`(?i)\bwhen\b|\bcondition\b|^if$|^wann$`)},
			{role: "per", titles: regexp.MustCompile(`(?i)^(per|basis|each/set)$`)},
			{role: "who", titles: regexp.MustCompile(`(?i)^(who|by|from|source)$`)},
			{role: "internal", titles: regexp.MustCompile(`(?i)\b(internal|our) cost\b|\bcosts? us\b`)},
			{role: "price", titles: regexp.MustCompile(`(?i)^\$|\$$|\bprice\b|\bcost\b|^usd$|^eur$|^€$`)},
		},
		needs: []role{key, "item", "price"},
		any:   []role{"when"}, least: 1,
		proof: headsKnown,
		read: func(r *reader) {
			for _, l := range r.lines {
				r.records.Extras = append(r.records.Extras, r.extra(l))
			}
		},
	}
}

var (
	springKit = regexp.MustCompile(`(?i)\bsprings?\b`)
	whenBare  = regexp.MustCompile(`(?i)^(when |if |for |sold )?(it is |bought )?(a )?bare( heads?| castings?)?$|^nackt$`)
	alwaysMet = regexp.MustCompile(`(?i)^(always|all|every(time)?|yes|immer)$`)
	liftOver  = regexp.MustCompile(`(?i)\blift\b\s*(?:>|>=|over|above|more than)\s*([\d.,]+)\s*(mm|in|")?$|^(?:over|above|>)\s*([\d.,]+)\s*(mm|in|")?\s*lift$`)
	boreUnder = regexp.MustCompile(`(?i)\bbore\b\s*(?:<|<=|under|below|less than)\s*([\d.,]+(?:[ -]\d+/\d+)?)\s*(mm|in|")?$`)
)

func (r *reader) extra(l line) head.Extra {
	var e head.Extra
	e.Head, e.HeadAt = r.head(l)
	e.At = e.HeadAt
	e.Status, e.Why = r.doubt(l)
	e.Item, e.Who, e.Words = r.words(l, "item"), r.words(l, "who"), r.words(l, "when")
	e.Springs = springKit.MatchString(e.Item)
	r.need(l, &e)
	if lift, ok := parse.SpringsTo(e.Item); ok && e.Springs {
		e.SpringsTo = source.Say(lift, source.Trace{At: e.At, Text: e.Item, Unit: "in"})
	}
	e.Price, e.Basis = r.pricedPer(l, "price", "per")
	e.Internal = r.ownMoney(l, "internal")
	if e.Price.Known && e.Basis == head.BasisNotStated && e.Status == head.Used {
		e.Basis, e.Status, e.Why = r.askPer(l, &e.Price, e.Head, e.Item, "type each or set into the column Per")
	}
	return e
}

// askPer asks how many heads a price of the shop's own covers.
func (r *reader) askPer(l line, price *source.Stated[quantity.Money], headName, item, hint string) (head.Basis, head.Status, string) {
	const why = "it is not stated whether the price is for one head or for a set"
	p := r.newProblem(l.key, source.Asked, "price-basis-not-stated", headName, why, hint)
	p.Question = r.question("per "+plain(headName+" "+item), "Is the price of "+item+" for one head or for a set?", "each", "pair", "set")
	answer, ok := r.askOnce(p)
	if !ok {
		return head.BasisNotStated, head.Asked, why
	}
	price.Trace.Answered = answer.Per()
	return basisIn(answer), head.Used, ""
}

// pricedPer reads a price of the shop's own and how many heads it covers: by a
// column of its own, the title, or a note.
func (r *reader) pricedPer(l line, price, per role) (source.Stated[quantity.Money], head.Basis) {
	money := r.ownMoney(l, price)
	if money.Known && money.Value.Amount.IsZero() {
		r.problem(l.key, source.Noted, "zero-price", l.name(), "a price of nothing is a missing price", "type the price")
		money = source.Stated[quantity.Money]{}
	}
	texts := []string{r.words(l, per)}
	if c := r.find(price); c != nil {
		texts = append(texts, c.title)
	}
	for _, n := range r.notes {
		texts = append(texts, n.text)
	}
	for i, text := range texts {
		if basis, ok := parse.Basis(text); ok {
			if note := i - (len(texts) - len(r.notes)); note >= 0 {
				r.use(r.notes[note].cell, "says what a price covers")
			}
			return money, basis
		}
	}
	return money, head.BasisNotStated
}

// need reads the condition: always, above a lift, below a bore, or something
// that depends on the customer's engine and is kept in words.
func (r *reader) need(l line, e *head.Extra) {
	cell, _, ok := r.cell(l, "when")
	if !ok {
		return
	}
	text := parse.Squeeze(textOf(cell))
	lift, bore := liftOver.FindStringSubmatch(text), boreUnder.FindStringSubmatch(text)
	switch {
	case alwaysMet.MatchString(text):
		e.Need = head.Always
	case whenBare.MatchString(text):
		e.Need = head.WhenBare
	case lift != nil:
		e.Need, e.Threshold, ok = head.LiftAbove, 0, false
		if size, read := parse.ReadSize(firstOf(lift[1], lift[3])+" "+firstOf(lift[2], lift[4]), parse.PointMark); read {
			e.Threshold, ok = threshold(size, aLift)
		}
	case bore != nil:
		e.Need, ok = head.BoreBelow, false
		if size, read := parse.ReadSize(bore[1]+" "+bore[2], parse.PointMark); read {
			e.Threshold, ok = threshold(size, aBore)
		}
	default:
		e.Need = head.Depends
	}
	if !ok {
		e.Need = head.Depends
		r.problem(cell, source.Noted, "condition-unclear", e.Head, "the size in this condition cannot be read, so the item is listed as depending on the engine",
			"write it as lift > .550 or bore < 4.125")
	}
}

// threshold settles the unit of a condition by what is possible.
func threshold(size parse.Size, can measure) (quantity.Length, bool) {
	if size.Unit == "" {
		size.Unit = "in"
		if !can.holds(quantity.Inches(size.Value)) {
			size.Unit = "mm"
		}
	}
	length, ok := size.In()
	return length, ok && can.holds(length)
}

func reworkMenu() kind {
	return kind{
		name: "rework menu",
		columns: []column{
			{role: "work", titles: regexp.MustCompile(`(?i)^(work|rework|service|operation|job|arbeit)$`)},
			{role: "internal", titles: regexp.MustCompile(`(?i)\b(internal|our) cost\b|\bcosts? us\b`)},
			{role: "hours", titles: regexp.MustCompile(`(?i)\bhours?\b|\bhrs\b|\bstd\.?\b`)},
			{role: "per", titles: regexp.MustCompile(`(?i)^(per|basis)$`)},
			{role: "price", titles: regexp.MustCompile(`(?i)\bprice\b|^\$|\bcharge\b|\bpreis\b`)},
		},
		needs: []role{"work", "price"},
		any:   []role{"internal", "hours"}, least: 1,
		proof: headWork,
		read:  readRework,
	}
}

var headWorks = regexp.MustCompile(`(?i)\b(valve job|resurfac|blend|short.?side|guides?|back.?cut|bowl|port(ing|ed)?|deck(ing)?|spring swap|seats?|mill(ing)?|assembl)`)

// headWork wants most lines to name work done on heads.
func headWork(t *table, _ layout.Context) bool {
	found := 0
	for _, l := range t.lines {
		if headWorks.MatchString(l.name()) {
			found++
		}
	}
	return found*2 > len(t.lines)
}

func readRework(r *reader) {
	for _, l := range r.lines {
		var w head.Rework
		w.Name, w.At = r.head(l)
		w.Status, w.Why = r.doubt(l)
		w.Price, w.Basis = r.pricedPer(l, "price", "per")
		w.Internal, w.Hours = r.ownMoney(l, "internal"), r.number(l, "hours", "hours")
		if !w.Internal.Known && !w.Hours.Known {
			r.problem(l.key, source.Noted, "work-cost-not-stated", "", "neither hours nor an internal cost is stated for "+w.Name+", so what it earns cannot be said",
				"type its hours, or what it costs us")
		}
		if w.Price.Known && w.Basis == head.BasisNotStated && w.Status == head.Used {
			w.Basis, w.Status, w.Why = r.askPer(l, &w.Price, "", strings.ToLower(w.Name), "write per set over the column")
		}
		r.records.Rework = append(r.records.Rework, w)
	}
}
