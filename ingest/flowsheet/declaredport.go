package flowsheet

import "flowshelf/analysis/head"

// declaredPort returns the one port that a line of its own names, "Port: EXH"
// or the bare word. It stands before those that other lines name in passing:
// "radius on intake, exhaust with pipe" tells how each port would be flowed.
func (s scope) declaredPort() said[head.Port] {
	var ports said[head.Port]
	for _, st := range s.statements {
		if st.facts.onlyPort() {
			ports = ports.and(st.facts.port)
		}
	}
	if len(ports) != 1 {
		return nil
	}
	return ports
}

// onlyPort reports whether a line names a port and says nothing else.
func (f facts) onlyPort() bool {
	g := f
	g.port = nil
	return len(f.port) == 1 && !g.states() && !f.namesHead() && len(f.rest)+len(f.valve)+len(f.valves)+len(f.supplier) == 0
}

// onePort reports whether the lines speak of one port alone: "Intake flow, 28
// inH2O" then speaks of columns that name none.
func (s scope) onePort() bool {
	var ports said[head.Port]
	for _, st := range s.statements {
		ports = ports.and(st.only.port)
	}
	return len(ports) == 1
}
