package lists

import (
	"regexp"
	"strings"

	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
)

// Words alone prove nothing: any workbook has parts and prices. A table is ours
// when its lines go by names of the setup, or look like casting codes on a page
// that cannot speak of anything but cylinder heads.
var (
	codeLike    = regexp.MustCompile(`^[A-Z]{1,5}[- ]?\d{1,5}[A-Z]{0,3}(-[A-Z0-9]{1,3})?$`)
	sureWord    = regexp.MustCompile(`(?i)\bcylinder heads?\b|\bzylinderk(o|ö)pf|\bculasses?\b`)
	headHint    = regexp.MustCompile(`(?i)\bheads?\b`)
	castingHint = regexp.MustCompile(`(?i)\bcastings?\b|\bas cast\b`)
	chamberHint = regexp.MustCompile(`(?i)\bchambers?\b`)
	portHint    = regexp.MustCompile(`(?i)\b(intake|exhaust)\b`)
	valveHint   = regexp.MustCompile(`(?i)\b(valves?|valve job)\b`)
	runnerHint  = regexp.MustCompile(`(?i)\brunners?\b|\bported\b`)
	buildHint   = regexp.MustCompile(`(?i)\b(bare|assembled)\b`)
	volumeHint  = regexp.MustCompile(`(?i)\b\d{2,3} ?cc\b`)
)

// hints are words of the trade that also stand elsewhere: several different ones
// together do not.
func hints() []*regexp.Regexp {
	return []*regexp.Regexp{headHint, castingHint, chamberHint, portHint, valveHint, runnerHint, buildHint, volumeHint}
}

const hintsEnough = 3

// headsKnown reports whether the lines speak of heads.
func headsKnown(t *table, about layout.Context) bool {
	codes, named := 0, 0
	for _, l := range t.lines {
		name := l.name()
		if name == "" {
			continue
		}
		named++
		if knownHead(about.Shop, name) {
			return true
		}
		if codeLike.MatchString(strings.ToUpper(parse.Squeeze(name))) {
			codes++
		}
	}
	return named > 0 && codes*5 >= named*4 && speaksOfHeads(t, about)
}

// speaksOfHeads looks at everything around the lines: the file, the sheet, the
// notes, the titles, the sections and the descriptions.
func speaksOfHeads(t *table, about layout.Context) bool {
	texts := []string{t.page.Path, t.page.Sheet.Name}
	for _, n := range t.loose {
		texts = append(texts, n.text)
	}
	for _, c := range t.columns {
		texts = append(texts, c.title)
	}
	for _, l := range t.lines {
		texts = append(texts, l.section)
		for _, c := range l.cells {
			texts = append(texts, c.Text)
		}
	}
	seen := make(map[int]bool)
	for _, text := range texts {
		if sureWord.MatchString(text) || supplierIn(about.Shop, text) != "" || familyIn(about.Shop, text) != "" {
			return true
		}
		for i, hint := range hints() {
			if hint.MatchString(text) {
				seen[i] = true
			}
		}
	}
	return len(seen) >= hintsEnough
}
