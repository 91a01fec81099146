package lists_test

import (
	"fmt"
	"strings"
	"testing"

	"flowshelf/analysis/head"
)

func bookLines(r head.Records) []string {
	var out []string
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	for _, e := range r.Extras {
		say("%s needs %s: need %d at %.3f, %s per %s, springs %t, %s", e.Head, e.Item, e.Need, e.Threshold.In(), money(e.Price), e.Basis, e.Springs, e.Status)
	}
	for _, w := range r.Rework {
		say("%s: %s (%s) per %s, %s h, %s", w.Name, money(w.Price), money(w.Internal), w.Basis, count(w.Hours), w.Status)
	}
	for _, b := range r.Bench {
		say("%s %s: %.1f for %.1f, leak %.1f %s %s", b.Bench, day(b.Date), b.Read.Value.CFM(), b.Nominal.Value.CFM(), b.Leak.Value.CFM(), b.Operator, b.Remark)
	}
	for _, e := range r.Enquiries {
		say("%s, %s: %s x %s, %s cyl, %s rpm, %s, %s, %s", e.Name, e.Family, inches(e.Bore), inches(e.Stroke), count(e.Cylinders), count(e.RPM), inches(e.Lift), money(e.Budget), strings.Join(e.Musts, "+"))
	}
	for _, n := range r.Notes {
		say("%s %s: %s, %s %s", n.Head, n.For, n.Text, n.By, day(n.Date))
	}
	for _, a := range r.Aliases {
		say("%s %s is %s", a.Supplier, a.Name, a.Ours)
	}
	return out
}

func TestTheShopsOtherBooks(t *testing.T) {
	tests := []struct {
		name, path, drawing string
		want, problems      []string
	}{
		{"extras with conditions", "extras.xlsx", `
What else has to be bought
Head|Item|Needed when|$|Per|Who
VR-81|manifold|always|465|set|customer
PW-31|spring kit|lift > .550|210|set|our bench
PW-33|spring kit|lift over 14 mm|210|set|
LKC-12|chamfer|bore < 4.030|95|each|
LKC-12|pistons|stock pistons|340|set|
LKC-12|push rods|lift > 9|20||`,
			[]string{"VR-81 needs manifold: need 1 at 0.000, 465 USD per set, springs false, used",
				"PW-31 needs spring kit: need 2 at 0.550, 210 USD per set, springs true, used",
				"PW-33 needs spring kit: need 2 at 0.551, 210 USD per set, springs true, used",
				"LKC-12 needs chamfer: need 3 at 4.030, 95 USD per each, springs false, used",
				"LKC-12 needs pistons: need 4 at 0.000, 340 USD per set, springs false, used",
				"LKC-12 needs push rods: need 2 at 0.354, 20 USD per not stated, springs false, asked"},
			[]string{"asked price-basis-not-stated"}},
		{"rework menu", "rework.xlsx", `
Per set of 2 heads, USD
Work|Price $|Internal cost $|Hours
valve job|260|148|3
short-side blend|320|185|4`,
			[]string{"valve job: 260 USD (148 USD) per pair, 3 h, used", "short-side blend: 320 USD (185 USD) per pair, 4 h, used"}, nil},
		{"rework menu that does not say for how many", "rework.xlsx", `
Work|Price $|Hours
valve job|260|3`,
			[]string{"valve job: 260 USD (?) per not stated, 3 h, asked"}, []string{"asked price-basis-not-stated"}},
		{"bench log, the bench by its folder", "bench/log.xlsx", `
Date|Plate nominal cfm|Plate read cfm|Leak cfm|Operator|Remarks
@2026-01-22|250|253.5|1.3|JT|cold morning
4/1/2026|250|250.1|0.9|JT|
@2026-01-29|250|n/a|0.9|JT|`,
			[]string{"Shop bench 2026-01-22: 253.5 for 250.0, leak 1.3 JT cold morning", "Shop bench ?: 250.1 for 250.0, leak 0.9 JT ",
				"Shop bench 2026-01-29: 0.0 for 250.0, leak 0.9 JT "},
			[]string{"asked date-ambiguous"}},
		{"enquiries in inches and mm", "enquiries.xlsx", `
Lift is at the valve.  Inches unless mm is written.
No.|For|Family|Bore|Stroke|Cylinders|Rpm|Valve lift|Budget $|Must have
1|331 street|Small Eight|4.030|3.250|8|6500|0.560|1800|springs, air speed, budget
2|hill climb|Opposed Four|96 mm|80 mm|4|5500|11 mm||`,
			[]string{"1 331 street, Small Eight: 4.030 x 3.250, 8 cyl, 6500 rpm, 0.560, 1800 USD, springs+air speed+budget",
				"2 hill climb, Opposed Four: 3.780 x 3.150, 4 cyl, 5500 rpm, 0.433, ?, "}, nil},
		{"notes", "notes.xlsx", `
Head|Finding|For / against|By|Date
LKC-12|seats true within .001 in|for|MK|@2026-01-22
VR-84|core shifted toward one wall|against|MK|
VR-84|hm|maybe|MK|`,
			[]string{"LKC-12 for: seats true within .001 in, MK 2026-01-22", "VR-84 against: core shifted toward one wall, MK ?", "VR-84 : hm, MK ?"},
			[]string{"noted side-unclear"}},
		{"matching key", "names.xlsx", `
Our name|Supplier|Their number|Casting
LKC-12|Larkmoor|10-0012|4471
PW-33|Pellworth|33 B|`,
			[]string{"Larkmoor 10-0012 is LKC-12", "Larkmoor 4471 is LKC-12", "Pellworth 33 B is PW-33"}, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, page := recognise(tt.path, sheet("Sheet1", tt.drawing), theShop())
			same(t, "records", bookLines(got), tt.want)
			same(t, "problems", kinds(got.Problems), tt.problems)
			accounted(t, page)
		})
	}
}

// Words such as part, price and stock stand in every other workbook of a
// company. None of these is about heads.
func TestOtherPeoplesWorkbooksAreLeftAlone(t *testing.T) {
	for name, drawing := range map[string]string{
		"product list": "Price list 2026, net each, USD\nPart No|Description|Price each\nAB-123|ball bearing|4.50\nAB-124|ball bearing|4.80\nCD-9|seal|1.10",
		"inventory":    "Stock at 2026-02-28\nItem|On hand|Cost|Lead time\nAB-123|17|4.50|2 wks\nAB-124|3|4.80|2 wks",
		"fans":         "Model|CFM|Price $\nA-12|250|99\nA-14|380|129",
		"staff":        "Head|Department|Notes|By|Date\nSmith|Sales|fine|x|@2026-01-01",
		"engines":      "Name|Bore|Stroke|Cylinders|Rpm\nBoat 1|4.0|3.5|8|5000\nBoat 2|3.2|3.0|4|6000",
		"services":     "Service|Price|Hours\nWindow cleaning|90|2\nLawn|60|1.5",
		"measurements": "Date|Nominal|Reading|By\n@2026-01-01|20|20.1|x\n@2026-01-02|20|19.9|x",
		"budget":       "|Jan|Feb|Mar\nRent|100|100|100\nTotal|100|100|100",
		"shower":       "Head|Finish|Price each\nSH-100|chrome|45\nSH-200|brass|60",
		"empty header": "|||\n1|2|3",
	} {
		for shopName, shop := range map[string]head.Shop{"with a setup": theShop(), "without": {Currency: "USD"}} {
			got, page := recognise("other/"+name+".xlsx", sheet("Sheet1", drawing), shop)
			if lines := append(bookLines(got), kinds(got.Problems)...); len(lines)+len(got.Prices)+len(got.Stock)+len(got.Dimensions) > 0 {
				t.Errorf("%s, %s: read %v, %d prices, %d stock lines", name, shopName, lines, len(got.Prices), len(got.Stock))
			}
			if n := len(page.Unclaimed()); n == 0 && name != "empty header" {
				t.Errorf("%s, %s: cells of a page that is not ours were claimed", name, shopName)
			}
		}
	}
}

func TestSeveralTablesOnOnePage(t *testing.T) {
	got, page := recognise("all.xlsx", sheet("Sheet1", `
Larkmoor, net each, USD, effective 2026-01-01

Part|Net each $
LKC-07|268
Part|Net each $
LKC-12|452
Total|720



Pellworth, list per pair, less 40 %, effective 2026-02-01

Part|List, per pair $
PW-31|1354
* one head in a crate`), theShop())
	var lines []string
	for _, p := range got.Prices {
		lines = append(lines, strings.Join([]string{p.Supplier, p.Head, p.Basis.String(), p.Rung.String(), day(p.Effective)}, " "))
	}
	same(t, "prices", lines, []string{"Larkmoor LKC-07 each net 2026-01-01", "Larkmoor LKC-12 each net 2026-01-01", "Pellworth PW-31 pair list 2026-02-01"})
	accounted(t, page)
}
