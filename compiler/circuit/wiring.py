"""From a circuit as written to its elements and their series-parallel tree.

The tree is seen from the channel. Both conductors of every cable count, so a run of `length_m`
has twice that length of conductor. A line with wire between its matches is a ladder of segments
and never a lumped parallel. Nothing here recurses: a ladder of 500 matches is 500 levels deep.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import pairwise
from typing import TYPE_CHECKING

from compiler.circuit.temperature import factors
from compiler.model.quantities import Given
from compiler.model.solved import Element, Parallel, Series, Wiring
from compiler.model.types import Group, Run
from grammar.findings import Finding

if TYPE_CHECKING:
    from collections.abc import Sequence

    from compiler.model.solved import Branch
    from compiler.model.types import Circuit, Model


def build_wiring(circuit: Circuit, model: Model) -> tuple[Wiring | None, tuple[Finding, ...]]:
    """The wiring of one circuit, or None and the findings that say what is missing.

    Rules: `not-computed` for a length, cable or igniter that is not known,
    `missing-firing-data` for a match type without a bridge resistance.
    """
    builder = _Builder(circuit, model)
    tree = _assemble(builder)
    if tree is None or builder.findings:
        return None, tuple(builder.findings)
    return Wiring(builder.elements, tree, _topology(circuit.wiring)), ()


@dataclass(slots=True)
class _Member:
    """A finished member of a group: its branch and the matches in it, in wiring order."""

    branch: Branch
    names: tuple[str, ...]


@dataclass(slots=True)
class _Frame:
    """A group whose members are being built."""

    group: Group
    done: list[_Member] = field(default_factory=list)


class _Builder:
    """Collects the elements and findings of one circuit."""

    __slots__ = ("circuit", "elements", "findings", "model")

    def __init__(self, circuit: Circuit, model: Model) -> None:
        self.circuit = circuit
        self.model = model
        self.elements: dict[str, Element] = {}
        self.findings: list[Finding] = []

    def missing(self, headline: str, hint: str, role: str = "") -> None:
        """Note once that something this circuit needs is not known."""
        finding = Finding(
            "not-computed",
            headline,
            at=f"circuit:{self.circuit.name}",
            role=role,
            subject=f"circuit {self.circuit.name}",
            detail="Its currents are not known, so nothing says that its matches fire.",
            hint=hint,
        )
        if finding not in self.findings:
            self.findings.append(finding)

    def add(self, element: Element) -> str:
        """Keep an element under an id of its own."""
        wanted, count = element.id, 1
        key = wanted
        while key in self.elements:
            count += 1
            key = f"{wanted}#{count}"
        if key != wanted:
            element = _renamed(element, key)
        self.elements[key] = element
        return key

    def cable(self, key: str, what: str, run: Run, match: str | None = None) -> list[Branch]:
        """A two-conductor run as one element; nothing where it has no length."""
        name = self.circuit.name
        if run.length_m is None:
            self.missing(
                f"circuit {name}: the length of its {what} is not known",
                f"Say how long it is, as in `{what if what == 'lead' else 'spaced'} 12 m`.",
                "lead" if what == "lead" else "spaced",
            )
            return []
        if run.length_m == 0.0:
            return []
        cable = self.model.cables.get(run.cable or "")
        if cable is None:
            told = f"cable {run.cable}, which is" if run.cable else "a cable that is"
            self.missing(
                f"circuit {name}: its {what} is of {told} not known",
                "Name a cable that the show or the catalogue declares, as in `lead zip-18`.",
                "lead" if what == "lead" else "",
            )
            return []
        cold, hot = factors(self.model, cable.alpha_per_k)
        loop = cable.ohm_per_m.times(2.0 * run.length_m)
        element = Element(
            key,
            what,
            cable.name,
            cable.metal,
            run.length_m,
            match,
            cable.alpha_per_k,
            loop,
            Given(loop.low * cold, loop.nominal, loop.high * hot),
        )
        return [self.add(element)]

    def match(self, name: str) -> _Member:
        """One match as it hangs on the line: two joints, two leg wires, the bridge."""
        use = self.model.match_uses.get(name)
        kind = self.model.matches.get(use.igniter or "") if use is not None else None
        if kind is None:
            self.missing(
                f"circuit {self.circuit.name}: the match type of {name} is not known",
                "Say it in the effect, as in `match generic-match`.",
            )
            return _Member(Series(()), (name,))
        if kind.bridge_ohm is None:
            self.findings.append(_no_bridge(kind.name))
            return _Member(Series(()), (name,))
        parts: list[Branch] = []
        joints = self.model.show.joint_ohm.times(2.0)
        if joints.high > 0.0:
            splice = Element(f"splice:{name}", "splice", "joint", None, None, name, 0.0, joints, joints)
            parts.append(self.add(splice))
        if kind.leg_length_m > 0.0:
            legs = Run(kind.leg_length_m, kind.leg_cable)
            parts += self.cable(f"leg:{name}", "leg", legs, name)
        ohm = kind.bridge_ohm
        bridge = Element(f"bridge:{name}", "bridge", kind.name, None, None, name, 0.0, ohm, ohm)
        parts.append(self.add(bridge))
        return _Member(_series(parts), (name,))

    def group(self, group: Group, members: Sequence[_Member], *, outermost: bool) -> _Member:
        """Members joined as the group says, behind the group's own lead."""
        names = tuple(name for member in members for name in member.names)
        first = names[0] if names else ""
        parts: list[Branch] = []
        if group.lead is not None:
            parts += self.cable("lead" if outermost else f"lead:{first}", "lead", group.lead)
        gaps = self.gaps(group, members)
        if group.how != "parallel":
            for member, gap in zip(members, [*gaps, []], strict=True):
                parts += [member.branch, *gap]
        elif group.spacing is None:
            parts.append(_parallel([member.branch for member in members]))
        else:
            fed = self.fed_member(group, members)
            parts.append(_ladder([member.branch for member in members], gaps, fed))
        return _Member(_series(parts), names)

    def gaps(self, group: Group, members: Sequence[_Member]) -> list[list[Branch]]:
        """The cable between neighbours, one entry per gap; empty entries where there is none."""
        if group.spacing is None:
            return [[] for _ in members[1:]]
        return [
            self.cable(f"segment:{left.names[0]}>{right.names[0]}", "segment", group.spacing)
            for left, right in pairwise(members)
        ]

    def fed_member(self, group: Group, members: Sequence[_Member]) -> int:
        """The index of the member at which the lead comes in."""
        if group.feed_at is None:
            return 0
        for index, member in enumerate(members):
            if group.feed_at in member.names:
                return index
        self.missing(
            f"circuit {self.circuit.name}: its lead goes to {group.feed_at}, which is not on the line",
            f"Name one of its matches, as in `to {members[0].names[0]}`.",
            "lead",
        )
        return 0


def _renamed(element: Element, key: str) -> Element:
    """The same element under another id."""
    e = element
    return Element(key, e.what, e.part, e.metal, e.length_m, e.match, e.alpha_per_k, e.ohm_20, e.ohm)


def _no_bridge(kind: str) -> Finding:
    """The finding for a match type without a bridge resistance; the same for every circuit of it."""
    return Finding(
        "missing-firing-data",
        f"match type {kind} states no bridge resistance",
        at=f"match:{kind}",
        role="bridge",
        subject=f"match type {kind}",
        values={"missing": "bridge"},
        detail="Without it no current in any circuit with this match can be computed.",
        hint="Take it from the maker's data sheet, as in `bridge 1.6 ohm +- 0.2 ohm`.",
    )


def _assemble(builder: _Builder) -> Branch | None:
    """The tree of the whole circuit, built from the innermost groups outward."""
    stack = [_Frame(builder.circuit.wiring)]
    while True:
        frame = stack[-1]
        if len(frame.done) < len(frame.group.members):
            member = frame.group.members[len(frame.done)]
            if isinstance(member, Group):
                stack.append(_Frame(member))
            else:
                frame.done.append(builder.match(member))
            continue
        if not frame.done:
            name = builder.circuit.name
            builder.missing(
                f"circuit {name} has a group without a match",
                "Put a match into it, or take the group out.",
            )
            return None
        stack.pop()
        built = builder.group(frame.group, frame.done, outermost=not stack)
        if not stack:
            return built.branch
        stack[-1].done.append(built)


def _series(parts: Sequence[Branch]) -> Branch:
    """Parts one after another, without series inside series."""
    flat: list[Branch] = []
    for part in parts:
        flat += part.parts if isinstance(part, Series) else (part,)
    return flat[0] if len(flat) == 1 else Series(tuple(flat))


def _parallel(parts: Sequence[Branch]) -> Branch:
    """Parts side by side, without parallel inside parallel."""
    flat: list[Branch] = []
    for part in parts:
        flat += part.parts if isinstance(part, Parallel) else (part,)
    return flat[0] if len(flat) == 1 else Parallel(tuple(flat))


def _ladder(taps: Sequence[Branch], gaps: Sequence[Sequence[Branch]], fed: int) -> Branch:
    """A line tapped along its length: the fed member and an arm to each side."""
    right = _arm([(taps[k], gaps[k - 1]) for k in range(fed + 1, len(taps))])
    left = _arm([(taps[k], gaps[k]) for k in range(fed - 1, -1, -1)])
    return _parallel([taps[fed], *right, *left])


def _arm(rungs: Sequence[tuple[Branch, Sequence[Branch]]]) -> list[Branch]:
    """Rungs (tap, the gap before it) in order from the feed, folded from the far end inward."""
    arm: list[Branch] = []
    for tap, gap in reversed(rungs):
        arm = [_series([*gap, _parallel([tap, *arm])])]
    return arm


def _topology(group: Group) -> str:
    """`single`, `series`, `parallel` or `mixed`: which ways of joining occur in the circuit."""
    ways: set[str] = set()
    stack = [group]
    while stack:
        here = stack.pop()
        if len(here.members) > 1:
            ways.add("parallel" if here.how == "parallel" else "series")
        stack += [member for member in here.members if isinstance(member, Group)]
    if len(ways) == 2:
        return "mixed"
    return ways.pop() if ways else "single"
