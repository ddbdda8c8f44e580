"""Asks another validator what the program's own reading says of files and of parts of them.

    schemas.py FOLDER           every case gets the same answer
    schemas.py --spoil FOLDER   every keyword that is taken out of a schema is noticed

FOLDER holds `schemas/*.schema.json`, `shapes.jsonl` and `values.jsonl`, as `tests/it/schemas.rs`
writes them. A case has the value, what the program said of it (`taken`), and where in the schema it
was changed (`at`).
"""
import collections
import copy
import importlib.metadata
import json
import pathlib
import sys

from jsonschema import Draft202012Validator

# Keywords that judge. What a key is called is judged by `additionalProperties`.
JUDGES = ["type", "required", "additionalProperties", "enum", "const", "oneOf", "anyOf", "pattern",
          "propertyNames", "maximum", "minimum", "minProperties", "maxLength"]


def read(folder):
    schemas = {}
    for path in sorted((folder / "schemas").glob("*.schema.json")):
        schema = json.loads(path.read_text())
        Draft202012Validator.check_schema(schema)
        assert schema["$schema"] == Draft202012Validator.META_SCHEMA["$id"], path
        for key in ("$id", "title", "description"):
            assert schema[key].strip(), (path, key)
        schemas[path.name.removesuffix(".schema.json")] = schema
    assert len({schema["$id"] for schema in schemas.values()}) == len(schemas)
    cases = []
    for name in ("shapes.jsonl", "values.jsonl"):
        cases += [json.loads(line) for line in (folder / name).read_text().splitlines()]
    return schemas, cases


def compare(schemas, cases):
    validators = {name: Draft202012Validator(schema) for name, schema in schemas.items()}
    counts, wrong = collections.Counter(), []
    for case in cases:
        said = validators[case["schema"]].is_valid(case["value"])
        counts[case["kind"], "taken" if case["taken"] else "refused"] += 1
        if said != case["taken"]:
            why = [error.message[:150] for error in validators[case["schema"]].iter_errors(case["value"])]
            wrong.append(f"{case['schema']}{case['at']}: taken {case['taken']}: {why}\n"
                         f"    {json.dumps(case['value'], ensure_ascii=False)[:400]}")
    for (kind, said), count in sorted(counts.items()):
        print(f"{kind}: {count} {said}")
    if wrong:
        sys.exit("\n".join(wrong[:20]) + f"\n{len(wrong)} of {len(cases)} cases differ")
    print(f"{len(cases)} cases, {len(schemas)} schemas: jsonschema {importlib.metadata.version('jsonschema')} agrees")


def keywords(schema, path=()):
    """Each keyword that judges, and each key of `required`, as a path."""
    if isinstance(schema, list):
        for index, inner in enumerate(schema):
            yield from keywords(inner, (*path, index))
    if not isinstance(schema, dict):
        return
    is_keys = path and path[-1] in ("properties", "$defs")
    for key, inner in schema.items():
        if not is_keys and key in JUDGES:
            yield (*path, key)
            if key == "required" and len(inner) > 1:
                yield from ((*path, key, index) for index in range(len(inner)))
        if is_keys or key not in ("enum", "required", "type", "default"):
            yield from keywords(inner, (*path, key))


def without(schema, path):
    spoiled = copy.deepcopy(schema)
    inner = spoiled
    for key in path[:-1]:
        inner = inner[key]
    del inner[path[-1]]
    return spoiled


def near(case, path):
    """How much of its place a case shares with a keyword: the nearest are asked first."""
    place = case["at"].strip("/").split("/")
    return -sum(1 for one, other in zip(place, map(str, path)) if one == other), len(place)


def spoil(schemas, cases):
    """A keyword is noticed when some case that was refused is now taken, or the other way round."""
    removed, unnoticed = 0, []
    for name, schema in schemas.items():
        own = [case for case in cases if case["schema"] == name]
        for path in keywords(schema):
            validator = Draft202012Validator(without(schema, path))
            removed += 1
            order = sorted(own, key=lambda case: near(case, path))
            if not any(validator.is_valid(case["value"]) != case["taken"] for case in order):
                unnoticed.append(f"{name}: {'/'.join(map(str, path))}")
    if unnoticed:
        sys.exit("\n".join(unnoticed[:60]) + f"\n{len(unnoticed)} of {removed} keywords are not noticed")
    print(f"each of {removed} keywords is noticed when it is taken out")


schemas, cases = read(pathlib.Path(sys.argv[-1]))
(spoil if "--spoil" in sys.argv else compare)(schemas, cases)
