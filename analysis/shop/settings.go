package shop

import (
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
)

// endings are the words of how prices end.
func endings() []string {
	var out []string
	for _, e := range head.Endings() {
		out = append(out, string(e))
	}
	return out
}

func yesNo() []string { return []string{"no", "yes"} }

// The columns of the Shop sheet: one setting a row.
const (
	settingTitle = "Setting"
	valueTitle   = "Value"
)

// SettingsSheet is the name of the sheet with one setting a row.
const SettingsSheet = "Shop"

func settingsSheet() Sheet {
	return Sheet{
		Name: SettingsSheet, Title: "Shop settings",
		Explanation: "One setting a row. Change the Value column; a blank value means the default.",
		Columns: []Column{{Title: settingTitle}, {Title: valueTitle}, {Title: "Unit"},
			{Title: "What it does"}, {Title: "Default"}},
	}
}

// Settings returns the settings of the Shop sheet in the order of its rows,
// each with the default that counts while its value is blank.
func Settings() []Column {
	shop := head.Shop{Currency: defaultCurrency, Rules: head.DefaultRules()}
	var out []Column
	for _, f := range settingFields() {
		c := f.Column
		c.Default = f.write(&shop).Text
		out = append(out, c)
	}
	return out
}

const defaultCurrency = "USD"

func settingFields() []field[head.Shop] {
	return append(nameFields(), append(noiseFields(), append(boreFields(), moneyFields()...)...)...)
}

func nameFields() []field[head.Shop] {
	return []field[head.Shop]{
		text(Column{Title: "Shop name", Also: []string{"Shop", "Name"}, Help: "Stands at the top of every sheet for a customer."},
			func(s *head.Shop) *string { return &s.Name }),
		text(Column{Title: "Phone", Help: "Stands on every sheet for a customer."},
			func(s *head.Shop) *string { return &s.Phone }),
		choice(Column{Title: "Paper", Also: []string{"Paper size"}, Choices: []string{"letter", "A4"}, Help: "What the workbooks are printed on."},
			func(s *head.Shop) *head.Paper { return &s.Rules.Paper }, head.Letter, head.A4),
		text(Column{Title: "Currency", Help: "Three letters. All money is shown in it."},
			func(s *head.Shop) *string { return &s.Currency }),
		number(Column{Title: "Reference test pressure", Also: []string{"Reference pressure", "Test pressure"}, Unit: "inH2O",
			Help: "Every flow is brought to this test pressure."}, bounds{1, 60},
			func(s *head.Shop) *float64 { return (*float64)(&s.Rules.Reference) }),
		choice(Column{Title: "Convert pressure by", Also: []string{"Pressure law"}, Choices: []string{"square root", "isentropic"},
			Help: "How a flow is brought to the reference pressure."},
			func(s *head.Shop) *head.PressureLaw { return &s.Rules.PressureLaw }, head.SquareRoot, head.Isentropic),
	}
}

func noiseFields() []field[head.Shop] {
	return []field[head.Shop]{
		percent(Column{Title: "Repeatability", Unit: "%", Help: "What the bench repeats to. A drop or a dip counts when it exceeds this and the smallest step."},
			bounds{0.01, 20}, func(s *head.Shop) *float64 { return &s.Rules.Repeatability }),
		flow(Column{Title: "Smallest difference that counts", Also: []string{"Smallest step"}, Unit: "cfm", Help: "A change below it never counts."},
			bounds{0.1, 50}, func(s *head.Shop) *quantity.Flow { return &s.Rules.SmallestStep }),
		length(Column{Title: "Stall span", Unit: "in", Help: "How much further lift must bring nothing before a curve is said to level off."},
			bounds{0.01, 0.5}, func(s *head.Shop) *quantity.Length { return &s.Rules.StallSpan }),
		percent(Column{Title: "Casting spread per port", Also: []string{"Port spread"}, Unit: "%", Help: "How much ports of one casting differ (one standard deviation)."},
			bounds{0, 20}, func(s *head.Shop) *float64 { return &s.Rules.PortSpread }),
		length(Column{Title: "Lift zero uncertainty", Also: []string{"Lift zero"}, Unit: "in", Help: "How well the lift's zero is found."},
			bounds{0, 0.05}, func(s *head.Shop) *quantity.Length { return &s.Rules.LiftZero }),
		percent(Column{Title: "Tie until", Unit: "%", Help: "Two heads tie until one is better with at least this certainty."},
			bounds{50, 99.9}, func(s *head.Shop) *float64 { return &s.Rules.TieUntil }),
		percent(Column{Title: "Bench day flagged above", Also: []string{"Bench flag"}, Unit: "%", Help: "A check plate off by more flags that day's tests."},
			bounds{0.1, 20}, func(s *head.Shop) *float64 { return &s.Rules.BenchFlag }),
		percent(Column{Title: "Bench day held above", Also: []string{"Bench hold"}, Unit: "%", Help: "A check plate off by more holds that day's tests."},
			bounds{0.1, 50}, func(s *head.Shop) *float64 { return &s.Rules.BenchHold }),
		flow(Column{Title: "Leak limit", Unit: "cfm", Help: "A leak above it flags the test."},
			bounds{0.1, 50}, func(s *head.Shop) *quantity.Flow { return &s.Rules.LeakLimit }),
		number(Column{Title: "Reading impossible above", Unit: "x ceiling", Help: "A reading above this many times the valve's ceiling is refused."},
			bounds{0.8, 2}, func(s *head.Shop) *float64 { return &s.Rules.ImpossibleCurt }),
		number(Column{Title: "Reading with pipe impossible above", Unit: "x ceiling", Help: "The same for an exhaust port with a pipe."},
			bounds{0.8, 2}, func(s *head.Shop) *float64 { return &s.Rules.ImpossiblePipe }),
	}
}

func boreFields() []field[head.Shop] {
	return []field[head.Shop]{
		length(Column{Title: "Same bore class within", Also: []string{"Bore class"}, Unit: "in", Help: "Fixture bores within this of the reference bore count as the same."},
			bounds{0.001, 0.5}, func(s *head.Shop) *quantity.Length { return &s.Rules.BoreClass }),
		choice(Column{Title: "Estimate flow at another bore", Also: []string{"Estimate bore"}, Choices: yesNo(),
			Help: "May the flow at the reference bore be estimated from valve size and wall clearance? Shown with its uncertainty."},
			func(s *head.Shop) *head.BoreEstimate { return &s.Rules.EstimateBore }, head.NeverEstimate, head.MayEstimate),
		percent(Column{Title: "Range tested at least", Also: []string{"Minimum coverage"}, Unit: "%", Help: "How much of the working range must be tested."},
			bounds{50, 100}, func(s *head.Shop) *float64 { return &s.Rules.MinimumCoverage }),
		number(Column{Title: "Test called old after", Also: []string{"Old test"}, Unit: "months", Help: "A test older than this is marked."},
			bounds{1, 240}, func(s *head.Shop) *float64 { return &s.Rules.OldTestMonths }),
	}
}

func moneyFields() []field[head.Shop] {
	return []field[head.Shop]{
		percent(Column{Title: "Target margin", Unit: "%", Help: "Of the sell price, not of the cost."},
			bounds{0, 90}, func(s *head.Shop) *float64 { return &s.Rules.TargetMargin }),
		percent(Column{Title: "Minimum margin", Also: []string{"Lowest margin"}, Unit: "%", Help: "Of the sell price. A price that leaves less is flagged in the month's review and in the what-if."},
			bounds{0, 90}, func(s *head.Shop) *float64 { return &s.Rules.MinimumMargin }),
		choice(Column{Title: "Prices end", Also: []string{"Price ending", "Round prices"}, Choices: endings(), Help: "A price that we suggest is raised to the next that ends so. One that you have set stays as it is."},
			func(s *head.Shop) *head.Ending { return &s.Rules.Ending }, head.Endings()...),
		whole(Column{Title: "Quote stands for", Also: []string{"Quote valid", "Quote days"}, Unit: "days", Help: "How long the prices on a customer's sheet stand; a list that changes them earlier ends it earlier."},
			bounds{1, 366}, func(s *head.Shop) *int { return &s.Rules.QuoteDays }),
		money(Column{Title: "Default freight a head", Also: []string{"Default freight"}, Help: "Used, and noted, where neither the list nor the supplier's row states one."},
			func(s *head.Shop) *statedMoney { return &s.Rules.DefaultFreight }),
		money(Column{Title: "Labour rate an hour", Also: []string{"Labour rate", "Labor rate", "Shop rate"}, Help: "What an hour of our own work costs us. Hours of the rework menu count at it; it moves no place."},
			func(s *head.Shop) *statedMoney { return &s.Rules.LabourRate }),
		number(Column{Title: "Months of supply called slow", Also: []string{"Slow months"}, Unit: "months", Help: "More months of supply than this is slow stock."},
			bounds{1, 120}, func(s *head.Shop) *float64 { return &s.Rules.SlowMonths }),
		number(Column{Title: "Safety stock", Unit: "months", Help: "Added to the demand during the lead time for the reorder point."},
			bounds{0, 24}, func(s *head.Shop) *float64 { return &s.Rules.SafetyMonths }),
		number(Column{Title: "Months without a sale called dead", Also: []string{"Dead months"}, Unit: "months", Help: "Slow stock of which nothing was sold for this long is dead."},
			bounds{1, 120}, func(s *head.Shop) *float64 { return &s.Rules.DeadMonths }),
		number(Column{Title: "Order up to", Unit: "months", Help: "Months of supply that an order brings the stock to, beyond the lead time."},
			bounds{0.25, 24}, func(s *head.Shop) *float64 { return &s.Rules.OrderMonths }),
		number(Column{Title: "Keep in stock from", Unit: "sets a year", Help: "A head that sells fewer is ordered for the customer."},
			bounds{0, 1000}, func(s *head.Shop) *float64 { return &s.Rules.StockFrom }),
		whole(Column{Title: "Questions open at a time", Help: "How many questions are open at a time, the most expensive first."},
			bounds{1, 100}, func(s *head.Shop) *int { return &s.Rules.MaximumQuestions }),
	}
}
