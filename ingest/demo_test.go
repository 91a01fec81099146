package ingest_test

import (
	"context"
	"math"
	"os"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
	"flowshelf/analysis/pricelist"
	"flowshelf/ingest"
)

const demoFolder = "../testdata/demo"

func readDemo(t *testing.T) ingest.Reading {
	t.Helper()
	got, err := ingest.ReadFolder(context.Background(), os.DirFS(demoFolder), ingest.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// What becomes of each book of the demo that is no flow sheet.
func TestDemoFiles(t *testing.T) {
	want := map[string]string{
		"Larkmoor prices.xlsx": "read", "Oastbridge net.xlsx": "read", "Pellworth list Feb.xlsx": "read", "Tidewell EUR.xlsx": "read",
		"Vintner email.xlsx": "read", "Pellworth list 4-1.xlsx": "partly read", "Shop setup.xlsx": "read",
		"stock 2026-01-31.xlsx": "read", "stock 2026-02-28.xlsx": "read", "dimensions.xlsx": "read", "extras.xlsx": "read",
		"rework menu.xlsx": "read", "notes.xlsx": "read", "enquiries.xlsx": "read",
		"bench/Copy of PW-31 adv v tested.xlsx": "set aside",
	}
	demo := readDemo(t)
	got := make(map[string]string)
	for _, f := range demo.Files {
		if _, asked := want[f.Path]; asked {
			got[f.Path] = f.State.String()
		}
		if f.Path == "bench/~$Small Eight shootout.xlsx" {
			t.Error("the lock file is listed")
		}
		if _, _, unclaimed := f.Cells(); want[f.Path] != "" && unclaimed > 0 {
			t.Errorf("%s: %d cells are neither used nor set aside", f.Path, unclaimed)
		}
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("states (-want +got):\n%s", diff)
	}
	asked := []string{}
	for _, p := range demo.Problems {
		if p.At.File == "Pellworth list 4-1.xlsx" || p.At.File == "Shop setup.xlsx" {
			asked = append(asked, p.Severity.String()+" "+p.Kind)
		}
	}
	if diff := cmp.Diff([]string{"asked list-date-ambiguous"}, asked); diff != "" {
		t.Errorf("problems (-want +got):\n%s", diff)
	}
}

// Landed cost a set on the day of the demo, net and freight times the heads a
// set. Worked out by hand from the lists: LKC-41 is 2 x (410 + 19), PW-31 is 2 x
// (1354 / 2 x 0.6 + 28), TD-22 is 4 x (189 x 1.09 + 19).
func TestDemoLandedCost(t *testing.T) {
	want := map[string]float64{
		"LKC-07": 536, "LKC-12": 904, "PW-31": 868, "PW-33": 1049, "OB-4": 1880, "VR-81": 908, "VR-84": 792,
		"LKC-41": 858, "PW-46": 1782, "OB-44": 3460, "VR-49": 2018, "TD-22": 900, "TD-26": 1105, "LKC-90": 712,
	}
	const wholeDollar = 0.5
	demo := readDemo(t)
	families := make(map[string]head.Family)
	for _, f := range demo.Shop.Families {
		families[f.Name] = f
	}
	for _, h := range demo.Shop.Heads {
		var prices []head.Price
		for _, p := range demo.Records.Prices {
			if p.Head == h.Name {
				prices = append(prices, p)
			}
		}
		perSet := families[h.Family].HeadsPerSet
		cost := pricelist.Find(pricelist.Question{Head: h, Heads: perSet, Prices: prices, Shop: demo.Shop,
			On: time.Date(2026, 3, 16, 0, 0, 0, 0, time.UTC), Default: demo.Shop.Rules.DefaultFreight})
		if !cost.Landed.Known {
			t.Errorf("%s: no landed cost: %s", h.Name, cost.Missing)
			continue
		}
		if got := cost.Landed.Value.Times(perSet).Float(); math.Abs(got-want[h.Name]) > wholeDollar {
			t.Errorf("%s: %.2f a set, want %.0f", h.Name, got, want[h.Name])
		}
		delete(want, h.Name)
	}
	for name := range want {
		t.Errorf("%s is not in the setup", name)
	}
}

func TestDemoStock(t *testing.T) {
	type line struct {
		onHand         int
		sold, lastSale float64
		sell           string
	}
	want := map[string]line{
		"LKC-07": {14, 22, 3, "699"}, "LKC-12": {9, 31, 0.2, "1249"}, "PW-31": {12, 5, 2.5, "1149"}, "PW-33": {8, 1, 9.4, "1399"},
		"OB-4": {2, 9, 0.6, "2349"}, "VR-81": {6, 2, 4.8, "1179"}, "VR-84": {10, 6, 1.4, "999"}, "LKC-41": {4, 4, 2, "1099"},
		"PW-46": {6, 1, 11, "2395"}, "OB-44": {0, 3, 1.9, "4390"}, "VR-49": {4, 4, 2.6, "2640"}, "TD-22": {16, 6, 1.2, "1149"},
		"TD-26": {10, 1, 11.5, "1395"}, "LKC-90": {20, 9, 0.5, "949"},
	}
	got := make(map[string]line)
	for _, s := range readDemo(t).Records.Stock {
		if s.Date.Value.Format(time.DateOnly) != "2026-02-28" || s.Status != head.Used {
			continue
		}
		if s.SellBasis != head.Set || s.CostBasis != head.Each {
			t.Errorf("%s: sell per %s, cost per %s", s.Head, s.SellBasis, s.CostBasis)
		}
		got[s.Head] = line{s.OnHand.Value, s.Sold12.Value, math.Round(s.LastSale.Value*10) / 10, s.Sell.Value.Amount.String()}
	}
	if diff := cmp.Diff(want, got, cmp.AllowUnexported(line{})); diff != "" {
		t.Errorf("stock (-want +got):\n%s", diff)
	}
}

func TestDemoDimensionsExtrasAndTheRest(t *testing.T) {
	r := readDemo(t).Records
	fractions, walls := 0, make(map[string]float64)
	for _, d := range r.Dimensions {
		if d.StemWords == "11/32" && len(d.Stem.Trace.Steps) > 0 {
			fractions++
		}
		if d.WallClearance.Known {
			walls[d.Head] = d.WallClearance.Value.In()
			if math.Abs(d.WallBore.Value.In()-4.030) > 1e-9 {
				t.Errorf("%s: wall clearance on a bore of %.3f", d.Head, d.WallBore.Value.In())
			}
		}
		if d.Measured == (d.Head == "TD-22" || d.Head == "TD-26") {
			t.Errorf("%s: measured %t", d.Head, d.Measured)
		}
	}
	if len(r.Dimensions) != 14 || fractions != 3 {
		t.Errorf("%d heads with dimensions, %d stems that became dates", len(r.Dimensions), fractions)
	}
	if diff := cmp.Diff(map[string]float64{"LKC-12": 0.115, "PW-33": 0.085}, walls); diff != "" {
		t.Error(diff)
	}
	sum := decimal.Zero
	springs := make(map[string]string)
	for _, e := range r.Extras {
		if e.Head == "VR-81" && e.Need == head.Always {
			sum = sum.Add(e.Price.Value.Amount)
		}
		if e.Springs {
			springs[e.Head] = e.Price.Value.Amount.String()
		}
	}
	if sum.String() != "1010" {
		t.Errorf("VR-81's extras are %s", sum)
	}
	if diff := cmp.Diff(map[string]string{"LKC-07": "180", "PW-31": "210", "PW-46": "240", "LKC-41": "220"}, springs); diff != "" {
		t.Error(diff)
	}
	if len(r.Rework) != 3 || len(r.Bench) != 10 || len(r.Notes) != 16 || len(r.Enquiries) != 4 {
		t.Errorf("%d rework lines, %d mornings, %d notes, %d enquiries", len(r.Rework), len(r.Bench), len(r.Notes), len(r.Enquiries))
	}
}
