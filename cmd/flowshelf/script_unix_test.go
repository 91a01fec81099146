//go:build unix

package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"

	"github.com/rogpeppe/go-internal/testscript"
)

// nobodyCommand is `nobody N PROGRAM ARG...`: like code, as a user without any
// rights to the folder. Root may write anywhere, so a read-only folder needs it.
func nobodyCommand(ts *testscript.TestScript, _ bool, args []string) {
	if os.Geteuid() != 0 {
		codeCommand(ts, false, args)
		return
	}
	const nobody = 65534
	path := filepath.Join(strings.Split(ts.Getenv("PATH"), string(os.PathListSeparator))[0], args[1])
	reachable(ts, path)
	reachable(ts, ts.MkAbs("."))
	cmd := exec.Command(path, args[2:]...)
	cmd.Dir = ts.MkAbs(".")
	cmd.Env = []string{"PATH=" + ts.Getenv("PATH"), "TMPDIR=" + os.TempDir()}
	cmd.Stdout, cmd.Stderr = ts.Stdout(), ts.Stderr()
	cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
	wantCode(ts, args[0], cmd.Run())
}

// reachable lets everybody pass through the scratch folders above a path.
func reachable(ts *testscript.TestScript, path string) {
	for dir := path; dir != os.TempDir() && dir != filepath.Dir(dir); dir = filepath.Dir(dir) {
		ts.Check(os.Chmod(dir, 0o755))
	}
}
