package publish

import (
	"bytes"
	"io/fs"
	"path"
	"strings"

	"flowshelf/export/book"
)

// keptBefore finds a copy of any day that holds the same cells: a person's version
// is kept once, however often it is met and whatever program saved it again.
func (p *Publisher) keptBefore(name string, content []byte) (string, bool) {
	entries, err := fs.ReadDir(p.folder.FS(), path.Dir(name))
	if err != nil {
		return "", false // it is kept once too often rather than not at all
	}
	ext := path.Ext(name)
	prefix := strings.TrimSuffix(path.Base(name), ext) + " (kept "
	mine := ""
	for _, e := range entries {
		if !e.Type().IsRegular() || !strings.HasPrefix(e.Name(), prefix) || path.Ext(e.Name()) != ext {
			continue
		}
		kept := path.Join(path.Dir(name), e.Name())
		old, err := p.folder.ReadFile(kept)
		if err != nil {
			continue
		}
		if bytes.Equal(old, content) {
			return kept, true
		}
		if mine == "" {
			mine = printOf(content)
		}
		if mine != "" && mine == printOf(old) {
			return kept, true
		}
	}
	return "", false
}

// printOf is the fingerprint of a workbook's cells without the results of its
// formulas, which a program works out again as it saves; "" for a workbook that
// cannot be read.
func printOf(workbook []byte) string {
	cells, err := book.Cells(workbook)
	if err != nil || len(cells) == 0 {
		return ""
	}
	return book.Form(cells, func(_, _ string) bool { return false })
}
