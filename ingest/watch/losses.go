package watch

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"maps"
	"slices"
)

// fewest is how many files must go at once before anybody asks: a folder of a
// few files is tidied by hand.
const fewest = 5

// Losses holds deletions back when more than half of a folder vanishes at once,
// which is a slip of the hand, a broken synchronisation or a share half mounted
// more often than it is meant. What is held counts as there until a person says
// that it is gone, or it comes back.
type Losses struct{ held map[string]bool }

// Weigh returns those of the vanished files that are gone; total is how many
// there were before.
func (l *Losses) Weigh(total int, vanished []string) (gone []string) {
	total -= len(l.held)
	if n := len(vanished); n < fewest || 2*n <= total {
		return vanished
	}
	if l.held == nil {
		l.held = make(map[string]bool)
	}
	for _, name := range vanished {
		l.held[name] = true
	}
	return nil
}

// Back notes that a file is there again, and reports whether it was held.
func (l *Losses) Back(name string) bool {
	held := l.held[name]
	delete(l.held, name)
	return held
}

// Held returns what is held back, in order.
func (l *Losses) Held() []string { return slices.Sorted(maps.Keys(l.held)) }

// Confirm gives up what is held and returns it.
func (l *Losses) Confirm() []string {
	gone := l.Held()
	clear(l.held)
	return gone
}

// Fingerprint tells one set of held files from another, so that an answer about
// one is never taken for an answer about the next.
func (l *Losses) Fingerprint() string {
	h := sha256.New()
	for _, name := range l.Held() {
		fmt.Fprintf(h, "%q\n", name)
	}
	const enough = 8
	return hex.EncodeToString(h.Sum(nil)[:enough])
}
