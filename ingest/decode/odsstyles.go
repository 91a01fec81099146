package decode

import "strings"

// odsStyles is what the styles of a document say about cells. A style of a cell
// builds on a parent and refers to a data style, which takes the place of a
// number format code.
type odsStyles struct {
	cells        map[string]odsStyle
	formats      map[string]string // data style -> format code
	struckText   map[string]bool   // text styles that strike through
	hiddenTables map[string]bool   // table styles that are not displayed
}

type odsStyle struct {
	parent, data         string
	struck, bold, filled *bool // nil: as the parent says
}

func newODSStyles() odsStyles {
	return odsStyles{make(map[string]odsStyle), make(map[string]string), make(map[string]bool), make(map[string]bool)}
}

// read reads a styles part.
func (o *odsStyles) read(s *scanner) error {
	s.next()
	root := s.depth()
	for s.child(root) {
		if name := string(s.name); name == "styles" || name == "automatic-styles" {
			o.readSection(s)
		}
	}
	return s.drain()
}

// readSection reads the styles below the element at hand.
func (o *odsStyles) readSection(s *scanner) {
	depth := s.depth()
	for s.child(depth) {
		name := string(s.attr("name"))
		switch kind := string(s.name); {
		case kind == "style":
			o.readStyle(s, name)
		case strings.HasSuffix(kind, "-style"):
			o.formats[name] = o.dataFormat(s)
		}
	}
}

func (o *odsStyles) readStyle(s *scanner, name string) {
	family := string(s.attr("family"))
	style := odsStyle{parent: string(s.attr("parent-style-name")), data: string(s.attr("data-style-name"))}
	depth := s.depth()
	for s.child(depth) {
		switch string(s.name) {
		case "table-properties":
			if string(s.attr("display")) == "false" {
				o.hiddenTables[name] = true
			}
		case "table-cell-properties":
			if colour := string(s.attr("background-color")); colour != "" {
				filled := colour != "transparent" && !strings.EqualFold(colour, "#ffffff")
				style.filled = &filled
			}
		case "text-properties":
			style.readText(s)
		}
	}
	switch family {
	case "table-cell":
		o.cells[name] = style
	case "text":
		o.struckText[name] = style.struck != nil && *style.struck
	}
}

func (style *odsStyle) readText(s *scanner) {
	for _, attribute := range []string{"text-line-through-type", "text-line-through-style"} {
		if line := s.attr(attribute); line != nil {
			struck := string(line) != "none" || style.struck != nil && *style.struck
			style.struck = &struck
		}
	}
	if weight := string(s.attr("font-weight")); weight != "" {
		bold := weight == "bold" || len(weight) == 3 && weight >= "600"
		style.bold = &bold
	}
}

// mostParents bounds the way from a style to its parents, which may be a
// circle.
const mostParents = 16

// cell resolves a cell style by name.
func (o *odsStyles) cell(name string) cellStyle {
	var data string
	var struck, bold, filled *bool
	for range mostParents {
		style, ok := o.cells[name]
		if !ok {
			break
		}
		if data == "" {
			data = style.data
		}
		struck, bold, filled = firstOf(struck, style.struck), firstOf(bold, style.bold), firstOf(filled, style.filled)
		name = style.parent
	}
	code := o.formats[data]
	return cellStyle{format: code, date: isDateFormat(code),
		struck: struck != nil && *struck, bold: bold != nil && *bold, filled: filled != nil && *filled}
}

func firstOf(a, b *bool) *bool {
	if a != nil {
		return a
	}
	return b
}
