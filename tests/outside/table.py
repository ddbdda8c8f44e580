"""Reads the entries that left as a Parquet file with another reader, and compares them with the lines.

    table.py FOLDER

FOLDER holds `entries.parquet` and `entries.jsonl` of one plant, as `tests/it/export.rs` writes them.
"""
import datetime
import decimal
import hashlib
import json
import pathlib
import sys

import duckdb

folder = pathlib.Path(sys.argv[1])
lines = (folder / "entries.jsonl").read_bytes().splitlines(keepends=True)
table = duckdb.read_parquet(str(folder / "entries.parquet"))
kinds = dict(zip(table.columns, map(str, table.types)))
assert kinds["instant"] == "TIMESTAMP WITH TIME ZONE" and kinds["sound"] == "BOOLEAN", kinds
rows = duckdb.sql("select epoch_ms(instant) as moment, * exclude instant from 'TABLE'".replace(
    "TABLE", str(folder / "entries.parquet")))
names = rows.columns
seen = 0
for line, cells in zip(lines, rows.fetchall(), strict=True):
    row, entry = dict(zip(names, cells)), json.loads(line)
    assert row.pop("entry") == line and row.pop("sha256") == hashlib.sha256(line).hexdigest()
    assert row.pop("signature").startswith(b"-----BEGIN SSH SIGNATURE-----")
    assert row.pop("record") == entry["job"] and int(row.pop("file")) == entry["seq"]
    assert row.pop("sound") is True
    moment = datetime.datetime.fromisoformat(entry["at"].replace("Z", "+00:00"))
    assert row.pop("moment") == moment.timestamp() * 1000
    taken = entry.pop("reading", {})
    assert {name: cell for name, cell in row.items() if cell is not None} == {**entry, **taken}
    if "value" in taken:
        value = duckdb.sql(f"select '{taken['value']}'::decimal(30, 10)").fetchall()[0][0]
        assert value == decimal.Decimal(taken["value"])
    seen += 1
print(f"{seen} entries read from Parquet by duckdb {duckdb.__version__}, equal to their lines")
