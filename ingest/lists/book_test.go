package lists_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/lists"
)

// sheet makes a sheet of a drawing: one row a line, cells parted by |. A plain
// figure is a number, @2026-02-28 a date, 'text forces text, =1 a formula
// without a result, #REF! a stored error, ~x a struck-through text.
func sheet(name, drawing string) *decode.Sheet {
	s := &decode.Sheet{Name: name}
	for r, row := range strings.Split(strings.Trim(drawing, "\n"), "\n") {
		for c, text := range strings.Split(row, "|") {
			if text = strings.TrimSpace(text); text != "" {
				cell := drawn(text)
				cell.Row, cell.Col = r+1, c+1
				s.Cells = append(s.Cells, cell)
			}
		}
	}
	s.Index()
	return s
}

func drawn(text string) decode.Cell {
	cell := decode.Cell{Kind: decode.Text, Text: text, Stored: true}
	switch {
	case strings.HasPrefix(text, "'"):
		cell.Text = text[1:]
	case strings.HasPrefix(text, "~"):
		cell.Text, cell.Struck = text[1:], true
	case strings.HasPrefix(text, "="):
		cell = decode.Cell{Kind: decode.Number, Formula: text[1:]}
	case strings.HasPrefix(text, "#REF"):
		cell.Kind = decode.Failed
	case strings.HasPrefix(text, "@"):
		day, err := time.Parse(time.DateOnly, text[1:])
		if err != nil {
			panic(err)
		}
		cell.Kind, cell.Format = decode.Date, "yyyy-mm-dd"
		cell.Num = day.Sub(time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)).Hours() / 24
	default:
		if x, err := strconv.ParseFloat(text, 64); err == nil {
			cell.Kind, cell.Num = decode.Number, x
		}
	}
	return cell
}

// recognise runs all recognisers over one sheet, as a file of one sheet would.
func recognise(path string, s *decode.Sheet, shop head.Shop) (head.Records, *layout.Page) {
	page := layout.NewPage(path, &decode.Book{Format: "xlsx", Sheets: []decode.Sheet{*s}}, s)
	var out head.Records
	for _, r := range lists.Recognisers() {
		out.Append(r.Recognise(page, layout.Context{Shop: shop, Path: path}))
	}
	return out, page
}

// theShop is an invented shop that knows a few heads.
func theShop() head.Shop {
	return head.Shop{
		Found: true, Currency: "USD", Rules: head.DefaultRules(),
		Families: []head.Family{{Name: "Small Eight", HeadsPerSet: 2}, {Name: "Opposed Four", HeadsPerSet: 4}},
		Heads: []head.Listed{
			{Name: "LKC-07", Family: "Small Eight", Supplier: "Larkmoor"}, {Name: "LKC-12", Family: "Small Eight", Supplier: "Larkmoor"},
			{Name: "PW-31", Family: "Small Eight", Supplier: "Pellworth"}, {Name: "PW-33", Family: "Small Eight", Supplier: "Pellworth"},
			{Name: "VR-81", Family: "Small Eight", Supplier: "Vintner"}, {Name: "VR-84", Family: "Small Eight", Supplier: "Vintner", Also: []string{"Classic 84"}},
			{Name: "TD-22", Family: "Opposed Four", Supplier: "Tidewell"}, {Name: "TD-26", Family: "Opposed Four", Supplier: "Tidewell"},
		},
		Suppliers: []head.SupplierRule{{Name: "Larkmoor"}, {Name: "Pellworth", BuysAt: source.Say(12, source.Trace{})}, {Name: "Vintner", Cost: head.Net}, {Name: "Tidewell"},
			{Name: "Oastbridge", Basis: head.Each, Folder: "from oastbridge"}},
		Benches: []head.Bench{{Name: "Shop bench", Owner: "own", Folder: "bench"}},
	}
}

func money(m source.Stated[quantity.Money]) string {
	if !m.Known {
		return "?"
	}
	return m.Value.Amount.String() + " " + m.Value.Currency
}

func count[T int | float64](n source.Stated[T]) string {
	if !n.Known {
		return "?"
	}
	return fmt.Sprintf("%.4g", float64(n.Value))
}

func inches(l source.Stated[quantity.Length]) string {
	if !l.Known {
		return "?"
	}
	return fmt.Sprintf("%.3f", l.Value.In())
}

func day(d source.Stated[time.Time]) string {
	if !d.Known {
		return "?"
	}
	return d.Value.Format(time.DateOnly)
}

// kinds returns severity and kind of each problem, for comparison.
func kinds(ps source.Problems) []string {
	var out []string
	for _, p := range ps {
		out = append(out, p.Severity.String()+" "+p.Kind)
	}
	return out
}

func same(t *testing.T, what string, got, want []string) {
	t.Helper()
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("%s (-want +got):\n%s", what, diff)
	}
}

// accounted fails when a cell of a recognised page was left without a claim.
func accounted(t *testing.T, page *layout.Page) {
	t.Helper()
	for _, c := range page.Unclaimed() {
		t.Errorf("%s (%q) was neither used nor set aside", page.Ref(c), c.Text)
	}
}
