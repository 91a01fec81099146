package compare

import (
	"fmt"
	"time"

	"flowshelf/analysis/curve"
	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

// family is one engine family on the shelf, with what its comparison needs.
type family struct {
	*shelf
	head.Family
	noise   curve.Noise
	convert *converter
	base    *head.Dimensions // of the base head, nil when not known
	needs   EngineNeeds
}

// All compares the heads of every family of the setup, in the setup's order, on
// a date. The same records in any order give the same comparisons. Heads that no
// family claims are named in each, so that none is silently missing.
func All(records head.Records, shop head.Shop, date time.Time) []Comparison {
	s := newShelf(records, shop, date)
	out := make([]Comparison, len(shop.Families))
	var elsewhere []flowed
	for i, setup := range shop.Families {
		f := &family{
			shelf: s, Family: setup, convert: newConverter(s.rules),
			noise: curve.Noise{Relative: s.rules.Repeatability, Floor: s.rules.SmallestStep, Span: s.rules.StallSpan},
		}
		f.base, f.needs = f.dimensionsOfBase(), f.engineNeeds()
		out[i] = f.compare()
		elsewhere = append(elsewhere, f.flowedElsewhere(f.families[nameKey(f.Name)])...)
	}
	recordSuppliers(out)
	recordBenches(s, out, elsewhere)
	return out
}

// compare builds every head's entries and puts them in their lists.
func (f *family) compare() Comparison {
	c := Comparison{Family: f.Family, Rules: f.rules, Shop: f.shop.Name, Date: f.date, Cautions: cautions(f.HeadsPerSet)}
	heads := f.families[nameKey(f.Name)]
	all := make([]built, 0, len(heads))
	for _, b := range heads {
		all = append(all, f.heads(b)...)
	}
	f.sameSheets(all)
	f.sameRatios(all)
	for _, x := range all {
		c.Problems = append(c.Problems, x.problems...)
	}
	f.strangers(&c)
	f.sort(&c, all)
	f.rank(&c)
	f.beside(&c)
	c.Gaps = f.gaps(heads)
	c.BenchDays, c.BenchWords = f.benchDays(heads)
	c.Settings = f.settings(c.Worth)
	f.explain(&c)
	c.Problems = c.Problems.Sorted()
	c.Questions = f.open(&c)
	c.Summary = f.summary(&c, len(heads))
	return c
}

// beside works out what is shown beside the ranking and orders nothing.
func (f *family) beside(c *Comparison) {
	f.averages(c)
	f.leads(c)
	f.bothWays(c)
	f.reworks(c)
	f.lowLifts(c)
	c.Engine = f.needs
}

// strangers names the heads that belong to no family.
func (f *family) strangers(c *Comparison) {
	for _, b := range f.strays {
		reason := "no family is set for it"
		if b.listed.Family != "" {
			reason = fmt.Sprintf("its family %q is not in the setup", b.listed.Family)
		}
		at := b.listed.At
		if at == (source.Ref{}) && len(b.tests) > 0 {
			at = sheetOf(b.tests[0].At)
		}
		c.NotRanked = append(c.NotRanked, NotRanked{
			Head: b.listed.Name, Label: b.listed.Name, Reason: reason, Missing: []string{"family"}, Problems: b.read, Stray: true,
		})
		c.Problems.Add(source.Problem{At: at, Severity: source.Noted, Kind: "no-family", Head: b.listed.Name,
			Message: fmt.Sprintf("%s is compared with nothing: %s", b.listed.Name, reason), Hint: "add it to the Heads sheet of the setup"})
	}
}
