#!/bin/sh
# demo.sh FLOWSHELF: copies the demo folder to a scratch place under $TMPDIR (or
# /tmp), runs February and then March on it, and leaves it there to be looked at.
set -eu
case $1 in
/*) flowshelf=$1 ;;
*) flowshelf=$PWD/$1 ;;
esac
demo=$(cd "$(dirname "$0")/demo" && pwd)
folder=$(mktemp -d "${TMPDIR:-/tmp}/flowshelf-demo.XXXXXX")

run() { # exit code 3 says that questions are open or files set aside: a success here
  code=0
  "$flowshelf" run "$folder" --date "$1" || code=$?
  [ "$code" = 0 ] || [ "$code" = 3 ] || exit "$code"
}

# February has not got what came later.
cp -R "$demo/." "$folder/"
for later in "bench/LKC-12 cyl 1 and 3.xlsx" "bench/PW-46.xlsx" "Pellworth list 4-1.xlsx" \
  "Oastbridge net.xlsx" "stock 2026-02-28.xlsx"; do
  rm "$folder/$later"
done
echo "== February: the folder as it stood on 2026-02-16"
run 2026-02-16

cp -R "$demo/." "$folder/"
echo
echo "== March: the whole folder on 2026-03-16"
run 2026-03-16

echo
echo "== March: the month's review"
"$flowshelf" review "$folder" --date 2026-03-16
