package parse

import (
	"regexp"
	"strings"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
)

// Surcharge is what a note puts on top of a price: a percentage, or money.
type Surcharge struct {
	Name     string
	Percent  decimal.Decimal // zero for money
	On       head.Rung       // List or Net, RungNotStated when the note does not say
	Amount   decimal.Decimal
	Currency string
	Basis    head.Basis // of money, BasisNotStated when not written
}

var (
	surcharge   = regexp.MustCompile(`(?i)\b((?:[a-z]+\s+)?surcharge|materialzuschlag|teuerungszuschlag|metallzuschlag)\b\s*(?:of|is|:|=)?\s*([$€£]|[A-Z]{3}\s)?\s*(\d+(?:[.,]\d+)?)\s*(%|percent|pct|prozent)?([^.;\n]*)`)
	onList      = regexp.MustCompile(`(?i)\b(on|of|off|auf|vom)\b[^.;]{0,20}\blist`)
	onNet       = regexp.MustCompile(`(?i)\b(on|of|off|auf|vom)\b[^.;]{0,20}\b(net|netto|dealer|your (cost|price)|invoice)`)
	taxIncluded = regexp.MustCompile(`(?i)\b(?:incl(?:uding|usive of|usive|\.)?|inkl(?:usive|\.)?)\s*(\d+(?:[.,]\d+)?)\s*%\s*(?:sales )?(?:tax|vat|mwst|ust|gst)\b`)
	quantityOf  = regexp.MustCompile(`(?i)^(?:qty\.? ?)?(\d{1,5})\s*(?:(?:-|–|to)\s*(\d{1,5})|(\+|and up|or more))?\s*(heads?|pcs?|ea|pairs?|pr|sets?)?(?:\b|\s|$)`)
	springsTo   = regexp.MustCompile(`(?i)\b(?:to|up to|max\.? ?lift|lift to|springs? (?:to|for))\s*(0?\.\d{2,3})\b\s*(?:"|in\b|lift\b)?|\b(?:to|up to|max\.? ?lift|bis)\s*(\d{1,2}(?:[.,]\d)?)\s*mm\b`)
)

// ReadSurcharge finds a surcharge in a note: "Metal surcharge 3 % on list",
// "surcharge $12 per head". A note that only speaks of one states none.
func ReadSurcharge(note string) (Surcharge, bool) {
	m := surcharge.FindStringSubmatch(note)
	if m == nil {
		return Surcharge{}, false
	}
	x, err := decimal.NewFromString(strings.ReplaceAll(m[3], ",", "."))
	if err != nil || !x.IsPositive() {
		return Surcharge{}, false
	}
	s := Surcharge{Name: strings.ToLower(Squeeze(m[1]))}
	if m[4] == "" {
		if m[2] == "" && Currency(m[5]) == "" {
			return Surcharge{}, false // a bare figure may be either
		}
		s.Amount, s.Currency = x, Currency(m[2]+" "+m[5])
		s.Basis, _ = Basis(m[5])
		return s, true
	}
	s.Percent = x
	list, net := onList.MatchString(m[5]), onNet.MatchString(m[5])
	switch {
	case list && !net:
		s.On = head.List
	case net && !list:
		s.On = head.Net
	}
	return s, true
}

// TaxIncluded finds the percentage of a tax that a note says is in its prices.
func TaxIncluded(note string) (decimal.Decimal, bool) {
	m := taxIncluded.FindStringSubmatch(note)
	if m == nil {
		return decimal.Zero, false
	}
	x, err := decimal.NewFromString(strings.ReplaceAll(m[1], ",", "."))
	return x, err == nil && x.IsPositive()
}

// Quantity is a range of order quantities a price holds for.
type Quantity struct {
	From, To int        // To 0 for no end
	Unit     head.Basis // BasisNotStated when not written
}

// ReadQuantity reads the title of a price by quantity: "1-3", "4 to 11 pairs",
// "12+". An order in money is none.
func ReadQuantity(title string) (Quantity, bool) {
	title = Squeeze(title)
	m := quantityOf.FindStringSubmatch(title)
	if m == nil || m[2] == "" && m[3] == "" || strings.ContainsAny(title, "$€£") {
		return Quantity{}, false
	}
	q := Quantity{From: number(m[1])}
	if m[2] != "" {
		q.To = number(m[2])
	}
	switch word := strings.ToLower(m[4]); {
	case strings.HasPrefix(word, "set"):
		q.Unit = head.Set
	case strings.HasPrefix(word, "p") && word != "pc" && word != "pcs":
		q.Unit = head.Pair
	case word != "":
		q.Unit = head.Each
	}
	return q, q.From > 0 && (q.To == 0 || q.To >= q.From)
}

// SpringsTo finds the lift that the springs of an assembled head are good for in
// a title: "assembled, springs to .550", "komplett bis 12,5 mm".
func SpringsTo(title string) (quantity.Length, bool) {
	m := springsTo.FindStringSubmatch(title)
	if m == nil {
		return 0, false
	}
	digits, in := m[1], quantity.Inches
	if digits == "" {
		digits, in = m[2], quantity.Millimetres
	}
	d, err := decimal.NewFromString(strings.ReplaceAll(digits, ",", "."))
	if err != nil {
		return 0, false
	}
	lift := in(d.InexactFloat64())
	const least, most = 0.2, 1.2 // in; common practice, no source
	return lift, lift.In() >= least && lift.In() <= most
}
