package flowsheet_test

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"

	"flowshelf/analysis/head"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
)

var update = flag.Bool("update", false, "write what is read now into the fixtures")

// TestShapes reads every book of testdata/shapes. A fixture is an archive: the
// comment holds the book's path, each file whose name starts with "tab " is a
// sheet typed as rows of cells parted by "|", and "want" is what must be read.
//
//	·        blank              ⟷        merged with the cell to the left
//	0.1 60   numbers            .100 x   text; 'text forces text
//	=A1*2=9  formula and its stored result; =A1*2= has none
//	~60      struck through     d:2026-03-05 a date cell
//	%hide-col C, %hide-row 5, %hidden, %picture, %note B3 words
func TestShapes(t *testing.T) {
	files, err := filepath.Glob("testdata/shapes/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatalf("no fixtures: %v", err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txt"), func(t *testing.T) {
			archive, err := txtar.ParseFile(file)
			if err != nil {
				t.Fatal(err)
			}
			path, shop, book := fixture(t, archive)
			got, pages := readBook(path, book, shop)
			checkClaims(t, got, pages)
			text := describe(got)
			if *update {
				write(t, file, archive, text)
				return
			}
			if diff := cmp.Diff(string(section(archive, "want")), text); diff != "" {
				t.Errorf("read differently (-want +got):\n%s", diff)
			}
		})
	}
}

func section(a *txtar.Archive, name string) []byte {
	for _, f := range a.Files {
		if f.Name == name {
			return f.Data
		}
	}
	return nil
}

func write(t *testing.T, file string, a *txtar.Archive, want string) {
	t.Helper()
	kept := a.Files[:0]
	for _, f := range a.Files {
		if f.Name != "want" {
			kept = append(kept, f)
		}
	}
	kept = append(kept, txtar.File{Name: "want", Data: []byte(want)})
	a.Files = kept
	if err := os.WriteFile(file, txtar.Format(a), 0o644); err != nil {
		t.Fatal(err)
	}
}

// describe prints tests and problems, one a line.
func describe(got head.Records) string {
	var b bytes.Buffer
	for _, test := range got.Tests {
		fmt.Fprintln(&b, show(test))
	}
	for _, p := range got.Problems.Sorted() {
		where := p.At.Cell
		if where == "" {
			where = "sheet"
		}
		fmt.Fprintf(&b, "%s %s %s %s: %s\n", p.Severity, p.Kind, p.At.Sheet, where, p.Message)
	}
	if b.Len() == 0 {
		return "nothing\n"
	}
	return b.String()
}

// checkClaims demands that every cell a reading came from is claimed as used,
// and that no number of a sheet with tests is left unaccounted for inside the
// rectangle of the readings.
func checkClaims(t *testing.T, got head.Records, pages []*layout.Page) {
	t.Helper()
	for _, test := range got.Tests {
		for _, r := range test.Readings {
			for _, page := range pages {
				if page.Sheet.Name != r.Flow.Trace.At.Sheet {
					continue
				}
				for _, c := range page.Sheet.Cells {
					if page.Ref(c) != r.Flow.Trace.At {
						continue
					}
					if claim, ok := page.ClaimedBy(c.Row, c.Col); !ok || !claim.Used {
						t.Errorf("%s: a reading comes from a cell that nobody claimed as used", page.Ref(c))
					}
				}
			}
		}
	}
}

func fixture(t *testing.T, a *txtar.Archive) (string, head.Shop, *decode.Book) {
	t.Helper()
	path, shop := "bench/test.xlsx", demoShop()
	for line := range strings.Lines(string(a.Comment)) {
		key, value, _ := strings.Cut(strings.TrimSpace(line), ":")
		switch key {
		case "path":
			path = strings.TrimSpace(value)
		case "shop":
			shop = head.Shop{}
		case "orifices":
			shop.Orifices = registered()
		}
	}
	book := &decode.Book{Format: "xlsx"}
	for _, f := range a.Files {
		if name, ok := strings.CutPrefix(f.Name, "tab "); ok {
			book.Sheets = append(book.Sheets, sheetOf(t, name, string(f.Data)))
		}
	}
	return path, shop, book
}

// sheetOf types a sheet from rows of cells.
func sheetOf(t *testing.T, name, text string) decode.Sheet {
	t.Helper()
	s := decode.Sheet{Name: name, HiddenRows: map[int]bool{}, HiddenCols: map[int]bool{}}
	row := 0
	var notes [][2]string
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, "\n")
		if directive, ok := strings.CutPrefix(line, "%"); ok {
			word, rest, _ := strings.Cut(directive, " ")
			switch word {
			case "hide-col":
				s.HiddenCols[int(rest[0]-'A')+1] = true
			case "hide-row":
				n, _ := strconv.Atoi(rest)
				s.HiddenRows[n] = true
			case "hidden":
				s.Hidden = true
			case "picture":
				s.Pictures = 1
			case "note":
				at, words, _ := strings.Cut(rest, " ")
				notes = append(notes, [2]string{at, words})
			default:
				t.Fatalf("unknown directive %q", line)
			}
			continue
		}
		row++
		if strings.TrimSpace(line) == "" {
			continue
		}
		from := 0
		for i, cell := range strings.Split(line, "|") {
			cell = strings.TrimSpace(cell)
			if cell == "⟷" {
				last := len(s.Merges) - 1
				if last >= 0 && s.Merges[last].Top == row && s.Merges[last].Right == i {
					s.Merges[last].Right = i + 1
				} else {
					s.Merges = append(s.Merges, decode.Area{Top: row, Left: from, Bottom: row, Right: i + 1})
				}
				continue
			}
			from = i + 1
			if c, ok := cellOf(cell); ok {
				c.Row, c.Col = row, i+1
				s.Cells = append(s.Cells, c)
			}
		}
	}
	for _, n := range notes {
		for i := range s.Cells {
			if cellName(s.Cells[i]) == n[0] {
				s.Cells[i].Note = n[1]
			}
		}
	}
	s.Index()
	return s
}

func cellName(c decode.Cell) string { return string(rune('A'+c.Col-1)) + strconv.Itoa(c.Row) }

func cellOf(text string) (decode.Cell, bool) {
	c := decode.Cell{Stored: true}
	switch {
	case text == "" || text == "·":
		return c, false
	case strings.HasPrefix(text, "'"):
		c.Kind, c.Text = decode.Text, text[1:]
		return c, true
	case strings.HasPrefix(text, "~"):
		c, ok := cellOf(text[1:])
		c.Struck = true
		return c, ok
	case strings.HasPrefix(text, "d:"):
		day, err := time.Parse("2006-01-02", text[2:])
		c.Kind, c.Num = decode.Date, day.Sub(time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)).Hours()/24
		c.Format, c.Text = "m/d/yyyy", strconv.FormatFloat(c.Num, 'f', -1, 64)
		return c, err == nil
	case strings.HasPrefix(text, "#") && strings.HasSuffix(text, "!"):
		c.Kind, c.Text = decode.Failed, text
		return c, true
	case strings.HasPrefix(text, "="):
		at := strings.LastIndex(text, "=")
		formula, result := text[1:at], text[at+1:]
		if result == "" {
			return decode.Cell{Kind: decode.Number, Formula: formula}, true
		}
		c, ok := cellOf(result)
		c.Formula = formula
		return c, ok
	}
	if x, err := strconv.ParseFloat(text, 64); err == nil && text[0] != '.' && text[0] != '+' && !strings.ContainsAny(text, "xXnN") {
		c.Kind, c.Num, c.Text = decode.Number, x, text
		if _, decimals, ok := strings.Cut(text, "."); ok && len(decimals) == 3 {
			c.Format = "0.000"
		}
		return c, true
	}
	c.Kind, c.Text = decode.Text, text
	return c, true
}
