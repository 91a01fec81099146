package words

// summaries names columns and rows that hold no reading of their own.
func summaries() []Entry { //nolint:funlen // a list of words
	return []Entry{
		{Average, []string{
			"mittelwert",
			"(avg|ave|average|mean|averaged|av g|avrg|avge) (of|) (all|both|flow|flows|cfm|value|values|ports|port|cylinders|cyls|cyl|runs|run|figure|figures|reading|readings|result|results|total|overall|curve|two|three|four|)",
			"(overall|total|combined|grand|running|arithmetic|all) (average|mean|avg)", "averages", "means", "mid value",
			"(mittel|durchschnitt|schnitt|mittel wert|durchschnitt wert|mw|mittl) (wert|werte|aller|gesamt|zylinder|kanal|)", "gemittelt", "im mittel",
			"gesamt (mittel|durchschnitt|schnitt)", "arithm mittel", "arithmetisches mittel", "mittelwerte", "durchschnittswert", "mittlerer wert",
			"mittlere", "mittlerer durchfluss", "durchschn", "(moyenne|moy|moyennes) (generale|globale|totale|des essais|mesures|essais|cylindres|)",
			"(valeur|debit) (moyenne|moyen)", "moyen",
			"(media|medio|valore medio|valor medio) (generale|totale|prove|cilindri|aritmetica|complessiva|general|total|)", "valori medi", "portata media",
			"medie", "(promedio|prom|media) (general|total|global|aritmetica|)", "caudal medio", "valores medios", "medias", "promedios",
		}},
		{Peak, []string{
			"peak", "spitze", "spitzenwert", "pic", "picco", "pico", "(peak|max|maximum|best|highest|top) (flow|cfm|airflow|reading|figure|flow rate)",
			"flow peak", "peaks", "spitzenwerte", "maximaldurchfluss", "max durchfluss", "hochstwert durchfluss", "debit (max|maxi|maximum|maximal)",
			"pointe", "portata (massima|max)", "caudal (maximo|max)", "maximo caudal", "punta",
		}},
		{Minimum, []string{
			"(lowest|smallest|least|low|bottom|minimal|worst) (value|port|cyl|cylinder|flow|reading|one|figure|run|)", "min (value|port|flow|cyl|)", "lo",
			"(kleinster|niedrigster|tiefster|kleinste|niedrigste|geringster|minimaler|schlechtester|tiefst|kleinst|minimal) (wert|)", "minimalwert",
			"tiefstwert", "kleinstwert", "(valeur|) (minimale|minimum|mini|mini)", "plus (bas|faible|petit|petite)", "minima", "minimi", "(valore|) minimo",
			"piu (basso|piccolo)", "il minore", "minore", "(valor|) minimo", "mas bajo", "menor", "(el|lo) menor", "inferior", "peor",
		}},
		{Maximum, []string{
			"best", "(highest|largest|greatest|most|high|top|maximal) (value|port|cyl|cylinder|reading|one|figure|run|)", "max (value|port|cyl|)", "hi",
			"(hochster|grosster|hochste|grosste|maximaler|bester|hochst|grosst|maximal) (wert|)", "maximalwert", "hochstwert", "grosstwert", "bestwert",
			"(valeur|) (maximale|maximum|maxi)", "plus (haut|fort|grand|grande|eleve|elevee)", "maxima", "massimi", "(valore|) massimo", "piu (alto|grande)",
			"maggiore", "il maggiore", "(valor|) maximo", "mas alto", "mayor", "(el|lo) mayor", "superior", "mejor",
		}},
		{Spread, []string{
			"spread", "range of", "stdev", "sd", "deviation", "scatter", "streuung", "ecart type", "desviacion", "dispersion", "scarto",
			"(max min|min max) (diff|difference|spread|range)", "(std|standard) (dev|deviation|deviations)", "band", "variation", "variance",
			"difference high low", "cyl to cyl", "spannweite", "standardabweichung", "abweichung", "bandbreite", "etendue", "ecart max", "variazione",
			"deviazione", "deviazione standard", "dispersione", "desviacion estandar", "variacion", "sigma", "std", "cv %", "repeatability", "plus or minus",
		}},
		{Total, []string{
			"(total|sum|totals|grand total|overall total|subtotal|added) (of|) (all|flow|flows|cfm|column|lifts|curve|area|)", "area under (the|) curve",
			"curve (total|area|sum)", "added up", "aggregate", "(summe|gesamt|gesamtsumme|total) (aller|werte|durchfluss|wert|summe|)", "gesamtwert",
			"insgesamt", "(somme|total) (generale|general|totale|des debits|debits|)", "(somma|totale) (generale|portate|complessivo|)", "complessivo",
			"(suma|total) (general|caudales|total|)", "sumatoria", "totales", "totali", "totaux", "sommes",
		}},
		{Gain, []string{
			"gains", "plus minus",
			"(gain|increase|improvement|change|diff|difference|delta|loss|pickup|pick up|rise|growth|variation|advantage) (%|cfm|percent|in flow|over stock|vs stock|over|from stock|in cfm|on stock|pct|)",
			"(up|better|more|worse|down|higher|ahead|lower|plus|improved) (by|than stock|than|over)",
			"(over|vs|versus|against|compared to|from|above|on|relative to|to) (stock|base|baseline|before|std|standard|original|claim|claimed|adv|advertised|published|spec|maker|tested|catalog)",
			"diffs", "differences", "deltas", "net gain", "extra", "extra cfm", "shortfall", "short of claim", "% of claim", "percent of claim", "deficit",
			"error", "err %", "error %", "deviation %",
			"(differenz|zuwachs|gewinn|unterschied|verbesserung|steigerung|mehr|anderung|abweichung|veranderung|plus|minus|delta|mehrmenge|erhohung) (%|prozent|cfm|in %|zu serie|zum katalog|)",
			"zu serie", "gegenuber serie", "mehrdurchfluss", "mehr durchfluss", "besser um",
			"(gain|ecart|difference|amelioration|augmentation|variation|evolution|hausse|delta) (%|en %|d origine|cfm|)", "ecarts", "par rapport",
			"vs origine", "(guadagno|differenza|miglioramento|incremento|aumento|variazione|scostamento|scarto|delta) (%|percentuale|cfm|)",
			"rispetto originale", "(ganancia|diferencia|mejora|aumento|incremento|variacion|mejoria|delta) (%|porcentual|cfm|)", "respecto original",
			"respecto serie", "dif",
		}},
		{Percent, []string{
			"%", "percent", "pct", "prozent", "pourcent", "percento", "porcentaje", "per cent", "por ciento", "per cento", "pour cent",
		}},
		{Ratio, []string{
			"ratio", "verhaltnis", "ratios", "quotient", "rapport", "rapporto", "relacion", "proporcion", "razon",
		}},
		{Velocity, []string{
			"velocity", "vel", "fps", "ft s", "ft sec", "speed", "m s", "geschwindigkeit",
			"(air|gas|port|mean|flow|inlet|throat|pitot) (velocity|velocities|vel|speed)", "mach", "mach (no|number|index)", "stromungsgeschwindigkeit",
			"luftgeschwindigkeit", "vitesse", "vitesse (air|gaz|d air)", "velocita", "velocita aria", "velocidad", "velocidad aire", "ft min", "fpm",
			"feet per second", "metres per second", "meters per second", "v m s", "pitot",
		}},
		{Swirl, []string{
			"swirl", "swirl rpm", "rpm", "tumble", "drall", "swirl (number|no|ratio|coefficient|meter)", "tumble (ratio|number|no)", "u min", "drallzahl",
			"swirlrate", "tr min", "giri", "rev min", "tourbillon", "turbolenza", "torbellino", "vortice", "taux de swirl", "drall zahl", "1 min",
		}},
		{Power, []string{
			"hp", "hp potential", "horsepower", "bhp", "kw", "ps", "power",
			"(est|estimated|potential|theoretical|possible|supported) (hp|bhp|power|horsepower)", "hp (est|supported|possible|estimate|per cyl)", "leistung",
			"pferdestarken", "puissance", "cv", "ch", "potenza", "potencia", "kilowatt", "torque", "drehmoment", "couple", "coppia",
		}},
		{Area, []string{
			"cfm in2", "cfm sq in", "per square inch", "per sq in", "csa", "area", "sq in", "in2", "cfm cc", "cd", "cf", "efficiency", "flow efficiency",
			"(valve|curtain|port|throat|seat|flow|effective|min|minimum|cross section|cross sectional|mean|ref|reference) (area|csa)", "curtain",
			"cross section", "(flow|discharge|valve|port|) (coeff|coefficient|coef|coeficiente|coefficiente)", "c d", "c f", "k factor", "alpha k", "beta",
			"mu sigma", "durchflusszahl", "durchflussbeiwert", "durchfluss beiwert", "beiwert", "kennzahl", "flache", "querschnitt", "querschnittsflache",
			"ventilflache", "coefficient de debit", "section", "surface", "area valvola", "coefficiente di efflusso", "sezione", "seccion",
			"coeficiente de descarga", "coeficiente de flujo", "cfm per (square inch|sq in|in2|in|valve area|cc|area|unit area|sq inch|valve inch)",
			"flow per (area|sq in|unit area|valve area)", "per valve area", "density", "wirkungsgrad", "rendement", "rendimento", "eficiencia", "liefergrad",
			"ratio of area", "spez durchfluss", "spezifisch", "specific flow",
		}},
		{Rank, []string{
			"rank", "place", "score", "platz", "ranking", "order", "pos", "position", "rang", "classement", "classifica", "posicion", "punkte",
			"points score", "note finale", "grade", "rating",
		}},
		{Supposed, []string{
			"sim", "estimate", "calc", "sollwert", "geschatzt", "berechnet", "calcule", "estime", "calcolato", "stimato", "calculado", "estimado",
			"(target|goal|wish|aim|required|needed|desired|wanted|plan|planned|projected|expected|hoped) (flow|cfm|value|values|figure|curve|)",
			"(simulated|simulation|predicted|model|modelled|modeled|calculated|computed|cfd|interpolated|extrapolated|theory|theoretical|ideal|guess|guessed|est|estimated) (flow|cfm|value|values|curve|result|)",
			"should be", "want",
			"(soll|ziel|plan|wunsch|erwartet|simuliert|simulation|gerechnet|interpoliert|theoretisch|theorie|ideal|rechen) (wert|werte|durchfluss|)",
			"sollwerte", "zielwert", "(objectif|cible|simule|simulee|prevu|prevue|theorique|vise|souhaite|interpole|attendu)",
			"(obiettivo|simulato|previsto|teorico|atteso|desiderato|interpolato)", "(objetivo|simulado|previsto|teorico|esperado|deseado|interpolado|meta)",
		}},
		{OtherQuantity, []string{
			"temperatur", "rh", "barometer", "volts", "noise level", "db",
			"(air|room|ambient|test|bench|shop|inlet|oil|water|) (temp|temperature|temps|humidity)", "temper", "(luft|raum|umgebungs) (temperatur|feuchte)",
			"luftdruck", "feuchte", "luftfeuchte", "(baro|barometric|atmospheric|atm|ambient) (pressure|press|)", "temperature (air|ambiante)", "humidite",
			"pression (atmospherique|barometrique|atmo)", "temperatura (aria|ambiente|aire|)", "umidita", "humedad", "pressione (atmosferica|barometrica)",
			"presion (atmosferica|barometrica)", "density altitude", "sound", "noise", "weight", "gewicht", "poids", "peso", "volume cc",
			"runner (cc|volume)", "(chamber|port) (cc|volume)", "motor speed", "motor volts", "voltage", "amps", "fan speed", "time", "zeit", "temps s",
			"seconds", "heure", "ora", "hora", "duration", "crank angle", "cam angle", "degrees", "deg", "grad", "angle",
		}},
	}
}
