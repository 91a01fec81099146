package supplier_test

import (
	"strings"
	"testing"
	"time"

	"flowshelf/analysis/compare"
	"flowshelf/export/book"
	"flowshelf/export/supplier"
	"flowshelf/ingest/ingesttest"
)

// TestHisOwnUnits holds that a supplier who states millimetres, mbar and litres a
// second reads his own figures beside ours. Demo, Tidewell Messblatt.xlsx: 96 mm,
// 60 mbar, 19,6 and 16,2 L/s at 2 mm.
func TestHisOwnUnits(t *testing.T) {
	records, shop := ingesttest.Demo(t)
	for _, g := range supplier.Of(compare.All(records, shop, time.Date(2026, 3, 16, 0, 0, 0, 0, time.UTC))) {
		out, err := supplier.Write(g)
		if err != nil {
			t.Fatal(err)
		}
		cells, err := book.Cells(out)
		if err != nil {
			t.Fatal(err)
		}
		text := ""
		for _, c := range cells {
			text += c.Value + "\n"
		}
		for _, words := range []string{"bore 96 mm (3.780)", "pressure 60 mbar (24.09 inH2O)", "2 mm, intake 19,6 L/s, exhaust 16,2 L/s"} {
			if his := strings.HasPrefix(g.Supplier, "Tidewell"); strings.Contains(text, words) != his {
				t.Errorf("%s reads %q: %v, want %v", g.Supplier, words, !his, his)
			}
		}
	}
}
