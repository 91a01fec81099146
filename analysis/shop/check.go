package shop

import (
	"fmt"
	"strconv"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

// check looks at what single cells cannot show: ranges the wrong way round,
// names that point nowhere, the same name twice.
func (r *Reading) check() {
	families := make(map[string]bool)
	for i, f := range r.Shop.Families {
		r.once(families, f.Name, f.At, "family")
		r.checkFamily(f)
		dropHalves(&r.Shop.Families[i])
	}
	suppliers := make(map[string]bool)
	for _, s := range r.Shop.Suppliers {
		r.once(suppliers, s.Name, s.At, "supplier")
	}
	heads := make(map[string]bool)
	for _, h := range r.Shop.Heads {
		r.once(heads, h.Name, h.At, "head")
		if !families[Normal(h.Family)] {
			r.pointsNowhere(h.At, h.Name, h.Family, "family", familySheet().Name)
		}
		if h.Supplier != "" && !suppliers[Normal(h.Supplier)] {
			r.pointsNowhere(h.At, h.Name, h.Supplier, "supplier", supplierSheet().Name)
		}
	}
	for _, f := range r.Shop.Families {
		if f.BaseHead != "" && !heads[Normal(f.BaseHead)] {
			r.pointsNowhere(f.At, "", f.BaseHead, "base head", headSheet().Name)
		}
	}
	r.checkOrifices()
}

// OrificeKey is what two names of one orifice share: 2.5 and 2.500 are one, B and
// b are one.
func OrificeKey(name string) string {
	if x, err := strconv.ParseFloat(strings.TrimSpace(name), 64); err == nil {
		return strconv.FormatFloat(x, 'f', -1, 64)
	}
	return Normal(name)
}

func (r *Reading) checkOrifices() {
	benches, seen := make(map[string]bool), make(map[string]bool)
	for _, b := range r.Shop.Benches {
		benches[Normal(b.Name)] = true
	}
	for _, o := range r.Shop.Orifices {
		r.once(seen, strings.Join([]string{o.Bench, OrificeKey(o.Name), o.Port.String()}, ", "), o.At, "orifice")
		if !benches[Normal(o.Bench)] {
			r.pointsNowhere(o.At, "", o.Bench, "bench", benchSheet().Name)
		}
		if !o.Whole() {
			r.Problems.Add(source.Problem{At: o.At, Severity: source.Refused, Kind: "setup-orifice", Found: o.Name,
				Message: "the calibration of this orifice lacks its flow, its differential or its test pressure, so nothing is read through it",
				Hint:    "type all three"})
		}
	}
}

func (r *Reading) once(seen map[string]bool, name string, at source.Ref, what string) {
	if seen[Normal(name)] {
		r.Problems.Add(source.Problem{At: at, Severity: source.Refused, Kind: "setup-name-twice", Found: name,
			Message: "this " + what + " stands in the setup twice; the first row counts", Hint: "take one of the rows out"})
	}
	seen[Normal(name)] = true
}

func (r *Reading) pointsNowhere(at source.Ref, name, found, what, sheet string) {
	p := source.Problem{At: at, Severity: source.Refused, Kind: "setup-name-unknown", Head: name, Found: found,
		Message: fmt.Sprintf("this %s does not stand on the sheet %s", what, sheet),
		Hint:    fmt.Sprintf("add it there or correct the spelling of the %s", what)}
	if found == "" {
		p.Message = "this row names no " + what
	}
	r.Problems.Add(p)
}

func (r *Reading) checkFamily(f head.Family) {
	refuse := func(kind, message, hint string) {
		r.Problems.Add(source.Problem{At: f.At, Family: f.Name, Severity: source.Refused, Kind: kind, Message: message, Hint: hint})
	}
	if f.HeadsPerSet == 0 {
		refuse("setup-heads-a-set", "it is not stated how many heads make a set, so nothing of this family can be priced",
			"type a number such as 2 under Heads a set")
	}
	if f.ReferenceBore == 0 {
		refuse("setup-reference-bore", "no reference bore is stated, so heads of this family cannot be brought to one bore",
			"type the fixture bore that heads are compared at")
	}
	r.checkRange(f)
	r.checkBand(f)
	a := f.Anchors
	if a.Known {
		return
	}
	if a.MidLow == 0 && a.MidHigh == 0 && a.PeakLow == 0 && a.PeakHigh == 0 {
		r.Problems.Add(source.Problem{At: f.At, Family: f.Name, Severity: source.Noted, Kind: "setup-no-anchors",
			Message: "the anchors of the shape score are blank, so no shape score is given"})
		return
	}
	if !weightsFit(a) {
		refuse("setup-weights", "the three weights of the shape score do not add up to 1, so no shape score is given",
			"make them add up to 1")
		return
	}
	refuse("setup-anchors", "the anchors of the shape score do not all run upward, so no shape score is given",
		"type a lower flow under 0 than under 100, for mid-lift and for peak")
}
