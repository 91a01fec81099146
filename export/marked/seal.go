package marked

import (
	"archive/zip"
	"fmt"
	"slices"
	"strconv"

	"flowshelf/export/book"
)

const (
	customPart = "docProps/custom.xml"

	noProperties = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>
<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/custom-properties"/>`

	// Properties that programs do not know by number are of this set
	// (ISO/IEC 29500-1, 22.3.2.2).
	property = `<%[1]sproperty fmtid="{D5CDD505-2E9C-101B-9397-08002B2CF9AE}" pid="%[2]d" name="%[3]s">` +
		`<vt:lpwstr xmlns:vt="http://schemas.openxmlformats.org/officeDocument/2006/docPropsVTypes">%[4]s</vt:lpwstr></%[1]sproperty>`
)

// ID is how the copy of a file is known among our outputs.
func ID(path string) string { return "marked copy of " + path }

// seal packs the workbook with our stamp, by which the copy is known as ours,
// after a look whether it holds the cells of the original.
func (w *workbook) seal(original Original) ([]byte, error) {
	unsealed, err := w.bytes(zip.Store) // only to be looked at
	if err != nil {
		return nil, err
	}
	before, err := book.Cells(original.Content)
	if err != nil {
		return nil, err
	}
	after, err := book.Cells(unsealed)
	if err != nil {
		return nil, err
	}
	if !begins(values(after), values(before)) {
		return nil, errDiffers
	}
	if err := w.stamp(ID(original.Path), book.FormulaFingerprint(after)); err != nil {
		return nil, err
	}
	w.save(w.types.document)
	sealed, err := w.bytes(zip.Deflate)
	if err != nil {
		return nil, err
	}
	if _, ours, edited, err := book.Identity(sealed); err != nil || !ours || edited {
		return nil, errUnsealed
	}
	return sealed, nil
}

// values returns the cells without the notes on them.
func values(cells []book.Content) []book.Content {
	return slices.DeleteFunc(slices.Clone(cells), func(c book.Content) bool { return c.On != "" })
}

func begins(all, with []book.Content) bool {
	return len(all) >= len(with) && slices.Equal(all[:len(with)], with)
}

// stamp writes the two properties of the seal behind those that are there.
func (w *workbook) stamp(id, content string) error {
	top, err := w.relations("")
	if err != nil {
		return err
	}
	data, part := []byte(noProperties), customPart
	rel, ok := top.of(customKind)
	if !ok {
		rel, ok = top.of(strictCustom)
	}
	if ok {
		part = rel.target
		if data, err = w.read(part); err != nil {
			return err
		}
	} else {
		kind := customKind
		if w.strict() {
			kind = strictCustom
		}
		top.add(w.relationURI, kind, part)
		w.types.declare(part, customType)
		w.save(top.document)
	}
	doc, err := parse(part, data, 2)
	if err != nil {
		return err
	}
	pid := 1 // the first two numbers are taken by the format itself
	for _, e := range doc.root.children {
		text, _ := doc.attr(e, "pid")
		if n, err := strconv.Atoi(text); err == nil {
			pid = max(pid, n)
		}
	}
	doc.root.tail += fmt.Sprintf(property, doc.prefix, pid+1, book.PropertyID, escape(id)) +
		fmt.Sprintf(property, doc.prefix, pid+2, book.PropertyContent, content)
	w.save(doc)
	return nil
}
