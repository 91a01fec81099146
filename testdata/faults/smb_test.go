//go:build unix

package faults_test

import (
	"bufio"
	"errors"
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
)

const smbConfig = `[global]
workgroup = SHOP
server role = standalone server
interfaces = 127.0.0.1
bind interfaces only = yes
smb ports = %[2]d
map to guest = Bad User
guest account = root
private dir = %[1]s/private
lock directory = %[1]s/lock
state directory = %[1]s/state
cache directory = %[1]s/cache
pid directory = %[1]s/pid
ncalrpc dir = %[1]s/ncalrpc
log file = %[1]s/log
load printers = no
disable spoolss = yes
[shop]
path = %[3]s
guest ok = yes
read only = no
force user = root
`

// smbShare starts smbd on loopback and mounts its share with smbnetfs, or says why
// that cannot be.
func smbShare(t *testing.T) (quiet, string) {
	t.Helper()
	client, err := exec.LookPath("smbnetfs")
	if err != nil {
		return quiet{}, "smbnetfs is not installed"
	}
	base := t.TempDir()
	home, mnt := filepath.Join(base, "home"), filepath.Join(base, "mnt")
	q := quiet{kind: "smbd and smbnetfs", behind: filepath.Join(base, "behind"), config: filepath.Join(home, ".smb/smb.conf"),
		mounted: filepath.Join(mnt, "127.0.0.1", "shop")}
	for _, dir := range []string{"behind", "private", "lock", "state", "cache", "pid", "ncalrpc", "mnt", "home/.smb"} {
		must(t, os.MkdirAll(filepath.Join(base, dir), 0o755))
	}
	if why := startServer(t, base, q.behind); why != "" {
		return quiet{}, why
	}
	must(t, os.WriteFile(q.config, []byte("[global]\nworkgroup = SHOP\n"), 0o600))
	must(t, os.WriteFile(filepath.Join(home, ".smb/smbnetfs.conf"), []byte("auth \"guest\" \"\"\n"), 0o600))
	cmd := exec.Command(client, mnt)
	cmd.Env = append(os.Environ(), "HOME="+home)
	if out, err := cmd.CombinedOutput(); err != nil {
		return quiet{}, "smbnetfs: " + strings.TrimSpace(string(out))
	}
	t.Cleanup(func() { _ = exec.Command("umount", "-l", mnt).Run() })
	probe := filepath.Join(q.behind, "probe")
	must(t, os.WriteFile(probe, nil, 0o666))
	defer os.Remove(probe)
	for range 300 {
		if _, err = os.Stat(filepath.Join(q.mounted, "probe")); err == nil {
			return q, ""
		}
		time.Sleep(100 * time.Millisecond)
	}
	return quiet{}, fmt.Sprintf("the share does not show what is in it (%v)%s", err, lastLine(filepath.Join(base, "log")))
}

// startServer starts smbd for a folder and waits until it listens.
func startServer(t *testing.T, base, folder string) (why string) {
	t.Helper()
	smbd, err := exec.LookPath("smbd")
	if err != nil {
		return "samba is not installed"
	}
	if os.Geteuid() != 0 {
		return "only root may start smbd on its port"
	}
	const port = 445 // the client knows no other
	address := fmt.Sprintf("127.0.0.1:%d", port)
	l, err := net.Listen("tcp", address)
	if err != nil {
		return fmt.Sprintf("port %d is not free: %v", port, err)
	}
	must(t, l.Close())
	config := filepath.Join(base, "smb.conf")
	must(t, os.WriteFile(config, fmt.Appendf(nil, smbConfig, base, port, folder), 0o644))
	// It ends its whole group with itself, so that it needs one of its own; and the
	// leader of a group cannot begin a session (setsid(2)), which it would.
	cmd := exec.Command(smbd, "--foreground", "--no-process-group", "--configfile", config)
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	must(t, cmd.Start())
	ended := make(chan struct{})
	go func() { defer close(ended); _ = cmd.Wait() }() // its log says why
	t.Cleanup(func() {
		_ = cmd.Process.Signal(syscall.SIGTERM) // ended already is as good
		<-ended
	})
	for range 300 {
		if c, err := net.Dial("tcp", address); err == nil {
			_ = c.Close()
			return ""
		}
		select {
		case <-ended:
			return "smbd does not start" + lastLine(filepath.Join(base, "log"))
		case <-time.After(100 * time.Millisecond):
		}
	}
	return "smbd does not listen" + lastLine(filepath.Join(base, "log"))
}

// lastLine is the end of a server's log.
func lastLine(log string) string {
	content, err := os.ReadFile(log)
	if err != nil {
		return ""
	}
	lines := strings.Split(strings.TrimSpace(string(content)), "\n")
	return ": " + strings.TrimSpace(lines[len(lines)-1])
}

// holder opens a file of the share as a spreadsheet program on another machine
// does, so that others may read it and neither write nor replace it, and keeps it
// open until its input ends ([MS-SMB2] 2.2.13, ShareAccess). It is for Debian's
// python3-samba. Where reading is denied too, smbnetfs answers every call into the
// share with an error for seconds: the folder counts as away then, and comes back.
const holder = `
import sys
from samba.credentials import Credentials
from samba.samba3 import libsmb_samba_internal as libsmb, param
context = param.get_context()
context.load(sys.argv[1])
nobody = Credentials()
nobody.set_anonymous()
share = libsmb.Conn("127.0.0.1", "shop", context, nobody)
FILE_READ_DATA, FILE_READ_ATTRIBUTES, FILE_SHARE_READ, FILE_OPEN = 0x1, 0x80, 0x1, 1
file = share.create(sys.argv[2], DesiredAccess=FILE_READ_DATA | FILE_READ_ATTRIBUTES, ShareAccess=FILE_SHARE_READ, CreateDisposition=FILE_OPEN)
print("held", flush=True)
sys.stdin.read()
share.close(file)
`

// hold keeps a file of the share open on another machine until it is released.
func (q quiet) hold(t *testing.T, name string) (release func(), why string) {
	t.Helper()
	cmd := exec.Command("/usr/bin/python3", "-c", holder, q.config, strings.ReplaceAll(name, "/", `\`))
	end, err := cmd.StdinPipe()
	must(t, err)
	said, err := cmd.StdoutPipe()
	must(t, err)
	var complaint strings.Builder
	cmd.Stderr = &complaint
	if err := cmd.Start(); err != nil {
		return nil, err.Error()
	}
	release = sync.OnceFunc(func() { _ = errors.Join(end.Close(), cmd.Wait()) })
	t.Cleanup(release)
	if word, _ := bufio.NewReader(said).ReadString('\n'); word != "held\n" {
		release()
		return nil, "nothing can be held open: " + strings.TrimSpace(complaint.String())
	}
	return release, ""
}

// heldOverSMB is targetHeld over a network share, where another machine has the
// workbook open and denies everybody else to write.
func heldOverSMB(t *testing.T) tally {
	share, why := smbShare(t)
	if why != "" {
		return tally{note: "not run over SMB: " + why}
	}
	f := folderAt(t, filepath.Join(share.mounted, "shop"), filepath.Join(t.TempDir(), "state"), names(12)...)
	behind := filepath.Join(share.behind, "shop") // as the server's disk has it
	out := f.held(t, behind, func() (release func(), why string) { return share.hold(t, "shop/"+ranked) })
	if out.note == "" {
		out.note = fmt.Sprintf("over SMB %.1f", out.seconds)
	}
	return out
}
