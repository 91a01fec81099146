package comparetest

import (
	"fmt"
	"time"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
)

func dimensionBook() head.Records {
	s := Sheet{File: "dimensions.xlsx", Name: "Heads"}
	mm := func(x float64) float64 { return x / 25.4 }
	var r head.Records
	for _, d := range []dims{
		{"LKC-07", 1.940, 1.500, "11/32", 1.70, 1.83, 168, 76, .480, 46.0, "iron, as cast", "2 ports", 0, 0},
		{"LKC-12", 2.020, 1.600, "11/32", 1.79, 2.04, 178, 64, .575, 23.4, "alum., as cast, 3-angle", "2 ports", 0.115, 4.030},
		{"PW-31", 2.020, 1.600, "11/32", 1.80, 2.14, 195, 64, .550, 23.0, "alum., as cast", "1", 0, 0},
		{"PW-33", 2.055, 1.600, "11/32", 1.86, 2.55, 220, 72, .600, 22.8, "alum., as cast", "1", 0.085, 4.030},
		{"OB-4", 2.055, 1.600, "5/16", 1.84, 2.20, 195, 65, .650, 24.1, "alum., full CNC", "2 ports", 0, 0},
		{"VR-81", 2.020, 1.600, "11/32", 1.79, 2.10, 188, 62, .600, 24.6, "alum., raised intake .250", "1", 0, 0},
		{"VR-84", 2.020, 1.600, "11/32", 1.77, 2.06, 185, 64, .600, 23.6, "alum., as cast", "1", 0, 0},
		{"LKC-41", 2.065, 1.720, "3/8", 1.82, 2.45, 255, 110, .550, 72.5, "iron, as cast", "1", 0, 0},
		{"PW-46", 2.250, 1.880, "11/32", 2.03, 3.30, 320, 119, .650, 35.0, "alum., CNC chamber", "1", 0, 0},
		{"OB-44", 2.250, 1.880, "11/32", 2.02, 3.05, 305, 114, .750, 34.2, "alum., full CNC", "both ports", 0, 0},
		{"VR-49", 2.250, 1.880, "11/32", 2.00, 3.12, 315, 118, .700, 34.8, "alum., as cast, blended", "1, two bores", 0, 0},
		{"TD-22", mm(44), mm(37), "8 mm", mm(38.5), 1.46, 92, 44, mm(12.5), 7.9, "alum.", "supplier", 0, 0},
		{"TD-26", mm(46), mm(38), "8 mm", mm(41), 1.66, 106, 43, mm(12.5), 7.9, "alum.", "supplier", 0, 0},
		{"LKC-90", mm(44), mm(37), "8 mm", mm(38.3), 1.42, 90, 45, .500, 8.1, "alum.", "1", 0, 0},
	} {
		r.Dimensions = append(r.Dimensions, s.dimensions(d))
	}
	return r
}

func prices() head.Records {
	var r head.Records
	lk := Sheet{File: "Larkmoor prices.xlsx", Name: "Prices"}
	ob := Sheet{File: "Oastbridge net.xlsx", Name: "Net"}
	vr := Sheet{File: "Vintner email.xlsx", Name: "Sheet1"}
	r.Prices = []head.Price{
		lk.net("LKC-07", "Larkmoor Castings", 268, 0), lk.net("LKC-12", "Larkmoor Castings", 452, 0),
		lk.net("LKC-41", "Larkmoor Castings", 410, 19), lk.net("LKC-90", "Larkmoor Castings", 178, 0),
		ob.net("OB-4", "Oastbridge Machine", 905, 35), ob.net("OB-44", "Oastbridge Machine", 1695, 35),
		vr.net("VR-81", "Vintner Road Heads", 430, 24), vr.net("VR-84", "Vintner Road Heads", 372, 24), vr.net("VR-49", "Vintner Road Heads", 985, 24),
	}
	feb := Sheet{File: "Pellworth list Feb.xlsx", Name: "List"}
	april := Sheet{File: "Pellworth list 4-1.xlsx", Name: "List"}
	for _, p := range []struct {
		head            string
		february, april float64
	}{{"PW-31", 1354, 1396}, {"PW-33", 1655, 1706}, {"PW-46", 2877, 2966}} {
		now := feb.net(p.head, "Pellworth Foundry", p.february, 28)
		now.Rung, now.Basis, now.Effective = head.List, head.Pair, feb.Day(2026, time.February, 1)
		now.Discounts = []decimal.Decimal{decimal.NewFromInt(40)}
		// "Eff. 4/1" can be read two ways, so the list waits for an answer.
		next := april.net(p.head, "Pellworth Foundry", p.april, 28)
		next.Rung, next.Basis, next.Discounts = head.List, head.Pair, now.Discounts
		next.Status, next.Why = head.Asked, "the list's date 4/1 can be read two ways"
		r.Prices = append(r.Prices, now, next)
	}
	td := Sheet{File: "Tidewell EUR.xlsx", Name: "Preise"}
	for _, p := range []struct {
		head string
		euro float64
	}{{"TD-22", 189}, {"TD-26", 236}} {
		line := td.net(p.head, "Tidewell", p.euro, 19)
		line.Amount.Value = quantity.Of(decimal.NewFromFloat(p.euro), "EUR")
		r.Prices = append(r.Prices, line)
	}
	return r
}

func stockBook() head.Records {
	s := Sheet{File: "stock 2026-02-28.xlsx", Name: "Stock"}
	day := s.Day(2026, time.February, 28)
	var r head.Records
	for _, i := range []shelfItem{
		{"LKC-07", 14, 22, 3, 699, 2}, {"LKC-12", 9, 31, 0.2, 1249, 3}, {"PW-31", 12, 5, 2.5, 1149, 4},
		{"PW-33", 8, 1, 9.4, 1399, 4}, {"OB-4", 2, 9, 0.6, 2349, 6}, {"VR-81", 6, 2, 4.8, 1179, 3},
		{"VR-84", 10, 6, 1.4, 999, 3}, {"LKC-41", 4, 4, 2.0, 1099, 3}, {"PW-46", 6, 1, 11.0, 2395, 4},
		{"OB-44", 0, 3, 1.9, 4390, 10}, {"VR-49", 4, 4, 2.6, 2640, 3}, {"TD-22", 16, 6, 1.2, 1149, 8},
		{"TD-26", 10, 1, 11.5, 1395, 8}, {"LKC-90", 20, 9, 0.5, 949, 2},
	} {
		r.Stock = append(r.Stock, s.stock(i, day))
	}
	return r
}

func extrasBook() head.Records {
	s := Sheet{File: "extras.xlsx", Name: "Extras"}
	menu := Sheet{File: "rework menu.xlsx", Name: "Menu"}
	depends := s.extra("PW-33", "gaskets for the larger port", head.Depends, 48)
	depends.Words = "stock manifold"
	work := func(name string, aSet, internal, hours float64) head.Rework {
		return head.Rework{Name: name, Price: menu.Dollars(aSet), Internal: menu.Dollars(internal), Basis: head.Set,
			Hours: said(&menu, hours, fmt.Sprint(hours), "hours"), At: menu.next()}
	}
	return head.Records{
		Extras: []head.Extra{
			s.extra("VR-81", "its own manifold", head.Always, 465),
			s.extra("VR-81", "deeper valve reliefs in the pistons", head.Always, 340),
			s.extra("VR-81", "push-rods", head.Always, 135),
			s.extra("VR-81", "cover spacers", head.Always, 70),
			s.springs("LKC-07", .480, 180), s.springs("PW-31", .550, 210),
			s.springs("PW-46", .650, 240), s.springs("LKC-41", .550, 220), depends,
		},
		Rework: []head.Rework{work("Valve job", 260, 148, 3), work("Short-side blend", 320, 185, 4), work("Resurface", 90, 42, 0.8)},
	}
}

func notesBook() head.Records {
	s := Sheet{File: "notes.xlsx", Name: "Notes"}
	note := func(name, text string, side head.Side) head.Note {
		return head.Note{Head: name, Text: text, For: side, By: "JT", Date: s.Day(2026, time.March, 10), At: s.next()}
	}
	return head.Records{Notes: []head.Note{
		note("VR-84", "core shifted toward one wall", head.Against), note("LKC-12", "seats true within .001 in", head.For),
		note("PW-33", "guides at the loose limit", head.Against), note("PW-46", "deck .004 in out of flat, locators missing", head.Against),
		note("OB-4", "finish and fit of the machining", head.For),
	}}
}

func benchBook() head.Records {
	s := Sheet{File: "bench log.xlsx", Name: "Log"}
	check := func(month time.Month, day int, read float64) head.BenchCheck {
		return head.BenchCheck{
			Bench: "Saltmarsh bench", Date: s.Day(2026, month, day), Nominal: said(&s, quantity.CFM(250), "250", "cfm"),
			Read: said(&s, quantity.CFM(read), "", "cfm"), Leak: said(&s, quantity.CFM(1.2), "1.2", "cfm"), Operator: "JT", At: s.next(),
		}
	}
	return head.Records{Bench: []head.BenchCheck{
		check(time.January, 20, 253.5), check(time.March, 3, 250.4), check(time.March, 4, 249.6), check(time.March, 9, 251.4),
	}}
}
