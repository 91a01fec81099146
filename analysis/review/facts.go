package review

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"
	"time"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/history"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/shop"
	"flowshelf/analysis/source"
)

// Facts returns what is kept of the month.
func Facts(now Now) history.Facts { return newMonth(now, Before{}).facts }

func factsOf(m *month) history.Facts {
	f := history.Facts{Shop: m.Shop.Name, Date: m.Date, Currency: m.currency}
	for i := range m.heads {
		f.Heads = append(f.Heads, headFact(&m.heads[i]))
	}
	for i := range m.Families {
		f.Places = append(f.Places, m.placeFacts(&m.Families[i])...)
	}
	f.Settings = settingFacts(m.Shop, m.Date)
	for _, a := range m.Records.Answers.All() {
		f.Answers = append(f.Answers, history.Answer{Key: a.Key, Head: a.Head, Answer: a.Text})
	}
	return f
}

func headFact(h *compare.OnShelf) history.Head {
	f := history.Head{
		Name: h.Listed.Name, Family: h.Family.Name, Supplier: h.Listed.Supplier,
		Net: h.Cost.Net, Freight: h.Cost.Freight, Landed: h.Cost.Landed, Sell: h.Cost.Sell,
		CostList: h.Cost.List, Dimensions: sizes(h.Dimensions),
	}
	if h.Family.HeadsPerSet > 0 {
		f.HeadsPerSet = source.Say(h.Family.HeadsPerSet, source.Trace{At: h.Family.At})
	}
	if t := h.Cost.Net.Trace; h.Cost.Net.Known {
		f.CostText = strings.TrimSpace(t.Text + " " + t.Unit)
		f.CostSteps = strings.Join(t.Steps, "; ")
	}
	if s := h.Stock; s != nil {
		f.OnHand, f.Sold12, f.LastSale, f.LeadWeeks, f.StockBook = s.OnHand, s.Sold12, s.LastSale, s.LeadWeeks, s.At.File
	}
	return f
}

// sizes are the dimensions that a curve at another bore or a cost rests on.
func sizes(d *head.Dimensions) string {
	if d == nil {
		return ""
	}
	var out []string
	for _, x := range []struct {
		name string
		size source.Stated[quantity.Length]
	}{{"intake valve", d.IntakeValve}, {"exhaust valve", d.ExhaustValve}, {"wall", d.WallClearance}, {"wall bore", d.WallBore}, {"max lift", d.MaxLift}} {
		if x.size.Known {
			out = append(out, fmt.Sprintf("%s %.4f", x.name, x.size.Value.In()))
		}
	}
	return strings.Join(out, "; ")
}

func (m *month) placeFacts(c *compare.Comparison) []history.Place {
	var out []history.Place
	tests := make(map[string][]*head.Test)
	for i := range m.heads {
		tests[m.heads[i].Listed.Name] = m.heads[i].Tests
	}
	why := make(map[string]string)
	for _, n := range c.NotRanked {
		if n.Stray {
			continue
		}
		why[n.Label] = n.Reason
		if n.Entry == nil {
			out = append(out, history.Place{Label: n.Label, Head: n.Head, State: n.State, Family: c.Family.Name,
				Standing: history.NotRanked, Why: n.Reason, Sheets: sheetsPrint(tests[n.Head])})
		}
	}
	for _, s := range entriesOf(c) {
		p := placeFact(s)
		p.Why, p.Sheets = why[s.Label], sheetsPrint(tests[s.Head])
		out = append(out, p)
	}
	return out
}

func placeFact(s standing) history.Place {
	e := s.Entry
	p := history.Place{
		Label: e.Label, Head: e.Head, State: e.State, Family: s.family.Family.Name, Standing: s.list,
		Number: e.Place.Number, Shared: e.Place.Shared, TiedWith: strings.Join(e.Place.TiedWith, ", "),
		Shape: maybe(compare.Maybe{Value: e.Shape.Score, Known: e.Shape.Known}), Value: maybe(e.Value),
		Sell: e.Cost.Sell, Proposed: e.Cost.Proposed, Usable: e.Cost.Usable, Reasons: strings.Join(e.Reasons, "; "),
	}
	if e.Value.Known {
		p.ValueU = source.Say(e.ValueU, source.Trace{})
	}
	var needs []string
	for _, line := range e.Cost.Lines {
		into := map[compare.CostKind]*source.Stated[quantity.Money]{
			compare.ExtraCost: &p.Extras, compare.SpringCost: &p.Springs, compare.ReworkCost: &p.Rework,
		}[line.Kind]
		if into == nil {
			continue
		}
		sum, _ := into.Value.Add(line.Amount) // one currency: the usable cost is their sum
		*into = source.Say(sum, source.Trace{})
		needs = append(needs, fmt.Sprintf("%s %s", line.Item, line.Amount.Amount))
	}
	p.Needs = strings.Join(needs, "; ")
	if in := e.Intake; in != nil {
		p.Working = maybe(in.Working)
		if in.Working.Known {
			p.WorkingU = source.Say(in.WorkingU, source.Trace{})
		}
		p.Verdict, p.BoreHow, p.Sample, p.Tested = in.Words, in.BoreHow.String(), in.Sample, in.Date
		p.Readings = readingsPrint(in)
	}
	return p
}

func maybe(m compare.Maybe) source.Stated[float64] {
	if !m.Known {
		return source.Stated[float64]{}
	}
	return source.Say(m.Value, source.Trace{})
}

// readingsPrint is a fingerprint of the readings behind a curve: renaming a file
// leaves it alone, a reading that changes does not.
func readingsPrint(p *compare.PortResult) string {
	var lines []string
	for _, point := range p.Points {
		for _, u := range point.From {
			r := u.Reading
			lines = append(lines, fmt.Sprintf("%s|%s|%.6f|%.6f|%.4f|%.4f|%.4f", u.Test.Sample, u.Test.PortMark, r.Lift.Value.In(), r.Flow.Value.CFM(),
				r.Pressure().Value.InH2O(), u.Test.Bore.Value.In(), u.Flow.CFM()))
		}
	}
	return print12(lines)
}

// sheetsPrint is a fingerprint of all that the sheets say about a head, used or
// not: what an answer or a setting changes leaves it alone.
func sheetsPrint(tests []*head.Test) string {
	var lines []string
	for _, t := range tests {
		for _, r := range t.Readings {
			lines = append(lines, fmt.Sprintf("%d|%d|%s|%s|%s|%s|%s", t.Port, t.Class, t.State, t.Sample, t.PortMark, r.Lift.Trace.Text, r.Flow.Trace.Text))
		}
	}
	return print12(lines)
}

// print12 is enough of a hash to tell two months apart, short enough for a cell.
func print12(lines []string) string {
	if len(lines) == 0 {
		return ""
	}
	slices.Sort(lines)
	h := sha256.New()
	for _, l := range lines {
		h.Write([]byte(l + "\n"))
	}
	return hex.EncodeToString(h.Sum(nil))[:12]
}

// settingFacts lists the setup as it stands in force: each sheet's rows with a
// value, and the rates known on the day.
func settingFacts(s head.Shop, date time.Time) []history.Setting {
	var out []history.Setting
	for _, sheet := range shop.Write(s) {
		switch sheet.Sheet {
		case shop.SettingsSheet:
			for _, row := range sheet.Rows {
				value := row[1].Text
				if value == "" {
					value = row[len(row)-1].Text // the default
				}
				out = append(out, history.Setting{Scope: shopScope, Name: row[0].Text, Value: strings.TrimSpace(value)})
			}
		case familyScope, supplierScope:
			for _, row := range sheet.Rows {
				for i := 1; i < len(row); i++ {
					if value := strings.TrimSpace(row[i].Text); value != "" {
						out = append(out, history.Setting{Scope: sheet.Sheet + " / " + row[0].Text, Name: sheet.Titles[i].Text, Value: value})
					}
				}
			}
		}
	}
	return append(out, rates(s, date)...)
}

// The scopes of settings.
const (
	shopScope     = "Shop"
	familyScope   = "Families"
	supplierScope = "Suppliers"
	rateScope     = "Rates"
)

func rates(s head.Shop, date time.Time) []history.Setting {
	newest := make(map[string]head.Rate)
	for _, r := range s.Rates {
		if r.AsOf.Known && r.AsOf.Value.After(date) || !r.Value.IsPositive() {
			continue
		}
		if old, seen := newest[r.Currency]; !seen || r.AsOf.Known && (!old.AsOf.Known || r.AsOf.Value.After(old.AsOf.Value)) {
			newest[r.Currency] = r
		}
	}
	var out []history.Setting
	for currency, r := range newest {
		out = append(out, history.Setting{Scope: rateScope, Name: currency, Value: r.Value.String()})
	}
	slices.SortFunc(out, func(a, b history.Setting) int { return strings.Compare(a.Name, b.Name) })
	return out
}
