package parse_test

import (
	"math"
	"testing"

	"flowshelf/ingest/parse"
)

const exact = 1e-9

func TestLift(t *testing.T) {
	for text, want := range map[string]parse.LiftText{
		"100": {Value: 100}, ".100": {Value: .1, Unit: parse.LiftInches, Spelled: true}, "0.1": {Value: .1},
		`0.100"`: {Value: .1, Unit: parse.LiftInches, Spelled: true}, "100 thou": {Value: 100, Unit: parse.LiftThou, Spelled: true},
		"2.54 mm": {Value: 2.54, Unit: parse.LiftMM, Spelled: true}, "2,54": {Value: 2.54}, "L100": {Value: 100, Unit: parse.LiftThou, Spelled: true},
		"@.100": {Value: .1, Unit: parse.LiftInches, Spelled: true}, ".200 Lift": {Value: .2, Unit: parse.LiftInches, Spelled: true},
		".100-": {Value: .1, Unit: parse.LiftInches, Spelled: true}, `"`: {Ditto: true}, "Int .200": {Value: .2, Unit: parse.LiftInches, Spelled: true, Rest: "Int"},
		"0,100": {Value: .1},
	} {
		if got, ok := parse.Lift(text); !ok || got != want {
			t.Errorf("Lift(%q) = %+v, %v; want %+v", text, got, ok, want)
		}
	}
	for _, text := range []string{"", "x", "Lift", `28"`, "1e3", ".3oo", "-0.1", "2026-03-12", "PW-33", "1 2"} {
		if got, ok := parse.Lift(text); ok {
			t.Errorf("Lift(%q) = %+v; want none", text, got)
		}
	}
}

func TestGuessLiftUnit(t *testing.T) {
	for _, c := range []struct {
		values []float64
		want   []parse.LiftUnit
	}{
		{[]float64{.1, .2, .3}, []parse.LiftUnit{parse.LiftInches}},
		{[]float64{0, .05, 1}, []parse.LiftUnit{parse.LiftInches}},
		{[]float64{100, 200, 700}, []parse.LiftUnit{parse.LiftThou}},
		{[]float64{2, 4, 12}, []parse.LiftUnit{parse.LiftMM}},
		{[]float64{1, 2, 3, 4, 5, 6}, []parse.LiftUnit{parse.LiftTenths, parse.LiftMM}},
		{[]float64{.1, 200, .3}, nil},
		{[]float64{.5, 2}, []parse.LiftUnit{parse.LiftTenths, parse.LiftMM}},
		{[]float64{0}, nil}, {nil, nil},
	} {
		got := parse.GuessLiftUnit(c.values)
		if len(got) != len(c.want) {
			t.Errorf("%v: %v, want %v", c.values, got, c.want)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("%v: %v, want %v", c.values, got, c.want)
			}
		}
	}
}

// Factors of NIST SP 811 (2008), App. B.8: the international inch of 25.4 mm,
// the cubic foot of 0.028316846592 m3.
func TestFlowUnits(t *testing.T) {
	for _, c := range []struct {
		text string
		x    float64
		cfm  float64
	}{
		{"CFM", 250, 250}, {"l/s", 100, 100 / .4719474432}, {"L/sec", 100, 100 / .4719474432}, {"m3/h", 100, 100 / 1.69901079552},
		{"m³/h", 100, 100 / 1.69901079552}, {"m3/min", 1, 1 / .028316846592}, {"l/min", 60, 1 / .4719474432},
		{"c.f.m.", 250, 250}, {"cu. ft/min", 250, 250}, {"cubic feet per minute", 250, 250}, {"ft³/min", 250, 250}, {"pieds cubes par minute", 250, 250},
		{"piedi cubi al minuto", 250, 250}, {"pies cúbicos por minuto", 250, 250}, {"litres/s", 100, 100 / .4719474432},
		{"litri/s", 100, 100 / .4719474432}, {"litri al secondo", 100, 100 / .4719474432}, {"Liter pro Sekunde", 100, 100 / .4719474432},
		{"litros por segundo", 100, 100 / .4719474432}, {"dm3/s", 100, 100 / .4719474432}, {"Kubikmeter pro Stunde", 100, 100 / 1.69901079552},
		{"m3/ora", 100, 100 / 1.69901079552}, {"mètres cubes par heure", 100, 100 / 1.69901079552}, {"litres/min", 60, 1 / .4719474432},
		{"PCM", 250, 250}, {"mc/h", 100, 100 / 1.69901079552}, {"l/mn", 60, 1 / .4719474432}, {"ft^3/min", 250, 250},
	} {
		unit, ok := parse.FindFlowUnit("Intake " + c.text)
		flow, step, converts := unit.Flow(c.x)
		if !ok || !converts || math.Abs(flow.CFM()-c.cfm) > exact || (step == "") != (unit == parse.CFM) {
			t.Errorf("%s: %v %v, want %v cfm", c.text, flow.CFM(), step, c.cfm)
		}
	}
	for _, text := range []string{"kg/h", "g/s", "scfm", "Nm3/h"} {
		unit, ok := parse.FindFlowUnit(text)
		if _, _, converts := unit.Flow(1); !ok || converts {
			t.Errorf("%s must be known and not convertible", text)
		}
	}
	for _, text := range []string{"", "Intake", "cfm or l/s", "fps", "rpm", "L/D", "long pro", "cc per chamber", "2 par heure"} {
		if unit, ok := parse.FindFlowUnit(text); ok {
			t.Errorf("FindFlowUnit(%q) = %v", text, unit)
		}
	}
}

func TestPressures(t *testing.T) {
	// Conventional inch of water 249.08891 Pa: NIST SP 811 (2008), App. B.8.
	for text, inH2O := range map[string]float64{
		`28"`: 28, "28in": 28, "28 inH2O": 28, `28" H2O`: 28, "28 in. water": 28, "28 inches": 28, "60 mbar": 6000 / 249.08891,
		"7 kPa": 7000 / 249.08891, "500 mmH2O": 500 / 25.4, "500 mm H2O": 500 / 25.4, "500 mm c.a.": 500 / 25.4, "500 mm d'acqua": 500 / 25.4, "500 mm WS": 500 / 25.4, "28 pollici d'acqua": 28, "28 in H20": 28, "25 pulg. H2O": 25, "28 wc": 28, "pulled at 25 inH2O all the way": 25,
		"70 cm H2O": 700 / 25.4, "7000 Pa": 7000 / 249.08891, "700 daPa": 7000 / 249.08891, "0.07 bar": 7000 / 249.08891, "52 mmHg": 52. / 25.4 * 3386.38864034 / 249.08891,
		"1 psi": 6894.757293168361 / 249.08891, "2 inHg": 2 * 3386.38864034 / 249.08891,
	} {
		found := parse.FindPressures(text)
		if len(found) != 1 || math.Abs(found[0].Unit.Of(found[0].Value).InH2O()-inH2O) > 1e-6 {
			t.Errorf("%q: %+v, want %v inH2O", text, found, inH2O)
		}
	}
	for _, text := range []string{"", "28", "4.030 bore", "runner 10 in long", "1-3/4 x 12 in pipe", "port length 12 in", "96 mm", "18 in tube",
		"4.030 AQ-431", "28 WC-12B", "60 MB-26", "7 WS30", `bore dia. 3.937"`, `bore: 4.030"`, `fixture 4-1/8"`} {
		if found := parse.FindPressures(text); len(found) != 0 {
			t.Errorf("%q: %+v, want none", text, found)
		}
	}
	for text, want := range map[string]bool{`TP inH2O`: true, `H2O"`: true, "in. Aq": true, "Druck mbar": true, "AQ-431": false, "WC12": false, "PSI-61": false, "aquarium": false, "LKC-12, psi": true} {
		if unit, ok := parse.FindPressureUnit(text); ok != want {
			t.Errorf("FindPressureUnit(%q) = %v, %v", text, unit, ok)
		}
	}
	for text, want := range map[string]float64{"CFM @28": 28, "cfm at 28 on 4.030": 28, "TP 25": 25, "cfm @ 10": 10} {
		if x, _, _, ok := parse.FindBarePressure(text); !ok || x != want {
			t.Errorf("FindBarePressure(%q) = %v, %v", text, x, ok)
		}
	}
	for _, text := range []string{"at 20 C", "at 12 o'clock", "@ 28 °C", "at 10 am", "28", "at 15 mm"} {
		if x, _, _, ok := parse.FindBarePressure(text); ok {
			t.Errorf("FindBarePressure(%q) = %v", text, x)
		}
	}
	for x, want := range map[float64]bool{28: true, 10: true, 25: false, 7: false, 60: false, 12: true} {
		if _, ok := parse.BarePressure(x); ok != want {
			t.Errorf("BarePressure(%v) = %v", x, ok)
		}
	}
}

func TestBores(t *testing.T) {
	for text, want := range map[string]float64{
		"4 1/8": 4.125, `4-1/8"`: 4.125, "4.125": 4.125, "104.8 mm": 104.8 / 25.4, "104,8": 104.8 / 25.4, "Ø104.8": 104.8 / 25.4,
		"96": 96 / 25.4, `4-1/4" bore`: 4.25, "4.500 bore": 4.5, "Bohrung 96": 96 / 25.4,
		"4.310 in.": 4.31, "4-1/8 in.": 4.125, "dia. 83 mm": 83 / 25.4, "4.030 dia": 4.03, "4.030 (102.4 mm)": 4.03, `101.6mm (4.000")`: 4, "4.280 in. bore": 4.28,
	} {
		if got, ok := parse.Bore(text); !ok || math.Abs(got.Bore.In()-want) > exact || got.Over {
			t.Errorf("Bore(%q) = %+v, %v; want %v in", text, got, ok, want)
		}
	}
	for _, text := range []string{"4.030 (105 mm)", "4.030 (4.060)", "4.030 in. long", "28 in."} {
		if got, ok := parse.Bore(text); ok && parse.PlausibleBore(got.Bore) {
			t.Errorf("Bore(%q) = %+v; want none", text, got)
		}
	}
	for _, text := range []string{"4.000, .030 over", "4.000 (.030 over)", ".030 over, 4.000", "4.000 bore .030 over"} {
		if got := parse.Bores(text); len(got) != 2 || got[0].Over == got[1].Over {
			t.Errorf("Bores(%q) = %+v; want a bore and what it is over", text, got)
		}
	}
	for _, text := range []string{"4.000 +.002", "4.000 +/- .030", "4 + .030"} {
		if got, ok := parse.Bore(text); ok && math.Abs(got.Bore.In()-4) > exact {
			t.Errorf("Bore(%q) = %+v; want nothing added", text, got)
		}
	}
	for _, text := range []string{".030 over", "30 over 4 days", ".030 over 350"} {
		if got, ok := parse.Bore(text); !ok || !got.Over || math.Abs(got.Bore.In()-.03) > exact {
			t.Errorf("%s: %+v %v", text, got, ok)
		}
	}
	for text, want := range map[string]float64{
		"4.000 + .030": 4.03, `4.000" bore + .030" over`: 4.03, "Bore 4.000 +.060": 4.06,
		"+.030 over 4.000": 4.03, `Bore fixture: +.030" over 4.000"`: 4.03, ".030 over 4.030 bore": 4.06, ".040 over a std 4-1/8": 4.165,
		"Heron 210 bore 96 mm": 96 / 25.4, "Quillan 90 alesaggio 96 mm": 96 / 25.4, "Quillan 210 Bohrung 96": 96 / 25.4, "HR-90 96 bore 28 inH2O": 96 / 25.4,
		"100 bore 100 mm H2O": 100 / 25.4, "96 bore, 84 cfm": 96 / 25.4, "cilindro 100 mm": 100 / 25.4, `CFM @ 28" bore 4.000`: 4,
	} {
		if got := parse.FindBores(text); len(got) != 1 || math.Abs(got[0].Bore.In()-want) > exact || got[0].Over {
			t.Errorf("FindBores(%q) = %+v; want one of %v in", text, got, want)
		}
	}
	for text, want := range map[string]int{
		"PW-33 4.030 bore 28 inH2O": 1, "28\" bore 4.030": 1, "bore 4.030/4.155": 2, "cylinder 1": 0, "no bores here": 0, "4.030 over three days": 0,
		"Small on 4.155 bore": 1, `bore dia. 3.937"`: 1, `4.030" bore tube`: 1, "bore diameter 96 mm": 1, `on .030 over tube`: 1, `1.75" bore tube`: 0,
		"4.155 in. CYL BORE": 1, `4 1/8" dummy bore`: 1, "diám. cilindro 114,3 mm": 1, "bore adaptor 4.030": 1, "bore - 4.310 in.": 1, `ZYLINDERBOHRUNG 4 1/2"`: 1, "LG72 bore": 0,
		"RK60 - Diámetro cilindro Ø86 - 70 mbar": 1, "diametro cilindro 92 mm": 1, "diámetro válvula 46 mm": 0,
		"Heron 90 bore 96": 2, "Heron 210 bore 84 cfm": 1, ".030 over 350": 1, "cilindro 1": 0,
	} {
		if got := parse.FindBores(text); len(got) != want {
			t.Errorf("FindBores(%q) = %+v; want %d", text, got, want)
		}
	}
}

func TestReading(t *testing.T) {
	for text, want := range map[string]parse.ReadingText{
		"265": {Value: 265, Known: true}, "265*": {Value: 265, Known: true, Mark: "*"}, "~265": {Value: 265, Known: true, About: true},
		"265 cfm": {Value: 265, Known: true, Remark: "cfm"}, "265+": {Value: 265, Known: true, AtLeast: true}, ">265": {Value: 265, Known: true, AtLeast: true},
		"<60": {Value: 60, Known: true, AtMost: true}, "265?": {Value: 265, Known: true, Doubted: true}, "257 (backs up)": {Value: 257, Known: true, Remark: "backs up"},
		"329 nosing over?": {Value: 329, Known: true, Remark: "nosing over?"}, "262-265": {Value: 263.5, Known: true, Band: [2]float64{262, 265}},
		"264†": {Value: 264, Known: true, Mark: "†"}, "264 (1)": {Value: 264, Known: true, Mark: "(1)"}, "18,8": {Value: 18.8, Known: true},
		"-": {Missing: true, Remark: "-"}, "n/t": {Missing: true, Remark: "n/t"}, "DNF": {Missing: true, Remark: "DNF"}, "whistles": {Missing: true, Remark: "whistles"},
		"265\u00a0cfm": {Value: 265, Known: true, Remark: "cfm"},
	} {
		if got := parse.Reading(text, parse.MarkUnknown); got != want {
			t.Errorf("Reading(%q) = %+v; want %+v", text, got, want)
		}
	}
	for _, text := range []string{"262/258", "2 65", "(265)", "26O", "2l5", "1,250", "265 (258 before)", "300-100", "12/3/2026", "=", "265%"} {
		if got := parse.Reading(text, parse.MarkUnknown); got.Known || got.Unsure == "" {
			t.Errorf("Reading(%q) = %+v; want it asked", text, got)
		}
	}
}

func TestFormula(t *testing.T) {
	for text, want := range map[string]struct {
		kind   parse.FormulaKind
		factor float64
	}{
		"A7*1.058": {parse.Multiplied, 1.058}, "=1.058*A7": {parse.Multiplied, 1.058}, "A7*SQRT(28/25)": {parse.Multiplied, math.Sqrt(28.0 / 25)},
		"AVERAGE(B2:C2)": {parse.Aggregate, 0}, "D7-B7": {parse.Difference, 0}, "[old.xlsx]A!B2": {parse.Linked, 0}, "B2+C2": {parse.OtherFormula, 0},
		"A7*SQRT(28/0)": {parse.OtherFormula, 0}, "": {parse.NoFormula, 0},
	} {
		kind, factor := parse.Formula(text)
		if kind != want.kind || math.Abs(factor-want.factor) > exact {
			t.Errorf("Formula(%q) = %v, %v; want %+v", text, kind, factor, want)
		}
	}
}

// Whatever is typed, the readers of figures neither panic nor make up numbers
// that are none.
func FuzzFigures(f *testing.F) {
	for _, seed := range []string{"265*", "4-1/8\" bore", "28 inH2O", ".100", "1,250", "2 65", "@28", "60 mbar", "Ø104,8", "=A7*1.058", ">", "(", "9e999", "Int .200"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if r := parse.Reading(text, parse.MarkUnknown); r.Known && (math.IsNaN(r.Value) || math.IsInf(r.Value, 0) || r.Value < 0) {
			t.Errorf("Reading(%q) = %v", text, r.Value)
		}
		if l, ok := parse.Lift(text); ok && (l.Value < 0 || l.Value > 1500) {
			t.Errorf("Lift(%q) = %v", text, l.Value)
		}
		for _, p := range parse.FindPressures(text) {
			if p.Start < 0 || p.End > len(text) || p.Start >= p.End {
				t.Errorf("FindPressures(%q): %+v", text, p)
			}
		}
		for _, b := range append(parse.FindBores(text), parse.FindLooseBores(text)...) {
			if b.Start < 0 || b.End > len(text) || b.Start >= b.End {
				t.Errorf("FindBores(%q): %+v", text, b)
			}
		}
		parse.FindBarePressure(text)
		parse.Formula(text)
		if unit, ok := parse.FindFlowUnit(text); ok && unit == parse.FlowNotStated {
			t.Errorf("FindFlowUnit(%q) found nothing and says it did", text)
		}
	})
}
