package decode

import (
	"context"
	"regexp"
	"strings"
)

// ODS reads OpenDocument spreadsheets (ISO/IEC 26300). Like XLSX it reads every
// part to its end and verifies its checksum.
type ODS struct{}

const (
	odsMark     = "mimetype" // the part that names the format
	odsMimetype = "application/vnd.oasis.opendocument.spreadsheet"
)

// odsBook is a document while it is read.
type odsBook struct {
	*container
	styles odsStyles
}

// Decode implements Decoder.
func (ODS) Decode(ctx context.Context, _ string, content []byte, limits Limits) (*Book, error) {
	c, err := openContainer(content, newBudget(limits))
	if err != nil {
		return nil, err
	}
	return decodeDocument(ctx, c)
}

func decodeDocument(ctx context.Context, c *container) (*Book, error) {
	mimetype, err := c.read(odsMark)
	if err != nil {
		return nil, err
	}
	if !strings.HasPrefix(strings.TrimSpace(string(mimetype)), odsMimetype) {
		return nil, unknown("This is an office document but not a workbook.")
	}
	o := &odsBook{container: c, styles: newODSStyles()}
	if err := o.refuseLocked(); err != nil {
		return nil, err
	}
	book := &Book{Format: "ods", Custom: make(map[string]string)}
	for _, name := range c.names {
		book.Macros = book.Macros || strings.HasPrefix(name, "basic/") || strings.HasPrefix(name, "scripts/")
	}
	if err := o.readMeta(book); err != nil {
		return nil, err
	}
	// The named styles come first: those in the content build on them.
	if c.has("styles.xml") {
		s, err := o.scan("styles.xml")
		if err != nil {
			return nil, err
		}
		if err := o.styles.read(s); err != nil {
			return nil, err
		}
	}
	if err := o.readContent(ctx, book); err != nil {
		return nil, err
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return book, c.verifyRest(ofDocument)
}

// ofDocument reports whether a part belongs to the document itself and so has to
// be well-formed. What stands beside it (toolbars, dialogs, macros, charts) need
// only be there whole: programs have written empty ones, and such as declare a
// document type.
func ofDocument(name string) bool {
	switch name {
	case "content.xml", "styles.xml", "meta.xml", "settings.xml":
		return true
	}
	return false
}

func (o *odsBook) scan(name string) (*scanner, error) {
	data, err := o.read(name)
	if err != nil {
		return nil, err
	}
	s := newScanner(name, data)
	return s, s.err
}

// manifestType is the document type that OpenOffice.org declared in its
// manifests: the name of one, and nothing that it defines.
var manifestType = regexp.MustCompile(`<!DOCTYPE manifest:manifest PUBLIC "[^"<>\[\]]*" "[^"<>\[\]]*">`)

// refuseLocked looks for encrypted parts in the manifest.
func (o *odsBook) refuseLocked() error {
	const manifest = "META-INF/manifest.xml"
	if !o.has(manifest) {
		return nil
	}
	data, err := o.read(manifest)
	if err != nil {
		return err
	}
	s := newScanner(manifest, manifestType.ReplaceAll(data, nil))
	for s.next() {
		if s.kind == startTag && string(s.name) == "encryption-data" {
			return locked()
		}
	}
	return s.err
}

// readMeta reads the writing program's name and the user's own properties.
func (o *odsBook) readMeta(book *Book) error {
	if !o.has("meta.xml") {
		return nil
	}
	s, err := o.scan("meta.xml")
	if err != nil {
		return err
	}
	for s.next() {
		if s.kind != startTag {
			continue
		}
		switch string(s.name) {
		case "generator":
			book.Creator = strings.TrimSpace(string(s.content()))
		case "user-defined":
			name := string(s.attr("name"))
			book.Custom[name] = string(s.content())
		}
	}
	return s.err
}

// readContent reads the styles and sheets of the content part.
func (o *odsBook) readContent(ctx context.Context, book *Book) error {
	s, err := o.scan("content.xml")
	if err != nil {
		return err
	}
	s.next()
	root := s.depth()
	for s.child(root) {
		switch string(s.name) {
		case "automatic-styles":
			o.styles.readSection(s)
		case "body":
			body := s.depth()
			for s.child(body) {
				o.readTables(ctx, s, book)
			}
		}
	}
	if err := s.drain(); err != nil {
		return err
	}
	for i := range book.Sheets {
		book.Sheets[i].Index()
	}
	return nil
}

// readTables reads the tables of the spreadsheet element: the sheets, and
// copies of other books' sheets, which are links.
func (o *odsBook) readTables(ctx context.Context, s *scanner, book *Book) {
	depth := s.depth()
	for s.child(depth) {
		if string(s.name) != "table" {
			continue
		}
		t := odsTable{scanner: s, ctx: ctx, book: o, sheet: Sheet{
			Name: string(s.attr("name")), Hidden: o.styles.hiddenTables[string(s.attr("style-name"))]}}
		t.read()
		if t.linked {
			book.Links++
			continue
		}
		if len(book.Sheets) >= o.budget.limits.Sheets {
			s.stop(tooLarge("it has more than %d sheets", o.budget.limits.Sheets))
			return
		}
		book.Sheets = append(book.Sheets, t.sheet)
	}
}
