"""A circuit's shape in the plan: a tree over element ids, or edges where a tree nests too deep.

A ladder nests one branch in the other, and readers of JSON give up somewhere between a
hundred and a thousand levels. A deep ladder is therefore stated as edges between nodes.
"""

from __future__ import annotations

from compiler.model.solved import Branch, Series

DEEPEST = 200  # branches; twice as many levels of JSON

Json = dict[str, object]


def shape(branch: Branch | None) -> Json:
    """`{tree}` for a tree of ordinary depth, `{edges}` for a deeper one, null where unknown."""
    if branch is None:
        return {"tree": None}
    if depth(branch) > DEEPEST:
        return {"edges": edges(branch)}
    return {"tree": _tree(branch)}


def walked(branch: Branch) -> list[str]:
    """The elements from the channel outward, each branch of a fork after the other."""
    ids: list[str] = []
    todo: list[Branch] = [branch]
    while todo:
        node = todo.pop()
        if isinstance(node, str):
            ids.append(node)
        else:
            todo.extend(reversed(node.parts))
    return ids


def depth(branch: Branch) -> int:
    """How many branches lie around the innermost element; 0 for a single element."""
    deepest = 0
    todo: list[tuple[Branch, int]] = [(branch, 0)]
    while todo:
        node, level = todo.pop()
        if isinstance(node, str):
            deepest = max(deepest, level)
        else:
            todo.extend((part, level + 1) for part in node.parts)
    return deepest


def edges(branch: Branch) -> list[Json]:
    """Each element between two numbered nodes; 0 and 1 are the channel's two terminals."""
    made: list[Json] = []
    nodes = 2
    todo: list[tuple[Branch, int, int]] = [(branch, 0, 1)]
    while todo:
        node, a, b = todo.pop()
        if isinstance(node, str):
            made.append({"id": node, "a": a, "b": b})
        elif isinstance(node, Series):
            inner = range(nodes, nodes + len(node.parts) - 1)
            nodes += len(inner)
            ends = [a, *inner, b]
            todo.extend(reversed(list(zip(node.parts, ends, ends[1:], strict=False))))
        else:
            todo.extend((part, a, b) for part in reversed(node.parts))
    return made


def _tree(branch: Branch) -> object:
    if isinstance(branch, str):
        return branch
    how = "series" if isinstance(branch, Series) else "parallel"
    return {how: [_tree(part) for part in branch.parts]}
