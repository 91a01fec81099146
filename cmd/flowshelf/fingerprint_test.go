package main

import (
	"testing"
	"time"
)

// TestFingerprintSeesEveryFact changes one fact at a time, in exported and other
// fields, behind pointers, in slices and in maps.
func TestFingerprintSeesEveryFact(t *testing.T) {
	type inner struct {
		open   float64
		hidden map[string]int
	}
	type facts struct {
		Name  string
		At    time.Time
		Inner *inner
		rows  [][]string
	}
	base := func() facts {
		return facts{"a", time.Date(2026, 3, 16, 0, 0, 0, 0, time.UTC), &inner{1, map[string]int{"x": 1, "y": 2}}, [][]string{{"ab", "c"}}}
	}
	first, second := fingerprint(base()), fingerprint(base())
	if first != second {
		t.Fatal("the same facts have two fingerprints")
	}
	seen := map[string]string{first: "nothing"}
	for what, change := range map[string]func(*facts){
		"a text":              func(f *facts) { f.Name = "b" },
		"a day":               func(f *facts) { f.At = f.At.AddDate(0, 0, 1) },
		"a figure":            func(f *facts) { f.Inner.open = 1.0000000001 },
		"no pointer":          func(f *facts) { f.Inner = nil },
		"a value of a map":    func(f *facts) { f.Inner.hidden["x"] = 2 },
		"an entry of a map":   func(f *facts) { f.Inner.hidden["z"] = 0 },
		"where a text ends":   func(f *facts) { f.rows = [][]string{{"a", "bc"}} },
		"where a row ends":    func(f *facts) { f.rows = [][]string{{"ab"}, {"c"}} },
		"one more empty text": func(f *facts) { f.rows[0] = append(f.rows[0], "") },
	} {
		f := base()
		change(&f)
		sum := fingerprint(f)
		if other, known := seen[sum]; known {
			t.Errorf("changing %s looks like changing %s", what, other)
		}
		seen[sum] = what
	}
}

// TestFingerprintOfSharedFacts holds that what is pointed to twice counts as what
// it says, and not as the place where it lies.
func TestFingerprintOfSharedFacts(t *testing.T) {
	type facts struct{ One, Other *[]string }
	shared := &[]string{"a"}
	same := fingerprint(facts{shared, shared})
	if got := fingerprint(facts{shared, &[]string{"a"}}); got != same {
		t.Error("two pointers to the same facts and two to equal ones look different")
	}
	if got := fingerprint(facts{shared, &[]string{"b"}}); got == same {
		t.Error("a change behind the second pointer is not seen")
	}
}
