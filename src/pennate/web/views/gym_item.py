"""One thing of a gym as a form: its picture, its few main questions, the rest folded away."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from markupsafe import Markup

from pennate.app.gym_forms import Entry, FormField, form_fields, shown_values
from pennate.core.exercise import Catalogue
from pennate.core.gym import AnyItem, BandSet, Bar, BarShape, Gym, Ladder, Sled, Stack
from pennate.core.loaded import Loaded
from pennate.core.plural import plural
from pennate.core.quantities import Unit
from pennate.errors import InputError
from pennate.files.gym import KIND_OF
from pennate.loading import ladder
from pennate.sheets.pictures import picture
from pennate.web.views.gym import KIND_WORDS
from pennate.web.words import load_words, mass_words

FIRST: Mapping[str, tuple[str, ...]] = {
    "bar": ("name", "mass", "unit", "safeties"),
    "guided_bar": ("name", "start", "unit", "label_only"),
    "dumbbells": ("masses", "unit"),
    "fixed_barbells": ("masses", "unit"),
    "kettlebells": ("masses", "unit"),
    "stack": ("name", "start", "step", "top", "unit", "label_only"),
    "cable": ("name", "start", "step", "top", "unit", "ratio"),
    "sled": ("name", "mass", "unit", "angle", "label_only"),
    "plate_loaded": ("name", "mass", "unit", "label_only"),
    "bands": ("band", "unit", "assists"),
    "assisted": ("name", "start", "step", "top", "unit", "label_only"),
    "body_weight": ("name", "belt"),
}
"""What a form asks at once; the rest is folded away."""
LABELS = {
    ("bar", "mass"): "mass without plates",
    ("sled", "mass"): "mass without plates",
    ("plate_loaded", "mass"): "mass without plates",
    ("guided_bar", "start"): "feels like, without plates",
    ("stack", "start"): "lightest pin",
    ("cable", "start"): "lightest pin",
    ("assisted", "start"): "least help",
    ("assisted", "top"): "most help",
    ("stack", "top"): "heaviest pin",
    ("cable", "top"): "heaviest pin",
}
HINTS = {
    "masses": "ranges and single ones, like 1-10 by 1; 12-30 by 2",
    "band": "one a line with its pull, like red 12 kg",
    "ratio": "2:1 where the stack feels half as heavy",
    "angle": "degrees, like 45",
    "top": "empty: 30 steps",
    "station": "two exercises of a superset cannot share one",
    "zone": "where it stands, like machines",
    "for": "names, one a line; empty takes every exercise of its kind",
    "units": "kg; lb only if you mix them on it",
    "add_ons": "like 1.25; 2.5",
    "collars": "where they count in the load",
}
OPTIONS = {
    "unit": tuple((unit.value, unit.value) for unit in Unit),
    "shape": tuple((shape.value, shape.value) for shape in BarShape),
}
LINES = {"for", "band", "masses"}
"""Fields of several lines."""
NO_BREAK = "\N{NO-BREAK SPACE}"
EXAMPLE_PLACE = {Bar: 12, Sled: 12}
"""The picture shows a load this part of the way up: a third, less where plates are many."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldView:
    """One question with what stands in it."""

    key: str
    label: str
    entry: str
    """`text`, `lines`, `choice` or `yes`."""
    mode: str
    value: str
    hint: str
    wrong: str
    options: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemView:
    """The page of one thing, known or new."""

    gym: str
    gym_name: str
    kind: str
    id: str
    title: str
    about: str
    picture: Markup
    picture_words: str
    """What is put on in the picture."""
    loads_words: str
    """How many loads there are and between which; empty for a thing that is not there yet."""
    loads: tuple[tuple[str, str], ...]
    """Every load with what is put on for it, where there are several."""
    loads_rule: str
    first: tuple[FieldView, ...]
    more: tuple[FieldView, ...]
    more_open: bool
    done_on_it: tuple[str, ...]
    """Exercises of her week done on it."""


@dataclass(frozen=True, slots=True)
class Typed:
    """A form that could not be saved: its texts, and what is wrong by field."""

    values: Mapping[str, str]
    wrong: Mapping[str, str]


def kind_of(item: AnyItem) -> str:
    """The key of the table an item stands in."""
    return next(key for key, kind in KIND_OF.items() if kind is item.kind)


def item_view(
    gym: Gym,
    item: AnyItem,
    catalogue: Catalogue,
    typed: Typed | None = None,
    uses: Iterable[str] = (),
) -> ItemView:
    """The page of a thing that is there."""
    kind = kind_of(item)
    values = dict(typed.values) if typed else _shown(item, catalogue)
    rungs = [rung for rung in ladder(gym, item) if rung.load.amount] or list(ladder(gym, item))
    shown = rungs[len(rungs) // EXAMPLE_PLACE.get(type(item), 3)]
    several = rungs if len(rungs) > 1 else []
    first, more, is_open = _fields(kind, values, typed.wrong if typed else {})
    return ItemView(
        gym=gym.id,
        gym_name=gym.name,
        kind=kind,
        id=item.id,
        title=item.name,
        about=KIND_WORDS[kind],
        picture=Markup(picture(shown, item)),  # noqa: S704 # our own drawing
        picture_words=shown.words if several else "",
        loads_words=_range(rungs),
        loads=tuple((load_words(rung).replace(" ", NO_BREAK), rung.words) for rung in several),
        loads_rule=_loads_rule(item),
        first=first,
        more=more,
        more_open=is_open,
        done_on_it=tuple(uses),
    )


def new_view(gym: Gym, kind: str, unit: str, typed: Typed | None = None) -> ItemView:
    """The page of a thing to be added; raises InputError for a kind that is none."""
    if kind not in KIND_WORDS:
        raise InputError(f"“{kind[:20]}” is not a kind of equipment", remedy="choose from the list")
    values = dict(typed.values) if typed else {"unit": unit}
    first, more, is_open = _fields(kind, values, typed.wrong if typed else {})
    return ItemView(
        gym=gym.id,
        gym_name=gym.name,
        kind=kind,
        id="",
        title=f"Add: {KIND_WORDS[kind].lower()}",
        about="",
        picture=Markup(),
        picture_words="",
        loads_words="",
        loads=(),
        loads_rule="",
        first=first,
        more=more,
        more_open=is_open,
        done_on_it=(),
    )


def _shown(item: AnyItem, catalogue: Catalogue) -> dict[str, str]:
    """The stored values, exercises by their names, a line each."""
    values = shown_values(item)
    names = [found.name for one in item.serves if (found := catalogue.find(one))]
    bands = values.get("band", "").replace("; ", "\n")
    return {**values, "for": "\n".join(names), "band": bands}


def _range(rungs: list[Loaded]) -> str:
    if len(rungs) == 1:
        return "one load: " + load_words(rungs[0])
    low, high = sorted((rungs[0], rungs[-1]), key=lambda rung: abs(rung.load.in_kg))
    least = -low.load if low.load.amount < 0 else low.load
    return f"{plural(len(rungs), 'load')}, {mass_words(least)} to {load_words(high)}"


def _loads_rule(item: AnyItem) -> str:
    """How the loads of a thing are found, and from what was saved."""
    if isinstance(item, Ladder):
        return (
            "Each is one of the masses saved below, as it lies there. The cards ask for no other."
        )
    if isinstance(item, Stack):
        return (
            "Each is a mark of the pin from the lightest to the heaviest saved below, alone and"
            " with the small masses laid on it. The cards ask for no other."
        )
    if isinstance(item, BandSet):
        return "Each is one of the bands saved below, or two together. The cards ask for no other."
    return (
        "Each is what this can carry of the plates saved for this gym, with the fewest plates that"
        " make it. The cards ask for no other."
    )


def _fields(
    kind: str, values: Mapping[str, str], wrong: Mapping[str, str]
) -> tuple[tuple[FieldView, ...], tuple[FieldView, ...], bool]:
    """Main questions, the others, and whether the others hold a complaint."""
    known = {field.key: field for field in form_fields(kind)}
    first = tuple(_field(kind, known[key], values, wrong) for key in FIRST[kind])
    more = tuple(
        _field(kind, field, values, wrong) for key, field in known.items() if key not in FIRST[kind]
    )
    return first, more, any(field.wrong for field in more)


def _field(
    kind: str, field: FormField, values: Mapping[str, str], wrong: Mapping[str, str]
) -> FieldView:
    label = LABELS.get((kind, field.key), field.label)
    return FieldView(
        key=field.key,
        label=label[:1].upper() + label[1:],
        entry=_entry(field),
        mode={Entry.NUMBER: "decimal", Entry.WHOLE: "numeric"}.get(field.entry, "text"),
        value=values.get(field.key, ""),
        hint=HINTS.get(field.key, ""),
        wrong=wrong.get(field.key, ""),
        options=OPTIONS.get(field.key, ()),
    )


def _entry(field: FormField) -> str:
    if field.key in OPTIONS:
        return "choice"
    if field.entry is Entry.YES:
        return "yes"
    return "lines" if field.key in LINES else "text"


def slips_of(error: InputError, kind: str) -> dict[str, str]:
    """What is wrong by the key of its field; under "" where no field is known."""
    labels = {field.label: field.key for field in form_fields(kind)}
    place = (error.where.field or "").strip()
    key = labels.get(place) or place.rpartition(", ")[2]
    key = key if key in labels.values() else "band" if "is not a band" in error.what else ""
    return {key: words_of(error, key)}


def words_of(error: InputError, key: str) -> str:
    """A complaint beside its field, in the words of the form rather than of the file."""
    remedy = error.remedy.replace(f"write it like {key} = ", "like ").replace("[[", "[")
    if "is missing" in error.what:
        return f"this is needed, {remedy.replace(f'add {key} = ', 'like ')}"
    return f"{error.what}; {remedy}" if remedy else error.what
