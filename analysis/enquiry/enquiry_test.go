package enquiry_test

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"flowshelf/analysis/enquiry"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/ingesttest"
)

var march = time.Date(2026, time.March, 16, 0, 0, 0, 0, time.UTC)

func spell(o enquiry.Offer) string {
	return o.Label + ": " + strings.Join(o.For, "; ") + " | " + strings.Join(o.Against, "; ")
}

func why(a enquiry.Answer, label string) string {
	for _, o := range a.Others {
		if o.Label == label {
			return o.Why
		}
	}
	return "is not among the others"
}

// TestDemoEnquiries holds the four enquiries of the invented shop against what
// its owner would say. Air speeds: 0.00353 N S B^2/A, worked out by hand.
func TestDemoEnquiries(t *testing.T) {
	records, shop := ingesttest.Demo(t)
	all := enquiry.All(records, shop, march)
	if len(all) != 4 {
		t.Fatalf("%d answers, want 4", len(all))
	}
	for i, want := range []struct {
		offers string              // labels and roles
		speaks []string            // of the recommended head
		others map[string][]string // why not
	}{
		{"LKC-12 recommended, VR-84 as delivered cheaper",
			[]string{"212 cfm over .200 to .560, 250 at .560", "$1,249 all-in", "594 ft/s: right", "good to .575, only .015 spare: check coil bind"},
			map[string][]string{
				"LKC-07": {"662 ft/s: choked", "springs are good to .480 only"}, "PW-31": {"needs spring kit, $210", "-15 cfm", "$1,359 all-in"},
				"PW-33": {"475 ft/s: lazy"}, "VR-81": {"over the budget: $2,189", "+4 cfm (inside the noise)"},
				"VR-84 + valve job + blend": {"$1,579", "the same flow (inside the noise)"}, "OB-4": {"over the budget", "+20 cfm"},
			}},
		{"LKC-07 recommended",
			[]string{"545 ft/s: right", "good to .480", "$699 all-in", "76 cc"},
			map[string][]string{"LKC-12": {"lazy"}, "PW-33": {"lazy"}, "OB-4": {"lazy", "over the budget"}}},
		{"VR-49 recommended",
			[]string{"572 ft/s: right", "good to .700", "$2,640 all-in", "its flow at 4.310 is estimated: between its own two bores"},
			map[string][]string{"PW-46": {"cannot be: 243", "springs are good to .650 only"}, "OB-44": {"over the budget"}, "LKC-41": {"728 ft/s: choked"}}},
		{"LKC-90 recommended, TD-26 may be better, not proven, TD-22 may be better, not proven",
			[]string{"$949 all-in"}, nil},
	} {
		a := all[i]
		var offers []string
		for _, o := range a.Offers {
			offers = append(offers, o.Label+" "+string(o.Role))
		}
		if got := strings.Join(offers, ", "); got != want.offers {
			t.Errorf("enquiry %d offers %q, want %q (%s)", i+1, got, want.offers, a.None)
			continue
		}
		for _, words := range want.speaks {
			if got := spell(a.Offers[0]); !strings.Contains(got, words) {
				t.Errorf("enquiry %d: %q does not say %q", i+1, got, words)
			}
		}
		for label, reasons := range want.others {
			for _, words := range reasons {
				if got := why(a, label); !strings.Contains(got, words) {
					t.Errorf("enquiry %d: %s %q, want %q", i+1, label, got, words)
				}
			}
		}
	}
	if o := all[0].Offers[0]; math.Abs(o.AtLift.Value-250.3) > 0.2 {
		t.Errorf("LKC-12 at .560: %+v, want 250.3", o.AtLift)
	}
}

// TestEnquiriesThatCannotBeMet asks for what is not there, and wants a plain
// sentence and no head.
func TestEnquiriesThatCannotBeMet(t *testing.T) {
	records, shop := ingesttest.Demo(t)
	base := records.Enquiries[0]
	for _, c := range []struct {
		name   string
		change func(*head.Enquiry)
		says   string
	}{
		{"no family", func(e *head.Enquiry) { e.Family = "" }, "names no engine family"},
		{"an unknown family", func(e *head.Enquiry) { e.Family = "Flat Six" }, `"Flat Six" is not in the setup`},
		{"a budget nothing meets", func(e *head.Enquiry) { e.Budget = source.Say(quantity.Dollars(100), source.Trace{}) }, "no head of the family meets it"},
		{"a lift below the range", func(e *head.Enquiry) { e.Lift.Value = quantity.Inches(0.150) }, "below .200"},
		{"a lift nobody tested", func(e *head.Enquiry) { e.Lift.Value = quantity.Inches(0.900) }, "no head of the family meets it"},
		{"an engine speed nothing survives", func(e *head.Enquiry) { e.RPM.Value = 20000 }, "no head of the family meets it"},
	} {
		e := base
		c.change(&e)
		a := enquiry.One(records, shop, e, march)
		if len(a.Offers) > 0 || !strings.Contains(a.None, c.says) {
			t.Errorf("%s: %d offers, %q, want %q", c.name, len(a.Offers), a.None, c.says)
		}
	}
	nobody := base
	nobody.Family = ""
	records.Enquiries = []head.Enquiry{nobody}
	if got := enquiry.Unmet([]enquiry.Answer{{None: "no head of the family meets it", Others: []enquiry.Other{{}}}}); strings.Contains(got[0].Message, "below") {
		t.Errorf("nothing stands below %q", got[0].Message)
	}
	if got := enquiry.Unmet(enquiry.All(records, shop, march)); len(got) != 1 || !strings.Contains(got[0].Hint, "column Family") {
		t.Errorf("an enquiry without a family: %v", got)
	}
	e := base
	e.Musts = []string{"fits my headers"}
	e.RPM, e.Lift = source.Stated[float64]{}, source.Stated[quantity.Length]{}
	a := enquiry.One(records, shop, e, march)
	for _, words := range []string{`"fits my headers" cannot be checked here`, "engine speed not stated", "valve lift not stated"} {
		if !slices.ContainsFunc(a.Taken, func(s string) bool { return strings.Contains(s, words) }) {
			t.Errorf("%q says nothing of %q", a.Taken, words)
		}
	}
	if len(a.Offers) == 0 || len(a.Offers) > 3 {
		t.Errorf("%d offers without a must", len(a.Offers))
	}
}

// TestWhatSpeaksAgainstAnOffer asks with a budget and an engine that are no musts:
// a head that is offered beyond the budget, or with a port of the wrong size for
// the engine, says so at the counter and on the customer's own sheet.
func TestWhatSpeaksAgainstAnOffer(t *testing.T) {
	records, shop := ingesttest.Demo(t)
	e := records.Enquiries[0]
	e.Musts = nil
	e.RPM.Value = 7200 // 658 ft/s through LKC-12
	e.Budget = source.Say(quantity.Dollars(1100), source.Trace{})
	a := enquiry.One(records, shop, e, march)
	sheet, ok := a.Customer()
	if !ok || len(sheet.Heads) < 2 {
		t.Fatalf("%d offers", len(a.Offers))
	}
	for _, o := range a.Offers {
		i := slices.IndexFunc(sheet.Heads, func(h enquiry.Shown) bool { return h.Name == o.Label })
		if i < 0 {
			continue
		}
		mind := strings.Join(sheet.Heads[i].Mind, "; ")
		over := o.AllIn.Value.Float() - 1100
		if said := strings.Contains(spell(o), "over the budget: "); said != (over > 0) {
			t.Errorf("%s costs %.0f more than the budget: %s", o.Label, over, spell(o))
		}
		if said := strings.Contains(mind, "more than the $1,100 you named"); said != (over > 0) {
			t.Errorf("%s costs %.0f more than the budget, the customer reads %q", o.Label, over, mind)
		}
		if said := strings.Contains(mind, "for your engine"); said != (o.Air.Verdict == "choked" || o.Air.Verdict == "lazy") {
			t.Errorf("%s is %s, the customer reads %q", o.Label, o.Air.Verdict, mind)
		}
	}
	if o := a.Offers[0]; o.Label != "LKC-12" || !strings.Contains(spell(o), "$149 above $1,100") {
		t.Errorf("%s", spell(o))
	}
	if !slices.ContainsFunc(sheet.Heads, func(h enquiry.Shown) bool { return strings.Contains(strings.Join(h.Mind, ""), "small for your engine") }) {
		t.Errorf("nobody is told of a choked port: %+v", sheet.Heads)
	}
}
