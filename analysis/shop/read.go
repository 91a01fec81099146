package shop

import (
	"errors"
	"fmt"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// Origin says where a setting in force comes from.
type Origin string

// The origins.
const (
	Default Origin = "default"
	Set     Origin = "set"
)

// Setting is one setting in force, for the method sheet of a result.
type Setting struct {
	Title, Value, Unit, Help string
	Origin                   Origin
	At                       source.Ref // zero for a default without a row
}

// Reading is a setup workbook as understood.
type Reading struct {
	Shop     head.Shop
	Settings []Setting
	Problems source.Problems

	places map[place]source.Ref // where each value of a record stands, blank or not
}

// place is one value of a record, by its column's title.
type place struct {
	record source.Ref
	title  string
}

// at is the cell of a record's value, the record itself where its sheet has no
// such column.
func (r *Reading) at(record source.Ref, title string) source.Ref {
	if at, ok := r.places[place{record, title}]; ok {
		return at
	}
	return record
}

// Missing is what is known when the folder holds no setup workbook: defaults,
// and one problem that says what to do.
func Missing(folder source.Ref) Reading {
	r := Reading{Shop: head.Shop{Currency: defaultCurrency, Rules: head.DefaultRules()}}
	r.Settings = r.settings(nil)
	r.Problems.Add(source.Problem{At: folder, Severity: source.Asked, Kind: "no-setup",
		Message: "the folder holds no " + FileName + ", so no head can be put in a family or priced",
		Hint:    "run `flowshelf init` on the folder once and fill in the workbook it writes"})
	return r
}

// Read understands the sheets of a setup workbook. Sheets and columns are
// found by their titles; what cannot be understood is a problem that names the
// cell and says what to type, and the default stays.
func Read(at source.Ref, sheets []Rows) Reading {
	r := Reading{Shop: head.Shop{Currency: defaultCurrency, Rules: head.DefaultRules(), Found: true, At: at}, places: make(map[place]source.Ref)}
	s := &r.Shop
	for _, sheet := range sheets {
		switch Normal(sheet.Sheet) {
		case Normal(SettingsSheet):
			r.readSettings(sheet)
		case Normal(familySheet().Name):
			s.Families = readTable(&r, sheet, familyFields(), func(f *head.Family) *source.Ref { return &f.At })
		case Normal(headSheet().Name):
			s.Heads = readTable(&r, sheet, headFields(), func(h *head.Listed) *source.Ref { return &h.At })
		case Normal(supplierSheet().Name):
			s.Suppliers = readTable(&r, sheet, supplierFields(), func(x *head.SupplierRule) *source.Ref { return &x.At })
		case Normal(benchSheet().Name):
			s.Benches = readTable(&r, sheet, benchFields(), func(b *head.Bench) *source.Ref { return &b.At })
		case Normal(orificeSheet().Name):
			s.Orifices = readTable(&r, sheet, orificeFields(), func(o *head.Orifice) *source.Ref { return &o.At })
		case Normal(rateSheet().Name):
			s.Rates = readTable(&r, sheet, rateFields(), func(x *head.Rate) *source.Ref { return &x.At })
		case Normal(wordSheet().Name):
			s.Words = readTable(&r, sheet, wordFields(), func(w *head.Word) *source.Ref { return &w.At })
		default:
			r.Problems.Add(source.Problem{At: sheet.At, Severity: source.SetAside, Kind: "setup-sheet-unknown",
				Message: "this sheet is none of the setup's and was not read"})
		}
	}
	if r.Settings == nil {
		r.Settings = r.settings(nil)
	}
	r.finish()
	r.check()
	return r
}

// readTable reads one record a row. The first column names the record; a row
// without a name but with values is a problem, a blank row is nothing.
func readTable[T any](r *Reading, sheet Rows, fields []field[T], at func(*T) *source.Ref) []T {
	columns := match(r, sheet, fields)
	var out []T
	for _, row := range sheet.Rows {
		var record T
		named, first := false, Cell{}
		for i, cell := range row {
			if cell.Kind == Blank || i >= len(columns) || columns[i] == nil {
				continue
			}
			if first.Kind == Blank {
				first = cell
			}
			if columns[i] == &fields[0] {
				named = true
				*at(&record) = cell.At
			}
			if err := columns[i].read(&record, withoutUnit(cell, columns[i].Unit)); err != nil {
				r.bad(cell, columns[i].Title, err)
			}
		}
		switch {
		case named:
			out = append(out, record)
			for i, c := range columns {
				if c != nil {
					r.places[place{*at(&record), c.Title}] = row[i].At
				}
			}
		case first.Kind != Blank:
			r.Problems.Add(source.Problem{At: first.At, Severity: source.Refused, Kind: "setup-row-unnamed", Found: first.Text,
				Message: "this row has no " + strings.ToLower(fields[0].Title), Hint: "type one in the column " + fields[0].Title})
		}
	}
	return out
}

// match finds the field of each column by its title.
func match[T any](r *Reading, sheet Rows, fields []field[T]) []*field[T] {
	columns := make([]*field[T], len(sheet.Titles))
	taken := make(map[*field[T]]bool)
	for i, title := range sheet.Titles {
		for j := range fields {
			if f := &fields[j]; !taken[f] && f.called(title.Text) {
				columns[i], taken[f] = f, true
				break
			}
		}
		if columns[i] == nil && title.Kind != Blank {
			r.Problems.Add(source.Problem{At: title.At, Severity: source.SetAside, Kind: "setup-column-unknown", Found: title.Text,
				Message: "this column is none of the setup's and was not read"})
		}
	}
	if !taken[&fields[0]] {
		r.Problems.Add(source.Problem{At: sheet.At, Severity: source.Refused, Kind: "setup-column-missing",
			Message: fmt.Sprintf("the column %s is missing, so the sheet could not be read", fields[0].Title),
			Hint:    fmt.Sprintf("put the titles into row %d", HeaderRow)})
	}
	return columns
}

func (r *Reading) bad(cell Cell, title string, help error) {
	r.Problems.Add(source.Problem{At: cell.At, Severity: source.Refused, Kind: "setup-value", Found: cell.Text,
		Message: title + " cannot be understood and counts as blank", Hint: help.Error()})
}

func (r *Reading) readSettings(sheet Rows) {
	fields := settingFields()
	name, value := -1, -1
	for i, title := range sheet.Titles {
		switch Normal(title.Text) {
		case Normal(settingTitle):
			name = i
		case Normal(valueTitle):
			value = i
		}
	}
	if name < 0 || value < 0 {
		r.Problems.Add(source.Problem{At: sheet.At, Severity: source.Refused, Kind: "setup-column-missing",
			Message: "the columns Setting and Value are missing, so the sheet could not be read",
			Hint:    fmt.Sprintf("put the titles into row %d", HeaderRow)})
		return
	}
	set := make(map[string]source.Ref)
	for _, row := range sheet.Rows {
		r.readSetting(fields, row[name], row[value], set)
	}
	r.Settings = r.settings(set)
}

func (r *Reading) readSetting(fields []field[head.Shop], title, value Cell, set map[string]source.Ref) {
	for _, f := range fields {
		if !f.called(title.Text) {
			continue
		}
		if _, twice := set[f.Title]; twice {
			r.Problems.Add(source.Problem{At: title.At, Severity: source.Refused, Kind: "setup-setting-twice", Found: title.Text,
				Message: "this setting stands on the sheet twice; the first one counts", Hint: "take one of the rows out"})
			return
		}
		if value.Kind == Blank {
			return
		}
		if err := f.read(&r.Shop, withoutUnit(value, f.Unit)); err != nil {
			r.bad(value, f.Title, err)
			return
		}
		set[f.Title] = value.At
		return
	}
	if title.Kind != Blank {
		r.Problems.Add(source.Problem{At: title.At, Severity: source.SetAside, Kind: "setup-setting-unknown", Found: title.Text,
			Message: "this is none of the settings and was not read"})
	}
}

// settings lists what is in force and whether somebody set it.
func (r *Reading) settings(set map[string]source.Ref) []Setting {
	var out []Setting
	for _, f := range settingFields() {
		s := Setting{Title: f.Title, Value: f.write(&r.Shop).Text, Unit: f.Unit, Help: f.Help, Origin: Default}
		if at, ok := set[f.Title]; ok {
			s.Origin, s.At = Set, at
		}
		out = append(out, s)
	}
	return out
}

// finish fills in what a blank means and the shop's currency.
func (r *Reading) finish() {
	s := &r.Shop
	s.Currency = strings.ToUpper(s.Currency)
	r.inCurrency(&s.Rules.DefaultFreight, s.Currency)
	for i := range s.Suppliers {
		s.Suppliers[i].Currency = strings.ToUpper(s.Suppliers[i].Currency)
		r.inCurrency(&s.Suppliers[i].Freight, s.Currency)
	}
	for i := range s.Rates {
		s.Rates[i].Currency = strings.ToUpper(s.Rates[i].Currency)
	}
	for i := range s.Benches {
		s.Benches[i].Own = Normal(s.Benches[i].Owner) == "own"
	}
	for i := range s.Families {
		f := &s.Families[i]
		r.inCurrency(&f.Worth, s.Currency)
		fillAnchors(&f.Anchors)
		fillSpeed(&f.Lazy, quantity.FeetPerSecond(500))
		fillSpeed(&f.Choked, quantity.FeetPerSecond(640))
	}
}

// inCurrency takes an amount for one in the shop's currency, unless it is typed with
// the sign of another.
func (r *Reading) inCurrency(m *statedMoney, currency string) {
	switch sign := m.Value.Currency; {
	case !m.Known:
	case sign != "" && sign != currency:
		r.bad(Cell{At: m.Trace.At, Text: m.Trace.Text}, "an amount in "+sign, errors.New("type it in "+currency+", the currency of the sheet Shop"))
		*m = statedMoney{}
	default:
		m.Value.Currency = currency
	}
}

// fillAnchors gives stall and weights their defaults. A score needs the four
// flows; without them none is given.
func fillAnchors(a *head.Anchors) {
	if a.StallLow == 0 {
		a.StallLow = 0.70
	}
	if a.WMid == 0 && a.WStall == 0 && a.WPeak == 0 {
		a.WMid, a.WStall, a.WPeak = 0.5, 0.3, 0.2
	}
	a.Known = a.MidLow > 0 && a.MidHigh > a.MidLow && a.PeakLow > 0 && a.PeakHigh > a.PeakLow &&
		weightsFit(*a)
}

func weightsFit(a head.Anchors) bool {
	sum := a.WMid + a.WStall + a.WPeak
	return sum > 0.999 && sum < 1.001
}

func fillSpeed(s *source.Stated[quantity.Speed], v quantity.Speed) {
	if !s.Known {
		*s = source.Say(v, source.Trace{Unit: "ft/s", Steps: []string{"default: common practice, no source"}})
	}
}
