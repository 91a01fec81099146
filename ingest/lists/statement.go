package lists

import (
	"regexp"
	"slices"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
)

// statement is what the texts around a price list say about all of its prices.
type statement struct {
	basis      source.Stated[head.Basis]
	bases      int // how many different ones are stated
	rung       source.Stated[head.Rung]
	build      string
	currency   string
	chain      []decimal.Decimal
	chainAt    source.Trace
	freight    freight
	taxed      bool            // the prices hold a tax
	tax        decimal.Decimal // of so many percent, zero when that is not said
	surcharges []surchargeSaid
	until      source.Stated[time.Time] // the prices end
	effective  source.Stated[time.Time]
	unclear    *parse.Day // the list's date when it can be read two ways
	unclearAt  decode.Cell
}

// freight is a stated freight before its currency and number of heads are
// settled.
type freight struct {
	known    bool
	amount   decimal.Decimal
	currency string
	basis    head.Basis
	trace    source.Trace
}

var (
	clauseEnd   = regexp.MustCompile(`[;\n]|[.,:]\s+|\s{2,}|[.,]$`)
	freightSaid = regexp.MustCompile(`(?i)\b(freight|frt|shipping|fracht|versand)\b`)
	freightIn   = regexp.MustCompile(`(?i)\b(freight|frt|shipping|fracht|versand)\b[^.,;\d]{0,20}\b(in|included|incl|paid|allowed|free|frei)\b|\bfrei haus\b`)
	freightSum  = regexp.MustCompile(`(?i)(?:([$€£+]|[A-Z]{3}\s)?\s*(\d+(?:[.,]\d{1,2})?)\s*(EUR|USD|CAD|GBP|€|£)?)`)
	perOrder    = regexp.MustCompile(`(?i)\b(per|an?)\s+(order|shipment|pallet|box)\b|/\s*order\b|%|\bover\b`)
	effective   = regexp.MustCompile(`(?i)\beff(ective|\.)?\b|\bvalid from\b|g(ü|ue)ltig ab|\bas of\b|\bin force\b|\bdate\b|\bdatum\b|\bfrom\b`)
	taxIncluded = regexp.MustCompile(`(?i)\b(incl(uding|usive of|usive|\.)?|inkl(usive|\.)?)\s*(\d+([.,]\d+)?\s*%\s*)?(sales )?(tax|vat|mwst|ust)\b`)
	otherTerms  = regexp.MustCompile(`(?i)\b(surcharge|core (charge|deposit)|duty|rebate|prepaid|minimum order|restocking|freight allowed|ffa)\b`)
	ending      = regexp.MustCompile(`(?i)\b(until|till?|through|ends?|expires?|bis)\b`)
)

// readStatement collects what the notes say. Every note that says something is
// claimed.
func (r *reader) readStatement() statement {
	var s statement
	dated := make([]note, 0, len(r.notes))
	for _, n := range r.notes {
		if r.readClauses(&s, n) {
			r.use(n.cell, "states prices")
		}
		switch d, ok := parse.Date(n.text); {
		case !ok:
		case !ending.MatchString(n.text):
			dated = append(dated, n)
		case !d.Ambiguous && !d.NoYear:
			s.until = source.Say(d.Date, r.trace(n.cell, ""))
			r.use(n.cell, "until when the prices hold")
		}
	}
	// A date that says what it is comes before one that only stands there.
	slices.SortStableFunc(dated, func(a, b note) int { return rank(a) - rank(b) })
	if len(dated) > 0 {
		r.dateList(&s, dated[0])
	}
	return s
}

func rank(n note) int {
	r := 0
	if n.wide {
		r += 2
	}
	if !effective.MatchString(n.text) {
		r++
	}
	return r
}

func (r *reader) dateList(s *statement, n note) {
	d, _ := parse.Date(n.text)
	r.use(n.cell, "the list's date")
	if d.Ambiguous || d.NoYear {
		s.unclear, s.unclearAt = &d, n.cell
		return
	}
	s.effective = source.Say(d.Date, r.trace(n.cell, ""))
}

func (r *reader) readClauses(s *statement, n note) bool {
	said := r.readTerms(s, n)
	for _, clause := range clauseEnd.Split(n.text, -1) {
		if freightSaid.MatchString(clause) || freightIn.MatchString(clause) {
			if f, ok := readFreight(clause); ok && !s.freight.known {
				f.trace = r.trace(n.cell, "")
				s.freight, said = f, true
			}
			continue
		}
		said = r.readClause(s, n, clause) || said
	}
	return said
}

// readTerms looks for what is no price and yet changes what a head costs.
func (r *reader) readTerms(s *statement, n note) bool {
	said := false
	if found, ok := parse.ReadSurcharge(n.text); ok {
		s.surcharges, said = append(s.surcharges, surchargeSaid{found, r.trace(n.cell, "")}), true
	} else if otherTerms.MatchString(n.text) {
		r.problem(n.cell, source.Noted, "terms-not-used", "", "a term of this list is not part of the landed cost", "allow for it in the freight of the supplier's row, if it is a cost")
	}
	if taxIncluded.MatchString(n.text) {
		s.taxed, said = true, true
		s.tax, _ = parse.TaxIncluded(n.text)
	}
	return said
}

// readClause takes basis, discount, rung, build and currency from one clause.
// The first statement of each counts; two different bases count as none.
func (r *reader) readClause(s *statement, n note, clause string) bool {
	said := false
	if basis, ok := parse.Basis(clause); ok && (!n.wide || !s.basis.Known) {
		said = true
		if !s.basis.Known || s.basis.Value != basis {
			s.bases++
		}
		s.basis = source.Say(basis, r.trace(n.cell, ""))
	}
	chain, discounted := parse.Discounts(clause)
	if discounted && s.chain == nil {
		s.chain, s.chainAt, said = chain, r.trace(n.cell, "%"), true
	}
	if rung, ok := parse.Rung(clause); ok && !discounted && !s.rung.Known {
		s.rung, said = source.Say(rung, r.trace(n.cell, "")), true
	}
	if build := parse.Build(clause); build != "" && s.build == "" {
		s.build, said = build, true
	}
	if code := parse.Currency(clause); code != "" && s.currency == "" {
		s.currency, said = code, true
	}
	return said
}

// readFreight reads "Freight $28 per head", "frt 24", "Freight in". A freight
// per order, in percent or from an amount on is none for a head.
func readFreight(clause string) (freight, bool) {
	if perOrder.MatchString(clause) {
		return freight{}, false
	}
	if m := freightSum.FindStringSubmatch(clause); m != nil {
		d, err := decimal.NewFromString(strings.ReplaceAll(m[2], ",", "."))
		if err != nil {
			return freight{}, false
		}
		f := freight{known: true, amount: d, currency: parse.Currency(clause)}
		f.basis, _ = parse.Basis(clause)
		return f, true
	}
	if freightIn.MatchString(clause) {
		return freight{known: true, amount: decimal.Zero, basis: head.Each}, true
	}
	return freight{}, false
}
