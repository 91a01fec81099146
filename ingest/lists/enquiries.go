package lists

import (
	"math"
	"regexp"
	"slices"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
)

// who is the column that names an enquiry, family that of its engine family.
const (
	who    role = "for"
	family role = "family"
)

func enquiryColumns() []column {
	is := func(r role, titles string) column {
		return column{role: r, titles: regexp.MustCompile("(?i)" + titles)}
	}
	return []column{
		is(who, `^(for( whom)?|who|customers?('?s)?( name)?|clients?|(customer |client |he |they )?(wants?|needs?|asks?( for)?|wanted|asked for)( for)?|`+
			`engine|name|enquir(y|ies)|inquir(y|ies)|request(ed by)?|asked by|job|kunde|anfrage|client(i|e|es)|use for)$`),
		is("number", `^(no\.?|#|nr\.?)$`),
		is("date", `^(date|day|datum|received|asked on|when|data|fecha)$`),
		is(family, `^((engine |motor |head )?(family|families)|family of (the )?engine|(motor ?)?familie|baureihe|famille( de moteurs?)?|famiglia|familia)$`),
		is("bore", `\bbore\b|\bbohrung\b|\bal[ée]sage\b|\balesaggio\b|\bdi[áa]metro\b`),
		is("stroke", `\bstroke\b|\bhub\b|\bcourse\b|\bcorsa\b|\bcarrera\b`),
		is("cylinders", `\bcyl(inder)?s?\.?\b|\bzyl(inder)?\b|\bcylin(dre)s?\b|\bcilindr[io]s?\b`),
		is("rpm", `\brpm\b|\bspeed\b|\brevs\b|\bdrehzahl\b|\bu/min\b|\btr/min\b|\bgiri\b`),
		is("lift", `\blift\b|\bventilhub\b|\blev[ée]e\b|\balzata\b|\balzada\b`),
		is("use", `^(use|purpose|what for|application|einsatz)$`),
		is("budget", `\bbudget\b|\blimit\b|\b(to|can|will|wants to) spend\b|\bmax(imum)?\.? (price|spend|money)\b`),
		is("musts", `\bmusts?\b|\brequire`),
	}
}

func enquiryList() kind {
	return kind{
		name:    "enquiries",
		columns: enquiryColumns(),
		needs:   []role{who},
		any:     []role{family, "bore", "stroke", "rpm", "lift", "budget", "musts"}, least: 2,
		flows: true, // a valve lift, and no reading under it
		proof: asksForHeads,
		read: func(r *reader) {
			r.liftSaid()
			for _, l := range r.lines {
				r.records.Enquiries = append(r.records.Enquiries, r.enquiry(l))
			}
		},
	}
}

var (
	enquiryWord = regexp.MustCompile(`(?i)enquir|inquir|\brequests?\b|\bquotes?\b|\bengines?\b|anfrage`)
	askingTitle = regexp.MustCompile(`(?i)enquir|inquir|customer|client|\bwants?\b|\bneeds?\b|\bask(s|ed)\b|\brequest|kunde|anfrage`)
)

// asksForHeads tells an enquiry from any list of engines: it says what may be
// spent or what must be, or calls itself one, and names a bore and a lift, or
// families of the setup.
func asksForHeads(t *table, about layout.Context) bool {
	texts := []string{t.page.Path, t.page.Sheet.Name}
	for _, n := range t.loose {
		texts = append(texts, n.text)
	}
	wants := t.has("budget", "musts") > 0 || slices.ContainsFunc(texts, enquiryWord.MatchString)
	asks := wants || slices.ContainsFunc(t.columns, func(c titled) bool { return askingTitle.MatchString(c.title) })
	if t.has("bore") > 0 && t.has("lift") > 0 && wants && t.has("stroke", "rpm", "lift", "budget", "musts") > 1 {
		return true
	}
	return asks && t.has("bore", "stroke", "rpm", "lift", "budget") > 0 && t.takeFamilies(about.Shop)
}

// has counts the roles that the table has a column for.
func (t *table) has(roles ...role) int {
	n := 0
	for _, c := range t.columns {
		if slices.Contains(roles, c.role) {
			n++
		}
	}
	return n
}

// takeFamilies finds the column that names families of the setup. Where its title
// does not say so, its cells do.
func (t *table) takeFamilies(shop head.Shop) bool {
	for i := range t.columns {
		c := &t.columns[i]
		if c.role != family && (c.role != "" || t.has(family) > 0) {
			continue
		}
		for _, l := range t.lines {
			if cell, ok := l.cells[c.place]; ok && familyIn(shop, textOf(cell)) != "" {
				c.role = family
				return true
			}
		}
	}
	return false
}

func (r *reader) enquiry(l line) head.Enquiry {
	var e head.Enquiry
	e.Name, e.At = r.head(l)
	if number := r.words(l, "number"); number != "" {
		e.Name = number + " " + e.Name
	}
	e.Use = firstOf(r.words(l, "use"), l.name())
	e.Family = r.words(l, family)
	if family := familyIn(r.about.Shop, e.Family); family != "" {
		e.Family = family
	}
	e.Bore, _ = r.length(l, "bore", aBore)
	e.Stroke, _ = r.length(l, "stroke", aStroke)
	e.Lift, _ = r.length(l, "lift", aLift)
	e.RPM = r.number(l, "rpm", "rpm")
	if n := r.number(l, "cylinders", ""); n.Known && n.Value == math.Trunc(n.Value) && n.Value > 0 && n.Value <= 24 {
		e.Cylinders = source.Say(int(n.Value), n.Trace)
	}
	e.Budget = r.ownMoney(l, "budget")
	if e.Budget.Known && e.Budget.Value.Amount.IsZero() {
		e.Budget = source.Stated[quantity.Money]{}
	}
	for must := range strings.FieldsFuncSeq(r.words(l, "musts"), func(c rune) bool { return c == ',' || c == ';' }) {
		if must = parse.Squeeze(must); must != "" {
			e.Musts = append(e.Musts, must)
		}
	}
	if cell, _, ok := r.cell(l, "date"); ok {
		r.use(cell, "date of the enquiry")
	}
	return e
}

// unnamedEnquiries tells of a table that looks like enquiries and lacks a column
// without which none can be answered: left unsaid, a customer would wait in vain.
type unnamedEnquiries struct{}

// Name implements layout.Recogniser.
func (unnamedEnquiries) Name() string { return "enquiries with a column missing" }

// Recognise implements layout.Recogniser.
func (u unnamedEnquiries) Recognise(page *layout.Page, about layout.Context) head.Records {
	k := enquiryList()
	k.needs, k.any, k.least = []role{family}, []role{who, "date", "bore", "lift", "budget"}, 2
	var out head.Records
	if len(about.Shop.Families) == 0 || !k.mayHold(page) {
		return out
	}
	for _, t := range findTables(upright(page), k) {
		if len(t.lines) == 0 || t.has(key) > 0 || !t.takeFamilies(about.Shop) {
			continue
		}
		missing, hint := "column that says who asks", "give the column of the customer or his engine the title Customer"
		if t.has(who) > 0 {
			missing, hint = "valve lift, bore or budget", "give one of them a column, titled Valve lift, Bore or Budget"
		}
		first := t.columns[0].cells[0]
		out.Problems.Add(source.Problem{At: page.Ref(first), Severity: source.Refused, Kind: "enquiry-column-missing", Found: titlesOf(t),
			Message: "this looks like enquiries, and no " + missing + " is among its titles, so none of them is answered", Hint: hint})
		for _, c := range t.cells() {
			page.Claim(c.Row, c.Col, layout.Claim{By: u.Name(), Why: "an enquiry without a " + missing})
		}
	}
	return out
}

func titlesOf(t *table) string {
	var out []string
	for _, c := range t.columns {
		out = append(out, c.title)
	}
	return strings.Join(out, ", ")
}
