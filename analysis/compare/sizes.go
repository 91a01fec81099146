package compare

import (
	"fmt"
	"math"
	"strings"

	"flowshelf/analysis/airflow"
	"flowshelf/analysis/geometry"
	"flowshelf/analysis/head"
)

// Sizes are what a head's dimensions say about one another. They are shown and
// never scored.
type Sizes struct {
	Throat       Maybe  // throat over intake valve diameter
	ThroatWords  string // "usual", "outside .82 to .93"
	MeanSection  Maybe  // runner volume over its centreline length, in2
	SectionRatio Maybe  // the same over the smallest section
	SectionWords string
	StemLighter  Maybe // g a mm of stem against the base head's; negative when heavier
	StemMass     Maybe // g of the whole stem, where the dimension sheet has its length
	StemWords    string
	PortShape    string // in the words of the dimension sheet
}

// The ordinary throat, as a share of the valve. Common practice, no source.
const throatWindow = ".82 to .93"

func (f *family) sizes(d *head.Dimensions) Sizes {
	if d == nil {
		none := unknown("no dimension sheet has the head")
		return Sizes{Throat: none, MeanSection: none, SectionRatio: none, StemLighter: none, StemMass: none}
	}
	s := Sizes{PortShape: portShape(d)}
	if ratio, ok := geometry.ThroatRatio(d.Throat.Value, d.IntakeValve.Value); ok && d.Throat.Known && d.IntakeValve.Known {
		s.Throat, s.ThroatWords = known(ratio), "usual"
		if airflow.ThroatUnusual(d.Throat.Value, d.IntakeValve.Value) {
			s.ThroatWords = "outside " + throatWindow + ": measure it again"
		}
	} else {
		s.Throat = unknown("throat or intake valve not known")
	}
	f.sections(d, &s)
	f.stem(d, &s)
	return s
}

// sections holds the runner's volume and length against its smallest section.
func (f *family) sections(d *head.Dimensions, s *Sizes) {
	mean, err := geometry.MeanSection(d.Runner.Value, d.PortLength.Value)
	if err != nil || !d.Runner.Known || !d.PortLength.Known {
		s.MeanSection = unknown("runner volume or port length not known")
		s.SectionRatio = s.MeanSection
		return
	}
	s.MeanSection = known(mean.In2())
	check, err := geometry.CheckSection(d.Runner.Value, d.PortLength.Value, d.MinSection.Value)
	if err != nil || !d.MinSection.Known {
		s.SectionRatio = unknown("smallest section not known")
		return
	}
	s.SectionRatio, s.SectionWords = known(check.Ratio), "usual"
	if check.Unusual {
		s.SectionWords = "outside .95 to 1.25: volume, length or section is doubtful"
	}
}

// stem compares a valve stem with the base head's diameter: over its length where
// the dimension sheet has it, else for a millimetre of stem.
func (f *family) stem(d *head.Dimensions, s *Sizes) {
	s.StemMass = unknown("stem or its length not known")
	if d.Stem.Known && d.StemLength.Known && d.Stem.Value > 0 && d.StemLength.Value > 0 {
		s.StemMass = known(geometry.StemSaving(d.Stem.Value, 0, d.StemLength.Value).G())
		s.StemWords = fmt.Sprintf("%.1f g of stem, computed for steel", s.StemMass.Value)
	}
	base := f.base
	if base == nil || !base.Stem.Known || !d.Stem.Known || base.Stem.Value <= 0 || d.Stem.Value <= 0 {
		s.StemLighter = unknown("stem of the head or of the base head not known")
		return
	}
	g := geometry.StemSavingPerMM(base.Stem.Value, d.Stem.Value).G()
	s.StemLighter = known(g)
	word := "lighter"
	if g < 0 {
		word = "heavier"
	}
	switch {
	case math.Abs(g) < 5e-4 && s.StemMass.Known:
		s.StemWords = fmt.Sprintf("as thick as %s's: %s", f.BaseHead, s.StemWords)
		return
	case math.Abs(g) < 5e-4:
		s.StemWords = "as " + f.BaseHead + "'s"
		return
	case s.StemMass.Known:
		over := math.Abs(geometry.StemSaving(base.Stem.Value, d.Stem.Value, d.StemLength.Value).G())
		s.StemWords = fmt.Sprintf("%.1f g of stem, %.1f g %s than one as thick as %s's, computed for steel", s.StemMass.Value, over, word, f.BaseHead)
		return
	}
	s.StemWords = fmt.Sprintf("%.3f g %s a mm of stem than %s's, computed for steel", math.Abs(g), word, f.BaseHead)
}

// dimensionsOfBase are the family's base head's.
func (f *family) dimensionsOfBase() *head.Dimensions {
	base := nameKey(f.BaseHead)
	for _, b := range f.families[nameKey(f.Name)] {
		if base != "" && nameKey(b.listed.Name) == base {
			return b.dimensions
		}
	}
	return nil
}

// portShape finds what a dimension sheet says of the port's shape among the
// facts without a field of their own.
func portShape(d *head.Dimensions) string {
	for _, fact := range d.Other {
		name := strings.ToLower(fact.Name)
		if strings.Contains(name, "port") && (strings.Contains(name, "shape") || strings.Contains(name, "window") || strings.Contains(name, "opening")) {
			return fact.Value
		}
	}
	return ""
}
