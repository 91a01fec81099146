package words

// states names what was done to a head.
func states() []Entry {
	return []Entry{
		{AsDelivered, []string{
			"as del", "del", "as rec", "out of the box", "out of box", "oob", "box stock", "as new", "serie unbearbeitet", "baseline",
			"(as|out of the|) (delivered|received|cast|supplied|shipped|bought|machined|manufactured|it came|purchased|found)", "as (is|it is|came|stock)",
			"(stock|std|standard|oem|factory|production|virgin|unmodified|untouched|unported|base|original|new) (head|port|ports|condition|state|trim|form|)",
			"(bare|raw) casting", "off the shelf", "from box", "in the box", "boxed", "not (ported|modified|touched)", "control",
			"(serie|serien|original|orig|standard|roh|unbearbeitet|lieferzustand|anlieferung|auslieferung|werks) (zustand|stand|kopf|kanal|guss|massig|)",
			"serienzustand", "im lieferzustand", "wie geliefert", "wie angeliefert", "rohguss", "ab werk", "serienmassig", "unbearbeiteter zustand",
			"(d origine|origine|serie|de serie|standard|brut|brute|brut de fonderie|usine|livree|telle que livree|telle quelle|non preparee|non modifiee|etat d origine|stock)",
			"(di serie|originale|standard|grezza|grezzo|di fusione|come fornita|come consegnata|non lavorata|stock)",
			"(original|de serie|estandar|de fabrica|tal cual|como llego|sin trabajar|sin modificar|stock|de origen)",
		}},
		{Before, []string{
			"vorher", "(before|prior|pre) (work|porting|mods|valve job|vj|blend|rework|modification|port|)", "vor (bearbeitung|umbau|arbeit|)",
			"avant (travail|preparation|modif|modification|travaux|)", "prima (lavoro|lavorazione|della lavorazione|)", "antes (trabajo|del trabajo|)",
			"start", "first test",
		}},
		{After, []string{
			"nachher", "reworked", "modified", "modif", "bearbeitet", "(after|post) (work|porting|mods|valve job|vj|blend|rework|modification|)",
			"nach (bearbeitung|umbau|arbeit)", "(uberarbeitet|bearbeiteter|modifiziert|optimiert|getunt)",
			"apres (travail|preparation|modif|modification|travaux|)", "(preparee|modifiee|travaillee|retravaillee|usinee)",
			"dopo (lavoro|lavorazione|la lavorazione|)", "(lavorata|modificata|elaborata|preparata|lavorato)",
			"(despues|tras) (trabajo|trabajar|del trabajo|modificar|)", "(trabajada|modificada|preparada|trabajado)",
		}},
		{Rework, []string{
			"vj", "blend", "blended", "pocket", "ported", "full", "three angle", "five angle", "multi angle", "backcut", "cnc", "full cnc", "stage",
			"unshrouded", "unshroud", "polish", "polished", "milled", "new valve job", "welded", "raised", "epoxy",
			"(port|ports|hand|cnc|fully|semi|race|mild|street|bowl|chamber|full|touch|seat|valve|guide|throat|short turn|short side|pocket|stage|clean up|cleanup|entry|roof|floor|pushrod|gasket|chambers) (port|ported|porting|work|worked|blend|blended|blending|cut|job|grind|ground|polish|polished|match|matched|radius|radiused|opened|clean up|cleanup|cleaned|widened|unshrouded|raised|machined|laid back|filled)",
			"porting", "stage (1|2|3|4|5|i|ii|iii|iv|one|two|three|a|b)", "phase (1|2|3)", "step (1|2|3)", "level (1|2|3)",
			"(new|bigger|larger|oversize|big|undercut|back cut|backcut|swirl polished|tulip|titanium|race|stainless) (valve|valves|seat|seats|guides|vj)",
			"(2|3|4|5|7) (angle|angles)", "(2|3|4|5|7|three|five|multi) (angle|angles) (seat|seats)", "seat (cut|work|grind)", "(short|long) (turn|side) (work|radius|laid|cut|)", "unshrouding", "deshrouded",
			"(ssr|bowl|roof|floor|throat) (work|blend|opened|raised|laid back|)", "clean up", "cleanup", "lightly ported", "back cut (valve|valves|)",
			"backcut (valve|valves)",
			"(ventilsitz|ventilsitze|sitz|sitze|kanal|kanale|brennraum|handarbeit|fein|voll|) (bearbeitung|bearbeitet|poliert|gefrast|geschliffen|geweitet|erweitert|optimiert|stromungsoptimiert)",
			"stufe (1|2|3|4|i|ii|iii)", "(3|5|drei|funf|mehr) winkel (sitz|schliff|)", "(grossere|neue) ventile", "(etape|niveau) (1|2|3)",
			"(conduits|sieges|chambre|conduit) (polis|polies|retouches|travailles|reprises|repris|agrandis|rectifies|refaits|refaites|neufs)",
			"(rectif|rectification|reprise) (sieges|siege|conduits|)", "(sieges|) (3|5|trois|cinq) angles", "polissage",
			"(condotti|sedi|camera) (lucidati|lavorati|rifatte|lavorate|allargati|rifatti|nuove)", "lucidatura", "stadio (1|2|3)", "(3|5) angoli",
			"(conductos|asientos|camara) (pulidos|trabajados|rectificados|ampliados|rehechos|nuevos)", "pulido", "etapa (1|2|3)", "(3|5) angulos", "rectificado",
		}},
		{Filler, []string{
			"and", "the", "of", "at", "on", "with", "all", "each", "both", "only", "is", "in.", "to", "for", "a", "an", "sheet", "data", "results", "result",
			"same", "pulled", "readings", "figures", "chart", "were", "was", "are", "done", "und", "mit", "auf", "bei", "su", "sul", "sur", "sobre", "alle", "et", "de", "la", "le",
			"flow bench (report|sheet|data|results|test|chart)", "file", "page", "unit", "size", "di", "da", "il", "lo", "les", "des", "du", "der", "die", "das", "von", "del", "en", "el", "los", "las", "y",
			"(value|values|wert|werte|valeur|valeurs|valore|valori|valor|valores)", "(point|points|punkt|punkte|punto|punti|puntos)",
			"(figure|number|numbers|amount|used|type|name|kind|details)",
			"(test|tests|testing|flow test|flow testing|flow sheet|flowsheet|flow data|flow chart|flow report|bench sheet|bench data|bench report|bench results|flow results|test sheet|test report|test data|report|log|worksheet|record|form|logbook|table|summary of|list)",
			"(messblatt|messprotokoll|prufblatt|prufprotokoll|protokoll|bericht|durchflussmessung|stromungsmessung|durchflussprotokoll|prufbericht|messbericht|tabelle|blatt)",
			"(feuille|fiche|rapport d essai|releve de|proces verbal|tableau|compte rendu)", "(scheda|foglio|rapporto|relazione|tabella|verbale)",
			"(hoja|informe|ficha|registro|tabla|planilla|reporte)", "us", "here",
		}},
	}
}
