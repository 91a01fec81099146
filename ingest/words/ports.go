package words

// ports names what a flow is of: the lift and the port.
func ports() []Entry {
	return []Entry{
		{Lift, []string{
			"(valve|valves|vlv|val|poppet|net|) (lift|lifts|lft) (height|heights|point|points|value|values|amount|figure|reading|position|setting|step|steps|)",
			"(lift|height) (at|of|off) (valve|seat)", "valve (height|opened|open|off seat|travel|opening|rise|displacement)", "(off|from) seat", "vl", "v l",
			"vlv (opening|travel)", "val (opening|travel)", "opening valve", "(nockenhub|stosselhub|nockenwellenhub)", "l in", "distance off seat", "amount valve open", "hub", "ventilhub",
			"ventil (hub|offnung|weg|erhebung|hohe|stellung|offnungsweite|offnungsweg)", "hub (hohe|weg|wert|stellung|punkt|ventil)", "offnungshub",
			"offnungshohe", "ventiloffnung", "ventilerhebung", "vh", "h v", "hv", "erhebung", "(hauteur|) levee (soupape|soupapes|valve|)", "levee s",
			"hauteur levee (soupape|)", "(ouverture|course|hauteur|deplacement) soupape", "ouverture soupapes", "lev soup", "hauteur ouverture",
			"alzata (valvola|valvole|)", "alz", "(apertura|corsa|sollevamento|altezza|innalzamento|spostamento) (valvola|valvole)", "sollevamento",
			"altezza alzata", "innalzamento", "(alzada|levantamiento|levante|alzado|alce|elevacion) (valvula|valvulas|)",
			"(apertura|carrera|recorrido|altura|desplazamiento) (valvula|valvulas)", "altura alzada", "altura levantamiento", "altura levante",
			"carrera levantamiento", "lichthoogte", "elevacao",
		}},
		{LiftOverDiameter, []string{
			"l d", "ld", "lift dia", "lift over diameter", "lift diameter", "lift l d", "lift ld", "l dv", "h d",
			"lift over (dia|diam|valve|valve dia|valve diameter)", "lift diameter ratio", "l over d", "hub durchmesser", "lift valve dia", "lift d",
			"lift to diameter", "lift valve ratio", "levee diametre", "alzata diametro", "alzada diametro",
		}},
		{Intake, []string{
			"int", "intake", "intakes", "inlet", "inlets", "inl", "in port", "iv", "einl", "einlassventil", "einlassseite", "einlasskanal", "asp",
			"aspirazione", "aspirado", "inlaat", "admissao",
			"(int|intake|inlet|in|induction|suction) (valve|valves|vlv|tract|runner|duct|passage|channel|leg)", "intakes valve", "induction", "ind",
			"suction", "inlet air", "inductive side", "(einlass|ansaug|saug) (kanal|ventil|ventile|seite|weg|stutzen|trakt|)", "ansaugung", "einstromung",
			"einlasse", "ventil (ø|durchmesser) einlass", "einl kanal", "einl ventil", "einl seite", "ek seite", "ansaugtrakt", "eintritt",
			"(conduit|conduits|cote|soupape|canal|tubulure|pipe|) (admission|aspiration|adm)", "conduit d (admission|aspiration)", "soupape d admission", "(admission|adm) soupape",
			"canal d admission", "cote entree", "orifice admission", "s adm", "c adm",
			"(condotto|condotti|lato|valvola|canale|luce) (aspirazione|ammissione|asp|immissione)", "condotto d aspirazione", "(aspirazione|ammissione|asp) valvola", "ammissione", "aspiraz",
			"immissione", "ingresso", "entrata", "asp ne", "v asp", "c asp",
			"(conducto|conductos|lado|valvula|canal|lumbrera|puerto|) (admision|aspiracion|adm)", "(conducto|lado|valvula|canal|puerto) (entrada|toma)", "(admision|aspiracion|adm|entrada) valvula",
			"entrada", "ingreso", "toma", "v adm",
		}},
		{Exhaust, []string{
			"ex", "exh", "exhaust", "exhausts", "outlet", "ausl", "auslassventil", "auslassseite", "auslasskanal", "scar", "sca", "uitlaat",
			"(ex|exh|exhaust|outlet) (valve|valves|vlv|tract|runner|duct|passage|channel|leg)", "outlets", "exit", "discharge", "exhst", "xh", "exhaust out",
			"(auslass|abgas|auspuff) (kanal|ventil|ventile|seite|weg|stutzen|trakt|)", "ausstromung", "auslasse", "ventil (ø|durchmesser) auslass", "ausl kanal", "ausl ventil", "ausl seite",
			"austritt", "(conduit|conduits|cote|soupape|canal|) (echappement|ech)", "conduit d echappement", "soupape d echappement", "(echappement|ech) soupape", "canal d echappement",
			"sortie", "cote sortie", "refoulement", "s ech", "c ech", "orifice echappement", "(condotto|condotti|lato|valvola|canale|luce|) (scarico|sc)",
			"condotto di scarico", "(scarico|sc) valvola", "uscita", "espulsione", "v sc", "c sc", "(conducto|conductos|lado|valvula|canal|lumbrera|puerto|) (escape|esc)",
			"(conducto|lado|valvula|canal|puerto) salida", "(escape|esc|salida) valvula", "salida", "expulsion", "v esc",
		}},
		{AmbiguousPort, []string{
			"ev", "av", "eo", "e", "i", "in", "out", "a", "ek", "ak", "entree",
		}},
		{BothPorts, []string{
			"e i", "ex int", "exh int", "ex in", "i e", "exhaust intake", "e i ratio",
			"(exh|exhaust|ex|e) (to|over|vs|versus) (int|intake|inlet|in|i) (ratio|)", "(int|intake|inlet) (to|over|vs) (exh|exhaust|ex)",
			"exhaust percent of intake", "exh intake", "% exh int", "% e i", "auslass einlass", "ech adm", "scarico aspirazione", "escape admision", "av ev",
			"auslass zu einlass",
		}},
		{Opening, []string{
			"opening", "open", "travel", "rise", "apertura", "ouverture", "offnung", "offnungsweite", "offnungsweg", "course", "corsa", "carrera",
			"recorrido", "hoehe", "height", "hauteur", "altezza", "altura", "displacement", "depl", "step", "stroke", "opening (height|amount|distance)",
			"amount open",
		}},
	}
}
