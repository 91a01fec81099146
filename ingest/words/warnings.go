package words

import (
	"slices"
	"sync"
)

// What a note says against the readings that it stands beside.
const (
	Warning    Role = iota + 200 // not to be used, wrong, to be done again
	Swapped                      // the columns are each other's
	Leaking                      // the set-up leaked; with a figure behind it, how much
	Computed                     // worked out and not read
	Claimed                      // taken from a catalogue
	Afterwards                   // what follows was done to the head before
	WithLash                     // the lash of the valve, in a note about lifts
	AtCam                        // a lift of the cam and not of the valve
	Negation                     // makes the opposite of the word behind it
)

// Warnings is the lexicon of notes that speak against readings. It stands apart from
// that of headers: a note uses common words, which say nothing over a column (common
// practice, no source).
func Warnings() *Lexicon { return warnings() }

var warnings = sync.OnceValue(func() *Lexicon { //nolint:gochecknoglobals // built once from constants and never written
	return NewLexicon(slices.Concat(warningsEnglish(), warningsGerman(), warningsLatin()))
})

func warningsEnglish() []Entry {
	return []Entry{
		{Warning, []string{
			"(do not|don t|dont|never|not to be|must not be|cannot be|can not be|should not be) (use|used|trust|trusted|quote|quoted|publish|published)", "not (usable|valid|reliable|trustworthy|good|right|correct|ok|comparable)",
			"(unusable|invalid|unreliable|wrong|wrongly|void|voided|incorrect|bogus|false|superseded|outdated|obsolete|withdrawn|rejected|cancelled|canceled|discarded)",
			"(ignore|discard|disregard|scrap|scrapped) (this|these|those|them|it|all|column|row|readings|figures|numbers|test|run|)", "replaced by",
			"(misread|mistake|mistakes|mistaken|typo|typos|faulty|broken|cracked|damaged|defective|suspect|doubtful|questionable|dubious)", "not sure", "(in|input|reading|typing) error",
			"(re test|retest|redo|re do|re run|rerun|redone|re flow|reflow)", "to be (redone|repeated|retested|reflowed|done again|flowed again)", "(repeat|do) (test|this test) again",
			"clay (fell|came|slipped|moved)", "(fell|came|slipped) (off|loose)", "bad (test|reading|readings|data|seal|plate|run|numbers)", "(old|other|another|different) casting", "(uncalibrated|out of calibration)",
			"(numbers|figures|readings|values|flows) (are|were) those", "(subtract|deduct)", "bench reads", "(reads|read|reading) (high|low)", "(guess|guessed|guesses|guesstimate|made up)",
		}},
		{Swapped, []string{"(columns|ports|intake exhaust|int exh|headings|headers) (swapped|reversed|transposed|interchanged|mixed up|crossed|the wrong way round)", "(swapped|transposed|interchanged|mixed up|crossed over)"}},
		{Leaking, []string{"(leak|leaks|leaking|leaked|leaky)"}},
		{Computed, []string{"(estimated|estimate|estimates|calculated|extrapolated|interpolated|simulated|computed)", "not (flowed|tested|measured|run) (yet|)", "not yet (flowed|tested|measured|run)"}},
		{Claimed, []string{"copied", "(copied|taken|numbers|figures|values|data|) (from|out of) (catalog|catalogue|brochure|website|advert)", "(catalog|catalogue|brochure|advertised|published) (values|numbers|figures|data|flows)"}},
		{Afterwards, []string{"after"}},
		{AtCam, []string{"(cam|camshaft|lobe|tappet|follower|bucket) lift", "lift (at|on|of) (cam|camshaft|lobe|tappet|follower)", "lifts (are|) (at|on) (cam|lobe|tappet|follower)"}},
		{WithLash, []string{"(lash|valve lash|clearance)"}},
		{Negation, []string{"(no|not|without|zero|nil|never|isn t|wasn t|nothing)"}},
	}
}

func warningsGerman() []Entry {
	return []Entry{
		{Warning, []string{
			"nicht (verwenden|benutzen|verwendet|verwendbar|brauchbar|gultig|zuverlassig|nehmen|werten|auswerten|vergleichbar|in ordnung)", "(ungultig|falsch|falsche|falscher|falsches|falschem|fehlerhaft|fehlerhafte|fehlmessung|messfehler|unbrauchbar)",
			"(uberholt|veraltet|verworfen|verwerfen|zweifelhaft|fraglich|fragwurdig|defekt|gerissen|gestrichen|abgebrochen)", "ersetzt durch", "(messung|test|versuch|) wiederholen", "(neu|noch mal|nochmal|nochmals) messen", "nachmessen",
			"(alter|anderer|alte|andere) (guss|kopf)", "abgeschrieben",
		}},
		{Swapped, []string{"(spalten|) (vertauscht|verwechselt)"}},
		{Leaking, []string{"(leck|leckt|undicht|undichtigkeit|undichte)"}},
		{Computed, []string{"(geschatzt|geschatzte|berechnet|berechnete|errechnet|gerechnet|hochgerechnet|extrapoliert|interpoliert|simuliert)", "(noch|) nicht gemessen"}},
		{Claimed, []string{"(werte|daten|angaben|) (aus|laut) (dem|) (katalog|prospekt)", "katalog (werte|daten|angaben)"}},
		{Afterwards, []string{"nach"}},
		{AtCam, []string{"(nockenhub|stosselhub|nockenwellenhub)", "(nocken|stossel) hub", "hub (am|an|vom) (nocken|stossel)"}},
		{WithLash, []string{"(ventilspiel|spiel)"}},
		{Negation, []string{"(kein|keine|keinen|ohne|nicht|null)"}},
	}
}

func warningsLatin() []Entry {
	return []Entry{
		{Warning, []string{
			"ne (pas|plus) (utiliser|employer|prendre|tenir compte|retenir)", "a (refaire|reprendre|verifier|remesurer|repeter)", "(faux|fausse|fausses|errone|erronee|errones|erronees|douteux|douteuse|douteuses|annule|annulee|annules|perime|perimee|perimes|nul|fissuree|casse|cassee)",
			"(remplace|remplacee|remplaces|remplacees) par", "non (valable|valables|valide|utilisable)", "ancienne fonderie",
			"non (usare|utilizzare|valido|valida|validi|valide|attendibile|attendibili|buono|buoni)", "da (rifare|ripetere|verificare|scartare)", "(errato|errata|errati|errate|sbagliato|sbagliata|sbagliati|sbagliate|dubbio|dubbi|sospetto|sospetti|annullato|annullata|annullati|superato|superata|superati|crepata)",
			"(sostituito|sostituita|sostituiti) da",
			"no (usar|utilizar|valido|valida|validos|validas|vale|valen|sirve|sirven|fiable|fiables|tomar)", "(rehacer|repetir)", "(erroneo|erronea|erroneos|erroneas|equivocado|equivocada|equivocados|incorrecto|incorrecta|incorrectos|dudoso|dudosa|dudosos|anulado|anulada|anulados|agrietada|obsoleto|obsoletos)",
			"(reemplazado|reemplazada|sustituido|sustituida|sustituidos) por", "mal (medido|medida|medidos)",
		}},
		{Swapped, []string{"(colonnes|) (inversees|interverties|permutees)", "(colonne|) (scambiate|invertite)", "(columnas|) (invertidas|intercambiadas)", "columnas cambiadas"}},
		{Leaking, []string{"(fuite|fuites|fuit)", "(perdita|perdite|perde)", "(fuga|fugas)"}},
		{Computed, []string{
			"(estime|estimee|estimes|estimees|calcule|calculee|calcules|calculees|extrapole|extrapolee|extrapoles)", "(non|pas|pas encore) (mesure|mesuree|mesures|mesurees|teste|essaye)",
			"(stimato|stimata|stimati|stimate|calcolato|calcolata|calcolati|calcolate|estrapolato|estrapolati)", "non (ancora|) (misurato|misurata|misurati|misurate|provato|provata)",
			"(estimado|estimada|estimados|estimadas|calculado|calculada|calculados|calculadas|extrapolado|extrapolados)", "no (medido|medida|medidos|medidas|probado|ensayado)",
		}},
		{Claimed, []string{"(valeurs|donnees|chiffres|) (du|tirees du|copiees du|repris du) catalogue", "(valori|dati|) (dal|del|da) catalogo", "(valores|datos|) (del|sacados del|copiados del) catalogo", "valeurs catalogue"}},
		{Afterwards, []string{"apres", "dopo", "despues", "tras"}},
		{AtCam, []string{"levee (came|de came|a la came|poussoir|au poussoir)", "alzata (camma|della camma|alla camma)", "(alzada|levantamiento) (leva|de leva|en la leva)"}},
		{WithLash, []string{"(jeu|gioco|juego)"}},
		{Negation, []string{"(sans|pas|aucun|aucune|senza|nessuna|nessun|sin|ninguna|ningun|zero|cero)"}},
	}
}
