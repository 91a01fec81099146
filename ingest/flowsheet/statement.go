package flowsheet

import (
	"regexp"
	"slices"
	"strings"
	"unicode"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// statement is one clause of a title line or a note: what it says, and of
// which columns.
type statement struct {
	facts facts
	only  condition
}

// condition narrows a statement: "Exh: with pipe", "Adv: their conditions",
// "LKC-41 on 4.310 bore", "Small on 4.155 bore".
type condition struct {
	port   said[head.Port]
	class  said[head.Class]
	heads  said[string]
	family string
}

func (c condition) narrow() bool {
	return len(c.port)+len(c.class)+len(c.heads) > 0 || c.family != ""
}

func (c condition) onlyPort() bool {
	return len(c.port) > 0 && len(c.class)+len(c.heads) == 0 && c.family == ""
}

// holds reports whether a column with these facts is spoken of.
func (c condition) holds(f facts, n *names) bool {
	if len(c.port) > 0 && !anyOf(c.port, f.port) {
		return false
	}
	if len(c.class) > 0 && !anyOf(c.class, f.class) {
		return false
	}
	if len(c.heads) > 0 && !anyOf(c.heads, f.head) {
		return false
	}
	if c.family == "" {
		return true
	}
	h, ok := f.head.one()
	return ok && n.listed[h.Value].Family == c.family
}

func anyOf[T comparable](want, have said[T]) bool {
	return slices.ContainsFunc(have, func(h source.Stated[T]) bool { return want.has(h.Value) })
}

var (
	chunkGap   = regexp.MustCompile(`\s{2,}|\s(?:[.*·•]|//)\s|;\s*|\||\t|\n`)
	looseNoun  = regexp.MustCompile(`(?i)([\d.,/]*\d["”]?)\s{2,}(bore|fixture|sleeve|tube|mm)\b((?: (?:bore|fixture|sleeve|tube))? ?[:=]? ?Ø?\d)?`) // "4 3/8   bore"
	abbreviate = regexp.MustCompile(`(?i)(?:^|[\s(])(?:in|ser|nr|no|del|rec|press|cyl|zyl|vs|dia|max|min|avg|ex|exh|int|approx|ca|adv|test|corr|st|dr|mr|w|h|g|s|n|rev|ver|vers|ausf|` +
		// units, and what the five languages clip (common practice, no source)
		`ins|pulg|po|pouc|poll|unterdr|pr[uü]f|bohr|durchm|einl|ausl|ventild|d[eé]pr|depress|d[eé]b|al[eé]s|diam|di[aá]m|[eé]ch|adm|soup|asp|scar|alz|v[aá]lv|cil|culb?|esc|pres|caud|matr|r[eé]f|n[uú]m|fa|gr|bzw|ggf|inkl|gem|lt|env|aprox)$`)
	negated    = regexp.MustCompile(`(?i)\b(?:not|nicht|never|isn't|wasn't)\s+(?:\w+\s+)?(?:published|flowed|tested|given|stated|known|chart|measured|supplied|shown)\b|\bnot a\b|\bnot an\b`)
	narrowHead = regexp.MustCompile(`(?i)^\s*(?:and\s+)?.{1,60}?\bon\s+(?:the\s+|a\s+)?(?:ø\s*)?\d`)
)

// statements parts a text into clauses and reads each of them.
func (r *reader) statements(text string, trace source.Trace) []statement {
	var out []statement
	var lasting condition
	_, dated := parse.Date(text)
	for _, sentence := range sentences(text) {
		if dated && areInitials(sentence) {
			f := newFacts()
			f.operator.add(strings.TrimSpace(sentence), trace)
			out = append(out, statement{facts: f})
			continue
		}
		if negated.MatchString(sentence) || seatsOf(sentence) {
			continue
		}
		read := r.sentence(sentence, trace, lasting)
		out = append(out, read...)
		if len(read) > 0 && len(read[len(read)-1].only.class) > 0 {
			lasting = read[len(read)-1].only
		}
	}
	return out
}

// sentences parts a text at double spaces, semicolons and full stops.
func sentences(text string) []string {
	var out []string
	for _, chunk := range chunkGap.Split(closeUp(text), -1) {
		from := 0
		for i := 0; i+2 < len(chunk); i++ {
			if chunk[i] != '.' || chunk[i+1] != ' ' || abbreviate.MatchString(chunk[from:i]) {
				continue
			}
			if next := []rune(chunk[i+2:])[0]; unicode.IsUpper(next) && !opensName(chunk[from:i]) {
				out, from = append(out, keyedParts(chunk[from:i])...), i+2
			}
		}
		out = append(out, keyedParts(chunk[from:])...)
	}
	return slices.DeleteFunc(out, func(s string) bool { return strings.TrimSpace(s) == "" })
}

// closeUp brings a figure and its noun together that two spaces part. A noun with
// a figure of its own behind it begins something new: "Merle 12  Bore fixture 4.030".
func closeUp(text string) string {
	return looseNoun.ReplaceAllStringFunc(text, func(s string) string {
		m := looseNoun.FindStringSubmatch(s)
		if m[3] != "" && !strings.ContainsAny(m[1], ".,/") {
			return s
		}
		return m[1] + " " + m[2] + m[3]
	})
}

// nameStart is a short word right behind a key or at the start of a text: with a
// full stop it is clipped, since no sentence is one word.
var nameStart = regexp.MustCompile(`(?:^|[:=]\s*)(\p{Lu}\p{L}{0,3})$`)

// opensName reports whether a text ends with the clipped word that a name begins
// with: "Culasse: Gr" before ". A 205".
func opensName(text string) bool {
	m := nameStart.FindStringSubmatch(strings.TrimSpace(text))
	return m != nil && !isTradeWord(m[1])
}

var keyedGap = regexp.MustCompile(`,\s+|\s[-–—/]\s`)

// keyedParts parts a list of keys and values at its commas: "Bore: 4.030,
// Pressure: 28". A lone key keeps what follows it, unless it stands further on.
func keyedParts(sentence string) []string {
	if boxes := boxedParts(sentence); boxes != nil {
		return boxes
	}
	parts := keyedGap.Split(sentence, -1)
	keys := 0
	for i, part := range parts {
		if k, _, ok := keyValue(part); ok && k.role != words.Note {
			keys += 1 + min(i, 1)
		}
	}
	if keys < 2 {
		return []string{sentence}
	}
	return parts
}

// boxedParts parts "BORE [4.030] HEAD [PW-33] by JT" into its boxes and what
// stands behind them; nil when fewer than two of the boxes have a key, unless one
// box with its key is all there is.
func boxedParts(sentence string) []string {
	var out []string
	keys, end := 0, 0
	for _, at := range boxedPair.FindAllStringSubmatchIndex(sentence, -1) {
		key := strings.TrimSpace(sentence[at[2]:at[3]])
		if _, ok := captionOf(key); ok {
			keys++
		}
		out, end = append(out, key+": "+sentence[at[4]:at[5]]), at[1]
	}
	if rest := strings.TrimSpace(sentence[end:]); keys == 0 || keys < 2 && (len(out) > 1 || rest != "") {
		return nil
	}
	return append(out, sentence[end:])
}

// sentence reads one sentence. A port or a class at its start, with a colon,
// narrows all of it, and a class also the sentences after it; "Auslass mit
// Rohr" after a comma narrows that part only; "LKC-41 on 4.310 bore" narrows itself.
func (r *reader) sentence(text string, trace source.Trace, only condition) []statement {
	if key, value, ok := keyValue(text); ok {
		return []statement{{facts: r.captioned(key, value, trace)}}
	}
	if value, ok := namedBare(text); ok {
		return []statement{{facts: r.captioned(caption{role: words.Head, text: text}, value, trace)}}
	}
	var out []statement
	var plain []string
	flush := func() {
		if len(plain) > 0 {
			out = append(out, statement{r.read(newLine(strings.Join(plain, ","), trace, inTitle)), only})
			plain = nil
		}
	}
	outer := only
	for part := range strings.SplitSeq(text, ",") {
		l := newLine(part, trace, inTitle)
		if own, ok := r.narrowed(l); ok {
			f := r.read(l)
			out = append(out, statement{f.conditions(), own})
			continue
		}
		if f, ok := r.valveAlone(part, trace); ok {
			out = append(out, statement{facts: f})
			continue
		}
		whole := part
		c, rest, ok := r.prefix(part)
		if ok {
			flush()
			only, part = c, rest
		}
		plain = append(plain, part)
		if ok && rest == whole && len(out) > 0 {
			flush()
			only = outer // "exh with pipe, clay": the clay is not the exhaust's
		}
	}
	flush()
	return out
}

// prefix reads a port or a class that opens a sentence or a part of one.
func (r *reader) prefix(part string) (condition, string, bool) {
	tokens := words.Tokens(part)
	if len(tokens) == 0 {
		return condition{}, part, false
	}
	hits := words.FlowSheet().Find(tokens)
	if len(hits) == 0 || hits[0].At != 0 {
		return condition{}, part, false
	}
	end := tokens[hits[0].Tokens-1].End
	after := strings.TrimLeft(part[end:], ".")
	colon := strings.HasPrefix(strings.TrimSpace(after), ":")
	var c condition
	switch role := hits[0].Role; {
	case role == words.Intake && (colon || len(hits) > 1):
		c.port.add(head.Intake, source.Trace{})
	case role == words.Exhaust && (colon || len(hits) > 1):
		c.port.add(head.Exhaust, source.Trace{})
	case role == words.Advertised && colon:
		c.class.add(head.Advertised, source.Trace{})
	case role == words.Tested && colon && !startsWithCode(strings.TrimLeft(after, ": ")) && !codeDashed.MatchString(after):
		c.class.add(head.Own, source.Trace{})
		c.class.add(head.Supplier, source.Trace{})
	default:
		return condition{}, part, false
	}
	if colon {
		return c, strings.TrimPrefix(strings.TrimSpace(after), ":"), true
	}
	return c, part, true // the port word itself still counts
}

// narrowed reads "LKC-07 and LKC-12 on 4.030 bore" and "Large on 4.600".
func (r *reader) narrowed(l *line) (condition, bool) {
	part := l.text
	if !narrowHead.MatchString(part) {
		return condition{}, false
	}
	var c condition
	for _, s := range r.names.heads.find(part) {
		c.heads.add(s.means, l.said(part[s.start:s.end]))
	}
	if len(c.heads) > 0 {
		return c, true
	}
	for _, code := range codeDashed.FindAllString(part, -1) {
		if looksLikeHead(code) {
			c.heads.add(code, l.said(code))
		}
	}
	if len(c.heads) > 0 {
		return c, true
	}
	c.family = r.family(part)
	return c, c.family != ""
}

// family finds the one family that a part names by its whole name or by a
// first word no other family has.
func (r *reader) family(part string) string {
	tokens := words.Tokens(part)
	found := ""
	for _, f := range r.about.Shop.Families {
		first, _, _ := strings.Cut(words.Fold(f.Name), " ")
		unique := !slices.ContainsFunc(r.about.Shop.Families, func(o head.Family) bool {
			return o.Name != f.Name && strings.HasPrefix(words.Fold(o.Name), first+" ")
		})
		if unique && slices.ContainsFunc(tokens, func(t words.Token) bool { return t.Text == first }) {
			if found != "" {
				return ""
			}
			found = f.Name
		}
	}
	return found
}

// namedBare reads "Part no. Drover 12": a key that can only be a head's, and
// nothing behind it but a name.
func namedBare(text string) (string, bool) {
	m := bareHeadKey.FindStringSubmatch(text)
	if m == nil || len(words.FlowSheet().Find(words.Tokens(m[1]))) > 0 {
		return "", false
	}
	return m[1], true
}

// bareHeadKey opens a line that names a head without a mark between key and name.
var bareHeadKey = regexp.MustCompile(`^(?i:(?:cyl(?:inder|\.)?\s*)?(?:head|casting|part)\s*(?:no\.|number|nr\.?|model|code|ref\.?|#)|p/n|sku|zyl(?:inder)?kopf-?nr\.?|teilenummer|teile-?nr\.?)\s+([A-Z0-9][\w-]*(?:\s[A-Z0-9][\w-]*)?)$`)

// keyEnd stands between a key and its value, in one cell.
var keyEnd = regexp.MustCompile(`\s*\.{2,}\s*:?\s*|\s*…\s*:?\s*|\s*:\s*|\s*=\s*|\s+(?:/|[-–—])\s+`)

// unboxed takes the brackets off a value that a form puts into a box.
func unboxed(value string) string {
	value = strings.TrimSpace(value)
	if m := boxed.FindStringSubmatch(value); m != nil {
		return strings.TrimSpace(m[1])
	}
	return value
}

// boxed is a value in brackets, boxedPair one with its key before it.
var (
	boxed     = regexp.MustCompile(`^[\[<{]([^\[\]<>{}]*)[\]>}]$`)
	boxedPair = regexp.MustCompile(`([^\[\]]*\pL[^\[\]]*)\[([^\[\]]*)\]`)
)

// keyValue parts "Test Pressure: 28.0" when all of the key is one caption.
func keyValue(text string) (caption, string, bool) {
	at := keyEnd.FindStringIndex(text)
	if at == nil {
		return caption{}, "", false
	}
	key, value := text[:at[0]], unboxed(text[at[1]:])
	if value == "" {
		return caption{}, "", false
	}
	c, ok := captionOf(key)
	if !strings.ContainsAny(text[at[0]:at[1]], ":=.…") && (c.role == words.Lift || c.role == words.Flow || c.role == words.Port) {
		return c, value, false // "Lift / in.", "Flow / cfm" are labels
	}
	return c, value, ok
}
