package compare_test

import (
	"fmt"
	"strings"
	"testing"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// needsAlways lets a head need something at a price a set, at a sell price.
func needsAlways(name string, extra, sell float64) func(*head.Records, *head.Shop) {
	return func(r *head.Records, _ *head.Shop) {
		at := source.Ref{File: "more extras.xlsx", Sheet: "Extras", Cell: "C2"}
		r.Extras = append(r.Extras, head.Extra{Head: name, Item: "longer push-rods", Need: head.Always, Basis: head.Set, At: at,
			Price: source.Say(quantity.Dollars(extra), source.Trace{At: at})})
		for i := range r.Stock {
			if r.Stock[i].Head == name && sell > 0 {
				r.Stock[i].Sell.Value = quantity.Dollars(sell)
			}
		}
	}
}

// TestOnlyIfTheCustomerOwnsIt holds that a head is named for what its buyer may
// own only where it would then come before the leader or tie with it, and has one
// line at most.
func TestOnlyIfTheCustomerOwnsIt(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*head.Records, *head.Shop)
		head   string
		says   []string // of its only line
		not    string
	}{
		// $25 x 231.52 - 2,349 = 3,439 without the extra, far behind 4,050.
		{"still behind without it", needsAlways("OB-4", 130, 0), "OB-4", []string{"a cfm is worth more than"}, "owns"},
		// $25 x 216.17 - 1,179 = 4,225 without its extras.
		{"before it", nil, "VR-81", []string{"owns what it needs", "without $1,010 of", "it comes before LKC-12"}, "worth"},
		// $25 x 231.52 - 1,749 = 4,039 without the extra.
		{"a tie, and the best buy elsewhere", needsAlways("OB-4", 600, 1749), "OB-4", []string{"a cfm is worth more than", "or the customer owns", "it ties LKC-12"}, ""},
	} {
		var lines []string
		for _, line := range smallEight(c.change).Summary.OnlyIf {
			if strings.HasPrefix(line, c.head+" ") {
				lines = append(lines, line)
			}
		}
		if len(lines) != 1 || c.not != "" && strings.Contains(lines[0], c.not) {
			t.Errorf("%s: %q", c.name, lines)
			continue
		}
		for _, words := range c.says {
			if !strings.Contains(lines[0], words) {
				t.Errorf("%s: %q does not say %q", c.name, lines[0], words)
			}
		}
	}
}

// TestOnlyIfAgreesWithTheRanking takes the extras away from every head that is
// named for them, and wants it in the first place, alone or tied.
func TestOnlyIfAgreesWithTheRanking(t *testing.T) {
	for _, extra := range []float64{100, 400, 700, 1000} {
		change := func(r *head.Records, s *head.Shop) {
			for _, name := range []string{"OB-4", "PW-31", "PW-33", "VR-84"} {
				needsAlways(name, extra, 0)(r, s)
			}
		}
		c := smallEight(change)
		for _, e := range c.Ranked {
			if !strings.Contains(fmt.Sprint(c.Summary.OnlyIf), e.Label+" only if the customer owns") {
				continue
			}
			owned := smallEight(func(r *head.Records, s *head.Shop) {
				change(r, s)
				r.Extras = dropExtras(r.Extras, func(x head.Extra) bool { return x.Head == e.Head && !x.Springs })
			})
			if place := find(owned, e.Label).Place; place.Group != 1 {
				t.Errorf("extras of $%.0f: %s is named for them, and without them is in place %d", extra, e.Label, place.Number)
			}
		}
	}
}
