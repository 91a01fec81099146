package customer_test

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/enquiry"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/export/book"
	"flowshelf/export/book/booktest"
	"flowshelf/export/customer"
	"flowshelf/ingest/ingesttest"
)

var march = time.Date(2026, time.March, 16, 0, 0, 0, 0, time.UTC)

// parts unzips a workbook.
func parts(t *testing.T, workbook []byte) map[string]string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(workbook), int64(len(workbook)))
	if err != nil {
		t.Fatal(err)
	}
	out := make(map[string]string)
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		raw, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		out[f.Name] = string(raw)
	}
	return out
}

// TestNothingOfTheShopsOwn unzips every customer's sheet and looks in every part
// for suppliers, costs and margins, and for anything hidden.
func TestNothingOfTheShopsOwn(t *testing.T) {
	records, shop := ingesttest.Demo(t)
	for i := range records.Extras { // somebody names the maker in an item
		if records.Extras[i].Head == "VR-81" {
			records.Extras[i].Item += " by VINTNER"
		}
	}
	for i := range records.Enquiries { // so that every head is shown somewhere
		records.Enquiries[i].Name = "Somebody's secret"
	}
	records.Enquiries = append(records.Enquiries, head.Enquiry{Name: "all", Family: "Small Eight"})
	secrets := []string{"Somebody"}
	for _, s := range shop.Suppliers {
		secrets = append(secrets, s.Name)
	}
	costs := make(map[string][]string)
	for _, h := range compare.Shelf(records, shop, march) {
		if landed, net := h.Cost.Landed, h.Cost.Net; landed.Known && net.Known {
			a := landed.Value.Times(h.Family.HeadsPerSet).Amount
			costs[h.Listed.Name] = []string{a.String(), a.StringFixed(0), net.Value.Amount.String(), landed.Value.Amount.String(),
				h.Cost.Sell.Value.Amount.Sub(a).String()}
		}
	}
	for i, a := range enquiry.All(records, shop, march) {
		sheet, ok := a.Customer()
		if !ok {
			t.Fatalf("enquiry %d: nothing to show", i+1)
		}
		out, err := customer.Write(sheet, fmt.Sprint(i+1))
		if err != nil {
			t.Fatal(err)
		}
		for name, text := range parts(t, out) {
			for _, s := range secrets {
				if strings.Contains(strings.ToLower(text), strings.ToLower(s)) {
					t.Errorf("enquiry %d: %s holds %q", i+1, name, s)
				}
			}
			for _, s := range []string{"margin", "markup", "landed", "a cfm"} { // elements and namespaces have such names too
				if strings.Contains(strings.ToLower(values(text)), s) {
					t.Errorf("enquiry %d: %s speaks of %q", i+1, name, s)
				}
			}
			for _, h := range a.Offers {
				for _, cost := range costs[h.Head] {
					if regexp.MustCompile(`(^|[^0-9.])`+regexp.QuoteMeta(cost)+`([^0-9.]|\.0|$)`).MatchString(values(text)) && name != "xl/styles.xml" {
						t.Errorf("enquiry %d: %s holds %s, which is a cost of %s", i+1, name, cost, h.Head)
					}
				}
			}
			for _, hidden := range []string{`hidden="1"`, `state="hidden"`, `state="veryHidden"`} {
				if strings.Contains(text, hidden) {
					t.Errorf("enquiry %d: %s hides something", i+1, name)
				}
			}
			if strings.HasPrefix(name, "xl/comments") || strings.HasPrefix(name, "xl/externalLinks") {
				t.Errorf("enquiry %d: holds %s", i+1, name)
			}
		}
		if core := parts(t, out)["docProps/core.xml"]; !strings.Contains(core, "Saltmarsh") {
			t.Errorf("the properties do not name the shop: %s", core)
		}
	}
}

// values are the numbers and texts of a part, without its markup.
func values(part string) string { return regexp.MustCompile(`<[^>]*>`).ReplaceAllString(part, "\n") }

// TestPage prints every sheet on one page and looks for what a customer needs.
func TestPage(t *testing.T) {
	records, shop := ingesttest.Demo(t)
	for i, a := range enquiry.All(records, shop, march) {
		sheet, ok := a.Customer()
		if !ok {
			t.Fatalf("enquiry %d: nothing to show", i+1)
		}
		out, err := customer.Write(sheet, fmt.Sprint(i+1))
		if err != nil {
			t.Fatal(err)
		}
		if dir := os.Getenv("SCRATCH_DEMO"); dir != "" {
			if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("customer %d.xlsx", i+1)), out, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if i > 0 && testing.Short() {
			break
		}
		paper := booktest.Print(t, out)
		if paper.Pages["Heads"] != 1 {
			t.Errorf("enquiry %d prints on %d pages", i+1, paper.Pages["Heads"])
		}
		for _, words := range []string{"Saltmarsh Head & Machine", "2026-03-16", "valid until 2026-04-15", "All-in", ".550", "valve-to-piston", "tested on our own bench"} {
			if !strings.Contains(paper.Text, words) {
				t.Errorf("enquiry %d does not say %q:\n%s", i+1, words, paper.Text)
			}
		}
		if strings.Contains(paper.Text, "###") {
			t.Errorf("enquiry %d: a figure does not fit", i+1)
		}
	}
}

// TestNothingToOffer has no page where no head meets the enquiry.
func TestNothingToOffer(t *testing.T) {
	records, shop := ingesttest.Demo(t)
	e := records.Enquiries[0]
	e.RPM.Value = 20000
	a := enquiry.One(records, shop, e, march)
	if _, ok := a.Customer(); ok || a.None == "" {
		t.Errorf("a page for an engine that no head suits: %q", a.None)
	}
}

// TestWhatSpeaksAgainstAHeadIsShown writes a sheet with a head beyond the budget,
// and one with none.
func TestWhatSpeaksAgainstAHeadIsShown(t *testing.T) {
	records, shop := ingesttest.Demo(t)
	for budget, shown := range map[float64]bool{1100: true, 9000: false} {
		e := records.Enquiries[0]
		e.Musts, e.Budget.Value = nil, quantity.Dollars(budget)
		a := enquiry.One(records, shop, e, march)
		sheet, ok := a.Customer()
		if !ok {
			t.Fatal("nothing is offered")
		}
		out, err := customer.Write(sheet, "1")
		if err != nil {
			t.Fatal(err)
		}
		cells, err := book.Cells(out)
		if err != nil {
			t.Fatal(err)
		}
		said := false
		for _, c := range cells {
			said = said || strings.Contains(c.Value, "$149 more than the $1,100 you named")
		}
		if said != shown {
			t.Errorf("a budget of $%.0f: said %v, want %v", budget, said, shown)
		}
	}
}

// TestHisOwnUnitsFirst writes the demo's sheet for the one who asks in millimetres
// (96 x 80 mm, 11 mm), and one for heads of which nothing is said in words.
func TestHisOwnUnitsFirst(t *testing.T) {
	records, shop := ingesttest.Demo(t)
	for i := range records.Dimensions {
		d := &records.Dimensions[i]
		d.Material, d.Process = "", ""
	}
	words := map[bool]int{}
	for i, e := range records.Enquiries {
		a := enquiry.One(records, shop, e, march)
		sheet, ok := a.Customer()
		if !ok {
			t.Fatalf("nothing is offered to %s", e.Name)
		}
		sheet.Heads = sheet.Heads[:1]
		sheet.Heads[0].What = ""
		out, err := customer.Write(sheet, fmt.Sprint(i))
		if err != nil {
			t.Fatal(err)
		}
		cells, err := book.Cells(out)
		if err != nil {
			t.Fatal(err)
		}
		metric := e.Bore.Trace.Foreign() == "mm"
		for _, c := range cells {
			if c.Value == "What it is" {
				t.Errorf("%s: a label with nothing beside it", e.Name)
			}
			if strings.HasPrefix(c.Value, "For: ") {
				words[metric]++
				if strings.HasPrefix(c.Value, "For: 96 x 80 mm (3.780 x 3.150), ") != metric || strings.Contains(c.Value, "11 mm (.433) at the valve") != metric {
					t.Errorf("%s: %q", e.Name, c.Value)
				}
			}
		}
	}
	if words[true] != 1 || words[false] != 3 {
		t.Errorf("%v sheets by metric, want 1 and 3", words)
	}
}
