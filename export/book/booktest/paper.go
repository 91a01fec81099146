package booktest

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// Page is one printed page.
type Page struct {
	Sheet string // by its footer
	Size  string // in points, as "612 x 792"
	Text  string
}

// PrintAll prints workbooks of a folder, all in one run of LibreOffice, and
// returns their pages in order, by file name.
func PrintAll(t *testing.T, files []string) map[string][]Page {
	t.Helper()
	soffice := Need(t, "soffice", "libreoffice-calc")
	pdftotext, pdfinfo := Need(t, "pdftotext", "poppler-utils"), Need(t, "pdfinfo", "poppler-utils")
	dir := t.TempDir()
	args := append([]string{"-env:UserInstallation=file://" + filepath.Join(dir, "profile"), "--headless", "--convert-to", "pdf", "--outdir", dir}, files...)
	if said, err := exec.Command(soffice, args...).CombinedOutput(); err != nil {
		t.Fatalf("LibreOffice: %v\n%s", err, said)
	}
	out := make(map[string][]Page, len(files))
	for _, file := range files {
		pdf := filepath.Join(dir, strings.TrimSuffix(filepath.Base(file), filepath.Ext(file))+".pdf")
		text, err := exec.Command(pdftotext, "-layout", pdf, "-").Output()
		must(t, err)
		sizes, err := exec.Command(pdfinfo, "-f", "1", "-l", "999", pdf).Output()
		must(t, err)
		size := pageSize.FindAllStringSubmatch(string(sizes), -1)
		for i, page := range strings.Split(strings.TrimSuffix(string(text), "\f"), "\f") {
			p := Page{Text: page}
			if m := footer.FindStringSubmatch(page); m != nil {
				words := gap.Split(m[1], -1)
				p.Sheet = words[len(words)-1]
			}
			if i < len(size) {
				p.Size = size[i][1]
			}
			out[file] = append(out[file], p)
		}
		must(t, os.Remove(pdf))
	}
	return out
}

var (
	footer   = regexp.MustCompile(`(?m) {2,}(\S[^\n]*?), page \d+ of \d+ *$`)
	gap      = regexp.MustCompile(` {2,}`)
	pageSize = regexp.MustCompile(`(?m)^Page +\d+ size: +([\d.]+ x [\d.]+) pts`)
)
