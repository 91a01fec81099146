package words

// columns names what columns of readings hold and how they were read.
func columns() []Entry { //nolint:funlen // a list of words
	return []Entry{
		{Cylinder, []string{
			"cyls", "zylindern", "(cyl|cylinder|zyl|zylinder|cil|cilindro|cylindre|chamber) (no|nr|number|num|n|#|position|)", "cylinders", "cilindri",
			"cilindros", "cylindres", "zylindernummer", "zylinder nummer", "numero (cylindre|cilindro)", "hole no", "pot", "cyln", "kammer", "brennraum",
			"port no", "port number", "port #", "kanalnummer", "kanal nr",
		}},
		{PortNo, []string{
			"#", "no", "nr",
		}},
		{Run, []string{
			"(run|pull|pass|trial|repeat|attempt|sweep|try|rep|repetition|series|round|cycle|shot) (no|nr|number|num|#|)", "runs", "pulls", "passes",
			"trials", "repeats", "test (run|pull|pass|no|nr|number|#)", "flow (run|pull|pass)",
			"(lauf|messung|durchgang|versuch|wiederholung|durchlauf|messreihe|messlauf|testlauf|pruflauf|serie|messgang|wdh) (nr|no|nummer|)", "versuche",
			"messungen", "durchgange", "wiederholmessung", "(essai|passage|passe|repetition|releve|tour|manche|balayage) (no|n|numero|)", "essais", "releves",
			"passages", "(prova|passata|ripetizione|rilievo|misurazione|rilevamento|tornata|ciclo|serie) (no|n|numero|)", "prove", "misure", "rilievi",
			"(prueba|pasada|ensayo|medicion|repeticion|tanda|vuelta|intento|corrida|toma) (no|n|numero|)", "pruebas", "ensayos", "mediciones",
		}},
		{LongPort, []string{
			"long", "long port", "long (runner|side|leg|turn port)", "lang", "langer kanal", "conduit long", "longue", "lungo", "largo", "lango kanal",
			"langer",
		}},
		{ShortPort, []string{
			"short", "short port", "short (runner|leg)", "kurz", "kurzer kanal", "conduit court", "courte", "court", "corto", "kurzer",
		}},
		{LeftPort, []string{
			"left", "left (hand|side|hand port|port)", "lh", "links", "linker kanal", "gauche", "sinistra", "sinistro", "izquierda", "izquierdo",
			"linke seite",
		}},
		{RightPort, []string{
			"right", "right (hand|side|hand port|port)", "rh", "rechts", "rechter kanal", "droite", "droit", "destra", "destro", "derecha", "derecho",
			"rechte seite",
		}},
		{UnlikePort, []string{
			"good", "bad", "good (port|side)", "bad (port|side)", "guter kanal", "schlechter kanal", "bon conduit", "mauvais conduit",
			"buono", "cattivo", "bueno", "malo",
		}},
		{Range, []string{
			"rng", "range", "bereich", "messbereich", "gamme", "(flow|meter|bench|orifice|scale) range", "range (no|nr|number|used|#)", "plage",
			"calibre mesure", "portata strumento", "escala", "rango", "scala", "campo", "echelle", "gama",
		}},
		{PercentOfRange, []string{
			"% range", "% rng", "percent of range", "pct of range", "% flow", "% scale", "meter %",
			"% (full scale|fs|of scale|of full scale|of meter|meter|of range|of max|of rng)", "percent (range|scale|of scale|full scale)", "% vom bereich",
			"% bereich", "% skala", "% gamme", "% echelle", "% scala", "% escala", "% rango", "% de plage", "prozent vom messbereich",
		}},
		{Calibration, []string{
			"calibration", "cal", "kalibrierung", "etalonnage", "(range|bench|meter|flow|orifice) (cal|calib|calibration|calibrations)",
			"cal (flow|flows|values|constants)", "kalibrierwerte", "kalibrierung bereiche", "calibrazione", "taratura", "calibracion", "etalonnage gammes",
			"calib",
		}},
		{TestPressure, []string{
			"tp", "δp", "prufdruck", "unterdruck", "messdruck", "depr", "pressione di prova", "presion de prueba", "presion de ensayo", "prova pressione",
			"testdruck",
			"(test|bench|flow|working|running|measuring|operating|) (pressure|press|depression|vacuum|vac|dep|dp|drop|suction) (drop|difference|diff|differential|used|level|setting|held|)",
			"(test|tested|flowed|run|bench|measured|pulled|flow tested|read|readings|flow|done|all flowed) at", "differential (pressure|)",
			"diff (press|pressure)", "pressure (differential|diff|difference)", "test (head|water|in|inches|wc)", "water (column|gauge|lift)",
			"inches (of water|water)", "(delta|d) p", "deltap", "static (pressure|depression)", "at pressure", "test condition pressure",
			"corrected pressure", "(pruf|test|mess|versuchs|bank|arbeits|saug|bezugs|soll|) (unter druck|druck|differenzdruck|druckdifferenz|vakuum)",
			"druck (differenz|abfall|verlust|gefalle)", "differenz druck", "wasser saule", "bei druck", "gemessen bei", "gepruft bei", "getestet bei",
			"prufdepression", "unterdruck prufstand", "messunterdruck",
			"(pression|depression|vide) (d essai|d essais|essai|test|mesure|banc|de mesure|du banc|differentielle|diff|)",
			"difference (de pression|pression)", "perte de charge", "chute de pression", "colonne d eau", "teste a", "mesure a", "mesure sous",
			"sous depression", "delta pression", "ecart de pression", "(pressione|depressione|vuoto) (prova|test|misura|banco|differenziale|diff|lavoro|)",
			"(caduta|differenza|salto|perdita) pressione", "colonna d acqua", "provato a", "misurato a", "perdita di carico", "delta pressione",
			"(presion|depresion|vacio) (prueba|ensayo|test|medida|medicion|banco|diferencial|dif|trabajo|)", "(caida|diferencia|salto|perdida) presion",
			"columna (agua|de agua)", "probado a", "medido a", "perdida de carga", "ensayado a",
		}},
		{Observed, []string{
			"observed", "obs", "as read", "raw", "uncorrected", "indicated", "as flowed", "as tested", "abgelesen", "unkorrigiert", "gemessen unkorrigiert",
			"lu", "letto",
			"(raw|observed|uncorrected|indicated|actual|measured|as read|as flowed|as run|at bench|bench) (flow|cfm|reading|readings|value|values|figure|figures|data|numbers)",
			"uncorr", "obs d", "as measured", "not converted", "beobachtet", "rohwert", "rohwerte", "roh", "abgelesene werte", "nicht korrigiert",
			"wie gemessen", "brut", "lecture", "non corrige", "observe", "valeur brute", "lettura", "grezzo", "non corretto", "osservato", "leido",
			"sin corregir", "lectura", "bruto", "observado",
		}},
		{Corrected, []string{
			"korrigiert", "corrige", "corretto", "corregido", "umgerechnet", "(calculated|calc|recalculated|recalc|scaled|computed|reduced|rescaled) (to|)", "berechnet", "umgerechnet auf", "calcule", "calcolato", "calculado",
			"(corr|corrected|converted|adjusted|normalised|normalized) (flow|cfm|value|values|figure|figures|to|for|)", "corr d", "adj", "std flow", "korr",
			"korrigierte werte", "bezogen auf", "normiert", "corrigee", "valeur corrigee", "ramene a", "converti", "normalise", "corretta", "valore corretto",
			"riportato a", "corregida", "corregido a", "convertido", "ajustado",
		}},
		{NotCorrected, []string{
			"not corrected", "not corrected to", "un corrected",
		}},
		{Manometer, []string{
			"manometer", "mano", "inclined", "orifice dp", "orifice diff", "differential",
			"(inclined|vertical|flow|slant|u tube|orifice|meter|metering) (manometer|mano|gauge|tube reading|pressure)",
			"orifice (pressure|drop|differential|delta p|reading|h)", "mano (in|reading|inches|mm|1|2)", "inclined (reading|in|inches)",
			"incl", "schragrohr", "schragrohr manometer", "manometer anzeige", "blendendruck", "wirkdruck", "manometre", "manometre incline",
			"manometro", "manometro inclinato", "inclinado", "h w",
		}},
		{Orifice, []string{
			"(orifice|orif) (size|no|number|nr|#|in|mm|plate|dia|diameter|used|)", "blende", "blende nr", "diaphragme", "diaframma",
		}},
		{Flow, []string{
			"airflow rate", "rate of flow", "volume flow", "volumenstrom", "durchflussmenge", "airflow", "reading", "airflow units", "einheit", "einheiten",
			"unite", "unites", "unidad", "unidades", "unita", "units",
			"(air|) (flow|flows|flowrate|throughput|volume|mass) (rate|rates|value|values|figure|figures|reading|readings|number|numbers|result|results|data|units|unit|measured|capacity|in|)",
			"airflows", "air", "air (moved|passed|through|quantity|capacity)",
			"all (flows|flow|readings|figures|values|numbers|results) (in|are|are in|shown in|given in|)",
			"(flows|readings|figures|values|results|numbers|measurements|units) (in|are in|given in)", "flowed", "port flow", "flow through port", "rate",
			"readings", "measured value", "quantity", "units of flow", "flow measured in", "unit of flow", "flow given in",
			"(luft|volumen|) (durchfluss|durchsatz|strom|menge|stromung) (wert|werte|menge|rate|leistung|in|)", "luftmenge", "luftstrom", "luft", "messwert",
			"messwerte", "alle werte in", "werte in", "angaben in", "durchfluss einheit", "fluss", "flusswerte", "luftmassenstrom", "stromungswert",
			"durchflusse", "masseinheit", "stromungsmenge", "(debit|debits|flux|ecoulement) (air|d air|mesure|volumique|en|)", "valeurs en", "unite de debit",
			"unite debit", "unites de debit", "mesures en", "unite de mesure", "(portata|portate|flusso|flussi) (aria|d aria|misurata|volumetrica|in|)",
			"valori in", "unita di misura", "unita portata", "misure in", "(caudal|caudales|flujo|flujos|gasto) (aire|de aire|medido|volumetrico|en|)",
			"valores en", "unidad de caudal", "unidades de caudal", "unidad de medida", "lecturas en",
		}},
	}
}
