package parse

import (
	"regexp"
	"strings"
)

// plusOver is a bore with what is added to it behind: "4.000 + .030", "4.000 bore
// +.030 over". A tolerance is less than a hundredth.
var plusOver = regexp.MustCompile(`(?i)(?:^|[^\d.,/])` + boreFigure + `\s*(?:bore\s*)?\+\s*([.,]0[1-9]\d?|0[.,]0[1-9]\d?)\s*(?:"|in\b\.?)?(?:\s*(?:over|o/s|oversize)\b)?(?:$|[^\d.,/]|[.,](?:\s|$))`)

// boreSum reads a bore and what is added to it.
func boreSum(text string) (BoreText, bool) {
	at := plusOver.FindStringSubmatchIndex(text)
	if at == nil {
		return BoreText{}, false
	}
	b, ok := boreFrom(text, at)
	step, okToo := over(text[at[6]:at[7]])
	if !ok || !okToo || !PlausibleBore(b.Bore) || bareFigure(text, at[2:]) {
		return BoreText{}, false
	}
	b.End = at[7]
	b.Text = strings.TrimSpace(text[b.Start:b.End])
	b.Step, b.Bore = b.Text, b.Bore+step.Bore
	return b, true
}

// Bore reads a cell that holds nothing but a bore: `4 1/8`, `4.125`, `104.8
// mm`, `104,8`, `Ø104.8`, `.030 over`. A bare figure is inches up to 10 and
// millimetres from 60, since no fixture lies between.
func Bore(text string) (BoreText, bool) {
	found := Bores(text)
	if len(found) != 1 {
		return BoreText{}, false
	}
	return found[0], true
}

// Bores is the same for a cell that may also say what was added to the bore, or is in
// it: "4.000, .030 over", "4.030 (.030 over)".
func Bores(text string) []BoreText {
	text = strings.TrimSpace(text)
	for _, read := range []func(string) (BoreText, bool){overStated, boreSum} {
		if b, ok := read(text); ok {
			return []BoreText{b}
		}
	}
	at := overBore.FindStringSubmatchIndex(text)
	if at == nil {
		return boreOnly(text)
	}
	step, ok := over(text[at[2]:at[3]])
	step.Text = text
	if !ok {
		return nil
	}
	base := boreOnly(strings.Trim(text[:at[0]]+" "+text[at[1]:], " ,;/()[]+-–"))
	if len(base) == 1 && PlausibleBore(base[0].Bore) {
		return []BoreText{base[0], step}
	}
	return []BoreText{step}
}

// boreOnly reads a bore that nothing is added to.
func boreOnly(text string) []BoreText {
	if at := boreAlone.FindStringSubmatchIndex(text); at != nil {
		if b, ok := boreFrom(text, at); ok {
			return []BoreText{b}
		}
		return nil
	}
	if at := boreTwice.FindStringSubmatchIndex(text); at != nil {
		if b, ok := inBothUnits(text, at); ok {
			return []BoreText{b}
		}
		return nil
	}
	if found := FindBores(text); len(found) == 1 {
		return found
	}
	return nil
}
