package enquiry

import (
	"flowshelf/analysis/source"
)

// Unmet says of every enquiry that no head meets where it stands and why.
func Unmet(answers []Answer) source.Problems {
	var out source.Problems
	for _, a := range answers {
		if a.None == "" {
			continue
		}
		hint := "see Enquiries answered for what keeps each head out"
		if a.Enquiry.Family == "" {
			hint = "add a column Family with the family's name as the setup has it"
		}
		out.Add(source.Problem{At: a.Enquiry.At, Severity: source.Noted, Kind: "enquiry-not-met", Family: a.Enquiry.Family, Found: a.Enquiry.Name,
			Message: "no head is offered for this enquiry: " + a.None, Hint: hint})
	}
	return out
}
