package flowsheet

import (
	"regexp"
	"strings"

	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/words"
)

// ownWord is all that a value says of a bench that is the shop's own.
var ownWord = regexp.MustCompile(`(?i)^\W*(?:own|our|ours|our own|my|mine|in[- ]?house|house|shop|the shop'?s?|self|eigen(?:e[rmns]?)?|unsere?[rmns]?|hauseigene?[rmns]?|im haus|intern[eo]?|` +
	`maison|notre|le n[oô]tre|propre|interne|atelier|nostr[oa]|il nostro|propri[oa]|di casa|officina|nuestr[oa]|el nuestro|propi[oa]|de (?:la )?casa|taller)\W*$`)

// testedHere are the words of a test, folded, that say it was run by whoever
// wrote the sheet.
var testedHere = regexp.MustCompile(`\b(?:here|in[- ]?house|by us|ourselves|in (?:our |the )?shop|at (?:our )?shop|in shop|we (?:found|got|read)|our own|bei uns|hier|chez nous|ici|maison|qui|da noi|in officina|aqui|por nosotros|en (?:el |nuestro )?taller|en casa)\b`)

// company is the name of a firm as it is written: words with capitals, joined
// by "&" and the like.
const company = `([A-Z\x{00C0}-\x{00DD}][\pL'.&-]*(?:\s+(?:(?:&|and|und|et|e|y|de|di|del|della|des|du|of)\s+)?[A-Z\x{00C0}-\x{00DD}][\pL'.&-]*){0,5})`

// testedAt names on whose bench a test was run: "Flow tested at X", "auf der
// Fließbank der Firma X", "Supplier test bench, X".
var testedAt = []*regexp.Regexp{
	regexp.MustCompile(`\b(?:(?i:flow[- ]?)?(?i:tested|flowed|measured|benched))\s+(?i:at|by|in the shop of|on the bench (?:of|at))\s+(?:(?i:the)\s+)?` + company),
	regexp.MustCompile(`(?i:flie(?:ß|ss)bank|flow(?:bank|bench)|flussbank|pr[uü]fstand|pr[uü]fbank|messstand)\s+(?i:der firma|der fa\.?|von|der|bei)\s+` + company),
	regexp.MustCompile(`(?i:gemessen|gepr[uü]ft|getestet)\s+(?i:bei|durch|von)\s+(?:(?i:der )?(?i:firma|fa\.)\s+)?` + company),
	regexp.MustCompile(`(?i:banc|soufflerie)\s+(?i:d'essai\s+)?(?i:de la soci[ée]t[ée]|de l'entreprise|de chez|chez)\s+` + company),
	regexp.MustCompile(`(?i:mesur[ée]e?s?|test[ée]e?s?|essay[ée]e?s?)\s+(?i:chez|par)\s+` + company),
	regexp.MustCompile(`(?i:banco)\s+(?i:della ditta|della|di|presso|de la empresa|de la casa|de|del)\s+` + company),
	regexp.MustCompile(`(?i:misurat[oaie]|provat[oaie]|medid[oa]s?|probad[oa]s?|ensayad[oa]s?)\s+(?i:presso|da|en|por)\s+` + company),
}

// supplierBench is a bench that the sheet itself calls a supplier's.
var supplierBench = regexp.MustCompile(`(?i:\b(?:supplier|maker|manufacturer|vendor|foundry)(?:'?s)?\s+(?:own\s+)?(?:test\s+|flow\s+)?(?:bench|rig)|(?:lieferanten|hersteller|werks)-?\s?(?:pr[uü]fstand|flie(?:ß|ss)bank|flussbank|bank)|banc (?:d'essai )?(?:du fournisseur|du constructeur|du fabricant)|banco (?:del fornitore|del costruttore|del proveedor|del fabricante))\s*[,:(-]\s*` + company)

// benchOf finds on whose bench a cell says that its sheet was flowed. The name
// of a firm counts when the sheet calls it a supplier, or carries it as its
// letterhead; the shop's own name says that the bench is the shop's.
func (r *reader) benchOf(page *layout.Page, c decode.Cell) (statement, bool) {
	if c.Kind != decode.Text {
		return statement{}, false
	}
	if m := supplierBench.FindStringSubmatch(c.Text); m != nil {
		return r.flownBy(page, c, m[1])
	}
	for _, pattern := range testedAt {
		if m := pattern.FindStringSubmatch(c.Text); m != nil && (r.isShop(m[1]) || letterhead(page, m[1])) {
			return r.flownBy(page, c, m[1])
		}
	}
	return statement{}, false
}

// flownBy states whose the bench is. A supplier that the shop lists is found by
// its name anyway.
func (r *reader) flownBy(page *layout.Page, c decode.Cell, name string) (statement, bool) {
	f := newFacts()
	switch name = strings.TrimRight(name, " .,-&"); {
	case r.isShop(name):
		f.own.add(true, r.trace(page, c))
	case len(r.names.suppliers.find(name)) > 0:
		return statement{}, false
	default:
		f.supplier.add(name, r.trace(page, c))
		f.flownBy.add(name, r.trace(page, c))
	}
	return statement{facts: f}, true
}

// isShop reports whether a firm is the shop itself.
func (r *reader) isShop(name string) bool {
	shop := strings.TrimSpace(words.Fold(r.about.Shop.Name))
	return shop != "" && strings.HasPrefix(words.Fold(strings.TrimSpace(name)), shop)
}

// letterheadRows is how far down a sheet its sender's name stands.
const letterheadRows = 4

// letterhead reports whether a page opens with the name of a firm, whatever
// form of company stands behind it.
func letterhead(page *layout.Page, name string) bool {
	name = words.Fold(strings.Trim(name, " .,-&"))
	if page == nil || len(name) < 4 {
		return false
	}
	for _, c := range page.Sheet.Cells {
		if c.Kind == decode.Text && c.Row <= letterheadRows && strings.HasPrefix(words.Fold(strings.TrimSpace(c.Text)), name) {
			return true
		}
	}
	return false
}
