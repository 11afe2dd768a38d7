"""What a week is worth to the planner, in words: what opens behind its proof."""

from __future__ import annotations

WORTH = (
    "the square root of the weekly sets, summed over all parts by their size and by what you put"
    " first, less the cost of each stop, of loaded joints and of changes to your week"
)
PROOF = (
    "a looser question that every such week answers gives a worth that none can pass; it is split"
    " and tightened until that lies near the best week found"
)
WORTH_FACTS = (
    ("worth", WORTH),
    ("proof", PROOF),
    ("how sure", "the bound is certain for this measure; how well the measure tells growth is not"),
    ("source", "square root: Pelland 2024, from memory; weights: pennate evidence plan"),
)
"""Rule, proof, doubt and source of a week’s worth."""
