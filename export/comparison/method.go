package comparison

import (
	"fmt"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/head"
	"flowshelf/export/book"
)

// rule is one step of the method in plain words.
type rule struct{ matter, words, source string }

const common = "common practice, no source"

// method writes every formula, constant, setting and caution the workbook rests
// on.
func (w *writer) method(s *book.Sheet) {
	row := w.page(s, "Method: how each figure comes about", "Where a published source stands behind a rule it is named; the rest is common practice, and a setting.")
	s.Width(1, 27, 88, 52)
	w.paper(s, 0, book.Print{})
	columns := []book.Column[rule]{
		{Title: "Matter", Style: book.Body.Wrapped().Strong(), Value: func(r rule) book.Value { return book.Text(r.matter) }},
		{Title: "What is done", Style: book.Body.Wrapped(), Value: func(r rule) book.Value { return book.Text(r.words) }},
		{Title: "Source", Style: book.Body.Wrapped(), Value: func(r rule) book.Value { return book.Text(r.source) }},
	}
	section := func(title string, rules []rule) {
		s.Say(row, 1, title, book.Section)
		row = book.Table[rule]{Columns: columns, Rows: rules}.Write(s, row+1, 1).ToRow + 2
	}
	section("Flow", w.flowRules())
	section("Curve and shape", w.curveRules())
	section("Cost, value and places", w.valueRules())
	section("Shown beside the ranking, ordering nothing", w.besideRules())
	section("What is weak, in plain words", w.weakRules())
	section("Settings in force", w.settings())
	s.Say(row, 1, "Cautions", book.Section)
	for _, c := range w.Cautions {
		row++
		s.Across(row, 1, 3, book.Cell{Value: book.Text(c), Style: book.Prose})
	}
}

func (w *writer) flowRules() []rule {
	law := rule{"Test pressure", fmt.Sprintf("Each reading is brought from its own test pressure to %s inH2O: flow x square root of (%s / test pressure).",
		plain(w.Rules.Reference.InH2O()), plain(w.Rules.Reference.InH2O())),
		"Bernoulli's equation for a loss proportional to the square of the flow; " + common + " among flow benches"}
	if w.Rules.PressureLaw == head.Isentropic {
		law.words = fmt.Sprintf("Each intake reading is brought from its own test pressure to %s inH2O as a nozzle in compressible flow, drawn from open air at 101325 Pa. "+
			"An exhaust reading, blown into the open, keeps the square root, which is within .3 %% of it there.", plain(w.Rules.Reference.InH2O()))
		law.source = "isentropic nozzle: J. B. Heywood, Internal Combustion Engine Fundamentals (1988), App. C (from memory); ISO 5167-3:2003, 5.1.6.3 (clause from memory)"
	}
	return []rule{
		law,
		{"Raw bench readings", "A percent of a range becomes cfm by the scale stated for the bench, linear in flow or in pressure; where it is not stated it is asked. Each row's own test pressure counts where a sheet has one. " +
			"A leak is shown, flagged above its limit, and never subtracted.", common},
		{"Units", "Exact factors: 1 cfm = 0.4719474432 L/s, 1 in = 25.4 mm, 1 inH2O = 249.08891 Pa.", "NIST SP 811 (2008), Appendix B"},
		{"Bore", fmt.Sprintf("A head counts at the family's reference bore, %s in, when it was tested there, between two bores of its own that bracket it, or within %s in of it. "+
			"Otherwise it is shown as tested and no place is decided by a difference the bore could make.", bore(w.Family.ReferenceBore), bore(w.Rules.BoreClass)), common},
		{"Several ports or runs", "Ports and runs of one sample are averaged lift by lift; the widest difference between ports is shown. Samples, states, bores and classes of evidence are never averaged with one another.", common},
		{"Impossible readings", fmt.Sprintf("A reading above %s x what the smaller of curtain and valve area can pass (with a pipe %s x) is refused, and its head held.",
			plain(w.Rules.ImpossibleCurt), plain(w.Rules.ImpossiblePipe)), "velocity from Bernoulli's equation, sqrt(2 dp / rho), with air of 1.204 kg/m3; the allowance: " + common},
		{"Advertised figures", "Shown beside the test, never mixed with it and never given a place.", common},
	}
}

func (w *writer) curveRules() []rule {
	a := w.Family.Anchors
	rules := []rule{
		{"Between readings", "A shape-keeping cubic through the readings and the closed valve (no lift, no flow). It never overshoots a reading. Nothing is carried beyond the last one.",
			"F. N. Fritsch and J. Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300-304"},
		{"Working average", fmt.Sprintf("Mean of the intake curve over the working range, %s, by integration; it does not depend on the steps of the sheet. At least %s of the range must have been tested.",
			lifts(w.Family.RangeFrom, w.Family.RangeTo), percent(w.Rules.MinimumCoverage)), common},
		{"Mid-lift average and area", fmt.Sprintf("Mean and integral over the mid-lift band, %s.", lifts(w.Family.BandFrom, w.Family.BandTo)), common},
		{"Noise floor", fmt.Sprintf("A drop, dip or rise counts when it exceeds both %s of the reading and %s cfm.", percent(w.Rules.Repeatability), plain(w.Rules.SmallestStep.CFM())),
			"repeatability limit as in ISO 5725-6; its size: " + common},
		{"Stall", fmt.Sprintf("The lowest measured lift that no later reading beats by more than the noise floor, if at least %s in was measured beyond it or the curve ends below its peak by more than the floor. "+
			"Otherwise it was not reached: the last lift tested is not a stall. “Backs up from” names the stall, and in brackets what is lost from the peak to the last reading: "+
			"a port may hold its peak within the noise for a while before it falls, and the sentence of the head says up to where.", lift(w.Rules.StallSpan)), "own rule; no published definition was found"},
	}
	if !a.Known {
		return append(rules, rule{"Shape score", "None: the setup has no anchors for this family.", ""})
	}
	return append(rules, rule{"Shape score", fmt.Sprintf("%s x mid-lift + %s x stall + %s x peak, shown of 100. Mid-lift = (mid-lift average - %s) / (%s - %s). Stall = (s / top of range - %s) / (1 - %s), "+
		"s the lowest of stall, start of a flat stretch and last reading before a dip; not reached counts 1. Peak = (peak in range - %s) / (%s - %s). Each is held to 0..1. Other heads change no score.",
		plain(a.WMid), plain(a.WStall), plain(a.WPeak), plain(a.MidLow.CFM()), plain(a.MidHigh.CFM()), plain(a.MidLow.CFM()), plain(a.StallLow), plain(a.StallLow),
		plain(a.PeakLow.CFM()), plain(a.PeakHigh.CFM()), plain(a.PeakLow.CFM())), "own rule; the anchors and weights are the shop's"})
}

func (w *writer) valueRules() []rule {
	return []rule{
		{"Usable cost", fmt.Sprintf("Heads as sold for a set of %d + extras that are needed + a spring kit when the range's top is above what the fitted springs are good to + rework at the customer's price. "+
			"Where no sell price is set: landed cost / (1 - %s), marked proposed.", w.Family.HeadsPerSet, percent(w.Rules.TargetMargin)), common},
		{"Value", "Worth of a cfm x working average - usable cost. It orders the ranking. " + w.worthWords(),
			"own rule; where the shop sets no worth: slope by P. K. Sen, J. Am. Stat. Assoc. 63 (1968) 1379-1389"},
		{"Cost per cfm", "Usable cost / working average. Shown, never the order: it crowns the cheapest casting, because the first cfm come with any head.", common},
		{"Cost per extra cfm", fmt.Sprintf("(usable cost - that of %s) / (working average - that of %s).", w.Family.BaseHead, w.Family.BaseHead), common},
		{"Best buy while", "The worth of a cfm for which no other head has more value: the upper hull of working average over usable cost.", "textbook efficient frontier (from memory)"},
		{"±", fmt.Sprintf("One standard deviation of the working average: repeatability, lift zero (%s in) and %s for each casting divided by the square root of the ports tested. "+
			"At one lift: the reading's own repeatability together with the working average's ± in proportion.", bore(w.Rules.LiftZero), percent(w.Rules.PortSpread)), "JCGM 100:2008 (GUM), 5.1.2; the sizes: " + common},
		{"Ties", fmt.Sprintf("A head is behind another only when the other's value is larger with a probability above %s. From the top: the first head and all that are not behind it share a place; then the next group.",
			percent(w.Rules.TieUntil)), "normal distribution; own grouping"},
		{"Beyond the noise (side by side)", fmt.Sprintf("The difference exceeds %s cfm and %.3f x the two ± combined (root of the sum of squares).",
			plain(w.Rules.SmallestStep.CFM()), compare.Sigmas(w.Rules)), "JCGM 100:2008 (GUM), 5.1.2"},
		{"Air speed", "Piston area x peak piston speed / minimum cross-section at the family's engine and speed: .00353 x rpm x stroke x bore² / section, in ft/s.",
			"geometry; peak piston speed taken as 1.62 x the mean; the limits lazy and choked: " + common},
	}
}

// settings lists what the setup says and what stands where it says nothing.
func (w *writer) settings() []rule {
	var out []rule
	for _, s := range w.Settings {
		out = append(out, rule{s.Name, s.Value, s.Origin})
	}
	return out
}

func percent(x float64) string { return plain(x*100) + " %" }
