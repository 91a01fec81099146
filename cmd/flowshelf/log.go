package main

import (
	"io"
	"os"
	"time"

	"github.com/mattn/go-isatty"
	"github.com/rs/zerolog"

	"flowshelf/config"
)

// newLog returns the log in the form and from the level that are set.
func newLog(w io.Writer, c config.Log) zerolog.Logger {
	level, err := zerolog.ParseLevel(string(c.Level))
	if err != nil {
		level = zerolog.InfoLevel // config has checked the word already
	}
	text := c.Format == config.LogText || c.Format == config.LogAuto && terminal(w)
	if text {
		w = zerolog.ConsoleWriter{Out: w, TimeFormat: time.DateTime, NoColor: !terminal(w)}
	}
	return zerolog.New(w).Level(level).With().Timestamp().Logger()
}

// terminal reports whether what is written there is seen by a person.
func terminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	return ok && isatty.IsTerminal(f.Fd())
}
