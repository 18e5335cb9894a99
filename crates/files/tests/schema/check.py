"""Both schemas, held against good and broken files by a library that is not ours.

    check.py RINGWRIGHT ROOT

TOML is read by Python's own tomllib, the schemas by jsonschema (draft 2020-12).
"""

import json
import math
import pathlib
import subprocess
import sys
import tempfile
import tomllib

import jsonschema

RINGWRIGHT, ROOT = sys.argv[1], pathlib.Path(sys.argv[2])

# What only the reader can tell, and why no schema can.
READER_ONLY = {
    "inches_in_a_mm_file": "a range that depends on what `unit` says",
    "mm_in_an_inch_file": "a range that depends on what `unit` says",
    "rings_counted_with_height": "one key's value decides about another key",
    "same_names": "two entries of a list are compared",
    "too_many_rings": "a sum over entries",
    "upside_down": "neighbours in a list are compared",
}

# As the reader's own tests have them (crates/files/tests/units.rs).
LENGTHS = [
    "6 3/8 in", "6-3/8\"", "6 - 3/8 in", "6⅜\"", "6 ⅜ in", "6\u20448 in", "6 3/8″", "6 3/8”",
    "6 3/8''", "6 3/8’’", "3/4 in", "¾in", "½ inch", "162 mm", "162mm", "162", "16.2cm", "0.5 m",
    ".5 m", "5. mm", "1 ft 2 in", "1' 2\"", "1′ 2 1/2″", "1’ 2½”", "1 ft - 2 in", "2 feet",
    "-3 mm", "−3/4 in", "+3 mm", "  7 MM  ", "12 inches", "3/4", "6 3/8", "2",
]
NO_LENGTHS = ["", "six inches", "6 yards", "6,5 mm", "mm", "about 6 mm", "-"]


def schema(which):
    said = subprocess.run([RINGWRIGHT, "schema", which], capture_output=True, check=True)
    found = json.loads(said.stdout)
    jsonschema.Draft202012Validator.check_schema(found)
    return jsonschema.Draft202012Validator(found)


def plain(value):
    """TOML as JSON has it: no dates, no infinities."""
    if isinstance(value, dict):
        return {k: plain(v) for k, v in value.items()}
    if isinstance(value, list):
        return [plain(v) for v in value]
    if isinstance(value, float) and not math.isfinite(value):
        return None
    return value if isinstance(value, (str, bool, int, float)) else None


def read(path):
    try:
        return plain(tomllib.loads(path.read_bytes().decode("utf-8-sig")))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError, RecursionError):
        return None


def main():
    schemas = {which: schema(which) for which in ("project", "workshop")}
    wrong = []

    good = [(p, "project" if "\n[form]" in p.read_text() else "workshop")
            for p in sorted(ROOT.glob("examples/*.toml"))]
    with tempfile.TemporaryDirectory() as folder:
        for kind in ("bowl", "vase", "platter", "box"):
            for unit in ("mm", "inch"):
                path = pathlib.Path(folder) / f"{kind}-{unit}.toml"
                call = [RINGWRIGHT, "new", "--kind", kind, "--unit", unit, "--loops", "0", path]
                subprocess.run(call, check=True, capture_output=True)
                good.append((path, "project"))
        for path, which in good:
            for error in schemas[which].iter_errors(read(path)):
                wrong.append(f"{path.name}: {error.json_path}: {error.message[:200]}")

    caught = no_toml = 0
    for path in sorted(ROOT.glob("tests/broken/*.toml")):
        which = "workshop" if path.name.startswith("workshop") else "project"
        text = read(path)
        if text is None:
            no_toml += 1
            continue
        found = next(schemas[which].iter_errors(text), None)
        if found:
            caught += 1
        if bool(found) == (path.stem in READER_ONLY):
            how = "caught after all" if found else "not caught"
            wrong.append(f"{path.name}: {how}")

    length = schemas["project"].evolve(schema=schemas["project"].schema["$defs"]["length"])
    wrong += [f"no length: {t!r}" for t in LENGTHS if not length.is_valid(t)]
    wrong += [f"a length: {t!r}" for t in NO_LENGTHS if length.is_valid(t)]

    print(f"schema: {len(good)} good files; of the broken ones {caught} caught, {no_toml} no TOML "
          f"at all, {len(READER_ONLY)} for the reader alone")
    print("\n".join(wrong), end="\n" if wrong else "")
    return 1 if wrong or len(good) < 11 or caught < 30 else 0


sys.exit(main())
