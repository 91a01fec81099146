package marked

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Author is under which name the notes stand.
const Author = "flowshelf"

// notes are the notes of one sheet: their texts in one part, and the boxes that
// show them in a drawing of the old kind (VML), which programs still want.
type notes struct {
	*workbook
	page    *page
	rels    *relations
	texts   *document
	drawing string // the part
	boxes   []byte
	taken   map[place]bool // cells that carried a note before
}

const (
	noNotes = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>
<comments xmlns="%s"><authors/><commentList/></comments>`

	noBoxes = `<xml xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" xmlns:x="urn:schemas-microsoft-com:office:excel">` +
		`<o:shapelayout v:ext="edit"><o:idmap v:ext="edit" data="1"/></o:shapelayout></xml>`

	namespaces = ` xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" xmlns:x="urn:schemas-microsoft-com:office:excel"`

	boxType = `<v:shapetype%s id="_x0000_t202" coordsize="21600,21600" o:spt="202" path="m,l,21600r21600,l21600,xe">` +
		`<v:stroke joinstyle="miter"/><v:path gradientshapeok="t" o:connecttype="rect"/></v:shapetype>`

	box = `<v:shape%s id="_x0000_s%d" type="#_x0000_t202" style="position:absolute;margin-left:60pt;margin-top:2pt;width:190pt;height:60pt;z-index:1;visibility:hidden" fillcolor="#ffffe1" o:insetmode="auto">` +
		`<v:fill color2="#ffffe1"/><v:shadow on="t" color="black" obscured="t"/><v:path o:connecttype="none"/>` +
		`<v:textbox style="mso-direction-alt:auto"><div style="text-align:left"></div></v:textbox>` +
		`<x:ClientData ObjectType="Note"><x:MoveWithCells/><x:SizeWithCells/><x:Anchor>%s</x:Anchor><x:AutoFill>False</x:AutoFill>` +
		`<x:Row>%d</x:Row><x:Column>%d</x:Column></x:ClientData></v:shape>`
)

var errBoxes = errors.New("the boxes of its notes are written in a way that is not understood")

// notes reads the notes that a sheet has already.
func (w *workbook) notes(p *page) (*notes, error) {
	rels, err := w.relations(p.part)
	if err != nil {
		return nil, err
	}
	n := &notes{workbook: w, page: p, rels: rels, taken: make(map[place]bool)}
	if err := n.readTexts(); err != nil {
		return nil, err
	}
	for _, rel := range rels.list {
		if rel.kind == threadKind && !rel.external {
			thread, err := w.document(rel.target, 2)
			if err != nil {
				return nil, err
			}
			n.take(thread, thread.root.named("threadedComment"))
		}
	}
	return n, n.readBoxes()
}

func (n *notes) readTexts() error {
	rel, ok := n.rels.of(notesKind)
	if !ok {
		var err error
		n.texts, err = parse(n.free("xl/comments%d.xml"), fmt.Appendf(nil, noNotes, n.main), 3)
		return err
	}
	var err error
	if n.texts, err = n.document(rel.target, 3); err != nil {
		return err
	}
	list := n.texts.root.child("commentList")
	if list == nil || n.texts.root.child("authors") == nil {
		return fmt.Errorf("its part %q holds no list of notes", rel.target)
	}
	n.take(n.texts, list.children)
	return nil
}

func (n *notes) take(d *document, list []*element) {
	for _, e := range list {
		ref, _ := d.attr(e, "ref")
		if at, ok := placeOf(ref); ok {
			n.taken[at] = true
		}
	}
}

func (n *notes) readBoxes() error {
	n.drawing, n.boxes = n.free("xl/drawings/vmlDrawing%d.vml"), []byte(noBoxes)
	e := n.page.root.child("legacyDrawing")
	if e == nil {
		return nil
	}
	id, _ := n.page.link(e)
	rel, ok := n.rels.byID(id)
	if !ok {
		return errBoxes
	}
	var err error
	n.drawing = rel.target
	n.boxes, err = n.read(rel.target)
	return err
}

// add puts notes on cells that carry none. It must be called once.
func (n *notes) add(marks []mark) error {
	author := n.author()
	list := n.texts.root.child("commentList")
	shapes := newShapes(n.boxes)
	for _, m := range marks {
		list.tail += fmt.Sprintf(`<%[1]scomment ref="%[2]s" authorId="%[3]d"><%[1]stext><%[1]sr><%[1]srPr><%[1]ssz val="9"/><%[1]scolor indexed="81"/><%[1]srFont val="Tahoma"/><%[1]sfamily val="2"/></%[1]srPr><%[1]st xml:space="preserve">%[4]s</%[1]st></%[1]sr></%[1]stext></%[1]scomment>`,
			n.texts.prefix, m.at, author, cellText(m.text))
		shapes.add(m)
	}
	boxes, err := shapes.into(n.boxes)
	if err != nil {
		return err
	}
	if _, ok := n.rels.of(notesKind); !ok {
		n.types.declare(n.texts.part, notesType)
		n.rels.add(n.relationURI, notesKind, n.texts.part)
	}
	if n.page.root.child("legacyDrawing") == nil {
		n.types.declareDrawing(n.drawing)
		n.page.root.place(fmt.Sprintf(`<%slegacyDrawing xmlns:r="%s" r:id="%s"/>`, n.page.prefix, n.relationURI,
			n.rels.add(n.relationURI, drawingKind, n.drawing)), afterNotes()...)
	}
	n.write(n.drawing, boxes)
	n.save(n.texts)
	n.save(n.rels.document)
	return nil
}

// afterNotes lists what stands behind the drawing of the notes in a sheet
// (CT_Worksheet, 18.3.1.99).
func afterNotes() []string {
	return []string{"legacyDrawingHF", "drawingHF", "picture", "oleObjects", "controls", "webPublishItems", "tableParts", "extLst"}
}

// author returns our number in the list of authors.
func (n *notes) author() int {
	list := n.texts.root.child("authors")
	for i, e := range list.children {
		if string(n.texts.data[e.inner:e.end]) == Author {
			return i
		}
	}
	list.tail += fmt.Sprintf("<%[1]sauthor>%[2]s</%[1]sauthor>", n.texts.prefix, Author)
	return len(list.children)
}

// shapes are the boxes that are added to a drawing.
type shapes struct {
	declared string // the namespaces, where the drawing does not declare them as we write them
	highest  int    // number of the last box
	spelled  strings.Builder
}

func newShapes(boxes []byte) *shapes {
	s := &shapes{}
	for _, d := range strings.Fields(namespaces) {
		if !bytes.Contains(boxes, []byte(d)) {
			s.declared = namespaces
		}
	}
	const block = 1024 // a drawing numbers its boxes from one block on
	s.highest = block
	for _, m := range regexp.MustCompile(`_x0000_s(\d{1,9})\b`).FindAllSubmatch(boxes, -1) {
		if n, err := strconv.Atoi(string(m[1])); err == nil {
			s.highest = max(s.highest, n)
		}
	}
	if !bytes.Contains(boxes, []byte("_x0000_t202")) {
		fmt.Fprintf(&s.spelled, boxType, s.declared)
	}
	return s
}

func (s *shapes) add(m mark) {
	s.highest++
	fmt.Fprintf(&s.spelled, box, s.declared, s.highest, anchor(m), m.at.row-1, m.at.col-1)
}

// anchor places a box beside its cell: column, offset, row, offset of two
// corners, from 0; at the right and lower edge of the sheet it goes to the left
// and up.
func anchor(m mark) string {
	const width, perLine = 4, 38
	lines := 1
	for _, line := range strings.Split(m.text, "\n") {
		lines += 1 + utf8.RuneCountInString(line)/perLine
	}
	height := min(lines, 40)
	col, row := m.at.col, max(m.at.row-2, 0)
	if col+width >= lastCol {
		col = m.at.col - 2 - width
	}
	row = min(row, lastRow-2-height)
	return fmt.Sprintf("%d,12,%d,6,%d,12,%d,6", col, row, col+width, row+height)
}

// into puts the boxes behind those of a drawing.
func (s *shapes) into(boxes []byte) ([]byte, error) {
	i := bytes.LastIndex(boxes, []byte("</xml>"))
	if i < 0 {
		return nil, errBoxes
	}
	out := append(bytes.Clone(boxes[:i]), s.spelled.String()...)
	return append(out, boxes[i:]...), nil
}

// cellText spells a text of a cell or a note. What looks like the format's own
// way to write a character by its code is kept from being read as one (22.9.2.19).
func cellText(s string) string {
	return escape(regexp.MustCompile(`_(x[0-9A-Fa-f]{4}_)`).ReplaceAllString(s, "_x005F_$1"))
}
