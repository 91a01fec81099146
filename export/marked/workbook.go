package marked

import (
	"fmt"
	"strconv"
	"strings"
)

// dialect is one of the two sets of namespaces a workbook may be written in
// (ISO/IEC 29500-1 strict, 29500-4 transitional).
type dialect struct{ main, relationURI string }

// strict begins the namespaces of the strict dialect.
const strict = "http://purl.oclc.org/ooxml/"

func (d dialect) strict() bool { return strings.HasPrefix(d.main, strict) }

// workbook is the part that ties the sheets together.
type workbook struct {
	*container
	dialect
	doc    *document
	rels   *relations
	types  typeList
	sheets []sheet
}

// sheet is one tab that holds cells.
type sheet struct{ name, part string }

func openWorkbook(content []byte, limits Limits) (*workbook, error) {
	c, err := open(content, limits)
	if err != nil {
		return nil, err
	}
	types, err := c.types()
	if err != nil {
		return nil, errNoWorkbook
	}
	top, err := c.relations("")
	if err != nil {
		return nil, err
	}
	main, ok := top.of(workbookKind)
	if !ok || extension(types.of(main.target)) == "" {
		return nil, errNoWorkbook
	}
	w := &workbook{container: c, types: types}
	if w.doc, err = c.document(main.target, 3); err != nil {
		return nil, err
	}
	if w.rels, err = c.relations(main.target); err != nil {
		return nil, err
	}
	w.dialect = dialect{
		main:        "http://schemas.openxmlformats.org/spreadsheetml/2006/main",
		relationURI: "http://schemas.openxmlformats.org/officeDocument/2006/relationships",
	}
	for _, a := range w.doc.tag(w.doc.root).Attr {
		if strings.HasPrefix(a.Value, strict) {
			w.dialect = dialect{strict + "spreadsheetml/main", strict + "officeDocument/relationships"}
		}
	}
	return w, w.readSheets()
}

func (w *workbook) readSheets() error {
	list := w.doc.root.child("sheets")
	if list == nil {
		return errNoWorkbook
	}
	for _, e := range list.named("sheet") {
		name, _ := w.doc.attr(e, "name")
		id, _ := w.doc.link(e)
		if rel, ok := w.rels.byID(id); ok && rel.kind == sheetKind {
			w.sheets = append(w.sheets, sheet{name, rel.target})
		}
	}
	return nil
}

// addSheet appends a sheet, with a number behind its name when that is taken.
func (w *workbook) addSheet(wanted string, data []byte) error {
	list := w.doc.root.child("sheets")
	highest := 0
	for _, e := range list.children {
		if text, ok := w.doc.attr(e, "sheetId"); ok {
			if n, err := strconv.Atoi(text); err == nil {
				highest = max(highest, n)
			}
		}
	}
	part := w.free("xl/worksheets/sheet%d.xml")
	w.write(part, data)
	w.types.declare(part, sheetType)
	id := w.rels.add(w.relationURI, sheetKind, part)
	name := w.freeName(wanted)
	list.tail += fmt.Sprintf(`<%[1]ssheet xmlns:r="%[2]s" name="%[3]s" sheetId="%[4]d" r:id="%[5]s"/>`,
		w.doc.prefix, w.relationURI, escape(name), highest+1, id)
	return w.addTitle(name)
}

// freeName returns the name, with a number when a tab has it already.
func (w *workbook) freeName(wanted string) string {
	name := wanted
	for n := 2; ; n++ {
		taken := false
		for _, e := range w.doc.root.child("sheets").named("sheet") {
			other, _ := w.doc.attr(e, "name")
			taken = taken || strings.EqualFold(other, name)
		}
		if !taken {
			return name
		}
		name = fmt.Sprintf("%s (%d)", wanted, n)
	}
}

// extension returns how the name of a workbook of this content type ends, ""
// when it is not a workbook written as XML. Programs refuse one whose name and
// type disagree.
func extension(contentType string) string {
	switch strings.ToLower(contentType) {
	case "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml":
		return ".xlsx"
	case "application/vnd.ms-excel.sheet.macroenabled.main+xml":
		return ".xlsm"
	case "application/vnd.openxmlformats-officedocument.spreadsheetml.template.main+xml":
		return ".xltx"
	case "application/vnd.ms-excel.template.macroenabled.main+xml":
		return ".xltm"
	}
	return ""
}
