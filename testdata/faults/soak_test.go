//go:build unix

package faults_test

import (
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"testing"
	"time"
)

var soak = flag.Duration("soak", 10*time.Second, "how long the soak test lasts")

// TestSoak drops, edits, renames and deletes files at random and kills the
// service now and then. In the end the workbooks hold, cell for cell, what a
// single pass over the same files writes.
func TestSoak(t *testing.T) {
	heads := names(36)
	f := newFolder(t, heads...)
	seed := uint64(time.Now().UnixNano())
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 1))
	want := make(map[string]int)
	s := f.watch(t)
	steps, killed := 0, 0
	for end := time.Now().Add(*soak); time.Now().Before(end); steps++ {
		name := fmt.Sprintf("bench/%d/file %d.xlsx", random.IntN(3), random.IntN(40))
		one := sheet{heads[random.IntN(len(heads))], steps}
		switch random.IntN(10) {
		case 0, 1, 2, 3, 4:
			f.put(t, name, one.xlsx())
			want[name] = one.readings()
		case 5, 6:
			to := fmt.Sprintf("bench/%d/renamed %d.xlsx", random.IntN(3), steps)
			if err := os.Rename(f.at(name), f.at(to)); err == nil {
				want[to] = want[name]
				delete(want, name)
			} else if !errors.Is(err, fs.ErrNotExist) {
				t.Fatal(err)
			}
		case 7, 8:
			if err := os.Remove(f.at(name)); err == nil {
				delete(want, name)
			}
		case 9:
			s.kill()
			killed++
			s = f.watch(t)
		}
		time.Sleep(time.Duration(random.Int64N(int64(2 * settle))))
	}
	total := 0
	for _, readings := range want {
		total += readings
	}
	recovery := s.wait(t, "all files", 5*time.Minute, func(c condition) bool {
		return c.Files == len(want)+1 && c.Waiting == 0 && len(c.NotWritten) == 0 &&
			c.Readings.Used+c.Readings.Asked+c.Readings.SetAside+c.Readings.Refused == total
	})
	lost, short := f.account(t, want)
	different := f.sameAsClean(t)
	s.stop(t)
	invalid := f.invalidOutputs(t) + f.leftovers(t)
	fmt.Printf("soak of %v: %d steps, %d kills, %d files left, L = %d, short %d, invalid %d, workbooks that differ from a clean run %d, recovery %.1f s\n",
		*soak, steps, killed, len(want), lost, short, invalid, different, recovery.Seconds())
	if lost+short+invalid+different != 0 {
		t.Error("each has to be 0")
	}
}
