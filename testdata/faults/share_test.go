//go:build unix

package faults_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// quiet is a folder seen through a mount that announces no change made behind
// it, as a network share is seen.
type quiet struct {
	kind    string
	mounted string // as the service sees it
	behind  string // as another machine sees it
	config  string // of the SMB client, "" for none
}

// quietShare mounts one: a real SMB server on loopback with a FUSE client where
// Debian's samba and smbnetfs are installed, else a plain FUSE mirror (bindfs).
func quietShare(t *testing.T) (quiet, string) {
	t.Helper()
	if _, err := os.Stat("/dev/fuse"); err != nil {
		return quiet{}, "no FUSE here"
	}
	share, why := smbShare(t)
	if why == "" {
		return share, ""
	}
	bindfs, err := exec.LookPath("bindfs")
	if err != nil {
		return quiet{}, why + ", and bindfs is not installed"
	}
	q := quiet{kind: "bindfs (FUSE); no SMB: " + why, mounted: t.TempDir(), behind: t.TempDir()}
	if out, err := exec.Command(bindfs, q.behind, q.mounted).CombinedOutput(); err != nil {
		return quiet{}, why + ", and bindfs: " + strings.TrimSpace(string(out))
	}
	t.Cleanup(func() { _ = exec.Command("umount", "-l", q.mounted).Run() })
	return q, ""
}

// folderLost takes the folder away in the ways that happen. Nothing counts as
// deleted, the service answers, and it goes on when the folder is back.
func folderLost(t *testing.T) tally {
	share, why := mountTemporary(t, "16m")
	if why != "" {
		return tally{note: "not run: " + why}
	}
	heads, n := names(24), 12
	f := folderAt(t, filepath.Join(share, "shop"), filepath.Join(t.TempDir(), "state"), heads...)
	want, total := make(map[string]int), 0
	for i := range n {
		one := sheet{heads[i], i}
		f.put(t, copyName(i), one.xlsx())
		want[copyName(i)], total = one.readings(), total+one.readings()
	}
	s := f.watch(t)
	s.readings(t, total, patience)
	out := tally{}
	keep := t.TempDir()
	run := func(args ...string) {
		if text, err := exec.Command(args[0], args[1:]...).CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", args, text)
		}
	}
	ways := []struct{ away, back func() }{
		{func() { run("mount", "--bind", share, keep); run("umount", "-l", share) }, func() { run("mount", "--bind", keep, share); run("umount", keep) }},
		{func() { run("mount", "-t", "tmpfs", "tmpfs", share) }, func() { run("umount", "-l", share) }},
		{func() { must(t, os.Rename(f.path, f.path+" moved")) }, func() { must(t, os.Rename(f.path+" moved", f.path)) }},
		{func() { // another folder in its place, set up in its own right
			must(t, os.Rename(f.path, f.path+" moved"))
			folderAt(t, f.path, filepath.Join(t.TempDir(), "other"), heads...)
		}, func() {
			// At once: the service gives its signs of life in whatever stands there.
			aside, err := os.MkdirTemp(share, "other")
			must(t, err)
			must(t, os.Rename(f.path, filepath.Join(aside, "shop")))
			must(t, os.Rename(f.path+" moved", f.path))
		}},
		{func() { must(t, os.Rename(f.at("Ranked/.flowshelf"), f.at("mark"))) }, func() { must(t, os.Rename(f.at("mark"), f.at("Ranked/.flowshelf"))) }},
	}
	for i := range scaled(len(ways), 4*len(ways)) {
		way := ways[i%len(ways)]
		out.trials++
		way.away()
		s.wait(t, "word that the folder is away", patience, func(c condition) bool { return c.State == "folder not reachable" })
		time.Sleep(2 * poll)
		way.back()
		one := sheet{heads[(n+i)%len(heads)], 40 + i}
		name := fmt.Sprintf("bench/after %d.xlsx", i)
		f.put(t, name, one.xlsx())
		want[name], total = one.readings(), total+one.readings()
		out.seconds = max(out.seconds, s.readings(t, total, patience).Seconds())
	}
	out.invalid = strings.Count(s.said(), "gone from the folder")
	hungServer(t, &out)
	out.lost, out.short = f.account(t, want)
	out.invalid += f.invalidOutputs(t) + f.sameAsClean(t)
	return out
}

// hungServer stops a share's server while it is being looked at: calls into it
// hang, /healthz does not.
func hungServer(t *testing.T, out *tally) {
	t.Helper()
	share, why := hangingShare(t)
	if why != "" {
		out.note = "no hanging share: " + why
		return
	}
	heads := names(2)
	f := folderAt(t, filepath.Join(share.mounted, "shop"), filepath.Join(t.TempDir(), "state"), heads...)
	f.put(t, copyName(0), sheet{heads[0], 0}.xlsx())
	s := f.watch(t)
	s.readings(t, sheet{"", 0}.readings(), patience)
	share.hang(t)
	s.wait(t, "word that the share hangs", patience, func(c condition) bool { return c.State == "folder not reachable" })
	slowest := time.Duration(0)
	for range 20 {
		start := time.Now()
		if _, err := s.health(); err != nil {
			t.Error("while the share hangs:", err)
		}
		slowest = max(slowest, time.Since(start))
	}
	share.resume(t)
	out.trials++
	out.seconds = max(out.seconds, s.wait(t, "the share again", patience, func(c condition) bool { return c.State == "watching" }).Seconds())
	out.invalid += strings.Count(s.said(), "gone from the folder")
	out.note = fmt.Sprintf("%s hung, /healthz answered within %v", share.kind, slowest.Round(time.Millisecond))
	s.stop(t)
}

type hanging struct {
	kind, mounted string
	process       *os.Process
}

func (h hanging) hang(t *testing.T)   { must(t, h.process.Signal(syscall.SIGSTOP)) }
func (h hanging) resume(t *testing.T) { must(t, h.process.Signal(syscall.SIGCONT)) }

// hangingShare is a FUSE mount whose server can be stopped.
func hangingShare(t *testing.T) (hanging, string) {
	t.Helper()
	bindfs, err := exec.LookPath("bindfs")
	if err != nil {
		return hanging{}, "bindfs is not installed"
	}
	if _, err := os.Stat("/dev/fuse"); err != nil {
		return hanging{}, "no FUSE here"
	}
	h := hanging{kind: "bindfs", mounted: t.TempDir()}
	cmd := exec.Command(bindfs, "-f", t.TempDir(), h.mounted)
	must(t, cmd.Start())
	h.process = cmd.Process
	ended := make(chan struct{})
	go func() { defer close(ended); _ = cmd.Wait() }()
	t.Cleanup(func() {
		_ = h.process.Signal(syscall.SIGCONT)
		_ = exec.Command("umount", "-l", h.mounted).Run()
		_ = h.process.Kill()
		<-ended
	})
	for range 600 {
		if content, err := os.ReadFile("/proc/mounts"); err == nil && strings.Contains(string(content), " "+h.mounted+" fuse") {
			return h, ""
		}
		select {
		case <-ended:
			return hanging{}, "bindfs cannot mount here"
		case <-time.After(50 * time.Millisecond):
		}
	}
	return hanging{}, "bindfs does not mount"
}
