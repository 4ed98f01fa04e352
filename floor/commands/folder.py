"""Where the records are when nobody says."""

from __future__ import annotations

import os
import sys


def own_folder() -> str:
    """The user's own data folder, as platformdirs names it.

    On Linux it is the XDG Base Directory Specification's, told here: a card should not wait
    for platformdirs to be imported.
    """
    if sys.platform != "linux" or "ANDROID_DATA" in os.environ:
        from platformdirs import user_data_dir  # noqa: PLC0415

        return user_data_dir("bunchbook")
    base = os.environ.get("XDG_DATA_HOME", "")
    home = "~/.local/share"
    return f"{base if base.strip() else os.path.expanduser(home)}/bunchbook"  # noqa: PTH111
