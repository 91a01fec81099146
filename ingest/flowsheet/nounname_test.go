package flowsheet_test

import "testing"

// TestNounNames reads sheets whose heads are called by the word for a head or a casting
// and a number, or by letters that are also a port or a unit. want is as for
// TestHeadNames; the examples are invented (common practice, no source).
func TestNounNames(t *testing.T) {
	for _, c := range []struct{ name, first, want string }{
		{"a casting's number behind a head's key", "Testata: | fusione 5521", "fusione 5521"},
		{"the same in one cell", "Head: casting 4471 903", "casting 4471 903"},
		{"a noun behind its own key", "Culata | Culata 12", "Culata 12"},
		{"a piece of a batch", "Head: Sample 5521", "?"},
		{"the key of a laboratory", "Test object | Rig head B", "Rig head B"},
		{"the key alone", "Test object", "?"},
		{"a port behind it", "Test object | Intake valve", "?"},

		{"letters of a port and one figure, labelled", "Test object: | SC-1", "SC-1"},
		{"a port and its number, labelled", "Head | EX-1", "?"},
		{"the same alone", "SC-1", "?"},
		{"letters of a power", "PS-300, 4.040 bore", "PS-300"},
		{"the same, labelled", "Test object | PS-300", "PS-300"},
		{"a power", "Motor 300 PS", "?"},
		{"a bench", "Bench PS-300", "?"},

		{"a blank and a dash", "Strömungsmessung KH 86-1", "KH 86-1"},
		{"the same, labelled", "Head: KH 86-1", "KH 86-1"},
		{"the letters of a paper", "QT 86-1", "?"},
		{"a paper of the year", "CF 26-1", "?"},
		{"a drawing", "Drawing KH 86-1", "?"},

		{"a noun and a number in a title", "Kopf 17, Bohrung 84 mm", "Kopf 17"},
		{"behind the title of a flow sheet", "Essai au banc de débit : Culasse 44", "Culasse 44"},
		{"behind a title that is a test of flow", "Prueba de flujo Culata 12", "Culata 12"},
		{"a clipped casting", "Flow test cast. 3908", "cast. 3908"},
		{"a casting before a serial", "fusione 5521, serial 114", "fusione 5521"},
		{"a part's number", "P/N 44-2107, bore size 4.125\"", "P/N 44-2107"},
		{"one of a batch", "Head 2", "?"},
		{"one casting of a batch", "Casting 12", "?"},
		{"so many of a batch", "Head 12 of 40", "?"},
		{"a casting beside the name of the head", "TA-70, casting 5521", "TA-70"},
		{"the same beside a looser name", "Merle 210, casting 5521", "Merle 210"},
		{"the same below a looser name", "SG 300\ncasting 5521", "SG 300"},
		{"the same right over the table", "SG 300\n·\ncasting 5521", "SG 300"},
		{"below a labelled name", "Head: TA-70\n·\ncasting 5521", "TA-70"},
		{"a casting of the valves", "Valve casting 5512", "?"},
		{"somebody's", "Smith head 12", "?"},
		{"a report", "Test report head 12", "?"},
		{"a flow report", "Flow report no. 12", "?"},
		{"a bench's casting", "Bench: casting 5521", "?"},

		{"a word and an engine's size beside a bore", "Ledbrook 1275, bore 3.190", "Ledbrook 1275"},
		{"a word and a year beside a bore", "Ledbrook 2026, bore 3.190", "?"},
		{"a word and an engine's size alone", "Ledbrook 1275", "?"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := readSheet(t, c.first+"\n"+conditions+oneTable); headsOf(got) != c.want {
				t.Errorf("heads %q, want %q\n%s", headsOf(got), c.want, describe(got))
			}
		})
	}
}
