package comparison_test

import (
	"fmt"
	"math"
	"strings"
	"time"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/curve"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// An invented shelf of nine heads and states of one family. Flows are given;
// averages, areas and verdicts are computed from them by package curve; places,
// ties and costs are typed in, so that nothing here depends on the ranking.
type given struct {
	head, state, supplier   string
	intake, exhaust         []float64
	sell, extra, kit, work  float64
	place                   int
	tied                    []string
	score                   compare.Shape
	u                       float64
	beaten                  []string
	buy                     *compare.Interval
	runner, chamber, maxima float64
	section, air            float64
	says                    string
}

var sheetLifts = []float64{.1, .2, .3, .4, .45, .5, .55, .6, .65}

func points(mid, stall, peak, score float64) compare.Shape {
	return compare.Shape{Known: true, Mid: mid, Stall: stall, Peak: peak, Score: score}
}

func smallEight() []given {
	return []given{
		{head: "LKC-12", supplier: "Larkmoor Castings", intake: []float64{68, 134, 190, 229, 240, 247, 250, 251, 250},
			exhaust: []float64{56, 107, 144, 167, 174, 178, 181, 183, 184}, sell: 1249, place: 1, score: points(65.2, 94, 54.8, 71.8), u: 41.7,
			buy: &compare.Interval{From: 12.46, To: 56.22}, runner: 178, chamber: 64, maxima: .575, section: 2.04, air: 594,
			says: "212 working average for $1,249 usable; levels off gently from .550; springs good to .575, only .015 spare."},
		{head: "VR-84", state: "valve job", supplier: "Vintner Road Heads", intake: []float64{66, 131, 184, 220, 231, 236, 234, 239, 240},
			exhaust: []float64{55, 105, 141, 163, 170, 174, 177, 179, 180}, sell: 999, work: 260, place: 2, tied: []string{"PW-33", "VR-84", "VR-84 + valve job + blend"},
			score: points(56.7, 100, 41.8, 66.7), u: 53.5, beaten: []string{"LKC-12"}, runner: 185, chamber: 64, maxima: .6, section: 2.06, air: 588,
			says: "204 working average for $1,259 with our valve job; LKC-12 flows more for less."},
		{head: "PW-33", supplier: "Pellworth Foundry", intake: []float64{58, 117, 173, 224, 248, 262, 264, 262, 257},
			exhaust: []float64{52, 101, 137, 160, 168, 173, 176, 178, 179}, sell: 1399, place: 2, tied: []string{"VR-84 + valve job", "VR-84", "VR-84 + valve job + blend"},
			score: points(62.6, 64.3, 67.3, 64), u: 56.4, beaten: []string{"LKC-12"}, runner: 220, chamber: 72, maxima: .6, section: 2.55, air: 475,
			says: "Peaks at 264 but backs up from .500 and is lazy in the 331; 208 working average for $1,399."},
		{head: "VR-84", supplier: "Vintner Road Heads", intake: []float64{57, 114, 170, 212, 222, 226, 222, 228, 229},
			exhaust: []float64{49, 94, 127, 148, 154, 158, 161, 163, 164}, sell: 999, place: 2, tied: []string{"VR-84 + valve job", "PW-33", "VR-84 + valve job + blend"},
			score: points(46.9, 64.3, 32.7, 49.3), u: 50.9, buy: &compare.Interval{From: 9.17, To: 12.46}, runner: 185, chamber: 64, maxima: .6, section: 2.06, air: 588,
			says: "192 working average for $999; dips at .550: the valve job is poor."},
		{head: "VR-84", state: "valve job + blend", supplier: "Vintner Road Heads", intake: []float64{68, 135, 190, 228, 240, 247, 251, 253, 253},
			exhaust: []float64{55, 106, 143, 166, 173, 178, 181, 183, 184}, sell: 999, work: 580, place: 2, tied: []string{"VR-84 + valve job", "PW-33", "VR-84"},
			score: points(64.7, 94, 56, 71.8), u: 56, beaten: []string{"LKC-12"}, runner: 185, chamber: 64, maxima: .6, section: 2.06, air: 588,
			says: "Matches LKC-12's flow for $330 more."},
		{head: "LKC-07", supplier: "Larkmoor Castings", intake: []float64{60, 116, 164, 193, 200, 204, 205, 204, 203},
			exhaust: []float64{48, 92, 122, 138, 143, 146, 148, 149, 150}, sell: 699, kit: 180, place: 6, tied: []string{"PW-31"},
			score: points(29.8, 64.3, 13.6, 36.9), u: 34.7, buy: &compare.Interval{From: 0, To: 9.17}, runner: 168, chamber: 76, maxima: .48, section: 1.83, air: 662,
			says: "The base head: 179 working average for $879 with the springs it needs; chokes a 331 at 6,500."},
		{head: "PW-31", supplier: "Pellworth Foundry", intake: []float64{61, 121, 174, 212, 226, 235, 240, 242, 240},
			exhaust: []float64{52, 100, 134, 156, 163, 168, 171, 173, 174}, sell: 1149, kit: 210, place: 6, tied: []string{"LKC-07"},
			score: points(49.6, 94, 46, 62.2), u: 52.6, beaten: []string{"LKC-12"}, runner: 195, chamber: 64, maxima: .55, section: 2.14, air: 566,
			says: "197 working average for $1,359 with springs; 15 cfm less than LKC-12 for $110 more."},
		{head: "OB-4", supplier: "Oastbridge Machine", intake: []float64{70, 141, 204, 250, 264, 275, 282, 286, 288},
			exhaust: []float64{57, 114, 157, 187, 196, 203, 208, 211, 213}, sell: 2349, place: 8, score: points(86.1, 100, 84.5, 90), u: 46.3,
			buy: &compare.Interval{From: 56.22, To: -1}, runner: 195, chamber: 65, maxima: .65, section: 2.2, air: 551,
			says: "Best everywhere and needs nothing: 232 working average, but $2,349."},
		{head: "VR-81", supplier: "Vintner Road Heads", intake: []float64{67, 133, 190, 233, 247, 257, 263, 266, 267},
			exhaust: []float64{56, 112, 156, 188, 199, 208, 214, 218, 221}, sell: 1179, extra: 1010, place: 9, score: points(69.6, 100, 67.1, 78.2), u: 57.7,
			runner: 188, chamber: 62, maxima: .6, section: 2.1, air: 577, says: "4 cfm better than LKC-12, inside what one casting varies, but takes $1,010 of other parts."},
	}
}

var day = time.Date(2026, 3, 16, 0, 0, 0, 0, time.UTC)

func family() head.Family {
	trace := source.Trace{At: source.Ref{File: "Shop setup.xlsx", Sheet: "Families", Cell: "L5"}}
	return head.Family{
		Name: "Small Eight", HeadsPerSet: 2, ReferenceBore: 4.03, RangeFrom: .2, RangeTo: .56, BandFrom: .3, BandTo: .5,
		Worth: source.Say(quantity.Dollars(25), trace), BaseHead: "LKC-07",
		Anchors: head.Anchors{Known: true, MidLow: 160, MidHigh: 260, PeakLow: 190, PeakHigh: 300, StallLow: .7, WMid: .5, WStall: .3, WPeak: .2},
	}
}

// sample is the whole comparison.
func sample() compare.Comparison {
	f := family()
	c := compare.Comparison{
		Family: f, Rules: head.DefaultRules(), Shop: "Saltmarsh Head & Machine", Date: day,
		Worth: compare.Worth{PerCFM: 25, Known: true, Origin: "set by the shop"},
		Cautions: []string{
			"Flow is not power: it ranks the port only. Cam, compression, induction, exhaust and speed decide.",
			"Measure valve-to-piston clearance and valve-to-bore on the engine being built.",
			"Check springs for coil bind, open load and retainer-to-seal at your lift; \"good to\" is the maker's statement.",
			"Numbers are for the sample tested, on the bore, pressure, entry and pipe stated. Another casting may differ by 2-3 %.",
			"Interpolated and converted values are marked; advertised values are not ours.",
		},
		Settings: []compare.Setting{
			{Name: "Worth of a cfm", Value: "$25 a set", Origin: "Shop setup.xlsx, sheet Families, cell L5"},
			{Name: "Reference pressure", Value: "28 inH2O", Origin: "default"},
			{Name: "Repeatability", Value: "1 %", Origin: "default"},
		},
	}
	base := 0.0
	for _, g := range smallEight() {
		e := entry(g, f)
		if g.head == "LKC-07" {
			e.IsBase, base = true, e.Intake.Working.Value
		}
		c.Ranked = append(c.Ranked, e)
	}
	for i := range c.Ranked {
		e := &c.Ranked[i]
		if !e.IsBase {
			e.PerExtra = had((e.Cost.Usable.Value.Float() - 879) / (e.Intake.Working.Value - base))
		}
		if e.Place.Number > 1 {
			e.TiePrice, e.TieBelow = had(e.Cost.Sell.Value.Float()-(4050-e.Value.Value)), compare.BelowLanded
		}
	}
	addRest(&c, f)
	return c
}

func had(x float64) compare.Maybe { return compare.Maybe{Value: x, Known: true} }

func ref(file, sheet, cell string) source.Ref {
	return source.Ref{File: file, Sheet: sheet, Cell: cell}
}

func label(g given) string {
	if g.state == "" {
		return g.head
	}
	return g.head + " + " + g.state
}

func entry(g given, f head.Family) compare.Entry {
	file := "bench/" + g.head + " flow & more.xlsx"
	e := compare.Entry{
		Head: g.head, State: g.state, Label: label(g), Supplier: g.supplier, Grade: compare.GradeB,
		Intake: port(g, head.Intake, g.intake, f, file), Exhaust: port(g, head.Exhaust, g.exhaust, f, file),
		Shape: g.score, BestBuy: g.buy, BeatenBy: g.beaten, Verdict: g.says, ValueU: g.u,
		Air:       compare.Air{Speed: had(g.air), Verdict: map[bool]string{true: "right", false: "lazy"}[g.air > 500]},
		SpringsTo: compare.SpringVerdict{Known: true, MaxLift: quantity.Inches(g.maxima), Words: "reach the range's top"},
		Flags:     []compare.Flag{{Code: "1", Words: "one port tested: casting spread counts in full"}},
		Place:     compare.Place{Number: g.place, Shared: len(g.tied) > 0, TiedWith: g.tied, Group: map[int]int{1: 1, 2: 2, 6: 3, 8: 4, 9: 5}[g.place], Best: max(g.place, 1), Worst: g.place + len(g.tied), FirstIn10: 10 / float64(g.place*g.place)},
	}
	e.EI = compare.Ratio{Maybe: had(e.Exhaust.Working.Value / e.Intake.Working.Value), Pipe: head.WithPipe}
	e.Low, e.Mid, e.High, e.AtTop = flowAt(e.Intake.Curve, .2, .2), flowAt(e.Intake.Curve, .3, .4), flowAt(e.Intake.Curve, .5, .56), flowAt(e.Intake.Curve, .56, .56)
	e.Cost = cost(g, file)
	usable := e.Cost.Usable.Value.Float()
	e.Value, e.PerCFM = had(25*e.Intake.Working.Value-usable), had(usable/e.Intake.Working.Value)
	if g.runner > 0 {
		e.PerCC = had(e.Intake.PeakAll.Flow.CFM() / g.runner)
		e.Dimensions = dimensions(g)
	}
	e.Stock = &head.StockItem{OnHand: source.Say(9, source.Trace{}), LeadWeeks: source.Say(3.0, source.Trace{})}
	if g.head == "LKC-12" {
		e.Notes = []head.Note{{Text: "seats true within .001 in", For: head.For}, {Text: "=HYPERLINK(\"http://x\") is what the tester typed", For: head.Against}}
	}
	return e
}

func flowAt(c curve.Curve, from, to float64) compare.Maybe {
	if from == to {
		q, ok := c.At(quantity.Inches(from))
		return compare.Maybe{Value: q.CFM(), Known: ok}
	}
	q, share := c.Mean(quantity.Inches(from), quantity.Inches(to))
	return compare.Maybe{Value: q.CFM(), Known: share == 1}
}

func port(g given, side head.Port, flows []float64, f head.Family, file string) *compare.PortResult {
	p := &compare.PortResult{Port: side, Pipe: head.WithPipe, Entry: "clay radius", Bench: "own bench", Class: head.Own, Ports: 1, Runs: 1, Coverage: 1,
		Sample: "B", BoreHow: compare.TestedAtReference,
		Bore:     source.Say(quantity.Inches(4.03), source.Trace{At: ref(file, "Sheet 1", "B2"), Text: "4.030 bore"}),
		Pressure: source.Say(quantity.InchesOfWater(28), source.Trace{At: ref(file, "Sheet 1", "C2"), Text: "28\""}),
		Date:     source.Say(time.Date(2026, 3, 12, 0, 0, 0, 0, time.UTC), source.Trace{})}
	test := &head.Test{Head: g.head, State: g.state, Port: side, By: "own bench", Date: p.Date}
	var readings []curve.Point
	for i, q := range flows {
		at := quantity.Inches(sheetLifts[i])
		readings = append(readings, curve.Point{Lift: at, Flow: quantity.CFM(q)})
		col := map[head.Port]string{head.Intake: "B", head.Exhaust: "C"}[side]
		r := head.Reading{Lift: source.Say(at, source.Trace{}), Flow: source.Say(quantity.CFM(q), source.Trace{At: ref(file, "Sheet 1", fmt.Sprintf("%s%d", col, i+4)), Text: fmt.Sprint(q), Unit: "cfm, from B3"})}
		test.Readings = append(test.Readings, r)
		p.Points = append(p.Points, compare.LiftPoint{Lift: at, Flow: quantity.CFM(q), U: q * .0036,
			From: []compare.Used{{Test: test, Reading: &r, Flow: quantity.CFM(q), Steps: []string{"28 to 28 inH2O: as it stood"}}}})
	}
	test.Readings = append(test.Readings, head.Reading{Status: head.SetAside, Why: "summary row", Flow: source.Say(quantity.CFM(0), source.Trace{At: ref(file, "Sheet 1", "B14"), Text: "=MAX(B4:B12)"})})
	p.Tests = []*head.Test{test}
	c, err := curve.New(readings)
	if err != nil {
		panic(err)
	}
	p.Curve, p.Verdict = c, curve.Stall(readings, curve.DefaultNoise())
	p.Words, p.Last = p.Verdict.Words(), c.Last().Lift
	mean, _ := c.Mean(f.RangeFrom, f.RangeTo)
	mid, _ := c.Mean(f.BandFrom, f.BandTo)
	p.Working, p.MidMean, p.MidArea = had(mean.CFM()), had(mid.CFM()), had(mid.CFM()*(f.BandTo-f.BandFrom).In())
	p.WorkingU = g.u / 25
	peak, _ := c.PeakIn(f.RangeFrom, f.RangeTo)
	p.PeakIn, p.PeakAll = compare.LiftFlow(peak), compare.LiftFlow(c.Peak())
	return p
}

func cost(g given, file string) compare.Cost {
	at := func(cell string) source.Trace {
		return source.Trace{At: ref("extras.xlsx", "Extras", cell), Text: "as priced"}
	}
	c := compare.Cost{HeadsPerSet: 2, Sell: source.Say(quantity.Dollars(g.sell), source.Trace{At: ref("stock 2026-02-28.xlsx", "Stock", "J5"), Text: fmt.Sprint(g.sell)}),
		PriceList: g.supplier + " list", ValidFrom: source.Say(time.Date(2026, 2, 1, 0, 0, 0, 0, time.UTC), source.Trace{})}
	add := func(kind compare.CostKind, item string, amount float64, cell string) {
		if amount > 0 {
			c.Lines = append(c.Lines, compare.CostLine{Kind: kind, Item: item, Amount: quantity.Dollars(amount), Trace: at(cell)})
		}
	}
	add(compare.ExtraCost, "raised-port parts", g.extra, "C7")
	add(compare.SpringCost, "spring kit", g.kit, "C9")
	add(compare.ReworkCost, strings.TrimSpace(g.state), g.work, "C12")
	c.Usable = source.Say(quantity.Dollars(g.sell+g.extra+g.kit+g.work), source.Trace{})
	landed := math.Round(g.sell * .75)
	c.LandedParts = []compare.CostLine{
		{Kind: compare.HeadsCost, Item: "net", Amount: quantity.Dollars(landed - 56), Trace: source.Trace{At: ref(file, "Prices", "B5"), Text: "net each"}},
		{Kind: compare.FreightCost, Item: "freight", Amount: quantity.Dollars(56), Trace: source.Trace{At: ref(file, "Prices", "C5"), Text: "28 a head"}},
	}
	c.Landed, c.Margin = source.Say(quantity.Dollars(landed), source.Trace{}), had((g.sell-landed)/g.sell)
	return c
}

func dimensions(g given) *head.Dimensions {
	at := func(cell string) source.Trace {
		return source.Trace{At: ref("dimensions.xlsx", "Heads", cell), Text: "as measured"}
	}
	return &head.Dimensions{
		Head: g.head, IntakeValve: source.Say(quantity.Inches(2.02), at("B5")), ExhaustValve: source.Say(quantity.Inches(1.6), at("C5")),
		StemWords: "11/32", MinSection: source.Say(quantity.SquareInches(g.section), at("E5")), Runner: source.Say(quantity.CubicCentimetres(g.runner), at("F5")),
		Chamber: source.Say(quantity.CubicCentimetres(g.chamber), at("G5")), MaxLift: source.Say(quantity.Inches(g.maxima), at("H5")),
		Weight: source.Say(quantity.Pounds(23.4), at("I5")), Material: "alum.", Process: "as cast",
	}
}

// addRest adds what stands below the ranking: a supplier's sheet, a held head,
// an advert with its gap, and the questions.
func addRest(c *compare.Comparison, f head.Family) {
	sheet := given{head: "TD-8", supplier: "Tidewell", intake: []float64{61, 120, 170, 205, 216, 224, 229, 231, 230}, exhaust: []float64{48, 94, 126, 145, 151, 155, 158, 160, 161},
		sell: 1150, score: points(45, 94, 35, 58), u: 80, runner: 180, chamber: 64, maxima: .6, section: 2, air: 600, says: "By its maker's sheet; never tested here."}
	below := entry(sheet, f)
	below.Grade, below.Place, below.Value = compare.GradeC, compare.Place{}, compare.Maybe{Why: "not ranked against tests"}
	c.BelowLine = []compare.Entry{below}

	heldUp := given{head: "PW-46", supplier: "Pellworth Foundry", intake: []float64{71, 143, 212, 268, 290, 307, 318, 326, 330}, exhaust: []float64{60, 117, 167, 205, 219, 230, 239, 246, 251},
		sell: 2395, u: 60, runner: 320, chamber: 119, maxima: .65, section: 3.3, air: 520}
	e := entry(heldUp, f)
	e.Place, e.Shape, e.Value = compare.Place{}, compare.Shape{Why: "held"}, compare.Maybe{Why: "held"}
	problem := source.Problem{At: ref("bench/PW-46.xlsx", "Sheet1", "B5"), Severity: source.Refused, Kind: "impossible-reading", Head: "PW-46", Family: f.Name,
		Found: "243", Message: "no valve of this size passes 243 cfm at .200", Hint: "look at the bench sheet: 143?"}
	c.NotRanked = []compare.NotRanked{{Head: "PW-46", Label: "PW-46", Reason: "the reading at .200 cannot be true", Missing: []string{"the reading at .200"}, Problems: source.Problems{problem}, Held: true, Entry: &e}}
	asked := source.Problem{At: ref("Pellworth list 4-1.xlsx", "Prices", "A1"), Severity: source.Asked, Kind: "date-order", Found: "Eff. 4/1", Message: "the list's date can be read two ways",
		Question: &source.Question{Text: "Is \"Eff. 4/1\" the first of April or the fourth of January?", Choices: []string{"1 April", "4 January"}, Changes: "which price list is in force for PW-31 and PW-33"}}
	c.Problems = source.Problems{problem, asked}
	c.Questions = c.Problems.Open()

	advert := given{head: "PW-33", supplier: "Pellworth Foundry", intake: []float64{70, 140, 205, 252, 270, 287, 296, 305, 305}, exhaust: []float64{60, 119, 163, 195, 205, 214, 220, 224, 225}, sell: 1399, u: 60}
	claim := entry(advert, f)
	claim.Grade, claim.Place, claim.Shape, claim.Value, claim.Cost, claim.Label = compare.GradeD, compare.Place{}, compare.Shape{}, compare.Maybe{}, compare.Cost{}, "PW-33 as advertised"
	claim.BestBuy = nil
	c.Advertised = []compare.Entry{claim}
	gap := compare.Gap{Head: "PW-33", Supplier: "Pellworth Foundry", Port: head.Intake, Explained: "part: bore 4.155 against 4.030",
		Advertised: compare.Conditions{Bore: "4.155", Pressure: "28 inH2O", Pipe: "2 in", Where: "supplier's chart"}, Tested: compare.Conditions{Bore: "4.030", Pressure: "28 inH2O", Entry: "clay", Where: "own bench"}}
	for _, r := range [][3]float64{{.2, 140, 117}, {.3, 205, 173}, {.4, 252, 224}, {.5, 287, 262}, {.6, 305, 262}} {
		gap.Rows = append(gap.Rows, compare.GapRow{Lift: quantity.Inches(r[0]), Advertised: quantity.CFM(r[1]), Tested: quantity.CFM(r[2]), Percent: (r[2] - r[1]) / r[1] * 100})
	}
	gap.AtPeak = gap.Rows[4]
	c.Gaps = []compare.Gap{gap}
	c.Suppliers = []compare.SupplierGap{{Supplier: "Pellworth Foundry", Heads: 2, Median: -13.5, Worst: -14.1, Worded: "too few to say"}}
	c.Frontier = []compare.Step{
		{Label: "LKC-07", Range: compare.Interval{From: 0, To: 9.17}}, {Label: "VR-84", Range: compare.Interval{From: 9.17, To: 12.46}, Margin: had(9.17)},
		{Label: "LKC-12", Range: compare.Interval{From: 12.46, To: 56.22}, Margin: had(12.46)}, {Label: "OB-4", Range: compare.Interval{From: 56.22, To: -1}, Margin: had(56.22)},
	}
	c.Summary = compare.Summary{
		BestBuy:  []string{"LKC-12: 212 working average for $1,249 usable; levels off gently from .550; springs good to .575, only .015 spare: check coil bind."},
		RunnerUp: []string{"VR-84 with our valve job: 8 cfm less for $10 more. It ties with PW-33, VR-84 as delivered and VR-84 with valve job and blend."},
		OnlyIf:   []string{"OB-4 only if a cfm is worth more than $56.22 a set: 20 cfm more for $1,100 more.", "LKC-07 only if it is worth less than $9.17, or for a small engine at low speed."},
		LeftOut:  []string{"PW-46: the reading at .200 (243) cannot be true; held until it is answered."},
		Counts:   compare.Counts{Heads: 12, Ranked: 9, Flagged: 9, NotRanked: 1, BelowLine: 1, Advertised: 1},
	}
}
