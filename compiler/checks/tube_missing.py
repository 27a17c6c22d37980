"""Every shell has a tube of its calibre.

Protects from
    A shell that arrives at a place where no mortar takes it, or that is put into a wider tube, where
    it goes up too low or not at all.

How it is computed
    In a show that declares racks, shells and the shells of chains fill the tubes of the racks at their
    place in the order of firing. A shell of no stated calibre is not asked for a tube, and a show
    without any `rack` is asked for none.

Limit and source
    One tube for each shell, its calibre within 1.5 mm: 75 mm and 3 in, which is 76.2 mm, are one size
    of the trade (common practice). Never waived.

Breaks it
    rack R1 of 1 tubes 75 mm at Q1
    cue 1 at 0:06.0 shell-75 at Q1
    cue 2 at 0:16.0 shell-75 at Q1         # the one tube is taken

Keeps it
    rack R1 of 2 tubes 75 mm at Q1
    cue 1 at 0:06.0 shell-75 at Q1
    cue 2 at 0:16.0 shell-75 at Q1
"""

from __future__ import annotations

from compiler.checks.rule import rule

RULE = rule("tube-missing", "error", __doc__)
