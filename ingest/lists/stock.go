package lists

import (
	"regexp"
	"slices"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
)

func stockBook() kind {
	return kind{
		name: "stock book",
		columns: []column{
			{role: key, titles: headTitles},
			{role: "on hand", titles: regexp.MustCompile(`(?i)\bon.?hand\b|\bqty\b.*\bhand\b|^(in )?stock( qty)?( \(.*\))?$|^bestand\b|\bqoh\b`)},
			{role: "build", titles: regexp.MustCompile(`(?i)^(build|state|assembled\?|assembled or bare|as)$`)},
			{role: "description", titles: regexp.MustCompile(`(?i)^(desc(ription)?\.?|bezeichnung|beschreibung|details?)$`)},
			{role: "note", titles: regexp.MustCompile(`(?i)^(notes?|remarks?|condition|status|zustand|bemerkung(en)?)$`)},
			{role: "committed", titles: regexp.MustCompile(`(?i)\b(committed|allocated|reserved|reserviert)\b`)},
			{role: "available", titles: regexp.MustCompile(`(?i)\b(available|avail\.?)\b`)},
			{role: "on order", titles: regexp.MustCompile(`(?i)\bon.?order\b|\bbestellt\b`)},
			{role: "sold 12", titles: regexp.MustCompile(`(?i)\bsold\b.*\b(12|365|year|yr)\b|\b(12|365).*\bsold\b|\bsales 12\b`)},
			{role: "sold 90", titles: regexp.MustCompile(`(?i)\bsold\b.*\b(90|3 ?m)|\b90.*\bsold\b`)},
			{role: "month", says: isMonth, many: true},
			{role: "total", titles: regexp.MustCompile(`(?i)^(total|totale|sum|avg|average|mean|ytd|year to date|gesamt|summe|schnitt|moyenne|media|promedio)\b\.?( ?/? ?(mo(nth)?|monat|mois|a month))?( ?\d{2,4})?$`), many: true},
			{role: "last sale", titles: regexp.MustCompile(`(?i)\blast (sale|sold)\b`)},
			{role: "landed", titles: regexp.MustCompile(`(?i)\blanded\b`)},
			{role: "freight", titles: regexp.MustCompile(`(?i)\b(freight|frt|fracht)\b`)},
			{role: "sell", titles: regexp.MustCompile(`(?i)\b(sell|sale price|selling|retail|our price|vk)\b`)},
			{role: "cost", titles: regexp.MustCompile(`(?i)\bcost\b|\bek\b`)},
			{role: "lead", titles: regexp.MustCompile(`(?i)\blead\b|\bdelivery\b|\blieferzeit\b`)},
		},
		needs: []role{key, "on hand"},
		any:   []role{"month", "sold 12", "sold 90", "last sale", "sell", "cost", "lead", "committed", "on order", "available"},
		least: 1,
		dated: true,
		proof: headsKnown,
		read:  readStock,
	}
}

func readStock(r *reader) {
	s := stockReader{reader: r}
	s.readDate()
	s.onHand = s.unitOf("on hand", onHandSaid)
	s.sold = s.unitOf("sold 12", soldSaid)
	for _, other := range []role{"sold 90", "month"} {
		if s.sold == head.BasisNotStated {
			s.sold = s.unitOf(other, soldSaid)
		}
	}
	s.askUnits()
	s.trailing()
	for _, l := range r.lines {
		r.records.Stock = append(r.records.Stock, s.line(l))
	}
}

// stockReader reads the lines of one stock book, which is of one date and
// counts in one unit.
type stockReader struct {
	*reader
	date         source.Stated[time.Time]
	status       head.Status
	why          string
	onHand, sold head.Basis
	twelve       []soldIn // the months of a year's sales, nil when the book has none
}

var (
	onHandSaid = regexp.MustCompile(`(?i)\bon.?hand\b|\bstock\b|\bcount(ed|s)?\b|\bquantit`)
	soldSaid   = regexp.MustCompile(`(?i)\bsold\b|\bsales\b|\bverk(auf|äufe|auft)\b|\bvent(es|as)\b|\bvendu(es)?\b|\bvendite\b`)
	headsCount = regexp.MustCompile(`(?i)\b(heads?|each|ea|pcs|köpfen?|stück|culasses|teste|culatas)\b`)
	pairsCount = regexp.MustCompile(`(?i)\b(pairs?|paaren?|paires?)\b`)
	setsCount  = regexp.MustCompile(`(?i)\b(sets?|satz|sätzen?|jeux)(\b|$)`)
)

// unitOf finds what a column counts: by its title, else by the clause of a note
// that speaks of it.
func (s *stockReader) unitOf(want role, said *regexp.Regexp) head.Basis {
	c := s.find(want)
	if c == nil {
		return head.BasisNotStated
	}
	if unit := unitIn(c.title); unit != head.BasisNotStated {
		return unit
	}
	for _, n := range s.notes {
		for _, clause := range clauseEnd.Split(n.text, -1) {
			if unit := unitIn(clause); said.MatchString(clause) && unit != head.BasisNotStated {
				s.use(n.cell, "says what is counted")
				return unit
			}
		}
	}
	return head.BasisNotStated
}

// unitIn finds what a text counts; one that names two units names none.
func unitIn(text string) head.Basis {
	heads, pairs, sets := headsCount.MatchString(text), pairsCount.MatchString(text), setsCount.MatchString(text)
	switch {
	case heads && !pairs && !sets:
		return head.Each
	case pairs && !heads && !sets:
		return head.Pair
	case sets && !heads && !pairs:
		return head.Set
	}
	return head.BasisNotStated
}

// readDate takes the book's date from its notes, its sheet or its file name. Two
// different ones are asked about.
func (s *stockReader) readDate() {
	title := s.lines[0].key
	for _, n := range s.notes {
		if d, ok := parse.Date(n.text); ok {
			s.use(n.cell, "the book's date")
			s.takeDate(d, n.cell, s.trace(n.cell, ""))
		}
	}
	for _, text := range []string{s.page.Sheet.Name, s.page.Path} {
		if d, ok := parse.Date(text); ok {
			s.takeDate(d, title, source.Trace{At: source.Ref{File: s.page.Path}, Text: text})
		}
	}
	if !s.date.Known && s.status == head.Used {
		s.status, s.why = head.Asked, "the stock book does not say of which date it is"
		p := s.newProblem(title, source.Asked, "stock-date-not-stated", "", s.why+", so it is not used", "put the date into its title or its file name, such as stock 2026-02-28.xlsx")
		p.Found = ""
		p.Question = s.questionHere("date", "Of which date is this stock book?")
		s.askDate(p)
	}
}

func (s *stockReader) takeDate(d parse.Day, cell decode.Cell, trace source.Trace) {
	switch {
	case d.Ambiguous || d.NoYear:
		if s.status == head.Used && !s.date.Known {
			s.status, s.why = head.Asked, "the book's date "+d.Text+" can be read two ways"
			if answer, ok := s.askOnce(s.whichDay(cell, d, "")); ok {
				s.date, s.status, s.why = dayAnswered(answer, d, trace), head.Used, ""
			}
		}
	case !s.date.Known:
		s.date, s.status, s.why = source.Say(d.Date, trace), head.Used, ""
	case !s.date.Value.Equal(d.Date):
		s.status, s.why = head.Asked, "the book names two dates"
		p := s.newProblem(cell, source.Asked, "stock-date-differs", "", "the book names two dates, so it is not used", "")
		p.Question = s.questionHere("date", "Of which date is this stock book?", s.date.Value.Format(time.DateOnly), d.Date.Format(time.DateOnly))
		s.askDate(p)
	}
}

// askDate asks of which date the book is, or takes the answer.
func (s *stockReader) askDate(p source.Problem) {
	p.Question.Wants = source.ADay
	answer, ok := s.askOnce(p)
	if !ok {
		return
	}
	day := answer.Day
	if chosen, is := parse.Date(answer.Choice); is {
		day = chosen.Date
	}
	s.date, s.status, s.why = source.Say(day, answer.Trace("")), head.Used, ""
}

func (s *stockReader) askUnits() {
	c := s.find("on hand")
	if c != nil && s.onHand == head.BasisNotStated {
		status, why := s.status, s.why
		s.status, s.why = head.Asked, "the book does not say whether it counts heads or sets"
		p := s.newProblem(c.cells[0], source.Asked, "stock-unit-not-stated", "", s.why+", so it is not used", "write on hand (heads) over the column")
		p.Question = s.question("on hand", "Does this book count heads or sets?", "heads", "pairs", "sets")
		s.onHand = s.counted(p, "on hand", "committed", "on order")
		if s.onHand != head.BasisNotStated {
			s.status, s.why = status, why
		}
	}
	if sold := firstColumn(s.find("sold 12"), s.find("sold 90"), s.find("month")); sold != nil && s.sold == head.BasisNotStated {
		s.askSold(sold)
	}
}

func (s *stockReader) askSold(sold *titled) {
	p := s.newProblem(sold.cells[0], source.Asked, "sold-unit-not-stated", "",
		"the book does not say whether sales are counted in heads or in sets, so they are not used", "write sold (sets) over the column")
	p.Question = s.question("sold", "Are sales counted in heads or in sets?", "heads", "pairs", "sets")
	s.sold = s.counted(p, "sold 12", "sold 90", "month")
}

// counted asks what the figures of some columns count.
func (s *stockReader) counted(p source.Problem, columns ...role) head.Basis {
	answer, ok := s.askOnce(p)
	if !ok {
		return head.BasisNotStated
	}
	for _, c := range s.columns {
		if slices.Contains(columns, c.role) {
			for _, l := range s.lines {
				s.markAnswered(l.cells[c.place], answer)
			}
		}
	}
	return basisIn(answer)
}

func firstColumn(columns ...*titled) *titled {
	for _, c := range columns {
		if c != nil {
			return c
		}
	}
	return nil
}

func (s *stockReader) line(l line) head.StockItem {
	out := head.StockItem{Date: s.date, Status: s.status, Why: s.why, At: s.ref(l.key)}
	out.Head, out.HeadAt = s.head(l)
	perSet := headsASet(s.about.Shop, out.Head)
	out.Build = firstOf(parse.Build(s.words(l, "build")), parse.Build(s.words(l, "description")))
	out.OnHand = s.heads(l, "on hand", perSet)
	out.Committed = s.heads(l, "committed", perSet)
	out.OnOrder = s.heads(l, "on order", perSet)
	out.SoldIn = s.sold
	out.Sold12 = s.sets(l, "sold 12", perSet)
	if s.find("sold 12") == nil {
		out.Sold12 = s.twelveMonths(l, perSet)
	}
	out.Sold90 = s.sets(l, "sold 90", perSet)
	out.LastSale = s.monthsAgo(l)
	out.Cost, out.CostBasis = s.ownMoney(l, "cost"), s.moneyBasis("cost")
	out.Sell, out.SellBasis = s.ownMoney(l, "sell"), s.moneyBasis("sell")
	out.Freight = s.ownFreight(l)
	out.LeadWeeks = s.leadTime(l)
	if cell, ok := s.at(l.number, s.placeOf("available")); ok {
		s.drop(cell, "on hand less committed is computed here")
	}
	if cell, ok := s.at(l.number, s.placeOf("landed")); ok {
		s.drop(cell, "landed cost is computed here from the price lists")
	}
	if status, why := s.doubt(l); status != head.Used {
		out.Status, out.Why = status, why
	}
	s.notForSale(l, &out)
	if out.Sold12.Known && out.Sold12.Value == 0 && out.OnHand.Value > 0 {
		if cell, ok := s.at(l.number, s.placeOf("sold 12")); ok {
			s.problem(cell, source.Noted, "nothing-sold", out.Head, "nothing was sold in twelve months, so the stock lasts without end", "see the month's review for what to do with it")
		}
	}
	if out.OnHand.Known && out.OnHand.Value < 0 && out.Status == head.Used {
		s.askCount(l, &out)
	}
	return out
}

// askCount asks for a count that cannot be below nothing.
func (s *stockReader) askCount(l line, out *head.StockItem) {
	at := l.key
	if cell, ok := s.at(l.number, s.placeOf("on hand")); ok {
		at = cell
	}
	p := s.newProblem(at, source.Asked, "negative-stock", out.Head, "less than nothing is on hand, so the line is not used", "count them and correct the book")
	p.Question = s.questionHere("negative "+plain(out.Head), "How many heads "+out.Head+" are on hand?")
	p.Question.Wants = source.AFigure
	answer, ok := s.askOnce(p)
	if !ok {
		out.Status, out.Why = head.Asked, "less than nothing on hand"
		return
	}
	out.OnHand = source.Say(int(answer.Figure), answer.Trace("heads"))
}

func (s *stockReader) placeOf(want role) int {
	if c := s.find(want); c != nil {
		return c.place
	}
	return -1
}
