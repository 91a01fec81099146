package history

import (
	"errors"
	"strconv"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/quantity"
	"flowshelf/analysis/shop"
	"flowshelf/analysis/source"
)

type (
	statedInt    = source.Stated[int]
	statedNumber = source.Stated[float64]
	statedMoney  = source.Stated[quantity.Money]
	statedDate   = source.Stated[time.Time]
	dated        time.Time
)

// field ties a column to its place in a record, both ways.
type field[T any] struct {
	title string
	read  func(*T, shop.Cell) error // gets cells with a value only
	write func(*T) shop.Cell
}

var (
	errNumber = errors.New("a number should stand here")
	errDay    = errors.New("a day should stand here")
)

func words[T any](title string, at func(*T) *string) field[T] {
	return field[T]{title,
		func(t *T, c shop.Cell) error { *at(t) = c.Text; return nil },
		func(t *T) shop.Cell { return say(*at(t)) }}
}

func yes[T any](title string, at func(*T) *bool) field[T] {
	return field[T]{title,
		func(t *T, c shop.Cell) error { *at(t) = c.Text == "yes"; return nil },
		func(t *T) shop.Cell {
			if *at(t) {
				return say("yes")
			}
			return shop.Cell{}
		}}
}

func number[T any](title string, at func(*T) *statedNumber) field[T] {
	return field[T]{title,
		func(t *T, c shop.Cell) error {
			if c.Kind != shop.Number {
				return errNumber
			}
			*at(t) = source.Say(c.Num, source.Trace{At: c.At, Text: c.Text})
			return nil
		},
		func(t *T) shop.Cell {
			if !at(t).Known {
				return shop.Cell{}
			}
			return figure(at(t).Value)
		}}
}

func whole[T any](title string, at func(*T) *statedInt) field[T] {
	return field[T]{title,
		func(t *T, c shop.Cell) error {
			n, err := integer(c)
			if err == nil {
				*at(t) = source.Say(n, source.Trace{At: c.At, Text: c.Text})
			}
			return err
		},
		func(t *T) shop.Cell {
			if !at(t).Known {
				return shop.Cell{}
			}
			return figure(float64(at(t).Value))
		}}
}

// count leaves the cell empty at 0, which stands for none.
func count[T any](title string, at func(*T) *int) field[T] {
	return field[T]{title,
		func(t *T, c shop.Cell) error {
			n, err := integer(c)
			*at(t) = n
			return err
		},
		func(t *T) shop.Cell {
			if *at(t) == 0 {
				return shop.Cell{}
			}
			return figure(float64(*at(t)))
		}}
}

func integer(c shop.Cell) (int, error) {
	n := int(c.Num)
	if c.Kind != shop.Number || float64(n) != c.Num {
		return 0, errNumber
	}
	return n, nil
}

// money stands as a text with its currency, "452.00 USD": a number of a
// spreadsheet is a binary fraction, and a price is not.
func money[T any](title string, at func(*T) *statedMoney) field[T] {
	return field[T]{title,
		func(t *T, c shop.Cell) error {
			m, err := parseMoney(c.Text)
			if err == nil {
				*at(t) = source.Say(m, source.Trace{At: c.At, Text: c.Text})
			}
			return err
		},
		func(t *T) shop.Cell {
			if !at(t).Known {
				return shop.Cell{}
			}
			m := at(t).Value
			return say(m.Amount.String() + " " + m.Currency)
		}}
}

func parseMoney(text string) (quantity.Money, error) {
	amount, currency := text, ""
	for i := range text {
		if text[i] == ' ' {
			amount, currency = text[:i], text[i+1:]
			break
		}
	}
	const longest = 40 // digits of any sum of ours, and an exponent cannot blow it up
	if len(amount) > longest {
		return quantity.Money{}, errNumber
	}
	for _, r := range amount {
		if (r < '0' || r > '9') && r != '.' && r != '-' {
			return quantity.Money{}, errNumber
		}
	}
	d, err := decimal.NewFromString(amount)
	if err != nil {
		return quantity.Money{}, errNumber
	}
	return quantity.Of(d, currency), nil
}

func day[T any](title string, at func(*T) *dated) field[T] {
	return field[T]{title,
		func(t *T, c shop.Cell) error {
			if c.Kind != shop.Day {
				return errDay
			}
			*at(t) = dated(c.Date)
			return nil
		},
		func(t *T) shop.Cell { return date(time.Time(*at(t))) }}
}

func statedDay[T any](title string, at func(*T) *statedDate) field[T] {
	return field[T]{title,
		func(t *T, c shop.Cell) error {
			if c.Kind != shop.Day {
				return errDay
			}
			*at(t) = source.Say(c.Date, source.Trace{At: c.At, Text: c.Text})
			return nil
		},
		func(t *T) shop.Cell {
			if !at(t).Known {
				return shop.Cell{}
			}
			return date(at(t).Value)
		}}
}

// say keeps a text without the white space around it, which a spreadsheet loses.
func say(text string) shop.Cell {
	text = strings.TrimSpace(text)
	if text == "" {
		return shop.Cell{}
	}
	return shop.Cell{Kind: shop.Text, Text: text}
}

func figure(x float64) shop.Cell {
	return shop.Cell{Kind: shop.Number, Num: x, Text: strconv.FormatFloat(x, 'g', -1, 64)}
}

func date(d time.Time) shop.Cell {
	return shop.Cell{Kind: shop.Day, Date: d, Text: d.Format(time.DateOnly)}
}
