#!/usr/bin/env bash
# The command line as its user calls it: what it prints, where, and its exit codes.
# usage: tests/cli/run.sh PATH-TO-AWLMARK
set -uo pipefail
cd "$(dirname "$0")/../.."
awlmark=$(realpath "$1")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
passed=0
failed=0

# expect NAME CODE -- COMMAND...: runs it, keeps out/err, checks the exit code.
expect() {
  name=$1 want=$2
  shift 3
  "$@" >"$work/out" 2>"$work/err" </dev/null
  got=$?
  if [ $got -eq "$want" ]; then passed=$((passed + 1)); else failed=$((failed + 1)); echo "FAILED $name: exit $got, not $want"; head -5 "$work/err"; fi
}
holds() { # holds NAME COMMAND...: the command succeeds
  name=$1
  shift
  if "$@" >/dev/null 2>&1; then passed=$((passed + 1)); else failed=$((failed + 1)); echo "FAILED $name: $*"; fi
}
empty() { [ ! -s "$1" ]; }

expect "version" 0 -- "$awlmark" --version
expect "help" 0 -- "$awlmark" --help
expect "no command" 2 -- "$awlmark"
expect "unknown command" 2 -- "$awlmark" serves
holds "usage problems leave standard output empty" empty "$work/out"

for job in laundry-1954 clubhouse-washroom-1972; do
  expect "survey $job" 0 -- "$awlmark" survey "examples/$job.json"
  holds "survey speaks of the deck" grep -q "deck" "$work/out"
  expect "survey --json $job" 0 -- "$awlmark" survey "examples/$job.json" --json
  holds "survey --json has the grid" python3 -c "
import json;d=json.load(open('$work/out'))['survey'];g=d['grid']
assert all(len(l['p_unsound'])==g['nx']*g['ny'] for l in d['layers']);assert 'unsound_sf' in d and 'stop' in d"
  expect "assess --json $job" 0 -- "$awlmark" assess "examples/$job.json" --json
  cp "$work/out" "$work/$job.1"
  holds "assess --json has the contract's keys" python3 tests/cli/contract.py "$work/out"
  expect "assess again $job" 0 -- "$awlmark" assess "examples/$job.json" --json
  holds "the same job gives the same bytes" cmp -s "$work/out" "$work/$job.1"
  expect "assess $job as text" 0 -- "$awlmark" assess "examples/$job.json"
  holds "assess is one screen" test "$(wc -l <"$work/out")" -le 45
  holds "assess says price and date" grep -qE "^  (Price|Done)" "$work/out"
  expect "assess $job, whole stages" 0 -- "$awlmark" assess "examples/$job.json" --stages floor,price
  holds "assess says how it may be rebuilt" grep -q "Ways to rebuild" "$work/out"
  expect "assess $job, take-off as CSV" 0 -- "$awlmark" assess "examples/$job.json" --csv take_off
  holds "every line of the CSV has its cells" python3 -c "
import csv;rows=list(csv.reader(open('$work/out',newline='')));assert len(rows)>10 and len({len(r) for r in rows})==1"
  expect "assess $job, calendar" 0 -- "$awlmark" assess "examples/$job.json" --calendar
  holds "the calendar has events" grep -q "BEGIN:VEVENT" "$work/out"
  expect "papers $job" 0 -- "$awlmark" papers "examples/$job.json" --out "$work/papers-$job"
  for paper in "$work/papers-$job"/*.html; do
    holds "$(basename "$paper") has a drawing" grep -q "<svg" "$paper"
    holds "$(basename "$paper") has print rules" grep -q "@media print" "$paper"
    holds "$(basename "$paper") is self-contained" bash -c "! grep -qE '(src|href)=.https?:' '$paper'"
  done
  for name in condition-report price-sheet framing-sheet scope-of-work crew-sheet crew-sheet-es change-order inspection-sheet drying-log photo-record \
    insurer-estimate handover annex; do
    holds "$name is written" test -s "$work/papers-$job/$name.html"
  done
done

# A fact of the trade (common practice, no source): taking out and redoing a rotten plank floor of a bath on girders
# four feet apart is about a week's labour of two, shower and laboratory apart.
"$awlmark" assess examples/clubhouse-washroom-1972.json --json --draws 200 2>/dev/null >"$work/week.json"
holds "about a week's labour" python3 -c "
import json;d=json.load(open('$work/week.json'))['work']['tasks']
h=sum(t['hours']['likely'] for t in d if t['who']=='crew');assert 50<=h<=110,h"

# The contractor's own rates: written, filled in, checked, imported; a mistake told by its line.
expect "rates write" 0 -- "$awlmark" rates write "$work/rates.csv"
expect "rates never overwrite" 2 -- "$awlmark" rates write "$work/rates.csv"
expect "the table as written can be used" 0 -- "$awlmark" rates check "$work/rates.csv"
sed -i 's/^rate,labour_per_hour,,,/rate,labour_per_hour,,99.5,/; s/^price,tile,,,/price,tile,,7.25,/' "$work/rates.csv"
expect "rates in the other form" 0 -- "$awlmark" rates write "$work/rates.json" --from "$work/rates.csv"
holds "both forms hold the same" python3 -c "
import json;r=json.load(open('$work/rates.json'))['rates'];assert r['labour_per_hour']==99.5 and r['prices']==[{'id':'tile','price':7.25,'unit':'sf'}]"
expect "rates import" 0 -- "$awlmark" rates import "$work/rates.json" examples/laundry-1954.json --out "$work/own.json"
holds "the job keeps its own answers beside them" python3 -c "
import json;r=json.load(open('$work/own.json'))['rates'];assert r['labour_per_hour']==99.5 and r['leave_unsound_per_sf']==90"
expect "assess with a file of rates" 0 -- "$awlmark" assess examples/laundry-1954.json --rates "$work/rates.csv" --draws 100 --json
holds "dearer labour is a dearer price" python3 -c "
import json;a=json.load(open('$work/out'))['price']['base'];b=json.load(open('$work/laundry-1954.1'))['price']['base'];assert a>b"
sed 's/^price,tile,,7.25,/price,tile,,7.25 usd,/' "$work/rates.csv" >"$work/wrong.csv"
expect "a mistake in the rates" 2 -- "$awlmark" rates check "$work/wrong.csv"
holds "is told by its line" grep -qE "line [0-9]+" "$work/err"

# A change order: the demo against itself with one mark more.
python3 - "$work/changed.json" <<'P'
import json,sys
job=json.load(open("examples/laundry-1954.json"))
job["marks"].append({"id":"later","at_in":[20,20],"layer":"deck","tool":"awl","reads":"gone","depth_in":0.75})
json.dump(job,open(sys.argv[1],"w"))
P
expect "change order" 0 -- "$awlmark" change examples/laundry-1954.json "$work/changed.json" --draws 100
holds "the change order names what was found" grep -q "mark later" "$work/out"

# A broken document: every problem with its place, nothing on standard output.
cat >"$work/broken.json" <<'J'
{"format":"awlmark-job","version":1,"rooom":{},"room":{"outline_in":[[0,0],[100,0],[100,80],[0,80]]},
 "layers":[{"id":"deck","material":"bord"}],
 "marks":[{"id":"a","at_in":[900,40],"layer":"deck","tool":"awl","reads":"soft"},{"id":"a","at_in":[50,40],"layer":"dek","tool":"meter"}]}
J
for command in survey assess check; do
  expect "$command on a broken job" 2 -- "$awlmark" $command "$work/broken.json"
  holds "$command prints nothing" empty "$work/out"
  for place in rooom 'layers\[0\].material' 'marks\[0\].at_in' 'marks\[1\].id' 'marks\[1\].layer' 'marks\[1\].mc_percent'; do
    holds "$command names $place" grep -q "$place" "$work/err"
  done
done
expect "papers on a broken job" 2 -- "$awlmark" papers "$work/broken.json" --out "$work/none"
holds "no folder is left" test ! -e "$work/none"
expect "a missing file" 2 -- "$awlmark" survey "$work/missing.json"
expect "a folder" 2 -- "$awlmark" survey "$work"
expect "an output that cannot be" 1 -- "$awlmark" papers examples/laundry-1954.json --out /proc/none

expect "new" 0 -- "$awlmark" new
cp "$work/out" "$work/new.json"
holds "new carries notes" grep -q '"note"' "$work/new.json"
expect "a new job can be surveyed" 0 -- "$awlmark" survey "$work/new.json"
expect "a new job can be assessed" 0 -- "$awlmark" assess "$work/new.json"
expect "new to a file" 0 -- "$awlmark" new "$work/fresh.json"
expect "new never overwrites" 2 -- "$awlmark" new "$work/fresh.json"

cat >"$work/edit.py" <<'P'
import json, sys
base = json.load(open('examples/laundry-1954.json'))
ours, theirs = (json.loads(json.dumps(base)) for _ in range(2))
ours['marks'][0]['note'] = 'ours'; ours['job']['name'] = 'A'
theirs['marks'].append({'id': 'new', 'at_in': [30, 30], 'layer': base['marks'][0].get('layer', 'deck'), 'tool': 'awl', 'reads': 'sound'}); theirs['later'] = 1
json.dump(ours, open(sys.argv[1] + '/ours.json', 'w')); json.dump(theirs, open(sys.argv[1] + '/theirs.json', 'w'))
theirs['job']['name'] = 'B'; json.dump(theirs, open(sys.argv[1] + '/clash.json', 'w'))
P
python3 "$work/edit.py" "$work"
expect "merge" 0 -- "$awlmark" merge examples/laundry-1954.json "$work/ours.json" "$work/theirs.json"
holds "merge has both edits" python3 -c "import json;d=json.load(open('$work/out'));assert d['later']==1 and d['marks'][0]['note']=='ours' and d['marks'][-1]['id']=='new'"
expect "merge with a conflict" 3 -- "$awlmark" merge examples/laundry-1954.json "$work/ours.json" "$work/clash.json" --json
holds "the conflict has both values" python3 -c "import json;c=json.load(open('$work/out'))['conflicts'];assert [(x['at'],x['ours'],x['theirs']) for x in c]==[('job.name','A','B')]"
expect "merge without an ancestor" 3 -- "$awlmark" merge "$work/ours.json" "$work/clash.json"
expect "merge of a missing file" 2 -- "$awlmark" merge "$work/ours.json" "$work/none.json"

expect "invite makes an office" 0 -- "$awlmark" invite --data "$work/office.db"
holds "a code of ten characters" grep -qE '^[0-9a-z]{10}$' "$work/out"
expect "verify" 0 -- "$awlmark" verify --data "$work/office.db"
expect "backup" 0 -- "$awlmark" backup --data "$work/office.db" "$work/backup.db"
expect "backup never overwrites" 2 -- "$awlmark" backup --data "$work/office.db" "$work/backup.db"
expect "restore" 0 -- "$awlmark" restore --data "$work/again.db" "$work/backup.db"
expect "jobs over a network need a certificate" 2 -- "$awlmark" serve --data "$work/office.db" --host 0.0.0.0
head -c 4000 /dev/urandom >"$work/broken.db"
expect "a file that is no office" 1 -- "$awlmark" verify --data "$work/broken.db"

expect "schema" 0 -- "$awlmark" schema
holds "schema is 2020-12" grep -q "2020-12" "$work/out"
cp "$work/out" "$work/job.schema"
expect "schema of findings" 0 -- "$awlmark" schema findings
cp "$work/out" "$work/findings.schema"
for job in laundry-1954 clubhouse-washroom-1972; do
  holds "$job is valid by the schema" tests/cli/schema.py "$work/job.schema" "examples/$job.json"
  holds "the findings of $job are valid by theirs" tests/cli/schema.py "$work/findings.schema" "$work/$job.1"
done
holds "a new job is valid by the schema" tests/cli/schema.py "$work/job.schema" "$work/new.json"
holds "a broken one is not" bash -c "! tests/cli/schema.py '$work/job.schema' '$work/broken.json'"

holds "no room of the engine uses one above it" python3 tests/cli/house.py

expect "reckon lists its topics" 0 -- "$awlmark" reckon
for topic in beam emc joist-span range member decking post joist-cuts; do
  holds "reckon lists $topic" grep -qw -- "$topic" "$work/out"
done
for topic in beam emc joist-span range; do expect "reckon $topic --help" 0 -- "$awlmark" reckon $topic --help; done
expect "an unknown topic" 2 -- "$awlmark" reckon bem
holds "the nearest topic is named" grep -q "beam" "$work/err"
echo '{"temp_f":70,"rh_percent":"wet","rh":3}' >"$work/q.json"
expect "a bad question" 2 -- "$awlmark" reckon emc --in "$work/q.json"
holds "a bad question answers nothing" empty "$work/out"
echo '{"temp_f":70,"rh_percent":50}' >"$work/q.json"
expect "emc" 0 -- "$awlmark" reckon emc --in "$work/q.json"
# Wood Handbook (FPL-GTR-282) Table 4-2: 70 F, 50 % gives 9.2 %.
holds "emc at 70 F and 50 % is 9.2 %" python3 -c "import json;d=json.load(open('$work/out'));assert abs(d['emc_percent']-9.2)<0.06 and d['reason']"

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
