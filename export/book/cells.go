package book

import (
	"archive/zip"
	"bytes"
	"cmp"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strconv"
)

// Content is what one cell of a finished workbook holds: enough to tell whether
// somebody changed it, and no more.
type Content struct {
	Sheet   string
	Cell    string
	Formula string
	Value   string // as stored: a text, or a number in decimal
	On      string // of a note, the cell it is on; Cell is empty then, and Value its text
}

// The budgets of a workbook that is read back. Ours stay far below them; a
// stranger's that carries our seal cannot use up the machine.
const (
	maxPart  = 256 << 20
	maxCells = 4_000_000
)

var errTooLarge = errors.New("larger than any workbook of ours")

// Cells reads the cells of a workbook in order of sheet, row and column, leaving
// out the empty ones. The notes on cells come last.
func Cells(workbook []byte) ([]Content, error) {
	r, err := open(workbook)
	if err != nil {
		return nil, err
	}
	shared, err := r.sharedStrings()
	if err != nil {
		return nil, err
	}
	sheets, err := r.sheets()
	if err != nil {
		return nil, err
	}
	for _, s := range sheets {
		if err := r.sheet(s, shared); err != nil {
			return nil, fmt.Errorf("sheet %q: %w", s.name, err)
		}
	}
	for _, s := range sheets {
		if err := r.notes(s); err != nil {
			return nil, fmt.Errorf("notes of sheet %q: %w", s.name, err)
		}
	}
	return r.out, nil
}

type reader struct {
	parts map[string]*zip.File
	out   []Content
}

func open(workbook []byte) (*reader, error) {
	z, err := zip.NewReader(bytes.NewReader(workbook), int64(len(workbook)))
	if err != nil {
		return nil, err
	}
	r := &reader{parts: map[string]*zip.File{}}
	for _, f := range z.File {
		r.parts[f.Name] = f
	}
	return r, nil
}

// decode reads one part to its end, where its checksum is verified; a part that
// is not there leaves into alone.
func (r *reader) decode(name string, into any) error {
	f, there := r.parts[name]
	if !there {
		return nil
	}
	if f.UncompressedSize64 > maxPart {
		return errTooLarge
	}
	rc, err := f.Open()
	if err != nil {
		return err
	}
	defer rc.Close() //nolint:errcheck // reading only
	raw, err := io.ReadAll(io.LimitReader(rc, maxPart))
	if err != nil {
		return err
	}
	return xml.Unmarshal(raw, into)
}

type richText struct {
	T string `xml:"t"`
	R []struct {
		T string `xml:"t"`
	} `xml:"r"`
}

func (t richText) String() string {
	s := t.T
	for _, run := range t.R {
		s += run.T
	}
	return s
}

func (r *reader) sharedStrings() ([]richText, error) {
	var table struct {
		SI []richText `xml:"si"`
	}
	err := r.decode("xl/sharedStrings.xml", &table)
	return table.SI, err
}

type sheetPart struct{ name, part string }

func (r *reader) sheets() ([]sheetPart, error) {
	var wb struct {
		Sheets []struct {
			Name   string `xml:"name,attr"`
			ID     string `xml:"http://schemas.openxmlformats.org/officeDocument/2006/relationships id,attr"`
			Strict string `xml:"http://purl.oclc.org/ooxml/officeDocument/relationships id,attr"` // the same in the strict dialect
		} `xml:"sheets>sheet"`
	}
	var rels relations
	if err := firstError(
		func() error { return r.decode("xl/workbook.xml", &wb) },
		func() error { return r.decode("xl/_rels/workbook.xml.rels", &rels) },
	); err != nil {
		return nil, err
	}
	target := map[string]string{}
	for _, rel := range rels.R {
		target[rel.ID] = rel.part("xl")
	}
	var out []sheetPart
	for _, s := range wb.Sheets {
		part := target[s.ID+s.Strict]
		if _, there := r.parts[part]; !there {
			return nil, fmt.Errorf("sheet %q has no part", s.Name)
		}
		out = append(out, sheetPart{s.Name, part})
	}
	if len(out) == 0 {
		return nil, errors.New("no sheets")
	}
	return out, nil
}

func (r *reader) sheet(s sheetPart, shared []richText) error {
	var ws struct {
		Rows []struct {
			Number int `xml:"r,attr"`
			Cells  []struct {
				Ref     string   `xml:"r,attr"`
				Type    string   `xml:"t,attr"`
				Formula string   `xml:"f"`
				Value   string   `xml:"v"`
				Inline  richText `xml:"is"`
			} `xml:"c"`
		} `xml:"sheetData>row"`
	}
	if err := r.decode(s.part, &ws); err != nil {
		return err
	}
	number := 0
	for _, row := range ws.Rows {
		number = cmp.Or(row.Number, number+1) // a row or cell that does not say where it is follows the one before
		col := 0
		for _, c := range row.Cells {
			if col++; c.Ref == "" {
				c.Ref = CellName(number, col)
			} else {
				col = columnOf(c.Ref)
			}
			value := c.Value
			switch c.Type {
			case "inlineStr":
				value = c.Inline.String()
			case "s":
				i, err := strconv.Atoi(value)
				if err != nil || i < 0 || i >= len(shared) {
					return fmt.Errorf("cell %s: no shared text %q", c.Ref, value)
				}
				value = shared[i].String()
			}
			if value == "" && c.Formula == "" {
				continue
			}
			if len(r.out) >= maxCells {
				return errTooLarge
			}
			r.out = append(r.out, Content{Sheet: s.name, Cell: c.Ref, Formula: c.Formula, Value: value})
		}
	}
	return nil
}

// columnOf is the column of a cell's name.
func columnOf(name string) (col int) {
	for _, r := range name {
		if r < 'A' || r > 'Z' {
			break
		}
		col = col*26 + int(r-'A') + 1
	}
	return col
}
