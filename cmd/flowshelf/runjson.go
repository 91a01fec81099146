package main

import (
	"io"
	"strings"
	"time"
)

// resultJSON is what `run --output json` prints.
type resultJSON struct {
	Folder    string         `json:"folder"`
	Date      string         `json:"date"`
	Answers   answersJSON    `json:"answers"`
	Files     []fileJSON     `json:"files"`
	Problems  []problemJSON  `json:"problems"`
	Families  []familyJSON   `json:"families"`
	Workbooks []workbookJSON `json:"workbooks"`
}

type fileJSON struct {
	File     string `json:"file"`
	State    string `json:"state"`
	Reason   string `json:"reason"`
	Tables   int    `json:"tables"`
	Readings counts `json:"readings"`
	Rows     counts `json:"rows"`
}

// answersJSON counts what people have written into the questions workbook.
type answersJSON struct {
	TakenOver int `json:"taken_over"`
	New       int `json:"new"`
	TakenBack int `json:"taken_back"`
}

type workbookJSON struct {
	Workbook string `json:"workbook"`
	State    string `json:"state"`
	At       string `json:"at"`
	Kept     string `json:"kept"`
	Beside   string `json:"beside"`
	Message  string `json:"message"`
	Hint     string `json:"hint"`
}

func printResult(w io.Writer, r result) error {
	out := resultJSON{
		Folder: r.folder, Date: r.date.Format(time.DateOnly), Problems: problemsOf(r.problems),
		Answers: answersJSON{r.replies.Answers.Len(), r.replies.New, r.replies.Withdrawn},
		Files:   []fileJSON{}, Families: []familyJSON{}, Workbooks: []workbookJSON{},
	}
	for _, f := range r.files {
		out.Files = append(out.Files, fileJSON{f.path, strings.ReplaceAll(f.read.State.String(), " ", "_"),
			f.read.Reason, f.tables, f.readings, f.rows})
	}
	for _, c := range r.families {
		out.Families = append(out.Families, familyOf(c))
	}
	for _, o := range r.workbooks {
		out.Workbooks = append(out.Workbooks, workbookJSON{o.Name, o.State.String(), o.At, o.Kept, o.Beside, o.Message, o.Hint})
	}
	return printJSON(w, out)
}
