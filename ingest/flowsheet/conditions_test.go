package flowsheet_test

import (
	"fmt"
	"strings"
	"testing"

	"flowshelf/analysis/head"
)

// TestConditions reads sheets of which only the conditions are in question. want
// lists of each test the port, its mark, the bore, the pressure at the highest lift
// and how many of its readings are used.
func TestConditions(t *testing.T) {
	const onTA = "Head: TA-70\n"
	const twice = ".200 | 114 | 94 | 118 | 97\n.300 | 170 | 127 | 175 | 131\n.400 | 212 | 148 | 219 | 152\n"
	const sagging = "Bore 4.030, cfm\nLift | TP \"H2O | Int\n.200 | 28 | 114\n.300 | 28 | 170\n.400 | 26.5 | 212\n.500 | 25 | 230\n"
	for _, c := range []struct{ name, sheet, want string }{
		{"a bore over each column", onTA + "28 inH2O, cfm\nLift | Int 4.125 bore | Exh 4.125 bore | Int 4.155 bore | Exh 4.155 bore\n" + twice,
			"intake 4.125 28.0 3; exhaust 4.125 28.0 3; intake 4.155 28.0 3; exhaust 4.155 28.0 3"},
		{"a bore in fractions over each column", onTA + "28 inH2O, cfm\nLift | Int 4-1/8 bore | Exh 4-1/8 bore | Int 4-1/4 bore | Exh 4-1/4 bore\n" + twice,
			"intake 4.125 28.0 3; exhaust 4.125 28.0 3; intake 4.250 28.0 3; exhaust 4.250 28.0 3"},
		{"a bore behind an inch mark", onTA + "28 inH2O, cfm\nLift | Int 4.125\" | Exh 4.125\" | Int 4.155\" | Exh 4.155\"\n" + twice,
			"intake 4.125 28.0 3; exhaust 4.125 28.0 3; intake 4.155 28.0 3; exhaust 4.155 28.0 3"},
		{"a bore behind an at sign", onTA + "28 inH2O, cfm\nLift | Int @ 4.125 | Exh @ 4.125 | Int @ 4.155 | Exh @ 4.155\n" + twice,
			"intake 4.125 28.0 3; exhaust 4.125 28.0 3; intake 4.155 28.0 3; exhaust 4.155 28.0 3"},
		{"a pressure behind an inch mark", onTA + "4.030 bore, cfm\nLift | Int 28\" | Exh 28\"\n.200 | 114 | 94\n.300 | 170 | 127\n.400 | 212 | 148\n",
			"intake 4.030 28.0 3; exhaust 4.030 28.0 3"},
		{"the number of a port over each column", onTA + "28 inH2O, cfm, 4.030 bore\nLift | Int 1 | Exh 1 | Int 4 | Exh 4\n" + twice,
			"intake #1 4.030 28.0 3; exhaust #1 4.030 28.0 3; intake #4 4.030 28.0 3; exhaust #4 4.030 28.0 3"},
		{"one bore over two columns of a port", onTA + "28 inH2O, cfm\nLift | Int 4.125 bore | Exh 4.125 bore | Int 4.125 bore | Exh 4.125 bore\n" + twice,
			"intake 4.125 28.0 0; exhaust 4.125 28.0 0; intake 4.125 28.0 0; exhaust 4.125 28.0 0"},

		{"flows as read where the pressure sags", onTA + sagging + "·\nflow as read at pressure shown\n", "intake 4.030 25.0 4"},
		{"flows at the pressure shown", onTA + sagging + "·\ncfm at depression shown\n", "intake 4.030 25.0 4"},
		{"the same in Italian", onTA + sagging + "·\nportata come letta\n", "intake 4.030 25.0 4"},
		{"a decimal comma in a column of pressures", onTA + strings.Replace(sagging, "26.5", "'26,5", 1) + "·\nas read\n", "intake 4.030 25.0 4"},
		{"flows that may be corrected where it sags", onTA + sagging + "·\nread by JT, corrected later\n", "intake 4.030 25.0 2"},
		{"pressure as read, flows corrected", onTA + sagging + "·\npressure as read, flows corrected\n", "intake 4.030 25.0 2"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := readSheet(t, c.sheet)
			var list []string
			for _, test := range got.Tests {
				list = append(list, set(test))
			}
			if set := strings.Join(list, "; "); set != c.want {
				t.Errorf("read %q, want %q\n%s", set, c.want, describe(got))
			}
		})
	}
}

// set tells how a test was flowed and how many of its readings are used.
func set(t head.Test) string {
	out := t.Port.String()
	if t.PortMark != "" {
		out += " #" + t.PortMark
	}
	used, pressure := 0, t.Pressure.Value.InH2O()
	for _, r := range t.Readings {
		if t.Status == head.Used && r.Status == head.Used {
			used++
		}
		if r.Pressure().Known {
			pressure = r.Pressure().Value.InH2O()
		}
	}
	return fmt.Sprintf("%s %.3f %.1f %d", out, t.Bore.Value.In(), pressure, used)
}
