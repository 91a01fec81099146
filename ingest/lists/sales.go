package lists

import (
	"slices"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
)

// salesBook is a sheet of sales by month that counts no stock.
func salesBook() kind {
	stock := stockBook()
	return kind{
		name: "sales by month",
		columns: slices.DeleteFunc(stock.columns, func(c column) bool {
			return !slices.Contains([]role{key, "month", "total", "description", "build"}, c.role)
		}),
		needs: []role{key, "month"},
		dated: true,
		proof: func(t *table, about layout.Context) bool { return monthsEnough(t) && headsKnown(t, about) },
		read:  readSales,
	}
}

// monthsEnough keeps a list with a stray word that is a month apart from sales.
func monthsEnough(t *table) bool {
	n := 0
	for _, c := range t.columns {
		if c.role == "month" {
			n++
		}
	}
	return n >= monthsAYear/2
}

func readSales(r *reader) {
	s := stockReader{reader: r}
	if end, ok := s.lastMonth(); ok && !s.namesDate() {
		s.date = source.Say(end.End(), source.Trace{At: s.ref(s.lines[0].key), Text: end.String()}.Then("the last month with sales"))
	} else {
		s.readDate()
	}
	if s.sold = s.unitOf("month", soldSaid); s.sold == head.BasisNotStated {
		s.askSold(s.find("month"))
	}
	s.trailing()
	for _, l := range r.lines {
		out := head.Sales{Date: s.date, Status: s.status, Why: s.why, At: s.ref(l.key)}
		out.Head, out.HeadAt = s.head(l)
		out.Sold12 = s.twelveMonths(l, headsASet(s.about.Shop, out.Head))
		if status, why := s.doubt(l); status != head.Used {
			out.Status, out.Why = status, why
		}
		r.records.Sales = append(r.records.Sales, out)
	}
}

// lastMonth is the newest month in which anything stands.
func (s *stockReader) lastMonth() (parse.Month, bool) {
	all := s.months()
	for _, m := range slices.Backward(all) {
		for _, l := range s.lines {
			if _, ok := l.cells[m.column.place]; ok {
				return m.month, m.month.Year > 0
			}
		}
	}
	return parse.Month{}, false
}

// namesDate reports whether the book itself says of which day it is.
func (s *stockReader) namesDate() bool {
	texts := []string{s.page.Sheet.Name, s.page.Path}
	for _, n := range s.notes {
		texts = append(texts, n.text)
	}
	return slices.ContainsFunc(texts, func(text string) bool { _, ok := parse.Date(text); return ok })
}
