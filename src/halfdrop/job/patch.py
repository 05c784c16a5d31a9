"""RFC 6902 patches on the raw document. (A first, working version by the lead so that the audit can run; helper H1 replaces it.)"""

from __future__ import annotations

import copy
from typing import Any

import jsonpatch
import jsonpointer

from halfdrop.base.errors import InputError

Document = dict[str, Any]
Patch = list[dict[str, Any]]


def touched(patch: Patch) -> set[str]:
    """Return the pointers a patch writes to."""
    found = {op["path"] for op in patch if op["op"] != "test"}
    return found | {op["from"] for op in patch if op["op"] == "move"}


def apply(document: Document, patch: Patch) -> Document:
    """Return the document behind a patch; only touched branches are copied."""
    fresh: Any = dict(document)
    for pointer in touched(patch):
        node = fresh
        for part in jsonpointer.JsonPointer(pointer).parts[:-1]:
            if isinstance(node, dict) and part in node and isinstance(node[part], dict | list):
                node[part] = copy.copy(node[part])
                node = node[part]
            else:
                break
    try:
        result: Document = jsonpatch.JsonPatch(copy.deepcopy(patch)).apply(fresh, in_place=True)
    except (jsonpatch.JsonPatchException, jsonpointer.JsonPointerException) as error:
        raise InputError(f"the patch cannot be applied: {error}") from error
    return result
