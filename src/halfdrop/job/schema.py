"""The published schema of the job document: JSON Schema 2020-12, made from the models.

It tells an editor what may stand where. What only halfdrop itself can judge (a wall between corners that are
neighbors, a rug over a rug that is there) is not in it; `halfdrop check` is the whole judge.
"""

from __future__ import annotations

from typing import Any

from halfdrop.job.model import VERSION, Job

Schema = dict[str, Any]

_DIALECT = "https://json-schema.org/draft/2020-12/schema"
_ZERO = r"0+([.,]0+)?"
_DIGIT = "[0-9¼-¾⅐-⅞]"

#: What a typed quantity must look like, by the beginning of its description. Everything that is read matches;
#: a text that matches may still be refused, with a reason.
PATTERNS = {
    "a length": rf"^\s*[-−–]?\s*({_ZERO}|[\s\S]*{_DIGIT}[\s\S]*['\"′″’”`´A-Za-z]\.?)\s*$",
    "an angle": rf"^\s*[-−–]?\s*({_ZERO}|[\s\S]*{_DIGIT}[\s\S]*['\"′″’”°º˚A-Za-z]\.?)\s*$",
    "an area": rf"^\s*({_ZERO}|[\s\S]*{_DIGIT}[\s\S]*[A-Za-z2²]\.?)\s*$",
    "a weight": rf"^\s*({_ZERO}|[\s\S]*{_DIGIT}[\s\S]*[A-Za-z]\.?)\s*$",
    "a volume": rf"^\s*({_ZERO}|[\s\S]*{_DIGIT}[\s\S]*[A-Za-z3³]\.?)\s*$",
    "a spread": rf"^[\s\S]*{_DIGIT}[\s\S]*(/|\b[Pp][Ee][Rr]\b|\b[Aa]\b)[\s\S]*[A-Za-z3³]\.?\s*$",
    "a cloth weight": rf"^\s*({_ZERO}|[\s\S]*{_DIGIT}[\s\S]*[A-Za-z2²]\.?)\s*$",
    "a price": r"^(\s*[^0-9\s][\s\S]*[0-9][\s\S]*|[\s\S]*[0-9][\s\S]*[^0-9\s.,]\s*)$",
}


def json_schema() -> Schema:
    """Return the JSON Schema of the current version of the job document."""
    schema: Schema = Job.model_json_schema(by_alias=True)
    for part in (schema, *schema["$defs"].values()):
        _mend(part)
    for part, key, word in (
        ("Survey", "corners", "[A-Z][0-9]{0,2}"),
        ("Treatment", "openings", "[a-z0-9][a-z0-9_-]*"),
    ):
        _or_words(schema["$defs"][part]["properties"][key], word)
    return {
        "$schema": _DIALECT,
        "$id": f"urn:halfdrop:job:{VERSION}",
        **schema,
        "title": f"halfdrop job, version {VERSION}",
    }


def _or_words(field: Schema, word: str) -> None:
    """Let a list of words be written as one text with spaces as well."""
    listed = {key: field.pop(key) for key in list(field)}
    field["anyOf"] = [listed, {"type": "string", "pattern": rf"^\s*{word}(\s+{word})*\s*$"}]


def _mend(schema: Any) -> None:
    """Close maps to keys of no pattern, give typed quantities their pattern, drop titles made of keys."""
    if isinstance(schema, list):
        for item in schema:
            _mend(item)
    if not isinstance(schema, dict):
        return
    for below in schema.get("properties", {}).values():
        below.pop("title", None)
    if "patternProperties" in schema:
        schema.setdefault("additionalProperties", False)
    what = str(schema.get("description", "")).removesuffix(", as typed")
    if what in PATTERNS and schema.get("type") == "string":
        schema["pattern"] = PATTERNS[what]
        if what not in ("a price", "a spread"):
            schema["type"] = ["string", "number"]
            schema["minimum"] = schema["maximum"] = 0
            schema["description"] = f"{what}, as typed; a bare number only where it is 0"
    for key in ("properties", "patternProperties"):
        for below in schema.get(key, {}).values():
            _mend(below)
    for key in ("items", "anyOf", "additionalProperties"):
        _mend(schema.get(key))
