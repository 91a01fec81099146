package lists_test

import (
	"regexp"
	"strings"
	"testing"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

// FuzzLists feeds drawings of sheets to all recognisers: none may panic, every
// record must point at a cell that has a value, and a price or a line of stock
// that is used must be complete.
func FuzzLists(f *testing.F) {
	for _, seed := range []string{
		"Part|Net each $\nLKC-07|268",
		"Head|On hand (heads)|Cost each\nLKC-12|9|452\nTotal|9",
		"Head|Valves int/exh|Stem|Throat\nLKC-12|2.02/1.60|@1932-11-01|89 %",
		"|LKC-12|PW-33\nThroat|1.7|1.8\nRunner cc|178|220",
		"Head|Item|Needed when|$|Per\nVR-81|x|lift > .55|1|set",
		"all ea: VR-81 $430, frt 24",
		"Our name|Their number\nLKC-12|1",
		"Date|Nominal|Read\n@2026-01-01|250 cfm|250",
		"For|Bore|Valve lift|Budget\nx|96 mm|.5|$1,000",
		"Work|Price per set|Hours\nvalve job|1|#REF!",
	} {
		f.Add(seed)
	}
	shop := theShop()
	f.Fuzz(func(t *testing.T, drawing string) {
		if len(drawing) > 2000 {
			t.Skip()
		}
		s := sheet("Sheet1", safeDates(drawing))
		got, page := recognise("fuzz.xlsx", s, shop)
		filled := make(map[source.Ref]bool)
		for _, c := range s.Cells {
			filled[page.Ref(c)] = true
		}
		for _, p := range got.Prices {
			if !filled[p.At] || !filled[p.HeadAt] {
				t.Errorf("price of %s at %s, head at %s: no such cell", p.Head, p.At, p.HeadAt)
			}
			if p.Status == head.Used && (!p.Amount.Known || !p.Amount.Value.Amount.IsPositive() || p.Basis == head.BasisNotStated || p.Amount.Value.Currency == "") {
				t.Errorf("an incomplete price is used: %+v", p)
			}
		}
		for _, item := range got.Stock {
			if item.Status == head.Used && !item.Date.Known {
				t.Errorf("a line of stock without a date is used: %+v", item)
			}
		}
	})
}

// safeDates keeps the drawing's own date notation from failing on what the
// fuzzer makes of it.
func safeDates(drawing string) string {
	rows := strings.Split(drawing, "\n")
	for i, row := range rows {
		cells := strings.Split(row, "|")
		for j, c := range cells {
			if c = strings.TrimSpace(c); strings.HasPrefix(c, "@") && !isoDay.MatchString(c) {
				cells[j] = "'" + c
			}
		}
		rows[i] = strings.Join(cells, "|")
	}
	return strings.Join(rows, "\n")
}

var isoDay = regexp.MustCompile(`^@(19|20)\d\d-(0[1-9]|1[0-2])-(0[1-9]|1\d|2[0-8])$`)
