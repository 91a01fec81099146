package review_test

import (
	"slices"
	"strings"
	"testing"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/review"
	"flowshelf/ingest/ingesttest"
)

// sells sets how many sets of a head were sold in twelve months.
func (s *shelf) sells(name string, sets float64) {
	for i := range s.records.Stock {
		if s.records.Stock[i].Head == name {
			s.records.Stock[i].Sold12.Value = sets
		}
	}
}

// TestOneVerdictAHead holds the page of decisions against the picture of value and
// movement: a head that is a good buy is shown where it is slow, not given up, and
// the others are not shown.
func TestOneVerdictAHead(t *testing.T) {
	records, shop := ingesttest.Demo(t)
	for name, change := range map[string]func(*shelf){
		"as it is":         func(*shelf) {},
		"the leader slow":  func(s *shelf) { s.sells("LKC-12", 2); s.sells("VR-49", 1); s.sells("LKC-90", 1) },
		"the base is slow": func(s *shelf) { s.sells("LKC-07", 1); s.sells("LKC-41", 1) },
		"nobody buys":      func(s *shelf) { s.sells("LKC-12", 0); s.sells("OB-4", 0); s.sells("VR-84", 0) },
		"no worth is set": func(s *shelf) {
			s.sells("LKC-90", 1)
			s.shop.Families[2].Worth.Known = false
		},
	} {
		s := copyOf(shelf{records, shop})
		change(&s)
		r := review.Make(at(s.records, s.shop), review.Before{})
		field := make(map[string]string)
		for _, q := range r.Grid {
			for _, h := range q.Heads {
				field[h.Head] = q.Name
			}
		}
		shown := 0
		for _, d := range r.Decisions {
			good, slow := strings.HasPrefix(field[d.Head], "good value"), strings.HasSuffix(field[d.Head], "slow")
			switch d.Action {
			case review.Show:
				shown++
				if !good || !slow || d.What != "do not reorder yet" {
					t.Errorf("%s: %s %s %q, in the field %q", name, d.Action, d.Head, d.What, field[d.Head])
				}
			case review.Stop, review.ClearOut:
				if good {
					t.Errorf("%s: %s %s, in the field %q", name, d.Action, d.Head, field[d.Head])
				}
			default:
			}
		}
		if shown == 0 {
			t.Errorf("%s: no head is shown", name)
		}
	}
}

// TestLeaderIsNotGivenUp lets the family's best buy lie for long.
func TestLeaderIsNotGivenUp(t *testing.T) {
	records, shop := ingesttest.Demo(t)
	s := copyOf(shelf{records, shop})
	s.sells("LKC-12", 2)
	r := review.Make(at(s.records, s.shop), review.Before{})
	i := slices.IndexFunc(r.Decisions, func(d review.Decision) bool { return d.Head == "LKC-12" })
	if d := r.Decisions[i]; d.Action != review.Show || !strings.Contains(d.Reason, "the family's best buy") {
		t.Errorf("%+v", d)
	}
}

// TestAdvertIsNoTest brings the first test of a head that was only advertised, and
// takes one away again: the claim is never what a test read before.
func TestAdvertIsNoTest(t *testing.T) {
	records, shop := ingesttest.Demo(t)
	tested := shelf{records, shop}
	only := copyOf(tested)
	only.records.Tests = slices.DeleteFunc(only.records.Tests, func(x head.Test) bool { return x.Head == "LKC-41" && x.Class == head.Own })
	for _, c := range []struct {
		name, says    string
		before, after shelf
	}{
		{"the first test", "before, it was only advertised", only, tested},
		{"no test any more", "a claim is all that is left", tested, only},
	} {
		facts := review.Facts(at(c.before.records, c.before.shop))
		now := review.Now{Records: c.after.records, Shop: c.after.shop, Families: compare.All(c.after.records, c.after.shop, march), Date: march}
		r := review.Make(now, review.Before{Facts: &facts})
		said := false
		for _, change := range r.Changes {
			for _, cause := range change.Causes {
				if cause.Kind == review.NewTest && cause.Subject == "LKC-41" {
					said = said || strings.Contains(cause.Words, c.says)
					if strings.Contains(cause.Words, ", was ") {
						t.Errorf("%s: %q", c.name, cause.Words)
					}
				}
			}
		}
		if !said {
			t.Errorf("%s: nothing says %q: %+v", c.name, c.says, r.Changes)
		}
	}
}
