package main

import (
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"text/template"

	"flowshelf/ingest/watch"
)

// TestTheUnitRunsWatch lays the unit out as the service library does, with the
// functions that it offers to templates, and reads what systemd would be told.
func TestTheUnitRunsWatch(t *testing.T) {
	if runtime.GOOS == "windows" {
		return // there the service manager takes the arguments themselves
	}
	folder := filepath.Join(t.TempDir(), "heads and prices")
	if err := os.Mkdir(folder, 0o777); err != nil {
		t.Fatal(err)
	}
	a := testApp(t)
	if _, err := a.daemon(folder, ""); err == nil {
		t.Error("a folder that was never set up can be installed")
	}
	root, err := os.OpenRoot(folder)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	if _, err := watch.Mark(root, a.config.Output.Folder); err != nil {
		t.Fatal(err)
	}
	c, err := a.daemon(folder, "settings.yaml")
	if err != nil {
		t.Fatal(err)
	}
	here, err := filepath.Abs("settings.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if want := []string{"watch", folder, "--config", here}; !slices.Equal(c.Arguments, want) {
		t.Errorf("arguments %q, want %q", c.Arguments, want)
	}
	quote := func(s string) string { return `"` + s + `"` }
	laid := template.Must(template.New("unit").Funcs(template.FuncMap{"cmd": quote, "cmdEscape": quote,
		"Path": func() string { return "/usr/bin/flowshelf" }, "Description": func() string { return c.Description },
		"UserName": func() string { return "heads" }, "Arguments": func() []string { return c.Arguments },
	}).Parse(unit))
	var out strings.Builder
	if err := laid.Execute(&out, nil); err != nil {
		t.Fatal(err)
	}
	for _, line := range []string{
		`ExecStart="/usr/bin/flowshelf" "watch" "` + folder + `" "--config" "` + here + `"`,
		"User=heads", "Restart=on-failure", "NoNewPrivileges=yes", "ProtectSystem=full", "CacheDirectory=flowshelf", "WantedBy=multi-user.target",
	} {
		if !strings.Contains(out.String(), "\n"+line+"\n") {
			t.Errorf("no line %s in\n%s", line, out.String())
		}
	}
}
