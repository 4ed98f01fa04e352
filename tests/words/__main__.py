"""`python -m tests.words`: bring the catalogue up to the sources, and compile it.

New sentences are added without a translation and listed; write them into the `.po` file and run
it again. What no source says any more is taken out.
"""

from __future__ import annotations

import sys

from tests.words.catalogue import (
    TRANSLATED,
    as_mo,
    as_po,
    kept,
    messages,
    po_of,
    untranslated,
    updated,
)


def main() -> int:
    missing = 0
    for language in TRANSLATED:
        updated_now = updated(language)
        path = po_of(language)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(as_po(updated_now), encoding="utf-8")
        written = kept(language)
        path.with_suffix(".mo").write_bytes(as_mo(written))
        lacking = untranslated(written)
        missing += len(lacking)
        for message in lacking:
            print(f"{language}: no translation of {message.id!r}")
        print(f"{language}: {sum(1 for _ in messages(written))} sentences")
    return 1 if missing else 0


sys.exit(main())
