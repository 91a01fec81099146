package review

import (
	"fmt"
	"math"
	"strings"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/history"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/analysis/stats"
)

// CauseKind is what kind of input changed.
type CauseKind string

// The kinds of cause.
const (
	NewTest      CauseKind = "test"
	AnswerGiven  CauseKind = "answer"
	SellPrice    CauseKind = "sell price"
	PriceList    CauseKind = "price list"
	ExtrasList   CauseKind = "extras list"
	ReworkMenu   CauseKind = "rework menu"
	SizesChanged CauseKind = "dimension sheet"
	RateChanged  CauseKind = "rate"
	RuleChanged  CauseKind = "setting"
	NewHead      CauseKind = "new head"
	NotRanked    CauseKind = "not ranked"
	NotKept      CauseKind = "not kept"
)

// Cause is one input that changed since the month before.
type Cause struct {
	Kind    CauseKind
	Subject string // the head, the setting, the currency
	Words   string
}

func (c Cause) key() string { return string(c.Kind) + "|" + c.Subject }

// of names what may be behind the difference in one driver of one entry. With one
// input changed it is that one; with several that bear on it, all of them.
func (in *inputs) of(a atom, was, is *history.Place) []Cause {
	var out []Cause
	name, supplier := in.headOf(was, is)
	switch a.driver {
	case flow:
		out = in.flowCauses(name, supplier, was, is)
	case sell:
		out = in.sellCauses(name, supplier, was, is)
	case extras, springs, rework:
		out = in.needCauses(a.driver, name, supplier, was, is)
	case listing:
		out = in.listingCauses(name, supplier, was, is)
	case worth, ties:
		out = in.settings(a.driver, "")
	}
	if len(out) == 0 {
		what := a.label
		if what == "" {
			what = in.family
		}
		out = []Cause{{NotKept, what, "something that the kept facts do not hold"}}
	}
	return out
}

func (in *inputs) headOf(was, is *history.Place) (name, supplier string) {
	for _, p := range []*history.Place{is, was} {
		if p == nil {
			continue
		}
		name = p.Head
		for _, f := range []*history.Facts{in.after, in.before} {
			if h := f.Head(name); h != nil && h.Supplier != "" {
				return name, h.Supplier
			}
		}
	}
	return name, ""
}

// flowCauses: a curve changes with its readings, or with the same readings by a
// setting or a size.
func (in *inputs) flowCauses(name, supplier string, was, is *history.Place) []Cause {
	var out []Cause
	settings := in.settings(flow, supplier)
	if was.Readings != is.Readings {
		switch answers := in.answers(name); {
		case was.Sheets != is.Sheets:
			out = in.sheetCauses(name, was, is)
		case len(answers) > 0:
			out = append(out, answers...)
		case len(settings) == 0:
			out = append(out, Cause{NotKept, name, "the same sheets of " + name + " are read otherwise"})
		}
	} else {
		out = append(out, in.sizes(name)...)
	}
	return append(out, settings...)
}

// sheetCauses: what the sheets say of a head changed, because a test came or
// went, or because somebody had a file ignored.
func (in *inputs) sheetCauses(name string, was, is *history.Place) []Cause {
	var out []Cause
	for _, c := range in.changedAnswers() {
		if strings.HasPrefix(c.Subject, head.IgnoreKey("")) {
			out = append(out, c)
		}
	}
	newer := was == nil || is == nil || is.Tested.Known && (!was.Tested.Known || is.Tested.Value.After(was.Tested.Value))
	if len(out) > 0 && !newer {
		return out
	}
	words := "the test of " + name + " is gone"
	if is != nil && is.Sheets != "" {
		words = testWords(was, is)
	}
	return append(out, Cause{NewTest, name, words})
}

// testWords says what came with the newest test. A claim and a supplier's sheet
// are no tests of ours, and never what one read before.
func testWords(was, is *history.Place) string {
	words := "a new test of " + is.Label
	switch is.Standing {
	case history.Advertised:
		return "no test of " + is.Label + " counts any more: a claim is all that is left"
	case history.BelowLine:
		words = "a new sheet of its supplier for " + is.Label
	case history.Ranked, history.Unpriced, history.NotRanked:
	}
	var about []string
	if is.Sample != "" {
		about = append(about, "sample "+is.Sample)
	}
	if is.Tested.Known {
		about = append(about, is.Tested.Value.Format(time.DateOnly))
	}
	if len(about) > 0 {
		words += " (" + strings.Join(about, ", ") + ")"
	}
	switch {
	case was == nil || !is.Working.Known:
	case was.Standing == history.Advertised:
		words += fmt.Sprintf(": %.1f cfm; before, it was only advertised", is.Working.Value)
	case (was.Standing == history.BelowLine) != (is.Standing == history.BelowLine):
		words += fmt.Sprintf(": %.1f cfm; before, there was %s", is.Working.Value, evidenceWords(was))
	case was.Working.Known:
		words += fmt.Sprintf(": %.1f cfm, was %.1f", is.Working.Value, was.Working.Value)
		if insideNoise(was, is) {
			words += ", a difference inside the noise"
		}
	}
	return words
}

func evidenceWords(p *history.Place) string {
	if p.Standing == history.BelowLine {
		return "only its supplier's own sheet"
	}
	return "a test of our own"
}

// insideNoise reports whether two working averages are a tie.
func insideNoise(was, is *history.Place) bool {
	p := stats.Beats(stats.Score{Value: was.Working.Value, U: was.WorkingU.Value}, stats.Score{Value: is.Working.Value, U: is.WorkingU.Value}, 0)
	return max(p, 1-p) < stats.Level
}

func (in *inputs) sizes(name string) []Cause {
	was, is := in.before.Head(name), in.after.Head(name)
	if was == nil || is == nil || was.Dimensions == is.Dimensions {
		return nil
	}
	return []Cause{{SizesChanged, name, fmt.Sprintf("the dimension sheet of %s changed", name)}}
}

func (in *inputs) sellCauses(name, supplier string, was, is *history.Place) []Cause {
	if !was.Proposed || !is.Proposed {
		return []Cause{{SellPrice, name, fmt.Sprintf("the sell price of %s is %s a set, was %s", name, Cash(is.Sell.Value), Cash(was.Sell.Value))}}
	}
	var out []Cause
	old, current := in.before.Head(name), in.after.Head(name)
	if old == nil || current == nil || old.CostList != current.CostList || old.CostText != current.CostText {
		out = append(out, Cause{PriceList, name, fmt.Sprintf("the cost of %s moved with its price list, and the proposed sell price with it", name)})
	}
	for _, c := range in.settings(sell, supplier) {
		if c.Kind == RateChanged && current != nil && !strings.Contains(current.CostSteps, c.Subject+" x ") {
			continue // another currency's
		}
		out = append(out, c)
	}
	if len(out) == 0 && strings.HasPrefix(is.State, "bare") {
		out = append(out, Cause{PriceList, name, fmt.Sprintf("the price of bare %s moved, and the proposed sell price with it", name)})
	}
	return out
}

// needCauses: what a head needs changes by the list that prices it, or because
// the range's top or the springs' limit moved.
func (in *inputs) needCauses(d driver, name, supplier string, was, is *history.Place) []Cause {
	kind := ExtrasList
	if d == rework {
		kind = ReworkMenu
	}
	beside := in.settings(d, supplier)
	if d == springs {
		beside = append(beside, in.sizes(name)...)
	}
	var out []Cause
	before, after := items(was.Needs), items(is.Needs)
	for _, item := range union(before, after) {
		a, inBefore := before[item]
		b, inAfter := after[item]
		if a == b && inBefore == inAfter || inBefore != inAfter && len(beside) > 0 {
			continue
		}
		subject, kind := name+": "+item, kind
		if kind == ReworkMenu && strings.HasSuffix(item, " for bare") {
			kind = ExtrasList // a part of a bare head
		} else if kind == ReworkMenu {
			subject = item
		} else if d == springs != strings.Contains(item, "spring") {
			continue
		}
		out = append(out, Cause{kind, subject, fmt.Sprintf("%s for %s is %s, was %s", item, name, orNone(b), orNone(a))})
	}
	return append(out, beside...)
}

// listingCauses: an entry came into the ranking or left it.
func (in *inputs) listingCauses(name, supplier string, was, is *history.Place) []Cause {
	if in.before.Head(name) == nil {
		return []Cause{{NewHead, name, name + " is new on the shelf"}}
	}
	var out []Cause
	answers := in.answers(name)
	switch {
	case was == nil || is == nil || was.Sheets != is.Sheets:
		out = in.sheetCauses(name, was, is)
	case len(answers) > 0:
		out = append(out, answers...)
	}
	if was != nil && is != nil && was.Sell.Known != is.Sell.Known {
		out = append(out, Cause{SellPrice, name, "the sell price of " + name + " came or went"})
	}
	out = append(out, in.sizes(name)...)
	return append(out, in.settings(listing, supplier)...)
}

// near is how far two figures may lie apart and still be one: what a spreadsheet
// keeps of a number.
const near = 1e-9

func sameNumber(a, b source.Stated[float64]) bool {
	return a.Known == b.Known && math.Abs(a.Value-b.Value) <= near*max(1, math.Abs(a.Value))
}

func sameMoney(a, b source.Stated[quantity.Money]) bool {
	return a.Known == b.Known && (!a.Known || same(a.Value, b.Value))
}
