package words_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"flowshelf/ingest/words"
)

func roles(text string) []words.Role {
	var out []words.Role
	for _, hit := range words.FlowSheet().Find(words.Tokens(text)) {
		out = append(out, hit.Role)
	}
	return out
}

func TestFind(t *testing.T) {
	for text, want := range map[string][]words.Role{
		"Lift": {words.Lift}, "Hub mm": {words.Lift}, "Levée": {words.Lift}, "ALZATA": {words.Lift},
		"h_v [mm]": {words.Lift}, "Ventil-Ø Einlass": {words.Intake}, "Ventildurchmesser Auslass": {words.Exhaust},
		"Int": {words.Intake}, "Einlaß": {words.Intake}, "Einlass l/s": {words.Intake}, "Échappement": {words.Exhaust}, "Scarico": {words.Exhaust},
		"Int #1": {words.Intake, words.PortNo}, "Exh2": {words.Exhaust}, "w/o pipe": {words.NoPipe}, "no pipe": {words.NoPipe}, "with pipe": {words.Pipe},
		"VJ + blend": {words.Rework, words.Rework}, "As del.": {words.AsDelivered}, "3-angle valve job": {words.Rework, words.Rework},
		"EV": {words.AmbiguousPort}, "AV": {words.AmbiguousPort}, "interest": nil, "liftgate": nil, "export": nil, "E/I": {words.BothPorts},
		"Avg": {words.Average}, "Peak": {words.Peak}, "Gain %": {words.Gain}, "% of range": {words.PercentOfRange}, "our bench": {words.OwnBench},
		"eigene Fließbank": {words.OwnBench}, "Fließbank": {words.Bench}, "banco nostro": {words.OwnBench}, "Índice": {words.Cover}, "Titelblatt": {words.Cover},
		"nackt": {words.BarePort}, "seule": {words.BarePort}, "sharp": {words.NoEntry},
	} {
		if diff := cmp.Diff(want, roles(text)); diff != "" {
			t.Errorf("%q (-want +got):\n%s", text, diff)
		}
	}
}

func TestTokens(t *testing.T) {
	var got []string
	for _, token := range words.Tokens("Int1 28in, 4.030 Ø96,5 w/o L/D #3") {
		got = append(got, token.Text)
	}
	want := []string{"int", "1", "28", "in", "4.030", "ø", "96,5", "w", "o", "l", "d", "#", "3"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("tokens (-want +got):\n%s", diff)
	}
}

// Tokens lie in order inside the text, whatever it is.
func FuzzTokens(f *testing.F) {
	f.Add("Lift (in) | Int cfm")
	f.Add("\xff\u00c4 1.2.3,")
	f.Fuzz(func(t *testing.T, text string) {
		last := 0
		tokens := words.Tokens(text)
		for _, token := range tokens {
			if token.Start < last || token.End <= token.Start || token.End > len(text) {
				t.Fatalf("token %+v of %q", token, text)
			}
			last = token.End
		}
		for _, hit := range words.FlowSheet().Find(tokens) {
			if hit.At+hit.Tokens > len(tokens) || hit.Tokens == 0 {
				t.Fatalf("hit %+v of %q", hit, text)
			}
		}
	})
}
