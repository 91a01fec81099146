//go:build unix

package main

import (
	"errors"
	"syscall"
	"testing"
	"time"
)

// A process that is killed while it marks a copy costs this copy, unless it has
// marked others before: then the copy is tried once more by a new one.
func TestAMarkerKilledMidway(t *testing.T) {
	a := testApp(t)
	within := bounds{a.markMemory(), plenty}
	one := job(a, "a.xlsx", smallBook(t))
	for _, worked := range []bool{false, true} {
		var m marker
		t.Cleanup(m.rest)
		child, err := startMarking(within.memory)
		if err != nil {
			t.Fatal(err)
		}
		// Standing still, it takes the job and gives no answer.
		if err := child.cmd.Process.Signal(syscall.SIGSTOP); err != nil {
			t.Fatal(err)
		}
		m.child = child
		time.AfterFunc(50*time.Millisecond, child.kill)
		if worked {
			_, err = m.mark(t.Context(), one, within)
		} else {
			_, err = m.ask(t.Context(), one, within)
		}
		if worked && err != nil || !worked && !errors.Is(err, errMarkerDied) {
			t.Errorf("worked before %v: %v", worked, err)
		}
		if _, err := m.mark(t.Context(), one, within); err != nil {
			t.Errorf("the next copy: %v", err)
		}
	}
}
