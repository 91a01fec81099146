package marked

import (
	"encoding/xml"
	"errors"
	"fmt"
	"strconv"

	"flowshelf/analysis/source"
)

// styles is the part that says how cells look. A cell names a format of its
// list by number; formats are added behind those that are there.
type styles struct {
	*document
	fills map[source.Severity]int
	known map[look]int
	added map[string]int // by list
}

// look is a cell's own format with the colour of a mark.
type look struct {
	base     int
	severity source.Severity
}

// colourOf returns the fill of a mark. The three stay apart when printed in
// grey.
func colourOf(s source.Severity) string {
	switch s {
	case source.Refused:
		return "FFF2A58E"
	case source.Asked:
		return "FFFFD966"
	default:
		return "FFD6E6F2"
	}
}

const plainStyles = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>
<styleSheet xmlns="%s"><fonts count="1"><font><sz val="10"/><name val="Arial"/></font></fonts>` +
	`<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>` +
	`<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>` +
	`<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>` +
	`<cellXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/></cellXfs></styleSheet>`

var errStyles = errors.New("its cell formats are incomplete")

// The lists of formats that are added to.
const (
	fontList   = "fonts"
	borderList = "borders"
	fillList   = "fills"
	formatList = "cellXfs"
)

// styles reads the formats, or makes the least there can be.
func (w *workbook) styles() (*styles, error) {
	rel, ok := w.rels.of(stylesKind)
	data := fmt.Appendf(nil, plainStyles, w.main)
	part := "xl/styles.xml" // some programs look for no other name
	if w.has(part) {
		part = w.free("xl/styles%d.xml")
	}
	if ok {
		part = rel.target
		var err error
		if data, err = w.read(part); err != nil {
			return nil, err
		}
	}
	doc, err := parse(part, data, 3)
	if err != nil {
		return nil, err
	}
	s := &styles{document: doc, fills: make(map[source.Severity]int), known: make(map[look]int), added: make(map[string]int)}
	for _, list := range []string{fontList, fillList, borderList, formatList} {
		if e := doc.root.child(list); e == nil || len(e.children) == 0 {
			return nil, errStyles
		}
	}
	if !ok {
		w.rels.add(w.relationURI, stylesKind, part)
		w.types.declare(part, stylesType)
	}
	return s, nil
}

// add appends to a list and returns the number of what is new.
func (s *styles) add(list, spelled string) int {
	e := s.root.child(list)
	e.tail += spelled
	n := len(e.children) + s.added[list]
	s.added[list]++
	e.put("count", strconv.Itoa(n+1))
	return n
}

// marked returns the number of a format that is the given one with the colour
// of a mark.
func (s *styles) marked(base int, severity source.Severity) int {
	formats := s.root.child(formatList).children
	if base < 0 || base >= len(formats) {
		base = 0
	}
	key := look{base, severity}
	if n, known := s.known[key]; known {
		return n
	}
	n := s.add(formatList, s.clone(formats[base],
		xml.Attr{Name: xml.Name{Local: "fillId"}, Value: strconv.Itoa(s.fill(severity))},
		xml.Attr{Name: xml.Name{Local: "applyFill"}, Value: "1"}))
	s.known[key] = n
	return n
}

func (s *styles) fill(severity source.Severity) int {
	n, known := s.fills[severity]
	if !known {
		n = s.colour(colourOf(severity))
		s.fills[severity] = n
	}
	return n
}

// colour adds a plain fill and returns its number.
func (s *styles) colour(argb string) int {
	return s.add(fillList, fmt.Sprintf(`<%[1]sfill><%[1]spatternFill patternType="solid"><%[1]sfgColor rgb="%[2]s"/><%[1]sbgColor indexed="64"/></%[1]spatternFill></%[1]sfill>`,
		s.prefix, argb))
}

// weight is how heavy a font is, and wrapping whether a text is broken.
type (
	weight   uint8
	wrapping uint8
)

const (
	normal weight = iota
	bold
)

const (
	oneLine wrapping = iota
	wrapped
)

// font adds a font and returns its number. The order of what it consists of is
// that of the schema (18.8.22).
func (s *styles) font(w weight, points int, colour string) int {
	b := ""
	if w == bold {
		b = "<" + s.prefix + "b/>"
	}
	return s.add(fontList, fmt.Sprintf(`<%[1]sfont>%[2]s<%[1]ssz val="%[3]d"/><%[1]scolor rgb="FF%[4]s"/><%[1]sname val="Arial"/><%[1]sfamily val="2"/></%[1]sfont>`,
		s.prefix, b, points, colour))
}

// rule adds a hair line below a cell and returns its number.
func (s *styles) rule(colour string) int {
	return s.add(borderList, fmt.Sprintf(`<%[1]sborder><%[1]sleft/><%[1]sright/><%[1]stop/><%[1]sbottom style="hair"><%[1]scolor rgb="FF%[2]s"/></%[1]sbottom><%[1]sdiagonal/></%[1]sborder>`,
		s.prefix, colour))
}

// textLook is a format of texts: numbers of the lists.
type textLook struct {
	font, fill, border int
	wrapping           wrapping
}

// format adds a format of texts and returns its number. Texts are stored under
// the number format "@": what is typed over one stays a text.
func (s *styles) format(l textLook) int {
	const asText = 49
	wrap := ""
	if l.wrapping == wrapped {
		wrap = ` wrapText="1"`
	}
	return s.add(formatList, fmt.Sprintf(`<%[1]sxf numFmtId="%[2]d" fontId="%[3]d" fillId="%[4]d" borderId="%[5]d" xfId="0" applyNumberFormat="1" applyFont="1" applyFill="1" applyBorder="1" applyAlignment="1"><%[1]salignment vertical="top"%[6]s/></%[1]sxf>`,
		s.prefix, asText, l.font, l.fill, l.border, wrap))
}
