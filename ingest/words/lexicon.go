package words

import "slices"

// The roles.
const (
	None Role = iota
	Lift
	LiftOverDiameter
	Intake
	Exhaust
	AmbiguousPort // EV, E, IN: the neighbours decide, or somebody is asked
	BothPorts     // E/I ratio

	Cylinder
	PortNo
	Run
	LongPort
	ShortPort
	LeftPort
	RightPort

	Average
	Minimum
	Maximum
	Spread
	Peak
	Total
	Gain
	Percent
	Ratio
	Velocity
	Swirl
	Power
	Area
	Rank

	Range
	PercentOfRange
	Calibration
	TestPressure
	Observed
	Corrected
	NotCorrected
	Manometer

	Bore
	Valve
	Pipe
	NoPipe
	NoEntry
	Radius
	Clay
	Manifold
	NoManifold
	BarePort

	Advertised
	Tested
	OwnBench

	AsDelivered
	Rework
	Before
	After

	Head
	Supplier
	Bench
	Serial
	Sample
	Port
	Side
	Date
	Operator
	Note
	Leak
	State
	Flow
	Valves
	EntryCaption
	Old
	PortCount
	Family

	Template
	Cover
	Hidden
	Filler // words that say nothing of themselves: "and", "the", "flow"
)

// FlowSheet is the lexicon of flow sheets. A word is listed where the trade
// uses it (common practice, no source).
func FlowSheet() *Lexicon { return flowSheet }

var flowSheet = NewLexicon(slices.Concat(ports(), columns(), conditions(), states())) //nolint:gochecknoglobals // built once from constants and never written

func ports() []Entry {
	return []Entry{
		{Lift, []string{"lift", "lifts", "valve lift", "vl", "hub", "ventilhub", "levee", "levee soupape", "alzata", "alzada"}},
		{LiftOverDiameter, []string{"l d", "ld", "lift dia", "lift over diameter", "h d"}},
		{Intake, []string{"int", "intake", "intakes", "inlet", "inlets", "inl", "in port", "iv", "einlass", "einlassventil", "adm", "admission",
			"asp", "aspirazione", "aspirado", "admision"}},
		{Exhaust, []string{"ex", "exh", "exhaust", "exhausts", "outlet", "auslass", "auslassventil", "av", "ech", "echappement",
			"esc", "escape", "scar", "scarico"}},
		{AmbiguousPort, []string{"ev", "eo", "e", "i", "in", "out", "a"}},
		{BothPorts, []string{"e i", "ex int", "exh int", "ex in", "i e", "exhaust intake", "e i ratio"}},
	}
}

func columns() []Entry {
	return []Entry{
		{Cylinder, []string{"cyl", "cylinder", "cyls", "zyl", "zylinder", "cyl" + "indre", "cilindro"}},
		{PortNo, []string{"#", "no", "nr"}},
		{Run, []string{"run", "pull", "rep", "repeat", "lauf", "messung", "essai", "prova"}},
		{LongPort, []string{"long", "long port"}},
		{ShortPort, []string{"short", "short port"}},
		{LeftPort, []string{"left", "left port"}},
		{RightPort, []string{"right", "right port"}},
		{Average, []string{"avg", "ave", "average", "mean", "av g", "mittel", "mittelwert", "moyenne", "media"}},
		{Minimum, []string{"min", "minimum", "worst"}},
		{Maximum, []string{"max", "maximum", "best"}},
		{Spread, []string{"spread", "range of", "std", "std dev", "stdev", "sd", "deviation", "scatter", "streuung"}},
		{Peak, []string{"peak", "peak flow", "peak cfm", "max flow", "spitze"}},
		{Total, []string{"total", "total cfm", "sum", "summe", "totale", "totals"}},
		{Gain, []string{"gain", "gains", "diff", "difference", "delta", "change", "improvement", "differenz", "zuwachs", "gain %", "diff %", "gain cfm", "vs stock", "ecart"}},
		{Percent, []string{"%", "percent", "pct", "prozent"}},
		{Ratio, []string{"ratio", "verhaltnis"}},
		{Velocity, []string{"velocity", "vel", "fps", "ft s", "ft sec", "port speed", "air speed", "speed", "m s", "geschwindigkeit"}},
		{Swirl, []string{"swirl", "swirl rpm", "rpm", "tumble", "drall"}},
		{Power, []string{"hp", "hp potential", "horsepower", "bhp", "kw", "ps", "power", "est hp"}},
		{Area, []string{"cfm in2", "cfm sq in", "cfm per sq in", "per square inch", "per sq in", "csa", "area", "sq in", "in2", "cfm cc", "cfm per cc", "cd", "cf", "coefficient", "flow coefficient", "discharge coefficient", "efficiency", "flow efficiency"}},
		{Rank, []string{"rank", "place", "score", "platz"}},
		{Range, []string{"rng", "range", "bereich", "messbereich", "gamme"}},
		{PercentOfRange, []string{"% of range", "% range", "% rng", "percent of range", "pct of range", "% flow", "% scale", "meter %"}},
		{Calibration, []string{"range cal", "calibration", "cal", "range calibration", "kalibrierung", "etalonnage"}},
		{TestPressure, []string{"tp", "test pressure", "test press", "test depression", "depression", "dp", "pressure", "press", "test dp", "prufdruck",
			"differenzdruck", "unterdruck", "druck", "pression", "pressione", "delta p", "test vacuum", "presion"}},
		{Observed, []string{"observed", "obs", "as read", "raw", "uncorrected", "indicated"}},
		{Corrected, []string{"corrected", "corr", "corrected to", "corr to", "korrigiert", "corrige", "converted", "converted to"}},
		{NotCorrected, []string{"not corrected", "not corrected to", "un corrected"}},
		{Manometer, []string{"manometer", "mano", "inclined", "orifice", "orifice dp", "orifice size", "orifice diff", "differential"}},
	}
}

func conditions() []Entry {
	return []Entry{
		{Bore, []string{"bore", "bores", "fixture", "fixture bore", "test bore", "bore adapter", "sleeve", "bohrung", "alesage", "alesaggio", "bore size", "bore fixture", "cyl bore", "cylinder bore"}},
		{Valve, []string{"valve", "valve dia", "valve size", "valve diameter", "ventil", "ventildurchmesser", "soupape", "valvola"}},
		{Pipe, []string{"pipe", "with pipe", "w pipe", "stub", "exhaust pipe", "flow pipe", "pipe stub", "rohr", "mit rohr", "avec tube", "con tubo", "exh pipe", "piped", "with tube", "w tube", "stub pipe", "flow tube", "exh tube", "exhaust tube"}},
		{NoPipe, []string{"no pipe", "without pipe", "w o pipe", "wo pipe", "ohne rohr", "sans tube", "senza tubo", "open port", "no tube", "no stub", "w o tube", "without tube"}},
		{NoEntry, []string{"no radius", "without radius", "no entry radius", "w o radius", "no clay", "without clay", "sharp edge", "sharp entry", "ohne trichter", "ohne einlauftrichter"}},
		{Radius, []string{"radius", "radius plate", "radiused entry", "radiused inlet", "entry radius", "inlet radius", "radiused", "inlet guide", "bellmouth", "bell mouth", "trichter",
			"einlauftrichter", "einlaufradius", "radius entry", "plate", "own plate", "radiused plate"}},
		{Clay, []string{"clay", "clay radius", "clayed", "clay entry", "knete", "plasticine"}},
		{Manifold, []string{"manifold", "with manifold", "w manifold", "mani", "w mani", "carb", "throttle body", "intake manifold", "inlet manifold", "with intake manifold", "w intake manifold", "saugrohr", "mit saugrohr", "w carb", "with carb", "adapter"}},
		{NoManifold, []string{"no manifold", "without manifold", "w o manifold", "less manifold", "no mani", "ohne saugrohr", "w o mani", "no intake manifold", "w o intake manifold"}},
		{BarePort, []string{"bare port", "bare"}},
		{Advertised, []string{"adv", "advertised", "advert", "claim", "claimed", "claims", "mfr", "mfg", "manufacturer", "catalog", "catalogue", "published", "publ", "spec", "brochure", "katalog", "they say", "werksangabe", "herstellerangabe", "factory claim"}},
		{Tested, []string{"tested", "test", "actual", "real", "measured", "gemessen", "mesure", "we read", "we got", "our test"}},
		{OwnBench, []string{"our bench", "shop bench", "own bench", "in house", "our own bench", "own test", "our own", "ours", "eigene messung", "our flow bench", "house bench"}},
		{Head, []string{"head", "heads", "casting", "part", "part no", "head no", "part number", "kopf", "zylinderkopf", "culasse", "testata", "culata", "cylinder head", "head name", "model", "casting no", "head model"}},
		{Supplier, []string{"supplier", "maker", "brand", "vendor", "hersteller", "lieferant", "from", "foundry", "make"}},
		{Bench, []string{"bench", "flow bench", "flowbench", "prufstand"}},
		{Serial, []string{"serial", "serial no", "s n", "sn", "ser", "serie", "seriennr", "seriennummer", "ser no", "serial number", "serial #"}},
		{Sample, []string{"sample", "sample no", "muster", "probe", "sample #", "test head"}},
		{Port, []string{"port", "kanal", "conduit"}},
		{Side, []string{"side", "seite", "valve side"}},
		{Date, []string{"date", "test date", "tested on", "datum", "data", "date tested", "fecha", "day"}},
		{Operator, []string{"operator", "op", "by", "tech", "technician", "flowed by", "tested by", "oper", "prufer", "operateur", "initials"}},
		{Note, []string{"note", "notes", "remark", "remarks", "comment", "comments", "bemerkung", "bemerkungen", "remarque", "remarques", "nota", "note s", "footnote"}},
		{Leak, []string{"leak", "leakage", "leak cfm", "leck", "leckage", "fuite", "perdita", "leak test", "zero leak", "fixture leak"}},
		{EntryCaption, []string{"entry", "inlet entry", "intake entry", "einlauf", "entree"}},
		{PortCount, []string{"ports", "ports tested", "no of ports", "cyls tested", "ports flowed"}},
		{Family, []string{"family", "engine", "engine family", "motor"}},
		{Old, []string{"old", "old test", "old one", "previous", "superseded", "alt", "ancien", "vecchio", "outdated"}},
		{State, []string{"state", "condition", "stage", "stand", "zustand", "etat", "config", "configuration", "version"}},
		{Flow, []string{"flow", "airflow", "air flow", "durchfluss", "debit", "portata", "reading", "caudal"}},
		{Valves, []string{"both valves", "valves open", "one valve", "per valve"}},
		{Template, []string{"template", "master", "example", "blank form", "sample form", "beispiel", "vorlage", "modele", "blank", "muster formular", "do not delete", "example only", "specimen"}},
		{Cover, []string{"cover", "index", "contents", "conditions", "readme", "setup", "info", "deckblatt", "general", "test conditions", "summary"}},
		{Filler, []string{"and", "the", "of", "at", "on", "with", "all", "each", "both", "only", "is", "in.", "to", "for", "a", "an", "sheet", "data", "results", "result",
			"same", "pulled", "readings", "figures", "chart", "tests", "were", "was", "are", "done", "und", "mit", "auf", "bei", "alle", "et", "de", "la", "le", "file", "page", "units", "unit", "size"}},
	}
}

func states() []Entry {
	return []Entry{
		{AsDelivered, []string{"as delivered", "as del", "del", "stock", "as received", "as rec", "as cast", "out of the box", "out of box", "oob", "box stock", "as shipped", "untouched", "as new", "serie unbearbeitet", "unbearbeitet", "d origine", "original", "baseline", "base", "as supplied"}},
		{Before, []string{"before", "vorher", "avant", "prima"}},
		{After, []string{"after", "nachher", "apres", "dopo", "reworked", "modified", "modif", "bearbeitet"}},
		{Rework, []string{"valve job", "vj", "bowl", "bowl work", "bowl blend", "blend", "blended", "short side", "short side blend", "ssr", "pocket", "pocket port", "pocket ported",
			"ported", "full port", "full ported", "full", "3 angle", "5 angle", "three angle", "five angle", "multi angle", "back cut", "backcut", "cnc", "full cnc", "cnc ported", "hand ported",
			"stage", "stage 1", "stage 2", "stage 3", "unshrouded", "unshroud", "polish", "polished", "gasket match", "gasket matched", "milled", "new valve job", "welded", "raised", "epoxy", "bearbeitung"}},
	}
}
