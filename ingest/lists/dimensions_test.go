package lists_test

import (
	"fmt"
	"testing"

	"flowshelf/analysis/head"
)

func dimensionLine(d head.Dimensions) string {
	return fmt.Sprintf("%s valves %s/%s stem %s %q throat %s csa %.2f runner %.0f chamber %.0f lift %s wall %s@%s %.1f lb %s/%s other %d measured %t",
		d.Head, inches(d.IntakeValve), inches(d.ExhaustValve), inches(d.Stem), d.StemWords, inches(d.Throat), d.MinSection.Value.In2(),
		d.Runner.Value.CC(), d.Chamber.Value.CC(), inches(d.MaxLift), inches(d.WallClearance), inches(d.WallBore),
		d.Weight.Value.Lb(), d.Material, d.Process, len(d.Other), d.Measured)
}

// The length of a stem is not its diameter, whichever column stands first.
func TestStemLength(t *testing.T) {
	got, page := recognise("dimensions.xlsx", sheet("Sheet1", `
Head|Intake valve, in|Stem length|Stem|Runner cc
LKC-12|2.02|4.91|11/32|178
TD-22|1.732|112 mm|8 mm|92
PW-33|2.055|0.344|5/16|220`), theShop())
	var lines []string
	for _, d := range got.Dimensions {
		lines = append(lines, fmt.Sprintf("%s %s %q long %s", d.Head, inches(d.Stem), d.StemWords, inches(d.StemLength)))
	}
	same(t, "stems", lines, []string{`LKC-12 0.344 "11/32" long 4.910`, `TD-22 0.315 "8 mm" long 4.409`, `PW-33 0.312 "5/16" long ?`})
	same(t, "problems", kinds(got.Problems), []string{"refused impossible-size"})
	accounted(t, page)
}

func TestDimensionSheets(t *testing.T) {
	tests := []struct {
		name, drawing  string
		want, problems []string
	}{
		{"heads down, a stem that became a date, sizes in mm", `
Measured here.  Inches unless mm is written.
Head|Valves int/exh|Stem|Throat|Min CSA in²|Runner cc|Chamber cc|Max lift|Weight lb|Material / process|Plug|Valve to wall, in (4.030 bore)
LKC-12|2.020/1.600|@1932-11-01|1.79|2.04|178|64|0.575|23.4|alum., as cast|14 mm|0.115
TD-22|44/37 mm|8 mm|38.5 mm|1.46|92|44|12.5 mm|7.9|alum.||`,
			[]string{`LKC-12 valves 2.020/1.600 stem 0.344 "11/32" throat 1.790 csa 2.04 runner 178 chamber 64 lift 0.575 wall 0.115@4.030 23.4 lb alum./as cast other 1 measured true`,
				`TD-22 valves 1.732/1.457 stem 0.315 "8 mm" throat 1.516 csa 1.46 runner 92 chamber 44 lift 0.492 wall ?@? 7.9 lb alum./ other 0 measured true`},
			[]string{"noted fraction-from-date"}},
		{"the titles that our own sheets use", `
Head|Intake valve|Exhaust valve|Min area sq in|Springs to
LKC-12|2.02|1.60|2.04|.575`,
			[]string{`LKC-12 valves 2.020/1.600 stem ? "" throat ? csa 2.04 runner 0 chamber 0 lift 0.575 wall ?@? 0.0 lb / other 0 measured false`}, nil},
		{"heads across, a throat in percent, one unit a line", `
|LKC-12|PW-33
Intake valve, mm|51.3|52.2
Throat|89 %|1.86
Runner cc|178|220
Weight kg|10.6|10.3`,
			[]string{`LKC-12 valves 2.020/? stem ? "" throat 1.798 csa 0.00 runner 178 chamber 0 lift ? wall ?@? 23.4 lb / other 0 measured false`,
				`PW-33 valves 2.055/? stem ? "" throat 1.860 csa 0.00 runner 220 chamber 0 lift ? wall ?@? 22.7 lb / other 0 measured false`}, nil},
		{"one unit for a column: the odd one out is refused, not taken as mm", `
Head|Intake valve|Runner cc
LKC-12|2.02|178
PW-31|20.2|195
PW-33|2.055|220`,
			[]string{`LKC-12 valves 2.020/? stem ? "" throat ? csa 0.00 runner 178 chamber 0 lift ? wall ?@? 0.0 lb / other 0 measured false`,
				`PW-31 valves ?/? stem ? "" throat ? csa 0.00 runner 195 chamber 0 lift ? wall ?@? 0.0 lb / other 0 measured false`,
				`PW-33 valves 2.055/? stem ? "" throat ? csa 0.00 runner 220 chamber 0 lift ? wall ?@? 0.0 lb / other 0 measured false`},
			[]string{"refused impossible-size"}},
		{"what cannot be is refused, what is not stated is asked", `
Head|Intake valve, in|Stem|Runner cc|Chamber cc|Weight|Spring loads
LKC-12|20.2|@2026-07-20|1780|64/72 avail|23.4|130@1.800 / 365@1.200
PW-33|2.055|5/16|220|72|22.8|365/130`,
			[]string{`LKC-12 valves ?/? stem ? "" throat ? csa 0.00 runner 0 chamber 0 lift ? wall ?@? 0.0 lb / other 0 measured false`,
				`PW-33 valves 2.055/? stem 0.312 "5/16" throat ? csa 0.00 runner 220 chamber 72 lift ? wall ?@? 0.0 lb / other 0 measured false`},
			[]string{"refused impossible-size", "asked size-is-a-date", "refused impossible-size", "noted not-one-number", "asked weight-unit-not-stated",
				"refused not-a-spring-load"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, page := recognise("dimensions.xlsx", sheet("Sheet1", tt.drawing), theShop())
			var lines []string
			for _, d := range got.Dimensions {
				lines = append(lines, dimensionLine(d))
			}
			same(t, "dimensions", lines, tt.want)
			same(t, "problems", kinds(got.Problems), tt.problems)
			accounted(t, page)
		})
	}
}
