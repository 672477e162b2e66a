#!/usr/bin/env bash
# Fuzzes one target for some minutes: run.sh TARGET MINUTES [FOLDER]. Needs afl-fuzz (Debian's afl++).
# What is found lies in FOLDER/TARGET/default/crashes and /hangs; left out, FOLDER is .artifacts/fuzz.
set -euo pipefail
target=${1:?the name of a target} minutes=${2:?for how many minutes}
here=$(cd "$(dirname "$0")" && pwd)
folder=${3:-$here/../../.artifacts/fuzz}
mkdir -p "$folder"
folder=$(cd "$folder" && pwd)
program=$folder/program

if [ ! -e "$program/instrumented" ] || [ -n "$(find "$here/../../src" "$here" "$here/../CureWatch.Benchmarks/Power" -name '*.cs' -newer "$program/instrumented" -print -quit)" ]; then
  rm -rf "$program" "$folder/plain"
  dotnet publish -v q -c Release -o "$folder/plain" "$here"
  cp -r "$folder/plain" "$program"
  for assembly in CureWatch.Library curewatch; do
    dotnet "$folder/plain/CureWatch.Fuzz.dll" instrument "$program/$assembly.dll"
  done
  touch "$program/instrumented"
fi

rm -rf "$folder/$target" && mkdir -p "$folder/$target"
dotnet "$folder/plain/CureWatch.Fuzz.dll" seeds "$target" "$folder/$target/seeds" "$folder/$target/words"

# afl-fuzz checks the program that it starts, which is dotnet itself; a crash is told by exit status, so no core need be written.
export AFL_SKIP_BIN_CHECK=1 AFL_I_DONT_CARE_ABOUT_MISSING_CRASHES=1 AFL_SKIP_CPUFREQ=1 AFL_NO_AFFINITY=1 AFL_NO_UI=1
export DOTNET_TieredPGO=0
exec afl-fuzz -i "$folder/$target/seeds" -o "$folder/$target" -x "$folder/$target/words" -m none -t 20000 -V $((minutes * 60)) \
  -- dotnet "$program/CureWatch.Fuzz.dll" "$target"
