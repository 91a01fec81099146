package main

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// The demo's figures, worked out apart from this project with scipy's
// PchipInterpolator (whose slopes are those of Fritsch and Butland, SIAM J.
// Sci. Stat. Comput. 5 (1984) 300-304) over the invented readings. They are
// compared with what stands in the written workbooks, so that reading,
// calculating and writing are all held to them.
type figures struct {
	head                                  string
	place                                 float64
	usable, working, midMean, midArea     float64
	peak                                  float64
	verdict                               string
	mid, stall, top, shape                float64
	perCFM, perExtra, value               float64 // perExtra NaN for the base head
	valueU, bestFrom, bestTo, tie, airFtS float64 // NaN where there is none
}

// The tolerances asked of the figures.
const (
	tolDollars  = 3.0
	tolAverage  = 0.1
	tolPeak     = 0.1
	tolArea     = 0.02
	tolPoints   = 0.2
	tolPerCFM   = 0.01
	tolPerExtra = 0.05
	tolU        = 0.5
	tolAir      = 1.0
)

var none = math.NaN()

var smallEight = []figures{
	{"LKC-12", 1, 1249, 211.96, 225.23, 45.05, 250.3, "levels off from .550", 65.2, 94.0, 54.8, 71.8, 5.89, 11.16, 4050, 41.7, 12.46, 56.22, none, 594},
	{"VR-84 + valve job", 2, 1259, 203.64, 216.71, 43.34, 236.0, "still climbing, flattening", 56.7, 100, 41.8, 66.7, 6.18, 15.29, 3832, 53.5, none, none, 781, 588},
	{"PW-33", 2, 1399, 207.95, 222.61, 44.52, 264.0, "backs up from .500 (-7)", 62.6, 64.3, 67.3, 64.0, 6.73, 17.84, 3800, 56.4, none, none, 1149, 475},
	{"VR-84 as delivered", 2, 999, 191.89, 206.94, 41.39, 226.0, "dips at .550 and recovers", 46.9, 64.3, 32.7, 49.3, 5.21, 9.17, 3798, 50.9, 9.17, 12.46, 747, 588},
	{"VR-84 + valve job + blend", 2, 1579, 211.95, 224.74, 44.95, 251.5, "levels off from .550", 64.7, 94.0, 56.0, 71.8, 7.45, 21.12, 3720, 56.0, none, none, 669, 588},
	{"LKC-07", 6, 879, 178.80, 189.78, 37.96, 205.0, "levels off from .500", 29.8, 64.3, 13.6, 36.9, 4.92, none, 3591, 34.7, 0, 9.17, none, 662},
	{"PW-31", 6, 1359, 197.39, 209.59, 41.92, 240.6, "levels off from .550", 49.6, 94.0, 46.0, 62.2, 6.88, 25.81, 3576, 52.6, none, none, 675, 566},
	{"OB-4", 8, 2349, 231.52, 246.10, 49.22, 283.0, "still climbing, flattening", 86.1, 100, 84.5, 90.0, 10.15, 27.88, 3439, 46.3, 56.22, none, 1738, 551},
	{"VR-81", 9, 2189, 216.17, 229.60, 45.92, 263.8, "still climbing, flattening", 69.6, 100, 67.1, 78.2, 10.13, 35.06, 3215, 57.7, none, none, 344, 577},
}

var largeEight = []figures{
	{"VR-49", 1, 2640, 277.64, 299.6, none, 343.0, "levels off from .700", none, none, none, 73.5, 9.51, 25.05, 8466, none, none, none, none, none},
	{"LKC-41", 2, 1319, 224.90, 243.09, none, 266.0, "levels off from .600", none, none, none, 31.3, 5.86, none, 7677, none, none, none, none, none},
	{"OB-44", 3, 4390, 290.60, 313.96, none, 361.0, "levels off from .700", none, none, none, 80.4, 15.11, 46.74, 7234, none, none, none, none, none},
}

var opposedFour = []figures{
	{"LKC-90", 1, 949, 115.11, 123.20, none, none, "", none, none, none, 63.7, 8.24, none, none, none, none, none, none, none},
	{"TD-26", 0, 1395, 125.12, 136.05, none, none, "", none, none, none, 65.7, 11.15, none, none, none, none, none, none, none},
	{"TD-22", 0, 1149, 118.70, 127.49, none, none, "", none, none, none, 67.7, 9.68, none, none, none, none, none, none, none},
}

func TestDemoFigures(t *testing.T) {
	folder := demoFolder(t)
	var stdout, stderr bytes.Buffer
	if code := execute([]string{"run", folder, "--date", "2026-03-16"}, &stdout, &stderr); code != exitQuestions {
		t.Fatalf("run ended with %d, want %d\n%s%s", code, exitQuestions, stdout.String(), stderr.String())
	}
	for family, want := range map[string][]figures{
		"Small Eight": smallEight, "Large Eight": largeEight, "Opposed Four": opposedFour,
	} {
		t.Run(family, func(t *testing.T) {
			book := openBook(t, filepath.Join(folder, "Ranked", "Heads ranked - "+family+".xlsx"))
			ranking := rowsByHead(t, book, "Ranking", "Head")
			shape := rowsByHead(t, book, "Shape", "Head and state")
			value := rowsByHead(t, book, "Value", "Head and state")
			for _, f := range want {
				compareFigures(t, f, ranking[f.head], shape[f.head], value[f.head])
			}
		})
	}
}

func compareFigures(t *testing.T, f figures, ranking, shape, value row) {
	t.Helper()
	if ranking == nil {
		t.Errorf("%s does not stand on Ranking", f.head)
		return
	}
	if got := ranking.text("The curve"); f.verdict != "" && got != f.verdict {
		t.Errorf("%s: the curve %q, want %q", f.head, got, f.verdict)
	}
	for _, c := range []struct {
		from      row
		column    string
		want, tol float64
	}{
		{ranking, "Place", f.place, 0},
		{ranking, "Usable cost", f.usable, tolDollars},
		{ranking, "Working avg intake", f.working, tolAverage},
		{ranking, "Peak in range", f.peak, tolPeak},
		{ranking, "of it mid-lift", f.mid, tolPoints},
		{ranking, "of it stall", f.stall, tolPoints},
		{ranking, "of it peak", f.top, tolPoints},
		{ranking, "Shape score", f.shape, tolPoints},
		{ranking, "Cost per cfm", f.perCFM, tolPerCFM},
		{ranking, "Cost per extra cfm", f.perExtra, tolPerExtra},
		{ranking, "Value at the worth", f.value, tolDollars},
		{ranking, "Best buy while a cfm is worth", f.bestFrom, tolPerExtra},
		{ranking, "up to", f.bestTo, tolPerExtra},
		{ranking, "Sell price that ties the leader", f.tie, tolDollars},
		{ranking, "Air speed, ft/s", f.airFtS, tolAir},
		{shape, "Mid-lift average", f.midMean, tolAverage},
		{shape, "Mid-lift area", f.midArea, tolArea},
		{value, "± value", f.valueU, tolU},
	} {
		if math.IsNaN(c.want) || c.column == "Place" && c.want == 0 {
			continue
		}
		if got := c.from.number(t, c.column); math.Abs(got-c.want) > c.tol+1e-9 {
			t.Errorf("%s: %s is %v, want %v within %v", f.head, c.column, got, c.want, c.tol)
		}
	}
}

// row is one row of a written table by the words of its header.
type row map[string]string

// text returns the cell whose header begins with the words.
func (r row) text(column string) string {
	if v, ok := r[column]; ok {
		return v
	}
	for header, v := range r {
		if strings.HasPrefix(header, column) {
			return v
		}
	}
	return ""
}

func (r row) number(t *testing.T, column string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(r.text(column), 64)
	if err != nil {
		t.Errorf("column %q holds %q, not a number", column, r.text(column))
	}
	return v
}

// rowsByHead reads the table whose header row begins with or holds the key
// column; a head's first row stands, which on Shape is its intake.
func rowsByHead(t *testing.T, book *excelize.File, sheet, key string) map[string]row {
	t.Helper()
	lines, err := book.GetRows(sheet, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	var header []string
	out := make(map[string]row)
	for _, line := range lines {
		at := -1
		for i, v := range line {
			if v == key {
				at = i
			}
		}
		switch {
		case at >= 0:
			header = line
		case header != nil:
			r := make(row)
			for i, v := range line {
				if i < len(header) && header[i] != "" {
					r[header[i]] = v
				}
			}
			if head := r[key]; head != "" && out[head] == nil {
				out[head] = r
			}
		}
	}
	return out
}

func openBook(t *testing.T, path string) *excelize.File {
	t.Helper()
	book, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := book.Close(); err != nil {
			t.Error(err)
		}
	})
	return book
}

// demoFolder copies the demo, which must stay as it is, to a place of its own.
func demoFolder(t *testing.T) string {
	t.Helper()
	folder := t.TempDir()
	if err := os.CopyFS(folder, os.DirFS(filepath.Join("..", "..", "testdata", "demo"))); err != nil {
		t.Fatal(err)
	}
	return folder
}
