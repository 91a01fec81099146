package marked

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
)

// document is one XML part that is changed in a few places. Whatever is not
// changed comes out byte for byte as it went in: the tree only knows where
// things stand.
type document struct {
	part   string
	prefix string // with its colon: under which the part's own namespace goes
	data   []byte
	root   *element
}

// element is one element by where it stands: its start tag is data[from:inner],
// its end tag data[end:to]; both offsets equal inner where it closes itself.
type element struct {
	name                 string // without prefix
	from, inner, end, to int
	children             []*element

	set         []xml.Attr // attributes that get another value
	ahead, tail string     // what comes before the element, and after its last child
	body        string     // what stands in it instead of its text, "" for no change
	behind      string     // what comes after the element
}

// parse reads a part down to a depth; what lies deeper is checked and copied.
func parse(part string, data []byte, depth int) (*document, error) {
	d := &document{part: part, data: data}
	if err := d.read(depth); err != nil {
		return nil, fmt.Errorf("its part %s cannot be followed (%w)", part, err)
	}
	return d, nil
}

var (
	errNotOneRoot  = errors.New("it has not one root element")
	errCrossed     = errors.New("its elements cross")
	errDeclaration = errors.New("it declares a document type")
)

func (d *document) read(depth int) error {
	in := xml.NewDecoder(bytes.NewReader(d.data))
	t := &tree{document: d, depth: depth, names: make(map[string]string)}
	for {
		from := int(in.InputOffset())
		token, err := in.RawToken()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return err
		}
		to := int(in.InputOffset())
		switch tag := token.(type) {
		case xml.Directive:
			return errDeclaration
		case xml.StartElement:
			err = t.opens(tag.Name, from, to)
		case xml.EndElement:
			err = t.closes(tag.Name, from, to)
		}
		if err != nil {
			return err
		}
	}
	if d.root == nil || len(t.open) > 0 {
		return errNotOneRoot
	}
	if space := d.tag(d.root).Name.Space; space != "" {
		d.prefix = space + ":"
	}
	return nil
}

// tree is a document while it is read.
type tree struct {
	*document
	depth int
	open  []xml.Name
	kept  []*element        // the open elements down to the depth
	names map[string]string // one copy of each
}

func (t *tree) opens(name xml.Name, from, to int) error {
	t.open = append(t.open, name)
	if len(t.open) > t.depth {
		return nil
	}
	if _, known := t.names[name.Local]; !known {
		t.names[name.Local] = name.Local
	}
	e := &element{name: t.names[name.Local], from: from, inner: to}
	switch {
	case len(t.kept) > 0:
		above := t.kept[len(t.kept)-1]
		above.children = append(above.children, e)
	case t.root != nil:
		return errNotOneRoot
	default:
		t.root = e
	}
	t.kept = append(t.kept, e)
	return nil
}

func (t *tree) closes(name xml.Name, from, to int) error {
	if len(t.open) == 0 || t.open[len(t.open)-1] != name {
		return errCrossed
	}
	if len(t.open) == len(t.kept) {
		e := t.kept[len(t.kept)-1]
		e.end, e.to = from, to
		t.kept = t.kept[:len(t.kept)-1]
	}
	t.open = t.open[:len(t.open)-1]
	return nil
}

// tag reads the start tag of an element.
func (d *document) tag(e *element) xml.StartElement {
	token, err := xml.NewDecoder(bytes.NewReader(d.data[e.from:e.inner])).RawToken()
	tag, ok := token.(xml.StartElement)
	if err != nil || !ok {
		return xml.StartElement{Name: xml.Name{Local: e.name}} // never: read has read it before
	}
	return tag
}

// attr returns an attribute that stands without a prefix.
func (d *document) attr(e *element, name string) (string, bool) {
	return find(append(d.tag(e).Attr, e.set...), func(a xml.Attr) bool { return a.Name.Space == "" && a.Name.Local == name })
}

// link returns the attribute that names a relationship: "r:id", under whatever
// prefix.
func (d *document) link(e *element) (string, bool) {
	return find(d.tag(e).Attr, func(a xml.Attr) bool { return a.Name.Space != "" && a.Name.Space != "xmlns" && a.Name.Local == "id" })
}

func find(attrs []xml.Attr, wanted func(xml.Attr) bool) (value string, ok bool) {
	for _, a := range attrs { // of two, the later one: set comes last
		if wanted(a) {
			value, ok = a.Value, true
		}
	}
	return value, ok
}

func (e *element) selfClosing() bool { return e.to == e.inner }

// put gives an attribute a value.
func (e *element) put(name, value string) {
	e.set = append(e.set, xml.Attr{Name: xml.Name{Local: name}, Value: value})
}

// textOf returns the text of an element without children, "" for none.
func (d *document) textOf(e *element) string {
	if e == nil {
		return ""
	}
	var text string
	if err := xml.Unmarshal([]byte("<t>"+string(d.data[e.inner:e.end])+"</t>"), &text); err != nil {
		return "" // never: read has read it before
	}
	return text
}

// child returns the first child of a name, nil when there is none; nothing has
// no children.
func (e *element) child(name string) *element {
	if e == nil {
		return nil
	}
	for _, c := range e.children {
		if c.name == name {
			return c
		}
	}
	return nil
}

// named returns the children of a name.
func (e *element) named(name string) []*element {
	var out []*element
	for _, c := range e.children {
		if c.name == name {
			out = append(out, c)
		}
	}
	return out
}

// place puts text before the first child that has one of the names, or behind
// the last child.
func (e *element) place(text string, followers ...string) {
	for _, c := range e.children {
		if slices.Contains(followers, c.name) {
			c.ahead += text
			return
		}
	}
	e.tail += text
}

// changed reports whether anything in the part is to come out otherwise.
func (d *document) changed() bool { return d.root.changed() }

func (e *element) changed() bool {
	return len(e.set) > 0 || e.ahead != "" || e.tail != "" || e.body != "" || e.behind != "" || slices.ContainsFunc(e.children, (*element).changed)
}

// bytes returns the part with its changes.
func (d *document) bytes() []byte {
	var b bytes.Buffer
	b.Write(d.data[:d.root.from])
	d.write(&b, d.root)
	b.Write(d.data[d.root.to:])
	return b.Bytes()
}

func (d *document) write(b *bytes.Buffer, e *element) {
	b.WriteString(e.ahead)
	opened := e.selfClosing() && e.tail != ""
	switch {
	case opened || len(e.set) > 0 && !e.selfClosing():
		b.WriteString(startTag(d.tag(e), e.set) + ">")
	case len(e.set) > 0:
		b.WriteString(startTag(d.tag(e), e.set) + "/>")
	default:
		b.Write(d.data[e.from:e.inner])
	}
	at := e.inner
	for _, c := range e.children {
		b.Write(d.data[at:c.from])
		d.write(b, c)
		at = c.to
	}
	if e.body != "" {
		b.WriteString(e.body)
	} else {
		b.Write(d.data[at:e.end])
	}
	b.WriteString(e.tail)
	if opened {
		b.WriteString("</" + written(d.tag(e).Name) + ">")
	}
	b.Write(d.data[e.end:e.to])
	b.WriteString(e.behind)
}

// clone spells an element again with other values of some attributes.
func (d *document) clone(e *element, set ...xml.Attr) string {
	end := ">"
	if e.selfClosing() {
		end = "/>"
	}
	return startTag(d.tag(e), set) + end + string(d.data[e.inner:e.to])
}

// startTag spells a tag up to its end; a value that is set replaces the one of the same name
// where it stands, and an empty one drops it.
func startTag(t xml.StartElement, set []xml.Attr) string {
	attrs := slices.Clone(t.Attr)
	for _, s := range set {
		if i := slices.IndexFunc(attrs, func(a xml.Attr) bool { return a.Name == s.Name }); i >= 0 {
			attrs[i].Value = s.Value
			if s.Value == "" {
				attrs = slices.Delete(attrs, i, i+1)
			}
		} else if s.Value != "" {
			attrs = append(attrs, s)
		}
	}
	var b strings.Builder
	b.WriteString("<" + written(t.Name))
	for _, a := range attrs {
		b.WriteString(" " + written(a.Name) + `="` + escape(a.Value) + `"`)
	}
	return b.String()
}

func written(n xml.Name) string {
	if n.Space != "" {
		return n.Space + ":" + n.Local
	}
	return n.Local
}

// escape makes a text fit for XML; what XML cannot carry becomes a mark.
func escape(s string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(s)) // a Builder takes everything
	return b.String()
}
