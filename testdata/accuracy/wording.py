"""The words of flow sheets in five languages (common practice, no source)."""

EN = dict(
    lift=["Lift", "Lift", "LIFT", "Valve lift", "lift", "Lift at valve", "VALVE LIFT"],
    ports=[("Int", "Exh"), ("Intake", "Exhaust"), ("INTAKE", "EXHAUST"), ("INT", "EXH"),
           ("In", "Ex"), ("Inlet", "Exhaust"), ("Int.", "Exh."), ("int", "ex"), ("I", "E"),
           ("Intake port", "Exhaust port"), ("INTAKE FLOW", "EXHAUST FLOW")],
    head=["Head", "Casting", "Head no.", "Cylinder head", "Casting no.", "Head ID", "Casting number"], bore=["Bore", "Fixture bore", "Bore fixture", "Test bore", "Bore size", "Cylinder bore", "Bore adapter", "Sleeve"],
    loose_bore=["{} bore", "bore {}", "{} fixture", "on {} bore", "{} sleeve", "{} bore fixture", "bore dia. {}", "{} bore tube"],
    pressure=["Test pressure", "TP", "Test press.", "Depression", "Pressure", "Test depression", "Pressure drop"],
    flow=["Flow", "Flow units", "Units", "Flow rate", "Flow unit", "Readings in"], date=["Date", "Tested", "Test date", "Date tested"], operator=["Operator", "By", "Tested by", "Bench operator", "Technician"],
    serial=["Serial", "S/N", "Serial no."], cyl=["Cyl", "Cyl.", "Cylinder", "#", "Port"],
    run=["Run", "Pull", "Test"], avg=["Avg", "Average", "AVG", "Mean", "Ave", "Av."],
    minimum=["Min", "MIN"], maximum=["Max", "MAX"], peak=["Peak", "Max flow"], total=["Total", "Sum"],
    gain=["Gain", "Diff", "+/-", "Change", "Difference", "Delta", "Improvement"], pipe=["with pipe", "w/ pipe", "1-3/4 pipe", "2 in. pipe", "with flow pipe", "pipe on"],
    no_pipe=["no pipe", "without pipe", "w/o pipe", "no flow pipe", "pipe off", "bare, no pipe"], manifold=["w/ manifold", "with manifold", "w/manifold", "with intake manifold"],
    advertised=["Adv", "Advertised", "Claimed", "Catalog", "Published", "Adv.", "Mfr", "Brochure"],
    tested=["Tested", "Test", "Actual", "Our bench", "Measured"],
    valves=["Valves", "Valve sizes"], notes=["Notes", "Remarks"], title=["flow test", "Flow sheet", "Flow test", "", "airflow results", "Flow numbers", "port flow"],
    long_short=[("long", "short"), ("Long", "Short"), ("left", "right"), ("A", "B")],
    leak=["Leak", "Leakage"], side="Port", at="at")
DE = dict(EN,
    lift=["Hub", "Ventilhub", "HUB"], ports=[("Einlass", "Auslass"), ("Einlaß", "Auslaß"), ("EINLASS", "AUSLASS"), ("Einl.", "Ausl.")],
    head=["Kopf", "Zylinderkopf"], bore=["Bohrung"], loose_bore=["Bohrung {}", "{} Bohrung"],
    pressure=["Prüfdruck", "Unterdruck", "Messdruck"], flow=["Durchfluss", "Einheit"], date=["Datum"], operator=["Prüfer"],
    serial=["Serien-Nr.", "Nr."], cyl=["Zyl.", "Zylinder", "Zyl"], run=["Lauf", "Messung"], avg=["Mittel", "Mittelwert"],
    minimum=["Min"], maximum=["Max"], peak=["Maximum", "Spitze"], total=["Summe"], gain=["Differenz", "Gewinn"],
    pipe=["mit Rohr"], no_pipe=["ohne Rohr"], manifold=["mit Saugrohr"], advertised=["Katalog", "Werksangabe"],
    tested=["gemessen"], valves=["Ventile"], notes=["Bemerkung"], title=["Messblatt", "Durchflussmessung", "Strömungsmessung"],
    leak=["Leckage"], side="Kanal", at="bei")
FR = dict(EN,
    lift=["Levée", "Levee", "Levée soupape"], ports=[("Admission", "Échappement"), ("Adm.", "Éch."), ("ADMISSION", "ECHAPPEMENT")],
    head=["Culasse"], bore=["Alésage"], loose_bore=["alésage {}"], pressure=["Dépression", "Pression d'essai"],
    flow=["Débit", "Unité"], date=["Date"], operator=["Opérateur"], serial=["N° de série"], cyl=["Cyl.", "Cylindre"],
    run=["Essai", "Passage"], avg=["Moyenne", "Moy."], peak=["Maxi"], total=["Total", "Somme"], gain=["Gain", "Écart"],
    pipe=["avec tube"], no_pipe=["sans tube"], manifold=["avec collecteur d'admission"], advertised=["Catalogue", "Annoncé"],
    tested=["Mesuré"], valves=["Soupapes"], notes=["Remarques"], title=["Essai de débit", "Banc de flux"], leak=["Fuite"], side="Conduit", at="à")
IT = dict(EN,
    lift=["Alzata", "Alzata valvola"], ports=[("Aspirazione", "Scarico"), ("Asp.", "Scar."), ("ASPIRAZIONE", "SCARICO")],
    head=["Testa", "Testata"], bore=["Alesaggio"], loose_bore=["alesaggio {}"], pressure=["Depressione", "Pressione di prova"],
    flow=["Portata", "Unità"], date=["Data"], operator=["Operatore"], serial=["Matricola"], cyl=["Cil.", "Cilindro"],
    run=["Prova"], avg=["Media"], peak=["Massimo"], total=["Totale", "Somma"], gain=["Differenza", "Guadagno"],
    pipe=["con tubo"], no_pipe=["senza tubo"], manifold=["con collettore"], advertised=["Catalogo", "Dichiarato"],
    tested=["Misurato"], valves=["Valvole"], notes=["Note"], title=["Prova di flusso", "Prova al flussometro"], leak=["Perdita"], side="Condotto", at="a")
ES = dict(EN,
    lift=["Alzada", "Alzada", "Alzada válvula", "Levantamiento"], ports=[("Admisión", "Escape"), ("ADMISION", "ESCAPE"), ("Adm.", "Esc.")],
    head=["Culata"], bore=["Diámetro", "Diámetro de cilindro"], loose_bore=["diámetro {}"], pressure=["Depresión", "Presión de prueba"],
    flow=["Caudal", "Unidad"], date=["Fecha"], operator=["Operario"], serial=["N° de serie"], cyl=["Cil.", "Cilindro"],
    run=["Prueba"], avg=["Promedio", "Media"], peak=["Máximo"], total=["Total", "Suma"], gain=["Diferencia", "Ganancia"],
    pipe=["con tubo"], no_pipe=["sin tubo"], manifold=["con colector"], advertised=["Catálogo", "Anunciado"],
    tested=["Medido"], valves=["Válvulas"], notes=["Notas"], title=["Prueba de flujo", "Banco de flujo"], leak=["Fuga"], side="Conducto", at="a")

LANGUAGES = {"en": EN, "de": DE, "fr": FR, "it": IT, "es": ES}

LIFT_UNITS = {"in": ["in", "inch", "in.", '"'], "mm": ["mm"], "thou": ["thou", "thousandths", '.001"']}
FLOW_UNITS = {"cfm": ["cfm", "CFM", "cfm"], "l/s": ["l/s", "L/s", "l/sec", "lps"], "m3/h": ["m3/h", "m³/h"],
              "m3/min": ["m3/min", "m³/min"]}
# One cubic foot is 0.028316846592 m3 exactly (international foot of 0.3048 m).
CFM_TO = {"cfm": 1.0, "l/s": 0.4719474432, "m3/h": 1.69901079552, "m3/min": 0.028316846592}

CONTROLS = ["JT", "MK", "R. Ames", "Dale", "PB"]
LETTERHEADS = [["Saltmarsh Head & Machine"], ["Saltmarsh Head & Machine", "12 Quay Road, unit 4   phone 555-0142"],
               ["Flow bench log"], ["FLOW SHEET"], ["Shop copy"]]
FOOTERS = ["page 1 of 2", "Numbers are for the sample tested.", "checked w/ clay radius on the intake", "bench warm, plates zeroed",
           "Steady flow only; not a power figure.", "copy to office"]
