package flowsheet_test

import "testing"

// TestNamesOfOtherThings reads sheets on which a name stands behind a label that is
// none of a head's. want is as for TestHeadNames; the shop lists PW-33. The examples
// are invented (common practice, no source).
func TestNamesOfOtherThings(t *testing.T) {
	for _, c := range []struct{ name, line, want string }{
		{"a cam in two cells", "Cam | CW-88", "?"},
		{"with a colon in two cells", "Cam: | CW-88", "?"},
		{"in one cell", "Cam: CW-88", "?"},
		{"without a mark", "Cam CW-88", "?"},
		{"a manifold", "Manifold: MT 305", "?"},
		{"an engine", "Engine H-200", "?"},
		{"a piston", "Piston | KX-40", "?"},
		{"a rocker", "Rocker: SP-88", "?"},
		{"a customer", "Customer | Marsh 2", "?"},
		{"a gasket", "Gasket: GK-10", "?"},
		{"a car", "Car: Tern 190", "?"},
		{"a carburettor", "Carb | HC-650", "?"},
		{"whom it is for", "for Marsh 2, order 4471", "?"},
		{"a German cam", "Nockenwelle CW-88", "?"},
		{"a German piston", "Kolben: KX-40", "?"},
		{"a German customer", "Kunde | Marsh 2", "?"},
		{"an Italian customer", "Cliente: Marsh 2", "?"},
		{"an Italian cam", "Albero a camme: CW-88", "?"},
		{"a Spanish cam", "Árbol | CW-88", "?"},
		{"a French customer", "Client | Marsh 2", "?"},
		{"a French engine", "Moteur: H-200", "?"},
		{"a Spanish engine", "Motor H-200", "?"},
		{"before its word", "flowed with MT 305 manifold", "?"},
		{"before its word and more", "for the H-200 engine", "?"},
		{"who built it", "Built by Marsh 2", "?"},
		{"for whom it was done", "Tested for Marsh 2", "?"},
		{"a part whose word names heads too", "Block | SB-400", "?"},
		{"a seat", "Seat | SX-12", "?"},
		{"a label that nobody knows", "Lichtmaschine: CW-88", "?"},
		{"the same in a column of keys", "Lichtmaschine | CW-88\nBore | 4.030\nDate | 2026-02-17", "?"},
		{"a letterhead over a column of keys", "Harris Engines\nHead | TA-70\nBore | 4.030", "TA-70"},
		{"a listed head behind such a label", "Cam: PW-33", "PW-33"},
		{"another thing beside the head", "TA-70, cam CW-88", "TA-70"},
		{"another thing below the head", "TA-70\nCam | CW-88\nCustomer: Marsh 2", "TA-70"},
		{"another thing above the head", "Customer | Marsh 2\nHead | TA-70", "TA-70"},

		{"the title of a sheet with a colon", "Flow test: TA-70", "TA-70"},
		{"the paper with a colon", "Prüfbericht: TA-70", "TA-70"},
		{"the title and a preposition", "Flow test for TA-70", "TA-70"},
		{"a family before the name", "Small Eight TA-70", "TA-70"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := readSheet(t, c.line+"\n"+conditions+oneTable)
			if heads := headsOf(got); heads != c.want {
				t.Errorf("read as %q, want %q\n%s", heads, c.want, describe(got))
			}
		})
	}
}
