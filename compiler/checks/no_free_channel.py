"""Every circuit finds a channel.

Protects from
    A circuit with sheets and no place to plug it in.

How it is computed
    Circuits without `on` or `bind` take the nearest rail that serves their place and has a free
    channel, in order of firing time, then of name. One that finds none is reported.

Limit and source
    `channels` of the module less the channels kept spare (`spare` of the rail, else the limits
    `spare-share` and `spare-least`); `serves` of the rail; `reach` of the module.

Breaks it
    rail A of dc-16 at Q1 { feed Pack-1; serves Q1 }
    cue 1 at 0:06.0 comet-gold at Q2       # nothing serves Q2

Keeps it
    rail A of dc-16 at Q1 { feed Pack-1; serves Q1, Q2 }
    cue 1 at 0:06.0 comet-gold at Q2
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("no-free-channel", "error", __doc__)
