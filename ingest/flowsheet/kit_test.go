package flowsheet_test

import (
	"fmt"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/flowsheet"
	"flowshelf/ingest/layout"
)

// demoShop is what the invented shop of the demo has set.
func demoShop() head.Shop {
	listed := func(family, supplier string, names ...string) []head.Listed {
		var out []head.Listed
		for _, n := range names {
			out = append(out, head.Listed{Name: n, Family: family, Supplier: supplier})
		}
		return out
	}
	shop := head.Shop{
		Name: "Saltmarsh Head & Machine", Found: true,
		Families: []head.Family{
			{Name: "Small Eight", ReferenceBore: quantity.Inches(4.030)},
			{Name: "Large Eight", ReferenceBore: quantity.Inches(4.310)},
			{Name: "Opposed Four", ReferenceBore: quantity.Millimetres(96)},
		},
		Suppliers: []head.SupplierRule{
			{Name: "Larkmoor Castings"}, {Name: "Pellworth Foundry"}, {Name: "Oastbridge Machine"},
			{Name: "Vintner Road Heads"}, {Name: "Tidewell"},
		},
		Benches: []head.Bench{{Name: "Saltmarsh shop bench", Owner: "own", Own: true, Scale: head.LinearInFlow, Folder: "bench"}},
	}
	shop.Heads = append(shop.Heads, listed("Small Eight", "Larkmoor Castings", "LKC-07", "LKC-12")...)
	shop.Heads = append(shop.Heads, listed("Small Eight", "Pellworth Foundry", "PW-31", "PW-33")...)
	shop.Heads = append(shop.Heads, listed("Small Eight", "Oastbridge Machine", "OB-4")...)
	shop.Heads = append(shop.Heads, listed("Small Eight", "Vintner Road Heads", "VR-81", "VR-84")...)
	shop.Heads = append(shop.Heads, listed("Large Eight", "Larkmoor Castings", "LKC-41")...)
	shop.Heads = append(shop.Heads, listed("Large Eight", "Pellworth Foundry", "PW-46")...)
	shop.Heads = append(shop.Heads, listed("Large Eight", "Oastbridge Machine", "OB-44")...)
	shop.Heads = append(shop.Heads, listed("Large Eight", "Vintner Road Heads", "VR-49")...)
	shop.Heads = append(shop.Heads, listed("Opposed Four", "Tidewell", "TD-22", "TD-26")...)
	shop.Heads = append(shop.Heads, listed("Opposed Four", "Larkmoor Castings", "LKC-90")...)
	return shop
}

// registered are orifices of the shop's bench: one for either port, one calibrated
// for each, one of which the test pressure is missing.
func registered() []head.Orifice {
	orifice := func(name string, port head.Port, cfm, drop float64, row int) head.Orifice {
		at := func(col int) source.Trace {
			return source.Trace{At: source.At("Shop setup.xlsx", "Orifices", row, col)}
		}
		return head.Orifice{Name: name, Bench: "Saltmarsh shop bench", Port: port, Flow: source.Say(quantity.CFM(cfm), at(4)),
			Drop: source.Say(quantity.InchesOfWater(drop), at(5)), Test: source.Say(quantity.InchesOfWater(28), at(6)), At: at(1).At}
	}
	out := []head.Orifice{orifice("1.750", 0, 120, 6, 5), orifice("2.500", head.Intake, 250, 6, 6), orifice("2.500", head.Exhaust, 240, 6, 7), orifice("3.250", 0, 400, 6, 8)}
	out[3].Test = source.Stated[quantity.Pressure]{}
	return out
}

// readBook runs all recognisers over every sheet of a book.
func readBook(path string, book *decode.Book, shop head.Shop) (head.Records, []*layout.Page) {
	var out head.Records
	var pages []*layout.Page
	for i := range book.Sheets {
		page := layout.NewPage(path, book, &book.Sheets[i])
		for _, r := range flowsheet.Recognisers() {
			out.Append(r.Recognise(page, layout.Context{Shop: shop, Path: path}))
		}
		pages = append(pages, page)
	}
	return out, pages
}

// show prints a test on one line and its odd readings after it.
func show(t head.Test) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s|%s|%s|%s", t.Head, t.State, t.Port, t.Class)
	for _, part := range []struct{ name, value string }{
		{"by", t.By}, {"sample", t.Sample}, {"mark", t.PortMark}, {"run", t.Run}, {"op", t.Operator}, {"entry", t.Entry},
	} {
		if part.value != "" {
			fmt.Fprintf(&b, " %s=%s", part.name, part.value)
		}
	}
	if t.Ports > 0 {
		fmt.Fprintf(&b, " ports=%d", t.Ports)
	}
	if t.Date.Known {
		fmt.Fprintf(&b, " date=%s", t.Date.Value.Format("2006-01-02"))
	}
	if t.Bore.Known {
		fmt.Fprintf(&b, " bore=%.3f", t.Bore.Value.In())
	}
	if t.Pressure.Known {
		fmt.Fprintf(&b, " p=%.2f", t.Pressure.Value.InH2O())
	}
	if t.Leak.Known {
		fmt.Fprintf(&b, " leak=%.1f", t.Leak.Value.CFM())
	}
	if t.Port == head.Exhaust {
		fmt.Fprintf(&b, " %s", t.Pipe)
	}
	fmt.Fprintf(&b, " %s", t.Status)
	if t.Why != "" {
		fmt.Fprintf(&b, "(%s)", t.Why)
	}
	b.WriteString("\n   ")
	for _, r := range t.Readings {
		b.WriteString(" " + showReading(r))
	}
	for _, r := range t.Remarks {
		fmt.Fprintf(&b, "\n    remark %s: %s", r.At.Cell, r.Text)
	}
	return b.String()
}

func showReading(r head.Reading) string {
	lift, flow := "?", "?"
	if r.Lift.Known {
		lift = strings.TrimPrefix(fmt.Sprintf("%.3f", r.Lift.Value.In()), "0")
	}
	if r.Flow.Known {
		flow = fmt.Sprintf("%.1f", r.Flow.Value.CFM())
	}
	out := lift + "=" + flow
	if r.Pressure().Known {
		out += fmt.Sprintf("@%.1f", r.Pressure().Value.InH2O())
	}
	if r.AtLeast {
		out += ">"
	}
	if r.Doubted {
		out += "?"
	}
	if r.Remark != "" {
		out += "{" + r.Remark + "}"
	}
	if r.Status != head.Used {
		out += "[" + r.Status.String() + ": " + r.Why + "]"
	}
	return out
}
