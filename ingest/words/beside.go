package words

import "sync"

// What stands beside a head on its sheet and is called by names and numbers of its own:
// the parts of the engine, people, papers. And the places in a head that have a bore of
// their own, which is no fixture's (common practice, no source).
const (
	// Thing is a part that is no head.
	Thing Role = 200 + iota
	// Whose is a person or a paper.
	Whose
	// Label is a part whose word stands before the name of a head as well; in a cell of
	// its own it is the label of what follows.
	Label
	// For leads to whom a sheet is for, or to what it is of.
	For
	// By leads to who did something.
	By
	// Place is a place in a head, or an instrument, that has a bore of its own.
	Place
)

// Besides is the lexicon of what is no head. Its words say nothing of a column, so they
// are looked for only where a name or a bore stands behind them.
func Besides() *Lexicon { return besides() }

var besides = sync.OnceValue(func() *Lexicon { //nolint:gochecknoglobals // built once from constants and never written
	return NewLexicon([]Entry{
		{Thing, []string{
			"(cam|cams|camshaft|bumpstick|crank|crankshaft|piston|pistons|rod|rods|conrod|rocker|rockers|lifter|lifters|tappet|tappets|pushrod|pushrods|spring|springs|retainer|gasket|manifold|plenum|carb|carbs|carburetor|carburettor|throttle|throttle body|injector|turbo|turbocharger|blower|supercharger|ignition|distributor|gearbox|engine|motor|car|vehicle|truck|boat|bike|chassis|adapter|radius plate|dummy) (no|nr|number|type|model|part|code|kit|set|#|)",
			"(intake|inlet|exhaust|head) (manifold|gasket|cam)",
			"(nockenwelle|kurbelwelle|kolben|pleuel|kipphebel|stossel|stosselstange|ventilfeder|feder|federteller|dichtung|kopfdichtung|zylinderkopfdichtung|krummer|auslasskrummer|ansaugkrummer|saugrohr|ansaugbrucke|vergaser|drosselklappe|einspritzduse|turbolader|lader|kompressor|zundung|verteiler|getriebe|motorblock|fahrzeug|auto|wagen|motorrad|boot|adapter) (nr|nummer|typ|art|)",
			"(arbre a cames|cames|vilebrequin|piston|pistons|bielle|bielles|culbuteur|culbuteurs|poussoir|poussoirs|ressort|ressorts|joint|joint de culasse|collecteur|pipe d admission|tubulure|carburateur|papillon|injecteur|turbo|compresseur|allumage|allumeur|boite|moteur|voiture|vehicule|moto|bateau|adaptateur) (no|n|num|type|ref|)",
			"(albero a camme|albero|camma|camme|albero motore|pistone|pistoni|biella|bielle|bilanciere|bilancieri|punteria|punterie|molla|molle|guarnizione|guarnizione testa|collettore|carburatore|farfalla|corpo farfallato|iniettore|turbina|turbo|compressore|accensione|spinterogeno|cambio|motore|vettura|macchina|veicolo|barca|adattatore) (n|no|nr|tipo|)",
			"(arbol de levas|arbol|leva|levas|ciguenal|piston|pistones|biela|bielas|balancin|balancines|taque|taques|resorte|resortes|muelle|muelles|junta|junta de culata|colector|multiple|carburador|mariposa|inyector|turbo|compresor|encendido|distribuidor|coche|carro|vehiculo|barco|adaptador) (n|no|num|tipo|)",
		}},
		{Whose, []string{
			"(customer|client|owner|driver|team|account|dealer|contact|sold to|ship to|bill to|attn|mr|mrs|ms|dr) (no|name|ref|#|)",
			"(order|job|ticket|invoice|quote|quotation|po|drawing|project|work order|purchase order) (no|nr|number|ref|#|)",
			"(kunde|kundin|kunden|fahrer|besitzer|eigentumer|auftraggeber|herr|frau) (nr|nummer|)",
			"(auftrag|auftrags|bestellung|angebot|rechnung|zeichnung|projekt) (nr|nummer|)",
			"(client|cliente|pilote|proprietaire|monsieur|mme) (no|n|)", "(commande|devis|facture|plan|dossier) (no|n|)",
			"(cliente|pilota|proprietario|signor|sig) (n|no|)", "(ordine|commessa|preventivo|offerta|fattura|disegno|pratica) (n|no|nr|)",
			"(cliente|piloto|dueno|propietario|senor|sr) (n|no|)", "(pedido|orden|presupuesto|oferta|factura|plano) (n|no|num|)",
		}},
		{Label, []string{
			"(block|valve|valves|guide|guides|seat|seats|header|headers|plate|fixture|rig|software|program|sensor|gauge|probe|tool|cutter|stone) (no|nr|number|type|model|#|)",
			"(ventil|ventile|fuhrung|fuhrungen|sitz|sitze|vorrichtung|software|programm|werkzeug|fraser) (nr|nummer|typ|)",
			"(soupape|soupapes|guide|guides|siege|sieges|bloc|logiciel|montage|outil) (no|n|type|)",
			"(valvola|valvole|guida|guide|sede|sedi|blocco|basamento|programma|attrezzo) (n|no|tipo|)",
			"(valvula|valvulas|guia|guias|asiento|asientos|bloque|programa|utillaje) (n|no|tipo|)",
		}},
		{For, []string{"for", "fur", "pour", "per", "para"}},
		{By, []string{"by", "durch", "par", "da", "por"}},
	})
})

// Places is the lexicon of the places in a head that have a bore of their own.
func Places() *Lexicon { return places() }

var places = sync.OnceValue(func() *Lexicon { //nolint:gochecknoglobals // built once from constants and never written
	return NewLexicon([]Entry{
		{Place, []string{
			"(throat|bowl|seat|seat insert|valve seat|guide|valve guide|stem|runner|venturi|carb|spigot|lifter|tappet|pushrod|plug|stud|bolt|dowel|pin|pinch|choke)",
			"(kehle|kehl|sitz|ventilsitz|fuhrung|ventilfuhrung|schaft|taschen|tasche|kerzen|bolzen)",
			"(col|gorge|siege|guide|bougie|queue)", "(gola|sede|guida|candela|stelo)", "(garganta|asiento|guia|bujia|vastago)",
			"(gauge|gage|scope|lehre|messuhr|jauge|comparatore|comparateur|galga|reloj)",
		}},
	})
})
