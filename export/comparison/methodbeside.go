package comparison

import "fmt"

// besideRules are the rules of what stands beside the ranking.
func (w *writer) besideRules() []rule {
	open := "None: the setup states no cam for this family."
	if w.Cam != "" {
		open = fmt.Sprintf("Mean intake flow over the time the valve is between its .050 in tappet lift points, the lift following half a cosine: %s. "+
			"Beyond the last reading the flow is held where the curve levels off or backs up; otherwise there is none. The duration changes only the seat-to-seat figure.", w.Cam)
	}
	return []rule{
		{"Average while the valve is open", open, "time weighting alone, a figure of merit; the lift profile: textbook shape, no maker's lobe"},
		{"Where a head wins", "At every lift that one of two heads was read at: the difference beyond the noise as on Side by side, neighbouring lifts joined.", "JCGM 100:2008 (GUM), 5.1.2"},
		{"More cam wasted", fmt.Sprintf("The lowest lift from which the curve gains less than 2 %% up to its highest point, rounded up to .010 in. Told only when %s in was measured beyond it.",
			lift(w.Rules.StallSpan)), common},
		{"Suppliers' figures against our bench", "Over heads flowed on both, as they come and at one class of test pressure: the mean of ln(theirs / ours) of the working averages, its 95 % interval by Student's t. " +
			"For a correction the mean is drawn toward zero by t² / (t² + se²). Benches without a head in common with ours are tied to it through others by least squares, or not at all. Under three heads: indicative.",
			"paired samples, ISO 5725-6 for the use; C. M. Sutton, Metrologia 41 (2004), for benches linked through heads (abstract)"},
		{"Not tested here", "Their working average x e^-correction, ± 1.96 x the root of the sum of squares of the correction's uncertainty and the scatter from head to head.", "JCGM 100:2008 (GUM), 5.1.2"},
		{"Inlet Mach index", "Piston area x mean piston speed / (speed of sound at 20 °C x effective valve area); effective area = average flow / ideal flow of a square inch (145.9 cfm at 28 inH2O).",
			"C. F. Taylor, The Internal-Combustion Engine in Theory and Practice, vol. 1, limit near .6 (from memory); JSME mechanical engineering encyclopedia, limit .5"},
		{"Air speed, piston at its mean", "Stroke x rpm / 360 x piston area / minimum cross-section, in ft/s. The trade's figure takes the piston at its fastest and is 1.618 times this.", "geometry"},
		{"Air and flow wanted", "Air: displacement x rpm / 3456. Flow wanted a port: hp / (.257 x cylinders) at 28 inH2O. No power is worked out from flow.", "geometry; the .257: " + common},
		{"Exhaust / intake", "Ratio of the working averages, with and without a pipe apart. Under 60 % or over 100 % is worth a look. Never scored.",
			"W. E. Eppes, J. C. Livengood, C. F. Taylor, NACA TN 1365 (1947): best near 1 (abstract); custom says 70 to 80 %, no source"},
		{"Cost of each added cfm, ±", "(cost - cost before) / (flow - flow before) along the frontier; ± = it x root of the sum of squares of the two flows' ± / the gain in flow. Not distinguishable: the gain is real with less than 95 %.", "JCGM 100:2008 (GUM), eq. 12"},
		{"Rework or buy better", "Gain that breaks even = cost of the work / what a cfm costs in the head that surely flows more for the least a cfm.", "own rule"},
		{"Margin and markup", "Margin = (price - landed cost) / price. Markup = (price - landed cost) / landed cost.", "definitions"},
		{"Throat, section, stem", "Throat / intake valve: .82 to .93 usual. Runner volume / centreline length over the smallest section: .95 to 1.25 usual. Stem: steel of 7.85 mg/mm³ on the difference of the two circles, a mm of stem; computed, never weighed.",
			"geometry; the bounds: " + common + "; the density from memory"},
	}
}

// weakRules say plainly which figures rest on little.
func (w *writer) weakRules() []rule {
	repeat := "The default, 1 %, is a guess for a shop bench until ten degrees of freedom of repeated runs are in the folder; then the shop's own replace it."
	for _, s := range w.Settings {
		if s.Name == "repeatability of a reading" && s.Origin != "default" {
			repeat = fmt.Sprintf("%s (%s).", s.Value, s.Origin)
		}
	}
	return []rule{
		{"Flow at another bore, estimated", "The weakest part. No published table of flow against bore was found; the model of a jet hemmed in by the wall was made to agree with what shops see, so its agreement proves nothing. " +
			"Intake only, bores within 3 %, no reading moved by more than 5 %, off unless the setup says yes, and marked.", "own estimate"},
		{"Flow wanted for a power", "A rule of thumb for naturally aspirated petrol engines with a tuned intake, good to 12 % (one standard deviation). It says what to look for, not what an engine makes.", common},
		{"Spread of ports and castings", fmt.Sprintf("%s a port is a guess, and the largest part of most ±. Three or more ports of a head replace it for that head.", percent(w.Rules.PortSpread)), common},
		{"Repeatability", repeat, common},
		{"Benches before they are compared", "Other benches are taken as 3 % apart and heads as 2 % apart between two benches, worth four degrees of freedom, before anything is known of them. With few heads in common this decides the correction.", common},
		{"Pipe not stated, bore not stated", "The band of 5 points of E/I and the allowance of 1.5 % for a bore that was not brought over are round figures.", common},
		{"Air speed limits, Mach band", "500 and 640 ft/s, .5 and .6 are good to about a tenth.", common + "; see the rules for the sources"},
		{"From memory", "Clause and equation numbers of standards and textbooks marked \"from memory\" or \"abstract\" were not looked up in the text itself.", ""},
	}
}
