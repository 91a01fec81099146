package flowsheet

import "regexp"

// A maker numbers what he changes: "WP4 rev. 2" is another product than "WP4", as
// "WP4 Mk2" is. A revision right behind a name belongs to it; parted from it by a
// mark it may be the paper's as well, and is asked.

const (
	// wordOfRevision comes before the number or letter of a revision: "rev. 2",
	// "Version 3", "issue C", "Ausf. B".
	wordOfRevision = `(?i:r[eé]v(?:isi[oó]n|isione)?|vers(?:i[oó]n|ione)?|ver|issue|iss|ausf(?:ührung)?|edition|ind(?:ex|ice))(?:\.\s?|[ -])(?i:n[or]\.? ?)?` +
		`(?:\d{1,2}(?:\.\d{1,2})?[A-Za-z]?|[A-Zb-h]|[IVX]{2,4})`
	// gluedRevision is one without a gap: "rev2", "RevB", "v2". "V8" is an engine.
	gluedRevision = `(?:(?i:rev|ver)(?:\d{1,2}|[A-H])|[vV]\.?(?:[1-579]|\d\.\d{1,2}))`
	aRevision     = `(?:` + wordOfRevision + `|` + gluedRevision + `)`
)

var (
	revisionTail   = regexp.MustCompile(`^([ -]` + aRevision + `)(?:$|[ ,;:.()\[\]/|\x1f])`)
	partedRevision = regexp.MustCompile(`^(?: ?[,;/(\[]| [–—-]) ?` + aRevision + `(?:$|[ ,;:.()\[\]/|\x1f])`)
)

// revisionBehind returns the revision that a name goes on with in a text, "" where
// there is none.
func revisionBehind(text string) string {
	if m := revisionTail.FindStringSubmatch(text); m != nil {
		return m[1]
	}
	return ""
}
