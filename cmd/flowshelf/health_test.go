package main

import (
	"net/http"
	"net/http/httptest"
	"testing"
)

// TestHealthRefusesNames asks as a page in a browser of this machine can: it
// sends the name that led it here, which may lead to any address.
func TestHealthRefusesNames(t *testing.T) {
	h := new(health)
	h.set(func(c *condition) { c.State, c.Folder = watching, "/srv/heads" })
	tests := map[string]int{
		"127.0.0.1:8047":               http.StatusOK,
		"[::1]:8047":                   http.StatusOK,
		"localhost:8047":               http.StatusForbidden,
		"rebound.example:8047":         http.StatusForbidden,
		"127.0.0.1.rebound.example:80": http.StatusForbidden,
		"192.0.2.7:8047":               http.StatusForbidden,
		"127.0.0.1":                    http.StatusForbidden,
		"":                             http.StatusForbidden,
	}
	for host, want := range tests {
		r := httptest.NewRequest(http.MethodGet, "/healthz", nil)
		r.Host = host
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		if w.Code != want {
			t.Errorf("asked as %q: %d, want %d", host, w.Code, want)
		}
		if told := w.Header().Get("Content-Type") == "application/json"; told != (want == http.StatusOK) {
			t.Errorf("asked as %q: %s", host, w.Body)
		}
	}
}
