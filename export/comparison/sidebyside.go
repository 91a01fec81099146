package comparison

import (
	"fmt"
	"slices"
	"strings"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/export/book"
)

// pairSheet lays two heads of the reader's choice side by side: every cell is
// looked up in the Data sheet, and holds the result for the two it opens with.
type pairSheet struct {
	*writer
	sheet *book.Sheet
	data  dataSheet
	heads [2]line
	row   int
}

// Columns of the sheet: what, first head, second head, difference, share,
// beyond the noise. The names stand in choiceRow.
const (
	colWhat = iota + 1
	colFirst
	colSecond
	colLess
	colShare
	colBeyond
	choiceRow = 5
)

func (w *writer) sideBySide(s *book.Sheet, data dataSheet) {
	w.page(s, "Side by side: two heads, lift by lift", "Choose two heads in the yellow cells. Everything below follows.")
	s.Width(1, 29, 24, 24, 12, 12, 14)
	w.paper(s, 0, book.Print{Upright: true, OnePage: true})
	first, second, ok := w.pair()
	if !ok {
		s.Say(choiceRow, 1, "There are not two heads with a curve in this family yet.", book.Style{})
		return
	}
	p := &pairSheet{writer: w, sheet: s, data: data, heads: [2]line{first, second}, row: choiceRow + 1}
	p.choice()
	p.sentence()
	p.port(head.Intake)
	p.port(head.Exhaust)
	p.facts("What it flows", factPlace, factTied, factWorking, factNoise, factExhaust, factEI, factMid, factPeak, factPeakAt, factShape, factVerdict)
	p.facts("Port, valves and springs", factRunner, factSection, factAir, factAirWords, factIntake, factExValve, factStem,
		factSprings, factReach, factChamber, factMaterial, factWeight)
	p.facts("What a set costs the customer", factHeads, factExtras, factKit, factRework, factUsable, factPerCFM, factValue, factHand)
	p.facts("Found on the bench and in the shop", factFor, factAgainst)
	s.Freeze(choiceRow, 0)
}

// pair returns the two heads that the sheet opens with.
func (w *writer) pair() (first, second line, ok bool) {
	shown := w.comparable()
	if len(shown) < 2 {
		return line{}, line{}, false
	}
	first, second = shown[0], shown[1]
	if l, found := w.find(w.opts.Pair[0]); found {
		first = l
	}
	if l, found := w.find(w.opts.Pair[1]); found {
		second = l
	}
	return first, second, true
}

func (p *pairSheet) choice() {
	s := p.sheet
	s.Say(choiceRow, colWhat, "Heads", book.Header)
	s.Say(choiceRow, colFirst, p.heads[0].Label, book.Yellow.To(book.Right))
	s.Say(choiceRow, colSecond, p.heads[1].Label, book.Yellow.To(book.Right))
	s.Say(choiceRow, colLess, "Difference", book.Header.To(book.Right))
	s.Say(choiceRow, colShare, "in %", book.Header.To(book.Right))
	s.Say(choiceRow, colBeyond, "Beyond the noise", book.Header.To(book.Right))
	s.ChooseFrom(s.Area(choiceRow, colFirst, choiceRow, colSecond), p.data.labels)
}

// name is the cell with the chosen head of a column.
func name(col int) string { return fmt.Sprintf("$%s$%d", book.ColumnName(col), choiceRow) }

// fact spells the look-up of one fact for the head of a column.
func (p *pairSheet) fact(title string, col int) string {
	i := slices.Index(p.data.names, title)
	return fmt.Sprintf("INDEX(%s,MATCH(%s,%s,0))", p.data.facts.Column(i), name(col), p.data.labels)
}

// value is what the look-up of a fact gives for a head.
func (p *pairSheet) value(title string, l line) book.Value {
	for _, c := range p.factColumns() {
		if c.Title == title {
			return c.Value(l)
		}
	}
	return book.Value{}
}

func (p *pairSheet) section(title string) {
	p.row++
	p.sheet.Say(p.row, colWhat, title, book.Section)
	p.row++
}

// facts writes rows of facts, with the difference where both are numbers.
func (p *pairSheet) facts(title string, names ...string) {
	p.section(title)
	for _, n := range names {
		i := slices.Index(p.data.names, n)
		style := p.factColumns()[i].Style
		shown := style.To(book.Right)
		if f := p.factColumns()[i].Style.Format; f == book.General {
			shown = shown.Wrapped()
		}
		p.sheet.Say(p.row, colWhat, n, book.Body)
		for k, col := range []int{colFirst, colSecond} {
			at := p.fact(n, col)
			p.sheet.Formula(p.row, col, fmt.Sprintf(`IF(%s="","",%s)`, at, at), p.value(n, p.heads[k]), shown)
		}
		p.factDifference(n, style.Format)
		p.row++
	}
}

// factDifference writes the difference of one row's facts, and for the working
// average whether it is beyond the noise.
func (p *pairSheet) factDifference(title string, f book.Format) {
	if title == factPlace || title == factNoise || f == book.General {
		p.sheet.Fill(p.row, colLess, colBeyond, book.Body)
		return
	}
	first, second := book.CellName(p.row, colFirst), book.CellName(p.row, colSecond)
	a, okA := p.value(title, p.heads[0]).Float()
	b, okB := p.value(title, p.heads[1]).Float()
	result := book.Value{}
	if okA && okB {
		result = book.Number(a - b)
	}
	p.sheet.Formula(p.row, colLess,
		fmt.Sprintf(`IF(AND(ISNUMBER(%s),ISNUMBER(%s)),%s-%s,"")`, first, second, first, second), result, book.Body.As(signed(f)))
	p.sheet.Fill(p.row, colShare, colShare, book.Body)
	if title == factWorking {
		formula := fmt.Sprintf(`IF(ISNUMBER(%s),IF(%s,"yes","no"),"")`, book.CellName(p.row, colLess), p.beyondWorking())
		result := book.Value{}
		if okA && okB {
			result = p.beyondWord(a-b, p.heads[0].Intake.WorkingU, p.heads[1].Intake.WorkingU)
		}
		p.sheet.Formula(p.row, colBeyond, formula, result, book.Body.To(book.Right))
		return
	}
	p.sheet.Fill(p.row, colBeyond, colBeyond, book.Body)
}

// signed returns the format of a difference of figures in a format.
func signed(f book.Format) book.Format {
	if f == book.Alone || f == book.Flow {
		return book.Signed
	}
	positive, _, _ := strings.Cut(string(f), ";")
	return book.Format("+" + positive + ";-" + positive + ";" + positive)
}

// isBeyond reports whether a difference is beyond the noise of its two sides.
func (w *writer) isBeyond(d, u1, u2 float64) bool {
	return compare.Beyond(w.Rules, d, u1, u2)
}

// beyondWord is isBeyond in a word.
func (w *writer) beyondWord(d, u1, u2 float64) book.Value {
	if w.isBeyond(d, u1, u2) {
		return book.Text("yes")
	}
	return book.Text("no")
}

// beyond spells isBeyond for the sheet.
func (p *pairSheet) beyond(d, u1, u2 string) string {
	return fmt.Sprintf("ABS(%s)>MAX(%s,%s*SQRT(%s^2+%s^2))", d, p.data.step, p.data.sigmas, u1, u2)
}

func (p *pairSheet) beyondWorking() string {
	d := fmt.Sprintf("(%s-%s)", p.fact(factWorking, colFirst), p.fact(factWorking, colSecond))
	return p.beyond(d, p.fact(factNoise, colFirst), p.fact(factNoise, colSecond))
}

// port writes one side of the heads lift by lift.
func (p *pairSheet) port(side head.Port) {
	p.section(fmt.Sprintf("%s, cfm by lift", capital(side.String())))
	for _, at := range p.lifts {
		s := p.sheet
		s.Set(p.row, colWhat, book.Number(tidy(at.In())), book.Body.As(book.Lift).To(book.Left))
		for k, col := range []int{colFirst, colSecond} {
			f, ok := p.heads[k].port(side).At(at)
			result := book.Value{}
			if ok {
				result = book.Number(f.Flow.CFM())
			}
			s.Formula(p.row, col, fmt.Sprintf(`IF(%s=0,"",%s)`,
				p.lookUp("COUNTIFS", dataFlow, col, side), p.lookUp("SUMIFS", dataFlow, col, side)), result, book.Body.As(book.Flow))
		}
		p.liftDifference(side, at)
		p.row++
	}
	if n := len(p.lifts); n > 0 {
		p.wins(side, p.row-n, p.row-1)
	}
}

// lookUp spells the look-up of a reading of this row's lift in the long table.
func (p *pairSheet) lookUp(function string, column, head int, side head.Port) string {
	t := p.data.readings
	conditions := fmt.Sprintf(`%s,%s,%s,"%s",%s,$%s%d`, t.Column(dataLabel), name(head), t.Column(dataPort), side,
		t.Column(dataLift), book.ColumnName(colWhat), p.row)
	if function == "COUNTIFS" {
		return fmt.Sprintf("COUNTIFS(%s)", conditions)
	}
	return fmt.Sprintf("%s(%s,%s)", function, t.Column(column), conditions)
}

func (p *pairSheet) liftDifference(side head.Port, at quantity.Length) {
	s := p.sheet
	a, okA := p.heads[0].port(side).At(at)
	b, okB := p.heads[1].port(side).At(at)
	var less, share, beyond book.Value
	if okA && okB {
		d := a.Flow.CFM() - b.Flow.CFM()
		less, share = book.Number(d), book.Number(d/b.Flow.CFM())
		beyond = p.beyondWord(d, a.U, b.U)
	}
	first, second, d := book.CellName(p.row, colFirst), book.CellName(p.row, colSecond), book.CellName(p.row, colLess)
	s.Formula(p.row, colLess, fmt.Sprintf(`IF(OR(%s="",%s=""),"",%s-%s)`, first, second, first, second), less, book.Body.As(book.Signed))
	s.Formula(p.row, colShare, fmt.Sprintf(`IF(%s="","",%s/%s)`, d, d, second), share, book.Body.As(book.SignedPct))
	s.Formula(p.row, colBeyond, fmt.Sprintf(`IF(%s="","",IF(%s,"yes","no"))`, d,
		p.beyond(d, p.lookUp("SUMIFS", dataNoise, colFirst, side), p.lookUp("SUMIFS", dataNoise, colSecond, side))),
		beyond, book.Body.To(book.Right))
}
