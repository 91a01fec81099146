package flowsheet_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

// peaks lists the port of each test with its highest reading in cfm and how many are
// used, and behind a bar the kinds of problem that are asked or refused.
func peaks(got head.Records) string {
	var out, kinds []string
	for _, test := range got.Tests {
		used, most := 0, 0.0
		for _, r := range test.Readings {
			if r.Status == head.Used && r.Flow.Known && test.Status == head.Used {
				used, most = used+1, max(most, r.Flow.Value.CFM())
			}
		}
		out = append(out, fmt.Sprintf("%s %d %.1f", test.Port, used, most))
	}
	for _, p := range got.Problems {
		if (p.Severity == source.Asked || p.Severity == source.Refused) && p.Kind != "class-unknown" && !slices.Contains(kinds, p.Kind) {
			kinds = append(kinds, p.Kind)
		}
	}
	if len(kinds) > 0 {
		out = append(out, "| "+strings.Join(kinds, " "))
	}
	return strings.Join(out, " ")
}

// TestThousands reads columns in which a sign before three digits parts thousands, or a
// fraction, or may do either. 1 L/min is 0.0353147 cfm (from the definitions of inch and
// litre). The figures are invented (common practice, no source).
func TestThousands(t *testing.T) {
	column := func(unit string, flows ...string) string {
		sheet := "TA-70, bore 104,8 mm, 28 inH2O\nHub mm | Einlass (" + unit + ")\n"
		for i, flow := range flows {
			sheet += fmt.Sprintf("%d | '%s\n", 2+2*i, flow)
		}
		return sheet
	}
	for _, c := range []struct{ name, sheet, want string }{
		{"a point in litres a minute", column("l/min", "1.122", "2.184", "4.237", "6.889"), "intake 4 243.3"},
		{"a comma in litres a minute", column("l/min", "1,122", "2,184", "4,237", "6,889"), "intake 4 243.3"},
		{"a point beside a figure without one", column("l/min", "950", "1.833", "3.381", "4.884"), "intake 4 172.5"},
		{"an apostrophe", column("l/min", "1'122", "2'184", "4'237", "6'889"), "intake 4 243.3"},
		{"a typographic apostrophe", column("l/min", "1’122", "2’184", "4’237", "6’889"), "intake 4 243.3"},
		{"a space", column("l/min", "950", "1 833", "3 381", "4 884"), "intake 4 172.5"},
		{"a space that does not break", column("l/min", "950", "1\u00a0833", "3\u00a0381", "4\u00a0884"), "intake 4 172.5"},
		{"a narrow space", column("l/min", "950", "1\u202f833", "3\u202f381", "4\u202f884"), "intake 4 172.5"},
		{"a fraction in cubic metres a minute", column("m3/min", "1.122", "2.184", "4.237", "6.889"), "intake 4 243.3"},
		{"a fraction behind a comma", column("l/s", "18,712", "36,401", "70,617", "114,817"), "intake 4 243.3"},
		{"neither is a flow", column("cfm", "1,340", "1,900", "2,290", "2,470"), "intake 0 0.0 | not-a-number"},
		{"neither is a flow, with a point", column("cfm", "1.340", "1.900", "2.290", "2.470"), "intake 0 0.0 | not-a-number"},
		{"two readings in one cell", column("cfm", "114 118", "170 175", "212 219", "230 238"), "intake 0 0.0 | not-a-number"},
		{"both signs", column("l/min", "1.122", "2,184", "4.237", "6,889"), "intake 0 0.0 | not-a-number"},
		{"a point against the rest of the column", column("l/min", "950.5", "1.833", "3.381", "4.884"), "intake 1 33.6 | no-such-flow"},
		{"the wrong unit", column("l/min", "60.5", "70.5", "80.5", "84.5"), "intake 0 0.0 | no-such-flow"},
		{"a lone reading of a thousandth", "TA-70, bore 104,8 mm, 28 inH2O\nHub mm | Einlass (cfm)\n2 | 58\n4 | 0.114\n6 | 170\n8 | 212\n10 | 230\n", "intake 4 230.0 | no-such-flow"},
		{"a tenth of the flow", "TA-70, bore 104,8 mm, 28 inH2O\nHub mm | Einlass cfm/10\n2 | 5.8\n4 | 11.4\n6 | 17\n8 | 21.2\n", "intake 0 0.0 | flow-unit-conflict"},
		{"a small port", column("cfm", "4", "7", "9", "10"), "intake 4 10.0"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := readSheet(t, c.sheet); peaks(got) != c.want {
				t.Errorf("read %q, want %q\n%s", peaks(got), c.want, describe(got))
			}
		})
	}
}
