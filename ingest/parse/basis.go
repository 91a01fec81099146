package parse

import (
	"regexp"

	"flowshelf/analysis/head"
)

var (
	eachText = regexp.MustCompile(`(?i)\b(each|ea|apiece)\b|(\bper\s+|\ba\s+|/\s*)(1\s*)?(head|pc|piece|unit|stk)\b|\bst(ü|ue)ck(preis)?\b|\bpi(è|e)ce\b`)
	pairText = regexp.MustCompile(`(?i)\bpairs?\b|(\bper\b|/)\s*(pr|2)\b|^\s*pr\.?\s*$|\(2\)|\bpaar(preis)?\b|\bpaire\b`)
	setText  = regexp.MustCompile(`(?i)\bsets?\b|\b(engine|car)\s*set\b|\bsatz(preis)?\b|\bjeu\b`)
)

// setOf is a set that says how many heads it holds: a set of two is a pair,
// whatever the engine takes.
var setOf = regexp.MustCompile(`(?i)\bset of (\d+)(\s*heads?)?\b`)

// Basis finds how many heads a price buys in a column title, a note or the
// words behind an amount. A text that names none, or two, states none.
func Basis(text string) (head.Basis, bool) {
	found := head.BasisNotStated
	text = setOf.ReplaceAllStringFunc(text, func(s string) string {
		switch setOf.FindStringSubmatch(s)[1] {
		case "1":
			return "each"
		case "2":
			return "pair"
		}
		return "set"
	})
	for basis, pattern := range map[head.Basis]*regexp.Regexp{head.Each: eachText, head.Pair: pairText, head.Set: setText} {
		switch {
		case !pattern.MatchString(text):
		case found != head.BasisNotStated:
			return head.BasisNotStated, false
		default:
			found = basis
		}
	}
	return found, found != head.BasisNotStated
}

// dealerNet is what a dealer pays with nothing more to come off: one rung in
// two words.
var dealerNet = regexp.MustCompile(`(?i)\bdealer'?s?\s+net\b|\bnet\s+dealer\b|\bh(ä|ae)ndler(netto)?preise?\s+nett?o\b|\bh(ä|ae)ndlernetto`)

var (
	mapText    = regexp.MustCompile(`(?i)\bmap\b|\bminimum advertised\b`)
	sellText   = regexp.MustCompile(`(?i)\b(our|shop)?\s*sell(ing)?\b`)
	listText   = regexp.MustCompile(`(?i)\blist\b(\s*price)?|\bmsrp\b|\bretail\b|\blistenpreis\b|\buvp\b`)
	jobberText = regexp.MustCompile(`(?i)\bjobbers?\b`)
	dealerText = regexp.MustCompile(`(?i)\bdealers?\b|\bh(ä|ae)ndler(preise?)?\b`)
	netText    = regexp.MustCompile(`(?i)\bnet\b|\bnett?o\b|\b(your|our) cost\b`)
)

// Rung finds which step of the price ladder a column title names. A title that
// names two, such as "list less dealer", names none.
func Rung(text string) (head.Rung, bool) {
	found := head.RungNotStated
	if dealerNet.MatchString(text) {
		return head.Net, true
	}
	for rung, pattern := range map[head.Rung]*regexp.Regexp{
		head.MinimumAdvertised: mapText, head.Sell: sellText, head.List: listText,
		head.Jobber: jobberText, head.Dealer: dealerText, head.Net: netText,
	} {
		switch {
		case !pattern.MatchString(text):
		case found != head.RungNotStated:
			return head.RungNotStated, false
		default:
			found = rung
		}
	}
	return found, found != head.RungNotStated
}

var (
	assembled = regexp.MustCompile(`(?i)\b(fully )?assembled\b|\bassy\b|\basm\b|\bcomplete\b|\bkomplett\b|\bmontiert\b`)
	bare      = regexp.MustCompile(`(?i)\bbare\b|\bcasting only\b|\bunassembled\b|\bnackt\b`)
)

// Build finds whether a text speaks of assembled or of bare heads; "" for
// neither or both.
func Build(text string) string {
	a, b := assembled.MatchString(text), bare.MatchString(text)
	switch {
	case a && !b:
		return "assembled"
	case b && !a:
		return "bare"
	default:
		return ""
	}
}
