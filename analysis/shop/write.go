package shop

import "flowshelf/analysis/head"

// Write lays a shop out as the rows of its setup workbook, in the order of
// Sheets. Read of the result gives the same shop again.
func Write(shop head.Shop) []Rows {
	return []Rows{
		writeSettings(shop),
		writeTable(familySheet(), familyFields(), shop.Families),
		writeTable(headSheet(), headFields(), shop.Heads),
		writeTable(supplierSheet(), supplierFields(), shop.Suppliers),
		writeTable(benchSheet(), benchFields(), shop.Benches),
		writeTable(orificeSheet(), orificeFields(), shop.Orifices),
		writeTable(rateSheet(), rateFields(), shop.Rates),
		writeTable(wordSheet(), wordFields(), shop.Words),
	}
}

// writeSettings writes a value only where it differs from the default, so that
// a later default reaches shops that never touched it.
func writeSettings(shop head.Shop) Rows {
	sheet := settingsSheet()
	rows := Rows{Sheet: sheet.Name}
	for _, c := range sheet.Columns {
		rows.Titles = append(rows.Titles, say(c.Title))
	}
	fallback := head.Shop{Currency: defaultCurrency, Rules: head.DefaultRules()}
	for _, f := range settingFields() {
		value, usual := f.write(&shop), f.write(&fallback)
		shown := value
		if value == usual {
			shown = Cell{}
		}
		rows.Rows = append(rows.Rows, []Cell{say(f.Title), shown, say(f.Unit), say(f.Help), usual})
	}
	return rows
}

func writeTable[T any](sheet Sheet, fields []field[T], records []T) Rows {
	rows := Rows{Sheet: sheet.Name}
	for _, f := range fields {
		rows.Titles = append(rows.Titles, say(f.Title))
	}
	for i := range records {
		var row []Cell
		for _, f := range fields {
			row = append(row, f.write(&records[i]))
		}
		rows.Rows = append(rows.Rows, row)
	}
	return rows
}
