package flowsheet

import (
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"flowshelf/analysis/head"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// names finds the heads, suppliers and benches the shop knows, and codes that
// look like a head's name.
type names struct {
	heads     []named // the shop's spelling of each way a head is written
	loose     map[string]string
	suppliers []named
	benches   []named
	own       map[string]bool // bench names that are the shop's
	listed    map[string]head.Listed
	shop      head.Shop
}

type named struct{ written, means string }

func newNames(about layout.Context) *names {
	n := &names{loose: map[string]string{}, own: map[string]bool{}, listed: map[string]head.Listed{}, shop: about.Shop}
	for _, h := range about.Shop.Heads {
		n.listed[h.Name] = h
		for _, w := range h.Called() {
			if w = parse.Squeeze(w); w != "" {
				n.heads = append(n.heads, named{w, h.Name})
				n.loose[bareCode(w)] = h.Name
			}
		}
		n.addSupplier(h.Supplier)
	}
	for _, s := range about.Shop.Suppliers {
		n.addSupplier(s.Name)
	}
	for _, b := range about.Shop.Benches {
		if b.Name != "" {
			n.benches = append(n.benches, named{b.Name, b.Name})
			n.own[b.Name] = b.Own || strings.EqualFold(b.Owner, "own")
		}
	}
	if name := parse.Squeeze(about.Shop.Name); name != "" {
		n.benches = append(n.benches, named{name, name})
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
	for _, have := range n.suppliers {
		if have.means == name {
			return
		}
	}
	n.suppliers = append(n.suppliers, named{name, name})
	if first, _, more := strings.Cut(name, " "); more && len(first) >= 6 {
		n.suppliers = append(n.suppliers, named{first, name})
	}
}

// find returns where the names of a list stand in a text as whole words.
func find(list []named, text string) []span {
	var out []span
	lower := strings.ToLower(text)
	for _, name := range list {
		want := strings.ToLower(name.written)
		for from := 0; ; {
			at := strings.Index(lower[from:], want)
			if at < 0 {
				break
			}
			start := from + at
			end := start + len(want)
			if wholeWord(lower, start, end) {
				out = append(out, span{start, end, name.means})
			}
			from = end
		}
	}
	return out
}

type span struct {
	start, end int
	means      string
}

// wholeWord reports whether no letter or digit touches the span, also across a
// dash: OB-4 does not stand in OB-44, nor PW-33 in PW-33-B.
func wholeWord(text string, start, end int) bool {
	near, size := utf8.DecodeLastRuneInString(text[:start])
	next, _ := utf8.DecodeLastRuneInString(text[:start-size])
	if touches(near, next) {
		return false
	}
	near, size = utf8.DecodeRuneInString(text[end:])
	next, _ = utf8.DecodeRuneInString(text[end+size:])
	return !touches(near, next)
}

// touches reports whether what stands beside a name carries it on: near is the
// next character, next the one after it.
func touches(near, next rune) bool {
	if unicode.IsLetter(near) || unicode.IsDigit(near) {
		return true
	}
	return (near == '-' || near == '.') && (unicode.IsDigit(next) || (near == '-' && unicode.IsLetter(next)))
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
var notHeads = regexp.MustCompile(`(?i)\b(?:form|formular|formulaire|formulario|modulo|vordruck|doc|document|drawing|job|auftrag|order|invoice|quote|po|work order|wo|customer|cust|bench|room|rev)\.?\s*(?:no|nr|n°|#)?\.?\s*[:#]?\s*$`)

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
	return len(words.FlowSheet().Find(words.Tokens(letters))) == 0
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
	for _, h := range n.heads {
		if strings.EqualFold(h.written, text) {
			return h.means, true
		}
	}
	return "", false
}

// nearly returns the shop's head whose name differs from the text only by
// dashes, spaces or dots.
func (n *names) nearly(text string) (string, bool) {
	means, ok := n.loose[bareCode(text)]
	return means, ok && bareCode(text) != ""
}

// knowsBench reports whether the shop lists a bench of the name.
func (n *names) knowsBench(name string) bool {
	return slices.ContainsFunc(n.benches, func(b named) bool { return strings.EqualFold(b.means, name) })
}
