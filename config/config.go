// Package config holds how the service runs: where it writes, how patient it
// is, what it refuses to swallow, and how it logs. What the shop itself knows
// (families, prices, benches) lives in its setup workbook and is no setting.
//
// Every setting is one row of one table (Settings), which gives its name, its
// default, what is allowed and what it means; loading, checking and the
// documentation all read that table.
package config

import "time"

// Config is every setting, checked. The zero Config is not valid; take
// Defaults or Load.
type Config struct {
	Output Output
	Watch  Watch
	State  State
	Health Health
	Limits Limits
	Log    Log
}

// Output says where the workbooks go and how hard to try.
type Output struct {
	Folder        string        // name of our folder below the watched one
	Retry         time.Duration // how long one write is tried again at once
	NumberedAfter time.Duration // how long a workbook may stay blocked before a numbered copy is written
}

// Watch says how the folder is looked at.
type Watch struct {
	Settle      time.Duration // how long size and time of a workbook must stand still
	SettleText  time.Duration // the same for text files, which carry no end mark
	Poll        time.Duration // pause between two looks at a local folder
	PollNetwork time.Duration // the same for a folder on a network
	Deadline    time.Duration // how long one call into the folder may take
	Heartbeat   time.Duration // between two signs of life of the one that writes
	Takeover    time.Duration // of silence, after which another one takes over
	Rehash      time.Duration // in which every file is compared by content once
}

// State says where the service keeps what it would otherwise read again.
type State struct {
	Folder string // "" for the platform's own place
}

// Health says where the service answers how it is.
type Health struct {
	Listen string // loopback address with a port, "" for nowhere
}

// Limits bound what one file may cost to read.
type Limits struct {
	FileBytes     int64
	UnzippedBytes int64
	Cells         int
	Sheets        int
	FileTime      time.Duration
	MemoryBytes   int64 // that the program tries not to exceed
}

// Log says what is logged, and how.
type Log struct {
	Format    LogFormat
	Level     LogLevel
	File      string // "" for standard error
	FileBytes int64  // after which a new file is begun
	Files     int    // older ones that are kept
}

// LogFormat is the form of a log line.
type LogFormat string

// The forms.
const (
	LogAuto LogFormat = "auto" // text on a terminal, JSON otherwise
	LogText LogFormat = "text"
	LogJSON LogFormat = "json"
)

// LogLevel is the mildest line that is logged.
type LogLevel string

// The levels, from the most to the least talkative.
const (
	LogDebug LogLevel = "debug"
	LogInfo  LogLevel = "info"
	LogWarn  LogLevel = "warn"
	LogError LogLevel = "error"
)

// Defaults returns the settings that hold where nobody says otherwise.
func Defaults() Config {
	var c Config
	for _, s := range Settings() {
		if err := s.set(&c, s.Default); err != nil {
			panic("config: default of " + s.Key + ": " + err.Error()) //nolint:forbidigo // our own table is wrong, which every test of this package shows
		}
	}
	return c
}
