package main

import (
	"bytes"
	"encoding/json"
	"strconv"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// listRow is one row of a list: what it says, by name, each with its cell.
type listRow struct {
	kind   string // "price", "stock", ...
	at     source.Ref
	status head.Status
	values []named
}

// named is one value of a row. What the row does not state is not among its
// values.
type named struct {
	name  string
	value string
	brief string // a number as a person wants it, "" for the value itself
	text  bool   // a text rather than a number
	unit  string
	cell  string
}

// MarshalJSON prints {"head":{"value":"LKC-12","unit":"","cell":"A5"},...,"status":"used"},
// in the order of the row.
func (r listRow) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for _, v := range r.values {
		value := json.RawMessage(v.value)
		if v.text {
			value, _ = json.Marshal(v.value) // a string always marshals
		}
		field, err := json.Marshal(struct {
			Value json.RawMessage `json:"value"`
			Unit  string          `json:"unit"`
			Cell  string          `json:"cell"`
		}{value, v.unit, v.cell})
		if err != nil {
			return nil, err
		}
		b.WriteString(strconv.Quote(v.name) + ":")
		b.Write(field)
		b.WriteByte(',')
	}
	b.WriteString(`"status":` + strconv.Quote(r.status.String()) + "}")
	return b.Bytes(), nil
}

func (r *listRow) word(name, value string, at source.Ref) {
	if value != "" {
		r.values = append(r.values, named{name: name, value: value, text: true, cell: at.Cell})
	}
}

func (r *listRow) number(name string, value float64, unit string, at source.Ref) {
	const most, readable = 15, 6 // significant digits: what a spreadsheet works with, and what a person reads
	r.values = append(r.values, named{name: name, value: strconv.FormatFloat(value, 'g', most, 64),
		brief: strconv.FormatFloat(value, 'g', readable, 64), unit: unit, cell: at.Cell})
}

func (r *listRow) day(name string, d source.Stated[time.Time]) {
	if d.Known {
		r.word(name, d.Value.Format(time.DateOnly), d.Trace.At)
	}
}

func (r *listRow) money(name string, m source.Stated[quantity.Money]) {
	if m.Known {
		r.values = append(r.values, named{name: name, value: m.Value.Amount.String(), unit: m.Value.Currency, cell: m.Trace.At.Cell})
	}
}

func (r *listRow) count(name string, n source.Stated[int], unit string) {
	if n.Known {
		r.number(name, float64(n.Value), unit, n.Trace.At)
	}
}

func (r *listRow) real(name string, x source.Stated[float64], unit string) {
	if x.Known {
		r.number(name, x.Value, unit, x.Trace.At)
	}
}

func (r *listRow) length(name string, l source.Stated[quantity.Length]) {
	if l.Known {
		r.number(name, l.Value.In(), "in", l.Trace.At)
	}
}

func (r *listRow) flow(name string, f source.Stated[quantity.Flow]) {
	if f.Known {
		r.number(name, f.Value.CFM(), "cfm", f.Trace.At)
	}
}

// listRows returns every row of every list, in the order of kinds, files and
// cells.
func listRows(r head.Records) []listRow {
	var out []listRow
	for _, p := range r.Prices {
		out = append(out, priceRow(p))
	}
	for _, s := range r.Stock {
		out = append(out, stockRow(s))
	}
	for _, d := range r.Dimensions {
		out = append(out, dimensionRow(d))
	}
	for _, e := range r.Extras {
		out = append(out, extraRow(e))
	}
	for _, w := range r.Rework {
		out = append(out, reworkRow(w))
	}
	for _, n := range r.Notes {
		out = append(out, noteRow(n))
	}
	for _, b := range r.Bench {
		out = append(out, benchRow(b))
	}
	for _, e := range r.Enquiries {
		out = append(out, enquiryRow(e))
	}
	for _, a := range r.Aliases {
		out = append(out, aliasRow(a))
	}
	return out
}

// lists returns the rows of every list in the file, a table for each sheet and
// kind.
func (i inspection) lists() []tableJSON {
	var out []tableJSON
	for _, row := range listRows(i.records) {
		last := len(out) - 1
		if last < 0 || out[last].Kind != row.kind || out[last].Sheet != row.at.Sheet {
			out = append(out, tableJSON{Sheet: row.at.Sheet, Kind: row.kind,
				Source: head.ClassUnknown.String(), Readings: []readingJSON{}})
			last++
		}
		out[last].Rows = append(out[last].Rows, row)
	}
	return out
}
