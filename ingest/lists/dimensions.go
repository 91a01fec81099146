package lists

import (
	"regexp"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/parse"
)

func dimensionSheet() kind {
	return kind{
		name: "dimension sheet",
		columns: []column{
			{role: key, titles: headTitles},
			{role: "wall", titles: regexp.MustCompile(`(?i)\bto (the )?(bore )?wall\b|\bwall clearance\b|\bshroud`)},
			{role: "stem length", titles: regexp.MustCompile(`(?i)\bstem length\b|\blength of (the )?stem\b|\bschaftlänge\b`)},
			{role: "stem", titles: regexp.MustCompile(`(?i)\bstems?\b|\bschaft\b`)},
			{role: "valve length", titles: regexp.MustCompile(`(?i)\bvalve length\b`)},
			{role: "valves", titles: regexp.MustCompile(`(?i)\bvalves?\b.*\b(int?|intake)\b.*\b(exh?|exhaust)\b|^valves?( sizes?| dia(meter)?\.?)?( \(?(in|mm)\)?)?$|\bventile?\b`)},
			{role: "intake valve", titles: regexp.MustCompile(`(?i)\b(int?|intake|inlet)\b.*\bvalve\b|\bvalve\b.*\b(int|intake|inlet)\b|\beinlassventil\b`)},
			{role: "exhaust valve", titles: regexp.MustCompile(`(?i)\b(exh?|exhaust)\b.*\bvalve\b|\bvalve\b.*\b(exh?|exhaust)\b|\bauslassventil\b`)},
			{role: "throat", titles: regexp.MustCompile(`(?i)\bthroat\b`)},
			{role: "section", titles: regexp.MustCompile(`(?i)\bcsa\b|\bcross.?section\b|\bpinch\b|\bmin(imum)?\.? (area|section)\b`)},
			{role: "exhaust runner", titles: regexp.MustCompile(`(?i)\b(exh?|exhaust)\b.*\b(runner|port|cc)\b|\b(runner|port)\b.*\b(exh?|exhaust)\b`)},
			{role: "runner", titles: regexp.MustCompile(`(?i)\brunner\b|\b(int|intake) (port )?(cc|volume)\b|\bport (cc|volume)\b`)},
			{role: "chamber", titles: regexp.MustCompile(`(?i)\bchamber\b|\bbrennraum\b`)},
			{role: "max lift", titles: regexp.MustCompile(`(?i)\bmax(imum)?\.? (valve )?lift\b|\blift limit\b|\bsprings? (are )?(good )?(to|until)\b`)},
			{role: "loads", titles: regexp.MustCompile(`(?i)\bseat\b.*/.*\bopen\b|\bspring loads?\b`)},
			{role: "seat load", titles: regexp.MustCompile(`(?i)\bseat (load|pressure)\b`)},
			{role: "open load", titles: regexp.MustCompile(`(?i)\bopen (load|pressure)\b`)},
			{role: "installed", titles: regexp.MustCompile(`(?i)\binstalled\b`)},
			{role: "coil bind", titles: regexp.MustCompile(`(?i)\bcoil bind\b`)},
			{role: "port length", titles: regexp.MustCompile(`(?i)\b(port|runner) length\b|\bcent(er|re)line\b`)},
			{role: "weight", titles: regexp.MustCompile(`(?i)\bweight\b|\bgewicht\b`)},
			{role: "made", titles: regexp.MustCompile(`(?i)\bmaterial\b.*\bprocess\b`)},
			{role: "material", titles: regexp.MustCompile(`(?i)^material$|^werkstoff$`)},
			{role: "process", titles: regexp.MustCompile(`(?i)^(process|finish|as)$`)},
			{role: "samples", titles: regexp.MustCompile(`(?i)^samples?$|\bmeasured on\b`)},
		},
		needs:  []role{key},
		any:    []role{"stem", "valves", "intake valve", "exhaust valve", "throat", "section", "runner", "chamber", "max lift"},
		least:  2,
		across: true,
		hints:  []string{"stem", "valve", "throat", "csa", "section", "runner", "chamber", "lift", "ventil"},
		proof:  headsKnown,
		read:   readDimensions,
	}
}

var (
	measuredHere = regexp.MustCompile(`(?i)\b(measured (here|by us)|our (own )?measure|as measured)\b`)
	boreInTitle  = regexp.MustCompile(`(?i)([\d.,]+(?:[ -]\d+/\d+)?\s*(?:mm|in|")?)\s*bore\b|\bbore\s*([\d.,]+\s*(?:mm|in|")?)`)
)

func readDimensions(r *reader) {
	here := false
	for _, n := range r.notes {
		if measuredHere.MatchString(n.text) {
			here = true
			r.use(n.cell, "says who measured")
		}
	}
	wallBore := r.wallBore()
	for _, l := range r.lines {
		d := r.dimensions(l)
		if d.WallClearance.Known {
			d.WallBore = wallBore
		}
		d.Measured = here && !strings.Contains(strings.ToLower(d.Samples.Value), "supplier")
		if status, why := r.doubt(l); status != head.Used {
			r.records.Problems.Add(source.Problem{At: d.At, Severity: source.SetAside, Kind: "line-set-aside", Head: d.Head, Message: why + ", so the line is not used"})
			continue
		}
		r.records.Dimensions = append(r.records.Dimensions, d)
	}
}

func (r *reader) dimensions(l line) head.Dimensions {
	var d head.Dimensions
	d.Head, d.HeadAt = r.head(l)
	d.At = d.HeadAt
	r.valves(l, &d)
	d.Stem, d.StemWords = r.length(l, "stem", aStem)
	d.StemLength, _ = r.length(l, "stem length", aStemLength)
	d.Throat = r.throat(l, d.IntakeValve)
	d.MinSection = r.area(l, "section")
	d.Runner = r.volume(l, "runner", 30, 700)
	d.ExhaustRunner = r.volume(l, "exhaust runner", 20, 400)
	d.Chamber = r.volume(l, "chamber", 10, 250)
	d.MaxLift, _ = r.length(l, "max lift", aLift)
	d.Installed, _ = r.length(l, "installed", aHeight)
	d.CoilBind, _ = r.length(l, "coil bind", aHeight)
	d.PortLength, _ = r.length(l, "port length", aPort)
	d.WallClearance, _ = r.length(l, "wall", aWall)
	d.Weight = r.mass(l, "weight")
	r.loads(l, &d)
	d.Material, d.Process = r.words(l, "material"), r.words(l, "process")
	if made := r.words(l, "made"); made != "" {
		material, process, _ := strings.Cut(made, ",")
		d.Material, d.Process = strings.TrimSpace(material), strings.TrimSpace(process)
	}
	if cell, _, ok := r.cell(l, "samples"); ok {
		d.Samples = source.Say(parse.Squeeze(textOf(cell)), r.trace(cell, ""))
	}
	r.askTogether(l, &d)
	d.Other = r.others(l)
	return d
}

func (r *reader) valves(l line, d *head.Dimensions) {
	d.IntakeValve, d.ExhaustValve = r.pair(l, "valves", aValve)
	if r.find("intake valve") != nil {
		d.IntakeValve, _ = r.length(l, "intake valve", aValve)
	}
	if r.find("exhaust valve") != nil {
		d.ExhaustValve, _ = r.length(l, "exhaust valve", aValve)
	}
}

// throat is a diameter, or a share of the intake valve's.
func (r *reader) throat(l line, valve source.Stated[quantity.Length]) source.Stated[quantity.Length] {
	cell, c, ok := r.cell(l, "throat")
	if !ok {
		return source.Stated[quantity.Length]{}
	}
	share := 0.0
	if m := percentValue.FindStringSubmatch(parse.Squeeze(textOf(cell))); m != nil {
		x, _ := r.plainNumber(decode.Cell{Kind: decode.Text, Text: m[1]}, c)
		share = x / 100
	} else if cell.Kind == decode.Number && strings.Contains(cell.Format, "%") {
		share = cell.Num
	}
	if share == 0 {
		length, _ := r.length(l, "throat", aValve)
		return length
	}
	if !valve.Known || share < 0.5 || share > 1 {
		r.notASize(l, cell, c)
		return source.Stated[quantity.Length]{}
	}
	return source.Say(quantity.Inches(valve.Value.In()*share), r.trace(cell, "%").Then("share of the intake valve"))
}

// loads reads "130@1.800 / 365@1.200": seat load at the installed height and
// open load.
func (r *reader) loads(l line, d *head.Dimensions) {
	if x := r.number(l, "seat load", "lbf"); x.Known {
		d.SeatLoad = source.Say(quantity.PoundsForce(x.Value), x.Trace)
	}
	if x := r.number(l, "open load", "lbf"); x.Known {
		d.OpenLoad = source.Say(quantity.PoundsForce(x.Value), x.Trace)
	}
	cell, c, ok := r.cell(l, "loads")
	if !ok {
		return
	}
	seat, open, ok := parse.SpringLoads(cell.Text)
	if cell.Kind != decode.Text || !ok {
		r.problem(cell, source.Refused, "not-a-spring-load", l.name(), c.title+" cannot be read", "write it as 130@1.800 / 365@1.200")
		r.drop(cell, "not a spring load")
		return
	}
	d.SeatLoad = source.Say(quantity.PoundsForce(seat.Lbf), r.trace(cell, "lb @ in"))
	d.OpenLoad = source.Say(quantity.PoundsForce(open.Lbf), r.trace(cell, "lb @ in"))
	if !d.Installed.Known && seat.HeightIn > 0 {
		d.Installed = source.Say(quantity.Inches(seat.HeightIn), r.trace(cell, "lb @ in"))
	}
}

// others keeps every column without a field of its own for the head card.
func (r *reader) others(l line) []head.Fact {
	var out []head.Fact
	for i := range r.columns {
		c := &r.columns[i]
		if c.role != "" && c.role != "valve length" || c.title == "" {
			continue
		}
		cell, ok := l.cells[c.place]
		if !ok || cell.Kind == decode.Failed {
			continue
		}
		r.use(cell, "kept for the head card")
		out = append(out, head.Fact{Name: c.title, Value: parse.Squeeze(textOf(cell)), At: r.ref(cell)})
	}
	return out
}

// wallBore is the bore on which the wall clearances were measured, as the
// column's title says.
func (r *reader) wallBore() source.Stated[quantity.Length] {
	c := r.find("wall")
	if c == nil || len(c.cells) == 0 {
		return source.Stated[quantity.Length]{}
	}
	m := boreInTitle.FindStringSubmatch(c.title)
	if m == nil {
		r.problem(c.cells[0], source.Noted, "wall-bore-not-stated", "", "the bore on which the clearance was measured is not stated, so no bore is estimated from it",
			"write it into the title, such as (4.030 bore)")
		return source.Stated[quantity.Length]{}
	}
	size, ok := parse.ReadSize(firstOf(m[1], m[2]), parse.PointMark)
	if !ok {
		return source.Stated[quantity.Length]{}
	}
	if size.Unit == "" {
		size.Unit, _ = r.unit(&titled{}, size.Value, aBore)
	}
	length, ok := size.In()
	if !ok || !aBore.holds(length) {
		return source.Stated[quantity.Length]{}
	}
	return source.Say(length, r.trace(c.cells[0], size.Unit))
}
