//go:build linux

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

// boot makes systemd process 1 of namespaces of its own (systemd(1), unshare(1)).
// It starts nothing by itself, and of the machine's files it sees as they are only
// those it does not write to: what it would set up or clean away at a start, /tmp
// among it, is covered, and the one folder it is given ($1) is laid over that.
const boot = `set -e
mount --make-rprivate /
mount -t proc none /proc
mount -t tmpfs -o mode=755 tmpfs /run
mkdir -p /run/lock /run/systemd /run/given
mount --bind "$1" /run/given
for d in /tmp /var/tmp /var/cache /var/log /var/lib/systemd /etc/systemd/system /lib/systemd/system/*.wants; do
	if [ -d "$d" ]; then mount -t tmpfs -o mode=755 tmpfs "$d"; fi
done
mkdir -p "$1"
mount --bind /run/given "$1"
for unit in systemd-tmpfiles-setup.service systemd-tmpfiles-setup-dev.service systemd-tmpfiles-clean.service systemd-sysctl.service; do
	ln -s /dev/null "/etc/systemd/system/$unit"
done
printf '[Unit]\nDefaultDependencies=no\n' > /etc/systemd/system/nothing.target
export container=test
exec /lib/systemd/systemd --system --unit=nothing.target --log-target=null --show-status=0`

// machine is a systemd that runs for one test.
type machine struct{ pid string }

// bootMachine starts one, or says why that cannot be.
func bootMachine(t *testing.T, given string) (machine, string) {
	t.Helper()
	if os.Geteuid() != 0 {
		return machine{}, "only root may make namespaces"
	}
	for _, needed := range []string{"/lib/systemd/systemd", "/usr/bin/unshare", "/usr/bin/nsenter"} {
		if _, err := os.Stat(needed); err != nil {
			return machine{}, needed + " is not installed"
		}
	}
	var said strings.Builder
	cmd := exec.Command("unshare", "--pid", "--mount", "--uts", "--ipc", "--cgroup", "--fork", "--kill-child=KILL", "sh", "-c", boot, "boot", given)
	cmd.Stdout, cmd.Stderr = &said, &said
	cmd.SysProcAttr = &syscall.SysProcAttr{Pdeathsig: syscall.SIGKILL}
	must(t, cmd.Start())
	ended := make(chan struct{})
	go func() { defer close(ended); _ = cmd.Wait() }() // killed, as a rule
	t.Cleanup(func() { _ = cmd.Process.Kill(); <-ended })
	for range 100 {
		select {
		case <-ended:
			return machine{}, "systemd does not start: " + strings.TrimSpace(said.String())
		case <-time.After(100 * time.Millisecond):
		}
		child, err := os.ReadFile(fmt.Sprintf("/proc/%[1]d/task/%[1]d/children", cmd.Process.Pid))
		if err != nil {
			continue
		}
		m := machine{strings.TrimSpace(string(child))}
		if state, _ := m.do("systemctl", "is-system-running"); strings.TrimSpace(state) == "running" {
			return m, ""
		}
	}
	return machine{}, "systemd does not say that it runs"
}

// do runs a command on the machine.
func (m machine) do(command ...string) (string, error) {
	out, err := exec.Command("nsenter", append([]string{"--target", m.pid, "--all"}, command...)...).CombinedOutput()
	return string(out), err
}

// TestServiceUnderSystemd installs the service with a real systemd, has its process
// killed, and takes it out again. Only with -full, because it needs a machine that
// it may make namespaces on.
func TestServiceUnderSystemd(t *testing.T) {
	if !*full {
		return
	}
	base, heads := t.TempDir(), names(1)
	m, why := bootMachine(t, base)
	if why != "" {
		fmt.Printf("   under systemd: not run: %s\n", why)
		return
	}
	f := folderAt(t, filepath.Join(base, "shop"), filepath.Join(base, "state"), heads...)
	s := &service{folder: f, ended: make(chan struct{})}
	program, settings := filepath.Join(base, "flowshelf"), filepath.Join(base, "settings.yaml")
	content, err := os.ReadFile(binary)
	must(t, err)
	must(t, os.WriteFile(program, content, 0o755))
	must(t, os.WriteFile(settings, fmt.Appendf(nil, "health: {listen: '127.0.0.1:%d'}\nwatch: {settle: %v, poll: %v}\n", f.port, settle, poll), 0o644))
	says := func(want string, action ...string) {
		t.Helper()
		if out, err := m.do(append([]string{program, "service"}, action...)...); err != nil || !strings.Contains(out, want) {
			t.Fatalf("service %s: %v: %q, want %q", strings.Join(action, " "), err, out, want)
		}
	}
	says("not installed", "status")
	says("installed", "install", f.path, "--config", settings)
	says("installed and not running", "status")
	says("started", "start")
	says("running", "status")
	one, two := sheet{heads[0], 0}, sheet{heads[0], 1}
	want := map[string]int{"bench/one.xlsx": one.readings()}
	f.put(t, "bench/one.xlsx", one.xlsx())
	s.readings(t, one.readings(), patience)

	if out, err := m.do("systemctl", "kill", "--signal=KILL", "flowshelf"); err != nil {
		t.Fatal(err, out)
	}
	start := time.Now()
	f.put(t, "bench/two.xlsx", two.xlsx())
	want["bench/two.xlsx"] = two.readings()
	s.readings(t, one.readings()+two.readings(), patience)
	back := time.Since(start)

	says("stopped", "stop")
	says("installed and not running", "status")
	if _, err := s.health(); err == nil {
		t.Error("it answers after it was stopped")
	}
	says("removed", "remove")
	says("not installed", "status")
	lost, short := f.account(t, want)
	fmt.Printf("   under systemd: installed, killed, stopped, removed; L = %d, short %d, back after %.1f s\n", lost, short, back.Seconds())
	if lost+short != 0 {
		t.Errorf("lost %d, short %d", lost, short)
	}
}
