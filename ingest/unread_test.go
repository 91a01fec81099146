package ingest_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"flowshelf/ingest/flowsheet"
)

// TestNothingReadIsTold reads sheets that are flow sheets by their words and of which
// no reading can be made: the file says so, and one that names a listed head is asked
// about. want is the state and the severity and kind of what is said.
func TestNothingReadIsTold(t *testing.T) {
	const words = "Lift in;Int cfm;Exh cfm\nlow;100;90\nmiddle;200;150\nhigh;150;110\n"
	for _, c := range []struct{ name, content, want string }{
		{"lifts without flows beside them", "cfm at 28 inH2O\nLift in;Intake;Exhaust\n0.1;;\n0.2;;\n0.3;;\n0.4;;\n", "set aside: set_aside flow-unread"},
		{"flows without lifts", words, "set aside: set_aside flow-unread"},
		{"the same of a listed head", "Head;LKC-12\n" + words, "partly read: asked flow-unread"},
		{"words without figures", "Head;LKC-12\nLift in;Int cfm\nx;x\n", "set aside: "},
		{"figures of something else", "Key;Lift\n7;0\n7;0\n7;0\n", "set aside: "},
		{"prices of listed heads beside a flow", "Larkmoor prices effective 2026-01-01;;\nPart;Net each, assembled USD;Flow at .600 lift\nLKC-07;268,00;240\nLKC-12;452,00;250\n", "partly read: asked flow-unread"},
		{"a list that is read", pricesCSV, "read: "},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := read(t, withSetup(t, fstest.MapFS{"sheet.csv": file(c.content)}))
			for _, f := range got.Files {
				if f.Path != "sheet.csv" {
					continue
				}
				said := f.State.String() + ": "
				for _, p := range got.Problems {
					if p.At.File == f.Path && p.Kind == flowsheet.KindUnread {
						said += p.Severity.String() + " " + p.Kind
					}
				}
				if said != c.want {
					t.Errorf("%q, want %q (%s)\n%v", said, c.want, f.Reason, got.Problems)
				}
				if strings.Contains(c.want, "set_aside") && !strings.Contains(f.Reason, "nothing was read") {
					t.Errorf("the reason does not say that nothing was read: %s", f.Reason)
				}
			}
		})
	}
}
