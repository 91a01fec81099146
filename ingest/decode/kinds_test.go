package decode_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"flowshelf/ingest/decode"
)

// TestEveryKind lets LibreOffice save one workbook as every kind of file that is
// read, under the wrong extension too: all hold the same grid. A web page that it
// writes is refused.
func TestEveryKind(t *testing.T) {
	needProgram(t, "soffice")
	const base = "openpyxl.xlsx"
	dir := t.TempDir()
	source := filepath.Join(dir, "in", "book.xlsx")
	if err := os.MkdirAll(filepath.Dir(source), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(source, fixture(t, base), 0o600); err != nil {
		t.Fatal(err)
	}
	saved := func(as string) []byte {
		t.Helper()
		out := filepath.Join(dir, "out")
		kind := exec.Command("soffice", "-env:UserInstallation=file://"+filepath.Join(dir, "profile"), "--headless",
			"--convert-to", as, "--outdir", out, source)
		if said, err := kind.CombinedOutput(); err != nil {
			t.Fatalf("%s: %v\n%s", as, err, said)
		}
		files, err := filepath.Glob(filepath.Join(out, "book.*"))
		if err != nil || len(files) != 1 {
			t.Fatalf("%s: %v, %v", as, files, err)
		}
		content, err := os.ReadFile(files[0])
		if err != nil {
			t.Fatal(err)
		}
		if err := os.Remove(files[0]); err != nil {
			t.Fatal(err)
		}
		return content
	}
	want := mustDecode(t, saved("xlsx"))
	for format, as := range map[string]string{
		"xltx": "xltx:Calc MS Excel 2007 XML Template", "xlsm": "xlsm:Calc MS Excel 2007 VBA XML", "ods": "ods", "xls": "xls",
	} {
		t.Run(format, func(t *testing.T) {
			book := mustDecode(t, saved(as))
			if book.Format != format {
				t.Errorf("read as %s", book.Format)
			}
			expected := *want
			if format == "xls" {
				expected = *mustDecode(t, saved("xlsx"))
				likeOldFormat(t, &expected, book)
			}
			if diff := cmp.Diff(comparableSheets(&expected), comparableSheets(book), sameGrid); diff != "" {
				t.Errorf("(-xlsx +%s):\n%s", format, diff)
			}
		})
	}
	// The numbers stand for the delimiter, the quote and the character set.
	for name, filter := range map[string]string{
		"comma, UTF-8": "44,34,76", "semicolon, Windows-1252": "59,34,1", "tab, UTF-16": "9,34,65535",
	} {
		t.Run(name, func(t *testing.T) {
			text := mustDecode(t, saved("csv:Text - txt - csv (StarCalc):"+filter))
			sameTexts(t, &want.Sheets[0], &text.Sheets[0])
		})
	}
	t.Run("html", func(t *testing.T) {
		if r := refusal(t, saved("html"), decode.Defaults()); r.Kind != decode.OldFormat {
			t.Errorf("refused as %s", r.Kind)
		}
	})
}

// sameTexts compares the cells whose text looks the same in a text file.
func sameTexts(t *testing.T, want, got *decode.Sheet) {
	t.Helper()
	compared := 0
	for _, c := range want.Cells {
		if c.Kind != decode.Text {
			continue
		}
		compared++
		if at := got.At(c.Row, c.Col); at.Text != c.Text {
			t.Errorf("row %d, column %d holds %q, want %q", c.Row, c.Col, at.Text, c.Text)
		}
	}
	if compared == 0 {
		t.Error("nothing was compared")
	}
}
