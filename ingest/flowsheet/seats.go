package flowsheet

import "regexp"

// The angles of the valve seats are a measure of the head that was flowed, as the
// size of its valves is: "Valve job | 3-angle", "Seats: 45 deg 5-angle". Without
// their key such words are work that was done, which makes another product.
var (
	seatsKey   = regexp.MustCompile(`(?i)^\s*(?:(?:valve\s+)?seats?(?:\s+(?:angles?|cut))?|valve\s+job|vj|(?:ventil)?sitz(?:e|winkel)?|(?:angles?\s+(?:de\s+|des\s+)?)?si[eè]ges?|(?:angol[oi]\s+)?sed[ie]|(?:[aá]ngulos?\s+(?:de\s+)?)?asientos?)\s*[:=]?\s*$`)
	seatAngles = regexp.MustCompile(`(?i)^(?:[\s,/+&°-]|\d{1,2}(?:[.,]\d)?|(?:deg(?:ree)?s?|grad[io]?|grados|degr[ée]s?|angles?|winkel|angoli|[aá]ngulos|three|four|five|multi|drei|f[uü]nf|mehr|trois|cinq|tre|cinque|tres|cinco)\b\.?)+$`)
)

// statesSeats reports whether a key and its value tell the angles of the seats.
func statesSeats(key, value string) bool {
	return seatsKey.MatchString(key) && seatAngles.MatchString(value)
}

// seatsOf reports whether a text is the key of the seats with their angles.
func seatsOf(text string) bool {
	at := keyEnd.FindStringIndex(text)
	return at != nil && statesSeats(text[:at[0]], unboxed(text[at[1]:]))
}
