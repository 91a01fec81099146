#!/bin/sh
# Rebuilds testdata/demo from the descriptions beside this file.
# Needs python3 with openpyxl and XlsxWriter, LibreOffice (soffice) and pdftoppm.
# The books do not depend on the day they are built.
set -eu
src=$(cd "$(dirname "$0")" && pwd)
demo=${1:-$src/../demo}
python=${PYTHON:-/usr/bin/python3}
stage=$(mktemp -d)
trap 'rm -rf "$stage"' EXIT
export PYTHONDONTWRITEBYTECODE=1

office() { # office FORMAT OUTDIR FILE...
	format=$1 out=$2
	shift 2
	soffice "-env:UserInstallation=file://$stage/profile" --headless --convert-to "$format" --outdir "$out" "$@" \
		>"$stage/office.log" 2>&1 || { cat "$stage/office.log" >&2; return 1; }
}

mkdir -p "$stage/demo/bench"
"$python" "$src/build.py" scan "$stage"
office pdf "$stage" "$stage/scan.xlsx"
pdftoppm -png -gray -r 100 -x 40 -y 40 -W 420 -H 260 -singlefile "$stage/scan.pdf" "$stage/scan"
"$python" "$src/build.py" write "$stage/demo" "$stage"
office xlsx "$stage/demo" "$stage"/xlsx/*.xlsx
office xlsx "$stage/demo/bench" "$stage"/xlsx/bench/*.xlsx
office xls "$stage/demo" "$stage"/xls/*.xlsx
"$python" "$src/build.py" settle "$stage/demo"

mkdir -p "$demo"
find "$demo" -mindepth 1 -delete
cp -R "$stage/demo/." "$demo/"
