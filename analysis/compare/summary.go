package compare

import "fmt"

// mostLines is how many lines of one kind the printed page has room for.
const mostLines = 4

// summary is the printed page: what to buy, what ties, when to buy another, and
// what is missing.
func (f *family) summary(c *Comparison, heads int) Summary {
	s := Summary{Counts: f.counts(c, heads), Warnings: c.Warnings}
	if len(c.Ranked) == 0 {
		s.BestBuy = []string{"No head of this family can be ranked yet: see what is left out."}
	} else {
		f.bestBuy(c, &s)
	}
	for _, n := range c.NotRanked {
		s.LeftOut = append(s.LeftOut, n.Label+": "+n.Reason)
	}
	for i := range c.Unpriced {
		e := &c.Unpriced[i]
		s.LeftOut = append(s.LeftOut, fmt.Sprintf("%s flows %.0f cfm and has %s: %s", e.Label, e.Intake.Working.Value, e.Cost.Without(), e.Cost.Missing))
	}
	return s
}

func (f *family) counts(c *Comparison, heads int) Counts {
	n := Counts{Heads: heads, Ranked: len(c.Ranked), BelowLine: len(c.BelowLine), Advertised: len(c.Advertised)}
	for i := range c.Ranked {
		if len(c.Ranked[i].Flags) > 0 {
			n.Flagged++
		}
	}
	for _, out := range c.NotRanked {
		if !out.Stray {
			n.NotRanked++
		}
	}
	return n
}

func (f *family) bestBuy(c *Comparison, s *Summary) {
	if !c.Worth.Known {
		s.BestBuy = []string{"No best buy: the worth of a cfm is " + c.Worth.Origin + ". Heads are in the order of flow."}
		return
	}
	group := func(g int) []string {
		var lines []string
		for i := range c.Ranked {
			if e := &c.Ranked[i]; e.Place.Group == g {
				if len(lines) == mostLines {
					return append(lines, "and others, tied")
				}
				lines = append(lines, e.Verdict)
			}
		}
		return lines
	}
	s.BestBuy, s.RunnerUp = group(1), group(2)
	if n := len(c.Ranked[0].Place.TiedWith); n > 0 {
		s.BestBuy = append(s.BestBuy, "They are tied: the difference is inside the noise.")
	}
	s.OnlyIf = f.onlyIf(c)
}

// cautions go with every result. Common practice, no source.
func cautions(headsPerSet int) []string {
	set := "a set"
	if headsPerSet > 0 {
		set = fmt.Sprintf("a set of %d", headsPerSet)
	}
	return []string{
		"Flow is not power. It ranks what the port could do; cam, compression, induction, exhaust and speed decide the rest.",
		"Steady air on a bench is not a running engine: it is drier, cooler, does not pulse, and is pulled by far less.",
		"Valve-to-piston and valve-to-bore clearance must be measured on the engine as built; larger or moved valves and milled heads change them. The engine maker's and piston maker's limits stand over anything here.",
		"Springs: coil bind, seat and open load and retainer-to-seal room must be measured at your own lift. Max lift is the maker's statement, and the maker's limits stand.",
		"Push-rod length and rocker geometry must be measured on the engine.",
		"Chamber, gasket and deck change the compression: work it out before you order.",
		"Fit of headers, manifold, plugs and covers is as the supplier lists it unless a note says it was tried here.",
		"Figures are of the sample tested, on the bore, pressure, entry and pipe stated. Another casting may differ by 2 to 3 %.",
		"Do not hold these figures against those of other benches.",
		"The best of many noisy figures is a little flattered: expect the leader's next sample to read slightly less.",
		"Prices are for " + set + ", on the date stated; freight and tax as stated.",
		"Converted and interpolated values are marked; advertised values are not ours.",
	}
}
