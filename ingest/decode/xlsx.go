package decode

import (
	"context"
	"strings"
)

// XLSX reads workbooks in Office Open XML (ECMA-376, ISO/IEC 29500), strict and
// transitional, with and without macros. It reads every part to its end and
// verifies its checksum, whether it needs the part or not.
type XLSX struct{}

// xlsxBook is a workbook while it is read.
type xlsxBook struct {
	*opc
	budget  *budget
	strings []richText
	styles  []cellStyle
	is1904  bool
	links   int
	macros  bool
}

// sheetEntry is one line of the workbook's list of sheets.
type sheetEntry struct {
	name, id string
	hidden   bool
}

// Decode implements Decoder.
func (XLSX) Decode(ctx context.Context, _ string, content []byte, limits Limits) (*Book, error) {
	b := newBudget(limits)
	c, err := openContainer(content, b)
	if err != nil {
		return nil, err
	}
	return decodeWorkbook(ctx, c)
}

func decodeWorkbook(ctx context.Context, c *container) (*Book, error) {
	p, err := openPackage(c)
	if err != nil {
		return nil, err
	}
	top, err := p.relationships("")
	if err != nil {
		return nil, err
	}
	main, ok := ofKind(top, "officeDocument")
	if !ok {
		return nil, damaged("it does not say where its workbook is")
	}
	book := &Book{}
	if book.Format, err = workbookFormat(p.contentType(main.target)); err != nil {
		return nil, err
	}
	if err := readProperties(p, top, book); err != nil {
		return nil, err
	}
	x := &xlsxBook{opc: p, budget: c.budget}
	if err := x.readSheets(ctx, main.target, book); err != nil {
		return nil, err
	}
	book.Links, book.Macros = x.links, x.macros
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return book, c.verifyRest(p.isXML)
}

// workbookFormat names the format by the content type of the main part.
func workbookFormat(contentType string) (string, error) {
	switch {
	case strings.Contains(contentType, "spreadsheetml.sheet.main"):
		return "xlsx", nil
	case strings.Contains(contentType, "spreadsheetml.template.main"):
		return "xltx", nil
	case strings.Contains(contentType, "sheet.macroenabled.main"):
		return "xlsm", nil
	case strings.Contains(contentType, "template.macroenabled.main"):
		return "xltm", nil
	case strings.Contains(contentType, "sheet.binary.macroenabled.main"):
		return "", oldFormat("This is a binary workbook (.xlsb), which is not read; please save as .xlsx and drop again.")
	}
	return "", unknown("This is an office document but not a workbook.")
}

// readSheets reads the workbook part and all sheets in its order.
func (x *xlsxBook) readSheets(ctx context.Context, main string, book *Book) error {
	entries, err := x.readWorkbook(main)
	if err != nil {
		return err
	}
	rels, err := x.relationships(main)
	if err != nil {
		return err
	}
	if err := x.readTables(rels); err != nil {
		return err
	}
	byID := make(map[string]relationship, len(rels))
	for _, rel := range rels {
		byID[rel.id] = rel
	}
	for _, e := range entries {
		if err := ctx.Err(); err != nil {
			return err
		}
		rel, ok := byID[e.id]
		if !ok || rel.external {
			return damaged("the sheet %s is missing", quoted([]byte(e.name)))
		}
		sheet := Sheet{Name: e.name, Hidden: e.hidden}
		if err := x.readSheet(ctx, rel, &sheet); err != nil {
			return err
		}
		book.Sheets = append(book.Sheets, sheet)
	}
	return nil
}

// readWorkbook lists the sheets. Hidden and very hidden are the same to a
// reader: the person who looks at the file sees neither.
func (x *xlsxBook) readWorkbook(main string) ([]sheetEntry, error) {
	s, err := x.scan(main)
	if err != nil {
		return nil, err
	}
	var entries []sheetEntry
	seen := make(map[string]bool)
	s.next()
	root := s.depth()
	for s.child(root) {
		switch string(s.name) {
		case "workbookPr":
			x.is1904 = s.flag("date1904")
		case "sheets":
			list := s.depth()
			for s.child(list) {
				e := sheetEntry{string(s.attr("name")), string(s.attr("id")), false}
				state := string(s.attr("state"))
				e.hidden = state != "" && state != "visible"
				if folded := strings.ToLower(e.name); seen[folded] {
					s.fail("two sheets are called %s", quoted([]byte(e.name)))
				} else {
					seen[folded] = true
				}
				entries = append(entries, e)
			}
		}
	}
	if len(entries) > x.budget.limits.Sheets {
		return nil, tooLarge("it has %d sheets and %d are the most that is read", len(entries), x.budget.limits.Sheets)
	}
	return entries, s.drain()
}

// readTables reads what all sheets share: texts and styles.
func (x *xlsxBook) readTables(rels []relationship) error {
	for _, rel := range rels {
		switch rel.kind {
		case "externalLink":
			x.links++
		case "vbaProject", "xlMacrosheet", "xlIntlMacrosheet":
			x.macros = true
		case "sharedStrings":
			s, err := x.scan(rel.target)
			if err != nil {
				return err
			}
			if x.strings, err = readSharedStrings(s, x.budget); err != nil {
				return err
			}
		case "styles":
			s, err := x.scan(rel.target)
			if err != nil {
				return err
			}
			if x.styles, err = readStyles(s); err != nil {
				return err
			}
		}
	}
	return nil
}
