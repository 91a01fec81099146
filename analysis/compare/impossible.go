package compare

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// refused is the reading that is refused, and the question what it should be.
func (f *family) refused(b *bundle, c *column, bad impossible) source.Problems {
	r := bad.used.Reading
	at := r.Flow.Trace.At
	if at == (source.Ref{}) {
		at = c.test.At
	}
	lift := inches(r.Lift.Value)
	message := fmt.Sprintf("%s %s reads %.0f cfm; a %s valve can pass at most %.0f there",
		lift, c.test.Port, bad.used.Flow.CFM(), f.valveSize(bad.valve), bad.ceiling.CFM())
	hint := "look at the bench sheet: the reading, the valve size, the lift, the unit or the pressure is wrong"
	q := &source.Question{
		Key:      fmt.Sprintf("impossible-reading|%s|%s|%s|%s", b.listed.Name, c.test.Port, at, reading(r)),
		Text:     fmt.Sprintf("%s, %s at %s: what should %s be?", b.listed.Name, c.test.Port, lift, reading(r)),
		Choices:  []string{leaveOut},
		Evidence: message, Changes: b.listed.Name + " is held until this is answered",
	}
	if guess, expected, ok := likely(c, bad); ok {
		q.Text = fmt.Sprintf("%s, %s at %s reads %s: is it %s?", b.listed.Name, c.test.Port, lift, reading(r), guess)
		q.Choices = []string{guess, leaveOut}
		q.Evidence += fmt.Sprintf("; the curve through its neighbours says about %.0f", expected)
	}
	typedReading(q)
	common := source.Problem{At: at, Head: b.listed.Name, Family: f.Name, Found: reading(r), Message: message, Hint: hint}
	refused, asked := common, common
	refused.Severity, refused.Kind = source.Refused, "impossible-reading"
	asked.Severity, asked.Kind, asked.Question = source.Asked, "impossible-reading-asked", q
	asked.Message, asked.Hint = q.Text, b.listed.Name+" is held until this is answered"
	return source.Problems{refused, asked}
}

func (f *family) valveSize(l quantity.Length) string {
	if mm := l.MM(); math.Abs(mm-math.Round(mm)) < 1e-6 {
		return fmt.Sprintf("%.0f mm", mm)
	}
	return fmt.Sprintf("%.3f in", l.In())
}

// reading is what stands on the sheet.
func reading(r *head.Reading) string {
	if r.Flow.Trace.Text != "" {
		return r.Flow.Trace.Text
	}
	return number(r.Flow.Value.CFM())
}

// slip is how near a slip of one key must come to what the neighbours say.
const slip = 0.05

// likely proposes what an impossible reading may have been: the sheet's own
// figure with one digit changed that comes nearest to the curve through its
// neighbours, or what that curve says. It is only ever a question.
func likely(c *column, bad impossible) (guess string, expected float64, ok bool) {
	q, ok := flowNear(c.points, bad.used.Reading.Lift.Value)
	if !ok || bad.factor <= 0 {
		return "", 0, false
	}
	expected = q.CFM() / bad.factor
	text := strings.TrimSpace(bad.used.Reading.Flow.Trace.Text)
	if math.Abs(bad.used.Reading.Flow.Value.CFM()-parsed(text)) > 1e-6 {
		text = number(bad.used.Reading.Flow.Value.CFM())
	}
	best, off := "", math.Inf(1)
	for i, digit := range text {
		if digit < '0' || digit > '9' {
			continue
		}
		for d := '0'; d <= '9'; d++ {
			tried := text[:i] + string(d) + text[i+1:]
			if v := parsed(tried); math.Abs(v-expected) < off {
				best, off = tried, math.Abs(v-expected)
			}
		}
	}
	if best != "" && off <= slip*expected {
		return best, expected, true
	}
	return fmt.Sprintf("%.0f", expected), expected, true
}

func parsed(text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return math.NaN()
	}
	return v
}
