//go:build linux

package faults_test

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// random stands in for the bcryptprimitives.dll that wine had none of before 9.0:
// the one function that the Go runtime needs of it, by an older one of the same
// meaning (RtlGenRandom).
const random = `#include <windows.h>
BOOLEAN NTAPI SystemFunction036(PVOID, ULONG);
__declspec(dllexport) BOOL WINAPI ProcessPrng(PBYTE p, SIZE_T n) {
	for (ULONG k; n > 0; p += k, n -= k) {
		k = n > 65536 ? 65536 : (ULONG)n;
		if (!SystemFunction036(p, k)) return FALSE;
	}
	return TRUE;
}
`

// wine runs Windows programs in a prefix of its own.
type wine struct{ program, prefix string }

func (w wine) run(dir string, command ...string) (string, error) {
	cmd := exec.Command(w.program, command...)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "WINEPREFIX="+w.prefix, "WINEDEBUG=-all")
	out, err := cmd.CombinedOutput()
	return string(out), err
}

// startWine makes a prefix in which a program of ours starts, or says why there is
// none.
func startWine(t *testing.T, probe string) (wine, string) {
	t.Helper()
	w := wine{prefix: filepath.Join(t.TempDir(), "prefix")}
	for _, name := range []string{"wine64", "/usr/lib/wine/wine64", "wine"} {
		if found, err := exec.LookPath(name); err == nil {
			w.program = found
			break
		}
	}
	if w.program == "" {
		return w, "wine is not installed"
	}
	if out, err := w.run("", "wineboot", "--init"); err != nil {
		return w, "wine does not start: " + out
	}
	out, err := w.run("", probe, "--help")
	if err == nil {
		return w, ""
	}
	compiler, missing := exec.LookPath("x86_64-w64-mingw32-gcc")
	if missing != nil {
		return w, "the program does not start under this wine (" + strings.TrimSpace(out) + "), and gcc-mingw-w64-x86-64, which could make what it lacks, is not installed"
	}
	text := filepath.Join(t.TempDir(), "random.c")
	must(t, os.WriteFile(text, []byte(random), 0o644))
	made, err := exec.Command(compiler, "-shared", "-o", filepath.Join(w.prefix, "drive_c/windows/system32/bcryptprimitives.dll"), text, "-ladvapi32").CombinedOutput()
	if err != nil {
		return w, "what wine lacks cannot be made: " + string(made)
	}
	if out, err = w.run("", probe, "--help"); err != nil {
		return w, "the program does not start under this wine: " + strings.TrimSpace(out)
	}
	return w, ""
}

// forWindows returns what builds for Windows with the Go library's own way of
// deleting on older file systems: wine 8.0 knows no other.
func forWindows(t *testing.T) func(out string, args ...string) {
	t.Helper()
	library := filepath.Join(runtime.GOROOT(), "src/internal/syscall/windows/at_windows.go") //nolint:staticcheck // the one that builds this test
	content, err := os.ReadFile(library)
	must(t, err)
	dir := t.TempDir()
	older := bytes.Replace(content, []byte("var TestDeleteatFallback bool"), []byte("var TestDeleteatFallback = true"), 1)
	must(t, os.WriteFile(filepath.Join(dir, "at.go"), older, 0o644))
	overlay, err := json.Marshal(map[string]map[string]string{"Replace": {library: filepath.Join(dir, "at.go")}})
	must(t, err)
	must(t, os.WriteFile(filepath.Join(dir, "overlay.json"), overlay, 0o644))
	return func(out string, args ...string) {
		t.Helper()
		cmd := exec.Command("go", append([]string{args[0], "-overlay", filepath.Join(dir, "overlay.json"), "-o", out}, args[1:]...)...)
		cmd.Env = append(os.Environ(), "GOOS=windows", "GOARCH=amd64")
		if said, err := cmd.CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", err, said)
		}
	}
}

// TestUnderWine runs the Windows program, and the tests of what watches, keeps and
// writes, where wine can. Only with -full.
func TestUnderWine(t *testing.T) {
	if !*full {
		return
	}
	build, bin := forWindows(t), t.TempDir()
	program := filepath.Join(bin, "flowshelf.exe")
	build(program, "build", "flowshelf/cmd/flowshelf")
	w, why := startWine(t, program)
	if why != "" {
		fmt.Printf("16 under wine: not run: %s\n", why)
		return
	}
	var passed []string
	for _, name := range []string{"export/publish", "ingest/watch", "ingest/cache"} {
		tests := filepath.Join(bin, strings.ReplaceAll(name, "/", "-")+".exe")
		build(tests, "test", "-c", "flowshelf/"+name)
		out, err := w.run(filepath.Join("..", "..", name), tests, "-test.v")
		if err != nil {
			t.Errorf("%s: %v\n%s", name, err, tail(out))
		}
		passed = append(passed, fmt.Sprintf("%s %d", name, strings.Count(out, "--- PASS")))
	}
	here, there := demo(t), demo(t)
	_ = exec.Command(binary, "run", here, "--date", "2026-03-16").Run() // it has questions: what it wrote is looked at
	out, _ := w.run("", program, "run", "Z:"+strings.ReplaceAll(there, "/", `\`), "--date", "2026-03-16")
	same, all := alike(t, filepath.Join(here, "Ranked"), filepath.Join(there, "Ranked"))
	if same != all || all == 0 {
		t.Errorf("of %d workbooks of the demo %d are the same\n%s", all, same, tail(out))
	}
	fmt.Printf("16 under wine: tests passed: %s; %d of %d workbooks of the demo as on this system\n", strings.Join(passed, ", "), same, all)
}

func demo(t *testing.T) string {
	t.Helper()
	folder := filepath.Join(t.TempDir(), "demo")
	must(t, os.CopyFS(folder, os.DirFS("../demo")))
	return folder
}

// alike counts the workbooks of one folder, and those of them whose parts are the
// same in the other. The list of parts has no order.
func alike(t *testing.T, one, other string) (same, all int) {
	t.Helper()
	must(t, fs.WalkDir(os.DirFS(one), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || filepath.Ext(name) != ".xlsx" {
			return err
		}
		all++
		a, err := parts(filepath.Join(one, name))
		must(t, err)
		b, err := parts(filepath.Join(other, name))
		if err != nil || len(a) != len(b) {
			t.Logf("%s: %v, %d and %d parts", name, err, len(a), len(b))
			return nil
		}
		for part, content := range a {
			if part != "[Content_Types].xml" && content != b[part] {
				t.Logf("%s differs in %s", name, part)
				return nil
			}
		}
		same++
		return nil
	}))
	return same, all
}

func parts(workbook string) (map[string]string, error) {
	z, err := zip.OpenReader(workbook)
	if err != nil {
		return nil, err
	}
	defer z.Close()
	out := make(map[string]string)
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			return nil, err
		}
		content, err := io.ReadAll(r)
		if err != nil {
			return nil, err
		}
		out[f.Name] = string(content)
	}
	return out, nil
}
