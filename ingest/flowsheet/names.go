package flowsheet

import (
	"regexp"
	"slices"
	"strings"
	"unicode"

	"flowshelf/analysis/head"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// names finds the heads, suppliers and benches the shop knows, and codes that
// look like a head's name.
type names struct {
	heads     nameList          // the shop's spelling of each way a head is written
	folded    map[string]string // the same by their small letters
	loose     map[string]string
	suppliers nameList
	benches   nameList
	own       map[string]bool // bench names that are the shop's
	around    map[string]bool // words of the names of suppliers, benches, families and the shop
	listed    map[string]head.Listed
	shop      head.Shop
}

// namesOf returns what the shop of a page knows by name.
func namesOf(about layout.Context) *names { return layout.OfShop(about, newNames) }

func newNames(shop head.Shop) *names {
	n := &names{loose: map[string]string{}, folded: map[string]string{}, own: map[string]bool{}, around: map[string]bool{}, listed: map[string]head.Listed{}, shop: shop}
	for _, h := range shop.Heads {
		n.listed[h.Name] = h
		for _, w := range h.Called() {
			if w = parse.Squeeze(w); w != "" {
				n.heads.add(w, h.Name)
				if _, there := n.folded[strings.ToLower(w)]; !there {
					n.folded[strings.ToLower(w)] = h.Name
				}
				n.loose[bareCode(w)] = h.Name
			}
		}
		n.addSupplier(h.Supplier)
	}
	for _, s := range shop.Suppliers {
		n.addSupplier(s.Name)
	}
	for _, f := range shop.Families {
		n.addAround(f.Name)
	}
	for _, b := range shop.Benches {
		n.addAround(b.Name)
		if b.Name != "" {
			n.benches.add(b.Name, b.Name)
			n.own[b.Name] = b.Own || strings.EqualFold(b.Owner, "own")
		}
	}
	if name := parse.Squeeze(shop.Name); name != "" {
		n.addAround(name)
		n.benches.add(name, name)
		n.own[name] = true
	}
	return n
}

// addSupplier knows a supplier by the whole name and by its first word, when
// that word is long enough to mean nothing else.
func (n *names) addSupplier(name string) {
	name = parse.Squeeze(name)
	if name == "" {
		return
	}
	if n.suppliers.means(name) {
		return
	}
	n.addAround(name)
	n.suppliers.add(name, name)
	if first, _, more := strings.Cut(name, " "); more && len(first) >= 6 {
		n.suppliers.add(first, name)
	}
}

// addAround knows the words of a name that is no head's.
func (n *names) addAround(name string) {
	for _, word := range strings.Fields(name) {
		n.around[strings.ToLower(word)] = true
	}
}

var (
	codeDashed = regexp.MustCompile(`\b[A-Za-z]{1,5}-\d{1,4}[A-Za-z]{0,2}(?:-[A-Z]{1,2})?` + codeMark + `\b`)
	codeGlued  = regexp.MustCompile(`\b[A-Z]{2,5}\d{1,4}[A-Za-z]?` + codeMark + `\b`)
	codeSpaced = regexp.MustCompile(`\b[A-Za-z]{1,5}[ ._]?\d{1,4}[A-Za-z]?\b`)
	notCodes   = regexp.MustCompile(`(?i)^(h2o|co2|wo|po|inv|job|so|ro|fs|qt|doc|ref|ord|cust|tel|fax|sn|rev|invoice|order|ticket|q\d|fy\d+|v\d|rev\d*|ver\d*|tab\d*|sheet\d*|page\d*|table\d*|fig\d*|no\d*|nr\d*|jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec|iso|din|sae|mm|in|ins|cc|ml|bar|mbar|kpa|psi|hg|wc|wg|ws|rpm|hp|kw|nm|lbs?|kg|deg|pm|am|hrs?|st|nd|rd|th|w|p|r|x|c|t|n|l|s|d|vs?)$`)
)

// codeMark is what makes another product of a code: "GK-14 Mk2".
const codeMark = `(?:\s?(?:Mk|MK|Mark|Gen)\.?\s?(?:\d{1,2}|[IVX]{1,3}))?`

// notHeads are the words before a code that number a paper or a job.
var notHeads = regexp.MustCompile(`(?i)\b(?:form|formular|formulaire|formulario|modulo|vordruck|doc|document|drawing|dwg|job|order|ticket|invoice|quote|quotation|po|work order|wo|customer|cust|bench|room|rev|` +
	`(?:auftrag|angebot|rechnung|zeichnung|kunde)[sn]?(?:-?(?:nr|nummer))?|commande|devis|facture|plan|client|salle|ordine|offerta|preventivo|fattura|disegno|cliente|stanza|pedido|oferta|presupuesto|factura|plano)\.?\s*(?:no|nr|n°|#)?\.?\s*[:#]?\s*$`)

// looksLikeHead reports whether a code of letters and digits can be a head's
// name: its letters are no word of the trade.
func looksLikeHead(code string) bool {
	letters := strings.TrimRightFunc(code, func(r rune) bool { return !unicode.IsLetter(r) })
	for i, r := range code {
		if !unicode.IsLetter(r) {
			letters = code[:i]
			break
		}
	}
	if notCodes.MatchString(code) || notCodes.MatchString(letters) {
		return false
	}
	hits := words.FlowSheet().Find(words.Tokens(letters))
	return len(hits) == 0 || len(hits) == 1 && isCodeOf(hits[0].Role, code)
}

var (
	tiedCode   = regexp.MustCompile(`^[A-Z]{2,3}-?\d{2,4}(?:\D|$)`)
	dashedCode = regexp.MustCompile(`^[A-Z]{2,3}-\d{2,4}(?:\D|$)`)
	largeCode  = regexp.MustCompile(`^[A-Z]{2,3} \d{3}(?:\D|$)`)
	keyedCode  = regexp.MustCompile(`^[A-Z]{2,3}(?:[ -]?\d{2,4}[A-Z]?|-\d)$`)
	portCode   = regexp.MustCompile(`^(?:INT?|EXH?|EIN|AUS|AD|ADM|ECH?|ESC?|ASP?)-\d$`) // a port and its number
)

// isKeyedCode reports whether the value of a head's key is a code, whatever its
// letters are short for elsewhere ("HP-180", "EX-220"), unless it tells of an average
// or the like.
func (f facts) isKeyedCode(value string) bool {
	read := f.setUp() || len(f.serial)+len(f.sample)+len(f.mark)+len(f.run) > 0 // "SN 4417"
	return keyedCode.MatchString(value) && !portCode.MatchString(value) && !read && !f.says(words.Average, words.Minimum, words.Maximum, words.Peak, words.Total, words.Gain)
}

// isCodeOf reports whether a code is a head's though its letters are short for a
// word of the trade: "SD-33", "NB216". Nobody writes a deviation of 213, or ties a
// remark or a coefficient to a figure of two digits.
func isCodeOf(role words.Role, code string) bool {
	switch role {
	case words.Spread:
		return tiedCode.MatchString(code) || largeCode.MatchString(code)
	case words.Note:
		return tiedCode.MatchString(code)
	case words.Area, words.Filler, words.Power:
		return dashedCode.MatchString(code)
	default:
		return false
	}
}

// bareCode strips a name to its letters and digits, for nearly equal names.
func bareCode(name string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToUpper(r)
		}
		return -1
	}, name)
}

// head returns the shop's spelling of a name that stands alone in a cell.
func (n *names) head(text string) (string, bool) {
	text = parse.Squeeze(text)
	name, ok := n.folded[strings.ToLower(text)]
	return name, ok
}

// nearly returns the shop's head whose name differs from the text only by
// dashes, spaces or dots.
func (n *names) nearly(text string) (string, bool) {
	means, ok := n.loose[bareCode(text)]
	return means, ok && bareCode(text) != ""
}

// knowsBench reports whether the shop lists a bench of the name.
func (n *names) knowsBench(name string) bool {
	return slices.ContainsFunc(n.benches.all, func(b named) bool { return strings.EqualFold(b.means, name) })
}
