package words

// conditions names how a port was flowed.
func conditions() []Entry { //nolint:funlen // a list of words
	return []Entry{
		{Bore, []string{
			"fixture", "bohrungsdurchmesser", "zylinderbohrung", "diametro de cilindro", "diametro del cilindro", "calibro",
			"(test|cyl|cylinder|engine|fixture|bench|flow|adapter|simulated|dummy|barrel|) (bore|bores|sleeve|liner|barrel|tube bore) (size|dia|diam|diameter|adapter|fixture|used|plate|ring|sleeve|tube|dimension|no|spigot|simulator|in|)",
			"(cyl|cylinder|barrel|liner|sleeve|adapter|fixture|spigot) (dia|diam|diameter|size|id)", "fixture (size|dia|diameter|used|bore|tube)",
			"bore (adaptor|adaptor plate)", "(adaptor|adapter) (bore|plate)", "cylinder (tube|adaptor|adapter|fixture|sleeve)", "on (bore|sleeve|fixture)",
			"bore dia meter", "test cylinder", "dummy (cylinder|bore)", "torque plate", "simulated (bore|cylinder)", "o bore",
			"(zylinder|pruf|test|adapter|mess|) bohrung (durchmesser|adapter|hulse|grosse|mass|)", "zylinder (durchmesser|hulse|buchse|rohr|adapter)",
			"motorbohrung", "(lauf|) buchse", "laufbuchse", "hulse", "bohrungs o", "(zylinder|bohrungs|pruf zylinder|bohrung) ø", "ø (zylinder|bohrung|cilindro|cylindre|bore|liner)", "bohrungsadapter", "adapterbohrung", "prufhulse", "zylinder o", "bohrungen", "bohr",
			"adapterring", "adapterplatte", "messbohrung", "(alesage|chemise|cylindre|fut) (cylindre|diametre|de test|essai|d essai|utilise|test|)",
			"diametre (alesage|cylindre|d alesage|du cylindre|de cylindre|chemise|)", "diam alesage", "alesage banc", "ales",
			"(alesaggio|canna) (cilindro|prova|test|di prova|usata|usato|)", "diametro (alesaggio|canna|cilindro|foro|)", "diam alesaggio",
			"(diametro|calibre|camisa|cilindro) (interior|cilindro|camisa|prueba|de prueba|usado|)", "diam cilindro", "diam interior", "mandrinado",
		}},
		{Valve, []string{
			"ventildurchmesser", "soupape", "soupapes",
			"(valve|valves|vlv|val) (size|sizes|dia|diam|diameter|diameters|head dia|head diameter|head|heads|dimension|fitted|used|seat|in|)",
			"(ventil|ventile|ventilteller) (durchmesser|grosse|grossen|teller|tellerdurchmesser|o|)", "teller durchmesser", "diametre soupape",
			"diametre soupapes", "taille soupapes", "diametro (valvola|valvole|valvula|valvulas)",
			"(valvola|valvole|valvula|valvulas) (diametro|misura|medida|)", "v dia", "valv",
		}},
		{Pipe, []string{
			"pipe stub", "piped",
			"(with|w|using|incl|including|plus|on) (exhaust|exh|flow|stub|short|curved|straight|test|header|dummy|extension|tail|) (pipe|tube|stub|stack|primary|tailpipe|header tube)",
			"(flow|stub|short|curved|straight|test|header|dummy|extension|tail|) (pipe|tube|stub|stack|primary|tailpipe|header tube)",
			"(pipe|tube|stub|stack) (on|fitted|used|attached|added|installed|in place|connected|bolted on|present|fit|length|dia|size|diameter)",
			"with header", "with pipes", "pipes", "collector",
			"(mit|inkl|mit einem|) (rohr|auspuffrohr|abgasrohr|messrohr|auslassrohr|rohrstutzen|stutzen|krummer|rohrbogen|prufrohr|auslassstutzen)",
			"rohr (montiert|angebaut|drauf|dran)", "mit auspuff", "rohransatz", "auspuffstutzen",
			"(avec|) (tube|tuyau|tubulure|pipe|embout) (echappement|d echappement|sortie|)", "tube monte",
			"(con|) (tubo|tronchetto|tubazione|tubicino) (scarico|di scarico|montato|)", "(con|) (tubo|tubito|codo|tramo) (escape|de escape|montado|puesto|)",
		}},
		{NoPipe, []string{
			"(no|without|w o|wo|less|minus|not|sans|excl|excluding|non) (exhaust|exh|flow|stub|short|test|header|tail|a|) (pipe|tube|stub|stack|pipes|tailpipe|header)",
			"(pipe|tube|stub|stack|pipes) (off|removed|not used|not fitted|out|deleted|none|less|absent|not on)",
			"open (port|exhaust|exhaust port|outlet|flange)", "pipeless", "unpiped", "to atmosphere", "open to air",
			"(ohne|kein) (rohr|auspuffrohr|abgasrohr|messrohr|auslassrohr|rohrstutzen|stutzen|krummer|rohrbogen|prufrohr|auspuff)", "rohr (ab|weg|entfernt)",
			"offener (auslass|kanal)", "auslass offen", "sans (tube|tuyau|tubulure|pipe|embout) (echappement|d echappement|)", "tube (depose|retire)",
			"echappement libre", "senza (tubo|tronchetto|tubazione) (scarico|di scarico|)", "tubo smontato", "scarico libero",
			"sin (tubo|codo|tramo) (escape|de escape|)", "tubo quitado", "escape libre",
		}},
		{NoEntry, []string{
			"no radius", "without radius", "no entry radius", "w o radius", "no clay", "without clay", "ohne trichter", "ohne einlauftrichter",
			"(no|without|w o|less) (bellmouth|bell mouth|entry|inlet guide|trumpet|radius plate|entry guide|guide|plate)",
			"(sharp|square|raw|bare|plain) (edge|edged|entry|edged entry|inlet)", "sharp", "scharf", "(bord|bords) (vif|vifs)", "canto vivo", "arista viva", "(ohne) (radius|einlaufradius|knete|einlauf)", "scharfkantig",
			"(sans) (cornet|rayon|guide|pate|venturi)", "(senza) (cornetto|raggio|trombetta|plastilina|guida)",
			"(sin) (trompeta|radio|plastilina|corneta|guia)", "arete vive", "spigolo vivo",
		}},
		{Radius, []string{
			"own plate",
			"(with|w|using|on|) (radius|radiused|rad|radius d|rounded) (plate|entry|inlet|guide|inlet plate|entry plate|ring|adapter|block|flange|edge|)",
			"(entry|inlet|intake) (plate|guide|radius|trumpet|bell|ring|block)",
			"(with|w|) (bellmouth|bell mouth|trumpet|velocity stack|stack plate|intake trumpet|entry guide)",
			"(mit|) (einlauftrichter|trichter|radiusplatte|einlaufradius|ansaugtrichter|einlaufring|radius|einlauflippe|trompete|radiusring)",
			"(avec|) (cornet|rayon|trompette|venturi|guide d entree|rayon d entree|plaque rayonnee|pavillon)",
			"(con|) (cornetto|raggio|trombetta|imbocco raggiato|piastra raggiata|boccaglio)",
			"(con|) (trompeta|corneta|radio|placa con radio|boca con radio|boquilla)",
		}},
		{Clay, []string{
			"clayed",
			"(with|w|using|modelling|modeling|) (clay|plasticine|putty|modelling clay|modeling clay) (radius|entry|ring|inlet|edge|on inlet|at entry|)",
			"clay d", "clayed (entry|inlet|port)", "(mit|) (knete|plastilin|knetmasse|knetradius|ton)", "(avec|) (pate a modeler|plastiline|pate)",
			"(con|) (plastilina|pongo|arcilla|argilla)",
		}},
		{Manifold, []string{
			"adapter", "collecteur d admission", "avec collecteur d admission", "collettore di aspirazione", "con collettore di aspirazione",
			"colector de admision", "con colector de admision",
			"(with|w|using|incl|plus|c w|on) (intake|inlet|ind|induction|int|race|dual plane|single plane|) (manifold|mani|mani fold|manifolds|plenum) (on|fitted|bolted on|attached|installed|in place|used|added|)",
			"(race|dual plane|single plane|) (manifold|mani|mani fold|manifolds|plenum) (on|fitted|bolted on|attached|installed|in place|used|added|)",
			"(with|w|) (throttle body|carb|carburettor|carburetor|itb|throttle bodies|carby|injection manifold)", "manifolded",
			"(mit|inkl|) (saugrohr|ansaugrohr|ansaugbrucke|ansaugkrummer|einlasskrummer|sammler|saugmodul|vergaser|drosselklappe|ansaugstutzen|ansaugspinne|saugspinne|ansaugsammler)",
			"(avec|) (collecteur|pipe d admission|tubulure d admission|carburateur|boitier papillon|corps papillon|repartiteur)",
			"avec (pipe|tubulure) admission", "(con|) (collettore|carburatore|corpo farfallato|farfalla|condotto collettore)",
			"(con|) (colector|multiple|carburador|cuerpo mariposa|mariposa)", "(con|) colector admision", "(con|) multiple de admision",
		}},
		{NoManifold, []string{
			"ohne saugrohr", "ohne ansaugrohr", "(no|without|w o|less|minus|wo) (intake|inlet|) (manifold|mani|plenum|carb)",
			"manifold (off|removed|not fitted)", "ohne (ansaugbrucke|ansaugkrummer|saugmodul|sammler|vergaser)",
			"sans (pipe|tubulure|collecteur) (d admission|admission|)", "senza (collettore|carburatore)", "sin (colector|multiple|carburador)",
		}},
		{BarePort, []string{
			"bare", "solo testa", "(bare|naked|plain|open) (head|port|inlet|intake|flange|casting)", "(head|port) (only|alone|bare)",
			"(nur|nackter|blosser) (kopf|kanal|flansch)", "kopf allein", "nackt", "nackte", "nackter", "nacktes", "seule", "nue", "nu", "nuda", "nudo", "desnuda", "desnudo", "(culasse|conduit) (seule|seul|nue|nu)",
			"(testa|testata|condotto|solo) (nuda|sola|nudo|solo|testata)", "(culata|conducto|solo) (sola|desnuda|solo|culata)", "just head",
		}},
		{Leak, []string{
			"leckage", "fuite", "zero leak", "(leak|leaks|leakage|blow by|zero) (rate|test|flow|check|down|figure|reading|cfm|)",
			"(fixture|bench|system|test) (leak|leakage)", "leck (rate|wert|strom|menge|luft|)", "leckage rate", "undichtigkeit", "undichtheit", "fuites",
			"fuite banc", "(perdita|perdite|trafilamento|trafilamenti) (banco|)", "(fuga|fugas|perdidas) (banco|)",
		}},
		{EntryCaption, []string{
			"entree", "(entry|inlet entry|intake entry) (type|condition|guide|)", "inlet (condition|type|adaptor|adapter)", "einlauf (art|)", "einlaufart",
			"imbocco", "boca", "type d entree",
		}},
		{Valves, []string{
			"both valves", "valves open", "one valve", "per valve",
		}},
	}
}
