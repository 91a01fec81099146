package comparison

import (
	"fmt"
	"math"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/export/book"
)

// sentence says in one line what the two differ by.
func (p *pairSheet) sentence() {
	a, b := p.heads[0], p.heads[1]
	s := p.sheet
	flowing := func(col int) string { return p.fact(factWorking, col) }
	d := fmt.Sprintf("(%s-%s)", flowing(colFirst), flowing(colSecond))
	flowPart := fmt.Sprintf(`IF(OR(%s="",%s=""),"the working averages cannot be compared",IF(%s,%s&IF(%s>0," has "," lacks ")&TEXT(ABS(%s),"0")&" cfm of working average against "&%s,%s&" and "&%s&" are level in working average: "&TEXT(ABS(%s),"0")&" cfm apart, inside the noise"))`,
		flowing(colFirst), flowing(colSecond), p.beyondWorking(), name(colFirst), d, d, name(colSecond), name(colFirst), name(colSecond), d)
	cost := func(col int) string { return p.fact(factUsable, col) }
	c := fmt.Sprintf("(%s-%s)", cost(colFirst), cost(colSecond))
	costPart := fmt.Sprintf(`IF(OR(%s="",%s=""),"; the price of one is not known",IF(%s=0,"; a usable set costs the same","; a usable set of "&%s&" costs %s"&TEXT(ABS(%s),"#,##0")&IF(%s>0," more"," less")))`,
		cost(colFirst), cost(colSecond), c, name(colFirst), p.symbol(), c, c)
	s.Across(p.row, colWhat, colBeyond, book.Cell{
		Formula: flowPart + "&" + costPart + `&"."`, Value: book.Text(p.spoken(a, b)), Style: book.Prose.Strong(),
	})
	s.Height(p.row, 28) // two lines, whichever heads are chosen
	p.row++
}

// spoken is the result of sentence's formula.
func (p *pairSheet) spoken(a, b line) string {
	out := "the working averages cannot be compared"
	if a.Intake != nil && b.Intake != nil && a.Intake.Working.Known && b.Intake.Working.Known {
		d := a.Intake.Working.Value - b.Intake.Working.Value
		size := math.Round(math.Abs(d))
		if p.isBeyond(d, a.Intake.WorkingU, b.Intake.WorkingU) {
			verb := map[bool]string{true: "has", false: "lacks"}[d > 0]
			out = fmt.Sprintf("%s %s %.0f cfm of working average against %s", a.Label, verb, size, b.Label)
		} else {
			out = fmt.Sprintf("%s and %s are level in working average: %.0f cfm apart, inside the noise", a.Label, b.Label, size)
		}
	}
	return out + p.spokenCost(a.Entry, b.Entry) + "."
}

func (p *pairSheet) spokenCost(a, b *compare.Entry) string {
	if !a.Cost.Usable.Known || !b.Cost.Usable.Known {
		return "; the price of one is not known"
	}
	c := a.Cost.Usable.Value.Float() - b.Cost.Usable.Value.Float()
	switch {
	case c > 0:
		return fmt.Sprintf("; a usable set of %s costs %s more", a.Label, p.cash(c))
	case c < 0:
		return fmt.Sprintf("; a usable set of %s costs %s less", a.Label, p.cash(-c))
	}
	return "; a usable set costs the same"
}

// wins says in one line at how many lifts the first head's side beats the
// second's by more than the noise, where, and where it is beaten. The rows of the
// side stand above it.
func (p *pairSheet) wins(side head.Port, from, to int) {
	area := func(col int) string {
		return fmt.Sprintf("%s:%s", book.CellName(from, col), book.CellName(to, col))
	}
	lifts, less, beyond := area(colWhat), area(colLess), area(colBeyond)
	part := func(sign string) string {
		count := fmt.Sprintf(`COUNTIFS(%s,"yes",%s,"%s0")`, beyond, less, sign)
		where := fmt.Sprintf(`(%s="yes")*ISNUMBER(%s)*(%s%s0)`, beyond, less, less, sign)
		first := fmt.Sprintf("1/SUMPRODUCT(MAX(%s/%s))", where, lifts)
		last := fmt.Sprintf("SUMPRODUCT(MAX(%s*%s))", where, lifts)
		return fmt.Sprintf(`IF(%s=0,"nowhere",IF(%s=1,"at one lift, ","at "&%s&" lifts, from ")&TEXT(%s,".000")&IF(%s=1,""," to "&TEXT(%s,".000")))`,
			count, count, count, first, count, last)
	}
	p.sheet.Across(p.row, colWhat, colBeyond, book.Cell{
		Formula: fmt.Sprintf(`%s&" is ahead by more than the noise "&%s&"; behind "&%s&"."`, name(colFirst), part(">"), part("<")),
		Value:   book.Text(p.spokenWins(side)), Style: book.Prose,
	})
	p.row++
}

// spokenWins is the result of wins's formula.
func (p *pairSheet) spokenWins(side head.Port) string {
	var ahead, behind []quantity.Length
	for _, at := range p.lifts {
		a, okA := p.heads[0].port(side).At(at)
		b, okB := p.heads[1].port(side).At(at)
		d := a.Flow.CFM() - b.Flow.CFM()
		switch {
		case !okA || !okB || !p.isBeyond(d, a.U, b.U):
		case d > 0:
			ahead = append(ahead, at)
		default:
			behind = append(behind, at)
		}
	}
	return fmt.Sprintf("%s is ahead by more than the noise %s; behind %s.", p.heads[0].Label, whichLifts(ahead), whichLifts(behind))
}

func whichLifts(at []quantity.Length) string {
	switch n := len(at); n {
	case 0:
		return "nowhere"
	case 1:
		return "at one lift, " + lift(at[0])
	default:
		return fmt.Sprintf("at %d lifts, from %s to %s", n, lift(at[0]), lift(at[n-1]))
	}
}
