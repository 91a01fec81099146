package flowsheet

import (
	"strings"

	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// shownBy returns the key that a value shows a caption to be, where its word is that
// of another key as well: "Cylinder mm: | 100" tells the bore, for no cylinder has
// the number 4.030, or 100 mm; "Unit | cfm" tells no sample.
func (c caption) shownBy(value string) caption {
	switch {
	case c.role == words.Cylinder && sizeOfCylinder(c.text, value):
		c.role = words.Bore
	case (c.role == words.Sample || c.role == words.Serial) && isFlowUnit(value):
		c.role = words.Flow
	}
	return c
}

func sizeOfCylinder(key, value string) bool {
	b, ok := parse.Bore(value + unitOf(key))
	return ok && unitOf(key+" "+value) != "" && parse.PlausibleBore(b.Bore) && (b.Step != "" || strings.ContainsAny(value, ".,/"))
}

// isFlowUnit reports whether a text is a unit of flow and nothing else.
func isFlowUnit(text string) bool {
	_, unit := parse.FindFlowUnit(text)
	return unit && strings.TrimSpace(parse.StrikeFlowUnit(text)) == ""
}
