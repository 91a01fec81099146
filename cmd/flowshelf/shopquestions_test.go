package main

// shopQuestion is a question that the owner of a shop asks, and the cells in
// which a reader of the workbooks finds the answer. README.md has the same table.
type shopQuestion struct {
	asked   string
	answers []answerCell
}

// answerCell is one cell of the written workbooks: below the section's title, in
// the row of a head and under the column's title. Without a column it is all
// that stands in the row.
type answerCell struct {
	book, sheet, section, row string
	with                      string // another text that the row must hold
	column                    string
	says                      string  // text that must stand there
	is, within                float64 // or a number
}

// The workbooks of the demo. Figures without another word were worked out apart
// from this project (see demofigures_test.go) or by hand from the demo's books.
const (
	small   = "Heads ranked - Small Eight.xlsx"
	large   = "Heads ranked - Large Eight.xlsx"
	opposed = "Heads ranked - Opposed Four.xlsx"
	month   = "Monthly review 2026-03.xlsx"
	phone   = "Enquiries answered.xlsx"
	whatIf  = "Pricing - Opposed Four.xlsx"
	first   = "1 331 street and strip, phone"
)

func shopQuestions() []shopQuestion {
	return append(append(shelfQuestions(), monthQuestions()...), portQuestions()...)
}

// shelfQuestions are about what to buy and what to ask for it.
func shelfQuestions() []shopQuestion {
	return []shopQuestion{
		{"What would a head have to sell for to beat the leader, and what would that leave us?", []answerCell{
			{book: small, sheet: "Value", row: "PW-31", column: "Sell price that ties the leader", is: 675, within: tolDollars},
			{book: small, sheet: "Value", row: "PW-31", column: "That price is", says: "below our landed cost"},
			{book: small, sheet: "Value", row: "PW-33", column: "Margin at that price", is: (1149 - 1049) / 1149.0, within: 0.003},
		}},
		{"Is the difference real, or the noise of the bench?", []answerCell{
			{book: small, sheet: "Ranking", row: "PW-33", column: "Tied with", says: "VR-84 as delivered"},
			{book: small, sheet: "Side by side", row: "Working average intake, cfm", column: "Difference", is: 211.96 - 203.64, within: tolAverage},
			{book: small, sheet: "Side by side", row: "Working average intake, cfm", column: "Beyond the noise", says: "yes"},
			{book: month, sheet: "Test plan", row: "VR-84", column: "Because", says: "the castings may vary more than this"},
		}},
		{"Does our own work bring the cheap head up to the better one?", []answerCell{
			{book: small, sheet: "Best buy", section: "Rework or buy better", row: "VR-84 + valve job", column: "Gain, cfm", is: 203.64 - 191.89, within: tolAverage},
			{book: small, sheet: "Best buy", section: "Rework or buy better", row: "VR-84 + valve job", says: "the work gained 12 cfm and would have to gain 21"},
		}},
		{"Which advertised figures can I believe?", []answerCell{
			{book: small, sheet: "Suppliers", section: "Suppliers' records", row: "Pellworth", column: "Median", is: -0.129, within: 0.001},
			{book: small, sheet: "Suppliers", section: "Suppliers' records", row: "Pellworth", column: "Heads", is: 3},
			{book: small, sheet: "Suppliers", section: "Suppliers' records", row: "Oastbridge", says: "too few to say"},
		}},
		{"Which head for this customer's engine, lift and budget?", []answerCell{
			{book: phone, sheet: first, row: "LKC-12\nrecommended", column: "All-in, a set", is: 1249},
			{book: phone, sheet: first, row: "LKC-12\nrecommended", column: "For it", says: "air speed 594 ft/s: right"},
			{book: phone, sheet: first, section: "Not offered", row: "OB-4", says: "over the budget: $2,349 all-in"},
			{book: phone, sheet: first, section: "Not offered", row: "PW-33", says: "air speed 475 ft/s: lazy"},
		}},
		{"What does the customer still have to buy?", []answerCell{
			{book: small, sheet: "Value", row: "VR-81", column: "Extras", is: 1010},
			{book: small, sheet: "Value", row: "VR-81", column: "Which", says: "manifold for the raised intake port $465"},
			{book: small, sheet: "Value", row: "LKC-07", column: "Springs", is: 180},
		}},
		{"Which heads are beaten outright?", []answerCell{
			{book: small, sheet: "Ranking", row: "PW-31", column: "Beaten by", says: "LKC-12"},
			{book: small, sheet: "Ranking", row: "VR-84 + valve job + blend", column: "Beaten by", says: "LKC-12"},
		}},
		{"How sure is it that the first is the first?", []answerCell{
			{book: small, sheet: "Ranking", row: "LKC-12", column: "First in so many of 10 reruns", is: 10, within: 0.05},
			{book: small, sheet: "Ranking", row: "LKC-12", column: "Worst place inside the noise", is: 1},
		}},
		{"Can I say it to the customer in one sentence?", []answerCell{
			{book: small, sheet: "Ranking", row: "LKC-12", column: "In one sentence", says: "212 cfm over .200-.560 for $1,249 usable; levels off from .550"},
		}},
		{"Will it fit the block?", []answerCell{
			{book: phone, sheet: first, section: "Will it fit his block?", row: "LKC-12", says: "0.115 in from intake valve to wall on his 4.030 bore"},
			// 331 in3 / 8 is 679 cc; 679/9 = 75.5 cc above the piston at 10 to 1, 12 less with LKC-12: (679 + 63.5)/63.5.
			{book: phone, sheet: first, section: "Will it fit his block?", row: "LKC-12", says: "stands at 10.0 to 1 with that one comes to 11.7"},
		}},
	}
}

// monthQuestions are about stock, prices and the month.
func monthQuestions() []shopQuestion {
	return []shopQuestion{
		{"Which heads are dead stock, and at what price would they still go?", []answerCell{
			{book: month, sheet: "Decisions", row: "clear out", with: "PW-33", column: "Because", says: "48.0 months of supply, nothing sold for 9.4 months; at $1,149 it ties LKC-12"},
			{book: month, sheet: "Decisions", row: "clear out", with: "PW-33", column: "Money", is: 4196},
			{book: month, sheet: "Stock health", row: "TD-26", column: "Odd heads", is: 2},
			{book: month, sheet: "Stock health", row: "TD-26", column: "Class", says: "dead"},
		}},
		{"Which head is missing from the shelf?", []answerCell{
			{book: month, sheet: "Decisions", row: "Gap on the shelf, Small Eight", says: "nothing worth buying between $1,249 (LKC-12, 212 cfm) and $2,349 (OB-4, 232 cfm)"},
		}},
		{"What should be flowed next?", []answerCell{
			{book: month, sheet: "Test plan", row: "PW-46", column: "Test", says: "retest"},
			{book: month, sheet: "Test plan", row: "TD-26", column: "Because", says: "nothing is proven"},
			{book: month, sheet: "Test plan", row: "TD-26", column: "Chance that it changes a place", is: 0.74, within: 0.02},
		}},
		{"Why did it move since last month?", []answerCell{
			{book: month, sheet: "What changed", row: "Small Eight", with: "LKC-12", column: "Because", says: "a new test of LKC-12 (sample H5127, 2026-03-12): 212.0 cfm, was 210.7, a difference inside the noise"},
			{book: month, sheet: "Price moves", row: "OB-4", column: "Cost now or then", is: 1880},
			{book: month, sheet: "Price moves", row: "OB-4", column: "Cost before", is: 1830},
		}},
		{"What if the euro, the freight or his price goes up?", []answerCell{
			// Typed in below: the euro at 1.15, twice the freight for TD-26, 6 % more for LKC-90.
			{book: whatIf, sheet: "Pricing", row: "TD-22", column: "Landed a set", is: 4 * (189*1.15 + 19), within: 0.01},
			{book: whatIf, sheet: "Pricing", row: "TD-22", column: "Margin, of the sell price", is: 1 - 4*(189*1.15+19)/1149, within: 1e-4},
			{book: whatIf, sheet: "Pricing", row: "TD-26", column: "Landed a set", is: 4 * (236*1.15 + 2*19), within: 0.01},
			{book: whatIf, sheet: "Pricing", row: "LKC-90", column: "Landed a set", is: 4 * 178 * 1.06, within: 0.01},
			{book: whatIf, sheet: "Turning points", row: "TD-22", column: "Sell price that holds the margin of the start", is: 1149 * (189*1.15 + 19) / (189*1.09 + 19), within: 0.01},
		}},
		{"How many to order, and when?", []answerCell{
			// 31/12 x (3/(52/12) + 1.5) sets; 9 on hand, 3 months on top of 3 weeks.
			{book: month, sheet: "Stock health", row: "LKC-12", column: "Reorder point, sets", is: 31.0 / 12 * (3/(52.0/12) + 1.5), within: 0.001},
			{book: month, sheet: "Stock health", row: "LKC-12", column: "Suggested order", says: "11 heads, not 10"},
			{book: month, sheet: "Stock health", row: "LKC-12", column: "Odd heads", is: 1},
		}},
		{"Which of our own jobs should be a standard offer?", []answerCell{
			// Rework menu: (260 - 148)/3 and (260 + 320 - 148 - 185)/(3 + 4).
			{book: small, sheet: "Best buy", section: "Rework or buy better", row: "VR-84 + valve job", column: "an hour", is: 112 / 3.0, within: 0.005},
			{book: small, sheet: "Best buy", section: "Rework or buy better", row: "VR-84 + valve job + blend", column: "an hour", is: 247 / 7.0, within: 0.005},
		}},
		{"Did this batch of castings change?", []answerCell{
			{book: month, sheet: "Supplier record", row: "Larkmoor", column: "Casting to casting", says: "sample H5102, 2026-01-22: 211 cfm (-0.6 %, inside the noise)"},
		}},
	}
}

// portQuestions are about curves, and about what the figures rest on.
func portQuestions() []shopQuestion {
	return []shopQuestion{
		{"At which lifts does it win?", []answerCell{
			{book: small, sheet: "Lift by lift", section: "Where each intake wins", row: "PW-33", says: "Ahead of LKC-12 from .450 to .650 (+7 to +15 cfm)"},
			{book: small, sheet: "Side by side", row: "0.3", column: "Beyond the noise", says: "yes"},
		}},
		{"Does the choice of average change the order?", []answerCell{
			{book: small, sheet: "Lift by lift", section: "Does the choice of average matter?", row: "No two heads", says: "No two heads change their order by more than the noise"},
			{book: small, sheet: "Ranking", row: "LKC-12", column: "Order by working avg alone", is: 3},
			{book: small, sheet: "Ranking", row: "LKC-12", column: "Order by that alone", is: 4},
		}},
		{"From which lift on is more cam wasted?", []answerCell{
			{book: small, sheet: "Shape", row: "LKC-12", column: "More cam wasted past, in", is: 0.5},
			{book: small, sheet: "Shape", row: "OB-4", column: "More cam wasted past, in", says: "can't say"},
		}},
		{"Is the exhaust good enough?", []answerCell{
			{book: small, sheet: "Flow", section: "Exhaust / intake", row: "LKC-12", column: "0.5", is: 178.0 / 247, within: 1e-4},
			{book: small, sheet: "Flow", section: "Exhaust / intake", row: "LKC-12", column: "Exhaust flowed", says: "with pipe"},
			{book: small, sheet: "Engine", row: "PW-31", column: "E/I no pipe", is: 0.71, within: 0.01},
		}},
		{"Is it the head or the valve job?", []answerCell{
			// Valves of one size, so flow/lift at .100, .200, .300 stands for the share: VR-84 1706.7
			// against the mean 1915.6 of LKC-12 1983.3, PW-31 1795 and VR-81 1968.3.
			{book: small, sheet: "Lift by lift", section: "Is it the head or the valve job?", row: "VR-84 as delivered", column: "Low, to its size", is: 1706.7/1915.6 - 1, within: 0.001},
			{book: small, sheet: "Lift by lift", section: "Is it the head or the valve job?", row: "VR-84 as delivered", says: "our valve job brought +15 % at .200 and +4 % at .500"},
			{book: small, sheet: "Lift by lift", section: "Is it the head or the valve job?", row: "LKC-12", says: "its ports differ by 2.1 % at .300 and 1.6 % at .500"},
		}},
		{"What did this supplier's figure rest on?", []answerCell{
			{book: small, sheet: "Advertised v tested", row: "PW-31", with: "0.6", column: "Advertised, cfm", is: 278},
			{book: small, sheet: "Advertised v tested", row: "PW-31", with: "0.6", column: "Advertised under", says: "bore 4.155, 28 inH2O"},
			{book: small, sheet: "Advertised v tested", row: "PW-31", with: "0.6", column: "The advertised figure stands in", says: "Pellworth flow chart 2026.xlsx"},
			{book: small, sheet: "Sources", row: "OB-4", with: "bench/OB-4 raw.xlsx", column: "Conversions", says: "%"},
		}},
		{"What is missing to rank this head?", []answerCell{
			{book: large, sheet: "Not ranked", row: "PW-46", column: "Why", says: "243 cfm, where the valve can pass 206"},
			{book: opposed, sheet: "Not ranked", row: "TD-22", column: "What is missing", says: "a flow test of one on our own bench"},
		}},
	}
}
