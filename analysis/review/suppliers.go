package review

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/pricelist"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// SupplierRecord is what the folder says of one supplier.
type SupplierRecord struct {
	Supplier  string
	Heads     int // in the setup
	Tested    int // flowed here
	Gap       *compare.SupplierGap
	Rises     []string // price rises of the last twelve months, in words
	Castings  []string // what earlier samples of one head read against the newest
	NeedsWork []string // heads that took our work, or that cannot be used without extras
	Late      string   // late deliveries
	Notes     int      // findings against its heads
}

// suppliers lists the suppliers in the setup's order, then by name.
func (m *month) suppliers() []SupplierRecord {
	var out []SupplierRecord
	find := func(name string) *SupplierRecord {
		for i := range out {
			if strings.EqualFold(out[i].Supplier, name) {
				return &out[i]
			}
		}
		out = append(out, SupplierRecord{Supplier: name, Late: "not recorded: no book says when orders came"})
		return &out[len(out)-1]
	}
	for _, s := range m.Shop.Suppliers {
		find(s.Name)
	}
	for i := range m.heads {
		h := &m.heads[i]
		if h.Listed.Supplier == "" {
			continue
		}
		m.record(find(h.Listed.Supplier), h)
	}
	for i := range m.Families {
		for j := range m.Families[i].Suppliers {
			g := &m.Families[i].Suppliers[j]
			find(g.Supplier).Gap = g
		}
	}
	return out
}

func (m *month) record(r *SupplierRecord, h *compare.OnShelf) {
	r.Heads++
	if slices.ContainsFunc(h.Tests, func(t *head.Test) bool { return t.Class == head.Own && t.Status == head.Used }) {
		r.Tested++
	}
	for _, n := range h.Notes {
		if n.For == head.Against {
			r.Notes++
		}
	}
	if words, ok := m.rises(h); ok {
		r.Rises = append(r.Rises, words)
	}
	work := ""
	for _, s := range m.entries[h.Listed.Name] {
		for _, earlier := range s.Earlier {
			r.Castings = append(r.Castings, s.Label+": "+earlier)
		}
		if work == "" && reworked(s.Entry) {
			work = h.Listed.Name + " (took our work)"
		}
	}
	if work == "" && slices.ContainsFunc(h.Extras, func(e head.Extra) bool { return e.Need == head.Always && e.Status == head.Used }) {
		work = h.Listed.Name + " (not usable without extras)"
	}
	if work != "" {
		r.NeedsWork = append(r.NeedsWork, work)
	}
}

// rises compares the cost today with the cost twelve months ago by the lists that
// are in the folder, and with what the month before kept.
func (m *month) rises(h *compare.OnShelf) (string, bool) {
	oldest, since := h.Cost.Landed, ""
	yearAgo := m.Date.AddDate(-1, 0, 0)
	for _, p := range h.Prices {
		if !p.Effective.Known || p.Effective.Value.Before(yearAgo) || p.Effective.Value.After(m.Date) || p.Status != head.Used {
			continue
		}
		cost := pricelist.Find(pricelist.Question{Head: h.Listed, Heads: h.Family.HeadsPerSet, Prices: []head.Price{p}, Stock: h.Stock,
			Shop: m.Shop, On: m.Date, Default: m.Shop.Rules.DefaultFreight})
		if day := p.Effective.Value.Format(time.DateOnly); cost.Landed.Known && (since == "" || day < since) {
			oldest, since = cost.Landed, day
		}
	}
	if m.before != nil {
		if old := m.before.Head(h.Listed.Name); old != nil && old.Landed.Known && (since == "" || m.before.Date.Format(time.DateOnly) < since) {
			oldest, since = old.Landed, m.before.Date.Format(time.DateOnly)
		}
	}
	if !oldest.Known || !h.Cost.Landed.Known || !oldest.Value.Amount.IsPositive() || since == "" {
		return "", false
	}
	change := h.Cost.Landed.Value.Float()/oldest.Value.Float() - 1
	if change <= 0 || oldest.Value.Currency != h.Cost.Landed.Value.Currency {
		return "", false
	}
	return fmt.Sprintf("%s %+.1f %% since %s", h.Listed.Name, 100*change, since), true
}

// BenchHealth is what the check plate said, morning by morning.
type BenchHealth struct {
	Days  []BenchDay
	Words string
	Limit float64 // relative drift that flags a day
}

// BenchDay is one look at the check plate.
type BenchDay struct {
	Bench         string
	Date          time.Time
	Nominal, Read quantity.Flow
	Off           float64 // relative
	Leak          source.Stated[quantity.Flow]
	Operator      string
	Remark        string
	Flagged       bool
	Leaks         bool
	Tests         []string // what was flowed that day
	At            source.Ref
}

// bench reads the log in order of date, up to the day of the review.
func (m *month) bench() BenchHealth {
	b := BenchHealth{Limit: m.Shop.Rules.BenchFlag}
	tests := make(map[string][]string)
	for i := range m.heads {
		for _, t := range m.heads[i].Tests {
			if t.Class == head.Own && t.Date.Known {
				day := t.Date.Value.Format(time.DateOnly)
				if label := m.heads[i].Listed.Name; !slices.Contains(tests[day], label) {
					tests[day] = append(tests[day], label)
				}
			}
		}
	}
	for _, c := range m.Records.Bench {
		if !c.Date.Known || !c.Nominal.Known || !c.Read.Known || !(c.Nominal.Value > 0) || c.Date.Value.After(m.Date) {
			continue
		}
		off := float64(c.Read.Value/c.Nominal.Value) - 1
		b.Days = append(b.Days, BenchDay{Bench: c.Bench, Date: c.Date.Value, Nominal: c.Nominal.Value, Read: c.Read.Value, Off: off,
			Leak: c.Leak, Operator: c.Operator, Remark: c.Remark, At: c.At,
			Flagged: b.Limit > 0 && math.Abs(off) > b.Limit+1e-9,
			Leaks:   c.Leak.Known && m.Shop.Rules.LeakLimit > 0 && c.Leak.Value > m.Shop.Rules.LeakLimit,
			Tests:   tests[c.Date.Value.Format(time.DateOnly)]})
	}
	slices.SortStableFunc(b.Days, func(x, y BenchDay) int { return cmp.Or(x.Date.Compare(y.Date), x.At.Compare(y.At)) })
	b.Words = b.inWords()
	return b
}

func (b *BenchHealth) inWords() string {
	if len(b.Days) == 0 {
		return "No bench log is in the folder: nobody can say whether the bench drifted. No master head is recorded."
	}
	flagged := 0
	low, high := math.Inf(1), math.Inf(-1)
	for _, d := range b.Days {
		low, high = min(low, d.Off), max(high, d.Off)
		if d.Flagged {
			flagged++
		}
	}
	return fmt.Sprintf("%s, %+.1f %% to %+.1f %% of the check plate; %s beyond %.0f %%. No master head is recorded.",
		counted(len(b.Days), "morning", "mornings"), 100*low, 100*high, counted(flagged, "morning", "mornings"), 100*b.Limit)
}

func dayWords(d source.Stated[time.Time]) string {
	if !d.Known {
		return ""
	}
	return d.Value.Format(time.DateOnly)
}
