package config

import (
	"fmt"
	"os"
	"slices"
	"strings"

	"github.com/spf13/pflag"
	"github.com/spf13/viper"
)

// FileEnv names the config file where the flag does not.
const FileEnv = EnvPrefix + "CONFIG"

// Sources is where settings may come from. A flag beats the environment, which
// beats the file, which beats the default.
type Sources struct {
	File  string         // path of a YAML, TOML or JSON file, "" for none
	Flags *pflag.FlagSet // may be nil
}

// InvalidError is a setting that cannot be used.
type InvalidError struct {
	Key     string // setting, or the name as it was written when there is no such setting
	Source  string // `file shop.yaml`, `environment variable FLOWSHELF_LOG_LEVEL`, `flag --log-level`
	Found   string
	Allowed string // what would do
}

func (e *InvalidError) Error() string {
	if e.Found == "" {
		return fmt.Sprintf("%s: there is no setting %q", e.Source, e.Key)
	}
	return fmt.Sprintf("%s: %s cannot be %q", e.Source, e.Key, e.Found)
}

// Hint says what would do.
func (e *InvalidError) Hint() string {
	if e.Found == "" {
		return "the settings are " + e.Allowed
	}
	return fmt.Sprintf("%s takes %s", e.Key, e.Allowed)
}

// Load gathers the settings from the sources and checks every one. The error
// is an *InvalidError for a setting at fault.
func Load(from Sources) (Config, error) {
	v := viper.New()
	if from.File != "" {
		v.SetConfigFile(from.File)
		if err := v.ReadInConfig(); err != nil {
			return Config{}, fmt.Errorf("config file %s: %w", from.File, err)
		}
	}
	if err := unknown(v.AllKeys(), from.File); err != nil {
		return Config{}, err
	}
	c := Defaults()
	for _, s := range Settings() {
		if err := s.bind(v, from.Flags); err != nil {
			return Config{}, err
		}
		if !v.IsSet(s.Key) {
			continue
		}
		text := fmt.Sprint(v.Get(s.Key))
		if err := s.set(&c, text); err != nil {
			return Config{}, &InvalidError{Key: s.Key, Source: s.origin(from), Found: text, Allowed: s.Allowed}
		}
	}
	return c, agree(c, from)
}

// agree checks the one setting that depends on another: who gives signs of life
// must not be taken for dead between two of them.
func agree(c Config, from Sources) error {
	const signs = 3
	if c.Watch.Takeover >= signs*c.Watch.Heartbeat {
		return nil
	}
	for _, s := range Settings() {
		if s.Key == "watch.takeover" {
			return &InvalidError{Key: s.Key, Source: s.origin(from), Found: c.Watch.Takeover.String(),
				Allowed: fmt.Sprintf("at least three heartbeats (watch.heartbeat is %v)", c.Watch.Heartbeat)}
		}
	}
	return nil
}

// bind lets viper look for the setting in the environment and the flags.
func (s Setting) bind(v *viper.Viper, flags *pflag.FlagSet) error {
	if err := v.BindEnv(s.Key, s.Env()); err != nil {
		return err
	}
	if flag := s.flag(flags); flag != nil {
		return v.BindPFlag(s.Key, flag)
	}
	return nil
}

// origin names the source that a set value came from.
func (s Setting) origin(from Sources) string {
	if flag := s.flag(from.Flags); flag != nil && flag.Changed {
		return "flag --" + s.Flag
	}
	if os.Getenv(s.Env()) != "" {
		return "environment variable " + s.Env()
	}
	return "file " + from.File
}

func (s Setting) flag(flags *pflag.FlagSet) *pflag.Flag {
	if s.Flag == "" || flags == nil {
		return nil
	}
	return flags.Lookup(s.Flag)
}

// unknown reports the first name, in alphabetical order, that is no setting.
func unknown(keys []string, file string) error {
	known := map[string]bool{FileEnv: true}
	for _, s := range Settings() {
		known[s.Key], known[s.Env()] = true, true
	}
	slices.Sort(keys)
	for _, key := range keys {
		if !known[key] {
			return &InvalidError{Key: key, Source: "file " + file, Allowed: list(func(s Setting) string { return s.Key })}
		}
	}
	for _, pair := range slices.Sorted(slices.Values(os.Environ())) {
		key, _, _ := strings.Cut(pair, "=")
		if strings.HasPrefix(key, EnvPrefix) && !known[key] {
			return &InvalidError{Key: key, Source: "environment", Allowed: list(Setting.Env)}
		}
	}
	return nil
}

func list(name func(Setting) string) string {
	var names []string
	for _, s := range Settings() {
		names = append(names, name(s))
	}
	return strings.Join(names, ", ")
}
