package shop

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// field ties a column to its place in a record, both ways.
type field[T any] struct {
	Column
	read  func(*T, Cell) error // gets cells with a value only; the error says what to type
	write func(*T) Cell
}

func text[T any](c Column, at func(*T) *string) field[T] {
	return field[T]{c,
		func(t *T, cell Cell) error { *at(t) = strings.TrimSpace(cell.Text); return nil },
		func(t *T) Cell { return say(*at(t)) }}
}

func statedText[T any](c Column, at func(*T) *source.Stated[string]) field[T] {
	return field[T]{c,
		func(t *T, cell Cell) error { return stated(at(t), strings.TrimSpace(cell.Text), "", cell, nil) },
		func(t *T) Cell { return say(at(t).Value) }}
}

// names reads several names in one cell, parted by semicolons or commas.
func names[T any](c Column, at func(*T) *[]string) field[T] {
	return field[T]{c,
		func(t *T, cell Cell) error {
			for name := range strings.FieldsFuncSeq(cell.Text, func(r rune) bool { return r == ';' || r == ',' }) {
				if name = strings.TrimSpace(name); name != "" {
					*at(t) = append(*at(t), name)
				}
			}
			return nil
		},
		func(t *T) Cell { return say(strings.Join(*at(t), "; ")) }}
}

// bounds are the ends, inclusive, of what a setting may be.
type bounds struct{ from, to float64 }

func number[T any](c Column, b bounds, at func(*T) *float64) field[T] {
	return field[T]{c,
		func(t *T, cell Cell) error { return within(cell, b, at(t)) },
		func(t *T) Cell { return figure(*at(t)) }}
}

func statedNumber[T any](c Column, b bounds, at func(*T) *source.Stated[float64]) field[T] {
	return field[T]{c,
		func(t *T, cell Cell) error {
			var x float64
			err := within(cell, b, &x)
			return stated(at(t), x, c.Unit, cell, err)
		},
		func(t *T) Cell { return shown(*at(t), func(x float64) float64 { return x }) }}
}

func whole[T any](c Column, b bounds, at func(*T) *int) field[T] {
	return field[T]{c,
		func(t *T, cell Cell) error { return wholeWithin(cell, b, at(t)) },
		func(t *T) Cell { return unlessZero(float64(*at(t))) }}
}

func statedWhole[T any](c Column, b bounds, at func(*T) *source.Stated[int]) field[T] {
	return field[T]{c,
		func(t *T, cell Cell) error {
			var n int
			err := wholeWithin(cell, b, &n)
			return stated(at(t), n, c.Unit, cell, err)
		},
		func(t *T) Cell { return shown(*at(t), func(n int) float64 { return float64(n) }) }}
}

// percent keeps a share of one: 1 % is 0.01.
func percent[T any](c Column, b bounds, at func(*T) *float64) field[T] {
	return field[T]{c,
		func(t *T, cell Cell) error {
			if cell.Kind == Percent {
				cell.Num *= 100
			}
			if cell.Kind == Text {
				cell.Text = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(cell.Text), "%"))
			}
			var x float64
			if err := within(cell, b, &x); err != nil {
				return err
			}
			*at(t) = x / 100
			return nil
		},
		func(t *T) Cell { return figure(tidy(*at(t) * 100)) }}
}

func length[T any](c Column, b bounds, at func(*T) *quantity.Length) field[T] {
	return field[T]{c,
		func(t *T, cell Cell) error { return lengthWithin(cell, b, at(t)) },
		func(t *T) Cell { return unlessZero(at(t).In()) }}
}

func statedLength[T any](c Column, b bounds, at func(*T) *source.Stated[quantity.Length]) field[T] {
	return field[T]{c,
		func(t *T, cell Cell) error {
			var l quantity.Length
			err := lengthWithin(cell, b, &l)
			return stated(at(t), l, c.Unit, cell, err)
		},
		func(t *T) Cell { return shown(*at(t), quantity.Length.In) }}
}

func flow[T any](c Column, b bounds, at func(*T) *quantity.Flow) field[T] {
	return field[T]{c,
		func(t *T, cell Cell) error { return within(cell, b, (*float64)(at(t))) },
		func(t *T) Cell { return unlessZero(at(t).CFM()) }}
}

func statedSpeed[T any](c Column, b bounds, at func(*T) *source.Stated[quantity.Speed]) field[T] {
	return field[T]{c,
		func(t *T, cell Cell) error {
			var x float64
			err := within(cell, b, &x)
			return stated(at(t), quantity.FeetPerSecond(x), c.Unit, cell, err)
		},
		func(t *T) Cell { return shown(*at(t), quantity.Speed.FtS) }}
}

func statedFlow[T any](c Column, b bounds, at func(*T) *source.Stated[quantity.Flow]) field[T] {
	return field[T]{c,
		func(t *T, cell Cell) error {
			var x float64
			err := within(cell, b, &x)
			return stated(at(t), quantity.CFM(x), c.Unit, cell, err)
		},
		func(t *T) Cell { return shown(*at(t), quantity.Flow.CFM) }}
}

// pressureUnits are the units that a pressure of the setup may be typed in.
func pressureUnits() map[string]func(float64) quantity.Pressure {
	return map[string]func(float64) quantity.Pressure{
		"inh2o": quantity.InchesOfWater, "mmh2o": quantity.MillimetresOfWater, "mbar": quantity.Millibars,
		"hpa": quantity.Millibars, "kpa": quantity.Kilopascals, "pa": quantity.Pascals,
	}
}

// statedPressure reads a pressure with its unit behind it and takes no figure
// without one. The bounds are in inches of water.
func statedPressure[T any](c Column, b bounds, at func(*T) *source.Stated[quantity.Pressure]) field[T] {
	return field[T]{c,
		func(t *T, cell Cell) error {
			help := fmt.Errorf("type a pressure with its unit, such as 6 inH2O, 150 mmH2O, 15 mbar or 1.5 kPa, from %g to %g inH2O", b.from, b.to)
			typed := strings.ToLower(strings.TrimSpace(cell.Text))
			end := strings.IndexFunc(typed, unicode.IsLetter)
			if cell.Kind != Text || end < 0 {
				return help
			}
			of, ok := pressureUnits()[strings.ReplaceAll(typed[end:], " ", "")]
			if !ok {
				return help
			}
			x, ok := typedIn(typed[:end], func(x float64) bool { return b.hold(of(x).InH2O()) })
			if !ok {
				return help
			}
			return stated(at(t), of(x), typed[end:], cell, nil)
		},
		func(t *T) Cell {
			if !at(t).Known {
				return Cell{}
			}
			return say(strconv.FormatFloat(tidy(at(t).Value.InH2O()), 'f', -1, 64) + " inH2O")
		}}
}

// money reads an amount in the shop's currency, which is filled in once the Shop
// sheet is known; until then it holds the one that a sign names.
func money[T any](c Column, at func(*T) *source.Stated[quantity.Money]) field[T] {
	return field[T]{c,
		func(t *T, cell Cell) error {
			typed, x := cell, 0.0
			amount, currency := withoutSign(cell.Text)
			cell.Text = amount
			if cell.Kind == Text && len(figures(cell.Text)) > 1 {
				return errors.New("the sign in it can part thousands or cents; type it without, or with two digits behind it")
			}
			err := within(cell, bounds{0, 1e6}, &x)
			return stated(at(t), quantity.Of(decimal.NewFromFloat(x), currency), c.Unit, typed, err)
		},
		func(t *T) Cell { return shown(*at(t), quantity.Money.Float) }}
}

// withoutSign takes the sign of a currency from before or behind an amount, and
// returns the currency that it names; "" for the dollar, which is many.
func withoutSign(text string) (amount, currency string) {
	text = strings.TrimSpace(text)
	for sign, code := range map[string]string{"€": "EUR", "£": "GBP"} {
		if strings.HasPrefix(text, sign) || strings.HasSuffix(text, sign) {
			return strings.Trim(text, sign+" "), code
		}
	}
	return strings.TrimLeft(text, "$ "), ""
}

func date[T any](c Column, at func(*T) *source.Stated[time.Time]) field[T] {
	return field[T]{c,
		func(t *T, cell Cell) error {
			day, err := cell.Date, error(nil)
			if cell.Kind != Day {
				if day, err = time.Parse(time.DateOnly, strings.TrimSpace(cell.Text)); err != nil {
					err = errors.New("type a date such as 2026-03-16")
				}
			}
			return stated(at(t), day, "", cell, err)
		},
		func(t *T) Cell {
			if !at(t).Known {
				return Cell{}
			}
			return Cell{Kind: Day, Date: at(t).Value, Text: at(t).Value.Format(time.DateOnly)}
		}}
}

// choice ties the column's Choices, in their order, to the values.
func choice[T any, V comparable](c Column, at func(*T) *V, values ...V) field[T] {
	return field[T]{c,
		func(t *T, cell Cell) error {
			i := slices.IndexFunc(c.Choices, func(w string) bool { return Normal(w) == Normal(cell.Text) })
			if i < 0 {
				return fmt.Errorf("type one of: %s", strings.Join(c.Choices, ", "))
			}
			*at(t) = values[i]
			return nil
		},
		func(t *T) Cell {
			if i := slices.Index(values, *at(t)); i >= 0 {
				return say(c.Choices[i])
			}
			return Cell{}
		}}
}

func stated[V any](at *source.Stated[V], v V, unit string, cell Cell, err error) error {
	if err == nil {
		*at = source.Say(v, source.Trace{At: cell.At, Text: cell.Text, Unit: unit})
	}
	return err
}

func within(cell Cell, b bounds, out *float64) error {
	x, ok := cell.Num, b.hold(cell.Num)
	if cell.Kind == Text {
		x, ok = typedIn(cell.Text, b.hold)
	}
	if cell.Kind == Day || !ok {
		return fmt.Errorf("type a number from %g to %g", b.from, b.to)
	}
	*out = x
	return nil
}

func (b bounds) hold(x float64) bool { return x >= b.from && x <= b.to }

func wholeWithin(cell Cell, b bounds, out *int) error {
	var x float64
	if err := within(cell, b, &x); err != nil || x != math.Trunc(x) {
		return fmt.Errorf("type a whole number from %g to %g", b.from, b.to)
	}
	*out = int(x)
	return nil
}

// lengthWithin reads inches, or what the unit behind the figure says.
func lengthWithin(cell Cell, b bounds, out *quantity.Length) error {
	l, ok := quantity.Inches(cell.Num), b.hold(cell.Num)
	if cell.Kind == Text {
		l, ok = typedLengthIn(cell.Text, b)
	}
	if cell.Kind == Day || !ok {
		return fmt.Errorf("type a length in inches from %g to %g, or one with mm behind it", b.from, b.to)
	}
	*out = l
	return nil
}

func say(s string) Cell {
	if s == "" {
		return Cell{}
	}
	return Cell{Kind: Text, Text: s}
}

func figure(x float64) Cell {
	return Cell{Kind: Number, Num: x, Text: strconv.FormatFloat(x, 'g', -1, 64)}
}

// shown writes a stated figure, and nothing for one that is not.
func shown[V any](s source.Stated[V], in func(V) float64) Cell {
	if !s.Known {
		return Cell{}
	}
	return figure(tidy(in(s.Value)))
}

// unlessZero writes a figure for which zero means that nobody set it.
func unlessZero(x float64) Cell {
	if x == 0 {
		return Cell{}
	}
	return figure(tidy(x))
}

// tidy drops the last bits that a unit conversion leaves, beyond what anybody
// types.
func tidy(x float64) float64 { return math.Round(x*1e9) / 1e9 }
