package pricelist

import (
	"fmt"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

// ask attaches a question to a problem, or returns the answer that somebody has
// given; the problem is then noted with it.
func (q Question) ask(c *Cost, p source.Problem, wants source.Question) (head.Reply, bool) {
	answer, ok := q.Answers.Reply(wants)
	if ok {
		p.Severity, p.Hint = source.Noted, ""
		p.Message += "; answered “" + answer.Said() + "”, " + answer.Per()
	}
	p.Question = &wants
	c.Problems.Add(p)
	return answer, ok
}

// seller names whose price it is.
func (q Question) seller(p head.Price) string {
	if p.Supplier != "" {
		return p.Supplier
	}
	return q.Head.Supplier
}

const asItStands = "the price as it stands"

// rungQuestion asks which of a supplier's prices the shop buys at.
func (q Question) rungQuestion(p head.Price) source.Question {
	name := q.seller(p)
	return source.Question{Key: "cost-rung|" + name, Text: fmt.Sprintf("Which of the prices of %s is our cost?", named(name)),
		Choices: []string{head.Net.String(), head.Dealer.String(), head.Jobber.String(), head.List.String(), asItStands},
		Changes: "the landed cost of this supplier's heads"}
}

func named(supplier string) string {
	if supplier == "" {
		return "this supplier"
	}
	return supplier
}

// rungAnswered is what somebody has said to rungQuestion.
func (q Question) rungAnswered(p head.Price) (head.Rung, bool) {
	answer, ok := q.Answers.Reply(q.rungQuestion(p))
	for _, rung := range []head.Rung{head.Net, head.Dealer, head.Jobber, head.List} {
		if ok && answer.Is(rung.String()) {
			return rung, true
		}
	}
	return head.RungNotStated, ok
}

// rungTrace names who said that a price is the shop's cost, where nothing else
// does.
func (q Question) rungTrace(p head.Price, trace source.Trace) source.Trace {
	rung, ok := q.rungAnswered(p)
	if rule := q.supplier(p); !ok || rung != p.Rung || rule != nil && rule.Cost != head.RungNotStated {
		return trace
	}
	answer, _ := q.Answers.To(q.rungQuestion(p).Key)
	trace = trace.Then("our cost, as answered")
	trace.Answered = answer.Per()
	return trace
}

// basisQuestion asks how many heads a price buys.
func (q Question) basisQuestion(p head.Price) source.Question {
	return source.Question{Key: "price-basis|" + q.seller(p), Text: fmt.Sprintf("How many heads does a price of %s buy?", named(q.seller(p))),
		Choices: []string{head.Each.String(), head.Pair.String(), head.Set.String()}, Changes: "the landed cost of this supplier's heads"}
}

// basisAnswered asks it, or returns the answer.
func (q Question) basisAnswered(p head.Price, c *Cost) (head.Basis, head.Reply) {
	problem := q.problem(p, "price-basis-not-stated", p.Amount.Trace.Text, "the list does not say whether its price is each, a pair or a set",
		"state it on the list or on the Suppliers sheet of the setup")
	answer, _ := q.ask(c, problem, q.basisQuestion(p))
	for _, basis := range []head.Basis{head.Each, head.Pair, head.Set} {
		if answer.Is(basis.String()) {
			return basis, answer
		}
	}
	return head.BasisNotStated, answer
}

// rateQuestion asks what a foreign currency is worth.
func (q Question) rateQuestion(currency string) source.Question {
	const most = 1000
	return source.Question{Key: "rate|" + currency, Text: fmt.Sprintf("How many %s is one %s?", q.Shop.Currency, currency),
		Wants: source.AFigure, Unit: q.Shop.Currency, Least: 1.0 / most, Most: most, Changes: "the landed cost of heads bought in " + currency}
}

// rateAnswered is what somebody has said to rateQuestion.
func (q Question) rateAnswered(currency string) source.Stated[decimal.Decimal] {
	answer, ok := q.Answers.Reply(q.rateQuestion(currency))
	if !ok {
		return source.Stated[decimal.Decimal]{}
	}
	return source.Say(decimal.NewFromFloat(answer.Figure), source.Trace{At: source.Ref{File: answer.At.File}, Text: answer.On.Format("2006-01-02"), Answered: answer.Per()})
}

// whichPrice asks which of two lists of one day stands, or returns the answer.
func (q Question) whichPrice(a, b head.Price, c *Cost) (head.Price, bool) {
	p := q.problem(b, "two-prices", b.Amount.Trace.Text, "another list in force since the same day gives another price",
		"say which list stands, or take the old one out of the folder")
	p.Also = []source.Ref{a.At}
	answer, ok := q.ask(c, p, source.Question{
		Key:     fmt.Sprintf("two-prices|%s|%s|%s", q.Head.Name, a.At, b.At),
		Text:    fmt.Sprintf("Which price of %s stands?", q.Head.Name),
		Choices: []string{a.At.String(), b.At.String()}, Changes: "the landed cost of " + q.Head.Name,
	})
	if ok && answer.Choice == b.At.String() {
		a = b
	}
	if ok {
		a.Amount.Trace.Answered = answer.Per()
	}
	return a, ok
}
