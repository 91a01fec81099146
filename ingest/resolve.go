package ingest

import (
	"fmt"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/shop"
	"flowshelf/analysis/source"
)

// resolve brings every record's head to the shop's own name. Only a name that
// matches strictly, or by a matching key, is brought over; a similar one is
// asked about and its records wait; an unknown one is kept as written.
func (r *Reading) resolve() {
	if !r.Shop.Found {
		return
	}
	n := &naming{names: shop.NewNames(r.Shop, r.Records.Aliases), shop: r.Shop, answers: r.Records.Answers, asked: make(map[string]bool)}
	rec := &r.Records
	for i := range rec.Tests {
		t := &rec.Tests[i]
		n.settle(&t.Head, t.HeadAt, t.By, &t.Status, &t.Why)
	}
	for i := range rec.Prices {
		p := &rec.Prices[i]
		n.settle(&p.Head, p.HeadAt, p.Supplier, &p.Status, &p.Why)
		if p.Supplier == "" {
			p.Supplier = n.supplier(p.Head)
		}
	}
	for i := range rec.Stock {
		s := &rec.Stock[i]
		s.Hand = n.names.Hand(s.Head)
		n.settle(&s.Head, s.HeadAt, "", &s.Status, &s.Why)
	}
	for i := range rec.Sales {
		s := &rec.Sales[i]
		n.settle(&s.Head, s.HeadAt, "", &s.Status, &s.Why)
	}
	for i := range rec.Extras {
		e := &rec.Extras[i]
		n.settle(&e.Head, e.HeadAt, "", &e.Status, &e.Why)
	}
	for i := range rec.Dimensions {
		n.settle(&rec.Dimensions[i].Head, rec.Dimensions[i].HeadAt, "", nil, nil)
	}
	for i := range rec.Notes {
		n.settle(&rec.Notes[i].Head, rec.Notes[i].HeadAt, "", nil, nil)
	}
	for _, a := range rec.Aliases {
		if n.names.Match(a.Ours, "").Head == "" {
			n.problems.Add(source.Problem{At: a.At, Severity: source.Noted, Kind: "key-head-unknown", Found: a.Ours,
				Message: "the matching key points to a head that is not in the setup", Hint: "add it to the sheet Heads of the setup"})
		}
	}
	rec.Problems = append(rec.Problems, n.problems...)
}

// naming asks about each name of a file once.
type naming struct {
	names    shop.Names
	shop     head.Shop
	answers  head.Answers
	asked    map[string]bool
	problems source.Problems
}

func (n *naming) settle(name *string, at source.Ref, supplier string, status *head.Status, why *string) {
	if *name == "" {
		return
	}
	match := n.names.Match(*name, supplier)
	switch {
	case match.Head != "":
		*name = match.Head
	case len(match.Near) > 0:
		if meant, ok := n.ask(*name, at, supplier, match.Near); ok {
			*name = meant
			return
		}
		if status != nil && *status == head.Used {
			*status, *why = head.Asked, fmt.Sprintf("it is not certain that %s is %s", *name, strings.Join(match.Near, " or "))
		}
	default:
		if n.first(at.File, *name) {
			n.problems.Add(source.Problem{At: at, Severity: source.Noted, Kind: "head-unknown", Head: *name, Found: *name,
				Message: "this head is not in the setup, so it belongs to no family", Hint: "add it to the sheet Heads of the setup"})
		}
	}
}

// ask asks which head a name means, once a file, or returns what was answered:
// one of the shop's names, or the name itself for another head.
func (n *naming) ask(name string, at source.Ref, supplier string, near []string) (meant string, ok bool) {
	p := similar(name, at, supplier, near)
	answer, ok := n.answers.Reply(*p.Question)
	if ok {
		p.Severity, p.Hint = source.Noted, ""
		p.Message += "; answered “" + answer.Said() + "”, " + answer.Per()
	}
	if n.first(at.File, name) {
		n.problems.Add(p)
	}
	if ok && answer.Is(head.AnotherHead) {
		return name, true
	}
	return answer.Choice, ok
}

func similar(name string, at source.Ref, supplier string, near []string) source.Problem {
	return source.Problem{
		At: at, Severity: source.Asked, Kind: "head-name-similar", Head: near[0], Found: name,
		Message: fmt.Sprintf("this name is not in the setup but looks like %s", strings.Join(near, " or ")),
		Hint:    "answer the question, or add the name under Also called in the setup",
		Question: &source.Question{
			Key:     head.NameKey(supplier, name),
			Text:    fmt.Sprintf("Which head is %q?", name),
			Choices: append(append([]string(nil), near...), head.AnotherHead),
			Changes: "whether what the file says about it is used",
		},
	}
}

func (n *naming) first(file, name string) bool {
	key := file + "\x00" + strings.ToLower(name)
	if n.asked[key] {
		return false
	}
	n.asked[key] = true
	return true
}

func (n *naming) supplier(name string) string {
	for _, h := range n.shop.Heads {
		if h.Name == name {
			return h.Supplier
		}
	}
	return ""
}
