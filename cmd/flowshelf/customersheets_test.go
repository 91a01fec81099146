package main

import (
	"archive/zip"
	"io"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// TestCustomersSheetsHoldNothingOfOurs opens every customer's sheet that the
// demo's folder gets, unzips it, and looks in every part, the properties
// included, for suppliers, costs and margins, and for anything hidden.
func TestCustomersSheetsHoldNothingOfOurs(t *testing.T) {
	folder := demoFolder(t)
	runOn(t, folder, demoDay)
	secrets := []string{"margin", "markup", "landed", "worth of a cfm", "per cfm"}
	setup := openBook(t, filepath.Join(folder, "Shop setup.xlsx"))
	suppliers, err := setup.GetRows("Suppliers")
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range suppliers[4:] {
		if len(row) > 0 && row[0] != "" && row[0] != "Supplier" {
			secrets = append(secrets, strings.ToLower(row[0]))
		}
	}
	const demoSuppliers = 5
	if n := len(secrets); n < 5+demoSuppliers {
		t.Fatalf("only %d secrets to look for: %v", n, secrets)
	}
	costs := costsOf(t, folder)
	sheets, err := filepath.Glob(filepath.Join(folder, "Ranked", "For customers", "*.xlsx"))
	if err != nil || len(sheets) != 4 { // the demo has four enquiries, and each can be answered
		t.Fatalf("%d customers' sheets: %v", len(sheets), err)
	}
	for _, sheet := range sheets {
		for name, text := range partsOf(t, sheet) {
			at := filepath.Base(sheet) + ", " + name
			for _, s := range secrets {
				if said := strings.ToLower(taken(text)); strings.Contains(said, s) {
					t.Errorf("%s speaks of %q", at, s)
				}
			}
			for what, cost := range costs {
				if strings.Contains(text, "<v>"+cost+"</v>") || strings.Contains(text, ">"+cost+"<") {
					t.Errorf("%s holds %s, the %s", at, cost, what)
				}
			}
			if m := hiding.FindString(text); m != "" {
				t.Errorf("%s hides something: %s", at, m)
			}
			if strange := regexp.MustCompile(`comment|vml|externalLink|embed|vba|customXml|connections|pivot`).FindString(strings.ToLower(name)); strange != "" {
				t.Errorf("%s is a part that no customer's sheet needs", at)
			}
		}
	}
}

// hiding is how a part hides a sheet, a row, a column or a name.
var hiding = regexp.MustCompile(`(?i)\bhidden="(1|true)"|state="(hidden|veryHidden)"|\bheight="0"|\bwidth="0"|numFmt[^>]*formatCode=";;;"`)

// taken is what a part says: the values of its elements and attributes, without
// the addresses of namespaces and the names of elements, which speak of margins
// too.
func taken(part string) string {
	part = regexp.MustCompile(`</?[\w:]+|xmlns[:\w]*="[^"]*"|[\w:]+=`).ReplaceAllString(part, " ")
	return regexp.MustCompile(`(?i)page ?margins?`).ReplaceAllString(part, " ")
}

func partsOf(t *testing.T, path string) map[string]string {
	t.Helper()
	z, err := zip.OpenReader(path)
	if err != nil {
		t.Fatal(err)
	}
	defer z.Close()
	out := make(map[string]string)
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		content, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		out[f.Name] = string(content)
	}
	for _, want := range []string{"docProps/core.xml", "docProps/app.xml", "docProps/custom.xml", "xl/workbook.xml"} {
		if out[want] == "" {
			t.Errorf("%s has no %s to look into", filepath.Base(path), want)
		}
	}
	return out
}

// costsOf are the shop's own costs of the demo's sets, as the ranked workbooks
// show them.
func costsOf(t *testing.T, folder string) map[string]string {
	t.Helper()
	out := make(map[string]string)
	for _, family := range []string{"Small Eight", "Large Eight", "Opposed Four"} {
		f, err := excelize.OpenFile(filepath.Join(folder, "Ranked", "Heads ranked - "+family+".xlsx"))
		if err != nil {
			t.Fatal(err)
		}
		for head, row := range rowsByHead(t, f, "Value", "Head and state") {
			if cost := row.text("Landed cost"); cost != "" {
				out["landed cost of "+head] = cost
			}
		}
		if err := f.Close(); err != nil {
			t.Fatal(err)
		}
	}
	const least = 12
	if len(out) < least {
		t.Fatalf("only %d costs to look for", len(out))
	}
	return out
}
