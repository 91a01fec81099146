package accuracy_test

import (
	"bytes"
	"encoding/csv"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"testing"

	"flowshelf/analysis/source"
	"flowshelf/ingest"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
)

// The words by which this test knows a flow sheet; they are its own, not the reader's
// (common practice, no source).
var (
	wordOfLift = regexp.MustCompile(`(?i)(?:^|[^\pL])(?:valve lift|lift|ventilhub|hub|lev[ée]e|alzata|alzada)(?:$|[^\pL])`)
	wordOfFlow = regexp.MustCompile(`(?i)(?:^|[^\pL])(?:cfm|l/s|m[3³]/h|intake|exhaust|inlet|einlass|auslass|admission|[ée]chappement|aspirazione|scarico|admisi[óo]n|escape)(?:$|[^\pL\d])`)
	aNumber    = regexp.MustCompile(`^[.,]?\d`)
)

// TestNothingIsPassedOver holds that whatever becomes of a flow sheet, as long as it
// is one by its words and holds figures, something is read from it or something is
// said of it: each generated sheet as it stands, and with rows and columns lost,
// exchanged, emptied or written over.
func TestNothingIsPassedOver(t *testing.T) {
	dir := t.TempDir()
	random := rand.New(rand.NewPCG(uint64(*seed), 1))
	flows := 0
	for _, b := range generate(t, dir, min(*sheets, 120), 0, *seed) {
		content, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(b.File)))
		if err != nil {
			t.Fatal(err)
		}
		book, err := decode.Open(t.Context(), b.File, content, decode.Defaults())
		if err != nil {
			continue
		}
		for i := range book.Sheets {
			whole := rowsOf(&book.Sheets[i])
			for n := range 8 {
				rows := whole
				for range n {
					rows = worse(rows, random)
				}
				if !isFlowSheet(rows) {
					continue
				}
				flows++
				if text := asCSV(t, rows); !said(t, text) {
					t.Errorf("%s, after %d changes: nothing is read and nothing said of\n%s", b.File, n, text)
				}
			}
		}
	}
	if flows < min(*sheets, 120) {
		t.Errorf("only %d flow sheets were tried", flows)
	}
}

func said(t *testing.T, text []byte) bool {
	t.Helper()
	const name = "bench/x.csv"
	got := ingest.ReadFile(t.Context(), name, text, layout.Context{Shop: shop(), Path: name}, decode.Defaults())
	return len(got.Records.Tests) > 0 || got.State == ingest.Refused ||
		slices.ContainsFunc(got.Records.Problems, func(p source.Problem) bool { return p.Severity > source.Noted })
}

func rowsOf(s *decode.Sheet) [][]string {
	out := make([][]string, s.Rows())
	for i := range out {
		out[i] = make([]string, s.Cols())
		for _, c := range s.Row(i + 1) {
			out[i][c.Col-1] = c.Text
		}
	}
	return out
}

func isFlowSheet(rows [][]string) bool {
	lift, flow, figures := false, false, 0
	for _, text := range slices.Concat(rows...) {
		lift, flow = lift || wordOfLift.MatchString(text), flow || wordOfFlow.MatchString(text)
		if aNumber.MatchString(text) {
			figures++
		}
	}
	return lift && flow && figures >= 6
}

// worse changes one thing about a sheet.
func worse(rows [][]string, random *rand.Rand) [][]string {
	out := make([][]string, len(rows))
	for i := range rows {
		out[i] = slices.Clone(rows[i])
	}
	if len(out) < 2 || len(out[0]) < 2 {
		return out
	}
	row, col := random.IntN(len(out)), random.IntN(len(out[0]))
	switch random.IntN(6) {
	case 0:
		out = slices.Delete(out, row, row+1)
	case 1:
		for i := range out {
			out[i] = slices.Delete(out[i], col, col+1)
		}
	case 2:
		other := random.IntN(len(out))
		out[row], out[other] = out[other], out[row]
	case 3:
		for i := range out {
			if aNumber.MatchString(out[i][col]) {
				out[i][col] = ""
			}
		}
	case 4:
		for i := range out {
			if out[i][col] != "" && !aNumber.MatchString(out[i][col]) {
				out[i][col] = "Quarm"
			}
		}
	default:
		for i := range out[row] {
			if aNumber.MatchString(out[row][i]) {
				out[row][i] = []string{"7", "x", "0", "1,250"}[random.IntN(4)]
			}
		}
	}
	return out
}

func asCSV(t *testing.T, rows [][]string) []byte {
	t.Helper()
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	w.Comma = ';'
	if err := w.WriteAll(rows); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}
