package comparetest

import (
	"time"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// Shop is the invented shop's setup.
func Shop() head.Shop {
	setup := Sheet{File: "Shop setup.xlsx", Name: "Families"}
	shop := head.Shop{
		Name: "Saltmarsh Head & Machine", Phone: "555 0142", Currency: "USD", Rules: rules(), Found: true,
		Families: []head.Family{smallEight(&setup), largeEight(&setup), opposedFour(&setup)},
		Suppliers: []head.SupplierRule{
			{Name: "Larkmoor Castings", Cost: head.Net}, {Name: "Pellworth Foundry", Cost: head.Dealer},
			{Name: "Oastbridge Machine", Cost: head.Net}, {Name: "Vintner Road Heads", Cost: head.Net},
			{Name: "Tidewell", Cost: head.Net, Currency: "EUR"},
		},
		Rates: []head.Rate{{Currency: "EUR", Value: decimal.RequireFromString("1.09"), AsOf: setup.Day(2026, time.February, 27)}},
	}
	for _, l := range []struct {
		family, supplier string
		heads            []string
	}{
		{"Small Eight", "Larkmoor Castings", []string{"LKC-07", "LKC-12"}},
		{"Small Eight", "Pellworth Foundry", []string{"PW-31", "PW-33"}},
		{"Small Eight", "Oastbridge Machine", []string{"OB-4"}},
		{"Small Eight", "Vintner Road Heads", []string{"VR-81", "VR-84"}},
		{"Large Eight", "Larkmoor Castings", []string{"LKC-41"}},
		{"Large Eight", "Pellworth Foundry", []string{"PW-46"}},
		{"Large Eight", "Oastbridge Machine", []string{"OB-44"}},
		{"Large Eight", "Vintner Road Heads", []string{"VR-49"}},
		{"Opposed Four", "Tidewell", []string{"TD-22", "TD-26"}},
		{"Opposed Four", "Larkmoor Castings", []string{"LKC-90"}},
	} {
		for _, name := range l.heads {
			shop.Heads = append(shop.Heads, head.Listed{Name: name, Family: l.family, Supplier: l.supplier, At: setup.next()})
		}
	}
	return shop
}

// rules are the usual ones with a labour rate.
func rules() head.Rules {
	r := head.DefaultRules()
	r.LabourRate = source.Say(quantity.Dollars(45), source.Trace{})
	return r
}

func anchors(midLow, midHigh, peakLow, peakHigh float64) head.Anchors {
	return head.Anchors{
		Known: true, MidLow: quantity.CFM(midLow), MidHigh: quantity.CFM(midHigh), PeakLow: quantity.CFM(peakLow), PeakHigh: quantity.CFM(peakHigh),
		StallLow: 0.70, WMid: 0.5, WStall: 0.3, WPeak: 0.2,
	}
}

func smallEight(s *Sheet) head.Family {
	return head.Family{
		Name: "Small Eight", HeadsPerSet: 2, ReferenceBore: quantity.Inches(4.030), EngineBore: s.Inches(4.030), EngineStroke: s.Inches(3.250),
		Cylinders: said(s, 8, "8", ""), EngineRPM: said(s, 6500.0, "6500", "rpm"), RangeFrom: quantity.Inches(0.200), RangeTo: quantity.Inches(0.560),
		BandFrom: quantity.Inches(0.300), BandTo: quantity.Inches(0.500), Worth: s.Dollars(25), BaseHead: "LKC-07",
		Anchors: anchors(160, 260, 190, 300), At: s.next(),
	}
}

func largeEight(s *Sheet) head.Family {
	return head.Family{
		Name: "Large Eight", HeadsPerSet: 2, ReferenceBore: quantity.Inches(4.310), EngineBore: s.Inches(4.310), EngineStroke: s.Inches(4.000),
		Cylinders: said(s, 8, "8", ""), EngineRPM: said(s, 6800.0, "6800", "rpm"), RangeFrom: quantity.Inches(0.200), RangeTo: quantity.Inches(0.700),
		BandFrom: quantity.Inches(0.350), BandTo: quantity.Inches(0.600), Worth: s.Dollars(40), BaseHead: "LKC-41",
		Anchors: anchors(200, 360, 250, 400), At: s.next(),
	}
}

func opposedFour(s *Sheet) head.Family {
	return head.Family{
		Name: "Opposed Four", HeadsPerSet: 4, ReferenceBore: quantity.Millimetres(96),
		EngineBore:   said(s, quantity.Millimetres(96), "96", "mm"),
		EngineStroke: said(s, quantity.Millimetres(80), "80", "mm"),
		Cylinders:    said(s, 4, "4", ""), EngineRPM: said(s, 5500.0, "5500", "rpm"), RangeFrom: quantity.Inches(0.100), RangeTo: quantity.Inches(0.433),
		BandFrom: quantity.Inches(0.200), BandTo: quantity.Inches(0.350), Worth: s.Dollars(60), BaseHead: "LKC-90",
		Anchors: anchors(90, 160, 120, 180), At: s.next(),
	}
}

// Shelf is the whole invented shelf, all three families.
func Shelf() (head.Records, head.Shop, time.Time) {
	var r head.Records
	for _, part := range []head.Records{smallTests(), smallAdverts(), largeTests(), opposedTests(), dimensionBook(), prices(), stockBook(), extrasBook(), notesBook(), benchBook()} {
		r.Append(part)
	}
	return r, Shop(), Date()
}

// SmallEight is the invented shelf with its Small Eight heads only.
func SmallEight() (head.Records, head.Shop, time.Time) { return only("Small Eight") }

// LargeEight is the invented shelf with its Large Eight heads only.
func LargeEight() (head.Records, head.Shop, time.Time) { return only("Large Eight") }

// OpposedFour is the invented shelf with its Opposed Four heads only.
func OpposedFour() (head.Records, head.Shop, time.Time) { return only("Opposed Four") }

func only(family string) (head.Records, head.Shop, time.Time) {
	all, shop, date := Shelf()
	mine := make(map[string]bool)
	kept := shop
	kept.Families, kept.Heads = nil, nil
	for _, f := range shop.Families {
		if f.Name == family {
			kept.Families = append(kept.Families, f)
		}
	}
	for _, h := range shop.Heads {
		if h.Family == family {
			kept.Heads = append(kept.Heads, h)
			mine[h.Name] = true
		}
	}
	return Without(all, func(name string) bool { return !mine[name] }), kept, date
}

// Without returns the records without those of the heads that drop names.
func Without(all head.Records, drop func(name string) bool) head.Records {
	out := head.Records{Rework: all.Rework, Bench: all.Bench, Enquiries: all.Enquiries, Aliases: all.Aliases}
	out.Tests = kept(all.Tests, drop, func(t head.Test) string { return t.Head })
	out.Prices = kept(all.Prices, drop, func(p head.Price) string { return p.Head })
	out.Stock = kept(all.Stock, drop, func(s head.StockItem) string { return s.Head })
	out.Dimensions = kept(all.Dimensions, drop, func(d head.Dimensions) string { return d.Head })
	out.Extras = kept(all.Extras, drop, func(e head.Extra) string { return e.Head })
	out.Notes = kept(all.Notes, drop, func(n head.Note) string { return n.Head })
	out.Problems = kept(all.Problems, drop, func(p source.Problem) string { return p.Head })
	return out
}

func kept[T any](all []T, drop func(string) bool, name func(T) string) []T {
	var out []T
	for _, x := range all {
		if !drop(name(x)) {
			out = append(out, x)
		}
	}
	return out
}
