"""The field as an electrician sees it: two conductors per cable, every joint a node.

Built from what the show says (groups, runs, feeds), not from the compiler's trees, so that a
wrong tree cannot agree with itself. Element values are looked up by the readable element id.
"""

from __future__ import annotations

from oracle.nodal import Edge, Network, Volts

from compiler.model.types import Circuit, Group, Model


def field_of(model: Model, rails_of: dict[str, str], alive: list[str]) -> Network:
    """One network of a supply, its feeds and rails, and the circuits alive, all on one supply.

    Keys: `emf`, `inner`, `feed:RAIL`, `driver:CIRCUIT`, `drop:CIRCUIT`, `CIRCUIT/element id`.
    """
    net = Network()
    bus = net.node()
    terminal = net.node()
    net.volts.append(Volts("emf", terminal, 0))
    net.edges.append(Edge("inner", terminal, bus))
    rails = dict.fromkeys(model.supplies, (bus, 0))

    def rail(name: str) -> tuple[int, int]:
        if name not in rails:
            feed = model.rails[name].feed
            assert feed is not None
            go, back = rail(feed.source)
            here = net.node(), net.node()
            net.edges.append(Edge(f"feed:{name}", go, here[0], 0.5))
            net.edges.append(Edge(f"feed:{name}", here[1], back, 0.5))
            rails[name] = here
        return rails[name]

    for name in alive:
        go, back = rail(rails_of[name])
        behind, channel = net.node(), net.node()
        net.edges.append(Edge(f"driver:{name}", go, behind))
        net.volts.append(Volts(f"drop:{name}", behind, channel))
        _circuit(net, model, model.circuits[name], channel, back)
    return net


def _circuit(net: Network, model: Model, circuit: Circuit, go: int, back: int) -> None:
    """Wire one circuit to the two conductors of its channel."""
    _group(net, model, circuit.name, circuit.wiring, go, back, outermost=True)


def _firsts(group: Group) -> list[str]:
    """The first match of each member."""
    found = []
    for member in group.members:
        first = member
        while isinstance(first, Group):
            first = first.members[0]
        found.append(first)
    return found


def _holds(member: str | Group, match: str | None) -> bool:
    """Whether a member is, or contains, a match."""
    if isinstance(member, Group):
        return any(_holds(each, match) for each in member.members)
    return member == match


def _group(
    net: Network,
    model: Model,
    name: str,
    group: Group,
    go: int,
    back: int,
    *,
    outermost: bool = False,
) -> None:
    """Wire a group between two conductors."""
    firsts = _firsts(group)
    if group.lead is not None and group.lead.length_m:
        key = f"{name}/lead" if outermost else f"{name}/lead:{firsts[0]}"
        go, back = _pair(net, key, go, back)
    if group.how == "parallel":
        _line(net, model, name, group, firsts, go, back)
        return
    last = len(group.members) - 1
    for k, member in enumerate(group.members):
        if k == last:
            _member(net, model, name, member, go, back)
            return
        after = net.node()
        _member(net, model, name, member, go, after)
        go = after
        if group.spacing is not None and group.spacing.length_m:
            go, back = _pair(net, f"{name}/segment:{firsts[k]}>{firsts[k + 1]}", go, back)


def _line(net: Network, model: Model, name: str, group: Group, firsts: list[str], go: int, back: int) -> None:
    """Members across a pair that runs past all of them; the lead comes in at one."""
    fed = next((k for k, m in enumerate(group.members) if _holds(m, group.feed_at)), 0)
    apart = group.spacing is not None and group.spacing.length_m
    places = {fed: (go, back)}
    for k in range(fed + 1, len(firsts)):
        key = f"{name}/segment:{firsts[k - 1]}>{firsts[k]}"
        places[k] = _pair(net, key, *places[k - 1]) if apart else (go, back)
    for k in range(fed - 1, -1, -1):
        key = f"{name}/segment:{firsts[k]}>{firsts[k + 1]}"
        places[k] = _pair(net, key, *places[k + 1]) if apart else (go, back)
    for k, member in enumerate(group.members):
        _member(net, model, name, member, *places[k])


def _pair(net: Network, key: str, go: int, back: int) -> tuple[int, int]:
    """A two-conductor cable: half of the loop's resistance in each conductor."""
    ends = net.node(), net.node()
    net.edges.append(Edge(key, go, ends[0], 0.5))
    net.edges.append(Edge(key, ends[1], back, 0.5))
    return ends


def _member(net: Network, model: Model, name: str, member: str | Group, go: int, back: int) -> None:
    """A nested group, or a match: joint, leg, bridge, leg, joint."""
    if isinstance(member, Group):
        _group(net, model, name, member, go, back)
        return
    kind = model.matches[model.match_uses[member].igniter or ""]
    for what, there in (
        ("splice", model.show.joint_ohm.high > 0.0),
        ("leg", kind.leg_length_m > 0.0),
    ):
        if there:
            go, back = _pair(net, f"{name}/{what}:{member}", go, back)
    net.edges.append(Edge(f"{name}/bridge:{member}", go, back))
