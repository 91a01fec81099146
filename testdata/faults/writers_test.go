//go:build unix

package faults_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// partialCopies writes workbooks in pieces with pauses, some after reserving
// their space with zeros, some from the end. The status is read all the while: a
// file has all of its readings there or none.
func partialCopies(t *testing.T) tally {
	n := scaled(24, 200)
	f := newFolder(t, names(n)...)
	s := f.watch(t)
	want := make(map[string]int)
	for i := range n {
		want[copyName(i)] = sheet{names(n)[i], i}.readings()
	}
	out := tally{trials: n}
	stop := make(chan struct{})
	var sampler, writers sync.WaitGroup
	sampler.Go(func() {
		for {
			select {
			case <-stop:
				return
			case <-time.After(settle):
			}
			if _, err := os.Stat(f.at("Ranked/Folder status.xlsx")); err != nil {
				continue
			}
			for name, got := range f.statusOf(t) {
				if expected, ours := want[name]; ours && got.readings != 0 && got.readings != expected {
					out.short++
					t.Logf("%s was read with %d of %d readings", name, got.readings, expected)
				}
			}
		}
	})
	random := rand.New(rand.NewPCG(1, 1))
	for i := range n {
		seed := random.Uint64()
		writers.Go(func() {
			writeInPieces(t, f.at(copyName(i)), sheet{names(n)[i], i}.xlsx(), rand.New(rand.NewPCG(seed, 2)))
		})
		if i%20 == 19 {
			writers.Wait()
		}
	}
	writers.Wait()
	total := 0
	for _, readings := range want {
		total += readings
	}
	out.seconds = s.readings(t, total, patience).Seconds()
	close(stop)
	sampler.Wait()
	lost, short := f.account(t, want)
	out.lost, out.short, out.invalid = lost, out.short+short, f.invalidOutputs(t)+f.sameAsClean(t)
	return out
}

func copyName(i int) string { return fmt.Sprintf("bench/copy %03d.xlsx", i) }

// writeInPieces writes a file in 1 to 20 pieces, with pauses of 0.1 to 3 settle
// times between them.
func writeInPieces(t *testing.T, name string, content []byte, random *rand.Rand) {
	if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
		t.Error(err)
		return
	}
	file, err := os.Create(name)
	if err != nil {
		t.Error(err)
		return
	}
	defer file.Close()
	pieces := 1 + random.IntN(20)
	order := make([]int, pieces)
	for i := range order {
		order[i] = i
	}
	switch random.IntN(3) {
	case 1: // the whole length first
		_, _ = file.Write(make([]byte, len(content)))
	case 2: // with holes, from the end
		random.Shuffle(pieces, func(i, j int) { order[i], order[j] = order[j], order[i] })
	}
	slow := random.IntN(pieces) // one long pause is enough to look finished
	for i, p := range order {
		from, to := p*len(content)/pieces, (p+1)*len(content)/pieces
		if _, err := file.WriteAt(content[from:to], int64(from)); err != nil {
			t.Error(err)
		}
		pause := settle / 10
		if i == slow {
			pause = settle * time.Duration(1+random.IntN(3))
		}
		time.Sleep(pause)
	}
}

// silentCorruption flips one bit each. Most flips must be refused; one that hits
// what carries no data may be read, and then in full.
func silentCorruption(t *testing.T) tally {
	n := scaled(100, 400)
	f := newFolder(t, names(1)...)
	good := sheet{names(1)[0], 3}
	content := good.xlsx()
	random := rand.New(rand.NewPCG(2, 2))
	for i := range n {
		bad := bytes.Clone(content)
		bad[random.IntN(len(bad))] ^= 1 << random.IntN(8)
		f.put(t, fmt.Sprintf("bench/flipped %03d.xlsx", i), bad)
	}
	s := f.watch(t)
	out := tally{trials: n}
	out.seconds = s.wait(t, "all files", patience, func(c condition) bool { return c.Files == n+1 }).Seconds()
	refused := 0
	status := f.statusOf(t)
	for i := range n {
		got, listed := status[fmt.Sprintf("bench/flipped %03d.xlsx", i)]
		switch {
		case !listed || got.readings == 0 && got.why == "":
			out.lost++
		case got.readings == 0:
			refused++
		case got.readings != good.readings():
			out.short++
			t.Logf("%d of %d readings", got.readings, good.readings())
		}
	}
	out.invalid = f.invalidOutputs(t)
	out.note = fmt.Sprintf("%d refused, %d hit no data", refused, n-refused)
	return out
}

// editorsSaves saves the way programs do: beside, then renamed over. Every
// version is read or superseded, no temporary file is, and nothing is deleted in
// passing.
func editorsSaves(t *testing.T) tally {
	n, saves := scaled(30, 200), scaled(1, 20)
	f := newFolder(t, names(2)...)
	scripted, office := "bench/scripted.xlsx", "bench/office.xlsx"
	f.put(t, scripted, sheet{names(2)[0], 0}.xlsx())
	f.put(t, office, sheet{names(2)[1], 1}.xlsx())
	s := f.watch(t)
	s.readings(t, sheet{"", 0}.readings()+sheet{"", 1}.readings(), patience)
	random := rand.New(rand.NewPCG(3, 3))
	slow := 0 // saves that the machine held up for so long that the file was gone in earnest
	for i := range n {
		content := sheet{names(2)[0], i}.xlsx()
		begun := time.Now()
		if i%2 == 0 {
			saveLikeOffice(t, f, scripted, content)
		} else {
			saveLikeExcel(t, f, scripted, content)
		}
		if time.Since(begun) > settle {
			slow++
		}
		time.Sleep(time.Duration(random.Int64N(int64(3 * settle))))
	}
	saved := 0
	note := ""
	if soffice, err := exec.LookPath("soffice"); err != nil {
		note = "no LibreOffice here"
	} else {
		for range saves {
			if saveByLibreOffice(t, soffice, f.at(office)) {
				saved++
			}
		}
	}
	want := map[string]int{scripted: sheet{"", n - 1}.readings(), office: sheet{"", 1}.readings()}
	out := tally{trials: n + saved, note: note}
	out.seconds = s.readings(t, want[scripted]+want[office], patience).Seconds()
	out.lost, out.short = f.account(t, want)
	for line := range strings.Lines(s.said()) {
		if gone := strings.Contains(line, "gone from the folder"); gone && slow > 0 {
			slow--
		} else if gone || strings.Contains(line, "new or changed") &&
			!strings.Contains(line, scripted) && !strings.Contains(line, office) && !strings.Contains(line, "Shop setup") {
			out.invalid++
			t.Log(line)
		}
	}
	out.invalid += f.invalidOutputs(t)
	return out
}

// saveLikeOffice is what LibreOffice was seen to do.
func saveLikeOffice(t *testing.T, f *shopFolder, name string, content []byte) {
	lock := f.at(filepath.Dir(name) + "/.~lock." + filepath.Base(name) + "#")
	temp := f.at(filepath.Dir(name) + "/lu81x2.tmp")
	must(t, os.WriteFile(lock, []byte("somebody"), 0o666))
	must(t, os.WriteFile(temp, content, 0o666))
	must(t, os.Rename(temp, f.at(name)))
	must(t, os.Remove(lock))
}

// saveLikeExcel is what Excel was seen to do: for a moment nothing stands under
// the name.
func saveLikeExcel(t *testing.T, f *shopFolder, name string, content []byte) {
	owner := f.at(filepath.Dir(name) + "/~$" + filepath.Base(name))
	temp, old := f.at(filepath.Dir(name)+"/5F2A1C00"), f.at(filepath.Dir(name)+"/81B7E4D2.tmp")
	must(t, os.WriteFile(owner, []byte("somebody"), 0o666))
	must(t, os.WriteFile(temp, content, 0o666))
	must(t, os.Rename(f.at(name), old))
	time.Sleep(settle / 10)
	must(t, os.Rename(temp, f.at(name)))
	must(t, os.Remove(old))
	must(t, os.Remove(owner))
}

// saveByLibreOffice has LibreOffice write the workbook anew in its place.
func saveByLibreOffice(t *testing.T, soffice, name string) bool {
	from := filepath.Join(t.TempDir(), filepath.Base(name))
	must(t, copyAll(name, from))
	cmd := exec.Command(soffice, "-env:UserInstallation=file://"+filepath.Join(os.TempDir(), "faults-office"), "--headless", "--convert-to", "xlsx", "--outdir", filepath.Dir(name), from)
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Logf("LibreOffice: %v: %s", err, out)
	}
	return err == nil
}

// noEvents writes through a mount that announces nothing, where one can be had.
func noEvents(t *testing.T) tally {
	n := scaled(10, 50)
	share, why := quietShare(t)
	if why != "" {
		return tally{note: "not run: " + why}
	}
	f := folderAt(t, filepath.Join(share.mounted, "shop"), filepath.Join(t.TempDir(), "state"), names(n)...)
	s := f.watch(t)
	s.wait(t, "the first pass", patience, func(c condition) bool { return c.Files == 1 })
	out := tally{trials: n, note: share.kind}
	want := make(map[string]int)
	total := 0
	for i := range n {
		one := sheet{names(n)[i], i}
		name := copyName(i)
		behind := filepath.Join(share.behind, "shop", filepath.FromSlash(name)) // as another machine writes
		must(t, os.MkdirAll(filepath.Dir(behind), 0o777))
		must(t, os.WriteFile(behind, one.xlsx(), 0o666))
		want[name] = one.readings()
		total += one.readings()
		out.seconds = max(out.seconds, s.readings(t, total, patience).Seconds())
	}
	out.lost, out.short = f.account(t, want)
	out.invalid = f.invalidOutputs(t) + f.sameAsClean(t)
	return out
}

// overflow drops more files than the system has room for events, makes nested
// folders at once, and renames folders with files in them.
func overflow(t *testing.T) tally {
	n, nested := scaled(2000, 40_000), scaled(50, 500)
	f := newFolder(t, names(12)...)
	s := f.watch(t)
	want := make(map[string]int)
	var group sync.WaitGroup
	for part := range 4 {
		group.Go(func() {
			for i := part; i < n; i += 4 {
				name := f.at(fmt.Sprintf("notes %d/%d/note %05d.csv", part, i/1000, i))
				if os.MkdirAll(filepath.Dir(name), 0o777) != nil || os.WriteFile(name, fmt.Appendf(nil, "note,%d\n", i), 0o666) != nil {
					t.Error("cannot write", name)
				}
			}
		})
	}
	for i := range n {
		want[fmt.Sprintf("notes %d/%d/note %05d.csv", i%4, i/1000, i)] = -1
	}
	deep := "bench"
	for i := range nested {
		if i%20 == 0 {
			deep = fmt.Sprintf("bench/%d", i)
		}
		deep += fmt.Sprintf("/d%d", i)
		must(t, os.MkdirAll(f.at(deep), 0o777))
		must(t, os.WriteFile(f.at(deep+"/in.csv"), fmt.Appendf(nil, "nested,%d\n", i), 0o666))
		want[deep+"/in.csv"] = -1
	}
	group.Wait()
	for i := range 12 {
		one := sheet{names(12)[i], i}
		f.put(t, fmt.Sprintf("bench/a/%d.xlsx", i), one.xlsx())
		want[fmt.Sprintf("bench/b/%d.xlsx", i)] = one.readings()
	}
	for _, to := range []string{"bench/c", "bench/a", "bench/b"} {
		from := map[string]string{"bench/c": "bench/a", "bench/a": "bench/c", "bench/b": "bench/a"}[to]
		must(t, os.Rename(f.at(from), f.at(to)))
		time.Sleep(settle)
	}
	out := tally{trials: len(want)}
	out.seconds = s.wait(t, "all files", 10*time.Minute, func(c condition) bool { return c.Files == len(want)+1 && c.Waiting == 0 }).Seconds()
	out.lost, out.short = f.account(t, want)
	out.invalid = f.invalidOutputs(t)
	out.note = fmt.Sprintf("at most %d MB", s.peak(t))
	return out
}
