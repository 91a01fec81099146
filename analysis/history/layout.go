package history

import (
	"flowshelf/analysis/shop"
)

// Where things stand on every sheet, 1-based.
const (
	TitleRow  = 1
	NoteRow   = 2
	HeaderRow = 4
	FirstRow  = 5
)

// Sheet is one sheet of a month's workbook: its columns and, when one is
// written, its rows.
type Sheet struct {
	Name    string
	Columns []string
	Rows    [][]shop.Cell
}

// The sheets.
const (
	monthSheet   = "Month"
	headSheet    = "Heads"
	placeSheet   = "Places"
	settingSheet = "Settings"
	answerSheet  = "Answers"
)

func monthFields() []field[Facts] {
	return []field[Facts]{
		words("Shop", func(f *Facts) *string { return &f.Shop }),
		day("Date", func(f *Facts) *dated { return (*dated)(&f.Date) }),
		words("Currency", func(f *Facts) *string { return &f.Currency }),
	}
}

func headFields() []field[Head] {
	return []field[Head]{
		words("Head", func(h *Head) *string { return &h.Name }),
		words("Family", func(h *Head) *string { return &h.Family }),
		words("Supplier", func(h *Head) *string { return &h.Supplier }),
		whole("Heads a set", func(h *Head) *statedInt { return &h.HeadsPerSet }),
		whole("On hand, heads", func(h *Head) *statedInt { return &h.OnHand }),
		number("Sold 12 months, sets", func(h *Head) *statedNumber { return &h.Sold12 }),
		number("Last sale, months ago", func(h *Head) *statedNumber { return &h.LastSale }),
		number("Lead time, weeks", func(h *Head) *statedNumber { return &h.LeadWeeks }),
		words("Stock book", func(h *Head) *string { return &h.StockBook }),
		money("Net a head", func(h *Head) *statedMoney { return &h.Net }),
		money("Freight a head", func(h *Head) *statedMoney { return &h.Freight }),
		money("Landed a head", func(h *Head) *statedMoney { return &h.Landed }),
		money("Sell a set", func(h *Head) *statedMoney { return &h.Sell }),
		words("Cost from", func(h *Head) *string { return &h.CostList }),
		words("Cost as listed", func(h *Head) *string { return &h.CostText }),
		words("Cost worked out", func(h *Head) *string { return &h.CostSteps }),
		words("Sizes", func(h *Head) *string { return &h.Dimensions }),
	}
}

func placeFields() []field[Place] {
	return []field[Place]{
		words("Entry", func(p *Place) *string { return &p.Label }),
		words("Head", func(p *Place) *string { return &p.Head }),
		words("State", func(p *Place) *string { return &p.State }),
		words("Family", func(p *Place) *string { return &p.Family }),
		words("Standing", func(p *Place) *string { return (*string)(&p.Standing) }),
		words("Why no place", func(p *Place) *string { return &p.Why }),
		count("Place", func(p *Place) *int { return &p.Number }),
		yes("Shared", func(p *Place) *bool { return &p.Shared }),
		words("Tied with", func(p *Place) *string { return &p.TiedWith }),
		number("Working average, cfm", func(p *Place) *statedNumber { return &p.Working }),
		number("Uncertainty, cfm", func(p *Place) *statedNumber { return &p.WorkingU }),
		number("Shape", func(p *Place) *statedNumber { return &p.Shape }),
		words("Verdict", func(p *Place) *string { return &p.Verdict }),
		words("Bore", func(p *Place) *string { return &p.BoreHow }),
		words("Sample", func(p *Place) *string { return &p.Sample }),
		statedDay("Tested", func(p *Place) *statedDate { return &p.Tested }),
		words("Readings used", func(p *Place) *string { return &p.Readings }),
		words("Sheets", func(p *Place) *string { return &p.Sheets }),
		money("Sell", func(p *Place) *statedMoney { return &p.Sell }),
		yes("Sell proposed", func(p *Place) *bool { return &p.Proposed }),
		money("Extras", func(p *Place) *statedMoney { return &p.Extras }),
		money("Springs", func(p *Place) *statedMoney { return &p.Springs }),
		money("Rework", func(p *Place) *statedMoney { return &p.Rework }),
		money("Usable", func(p *Place) *statedMoney { return &p.Usable }),
		words("Needs", func(p *Place) *string { return &p.Needs }),
		number("Value", func(p *Place) *statedNumber { return &p.Value }),
		number("Value uncertainty", func(p *Place) *statedNumber { return &p.ValueU }),
		words("Reasons", func(p *Place) *string { return &p.Reasons }),
	}
}

func settingFields() []field[Setting] {
	return []field[Setting]{
		words("Scope", func(s *Setting) *string { return &s.Scope }),
		words("Setting", func(s *Setting) *string { return &s.Name }),
		words("Value", func(s *Setting) *string { return &s.Value }),
	}
}

func answerFields() []field[Answer] {
	return []field[Answer]{
		words("Key", func(a *Answer) *string { return &a.Key }),
		words("Head", func(a *Answer) *string { return &a.Head }),
		words("Answer", func(a *Answer) *string { return &a.Answer }),
	}
}

// Sheets lays a month's facts out.
func Sheets(f Facts) []Sheet {
	return []Sheet{
		laidOut(monthSheet, monthFields(), []Facts{f}),
		laidOut(headSheet, headFields(), f.Heads),
		laidOut(placeSheet, placeFields(), f.Places),
		laidOut(settingSheet, settingFields(), f.Settings),
		laidOut(answerSheet, answerFields(), f.Answers),
	}
}

func laidOut[T any](name string, fields []field[T], records []T) Sheet {
	s := Sheet{Name: name}
	for _, f := range fields {
		s.Columns = append(s.Columns, f.title)
	}
	for i := range records {
		row := make([]shop.Cell, len(fields))
		for j, f := range fields {
			row[j] = f.write(&records[i])
		}
		s.Rows = append(s.Rows, row)
	}
	return s
}
