package review

// Suggest lets a test ask for an order.
func Suggest(wanted float64, there, perSet int) Suggestion { return suggest(wanted, there, perSet) }

// Touches lets a test look at what a setting bears on.
func Touches(scope, title string) int { return len(touches(scope, title)) }
