package book

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"iter"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"flowshelf/analysis/head"
)

// Stamp is what a workbook of ours says about itself.
type Stamp struct {
	ID      string // which output it is, the same from run to run
	Content string // fingerprint of its cells when it was written, and the paper it was laid out for
	Theirs  string // the columns that people type into, which the fingerprint leaves out; "" for none
	Form    string // of a workbook with open cells, the fingerprint of all but them and of no results; see Form
}

// The document properties that carry the stamp. Whoever must leave our outputs
// alone looks for the first.
const (
	PropertyID      = "Flowshelf output"
	PropertyContent = "Flowshelf content"
	PropertyTheirs  = "Flowshelf answers"
	PropertyForm    = "Flowshelf form"
)

// Fingerprint is a hash over what the cells and the notes on them say: sheets,
// places, formulas, values and texts, not bytes. A spreadsheet program that opens a workbook and saves it
// unchanged rewrites every byte and leaves the fingerprint alone: numbers count
// to ten digits, formulas without their spacing and case.
func Fingerprint(cells []Content) string { return fingerprint(slices.Values(cells)) }

func fingerprint(cells iter.Seq[Content]) string {
	h := sha256.New()
	for c := range cells {
		if c.On != "" {
			fmt.Fprintf(h, "note %q %q %q\n", c.Sheet, c.On, plainText(c.Value))
			continue
		}
		fmt.Fprintf(h, "%q %q %q %q\n", c.Sheet, c.Cell, plainFormula(c.Formula), plainValue(c.Value))
	}
	return hex.EncodeToString(h.Sum(nil))
}

// noResults stands behind the fingerprint of a workbook whose formulas are not
// ours.
const noResults = " without results"

// FormulaFingerprint is the Fingerprint of a workbook with other people's
// formulas: their results are left out, which a program that opens and saves the
// workbook works out anew, or for the first time.
func FormulaFingerprint(cells []Content) string {
	return fingerprint(withoutResults(slices.Values(cells))) + noResults
}

// withoutResults leaves out what formulas came to.
func withoutResults(cells iter.Seq[Content]) iter.Seq[Content] {
	return func(yield func(Content) bool) {
		for c := range cells {
			if c.Formula != "" {
				c.Value = ""
			}
			if !yield(c) {
				return
			}
		}
	}
}

// without leaves out some cells.
func without(cells iter.Seq[Content], some func(Content) bool) iter.Seq[Content] {
	return func(yield func(Content) bool) {
		for c := range cells {
			if !some(c) && !yield(c) {
				return
			}
		}
	}
}

func plainFormula(f string) string {
	return strings.ToUpper(strings.ReplaceAll(strings.ReplaceAll(strings.TrimPrefix(f, "="), " ", ""), "'", ""))
}

func plainValue(v string) string {
	if x, err := strconv.ParseFloat(v, 64); err == nil {
		const digits = 10
		return strconv.FormatFloat(x, 'g', digits, 64)
	}
	return plainText(v)
}

// plainText is a text whose lines end as they do everywhere.
func plainText(v string) string {
	return strings.ReplaceAll(strings.ReplaceAll(v, "\r\n", "\n"), "_x000D_", "")
}

// StampOf reads the stamp that a workbook carries, without looking whether its
// cells still are those that were stamped.
func StampOf(workbook []byte) (s Stamp, ok bool, err error) {
	s, err = readStamp(workbook)
	return s, err == nil && s.ID != "", err
}

// Identity reads the stamp of a workbook. ok is false for a workbook that is not
// ours; edited is true when its cells are no longer those we wrote.
func Identity(workbook []byte) (id Stamp, ok, edited bool, err error) {
	id, err = readStamp(workbook)
	if err != nil || id.ID == "" {
		return Stamp{}, false, false, err
	}
	cells, err := Cells(workbook)
	if err != nil {
		return id, true, false, err
	}
	ours := withoutTheirs(slices.Values(cells), id.Theirs)
	if strings.HasSuffix(id.Content, noResults) {
		return id, true, fingerprint(withoutResults(ours))+noResults != id.Content, nil
	}
	return id, true, fingerprint(ours) != strings.TrimSuffix(id.Content, onA4), nil
}

// theirs spells the columns of all sheets that people type into:
// "Questions:I,J/Answered:G". A sheet's name holds neither sign.
func (b *Book) theirs() string {
	var out []string
	for _, s := range b.sheets {
		var columns []string
		for _, col := range s.theirs {
			columns = append(columns, ColumnName(col))
		}
		if len(columns) > 0 {
			out = append(out, s.name+":"+strings.Join(columns, ","))
		}
	}
	return strings.Join(out, "/")
}

func withoutTheirs(cells iter.Seq[Content], theirs string) iter.Seq[Content] {
	out := map[string][]string{}
	for part := range strings.SplitSeq(theirs, "/") {
		sheet, columns, _ := strings.Cut(part, ":")
		out[sheet] = strings.Split(columns, ",")
	}
	return without(cells, func(c Content) bool {
		return slices.Contains(out[c.Sheet], strings.TrimRight(c.Cell, "0123456789"))
	})
}

// Seal puts a stamp with the fingerprint of its present cells on a workbook
// that was not built as a Book: a marked copy, say.
func Seal(workbook []byte, id string) ([]byte, error) {
	cells, err := Cells(workbook)
	if err != nil {
		return nil, err
	}
	f, err := excelize.OpenReader(bytes.NewReader(workbook), excelize.Options{
		UnzipSizeLimit: maxPart, UnzipXMLSizeLimit: maxPart, RawCellValue: true,
	})
	if err != nil {
		return nil, err
	}
	defer f.Close() //nolint:errcheck // an in-memory file
	if err := setStamp(f, Stamp{ID: id, Content: Fingerprint(cells)}); err != nil {
		return nil, err
	}
	buf, err := f.WriteToBuffer()
	if err != nil {
		return nil, err
	}
	return buf.Bytes(), nil
}

// seal stamps the book under construction with the fingerprint of its cells. A
// book without an id is handed over for good and carries no stamp.
func (r *renderer) seal() error {
	if r.book.props.ID == "" {
		return nil
	}
	theirs := r.book.theirs()
	content := fingerprint(withoutTheirs(r.book.contents(), theirs))
	if r.book.props.Paper == head.A4 {
		content += onA4
	}
	return setStamp(r.file, Stamp{r.book.props.ID, content, theirs, r.book.form()})
}

// onA4 stands behind the fingerprint of a workbook that was laid out for A4, so
// that the same cells on the other paper are another version.
const onA4 = " on A4"

func setStamp(f *excelize.File, s Stamp) error {
	return firstError(
		func() error { return f.SetCustomProps(excelize.CustomProperty{Name: PropertyID, Value: clean(s.ID)}) },
		func() error {
			return f.SetCustomProps(excelize.CustomProperty{Name: PropertyContent, Value: s.Content})
		},
		func() error {
			if s.Theirs == "" {
				return nil
			}
			return f.SetCustomProps(excelize.CustomProperty{Name: PropertyTheirs, Value: s.Theirs})
		},
		func() error {
			if s.Form == "" {
				return nil
			}
			return f.SetCustomProps(excelize.CustomProperty{Name: PropertyForm, Value: s.Form})
		},
	)
}

// contents are the cells of the book as Cells reads them back, one at a time: of
// a folder's status a list of them would take as much memory as the book.
func (b *Book) contents() iter.Seq[Content] {
	return func(yield func(Content) bool) {
		for _, s := range b.sheets {
			for at, c := range s.each() {
				value := c.Value.text
				if c.Value.kind == number {
					value = strconv.FormatFloat(c.Value.number, 'f', -1, 64)
				}
				if value == "" && c.Formula == "" {
					continue
				}
				if !yield(Content{Sheet: s.name, Cell: CellName(at.row, at.col), Formula: c.Formula, Value: value}) {
					return
				}
			}
		}
	}
}

func readStamp(workbook []byte) (Stamp, error) {
	r, err := open(workbook)
	if err != nil {
		return Stamp{}, err
	}
	var props struct {
		P []struct {
			Name  string `xml:"name,attr"`
			Value string `xml:"lpwstr"`
		} `xml:"property"`
	}
	if err := r.decode("docProps/custom.xml", &props); err != nil {
		return Stamp{}, err
	}
	var s Stamp
	for _, p := range props.P {
		switch p.Name {
		case PropertyID:
			s.ID = p.Value
		case PropertyContent:
			s.Content = p.Value
		case PropertyTheirs:
			s.Theirs = p.Value
		case PropertyForm:
			s.Form = p.Value
		}
	}
	return s, nil
}
