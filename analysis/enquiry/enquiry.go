// Package enquiry answers what a customer wants heads for: at most three heads
// with the reasons for and against each, and for every other head why not. An
// enquiry is compared as a family of its own, with the customer's engine, lift
// and cost. It is pure.
package enquiry

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// Answer is what the counter can say to one enquiry.
type Answer struct {
	Enquiry head.Enquiry
	Family  head.Family // with the customer's engine and lift
	Engine  string      // "4.030 x 3.250, 8 cylinders, 6,500 rpm, .560 at the valve"
	Offers  []Offer     // at most three, the recommended first
	Others  []Other     // every other head of the family
	Taken   []string    // what the enquiry does not state and what was taken instead
	Checks  []string    // clearances to be measured, whatever is bought
	None    string      // why no head meets it, "" when one does
	Shop    string
	Phone   string
	Date    time.Time

	required  []must
	rules     head.Rules
	suppliers []string // names that no customer is told
}

// Role is why a head is among the three.
type Role string

// The roles.
const (
	Recommended Role = "recommended"
	Cheaper     Role = "cheaper"
	Better      Role = "better"
	Unproven    Role = "may be better, not proven"
)

// Offer is one of the three heads.
type Offer struct {
	*compare.Entry
	Role         Role
	AllIn        source.Stated[quantity.Money] // a set, with all that the customer needs
	AtLift       compare.Maybe                 // intake flow at the customer's lift, cfm
	For, Against []string
	Allow        []string // what may be needed besides, by his own engine
	Fit          []string // what the books tell of whether it goes on his block
}

// Other is a head that is not offered, and why.
type Other struct{ Label, Why string }

// mostOffers is how many heads a customer is shown.
const mostOffers = 3

// All answers every enquiry in the folder, in their order, with the prices and
// tests of the day.
func All(records head.Records, shop head.Shop, date time.Time) []Answer {
	var out []Answer
	for _, e := range records.Enquiries {
		out = append(out, One(records, shop, e, date))
	}
	return out
}

// One answers one enquiry.
func One(records head.Records, shop head.Shop, e head.Enquiry, date time.Time) Answer {
	a := Answer{Enquiry: e, Shop: shop.Name, Phone: shop.Phone, Date: date, suppliers: suppliersOf(shop), rules: shop.Rules}
	family, ok := familyOf(shop, e.Family)
	if !ok {
		a.None = fmt.Sprintf("its family %q is not in the setup", e.Family)
		if e.Family == "" {
			a.None = "it names no engine family"
		}
		return a
	}
	if a.Family, ok = a.fit(family); !ok {
		return a
	}
	a.Engine = engineWords(a.Family, e.Lift)
	shop.Families = []head.Family{a.Family}
	c := &compare.All(records, shop, date)[0]
	a.choose(c)
	a.Checks = checks(a.Family)
	return a
}

// suppliersOf lists every supplier's name, the longest first.
func suppliersOf(shop head.Shop) []string {
	var out []string
	add := func(name string) {
		if name = strings.TrimSpace(name); name != "" && !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	for _, s := range shop.Suppliers {
		add(s.Name)
	}
	for _, h := range shop.Heads {
		add(h.Supplier)
	}
	slices.SortStableFunc(out, func(a, b string) int { return len(b) - len(a) })
	return out
}

func familyOf(shop head.Shop, name string) (head.Family, bool) {
	for _, f := range shop.Families {
		if strings.EqualFold(strings.TrimSpace(f.Name), strings.TrimSpace(name)) {
			return f, true
		}
	}
	return head.Family{}, false
}

// fit puts the customer's engine and lift in the family's place. What he did not
// say is the family's, and said so.
func (a *Answer) fit(f head.Family) (head.Family, bool) {
	e := a.Enquiry
	taken := func(what string) {
		a.Taken = append(a.Taken, what+" not stated: the family's is taken")
	}
	for _, x := range []struct {
		name string
		his  source.Stated[quantity.Length]
		ours *source.Stated[quantity.Length]
	}{{"bore", e.Bore, &f.EngineBore}, {"stroke", e.Stroke, &f.EngineStroke}} {
		if x.his.Known && x.his.Value > 0 {
			*x.ours = x.his
		} else {
			taken(x.name)
		}
	}
	if e.RPM.Known && e.RPM.Value > 0 {
		f.EngineRPM = e.RPM
	} else {
		taken("engine speed")
	}
	if e.Cylinders.Known && e.Cylinders.Value > 0 {
		f.Cylinders = e.Cylinders
	}
	switch {
	case f.RangeTo == 0:
		a.None = "the setup states no working range for this family, so nothing says over which lifts its heads are to be compared"
		return f, false
	case !e.Lift.Known:
		taken("valve lift")
	case e.Lift.Value <= f.RangeFrom:
		a.None = fmt.Sprintf("a lift of %s is below %s, where the family's working range begins", lift(e.Lift.Value), lift(f.RangeFrom))
		return f, false
	default:
		f.RangeTo = e.Lift.Value
	}
	f.BandTo = min(f.BandTo, f.RangeTo)
	if f.BandFrom >= f.BandTo {
		f.BandFrom = f.RangeFrom
	}
	if off := f.EngineBore.Value - f.ReferenceBore; f.EngineBore.Known && !f.EngineBore.Value.Near(f.ReferenceBore, 0.005) {
		a.Taken = append(a.Taken, fmt.Sprintf("flow is stated for a bore of %.3f, his is %s (%+.3f)", f.ReferenceBore.In(),
			asHeSays(f.EngineBore, fmt.Sprintf("%.3f", f.EngineBore.Value.In())), off.In()))
	}
	f.SpringsAreMust, f.AirIsMust = false, false // his own musts decide
	return f, true
}

// engineWords says what the engine is, in the units that it was stated in first.
func engineWords(f head.Family, his source.Stated[quantity.Length]) string {
	var out []string
	if f.EngineBore.Known && f.EngineStroke.Known {
		words := fmt.Sprintf("%.3f x %.3f", f.EngineBore.Value.In(), f.EngineStroke.Value.In())
		bore, stroke := f.EngineBore.Trace, f.EngineStroke.Trace
		if as := stroke.AsStated(); as != "" && bore.AsStated() != "" && bore.Foreign() == stroke.Foreign() {
			words = fmt.Sprintf("%s x %s (%s)", strings.TrimSuffix(bore.AsStated(), " "+bore.Foreign()), as, words)
		}
		out = append(out, words)
	}
	if f.Cylinders.Known {
		out = append(out, fmt.Sprintf("%d cylinders", f.Cylinders.Value))
	}
	if f.EngineRPM.Known {
		out = append(out, fmt.Sprintf("%s rpm", thousands(f.EngineRPM.Value)))
	}
	top := lift(f.RangeTo)
	if his.Known && his.Value == f.RangeTo {
		top = asHeSays(his, top)
	}
	return strings.Join(append(out, top+" at the valve"), ", ")
}

// asHeSays puts what was stated in another unit before our figure of it.
func asHeSays(his source.Stated[quantity.Length], ours string) string {
	if as := his.Trace.AsStated(); as != "" {
		return as + " (" + ours + ")"
	}
	return ours
}

// checks are what has to be measured on the engine, whatever is bought. The
// maker's limits stand above everything said here. Common practice, no source.
func checks(f head.Family) []string {
	return []string{
		"valve-to-piston clearance, intake and exhaust, with the cam at its own timing: measure it",
		fmt.Sprintf("valve-to-bore clearance on the %s bore", asHeSays(f.EngineBore, fmt.Sprintf("%.3f", f.EngineBore.Value.In()))),
		fmt.Sprintf("coil bind and retainer-to-seal at %s, and the spring loads, against the spring maker's limits", lift(f.RangeTo)),
		"push-rod length and rocker geometry",
		"compression with this chamber, gasket and deck",
	}
}

func lift(l quantity.Length) string { return strings.TrimPrefix(fmt.Sprintf("%.3f", l.In()), "0") }

func thousands(x float64) string {
	s := fmt.Sprintf("%.0f", x)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}
