package config

import (
	"errors"
	"fmt"
	"net/netip"
	"strconv"
	"strings"
	"time"
)

// EnvPrefix starts the name of every environment variable we read.
const EnvPrefix = "FLOWSHELF_"

// Setting is one row of the table of settings.
type Setting struct {
	Key     string // as written in the config file: "watch.settle"
	Default string
	Allowed string // what may be given, in words
	Meaning string
	Flag    string // name of the flag that sets it, "" for none

	set func(*Config, string) error
}

// Env returns the environment variable that sets it.
func (s Setting) Env() string {
	return EnvPrefix + strings.ToUpper(strings.ReplaceAll(s.Key, ".", "_"))
}

// Settings returns the table, in the order of the documentation.
func Settings() []Setting { //nolint:funlen // one table, a row a setting
	return []Setting{
		{Key: "output.folder", Default: "Ranked", Allowed: "a plain folder name",
			Meaning: "folder below the watched one that holds everything we write",
			set:     name(func(c *Config) *string { return &c.Output.Folder })},
		{Key: "output.retry", Default: "2.5s", Allowed: "0s to 1m",
			Meaning: "how long a blocked workbook is tried again at once",
			set:     span(0, time.Minute, func(c *Config) *time.Duration { return &c.Output.Retry })},
		{Key: "output.numbered_after", Default: "1m", Allowed: "0s to 24h",
			Meaning: "how long a workbook may stay blocked before a numbered copy stands in for it (`watch`; `run` writes it at once)",
			set:     span(0, 24*time.Hour, func(c *Config) *time.Duration { return &c.Output.NumberedAfter })},
		{Key: "watch.settle", Default: "2s", Allowed: "100ms to 10m",
			Meaning: "how long size and time of a workbook must stand still before it is read",
			set:     span(100*time.Millisecond, 10*time.Minute, func(c *Config) *time.Duration { return &c.Watch.Settle })},
		{Key: "watch.settle_text", Default: "6s", Allowed: "100ms to 10m",
			Meaning: "the same for text files, which do not show where they end",
			set:     span(100*time.Millisecond, 10*time.Minute, func(c *Config) *time.Duration { return &c.Watch.SettleText })},
		{Key: "watch.poll", Default: "1m", Allowed: "100ms to 24h",
			Meaning: "pause between two looks at a folder on this machine",
			set:     span(100*time.Millisecond, 24*time.Hour, func(c *Config) *time.Duration { return &c.Watch.Poll })},
		{Key: "watch.poll_network", Default: "5s", Allowed: "100ms to 24h",
			Meaning: "pause between two looks at a folder on a network, where changes are not announced",
			set:     span(100*time.Millisecond, 24*time.Hour, func(c *Config) *time.Duration { return &c.Watch.PollNetwork })},
		{Key: "watch.deadline", Default: "1m", Allowed: "1s to 1h",
			Meaning: "how long one call into the folder may take before the folder counts as not reachable",
			set:     span(time.Second, time.Hour, func(c *Config) *time.Duration { return &c.Watch.Deadline })},
		{Key: "watch.heartbeat", Default: "10s", Allowed: "100ms to 10m",
			Meaning: "pause between two signs of life of the one instance that writes",
			set:     span(100*time.Millisecond, 10*time.Minute, func(c *Config) *time.Duration { return &c.Watch.Heartbeat })},
		{Key: "watch.takeover", Default: "1m", Allowed: "300ms to 24h, and at least three heartbeats",
			Meaning: "silence of the instance that writes after which another one takes over",
			set:     span(300*time.Millisecond, 24*time.Hour, func(c *Config) *time.Duration { return &c.Watch.Takeover })},
		{Key: "watch.rehash", Default: "24h", Allowed: "1s to 720h",
			Meaning: "time in which every file is compared by its content once, for changes that keep size and time",
			set:     span(time.Second, 720*time.Hour, func(c *Config) *time.Duration { return &c.Watch.Rehash })},
		{Key: "state.folder", Default: "auto", Allowed: "auto, or a folder on a disk of this machine",
			Meaning: "where is kept what would otherwise be read again; auto is the platform's place for caches",
			set:     unless("auto", func(c *Config) *string { return &c.State.Folder })},
		{Key: "health.listen", Default: "off", Allowed: "off, or an address of this machine only, as 127.0.0.1:8047",
			Meaning: "where `/healthz` says how the service is",
			set:     loopback(func(c *Config) *string { return &c.Health.Listen })},
		{Key: "limits.file_mb", Default: "32", Allowed: "1 to 1024",
			Meaning: "largest file that is read, in MiB",
			set:     mebibytes(1, 1024, func(c *Config) *int64 { return &c.Limits.FileBytes })},
		{Key: "limits.unzipped_mb", Default: "256", Allowed: "1 to 1024",
			Meaning: "largest content of a workbook once unpacked, in MiB",
			set:     mebibytes(1, 1024, func(c *Config) *int64 { return &c.Limits.UnzippedBytes })},
		{Key: "limits.cells", Default: "500000", Allowed: "1000 to 10000000",
			Meaning: "most cells with a value in one file",
			set:     count(1000, 10_000_000, func(c *Config) *int { return &c.Limits.Cells })},
		{Key: "limits.sheets", Default: "200", Allowed: "1 to 10000",
			Meaning: "most sheets in one file",
			set:     count(1, 10_000, func(c *Config) *int { return &c.Limits.Sheets })},
		{Key: "limits.file_time", Default: "30s", Allowed: "1s to 10m",
			Meaning: "longest time spent on one file",
			set:     span(time.Second, 10*time.Minute, func(c *Config) *time.Duration { return &c.Limits.FileTime })},
		{Key: "limits.memory_mb", Default: "256", Allowed: "64 to 65536",
			Meaning: "memory that the program tries to keep within, in MiB",
			set:     mebibytes(64, 65536, func(c *Config) *int64 { return &c.Limits.MemoryBytes })},
		{Key: "log.format", Default: string(LogAuto), Allowed: "auto, text or json", Flag: "log-format",
			Meaning: "form of the log; auto is text on a terminal and JSON otherwise",
			set: choice([]LogFormat{LogAuto, LogText, LogJSON},
				func(c *Config) *LogFormat { return &c.Log.Format })},
		{Key: "log.level", Default: string(LogInfo), Allowed: "debug, info, warn or error", Flag: "log-level",
			Meaning: "mildest line that is logged",
			set: choice([]LogLevel{LogDebug, LogInfo, LogWarn, LogError},
				func(c *Config) *LogLevel { return &c.Log.Level })},
		{Key: "log.file", Default: "none", Allowed: "none, or the path of a file",
			Meaning: "file that is logged to instead of standard error",
			set:     unless("none", func(c *Config) *string { return &c.Log.File })},
		{Key: "log.file_mb", Default: "10", Allowed: "1 to 1024",
			Meaning: "size of the log file after which a new one is begun, in MiB",
			set:     mebibytes(1, 1024, func(c *Config) *int64 { return &c.Log.FileBytes })},
		{Key: "log.files", Default: "5", Allowed: "1 to 100",
			Meaning: "how many earlier log files are kept",
			set:     count(1, 100, func(c *Config) *int { return &c.Log.Files })},
	}
}

// Table returns the settings as a table in Markdown.
func Table() string {
	var b strings.Builder
	b.WriteString("| setting | default | allowed | meaning |\n| --- | --- | --- | --- |\n")
	for _, s := range Settings() {
		fmt.Fprintf(&b, "| `%s` | `%s` | %s | %s |\n", s.Key, s.Default, s.Allowed, s.Meaning)
	}
	return b.String()
}

var errNotAllowed = errors.New("not allowed")

func span(low, high time.Duration, field func(*Config) *time.Duration) func(*Config, string) error {
	return func(c *Config, text string) error {
		d, err := time.ParseDuration(text)
		if err != nil || d < low || d > high {
			return errNotAllowed
		}
		*field(c) = d
		return nil
	}
}

func count(low, high int, field func(*Config) *int) func(*Config, string) error {
	return func(c *Config, text string) error {
		n, err := strconv.Atoi(text)
		if err != nil || n < low || n > high {
			return errNotAllowed
		}
		*field(c) = n
		return nil
	}
}

func mebibytes(low, high int64, field func(*Config) *int64) func(*Config, string) error {
	return func(c *Config, text string) error {
		n, err := strconv.ParseInt(text, 10, 64)
		if err != nil || n < low || n > high {
			return errNotAllowed
		}
		*field(c) = n << 20
		return nil
	}
}

func choice[T ~string](among []T, field func(*Config) *T) func(*Config, string) error {
	return func(c *Config, text string) error {
		for _, one := range among {
			if T(text) == one {
				*field(c) = one
				return nil
			}
		}
		return errNotAllowed
	}
}

// unless accepts any text; the word alone stands for none.
func unless(none string, field func(*Config) *string) func(*Config, string) error {
	return func(c *Config, text string) error {
		if strings.TrimSpace(text) == "" {
			return errNotAllowed
		}
		if text == none {
			text = ""
		}
		*field(c) = text
		return nil
	}
}

// loopback accepts an address that only this machine can reach. A name is not
// asked for its address: it may come to mean another machine.
func loopback(field func(*Config) *string) func(*Config, string) error {
	return func(c *Config, text string) error {
		if text == "off" {
			*field(c) = ""
			return nil
		}
		address, err := netip.ParseAddrPort(text)
		if err != nil || !address.Addr().IsLoopback() {
			return errNotAllowed
		}
		*field(c) = text
		return nil
	}
}

// name accepts one folder name that Linux, Windows and a share all take.
func name(field func(*Config) *string) func(*Config, string) error {
	return func(c *Config, text string) error {
		if text == "" || strings.HasPrefix(text, ".") || strings.HasPrefix(text, "~") ||
			strings.ContainsAny(text, `/\:*?"<>|`) || strings.TrimSpace(text) != text || strings.HasSuffix(text, ".") {
			return errNotAllowed
		}
		*field(c) = text
		return nil
	}
}
