package words

import "slices"

// The roles.
const (
	None Role = iota
	Lift
	LiftOverDiameter
	Intake
	Exhaust
	AmbiguousPort // EV, AV, E, IN: the neighbours decide, or somebody is asked
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
	OtherQuantity // a temperature, a humidity: no flow
	Supposed      // a target, a simulation: nobody measured it
	Old
	PortCount
	Family

	Template
	Cover
	Filler // words that say nothing of themselves: "and", "the", "flow"
)

// FlowSheet is the lexicon of flow sheets. A word is listed where the trade
// uses it (common practice, no source).
func FlowSheet() *Lexicon { return flowSheet }

var flowSheet = NewLexicon(slices.Concat(ports(), columns(), conditions(), states())) //nolint:gochecknoglobals // built once from constants and never written

func ports() []Entry {
	return []Entry{
		{Lift, []string{"lift", "lifts", "valve lift", "vl", "hub", "ventilhub", "ventil hub", "levee", "levee soupape", "levee de soupape", "alzata", "alzata valvola",
			"alzada", "alzada valvula", "alzada de valvula", "levantamiento", "levantamiento de valvula", "apertura", "lichthoogte", "elevacao"}},
		{LiftOverDiameter, []string{"l d", "ld", "lift dia", "lift over diameter", "lift diameter", "lift l d", "lift ld", "l dv", "h d"}},
		{Intake, []string{"int", "intake", "intakes", "inlet", "inlets", "inl", "in port", "iv", "einlass", "einl", "einlassventil", "einlassseite", "einlasskanal", "adm", "admission",
			"asp", "aspirazione", "aspirado", "admision", "inlaat", "admissao"}},
		{Exhaust, []string{"ex", "exh", "exhaust", "exhausts", "outlet", "auslass", "ausl", "auslassventil", "auslassseite", "auslasskanal", "ech", "echappement",
			"esc", "escape", "scar", "scarico", "uitlaat"}},
		{AmbiguousPort, []string{"ev", "av", "eo", "e", "i", "in", "out", "a"}},
		{BothPorts, []string{"e i", "ex int", "exh int", "ex in", "i e", "exhaust intake", "e i ratio"}},
	}
}

func columns() []Entry {
	return []Entry{
		{Cylinder, []string{"cyl", "cylinder", "cyls", "zyl", "zylinder", "cyl" + "indre", "cilindro", "cil", "zylindern"}},
		{PortNo, []string{"#", "no", "nr"}},
		{Run, []string{"run", "pull", "rep", "repeat", "lauf", "messung", "durchgang", "essai", "passage", "passe", "prova", "prueba", "pasada"}},
		{LongPort, []string{"long", "long port"}},
		{ShortPort, []string{"short", "short port"}},
		{LeftPort, []string{"left", "left port"}},
		{RightPort, []string{"right", "right port"}},
		{Average, []string{"avg", "ave", "average", "mean", "av g", "mittel", "mittelwert", "durchschnitt", "moyenne", "moy", "media", "promedio", "prom"}},
		{Minimum, []string{"min", "minimum", "worst", "minimo", "mini", "kleinster"}},
		{Maximum, []string{"max", "maximum", "best", "massimo", "maximo", "maxi", "grosster"}},
		{Spread, []string{"spread", "range of", "std dev", "stdev", "sd", "deviation", "scatter", "streuung", "ecart type", "desviacion", "dispersion", "scarto"}},
		{Peak, []string{"peak", "peak flow", "peak cfm", "max flow", "spitze", "spitzenwert", "pic", "picco", "pico"}},
		{Total, []string{"total", "total cfm", "sum", "summe", "totale", "totals", "gesamt", "somme", "somma", "suma"}},
		{Gain, []string{"gain", "gains", "diff", "difference", "delta", "change", "improvement", "differenz", "zuwachs", "gain %", "diff %", "gain cfm", "vs stock", "ecart", "gewinn", "guadagno", "differenza", "ganancia", "diferencia", "plus minus"}},
		{Percent, []string{"%", "percent", "pct", "prozent", "pourcent", "percento", "porcentaje"}},
		{Ratio, []string{"ratio", "verhaltnis"}},
		{Velocity, []string{"velocity", "vel", "fps", "ft s", "ft sec", "port speed", "air speed", "speed", "m s", "geschwindigkeit"}},
		{Swirl, []string{"swirl", "swirl rpm", "rpm", "tumble", "drall"}},
		{Power, []string{"hp", "hp potential", "horsepower", "bhp", "kw", "ps", "power", "est hp"}},
		{Area, []string{"cfm in2", "cfm sq in", "cfm per sq in", "per square inch", "per sq in", "csa", "area", "sq in", "in2", "cfm cc", "cfm per cc", "cd", "cf", "coefficient", "flow coefficient", "discharge coefficient", "efficiency", "flow efficiency"}},
		{Rank, []string{"rank", "place", "score", "platz"}},
		{Range, []string{"rng", "range", "bereich", "messbereich", "gamme"}},
		{PercentOfRange, []string{"% of range", "% range", "% rng", "percent of range", "pct of range", "% flow", "% scale", "meter %"}},
		{Calibration, []string{"range cal", "calibration", "cal", "range calibration", "kalibrierung", "etalonnage"}},
		{TestPressure, []string{"tp", "test pressure", "test press", "δp", "test depression", "depression", "dp", "pressure", "press", "test dp", "prufdruck",
			"differenzdruck", "unterdruck", "druck", "pression", "pressione", "delta p", "test vacuum", "presion", "messdruck", "bench pressure", "bench vacuum", "bench depression", "flow pressure", "flowed at", "test dep", "dep", "depr", "pressure drop", "pression d essai", "depression d essai", "pression d essais", "pressione di prova",
			"depressione", "presion de prueba", "presion de ensayo", "prova pressione", "vacuum", "testdruck", "presion prueba"}},
		{Observed, []string{"observed", "obs", "as read", "raw", "uncorrected", "indicated", "as flowed", "as tested", "abgelesen", "unkorrigiert", "gemessen unkorrigiert", "lu", "letto"}},
		{Corrected, []string{"corrected", "corr", "corrected to", "corr to", "korrigiert", "corrige", "converted", "converted to", "corretto", "corregido", "umgerechnet"}},
		{NotCorrected, []string{"not corrected", "not corrected to", "un corrected"}},
		{Manometer, []string{"manometer", "mano", "inclined", "orifice", "orifice dp", "orifice size", "orifice diff", "differential"}},
	}
}

func conditions() []Entry {
	return []Entry{
		{Bore, []string{"bore", "bores", "fixture", "fixture bore", "test bore", "bore adapter", "sleeve", "bohrung", "alesage", "alesaggio", "bore size", "bore fixture", "cyl bore", "cylinder bore", "bohrungsdurchmesser", "zylinderbohrung",
			"diametro", "diametro de cilindro", "diametro del cilindro", "diametro cilindro", "bore dia", "bore diameter", "bore plate", "bore ring", "liner", "engine bore", "bore tube", "calibro", "calibre"}},
		{Valve, []string{"valve", "valve dia", "valve size", "valve diameter", "valves", "valve sizes", "valve diameters", "valve head", "valve heads", "ventil", "ventile", "ventilteller", "ventildurchmesser", "soupape", "soupapes", "valvola", "valvole", "valvula", "valvulas"}},
		{Pipe, []string{"pipe", "pipe on", "pipe fitted", "with pipe", "w pipe", "stub", "exhaust pipe", "flow pipe", "pipe stub", "rohr", "mit rohr", "avec tube", "con tubo", "avec tuyau", "tuyau", "tubo", "exh pipe", "piped", "with tube", "w tube", "stub pipe", "tube", "flow tube", "exh tube", "exhaust tube"}},
		{NoPipe, []string{"no pipe", "pipe off", "less pipe", "minus pipe", "pipe removed", "without pipe", "w o pipe", "wo pipe", "ohne rohr", "sans tube", "senza tubo", "sin tubo", "sans tuyau", "open port", "no tube", "no stub", "w o tube", "without tube"}},
		{NoEntry, []string{"no radius", "without radius", "no entry radius", "w o radius", "no clay", "without clay", "sharp edge", "sharp entry", "ohne trichter", "ohne einlauftrichter"}},
		{Radius, []string{"radius", "radius plate", "radiused entry", "radiused inlet", "entry radius", "inlet radius", "radiused", "inlet guide", "bellmouth", "bell mouth", "trichter",
			"einlauftrichter", "einlaufradius", "radius entry", "own plate", "radiused plate"}},
		{Clay, []string{"clay", "clay radius", "clayed", "clay entry", "knete", "plasticine"}},
		{Manifold, []string{"manifold", "with manifold", "w manifold", "mani", "w mani", "carb", "throttle body", "intake manifold", "inlet manifold", "with intake manifold", "w intake manifold", "saugrohr", "mit saugrohr", "w carb", "with carb", "adapter",
			"collecteur", "avec collecteur", "collecteur d admission", "avec collecteur d admission", "collettore", "con collettore", "collettore di aspirazione", "con collettore di aspirazione",
			"colector", "con colector", "colector de admision", "con colector de admision", "ansaugrohr", "mit ansaugrohr", "ansaugbrucke", "mit ansaugbrucke"}},
		{NoManifold, []string{"no manifold", "without manifold", "w o manifold", "less manifold", "no mani", "ohne saugrohr", "w o mani", "no intake manifold", "w o intake manifold", "sans collecteur", "senza collettore", "sin colector", "ohne ansaugrohr"}},
		{BarePort, []string{"bare port", "bare", "bare head", "head only", "port only", "nur kopf", "culasse seule", "solo testa", "solo culata"}},
		{Advertised, []string{"adv", "advertised", "advert", "claim", "claimed", "claims", "mfr", "mfg", "manufacturer", "catalog", "catalogue", "published", "publ", "spec", "brochure", "katalog", "they say", "werksangabe", "herstellerangabe", "factory claim", "catalogo", "catalogue annonce", "annonce", "dichiarato", "anunciado", "declarado", "listed", "their numbers", "their figures", "prospekt"}},
		{Tested, []string{"tested", "test", "actual", "real", "measured", "gemessen", "mesure", "misurato", "medido", "probado", "provato", "teste", "getestet", "we read", "we got", "our test"}},
		{OwnBench, []string{"our bench", "shop bench", "own bench", "in house", "our own bench", "own test", "our own", "ours", "eigene messung", "our flow bench", "house bench"}},
		{Head, []string{"head", "heads", "casting", "part", "part no", "head no", "part number", "casting number", "head number", "head code", "casting code", "part code", "head name", "head model no", "kopfnummer", "kopf nr", "zylinderkopf nr", "teilenummer", "numero culasse", "codice testa", "numero de culata", "head id", "part id", "kopf", "zylinderkopf", "culasse", "testata", "testa", "culata", "cilinderkop", "cylinder head", "head name", "model", "casting no", "head model"}},
		{Supplier, []string{"supplier", "maker", "brand", "vendor", "hersteller", "lieferant", "from", "foundry", "make"}},
		{Bench, []string{"bench", "flow bench", "flowbench", "prufstand"}},
		{Serial, []string{"serial", "serial no", "s n", "sn", "ser", "serie", "seriennr", "seriennummer", "ser no", "serial number", "serial #", "serien nr", "n de serie", "no de serie", "numero de serie", "numero di serie", "matricola", "n serie", "seriennummer nr"}},
		{Sample, []string{"sample", "sample no", "muster", "probe", "sample #", "test head", "casting #", "exemplar", "exemplaire", "campione", "muestra"}},
		{Port, []string{"port", "kanal", "conduit", "condotto", "conducto", "in ex", "int exh"}},
		{Side, []string{"side", "seite", "valve side"}},
		{Date, []string{"date", "test date", "tested on", "datum", "data", "date tested", "fecha", "day"}},
		{Operator, []string{"operator", "op", "by", "tech", "technician", "flowed by", "tested by", "oper", "prufer", "operateur", "initials", "operatore", "operario", "operador", "essayeur", "technicien", "tecnico"}},
		{Note, []string{"note", "notes", "remark", "remarks", "comment", "comments", "bemerkung", "bemerkungen", "remarque", "remarques", "nota", "note s", "footnote", "notas", "observaciones", "osservazioni", "anmerkung", "anmerkungen"}},
		{Leak, []string{"leak", "leakage", "leak cfm", "leck", "leckage", "fuite", "perdita", "leak test", "zero leak", "fixture leak", "fuga", "fugas"}},
		{EntryCaption, []string{"entry", "inlet entry", "intake entry", "einlauf", "entree"}},
		{OtherQuantity, []string{"temp", "temperature", "temps", "air temp", "temperatur", "humidity", "rh", "baro", "barometer", "volts", "noise level", "db"}},
		{Supposed, []string{"target", "goal", "wanted", "expected", "simulated", "simulation", "sim", "predicted", "estimated", "estimate", "calculated", "calc", "theoretical", "ideal", "projected", "soll", "sollwert", "ziel", "geschatzt", "berechnet",
			"cible", "calcule", "estime", "obiettivo", "calcolato", "stimato", "objetivo", "calculado", "estimado"}},
		{PortCount, []string{"ports", "ports tested", "no of ports", "cyls tested", "ports flowed"}},
		{Family, []string{"family", "engine", "engine family", "motor"}},
		{Old, []string{"old", "old test", "old one", "previous", "superseded", "alt", "ancien", "vecchio", "outdated"}},
		{State, []string{"state", "condition", "stage", "stand", "zustand", "etat", "config", "configuration", "version"}},
		{Flow, []string{"flow", "flow rate", "air flow rate", "airflow rate", "rate of flow", "volume flow", "volumenstrom", "durchflussmenge", "debit d air", "flow figures", "airflow", "air flow", "durchfluss", "debit", "portata", "reading", "caudal", "flow units", "flow unit", "airflow units", "einheit", "einheiten", "unite", "unites", "unidad", "unidades", "unita", "stromung", "units"}},
		{Valves, []string{"both valves", "valves open", "one valve", "per valve"}},
		{Template, []string{"template", "master", "example", "blank form", "sample form", "beispiel", "vorlage", "modele", "blank", "muster formular", "do not delete", "example only", "specimen"}},
		{Cover, []string{"cover", "index", "contents", "conditions", "readme", "setup", "info", "deckblatt", "general", "test conditions", "summary"}},
		{Filler, []string{"and", "the", "of", "at", "on", "with", "all", "each", "both", "only", "is", "in.", "to", "for", "a", "an", "sheet", "data", "results", "result",
			"same", "pulled", "readings", "figures", "chart", "tests", "were", "was", "are", "done", "und", "mit", "auf", "bei", "alle", "et", "de", "la", "le", "file", "page", "unit", "size", "di", "da", "il", "lo", "les", "des", "du", "der", "die", "das", "von", "del", "el", "los", "las", "y"}},
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
