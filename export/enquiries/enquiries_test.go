package enquiries_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"flowshelf/analysis/enquiry"
	"flowshelf/analysis/head"
	"flowshelf/export/book/booktest"
	"flowshelf/export/enquiries"
	"flowshelf/ingest/ingesttest"
)

// TestAnswers writes the answers to the demo's enquiries and to one that nothing
// meets.
func TestAnswers(t *testing.T) {
	records, shop := ingesttest.Demo(t)
	records.Enquiries = append(records.Enquiries, head.Enquiry{Name: "flat six", Family: "Flat Six"})
	march := time.Date(2026, time.March, 16, 0, 0, 0, 0, time.UTC)
	out, err := enquiries.Write(shop, march, enquiry.All(records, shop, march))
	if err != nil {
		t.Fatal(err)
	}
	if dir := os.Getenv("SCRATCH_DEMO"); dir != "" {
		if err := os.WriteFile(filepath.Join(dir, enquiries.FileName), out, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	paper := booktest.Print(t, out)
	if len(paper.Pages) != 5 || strings.Contains(paper.Text, "###") {
		t.Errorf("sheets and pages: %v", paper.Pages)
	}
	for sheet, n := range paper.Pages {
		if n != 1 {
			t.Errorf("%s prints on %d pages", sheet, n)
		}
	}
	for _, words := range []string{"Not offered", "check coil bind", "over the budget: $2,349", "is not in the setup", "may be better, not proven"} {
		if !strings.Contains(paper.Text, words) {
			t.Errorf("does not say %q:\n%s", words, paper.Text)
		}
	}
}
