"""Documents and patches for the tests of this folder: one good job, and generated JSON of any shape."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

from halfdrop.job.patch import apply, pointer_of

GOOD = """\
# A small job: one room, one sofa.
halfdrop: 1   # version of the document
job:
  name: Elm Row 4
  units: imperial

rooms:
  # the only room so far
  living:
    name: Living room
    use: {living: true}
    survey:
      corners: A B C D        # counterclockwise
      walls: {AB: 18' 3/16", BC: "14' 1/4\\"", CD: 18', DA: 14 ft}
      ties:
        AC: 22' 9 3/4"
    pieces:
      sofa:                   # the client's own
        type: sofa
        width: 84 in
        depth: 2,13 m
        height: 30 in
        at: {wall: AB, along: 3 ft, off: 0}
        keep: true
    # rugs come last
    rugs:
      old: {width: 8', length: 10', at: {x: 9', y: 7'}, price: "$1,150"}

# proposals
schemes:
  calm:
    name: Calm
    steps:
      - title: Turn the rug
        patch:
          - {op: add, path: /rooms/living/rugs/old/turn, value: 90°}
      - title: Off the wall
        patch:
          - {op: replace, path: /rooms/living/pieces/sofa/at/off, value: 4 in}
# end
"""

scalars = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-1000, 1000),
    st.floats(allow_nan=False, allow_infinity=False, width=32),
    st.sampled_from(
        ["12' 6 1/2\"", "6½″", "no", "1:30", "12", "true", "", "a: b", "# x", "- y", "$1,150", "[", "a/b~c"]
    ),
    st.text(st.characters(exclude_categories=("Cs",)), max_size=12),
)
keys = st.one_of(
    st.sampled_from(["a", "b", "sofa", "y", "no", "12", "a/b", "m~n", "", "-", "on", "<<", "x y"]),
    st.text(st.characters(exclude_categories=("Cs",)), max_size=6),
)
values = st.recursive(
    scalars,
    lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(keys, inner, max_size=4)),
    max_leaves=12,
)
documents = st.dictionaries(keys, values, max_size=5)


def places(value: Any, steps: tuple[str, ...] = ()) -> list[tuple[str, ...]]:
    """Return every path in a document, its root too."""
    found = [steps]
    if isinstance(value, dict):
        for key, item in value.items():
            found += places(item, (*steps, key))
    elif isinstance(value, list):
        for i, item in enumerate(value):
            found += places(item, (*steps, str(i)))
    return found


def _at(document: Any, steps: tuple[str, ...]) -> Any:
    for step in steps:
        document = document[int(step)] if isinstance(document, list) else document[step]
    return document


@st.composite
def targets(draw: st.DrawFn, document: Any) -> tuple[str, ...]:
    """Draw a path that something may be added at."""
    containers = [steps for steps in places(document) if isinstance(_at(document, steps), dict | list)]
    if not containers:
        return ()
    steps = draw(st.sampled_from(containers))
    inside = _at(document, steps)
    if isinstance(inside, list):
        return (*steps, draw(st.sampled_from([*map(str, range(len(inside) + 1)), "-"])))
    known = list(inside)
    return (*steps, draw(st.one_of(st.sampled_from(known), keys) if known else keys))


@st.composite
def operations(draw: st.DrawFn, document: Any) -> dict[str, Any]:
    """Draw one operation that can be done on a document."""
    here = st.sampled_from(places(document))
    inner = [steps for steps in places(document) if steps]
    op = draw(
        st.sampled_from(["add", "remove", "replace", "move", "copy", "test"] if inner else ["add", "replace"])
    )
    if op == "remove":
        return {"op": op, "path": pointer_of(draw(st.sampled_from(inner)))}
    if op == "replace":
        steps = draw(st.sampled_from(inner)) if inner else ()
        return {"op": op, "path": pointer_of(steps), "value": draw(values if steps else documents)}
    if op == "test":
        steps = draw(here)
        return {"op": op, "path": pointer_of(steps), "value": _at(document, steps)}
    if op == "copy":
        return {"op": op, "from": pointer_of(draw(here)), "path": pointer_of(draw(targets(document)))}
    if op == "move":
        source = draw(st.sampled_from(inner))
        without = apply(document, [{"op": "remove", "path": pointer_of(source)}])
        target = draw(targets(without))
        into_itself = target != source and target[: len(source)] == source
        return {"op": op, "from": pointer_of(source), "path": pointer_of(source if into_itself else target)}
    return {"op": op, "path": pointer_of(draw(targets(document))), "value": draw(values)}


@st.composite
def patches(draw: st.DrawFn, document: Any) -> list[dict[str, Any]]:
    """Draw up to five operations that can be done one after another."""
    patch: list[dict[str, Any]] = []
    for _ in range(draw(st.integers(1, 5))):
        op = draw(operations(document))
        patch.append(op)
        document = apply(document, [op])
    return patch


@st.composite
def patched(draw: st.DrawFn) -> tuple[dict[str, Any], list[dict[str, Any]]]:
    """Draw a document and a patch on it."""
    document = draw(documents)
    return document, draw(patches(document))
