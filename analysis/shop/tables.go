package shop

import (
	"errors"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

func headSheet() Sheet {
	return Sheet{Name: "Heads", Title: "Heads",
		Explanation: "One head a row, by our own name. Other names that mean the same head go into Also called."}
}

func supplierSheet() Sheet {
	return Sheet{Name: "Suppliers", Title: "Suppliers",
		Explanation: "What is agreed with each supplier. A list's own statement comes before this."}
}

func benchSheet() Sheet {
	return Sheet{Name: "Benches", Title: "Flow benches",
		Explanation: "Our own benches and those of others. Books below the named folder come from the bench."}
}

func orificeSheet() Sheet {
	return Sheet{Name: "Orifices", Title: "Calibrated orifices",
		Explanation: "What turns the manometer readings of a bench into flows. One orifice or range a row; nothing is taken for what is blank."}
}

func rateSheet() Sheet {
	return Sheet{Name: "Rates", Title: "Exchange rates",
		Explanation: "What one unit of a currency is worth in ours, on a date."}
}

func wordSheet() Sheet {
	return Sheet{Name: "Words", Title: "Words of senders",
		Explanation: "What a sender's word means, once it is known."}
}

func headFields() []field[head.Listed] {
	return []field[head.Listed]{
		text(Column{Title: "Head"}, func(h *head.Listed) *string { return &h.Name }),
		text(Column{Title: "Family"}, func(h *head.Listed) *string { return &h.Family }),
		text(Column{Title: "Supplier"}, func(h *head.Listed) *string { return &h.Supplier }),
		names(Column{Title: "Also called", Help: "Other spellings, parted by a semicolon."},
			func(h *head.Listed) *[]string { return &h.Also }),
		names(Column{Title: "Left part", Also: []string{"Left parts"}, Help: "Part number of the left head, where left and right are two numbers: a set takes one of each."},
			func(h *head.Listed) *[]string { return &h.Left }),
		names(Column{Title: "Right part", Also: []string{"Right parts"}, Help: "Part number of the right head."},
			func(h *head.Listed) *[]string { return &h.Right }),
	}
}

func supplierFields() []field[head.SupplierRule] {
	return []field[head.SupplierRule]{
		text(Column{Title: "Supplier"}, func(s *head.SupplierRule) *string { return &s.Name }),
		choice(Column{Title: "Our cost is", Choices: []string{"list", "jobber", "dealer", "net"},
			Help: "Which of the supplier's prices is our cost, after the discount."},
			func(s *head.SupplierRule) *head.Rung { return &s.Cost }, head.List, head.Jobber, head.Dealer, head.Net),
		discounts(Column{Title: "Discount chain", Also: []string{"Discount"}, Unit: "%", Help: "Off the list price, such as 40 or 50/10/5 taken one after the other."}),
		money(Column{Title: "Freight a head", Also: []string{"Freight"}},
			func(s *head.SupplierRule) *statedMoney { return &s.Freight }),
		text(Column{Title: "Currency"}, func(s *head.SupplierRule) *string { return &s.Currency }),
		choice(Column{Title: "Price basis", Choices: []string{"each", "pair", "set"},
			Help: "How many heads a price buys where the list does not say."},
			func(s *head.SupplierRule) *head.Basis { return &s.Basis }, head.Each, head.Pair, head.Set),
		statedWhole(Column{Title: "Buys at", Also: []string{"Buy at", "Order quantity"}, Unit: "heads",
			Help: "How many heads we buy at a time. Wanted only where the list has prices by quantity."},
			bounds{1, 10000}, func(s *head.SupplierRule) *source.Stated[int] { return &s.BuysAt }),
		text(Column{Title: "Books in folder", Also: []string{"Folder"}, Help: "Books below this folder come from this supplier."},
			func(s *head.SupplierRule) *string { return &s.Folder }),
		text(Column{Title: "Note", Also: []string{"Notes"}}, func(s *head.SupplierRule) *string { return &s.Note }),
	}
}

// discounts keeps a chain in percent. A number typed without a sign is a
// percentage here, because the column says so.
func discounts(c Column) field[head.SupplierRule] {
	return field[head.SupplierRule]{c,
		func(s *head.SupplierRule, cell Cell) error {
			help := errors.New("type percentages such as 40 or 50/10/5")
			if cell.Kind == Percent {
				cell.Text = decimal.NewFromFloat(tidy(cell.Num * 100)).String()
			}
			var chain []decimal.Decimal
			for part := range strings.SplitSeq(cell.Text, "/") {
				d, err := decimal.NewFromString(strings.TrimRight(strings.TrimSpace(part), " %"))
				if err != nil || cell.Kind == Day || d.Sign() < 0 || d.Cmp(decimal.NewFromInt(100)) >= 0 {
					return help
				}
				if d.Sign() > 0 {
					chain = append(chain, d)
				}
			}
			s.Discounts = chain
			return nil
		},
		func(s *head.SupplierRule) Cell {
			var parts []string
			for _, d := range s.Discounts {
				parts = append(parts, d.String())
			}
			return say(strings.Join(parts, "/"))
		}}
}

func benchFields() []field[head.Bench] {
	return []field[head.Bench]{
		text(Column{Title: "Bench"}, func(b *head.Bench) *string { return &b.Name }),
		text(Column{Title: "Owner", Help: "own, or the name of the supplier."},
			func(b *head.Bench) *string { return &b.Owner }),
		choice(Column{Title: "Range scale", Choices: []string{"linear in flow", "linear in pressure"},
			Help: "How a percent-of-range reading is divided. Blank: not known, and such readings are asked about."},
			func(b *head.Bench) *head.RangeScale { return &b.Scale }, head.LinearInFlow, head.LinearInPressure),
		statedText(Column{Title: "Intake entry", Help: "As usual: radius plate, clay, none. Stands in, and is shown to, where a sheet of the bench says nothing of it."},
			func(b *head.Bench) *source.Stated[string] { return &b.Entry }),
		statedText(Column{Title: "Exhaust pipe", Help: "As usual, such as 1-3/4 x 12 in, or none. Stands in as the entry does."},
			func(b *head.Bench) *source.Stated[string] { return &b.Pipe }),
		lengths(Column{Title: "Fixtures", Help: "Bores that it has fixtures for, parted by semicolons. Another bore on its sheets is told; the only one stands in where a sheet states none."},
			boreBounds(), func(b *head.Bench) *source.Stated[[]quantity.Length] { return &b.Fixtures }),
		text(Column{Title: "Books in folder", Also: []string{"Folder"}, Help: "Books below this folder come from this bench."},
			func(b *head.Bench) *string { return &b.Folder }),
		text(Column{Title: "Note", Also: []string{"Notes"}}, func(b *head.Bench) *string { return &b.Note }),
	}
}

func orificeFields() []field[head.Orifice] {
	return []field[head.Orifice]{
		text(Column{Title: "Orifice", Also: []string{"Range", "Orifice or range"}, Help: "Its size or number, as your sheets write it."},
			func(o *head.Orifice) *string { return &o.Name }),
		text(Column{Title: "Bench", Help: "As on the sheet Benches."}, func(o *head.Orifice) *string { return &o.Bench }),
		choice(Column{Title: "Port", Choices: []string{"intake", "exhaust"}, Help: "Where the two directions were calibrated apart. Blank: it serves both."},
			func(o *head.Orifice) *head.Port { return &o.Port }, head.Intake, head.Exhaust),
		statedFlow(Column{Title: "Flow", Also: []string{"Calibrated flow"}, Unit: "cfm", Help: "What passed it at its calibration."},
			bounds{0.1, 5000}, func(o *head.Orifice) *source.Stated[quantity.Flow] { return &o.Flow }),
		statedPressure(Column{Title: "Differential", Also: []string{"Orifice differential", "Orifice dp"}, Help: "Across the orifice at that flow, with its unit: 6 inH2O."},
			bounds{0.01, 100}, func(o *head.Orifice) *source.Stated[quantity.Pressure] { return &o.Drop }),
		statedPressure(Column{Title: "Test pressure", Help: "At which the bench was run then, with its unit: 28 inH2O. Blank is not taken for 28."},
			bounds{3, 60}, func(o *head.Orifice) *source.Stated[quantity.Pressure] { return &o.Test }),
	}
}

func rateFields() []field[head.Rate] {
	worth := Column{Title: "One unit in ours", Also: []string{"One unit in *"}, Help: "One unit of it in our currency."}
	return []field[head.Rate]{
		text(Column{Title: "Currency"}, func(r *head.Rate) *string { return &r.Currency }),
		{worth,
			func(r *head.Rate, cell Cell) error {
				var x float64
				err := within(cell, bounds{1e-6, 1e6}, &x)
				r.Value = decimal.NewFromFloat(x)
				return err
			},
			func(r *head.Rate) Cell { return unlessZero(r.Value.InexactFloat64()) }},
		date(Column{Title: "As of", Also: []string{"Date"}}, func(r *head.Rate) *source.Stated[time.Time] { return &r.AsOf }),
	}
}

func wordFields() []field[head.Word] {
	return []field[head.Word]{
		text(Column{Title: "Sender"}, func(w *head.Word) *string { return &w.Sender }),
		text(Column{Title: "Word"}, func(w *head.Word) *string { return &w.Word }),
		text(Column{Title: "Means"}, func(w *head.Word) *string { return &w.Means }),
	}
}
