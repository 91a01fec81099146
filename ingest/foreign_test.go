package ingest_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/fstest"
)

// grid types rows and columns of figures under and beside words.
func grid(title, corner string, cols []string, rows int, figure func(row, col int) string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n\n%s;%s\n", title, corner, strings.Join(cols, ";"))
	for r := range rows {
		fmt.Fprintf(&b, "%d", r+1)
		for c := range cols {
			b.WriteString(";" + figure(r, c))
		}
		b.WriteByte('\n')
	}
	return b.String()
}

func numbered(word string, n int) []string {
	out := make([]string, n)
	for i := range out {
		out[i] = fmt.Sprintf("%s %d", word, i+1)
	}
	return out
}

func decimals(x float64) string { return strings.ReplaceAll(fmt.Sprintf("%.2f", x), ".", ",") }

// foreignBooks are kinds of workbooks that companies keep and that are none of
// ours, each with some of the trade's words in another sense.
func foreignBooks() map[string]string {
	growing := func(row, col int) string { return decimals(float64(row+1) * math.Sqrt(float64(col+2)) * 7) }
	return map[string]string{
		"loans, a page full of figures": grid("Pilot loans: flow of interest in and out, lift of the rate, exhaust date", "No.", numbered("Rate", 70), 60, growing),
		"communes, a long list": grid("Traffic flow by commune", "Commune", []string{"Intake", "Exit", "Flow m3/h", "Lift"}, 900,
			func(row, col int) string { return fmt.Sprintf("place %d of %d", row, col) }),
		"a pump":               grid("Pump P-101: head against flow, 2900 rpm", "Flow l/s", []string{"Head m", "Power kW", "Efficiency %"}, 12, growing),
		"a fan":                grid("Duct fan, static pressure inH2O against cfm", "Point", []string{"cfm", "inH2O", "rpm"}, 9, growing),
		"a control valve":      grid("Globe valve DN50, Kv against lift %", "Lift %", []string{"Kv m3/h", "Cv"}, 10, growing),
		"cash flow":            grid("Cash flow 2026", "Month", []string{"In", "Out", "Flow"}, 12, growing),
		"cattle":               "Farm price list 2026, net each\nHead;Breed;Price each $\nH-100;Angus;1450\nH-101;Angus;1520\nH-102;Hereford;1390\n",
		"shower heads":         "Stock at 2026-02-28\nHead;On hand;Cost each;Lead time\nSH-10;14;12.50;2 wks\nSH-20;3;19.00;4 wks\n",
		"print heads by month": "Sold by month, sets\nPart;Jan;Feb;Mar;Apr;May;Jun;Jul;Aug;Sep;Oct;Nov;Dec;Total\nPH-1;1;2;3;1;2;3;1;2;3;1;2;3;24\nPH-2;0;0;1;0;0;1;0;0;1;0;0;1;4\n",
		"a bill of materials":  "Part;Description;Qty;Price each EUR\nM8x40;bolt;12;0.40\nDIN 912;screw;8;0.25\nG-100;gasket;1;4.10\n",
		"machine hours":        "Date;Nominal;Read;Operator\n2026-01-05;8;7.5;AB\n2026-01-06;8;8.2;AB\n",
		"car inspections":      "Name;Bore;Stroke;Cylinders;Rpm;Lift\nUnit 1;4.0;3.5;8;5000;2 t hoist\nUnit 2;3.2;3.0;4;6000;4 t hoist\n",
		"plugs by country":     "Country\tCode\tPlugs\tResidential voltage, V\tFrequency, Hz\nChile\tcl\tL\t220\t50\nCameroon\tcm\tC, E\t220\t50\nCongo\tcd\tE\t220\t50\nCosta Rica\tcr\tA, B\t120\t60\nCôte d'Ivoire\tci\tC, E\t220\t50\nEstonia\tee\tF\t230\t50\nFrance\tfr\tE\t230\t50\nCuba\tcu\tA\t110\t60\n",
		"drills":               "Drill;Fraction;Inch;mm\n1;1/16;0.0625;1.588\n2;5/64;0.0781;1.984\n3;3/32;0.0938;2.381\n",
		"keys and checksums": grid("", "No.", []string{"Key", "Sum", "A", "B", "C"}, 60, func(row, col int) string {
			if col < 2 {
				return [...]string{"NdximBPd3+IN/s7caiki1cfm/EX=", "Lift/CJYcYprWDL/s1cNiBASS4v=", "K4cfm/Int/Exh+Y1cNiBASS4Rd="}[(row+col)%3]
			}
			return decimals(float64((row+2)*(col+1)) * 0.91)
		}),
		"gas analysis":          grid("Mixed gas report: flow rate, inlet and exhaust side", "Sample", []string{"Inlet ppm", "Exhaust ppm", "Flow Nm3/h"}, 20, growing),
		"translations":          "key;en;de;fr\nvalve;valve;Ventil;soupape\nlift;lift;Hub;levée\nintake;intake;Einlass;admission\nexhaust;exhaust;Auslass;échappement\nhead;cylinder head;Zylinderkopf;culasse\n",
		"hotel rooms by months": "Haus;Jan 26;Feb 26;Mär 26;Apr 26;Mai 26;Jun 26;Summe\nA;31;28;31;30;31;30;181\nB;20;20;20;20;20;20;120\n",
	}
}

// TestForeignWorkbooks holds that what is none of ours yields no head, no price,
// no line of stock and no question, with a setup and without one.
func TestForeignWorkbooks(t *testing.T) {
	folder := fstest.MapFS{}
	for name, content := range foreignBooks() {
		folder[name+".csv"] = file(content)
	}
	for with, got := range map[string]map[string]string{"without a setup": found(t, folder), "with a setup": found(t, withSetup(t, folder))} {
		for name, what := range got {
			t.Errorf("%s, %s: %s", with, name, what)
		}
	}
}

// found says of each file that is not set aside what was read.
func found(t *testing.T, folder fstest.MapFS) map[string]string {
	t.Helper()
	out := make(map[string]string)
	for _, f := range read(t, folder).Files {
		if f.Kind == "setup" || f.Kind == "nothing-found" {
			continue
		}
		r := f.Records
		out[f.Path] = fmt.Sprintf("%s %s: %d tests, %d prices, %d lines of stock, %d of sales, %d dimensions, %d other records, %v", f.State, f.Kind, len(r.Tests), len(r.Prices),
			len(r.Stock), len(r.Sales), len(r.Dimensions), len(r.Extras)+len(r.Rework)+len(r.Notes)+len(r.Bench)+len(r.Enquiries)+len(r.Aliases), r.Problems)
	}
	return out
}
