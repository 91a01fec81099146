package words

import (
	"cmp"
	"slices"
	"strings"
)

// German writes compounds as one word: Einlassventilhub, Prüfunterdruck. They
// are read as the words they are made of, so that no list has to hold them all.

// stems are the parts of the compounds of the trade (common practice, no source).
var stems = []string{ //nolint:gochecknoglobals // read-only
	"einlass", "auslass", "ansaug", "saug", "abgas", "auspuff", "einstrom", "ausstrom", "ventil", "kanal", "seite", "hub", "hohe", "weg", "wert", "offnung",
	"erhebung", "stellung", "luft", "durchfluss", "durchsatz", "volumen", "strom", "stromung", "menge", "masse", "druck", "unter", "differenz",
	"pruf", "test", "mess", "messung", "reihe", "abfall", "zylinder", "bohrung", "kopf", "nummer", "mittel", "durchschnitt", "teller",
	"durchmesser", "grosse", "krummer", "bogen", "rohr", "stutzen", "trichter", "radius", "einlauf", "lauf", "gesamt", "hochst", "tiefst", "kleinst", "grosst",
	"maximal", "minimal", "spitze", "spitzen", "serie", "serien", "teile", "teil", "guss", "art", "hersteller", "werk", "katalog", "angabe",
	"datum", "tag", "stand", "bank", "ring", "platte", "adapter", "hulse", "buchse", "leck", "rate", "wasser", "saule", "eigen", "einheit",
	"geschwindigkeit", "drall", "flache", "querschnitt", "brucke", "drossel", "klappe", "vergaser", "sitz", "bearbeitung", "bereich", "skala",
	"prozent", "kalibrier", "kalibrierung", "faktor", "bezug", "soll", "ist", "blatt", "protokoll", "name", "bezeichnung", "code", "zeichen", "flansch", "blende",
}

// shortestCompound is the length below which no word is taken apart.
const shortestCompound = 7

// piece is one stem of a compound and where it ends in the word, the letters
// that join it to the next one (s, n, en) included.
type piece struct {
	stem string
	end  int
}

// compound parts a folded word into its stems; a word that is not made of at
// least two of them has none.
func compound(word string) []piece {
	if len(word) < shortestCompound {
		return nil
	}
	if pieces, ok := parted(word, 0); ok && len(pieces) > 1 {
		return pieces
	}
	return nil
}

// parted finds the stems of what is left of a word, the longest first.
func parted(word string, from int) ([]piece, bool) {
	if from == len(word) {
		return nil, true
	}
	for _, p := range stemsAt(word, from) {
		for _, joint := range []string{"", "s", "n", "en", "e"} {
			end := p.end + len(joint)
			if !strings.HasPrefix(word[p.end:], joint) {
				continue
			}
			if rest, ok := parted(word, end); ok {
				return append([]piece{{p.stem, end}}, rest...), true
			}
		}
	}
	return nil, false
}

// stemsAt returns the stems that begin at a place, the longest first.
func stemsAt(word string, from int) []piece {
	var out []piece
	for _, stem := range stems {
		if end, ok := begins(word, from, stem); ok {
			out = append(out, piece{stem, end})
		}
	}
	slices.SortFunc(out, func(a, b piece) int { return cmp.Or(b.end-a.end, cmp.Compare(a.stem, b.stem)) })
	return out
}

// begins reports whether a stem stands at a place of a word, its umlauts
// written out or not, and where it ends.
func begins(word string, from int, stem string) (end int, ok bool) {
	at := from
	for i := range len(stem) {
		if at >= len(word) || word[at] != stem[i] {
			return 0, false
		}
		at++
		if isUmlautBase(stem[i]) && at < len(word) && word[at] == 'e' && (i+1 == len(stem) || stem[i+1] != 'e') {
			at++
		}
	}
	return at, true
}

func isUmlautBase(c byte) bool { return c == 'a' || c == 'o' || c == 'u' }

// plainUmlauts writes ae, oe and ue as a, o and u.
func plainUmlauts(word string) string {
	out := make([]byte, 0, len(word))
	for i := range len(word) {
		if i > 0 && word[i] == 'e' && isUmlautBase(word[i-1]) {
			continue
		}
		out = append(out, word[i])
	}
	return string(out)
}
