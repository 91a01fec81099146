//go:build unix

package faults_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// kills ends the service at random moments while files come and change. What
// stands in our folder is whole after each, and in the end it is what a service
// that was never killed writes.
func kills(t *testing.T) tally {
	n, heads := scaled(20, 300), names(24)
	f := newFolder(t, heads...)
	random := rand.New(rand.NewPCG(6, 6))
	want := make(map[string]int)
	out := tally{trials: n}
	for i := range n {
		s := f.watch(t)
		for range 3 {
			h := random.IntN(len(heads))
			one := sheet{heads[h], random.IntN(50)}
			name := fmt.Sprintf("bench/%s.xlsx", heads[h])
			f.put(t, name, one.xlsx())
			want[name] = one.readings()
			time.Sleep(time.Duration(random.Int64N(int64(2 * settle))))
		}
		s.kill()
		if _, err := os.Stat(f.at("Ranked")); err == nil {
			out.invalid += f.invalidOutputs(t)
		}
		_ = i
	}
	s, total := f.watch(t), 0
	for _, readings := range want {
		total += readings
	}
	out.seconds = s.readings(t, total, patience).Seconds()
	out.lost, out.short = f.account(t, want)
	out.invalid += f.sameAsClean(t)
	s.stop(t)
	out.invalid += f.invalidOutputs(t) + f.leftovers(t)
	return out
}

// mountTemporary mounts a file system of a size in memory, or says why not.
func mountTemporary(t *testing.T, size string) (path, why string) {
	t.Helper()
	path = t.TempDir()
	if out, err := exec.Command("mount", "-t", "tmpfs", "-o", "size="+size, "tmpfs", path).CombinedOutput(); err != nil {
		return "", "no file system can be mounted here: " + strings.TrimSpace(string(out))
	}
	t.Cleanup(func() { _ = exec.Command("umount", "-l", path).Run() }) // unmounted already is as good
	return path, ""
}

// fullDisk fills the share, then the disk of the cache. The last good workbooks
// stay, and everything goes on when there is room again.
func fullDisk(t *testing.T) tally {
	share, why := mountTemporary(t, "4m")
	if why != "" {
		return tally{note: "not run: " + why}
	}
	local, why := mountTemporary(t, "8m")
	if why != "" {
		return tally{note: "not run: " + why}
	}
	heads := names(12)
	f := folderAt(t, filepath.Join(share, "shop"), filepath.Join(local, "state"), heads...)
	want := map[string]int{"bench/0.xlsx": sheet{heads[0], 0}.readings()}
	f.put(t, "bench/0.xlsx", sheet{heads[0], 0}.xlsx())
	s := f.watch(t)
	total := want["bench/0.xlsx"]
	s.readings(t, total, patience)
	out := tally{}
	trials := scaled(2, 5)
	for i := range trials {
		for _, disk := range []string{share, local} {
			out.trials++
			one := sheet{heads[1+out.trials%11], out.trials}
			name := fmt.Sprintf("bench/full %d.xlsx", out.trials)
			f.put(t, name, one.xlsx())
			want[name] = one.readings()
			total += one.readings()
			filler := filepath.Join(disk, fmt.Sprintf("filler %d", i))
			fill(t, filler)
			time.Sleep(3*settle + poll)
			out.invalid += f.invalidOutputs(t)
			must(t, os.Remove(filler))
			out.seconds = max(out.seconds, s.readings(t, total, patience).Seconds())
			s.wait(t, "all workbooks", patience, func(c condition) bool { return len(c.NotWritten) == 0 })
		}
	}
	out.lost, out.short = f.account(t, want)
	out.invalid += f.invalidOutputs(t) + f.leftovers(t) + f.sameAsClean(t)
	return out
}

// fill writes until nothing more fits.
func fill(t *testing.T, name string) {
	t.Helper()
	file, err := os.Create(name)
	must(t, err)
	defer file.Close()
	block := make([]byte, 4096)
	for {
		if _, err := file.Write(block); err != nil {
			if !errors.Is(err, syscall.ENOSPC) {
				t.Fatal(err)
			}
			return
		}
	}
}

// readOnly remounts the share read-only, and has another user run the service
// without the right to write. The reason is said, and it recovers.
func readOnly(t *testing.T) tally {
	share, why := mountTemporary(t, "16m")
	if why != "" {
		return tally{note: "not run: " + why}
	}
	heads := names(12)
	f := folderAt(t, filepath.Join(share, "shop"), filepath.Join(t.TempDir(), "state"), heads...)
	s := f.watch(t)
	s.wait(t, "the first pass", patience, func(c condition) bool { return c.Files == 1 })
	out, want, total := tally{}, make(map[string]int), 0
	for i := range scaled(1, 5) {
		out.trials++
		one := sheet{heads[i], i}
		name := fmt.Sprintf("bench/%d.xlsx", i)
		f.put(t, name, one.xlsx())
		want[name], total = one.readings(), total+one.readings()
		remount(t, share, "ro")
		s.wait(t, "word that nothing can be written", patience, func(c condition) bool { return len(c.NotWritten) > 0 })
		if !strings.Contains(s.said(), "we may not write to the folder") {
			t.Error("the log does not say why")
		}
		remount(t, share, "rw")
		out.seconds = max(out.seconds, s.wait(t, "all workbooks", patience, func(c condition) bool { return len(c.NotWritten) == 0 }).Seconds())
	}
	s.stop(t)
	out.trials++
	notAllowed(t, f)
	s = f.watch(t)
	s.readings(t, total, patience)
	out.lost, out.short = f.account(t, want)
	out.invalid = f.invalidOutputs(t) + f.sameAsClean(t)
	return out
}

// remount mounts anew. That is refused while somebody has a file open to write it,
// which a service has for a moment now and then.
func remount(t *testing.T, path, how string) {
	t.Helper()
	for start := time.Now(); ; time.Sleep(10 * time.Millisecond) {
		out, err := exec.Command("mount", "-o", "remount,"+how, path).CombinedOutput()
		if err == nil {
			return
		}
		if time.Since(start) > patience {
			t.Fatalf("remount %s: %s", how, out)
		}
	}
}

// notAllowed runs the service as a user who may read the folder and not write.
func notAllowed(t *testing.T, f *shopFolder) {
	t.Helper()
	const nobody = 65534
	state := filepath.Join(os.TempDir(), fmt.Sprintf("faults-nobody-%d", os.Getpid()))
	must(t, errors.Join(os.Mkdir(state, 0o700), os.Chown(state, nobody, nobody)))
	defer os.RemoveAll(state)
	for dir := f.path; dir != os.TempDir() && dir != "/"; dir = filepath.Dir(dir) {
		must(t, os.Chmod(dir, 0o755))
	}
	other := *f
	other.set("STATE_FOLDER", state)
	other.prepare = func(cmd *exec.Cmd) {
		cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
	}
	must(t, os.Chmod(f.at("Ranked"), 0o755))
	must(t, os.Remove(f.at("Ranked/Folder status.xlsx"))) // so that there is something to write
	s := other.watch(t)
	s.wait(t, "word that nothing can be written", patience, func(c condition) bool { return len(c.NotWritten) > 0 })
	s.stop(t)
}
