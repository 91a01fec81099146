//go:build unix

package faults_test

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

const ranked = "Ranked/Heads ranked - Family 1.xlsx"

// targetHeld keeps a workbook of ours from being replaced: a file that something
// is mounted on cannot be renamed over (rename(2), EBUSY), as one that a program
// on another machine has open cannot.
func targetHeld(t *testing.T) tally {
	f := newFolder(t, names(12)...)
	out := f.held(t, f.path, func() (release func(), why string) {
		if text, err := exec.Command("mount", "--bind", f.at(ranked), f.at(ranked)).CombinedOutput(); err != nil {
			return nil, "nothing can be mounted here: " + strings.TrimSpace(string(text))
		}
		release = func() { _ = exec.Command("umount", "-l", f.at(ranked)).Run() }
		t.Cleanup(release)
		return release, ""
	})
	if out.note == "" {
		out.note = "seconds to the numbered copy"
	}
	return out
}

// held has the ranking held open while new books arrive. The last good one stays,
// a numbered copy stands in within the stated time, and goes when the name is
// free. disk is the folder as others see it, who are not held.
func (f *shopFolder) held(t *testing.T, disk string, hold func() (release func(), why string)) tally {
	t.Helper()
	others := *f
	others.path = disk
	heads := names(12)
	want := map[string]int{copyName(0): sheet{heads[0], 0}.readings()}
	f.put(t, copyName(0), sheet{heads[0], 0}.xlsx())
	s := f.watch(t)
	total := want[copyName(0)]
	s.readings(t, total, patience)
	copied := others.at(strings.Replace(ranked, ".xlsx", " (2).xlsx", 1))
	out := tally{}
	for i := range scaled(2, 10) {
		out.trials++
		before, err := os.ReadFile(others.at(ranked))
		must(t, err)
		release, why := hold()
		if why != "" {
			return tally{note: "not run: " + why}
		}
		one := sheet{heads[1+i], i}
		name := fmt.Sprintf("bench/held %d.xlsx", i)
		others.put(t, name, one.xlsx())
		want[name], total = one.readings(), total+one.readings()
		start := time.Now()
		for _, err := os.Stat(copied); err != nil; _, err = os.Stat(copied) {
			if time.Since(start) > patience {
				t.Fatalf("no numbered copy within %v", patience)
			}
			time.Sleep(20 * time.Millisecond)
		}
		out.seconds = max(out.seconds, time.Since(start).Seconds())
		if now, err := os.ReadFile(others.at(ranked)); err != nil || string(now) != string(before) {
			t.Error("the last good one changed while it was held:", err)
		}
		out.invalid += others.invalidOutputs(t)
		release()
		s.wait(t, "the name to be used again", patience, func(c condition) bool { return len(c.NotWritten) == 0 })
		for start, err := time.Now(), error(nil); !errors.Is(err, os.ErrNotExist); _, err = os.Stat(copied) {
			if time.Since(start) > patience { // a share may refuse to remove it at once, and is asked again
				t.Fatal("the numbered copy stays:", err)
			}
			time.Sleep(20 * time.Millisecond)
		}
	}
	s.readings(t, total, patience)
	out.lost, out.short = f.account(t, want)
	out.invalid += f.invalidOutputs(t) + f.sameAsClean(t)
	return out
}

// twoInstances starts a second service, from a machine of its own as it were.
// It refuses. The first is stopped past its time: the second takes over, and the
// first, continued, ends.
func twoInstances(t *testing.T) tally {
	heads := names(12)
	f := newFolder(t, heads...)
	want, total := make(map[string]int), 0
	first := f.watch(t)
	first.wait(t, "the first pass", patience, func(c condition) bool { return c.Files == 1 })
	out := tally{}
	for i := range scaled(2, 10) {
		out.trials++
		other := *f
		other.port = freePort(t)
		other.set("STATE_FOLDER", filepath.Join(t.TempDir(), "state"))
		other.set("HEALTH_LISTEN", fmt.Sprintf("127.0.0.1:%d", other.port))
		refused := other.watch(t)
		select {
		case <-refused.ended:
		case <-time.After(patience):
			t.Fatal("a second instance runs beside the first")
		}
		if said := refused.said(); !strings.Contains(said, fmt.Sprintf("process %d on ", first.cmd.Process.Pid)) {
			t.Errorf("it does not name the first: %s", said)
		}
		must(t, first.cmd.Process.Signal(syscall.SIGSTOP))
		second := other.watch(t)
		out.seconds = max(out.seconds, second.wait(t, "the second to take over", patience, func(c condition) bool { return c.State == "watching" }).Seconds())
		one := sheet{heads[i], i}
		f.put(t, copyName(i), one.xlsx())
		want[copyName(i)], total = one.readings(), total+one.readings()
		must(t, first.cmd.Process.Signal(syscall.SIGCONT))
		select {
		case <-first.ended:
		case <-time.After(patience):
			t.Fatal("the first goes on beside the second")
		}
		if !strings.Contains(first.said(), "another one took its place") {
			t.Errorf("the first does not say why it ended: %s", tail(first.said()))
		}
		second.readings(t, total, patience)
		out.invalid += f.invalidOutputs(t)
		first = second
	}
	f.last = first
	out.lost, out.short = f.account(t, want)
	out.invalid += f.leftovers(t) + f.sameAsClean(t)
	out.note = fmt.Sprintf("taken over after %v of silence", takeover)
	return out
}

// loops leaves the service alone after it has written, and drops an output back
// in under another name. It reads nothing again and writes nothing again.
func loops(t *testing.T) tally {
	heads := names(12)
	f := newFolder(t, heads...)
	total := 0
	for i := range heads {
		one := sheet{heads[i], i}
		f.put(t, copyName(i), one.xlsx())
		total += one.readings()
	}
	s := f.watch(t)
	s.readings(t, total, patience)
	must(t, copyAll(f.at(ranked), f.at("bench/my copy of the ranking.xlsx")))
	s.wait(t, "the copy", patience, func(c condition) bool { return c.Files == len(heads)+2 && c.Waiting == 0 })
	if got := f.statusOf(t)["bench/my copy of the ranking.xlsx"]; got.state != "our own" {
		t.Errorf("a copy of an output is %q", got.state)
	}
	time.Sleep(2 * poll)
	before, err := s.health()
	must(t, err)
	idle := time.Duration(scaled(5, 600)) * time.Second
	used := s.processor(t)
	time.Sleep(idle)
	after, err := s.health()
	must(t, err)
	out := tally{trials: 1, note: fmt.Sprintf("idle %v: %.1f %% of a core at a look every %v", idle, 100*(s.processor(t)-used).Seconds()/idle.Seconds(), poll)}
	if after.Read != before.Read || after.Written != before.Written {
		out.invalid++
		t.Errorf("while idle %d files were read and %d workbooks written", after.Read-before.Read, after.Written-before.Written)
	}
	s.stop(t)
	// A restart reads nothing again, writes nothing again.
	s = f.watch(t)
	s.readings(t, total, patience)
	restarted, err := s.health()
	must(t, err)
	if restarted.Read != 0 || restarted.Written != 0 {
		out.invalid++
		t.Errorf("a restart read %d files and wrote %d workbooks", restarted.Read, restarted.Written)
	}
	return out
}
