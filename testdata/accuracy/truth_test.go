package accuracy_test

import (
	"bufio"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
)

// cell is what is known of one cell: what a stranger who reads the sheet would
// say it is.
type cell struct {
	File  string `json:"file"`
	Sheet string `json:"sheet"` // "" for a CSV
	Cell  string `json:"cell"`
	Found string `json:"found"` // what stands there
	Want  string `json:"want"`
	Why   string `json:"why"`
	Lacks string `json:"lacks"`

	Head       string   `json:"head"`
	State      string   `json:"state"`
	Port       string   `json:"port"`
	LiftIn     *float64 `json:"lift_in"`
	CFM        *float64 `json:"cfm"` // as tested
	PressureIn *float64 `json:"pressure_in"`
	CFM28      *float64 `json:"cfm_28"`
	Series     int      `json:"series"` // the curve it belongs to, within its book
	Advertised bool     `json:"advertised"`

	// A stranger could not tell these.
	PressureAny bool `json:"pressure_any"`
	BoreAny     bool `json:"bore_any"`
	PipeAny     bool `json:"pipe_any"`

	BoreIn *float64 `json:"bore_in"`
	Pipe   string   `json:"pipe"`
	Mark   string   `json:"mark"`
	Run    string   `json:"run"`
	Entry  string   `json:"entry"`
}

// What is wanted of a cell.
const (
	wantUsed   = "used"      // a reading whose sheet states what is needed
	wantEither = "either"    // right if used rightly, right if asked or set aside
	wantFloor  = "floor"     // off the scale: at least so much
	wantAdvert = "advert"    // a claim in prose: only ever of the advertised class
	wantAsked  = "asked"     // must not be used until somebody answers
	wantAside  = "set_aside" // no reading
	wantRefuse = "refused"   // no reading: a word, an error, a zero
	wantLeak   = "leak"      // flow at zero lift: never a point of the curve
)

// book is one generated file with its cells.
type book struct {
	Kind   string   `json:"kind"`
	File   string   `json:"file"`
	Shape  string   `json:"shape"`
	Writer string   `json:"writer"`
	Lang   string   `json:"lang"`
	Lacks  []string `json:"lacks"`
	Why    string   `json:"why"`
	cells  []cell
}

// generate composes n flow sheets and some workbooks of other trades below dir.
func generate(t *testing.T, dir string, n, other, seed int) []book {
	t.Helper()
	python := findPython(t)
	cmd := exec.CommandContext(t.Context(), python, "-B", "make.py", dir,
		"--n", strconv.Itoa(n), "--other", strconv.Itoa(other), "--seed", strconv.Itoa(seed), "--shape", *onlyShape)
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("generating the sheets: %v\n%s", err, out)
	}
	if len(out) > 0 {
		t.Logf("%s", out)
	}
	return load(t, filepath.Join(dir, "truth.jsonl"))
}

// findPython returns a Python that has both writers. Without one the test is
// skipped, or fails where it must run.
func findPython(t *testing.T) string {
	t.Helper()
	for _, name := range []string{"/usr/bin/python3", "python3"} {
		if exec.CommandContext(t.Context(), name, "-c", "import openpyxl, xlsxwriter").Run() == nil {
			return name
		}
	}
	const missing = "python3 with openpyxl and xlsxwriter is not installed (Debian: python3-openpyxl python3-xlsxwriter)"
	if os.Getenv("CI") == "true" {
		t.Fatal(missing)
	}
	t.Skip(missing)
	return ""
}

func load(t *testing.T, path string) []book {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var books []book
	lines := bufio.NewScanner(f)
	lines.Buffer(nil, 1<<20)
	for lines.Scan() {
		var line struct {
			Kind string `json:"kind"` // "book", "other" or "cell"
		}
		into(t, path, lines.Bytes(), &line)
		if line.Kind != "cell" {
			var b book
			into(t, path, lines.Bytes(), &b)
			books = append(books, b)
			continue
		}
		var c cell
		into(t, path, lines.Bytes(), &c)
		last := &books[len(books)-1]
		last.cells = append(last.cells, c)
	}
	if err := lines.Err(); err != nil {
		t.Fatal(err)
	}
	return books
}

func into(t *testing.T, path string, line []byte, v any) {
	t.Helper()
	if err := json.Unmarshal(line, v); err != nil {
		t.Fatalf("%s: %v", path, err)
	}
}
