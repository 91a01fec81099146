package ingest_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"flowshelf/analysis/head"
)

// TestThousandsInTextFiles reads text files in which a point parts thousands: nothing but
// the size of the flow tells it from a fraction. 1 L/min is 0.0353147 cfm, 1 m3/min
// 35.3147 (from the definitions of inch and litre).
func TestThousandsInTextFiles(t *testing.T) {
	const sheet = "Testata;TA-70\nDepressione;28 inH2O\nAlesaggio;86 mm\n\nAlzata mm;Aspirazione %s\n"
	for _, c := range []struct{ name, unit, rows, want string }{
		{"beside a figure without one", "l/min", "2;654\n4;1.259\n6;3.040\n8;4.919\n", "23.1 44.5 107.4 173.7"},
		{"a fraction", "m3/min", "2;0.654\n4;1.259\n6;3.040\n8;4.919\n", "23.1 44.5 107.4 173.7"},
		{"fractions of other lengths", "l/s", "2;18.5\n4;44.125\n6;60.25\n8;70.5\n", "39.2 93.5 127.7 149.4"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := read(t, withSetup(t, fstest.MapFS{"bench/sheet.csv": file(fmt.Sprintf(sheet, c.unit) + c.rows)}))
			var flows []string
			for _, test := range got.Records.Tests {
				for _, r := range test.Readings {
					if r.Status == head.Used && r.Flow.Trace.At.File == "bench/sheet.csv" {
						flows = append(flows, fmt.Sprintf("%.1f", r.Flow.Value.CFM()))
					}
				}
			}
			if have := strings.Join(flows, " "); have != c.want {
				t.Errorf("read %q, want %q\n%v", have, c.want, got.Problems)
			}
		})
	}
}
