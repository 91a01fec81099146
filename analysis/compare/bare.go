package compare

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/pricelist"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// A head that comes bare is sold with the shop's own valves, springs and
// retainers in it. It is a state of its own, with its own price and with the
// spring limit of what was put in, and it is compared only once everything that
// makes it complete is priced.

// bareBuild is how a price list or a stock book names a bare head.
const bareBuild = "bare"

// bareState is the state of a head with the shop's parts in it.
const bareState = "bare, our parts"

// builds says which ways a head comes: complete, bare, or both. A head without
// any price comes complete.
func (f *family) builds(b *bundle) []pricelist.Build {
	bare, complete := b.bareStock != nil, b.stock != nil && strings.EqualFold(b.stock.Build, "assembled")
	for _, p := range b.prices {
		switch {
		case p.Status == head.SetAside || p.Status == head.Refused || p.Rung == head.MinimumAdvertised || f.later(p.Effective):
		case p.Rung == head.Sell && p.Build == "": // does not say of which
		case strings.EqualFold(p.Build, bareBuild):
			bare = true
		default:
			complete = true
		}
	}
	switch {
	case !bare:
		return []pricelist.Build{pricelist.Complete}
	case complete:
		return []pricelist.Build{pricelist.Complete, pricelist.Bare}
	}
	return []pricelist.Build{pricelist.Bare}
}

// soldAs settles what a sell price is for that does not say it, of a head that
// comes bare only. False when it has to be asked.
func (f *family) soldAs(b *bundle, p *priced) bool {
	q := f.priceQuestion(b, f.Family)
	sell := pricelist.Find(q).Sell
	if p.base.Sell.Known || !sell.Known || len(f.builds(b)) > 1 {
		return true
	}
	asked := f.ask(b, sell.Trace.At, "sell-build", fmt.Sprintf("%s comes bare, and it is not stated whether its sell price is for bare heads", b.listed.Name),
		"write bare or assembled beside it")
	asked.Question.Key = "sell-build|" + b.listed.Name
	asked.Question.Choices = []string{"for bare heads", "for heads with our parts in them"}
	noted, answer, ok := f.answered(*asked)
	p.problems.Add(noted)
	if !ok {
		p.base.missing("it is not known whether its sell price is for bare heads", "whether its sell price is for bare heads")
		return false
	}
	p.complete = !answer.Is(asked.Question.Choices[0])
	sell.Trace.Answered = answer.Per()
	p.base.Sell = sell
	return true
}

// Parts a bare head wants before it runs, by the words of the items that bring
// them. Common practice, no source.
var partWords = []struct {
	name  string
	words *regexp.Regexp
}{
	{"valves", regexp.MustCompile(`(?i)\bvalves?\b|\bvalve ?train\b`)},
	{"springs", springWords},
	{"retainers and locks", regexp.MustCompile(`(?i)\b(retainers?|locks?|keepers?|hardware)\b`)},
	{"assembly", assemblyWords},
}

var (
	springWords   = regexp.MustCompile(`(?i)\bsprings?\b`)
	assemblyWords = regexp.MustCompile(`(?i)\bassembl`)
)

// addParts puts the shop's own parts and the labour of assembly into a bare
// head: to the customer's cost, and what they cost the shop.
func (f *family) addParts(b *bundle, p priced, c *Cost) (put []putIn, found source.Problems) {
	parts := f.partsOf(b)
	has := func(words *regexp.Regexp) bool {
		return slices.ContainsFunc(parts, func(e head.Extra) bool { return words.MatchString(e.Item) })
	}
	var wanting []string
	for _, part := range partWords {
		if !has(part.words) && part.name != "assembly" {
			wanting = append(wanting, part.name)
		}
	}
	for _, e := range parts {
		put = append(put, f.ofPart(e))
		e.Item += partMark
		found = append(found, f.addPart(b, p, e, c)...)
	}
	if !has(assemblyWords) {
		line, ok := f.menu.line("assembly")
		if ok {
			put = append(put, f.ofMenu(line))
			found = append(found, f.addPart(b, p, head.Extra{Item: line.Name, Price: line.Price, Basis: line.Basis, Status: line.Status, At: line.At}, c)...)
		} else {
			wanting = append(wanting, "assembly")
		}
	}
	if len(wanting) > 0 {
		at := b.listed.At
		if c.Quoted.Known {
			at = c.Quoted.Trace.At
		}
		why := fmt.Sprintf("%s comes bare, and no price is listed for its %s", b.listed.Name, list(wanting))
		ask := f.ask(b, at, "bare-parts-not-priced", why, "add them to the extras list with “bare” under needed when, and assembly to the rework menu")
		found.Add(f.askPrice(c, ask, CostLine{Kind: ReworkCost, Item: list(wanting)}, "bare: no price is listed for "+list(wanting)))
	}
	return put, append(found, f.reach(b, parts, c)...)
}

// addPart adds what a customer pays for one part, unless the sell price holds it.
func (f *family) addPart(b *bundle, p priced, e head.Extra, c *Cost) source.Problems {
	if p.complete {
		return nil
	}
	amount, why := f.aSet(e.Price, e.Basis)
	if why == "" && e.Status != head.Used {
		why = "waits for an answer: " + e.Why
	}
	if why != "" {
		ask := f.ask(b, e.At, "part-not-priced", fmt.Sprintf("%s comes bare, and the price of %s %s", b.listed.Name, e.Item, why), "type its price and whether it is each or a set")
		return source.Problems{f.askPrice(c, ask, CostLine{Kind: ReworkCost, Item: e.Item}, fmt.Sprintf("%s: its price %s", e.Item, why))}
	}
	c.Lines = append(c.Lines, CostLine{Kind: ReworkCost, Item: e.Item, Amount: amount, Trace: e.Price.Trace})
	return nil
}

// partMark follows the name of a part of the extras list that goes into a bare
// head.
const partMark = " for bare"

func (f *family) ofPart(e head.Extra) putIn {
	p := putIn{name: e.Item}
	if amount, why := f.aSet(e.Internal, e.Basis); why == "" {
		p.internal = source.Say(amount, e.Internal.Trace)
	}
	return p
}

// partsOf lists the parts that go into a bare head. Of several springs it takes
// those that reach the range's top, and of these the cheapest; where none does,
// those that reach furthest.
func (f *family) partsOf(b *bundle) []head.Extra {
	var parts, springs []head.Extra
	for _, e := range b.extras {
		switch {
		case e.Need != head.WhenBare || e.Status == head.SetAside || e.Status == head.Refused:
		case springWords.MatchString(e.Item):
			springs = append(springs, e)
		default:
			parts = append(parts, e)
		}
	}
	if len(springs) == 0 {
		return parts
	}
	return append(parts, slices.MinFunc(springs, f.betterSprings))
}

func (f *family) betterSprings(a, b head.Extra) int {
	reaches := func(e head.Extra) bool { return e.SpringsTo.Known && f.RangeTo <= e.SpringsTo.Value+sameLift }
	order := -FalseFirst(reaches(a), reaches(b))
	if order != 0 {
		return order
	}
	if !reaches(a) {
		return cmp.Compare(b.SpringsTo.Value, a.SpringsTo.Value)
	}
	price := func(e head.Extra) quantity.Money { m, _ := f.aSet(e.Price, e.Basis); return m }
	return price(a).Amount.Cmp(price(b).Amount)
}

// reach takes the lift that the springs put in are good for, and asks for it
// where nobody states it. Springs that end short of the range leave the head
// without a place: it is not complete for it.
func (f *family) reach(b *bundle, parts []head.Extra, c *Cost) source.Problems {
	i := slices.IndexFunc(parts, func(e head.Extra) bool { return springWords.MatchString(e.Item) })
	c.SpringsTo = source.Stated[quantity.Length]{}
	if i < 0 {
		return nil
	}
	c.SpringsTo = parts[i].SpringsTo
	if !c.SpringsTo.Known {
		asked := f.ask(b, parts[i].At, "max-lift-not-stated", fmt.Sprintf("the lift that the springs put into bare %s are good for is not stated", b.listed.Name),
			"write it into the item, such as springs to .600")
		*asked.Question = maxLiftQuestion(b.listed.Name + " bare with our parts")
		noted, answer, ok := f.answered(*asked)
		if !ok {
			c.missing("the lift that the springs put in are good for is not stated", theSpringsLift)
			return source.Problems{noted}
		}
		c.SpringsTo = source.Say(quantity.Inches(answer.Figure), answer.Trace("in"))
	}
	if f.RangeTo <= c.SpringsTo.Value+sameLift {
		return nil
	}
	why := fmt.Sprintf("the springs put into bare %s are good to %s, and the range goes to %s", b.listed.Name, inches(c.SpringsTo.Value), inches(f.RangeTo))
	c.missing(why, "springs that reach "+inches(f.RangeTo))
	return source.Problems{{At: parts[i].At, Severity: source.Noted, Kind: "bare-springs-short", Head: b.listed.Name, Family: f.Name,
		Message: why, Hint: "list springs that reach it with “bare” under needed when"}}
}
