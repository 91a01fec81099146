package main

import (
	"io"
	"path/filepath"

	"flowshelf/analysis/airflow"
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// inspectionJSON is what `inspect --output json` prints.
type inspectionJSON struct {
	File        string            `json:"file"`
	NotCompared int               `json:"not_compared_with,omitempty"` // other files of the folder that were not read
	Tables      []tableJSON       `json:"tables"`
	Problems    []cellProblemJSON `json:"problems"`
}

// tableJSON is one table: the readings of one port of one head, or the rows of
// one list on one sheet.
type tableJSON struct {
	Sheet    string        `json:"sheet"`
	Kind     string        `json:"kind"` // "flow", "price", "stock", ...
	Head     string        `json:"head"`
	State    string        `json:"state"`
	Port     string        `json:"port"`
	Source   string        `json:"source"`
	Readings []readingJSON `json:"readings"`
	Rows     []listRow     `json:"rows,omitempty"`
}

type readingJSON struct {
	LiftIn      *float64 `json:"lift_in"`
	CFMAsTested *float64 `json:"cfm_as_tested"`
	CFM28       *float64 `json:"cfm_28"` // null when the test pressure is not known
	Cell        string   `json:"cell"`
	Status      string   `json:"status"`
}

type cellProblemJSON struct {
	Kind     string `json:"kind"`
	Severity string `json:"severity"`
	Sheet    string `json:"sheet"`
	Cell     string `json:"cell"`
	Message  string `json:"message"`
}

func printInspection(w io.Writer, i inspection) error {
	out := inspectionJSON{File: filepath.FromSlash(i.read.Path), Tables: i.tables(), Problems: []cellProblemJSON{}}
	if i.apart {
		out.NotCompared = i.others
	}
	for _, p := range i.problems.Sorted() {
		out.Problems = append(out.Problems, cellProblemJSON{p.Kind, p.Severity.String(), p.At.Sheet, p.At.Cell, p.Message})
	}
	return printJSON(w, out)
}

// tables returns the flow tests, then the lists, each in the order of the file.
func (i inspection) tables() []tableJSON {
	out := []tableJSON{}
	for n := range i.records.Tests {
		t := &i.records.Tests[n]
		table := tableJSON{Sheet: t.At.Sheet, Kind: "flow", Head: t.Head, State: t.State,
			Port: t.Port.String(), Source: t.Class.String(), Readings: []readingJSON{}}
		for _, r := range t.Readings {
			table.Readings = append(table.Readings, readingOf(t, r, i.shop.Rules))
		}
		out = append(out, table)
	}
	return append(out, i.lists()...)
}

func readingOf(t *head.Test, r head.Reading, rules head.Rules) readingJSON {
	out := readingJSON{Cell: readingCell(r), Status: readingStatus(t, r).String()}
	if r.Lift.Known {
		out.LiftIn = finite(r.Lift.Value.In())
	}
	if r.Flow.Known {
		out.CFMAsTested = finite(r.Flow.Value.CFM())
	}
	if flow, ok := at28(t, r, rules); ok {
		out.CFM28 = finite(flow.CFM())
	}
	return out
}

// readingStatus is the stricter one of the reading's and its whole column's.
func readingStatus(t *head.Test, r head.Reading) head.Status { return max(t.Status, r.Status) }

func readingCell(r head.Reading) string {
	if r.Flow.Trace.At.Cell != "" {
		return r.Flow.Trace.At.Cell
	}
	return r.Lift.Trace.At.Cell
}

// pressureOf is the reading's own test pressure where its row states one, else
// the column's.
func pressureOf(t *head.Test, r head.Reading) source.Stated[quantity.Pressure] {
	if own := r.Pressure(); own.Known {
		return own
	}
	return t.Pressure
}

// at28 brings a reading to 28 inH2O by the shop's pressure law. It is not to be
// had when the test pressure is not known or the law refuses it.
func at28(t *head.Test, r head.Reading, rules head.Rules) (quantity.Flow, bool) {
	from := pressureOf(t, r)
	if !r.Flow.Known || !from.Known {
		return 0, false
	}
	change := airflow.Change{From: from.Value, To: quantity.InchesOfWater(28), Ambient: airflow.StandardAtmosphere()}
	if t.Port == head.Exhaust {
		change.Draught = airflow.Blow
	} else if rules.PressureLaw == head.Isentropic {
		change.Law = airflow.Isentropic
	}
	factor, err := change.Factor()
	if err != nil {
		return 0, false
	}
	return quantity.CFM(r.Flow.Value.CFM() * factor.By), true
}
