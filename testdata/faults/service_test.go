//go:build unix

package faults_test

import (
	"encoding/json"
	"fmt"
	"io"
	"math/rand/v2"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
)

// shopFolder is a watched folder with a service of its own.
type shopFolder struct {
	path  string   // the watched folder
	state string   // what the service keeps on the local disk
	env   []string // settings of the service
	port  int

	prepare func(*exec.Cmd) // changes how a service is started; nil for not at all
	last    *service        // that was started; nil for none
}

// The settings of every service here: the waits of the defaults, shortened about
// twenty times, so that many trials fit into a short time.
func settings() map[string]string {
	return map[string]string{
		"WATCH_SETTLE": settle.String(), "WATCH_SETTLE_TEXT": settle.String(), "WATCH_POLL": poll.String(), "WATCH_POLL_NETWORK": poll.String(),
		"WATCH_HEARTBEAT": "100ms", "WATCH_TAKEOVER": takeover.String(), "WATCH_DEADLINE": "2s",
		"OUTPUT_RETRY": "200ms", "OUTPUT_NUMBERED_AFTER": "1s",
	}
}

const (
	settle   = 200 * time.Millisecond
	poll     = 200 * time.Millisecond
	takeover = 5 * time.Second // a machine that is busy may stand still for a while

	patience = 3 * time.Minute // with what has to come in time on a machine that is busy
)

// newFolder sets a folder up with the heads of a few families.
func newFolder(t testing.TB, heads ...string) *shopFolder {
	t.Helper()
	base := t.TempDir()
	return folderAt(t, filepath.Join(base, "shop"), filepath.Join(base, "state"), heads...)
}

func folderAt(t testing.TB, path, state string, heads ...string) *shopFolder {
	t.Helper()
	f := &shopFolder{path: path, state: state, port: freePort(t)}
	must(t, os.MkdirAll(path, 0o777))
	must(t, os.WriteFile(filepath.Join(path, "Shop setup.xlsx"), setupBook(t, heads), 0o666))
	for key, value := range settings() {
		f.set(key, value)
	}
	f.own()
	if out, err := f.command("init", path).CombinedOutput(); err != nil {
		t.Fatalf("init: %v: %s", err, out)
	}
	return f
}

// own settles what keeps the service apart from others on this machine.
func (f *shopFolder) own() {
	f.set("STATE_FOLDER", f.state)
	f.set("HEALTH_LISTEN", fmt.Sprintf("127.0.0.1:%d", f.port))
	f.set("LOG_FORMAT", "json")
}

// set changes a setting for services started from now on.
func (f *shopFolder) set(key, value string) { f.env = append(f.env, "FLOWSHELF_"+key+"="+value) }

func (f *shopFolder) command(args ...string) *exec.Cmd {
	cmd := exec.Command(binary, args...)
	cmd.Env = append(append(os.Environ(), "TZ="+zone), f.env...)
	return cmd
}

// zone is a time zone in which the day has just begun, for all programs of a test:
// a question carries the day on which it was raised, so that a folder read before
// midnight and one read after it differ by right.
var zone = earlyZone(time.Now())

func earlyZone(now time.Time) string {
	const early, furthestEast = 2, 14
	east := (early - now.UTC().Hour() + 24) % 24
	if east > furthestEast {
		east -= 24
	}
	return fmt.Sprintf("Etc/GMT%+d", -east) // the sign is the other way round there
}

func (f *shopFolder) at(name string) string { return filepath.Join(f.path, filepath.FromSlash(name)) }

func (f *shopFolder) put(t testing.TB, name string, content []byte) {
	t.Helper()
	must(t, os.MkdirAll(filepath.Dir(f.at(name)), 0o777))
	must(t, os.WriteFile(f.at(name), content, 0o666))
}

// service is a running flowshelf.
type service struct {
	folder *shopFolder
	cmd    *exec.Cmd
	logged string // path of its log
	ended  chan struct{}
}

// watch starts a service and has it ended with the test.
func (f *shopFolder) watch(t testing.TB) *service {
	t.Helper()
	s := &service{folder: f, cmd: f.command("watch", f.path), ended: make(chan struct{})}
	log, err := os.CreateTemp(t.TempDir(), "log")
	must(t, err)
	defer log.Close()
	s.logged = log.Name()
	s.cmd.Stderr, s.cmd.Stdout = log, log
	if f.prepare != nil {
		f.prepare(s.cmd)
	}
	must(t, s.cmd.Start())
	go func() {
		defer close(s.ended)
		_ = s.cmd.Wait() // how it ended is asked for where it matters
	}()
	f.last = s
	t.Cleanup(func() {
		s.kill()
		if t.Failed() {
			t.Logf("the service said:\n%s", tail(s.said()))
		}
	})
	return s
}

// runs reports whether the service that was started last still runs.
func (f *shopFolder) runs() bool {
	if f.last == nil {
		return false
	}
	select {
	case <-f.last.ended:
		return false
	default:
		return true
	}
}

// said is what the service has logged.
func (s *service) said() string {
	content, err := os.ReadFile(s.logged)
	if err != nil {
		return err.Error()
	}
	return string(content)
}

func tail(text string) string {
	const most = 6000
	if len(text) > most {
		return "..." + text[len(text)-most:]
	}
	return text
}

// kill ends the service as a power cut does.
func (s *service) kill() {
	_ = s.cmd.Process.Kill() // ended already is as good
	<-s.ended
}

// stop ends the service as a service manager does.
func (s *service) stop(t testing.TB) {
	t.Helper()
	must(t, s.cmd.Process.Signal(syscall.SIGTERM))
	select {
	case <-s.ended:
	case <-time.After(patience):
		t.Fatalf("still running long after SIGTERM:\n%s", tail(s.said()))
	}
}

// condition is what /healthz says.
type condition struct {
	State      string
	LastPass   *time.Time `json:"last_pass"`
	PassError  string     `json:"pass_error"`
	Files      int
	Waiting    int
	Held       int
	Read       int `json:"files_read"`
	Written    int
	NotWritten []string `json:"not_written"`
	Readings   struct {
		Used     int
		Asked    int
		SetAside int `json:"set_aside"`
		Refused  int
	}
}

func (s *service) health() (condition, error) {
	client := http.Client{Timeout: 20 * time.Second} // on a machine that is busy
	answer, err := client.Get(fmt.Sprintf("http://127.0.0.1:%d/healthz", s.folder.port))
	if err != nil {
		return condition{}, err
	}
	defer answer.Body.Close()
	content, err := io.ReadAll(answer.Body)
	if err != nil {
		return condition{}, err
	}
	var c condition
	return c, json.Unmarshal(content, &c)
}

// wait waits until the service says what is wanted, and returns how long that
// took.
func (s *service) wait(t testing.TB, what string, patience time.Duration, want func(condition) bool) time.Duration {
	t.Helper()
	start := time.Now()
	var last condition
	var err error
	for time.Since(start) < patience {
		if last, err = s.health(); err == nil && want(last) {
			return time.Since(start)
		}
		select {
		case <-s.ended:
			t.Fatalf("the service ended while waiting for %s:\n%s", what, tail(s.said()))
		case <-time.After(20 * time.Millisecond):
		}
	}
	t.Fatalf("no %s within %v; it says %+v, %v", what, patience, last, err)
	return 0
}

// readings waits until that many readings have come in and nothing is waiting.
func (s *service) readings(t testing.TB, want int, patience time.Duration) time.Duration {
	t.Helper()
	return s.wait(t, fmt.Sprintf("%d readings", want), patience, func(c condition) bool {
		return c.Readings.Used+c.Readings.Asked+c.Readings.SetAside+c.Readings.Refused == want && c.Waiting == 0
	})
}

// resident is the memory of a process, in MB (proc(5), VmRSS and VmHWM).
func (s *service) resident(t testing.TB, field string) int {
	t.Helper()
	content, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", s.cmd.Process.Pid))
	must(t, err)
	for line := range strings.Lines(string(content)) {
		if rest, ok := strings.CutPrefix(line, field+":"); ok {
			kilobytes, err := strconv.Atoi(strings.Fields(rest)[0])
			must(t, err)
			return kilobytes / 1024
		}
	}
	t.Fatalf("no %s", field)
	return 0
}

// peak is the most memory it has taken, in MB, which must be below the bound.
func (s *service) peak(t testing.TB) int {
	t.Helper()
	const most = 300
	peak := s.resident(t, "VmHWM")
	if peak > most {
		t.Errorf("it took %d MB, %d are allowed", peak, most)
	}
	return peak
}

// processor is the processor time a process and those it has waited for have used
// (proc(5), utime to cstime in clock ticks of 1/100 s).
func (s *service) processor(t testing.TB) time.Duration {
	t.Helper()
	content, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", s.cmd.Process.Pid))
	must(t, err)
	_, after, _ := strings.Cut(string(content), ") ")
	fields := strings.Fields(after)
	var ticks int
	for _, field := range fields[11:15] {
		n, err := strconv.Atoi(field)
		must(t, err)
		ticks += n
	}
	return time.Duration(ticks) * 10 * time.Millisecond
}

// freePort is a port that nobody listens on and that the system gives to nobody
// who asks for any: a service takes it later, and again after each start.
func freePort(t testing.TB) int {
	t.Helper()
	const from, to = 10_000, 32_000 // below those of ip(7), ip_local_port_range
	for range 100 {
		port := from + rand.IntN(to-from)
		if l, err := net.Listen("tcp", fmt.Sprintf("127.0.0.1:%d", port)); err == nil {
			must(t, l.Close())
			return port
		}
	}
	t.Fatal("no port is free")
	return 0
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}
