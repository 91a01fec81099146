package main

import (
	"context"
	"encoding/json"
	"errors"
	"net"
	"net/http"
	"net/netip"
	"sync"
	"time"
)

// condition is what the service says about itself on /healthz.
type condition struct {
	State     string     `json:"state"` // "starting", "watching", "folder not reachable", "stopping"
	Reason    string     `json:"reason,omitempty"`
	Since     time.Time  `json:"since"`
	Folder    string     `json:"folder"`
	Process   int        `json:"process"`
	LastLook  *time.Time `json:"last_look,omitempty"`
	LastPass  *time.Time `json:"last_pass,omitempty"`
	PassError string     `json:"pass_error,omitempty"`
	Files     int        `json:"files"`
	Waiting   int        `json:"waiting"`
	Held      int        `json:"held"`
	Asked     int        `json:"questions"`
	Readings  counts     `json:"readings"`
	Read      int        `json:"files_read"`  // contents read since the start
	Written   int        `json:"written"`     // workbooks written since the start
	Blocked   []string   `json:"not_written"` // workbooks that do not stand under their names
}

// The states.
const (
	starting = "starting"
	watching = "watching"
	away     = "folder not reachable"
	stopping = "stopping"
)

func (c condition) well() bool {
	return c.State == watching && c.PassError == "" && len(c.Blocked) == 0
}

// health holds the condition for whoever asks. It never waits for the folder.
type health struct {
	mu sync.Mutex
	is condition
}

// set changes the condition.
func (h *health) set(change func(*condition)) {
	h.mu.Lock()
	defer h.mu.Unlock()
	before := h.is.State
	change(&h.is)
	if h.is.State != before {
		h.is.Since = time.Now()
	}
}

func (h *health) now() condition {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.is
}

// ServeHTTP answers with the condition: status 200 when all is well, 503 when
// somebody should look.
func (h *health) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	// A page in a browser of this machine can send requests here, under its own
	// name only.
	if host, err := netip.ParseAddrPort(r.Host); err != nil || !host.Addr().IsLoopback() {
		http.Error(w, "ask for this address by its number", http.StatusForbidden)
		return
	}
	c := h.now()
	w.Header().Set("Content-Type", "application/json")
	if !c.well() {
		w.WriteHeader(http.StatusServiceUnavailable)
	}
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	_ = e.Encode(c) // whoever asked has gone
}

// serve answers on an address of this machine until the context ends.
func (h *health) serve(ctx context.Context, address string) (wait func() error, err error) {
	var listen net.ListenConfig
	l, err := listen.Listen(ctx, "tcp", address)
	if err != nil {
		return nil, &failure{exitFailed, err, "health.listen takes an address of this machine that is free, or off"}
	}
	mux := http.NewServeMux()
	mux.Handle("GET /healthz", h)
	const patience = 5 * time.Second
	server := &http.Server{Handler: mux, ReadTimeout: patience, WriteTimeout: patience}
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(l) }()
	stop := context.AfterFunc(ctx, func() { _ = server.Close() })
	return func() error {
		stop()
		_ = server.Close()
		if err := <-ended; !errors.Is(err, http.ErrServerClosed) {
			return err
		}
		return nil
	}, nil
}
