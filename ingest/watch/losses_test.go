package watch_test

import (
	"fmt"
	"testing"

	"flowshelf/ingest/watch"
)

func files(n int) []string {
	var out []string
	for i := range n {
		out = append(out, fmt.Sprintf("f%02d.xlsx", i))
	}
	return out
}

func TestMoreThanHalfIsHeld(t *testing.T) {
	tests := map[string]struct{ total, vanish, gone int }{
		"one of ten":               {10, 1, 1},
		"half":                     {10, 5, 5},
		"more than half":           {10, 6, 0},
		"all":                      {10, 10, 0},
		"all of a few":             {4, 4, 4},
		"most of a thousand":       {1000, 501, 0},
		"many, and less than half": {1000, 499, 499},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			var l watch.Losses
			vanished := files(test.vanish)
			if got := l.Weigh(test.total, vanished); len(got) != test.gone {
				t.Errorf("%d count as gone, want %d", len(got), test.gone)
			}
			if len(l.Held()) != test.vanish-test.gone {
				t.Errorf("held: %v", l.Held())
			}
		})
	}
}

func TestWhatIsHeldComesBackOrGoes(t *testing.T) {
	var l watch.Losses
	l.Weigh(10, files(8))
	first := l.Fingerprint()
	l.Back("f00.xlsx")
	if l.Fingerprint() == first {
		t.Error("another set of files has the same fingerprint")
	}
	// The two that were never gone and the one that came back: one of them goes
	// for good, whatever is held.
	expect(t, "gone", l.Weigh(10, []string{"f09.xlsx"}), "f09.xlsx")
	expect(t, "confirmed", l.Confirm(), files(8)[1:]...)
	expect(t, "still held", l.Held())
}
