package main

import (
	"io"
	"os"
	"time"

	"github.com/mattn/go-isatty"
	"github.com/rs/zerolog"
	"gopkg.in/natefinch/lumberjack.v2"

	"flowshelf/config"
)

// newLog returns the log in the form and from the level that are set. A log file
// is opened at once, so that one that cannot be is known before the work begins;
// it is begun anew when it has grown to its size.
func newLog(w io.Writer, c config.Log) (zerolog.Logger, error) {
	level, err := zerolog.ParseLevel(string(c.Level))
	if err != nil {
		level = zerolog.InfoLevel // config has checked the word already
	}
	if c.File != "" {
		f, err := os.OpenFile(c.File, os.O_WRONLY|os.O_CREATE|os.O_APPEND, 0o600)
		if err == nil {
			err = f.Close()
		}
		if err != nil {
			return zerolog.Nop(), err
		}
		w = &lumberjack.Logger{Filename: c.File, MaxSize: int(c.FileBytes >> 20), MaxBackups: c.Files}
	}
	text := c.Format == config.LogText || c.Format == config.LogAuto && terminal(w)
	if text {
		w = zerolog.ConsoleWriter{Out: w, TimeFormat: time.DateTime, NoColor: !terminal(w)}
	}
	return zerolog.New(w).Level(level).With().Timestamp().Logger(), nil
}

// terminal reports whether what is written there is seen by a person.
func terminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	return ok && isatty.IsTerminal(f.Fd())
}
