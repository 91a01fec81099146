package config_test

import (
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/spf13/pflag"

	"flowshelf/config"
)

var update = flag.Bool("update", false, "rewrite the table of settings in README.md")

func file(t *testing.T, name, content string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(content), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func flags(t *testing.T, args ...string) *pflag.FlagSet {
	t.Helper()
	set := pflag.NewFlagSet("flowshelf", pflag.ContinueOnError)
	set.String("log-format", "", "")
	set.String("log-level", "", "")
	if err := set.Parse(args); err != nil {
		t.Fatal(err)
	}
	return set
}

func TestLoadWithoutSourcesGivesDefaults(t *testing.T) {
	got, err := config.Load(config.Sources{Flags: flags(t)})
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(config.Defaults(), got); diff != "" {
		t.Errorf("(-default +loaded)\n%s", diff)
	}
	if got.Watch.Settle != 2*time.Second || got.Output.Folder != "Ranked" || got.Limits.FileBytes != 32<<20 {
		t.Errorf("defaults are %+v", got)
	}
}

func TestLoadPrecedence(t *testing.T) {
	path := file(t, "shop.yaml", "log: {level: debug, format: json}\nwatch: {settle: 3s, poll: 90s}\noutput: {folder: Heads}\n")
	t.Setenv("FLOWSHELF_LOG_LEVEL", "error")
	t.Setenv("FLOWSHELF_WATCH_SETTLE", "4s")
	got, err := config.Load(config.Sources{File: path, Flags: flags(t, "--log-level=warn")})
	if err != nil {
		t.Fatal(err)
	}
	want := config.Defaults()
	want.Log.Format, want.Log.Level = config.LogJSON, config.LogWarn // file; flag over environment
	want.Watch.Settle = 4 * time.Second                              // environment over file
	want.Watch.Poll = 90 * time.Second
	want.Output.Folder = "Heads"
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
}

func TestLoadRefuses(t *testing.T) {
	tests := map[string]struct {
		file  string
		env   [2]string
		flags []string
		want  config.InvalidError
	}{
		"unknown key":          {file: "watch: {setle: 3s}", want: config.InvalidError{Key: "watch.setle", Source: "file"}},
		"unknown section":      {file: "wath: 3", want: config.InvalidError{Key: "wath", Source: "file"}},
		"section as a value":   {file: "watch: 3", want: config.InvalidError{Key: "watch", Source: "file"}},
		"setting as a section": {file: "watch: {settle: {fast: 1s}}", want: config.InvalidError{Key: "watch.settle.fast", Source: "file"}},
		"list for a value":     {file: "watch: {settle: [1s, 2s]}", want: config.InvalidError{Key: "watch.settle", Source: "file", Found: "[1s 2s]"}},
		"no unit":              {file: "watch: {settle: 3}", want: config.InvalidError{Key: "watch.settle", Source: "file", Found: "3"}},
		"out of range":         {file: "limits: {file_mb: 0}", want: config.InvalidError{Key: "limits.file_mb", Source: "file", Found: "0"}},
		"folder with a path":   {file: "output: {folder: ../up}", want: config.InvalidError{Key: "output.folder", Source: "file", Found: "../up"}},
		"an open address":      {file: "health: {listen: '0.0.0.0:80'}", want: config.InvalidError{Key: "health.listen", Source: "file", Found: "0.0.0.0:80"}},
		"a name":               {file: "health: {listen: 'localhost:80'}", want: config.InvalidError{Key: "health.listen", Source: "file", Found: "localhost:80"}},
		"no port":              {file: "health: {listen: '127.0.0.1'}", want: config.InvalidError{Key: "health.listen", Source: "file", Found: "127.0.0.1"}},
		"dead between beats":   {file: "watch: {heartbeat: 1m}", want: config.InvalidError{Key: "watch.takeover", Source: "file", Found: "1m0s"}},
		"no state folder":      {file: "state: {folder: ' '}", want: config.InvalidError{Key: "state.folder", Source: "file", Found: " "}},
		"unknown variable": {env: [2]string{"FLOWSHELF_LOGLEVEL", "info"},
			want: config.InvalidError{Key: "FLOWSHELF_LOGLEVEL", Source: "environment"}},
		"bad variable": {env: [2]string{"FLOWSHELF_LIMITS_CELLS", "many"},
			want: config.InvalidError{Key: "limits.cells", Source: "environment variable FLOWSHELF_LIMITS_CELLS", Found: "many"}},
		"bad flag": {flags: []string{"--log-level=loud"},
			want: config.InvalidError{Key: "log.level", Source: "flag --log-level", Found: "loud"}},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			from := config.Sources{Flags: flags(t, test.flags...)}
			if test.file != "" {
				from.File = file(t, "shop.yaml", test.file)
				test.want.Source = "file " + from.File
			}
			if test.env[0] != "" {
				t.Setenv(test.env[0], test.env[1])
			}
			_, err := config.Load(from)
			var invalid *config.InvalidError
			if !errors.As(err, &invalid) {
				t.Fatalf("error is %v, want an InvalidError", err)
			}
			got := *invalid
			if got.Allowed == "" || !strings.Contains(invalid.Hint(), got.Allowed) {
				t.Errorf("the hint %q does not say what is allowed", invalid.Hint())
			}
			got.Allowed = ""
			if diff := cmp.Diff(test.want, got); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
			if text := invalid.Error(); !strings.Contains(text, got.Key) || !strings.Contains(text, got.Source) {
				t.Errorf("%q names not both the key and the source", text)
			}
		})
	}
}

func TestLoadReportsABrokenFile(t *testing.T) {
	for name, content := range map[string]string{"shop.yaml": "watch: [", "shop.toml": "watch = = 3", "shop.ini": "a=b"} {
		if _, err := config.Load(config.Sources{File: file(t, name, content)}); err == nil {
			t.Errorf("%s %q loads without an error", name, content)
		}
	}
	if _, err := config.Load(config.Sources{File: filepath.Join(t.TempDir(), "none.yaml")}); err == nil {
		t.Error("a missing file loads without an error")
	}
}

func TestSettingsAreComplete(t *testing.T) {
	seen := make(map[string]bool)
	for _, s := range config.Settings() {
		if seen[s.Key] || s.Default == "" || s.Allowed == "" || s.Meaning == "" {
			t.Errorf("row %q is double or lacks a word", s.Key)
		}
		seen[s.Key] = true
	}
}

// TestReadmeTable keeps the documentation and the table of settings the same.
func TestReadmeTable(t *testing.T) {
	const begin, end = "<!-- settings -->\n", "<!-- end of settings -->"
	path := filepath.Join("..", "README.md")
	content, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, ok1 := strings.Cut(string(content), begin)
	table, after, ok2 := strings.Cut(rest, end)
	if !ok1 || !ok2 {
		t.Fatalf("README.md has no place for the settings: %q ... %q", begin, end)
	}
	if *update {
		if err := os.WriteFile(path, []byte(before+begin+config.Table()+end+after), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if diff := cmp.Diff(config.Table(), table); diff != "" {
		t.Errorf("README.md is behind (go test ./config -update): (-table +README)\n%s", diff)
	}
}
